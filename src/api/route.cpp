#include "api/route.hpp"

#include <algorithm>
#include <charconv>

#include "base/nearest.hpp"

namespace undercroft::api {

std::string Query::text(const char* name) {
    m_asked.emplace_back(name);
    std::string found;
    int times = 0;
    for (const auto& [key, value] : m_target.query)
        if (key == name) {
            found = value;
            ++times;
        }
    if (times > 1 && !m_error)
        m_error =
            Error{ErrorKind::bad_input, name, "\"" + std::string(name) + "\" stands twice in the address.", {}, {}};
    return found;
}

std::vector<std::string> Query::texts(const char* name) {
    m_asked.emplace_back(name);
    std::vector<std::string> found;
    for (const auto& [key, value] : m_target.query)
        if (key == name) found.push_back(value);
    return found;
}

std::int64_t Query::number(const char* name, std::int64_t otherwise, std::int64_t low, std::int64_t high) {
    const std::string written = text(name);
    if (written.empty()) return otherwise;
    std::int64_t value = 0;
    const auto [end, code] = std::from_chars(written.data(), written.data() + written.size(), value);
    if (code == std::errc{} && end == written.data() + written.size() && value >= low && value <= high) return value;
    if (!m_error)
        m_error = Error{ErrorKind::bad_input,
                        name,
                        "\"" + written.substr(0, 40) + "\" is no whole number from " + std::to_string(low) + " to " +
                            std::to_string(high) + ".",
                        {},
                        {}};
    return otherwise;
}

Result<void> Query::done() {
    m_asked.emplace_back("cellar");
    if (m_error) return Failure{*m_error};
    for (const auto& [key, value] : m_target.query) {
        if (std::find(m_asked.begin(), m_asked.end(), key) != m_asked.end()) continue;
        std::string all;
        for (const std::string& name : m_asked) all += (all.empty() ? "" : ", ") + name;
        const std::vector<std::string> near = nearest_names(key, m_asked, 1);
        return fail(ErrorKind::bad_input, key, "Nothing is called \"" + key.substr(0, 60) + "\" in this address.",
                    {{"it may hold", all}}, near.empty() ? "" : "Did you mean \"" + near.front() + "\"?");
    }
    return {};
}

Answer json_answer(std::string body, int status) {
    Answer answer;
    answer.status = status;
    answer.body = std::move(body);
    return answer;
}

std::string with_member(std::string answer, std::string_view name, std::string_view value) {
    std::string front = "{\"" + std::string(name) + "\":" + std::string(value);
    if (!answer.starts_with("{}")) front += ",";
    return front + answer.substr(1);
}

std::vector<const Route*> all_routes() {
    std::vector<const Route*> all;
    for (const auto& part : {question_routes(), sitting_routes(), sum_routes(), exchange_routes(), paper_routes()})
        for (const Route& route : part) all.push_back(&route);
    return all;
}

}  // namespace undercroft::api

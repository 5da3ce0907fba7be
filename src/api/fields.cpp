#include "api/fields.hpp"

#include <algorithm>
#include <set>

#include "base/base64.hpp"
#include "base/nearest.hpp"

namespace undercroft::api {
namespace {

// How a value is called in an error.
std::string kind_of(const Json& value) {
    switch (value.type()) {
        case Json::value_t::string:
            return "the text \"" + value.get<std::string>().substr(0, 40) + "\"";
        case Json::value_t::boolean:
            return value.get<bool>() ? "true" : "false";
        case Json::value_t::number_integer:
        case Json::value_t::number_unsigned:
        case Json::value_t::number_float:
            return "the number " + value.dump();
        case Json::value_t::object:
            return "an object";
        case Json::value_t::array:
            return "a list";
        default:
            return "null";
    }
}

std::string list_of(const std::vector<std::string>& words) {
    std::string list;
    for (const std::string& word : words) list += (list.empty() ? "" : ", ") + word;
    return list;
}

}  // namespace

Result<Json> parse_json(const std::string& body) {
    std::vector<std::set<std::string>> keys;
    std::string twice;
    const auto watch = [&](int, Json::parse_event_t event, Json& value) {
        if (event == Json::parse_event_t::object_start) keys.emplace_back();
        if (event == Json::parse_event_t::object_end) keys.pop_back();
        if (event == Json::parse_event_t::key && !keys.back().insert(value.get<std::string>()).second && twice.empty())
            twice = value.get<std::string>();
        return true;
    };
    // The vendor throws; the door is here (decision 0009).
    try {
        Json json = Json::parse(body, watch);
        if (!twice.empty()) return fail(ErrorKind::bad_input, twice, "The field \"" + twice + "\" stands twice.");
        return json;
    } catch (const Json::parse_error& error) {
        return fail(ErrorKind::bad_input, "body", "The body is no JSON.",
                    {{"stops at byte", std::to_string(error.byte)}}, "Send one JSON object in UTF-8.");
    } catch (const Json::exception&) {
        return fail(ErrorKind::bad_input, "body", "The body holds a number that no machine holds.");
    }
}

Fields::Fields(const Json& object, std::string where) : m_object(object), m_where(std::move(where)) {
    if (!m_object.is_object())
        refuse({ErrorKind::bad_input,
                m_where.empty() ? "body" : m_where,
                "Here stands " + kind_of(m_object) + "; an object with fields is wanted.",
                {},
                {}});
}

std::string Fields::place(std::string_view name) const {
    return (m_where.empty() ? "" : m_where + ".") + std::string(name);
}

std::string Fields::place(std::string_view name, std::size_t index) const {
    return place(name) + "[" + std::to_string(index) + "]";
}

void Fields::refuse(Error error) {
    if (!m_error) m_error = std::move(error);
}

void Fields::refuse(std::string_view name, std::string what) {
    refuse({ErrorKind::bad_input, place(name), std::move(what), {}, {}});
}

const Json* Fields::find(const char* name, Need need) {
    m_asked.emplace_back(name);
    if (m_error) return nullptr;
    const auto found = m_object.find(name);
    if (found != m_object.end() && !found->is_null()) return &*found;
    if (need == Need::must) {
        refuse(name, "\"" + std::string(name) + "\" is left out, and it is needed.");
        m_misses = true;
    }
    return nullptr;
}

void Fields::text(const char* name, std::string& into, Need need) {
    const Json* value = find(name, need);
    if (value == nullptr) return;
    if (!value->is_string())
        return refuse(name, "Here stands " + kind_of(*value) + "; text is wanted, as it would be typed: \"18 L\".");
    into = value->get<std::string>();
    if (need == Need::must && into.empty()) refuse(name, "\"" + std::string(name) + "\" is empty, and it is needed.");
}

void Fields::texts(const char* name, std::vector<std::string>& into) {
    const Json* value = find(name, Need::may);
    if (value == nullptr) return;
    if (!value->is_array()) return refuse(name, "Here stands " + kind_of(*value) + "; a list of texts is wanted.");
    for (std::size_t i = 0; i < value->size(); ++i) {
        if (!(*value)[i].is_string())
            return refuse({ErrorKind::bad_input,
                           place(name, i),
                           "Here stands " + kind_of((*value)[i]) + "; text is wanted, as it would be typed.",
                           {},
                           {}});
        into.push_back((*value)[i].get<std::string>());
    }
}

void Fields::text_or_texts(const char* name, std::vector<std::string>& into) {
    const auto found = m_object.is_object() ? m_object.find(name) : m_object.end();
    if (m_object.is_object() && found != m_object.end() && found->is_string()) {
        std::string one;
        text(name, one);
        if (!m_error) into.push_back(std::move(one));
        return;
    }
    texts(name, into);
}

void Fields::flag(const char* name, bool& into) {
    const Json* value = find(name, Need::may);
    if (value == nullptr) return;
    if (!value->is_boolean()) return refuse(name, "Here stands " + kind_of(*value) + "; true or false is wanted.");
    into = value->get<bool>();
}

void Fields::bytes(const char* name, std::string& into) {
    std::string encoded;
    text(name, encoded);
    if (encoded.empty()) return;
    if (auto bytes = bytes_of_base64(encoded))
        into = *std::move(bytes);
    else
        refuse(name, "These are no bytes in base64 (RFC 4648, with padding).");
}

void Fields::number(const char* name, std::int64_t& into, Need need) {
    const Json* value = find(name, need);
    if (value == nullptr) return;
    if (!value->is_number_integer())
        return refuse(name, "Here stands " + kind_of(*value) + "; a whole number is wanted.");
    into = value->get<std::int64_t>();
}

void Fields::word(const char* name, std::string& into, const std::vector<std::string>& words, Need need) {
    text(name, into, need);
    if (m_error || into.empty() || std::find(words.begin(), words.end(), into) != words.end()) return;
    refuse(name, "\"" + into.substr(0, 40) + "\" is no word known here; it is one of " + list_of(words) + ".");
}

const Json* Fields::object(const char* name, Need need) {
    const Json* value = find(name, need);
    if (value == nullptr || value->is_object()) return value;
    refuse(name, "Here stands " + kind_of(*value) + "; an object with fields is wanted.");
    return nullptr;
}

const Json* Fields::list(const char* name, Need need) {
    const Json* value = find(name, need);
    if (value == nullptr || value->is_array()) return value;
    refuse(name, "Here stands " + kind_of(*value) + "; a list is wanted.");
    return nullptr;
}

Result<void> Fields::done() {
    if ((!m_error || m_misses) && m_object.is_object())
        for (const auto& [name, value] : m_object.items())
            if (std::find(m_asked.begin(), m_asked.end(), name) == m_asked.end()) {
                const std::vector<std::string> near = nearest_names(name, m_asked, 1);
                m_error.reset();
                refuse({ErrorKind::bad_input,
                        place(name),
                        "No field is called \"" + name.substr(0, 60) + "\" here.",
                        {{"fields", list_of(m_asked)}},
                        near.empty() ? "" : "Did you mean \"" + near.front() + "\"?"});
                break;
            }
    if (m_error) return Failure{*m_error};
    return {};
}

}  // namespace undercroft::api

#include "api/acts.hpp"

#include <array>
#include <utility>

#include "api/act_fields.hpp"
#include "units/amount.hpp"

namespace undercroft::api {
namespace {

constexpr std::size_t k_most_acts = 1000;

// The word of each kind of act, in the order of app::Act.
constexpr auto k_words = std::to_array<const char*>(
    {"vessel",  "retire", "lot",         "move",   "loss",      "add",    "lift",  "pitch",  "reading",  "tasting",
     "package", "take",   "clean",       "treat",  "confirm",   "end",    "split", "note",   "interval", "target",
     "decide",  "label",  "acknowledge", "settle", "calibrate", "logger", "void",  "correct"});
static_assert(k_words.size() == std::variant_size_v<app::Act>);

// Writes what fields_of() names; what is empty is left out.
class Written {
public:
    explicit Written(const char* word) : m_json{{"act", word}} {}
    Written() : m_json(Json::object()) {}
    void text(const char* name, const std::string& value, Need = Need::may) {
        if (!value.empty()) m_json[name] = value;
    }
    void texts(const char* name, const std::vector<std::string>& values) {
        if (!values.empty()) m_json[name] = values;
    }
    void flag(const char* name, bool value) {
        if (value) m_json[name] = true;
    }
    void word(const char* name, const std::string& value, const std::vector<std::string>&, Need = Need::may) {
        text(name, value);
    }
    void bytes(const char*, const std::string&) {}
    template <class T>
    void objects(const char* name, std::vector<T>& values, Need need = Need::must) {
        if (need == Need::may && values.empty()) return;
        Json& list = m_json[name] = Json::array();
        for (T& value : values) {
            Written one;
            fields_of(one, value);
            list.push_back(std::move(one.m_json));
        }
    }
    [[nodiscard]] Json taken() { return std::move(m_json); }

private:
    Json m_json;
};

enum class Within { sitting, correction };

Result<app::Act> read_act(const Json& json, const std::string& where, Within within);

void read_correction(Fields& fields, app::Correct& act) {
    fields.text("entry", act.entry, Need::must);
    fields.text("reason", act.reason);
    const Json* instead = fields.object("instead", Need::must);
    if (instead == nullptr) return;
    auto read = read_act(*instead, fields.place("instead"), Within::correction);
    fields.take(read);
    if (read) act.instead = std::make_shared<const app::Act>(*std::move(read));
}

template <std::size_t I = 0>
void read_alternative(std::size_t wanted, Fields& fields, app::Act& act) {
    if constexpr (I < std::variant_size_v<app::Act>) {
        if (I != wanted) return read_alternative<I + 1>(wanted, fields, act);
        auto& one = act.emplace<I>();
        if constexpr (std::is_same_v<std::decay_t<decltype(one)>, app::Correct>)
            read_correction(fields, one);
        else
            fields_of(fields, one);
    }
}

Result<app::Act> read_act(const Json& json, const std::string& where, Within within) {
    Fields fields(json, where);
    std::vector<std::string> words = act_words();
    if (within == Within::correction)
        std::erase_if(words, [](const auto& word) {
            return word == "correct" || word == "void" || word == "end" || word == "split";
        });
    std::string word;
    fields.word("act", word, words);
    if (word.empty() && json.is_object()) {
        std::string all;
        for (const std::string& one : words) all += (all.empty() ? "" : ", ") + one;
        fields.refuse("act", "An act says which it is, one of " + all + ".");
    }
    std::size_t kind = 0;
    while (kind < k_words.size() && word != k_words[kind]) ++kind;
    app::Act act;
    if (kind < k_words.size()) read_alternative(kind, fields, act);
    TRY_VOID(fields.done());
    return act;
}

// An amount as answers write it: {"value": "18", "unit": "L"}.
Result<Volume> volume_from(const Json& json, const std::string& where) {
    Fields fields(json, where);
    std::string value;
    std::string unit;
    fields.text("value", value, Need::must);
    fields.text("unit", unit, Need::must);
    TRY_VOID(fields.done());
    return parse_volume(where, value + " " + unit, Gallons::unset);
}

void read_volume(Fields& fields, const char* name, Volume& into) {
    const Json* json = fields.object(name, Need::must);
    if (json == nullptr) return;
    const auto volume = volume_from(*json, fields.place(name));
    fields.take(volume);
    if (volume) into = *volume;
}

Result<app::Touched> touched_from(const Json& json, const std::string& where) {
    Fields fields(json, where);
    app::Touched touched;
    fields.number("number", touched.number, Need::must);
    fields.text("name", touched.name, Need::must);
    read_volume(fields, "held", touched.held);
    read_volume(fields, "volume", touched.volume);
    const Json* cultures = fields.list("cultures", Need::must);
    for (std::size_t i = 0; cultures != nullptr && i < cultures->size(); ++i) {
        Fields one((*cultures)[i], fields.place("cultures", i));
        app::TouchedCulture& culture = touched.cultures.emplace_back();
        one.text("name", culture.name, Need::must);
        one.word("certainty", culture.certainty, {"possible", "likely", "certain"}, Need::must);
        fields.take(one.done());
    }
    TRY_VOID(fields.done());
    return touched;
}

Result<app::Expected> expected_from(const Json& json, const std::string& where) {
    Fields fields(json, where);
    app::Expected expected;
    fields.number("sequence", expected.sequence, Need::must);
    const Json* touched = fields.list("touched", Need::must);
    for (std::size_t i = 0; touched != nullptr && i < touched->size(); ++i) {
        const auto one = touched_from((*touched)[i], fields.place("touched", i));
        fields.take(one);
        if (one) expected.touched.push_back(*one);
    }
    TRY_VOID(fields.done());
    return expected;
}

}  // namespace

std::vector<std::string> act_words() {
    return {k_words.begin(), k_words.end()};
}

Result<app::Act> act_from(const Json& json, const std::string& where) {
    return read_act(json, where, Within::sitting);
}

Json json_of(const app::Act& act) {
    app::Act copy = act;
    return std::visit(
        [&](auto& one) -> Json {
            Written written(k_words[act.index()]);
            if constexpr (std::is_same_v<std::decay_t<decltype(one)>, app::Correct>) {
                written.text("entry", one.entry);
                written.text("reason", one.reason);
                Json json = written.taken();
                json["instead"] = json_of(*one.instead);
                return json;
            } else {
                fields_of(written, one);
                return written.taken();
            }
        },
        copy);
}

Result<PostedSitting> sitting_from(const Json& body) {
    Fields fields(body, "");
    PostedSitting posted;
    app::SittingRequest& request = posted.request;
    fields.text("when", request.when);
    fields.text("after", request.after);
    fields.text("by", request.by);
    fields.text("key", request.key);
    const Json* acts = fields.list("acts", Need::must);
    if (acts != nullptr && acts->empty()) fields.refuse("acts", "There is nothing to book: the list is empty.");
    if (acts != nullptr && acts->size() > k_most_acts)
        fields.refuse("acts",
                      "A sitting that is sent holds at most " + std::to_string(k_most_acts) + " acts; split it.");
    else if (acts != nullptr)
        for (std::size_t i = 0; i < acts->size(); ++i) {
            auto act = act_from((*acts)[i], fields.place("acts", i));
            fields.take(act);
            if (act) request.acts.push_back(*std::move(act));
        }
    if (const Json* json = fields.object("expected")) {
        auto expected = expected_from(*json, fields.place("expected"));
        fields.take(expected);
        if (expected) posted.expected = *std::move(expected);
    }
    TRY_VOID(fields.done());
    return posted;
}

}  // namespace undercroft::api

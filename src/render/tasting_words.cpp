#include "render/tasting_words.hpp"

#include "base/letters.hpp"
#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"

namespace undercroft::render {
namespace {

std::string sentence(const std::string& label, const std::string& words) {
    if (words.empty()) return {};
    return wrapped("      ", label + words + (words.ends_with('.') ? "" : "."));
}

Json to_json(const tables::Attribute& it) {
    return {{"id", it.id},
            {"name", it.name},
            {"also", it.also},
            {"group", it.group},
            {"explanation", it.explanation},
            {"reference_for_3", it.reference_for_3},
            {"reference_for_7", it.reference_for_7},
            {"causes", it.causes},
            {"raises", it.raises},
            {"lowers", it.lowers},
            {"mark", std::string(1, it.mark)},
            {"source", it.source}};
}
Json to_json(const tables::Fault& it) {
    return {{"id", it.id},
            {"name", it.name},
            {"also", it.also},
            {"smells_like", it.smells_like},
            {"cause", it.cause},
            {"confirm_how", it.confirm_how},
            {"mends_with_time", it.mends_with_time},
            {"mend_low_weeks", or_null(it.mend_low_weeks)},
            {"mend_high_weeks", or_null(it.mend_high_weeks)},
            {"blocks_pull", it.blocks_pull},
            {"blocks_packaging", it.blocks_packaging},
            {"blocks_refilling", it.blocks_refilling},
            {"blocks_return_to_solera", it.blocks_return_to_solera},
            {"unsafe", it.unsafe},
            {"action", it.action},
            {"caution", it.caution},
            {"mark", std::string(1, it.mark)},
            {"source", it.source}};
}

}  // namespace

std::string text_of(const app::TastingWordsView& view) {
    std::string out = title(view.book, "what can be tasted", "0 none, 3 clear, 5 middling, 7 strong, 10 at most");
    const bool all = view.attributes.size() + view.faults.size() > 3;
    if (!view.attributes.empty()) out += heading("Attributes");
    for (const tables::Attribute& it : view.attributes) {
        out += wrapped(
            "  ", it.id + ": " + it.explanation + (it.also.empty() ? "" : " (also: " + joined(it.also, ", ") + ")"));
        if (all) continue;
        out +=
            sentence("A glass that is 3: ", it.reference_for_3) + sentence("A glass that is 7: ", it.reference_for_7);
        out += sentence("Comes from: ", it.causes) + sentence("Raised by: ", it.raises) +
               sentence("Lowered by: ", it.lowers) + sentence("Source: ", std::string(1, it.mark) + ", " + it.source);
    }
    if (!view.faults.empty()) out += heading("Faults");
    for (const tables::Fault& it : view.faults) {
        out += wrapped(
            "  ", it.id + ": " + it.smells_like + (it.also.empty() ? "" : " (also: " + joined(it.also, ", ") + ")"));
        if (all) continue;
        out += sentence("Cause: ", it.cause) + sentence("To be sure: ", it.confirm_how) +
               sentence("What to do: ", it.action) + sentence("Mind: ", it.caution) +
               sentence("Source: ", std::string(1, it.mark) + ", " + it.source);
    }
    if (!view.own.empty()) out += heading("Words of this book");
    for (const app::OwnWord& it : view.own) out += wrapped("  ", it.word + ": " + it.like);
    if (!view.faults.empty()) out += "\n" + wrapped("  ", view.on_faults);
    return out;
}

std::string json_of(const app::TastingWordsView& view) {
    Json json = head_of(view.book);
    Json& attributes = json["attributes"] = Json::array();
    for (const tables::Attribute& it : view.attributes) attributes.push_back(to_json(it));
    Json& faults = json["faults"] = Json::array();
    for (const tables::Fault& it : view.faults) faults.push_back(to_json(it));
    Json& own = json["own"] = Json::array();
    for (const app::OwnWord& it : view.own) own.push_back({{"word", it.word}, {"like", it.like}});
    json["on_faults"] = view.on_faults;
    return line_of(json);
}

}  // namespace undercroft::render

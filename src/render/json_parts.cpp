#include "render/json_parts.hpp"

#include "units/amount.hpp"

namespace undercroft::render {

Json head_of(const app::BookLine& book) {
    if (book.name.empty()) return Json::object();
    Json json = {{"book",
                  {{"name", book.name},
                   {"zone", book.zone},
                   {"invented", book.invented},
                   {"read_only", book.read_only},
                   {"sequence", book.sequence}}}};
    if (book.skipped > 0) {
        json["book"]["skipped"] = book.skipped;
        json["book"]["skipped_since"] = book.skipped_since;
    }
    if (!book.answers_until.empty()) json["book"]["answers_until"] = book.answers_until;
    return json;
}

Json amount(Volume volume) {
    const std::string text = exact_text_of(volume);
    const std::size_t blank = text.find(' ');
    return {{"value", text.substr(0, blank)}, {"unit", text.substr(blank + 1)}};
}

Json to_json(const app::Caution& caution) {
    return {{"id", caution.id}, {"words", caution.words}};
}

Json to_json(const app::EntryLine& entry) {
    Json json = {{"number", entry.number}, {"key", entry.key},   {"kind", entry.kind}, {"day", entry.day},
                 {"time", entry.time},     {"text", entry.text}, {"by", entry.by},     {"live", entry.live}};
    if (!entry.live) json["superseded_by"] = entry.superseded_by;
    if (!entry.reason.empty()) json["reason"] = entry.reason;
    return json;
}

Json to_json(const app::Receiver& one) {
    return {{"who", one.who}, {"count", one.count}, {"cause", one.cause}, {"day", one.day}};
}

Json to_json(const app::RunSummary& run) {
    Json taken = Json::object();
    for (const auto& [cause, count] : run.taken) taken[cause] = count;
    return {{"number", run.number},
            {"run", run.run},
            {"source", run.source},
            {"container", run.container},
            {"fill", amount(run.fill)},
            {"count", run.count},
            {"left", run.left},
            {"taken", std::move(taken)},
            {"found_again", run.found_again},
            {"packaged", run.packaged},
            {"location", run.location},
            {"age_when_packaged", run.age_when_packaged ? render::to_json(*run.age_when_packaged) : Json(nullptr)},
            {"years_in_container", run.years_in_container}};
}

Json to_json(const app::DueLine& due) {
    return {{"subject", due.subject}, {"what", due.what},      {"title", due.title}, {"from", due.from},
            {"day", due.day},         {"until", due.until},    {"days", due.days},   {"urgent", due.urgent},
            {"why", due.why},         {"command", due.command}};
}

Json to_json(const app::FindingView& finding) {
    Json differences = Json::array();
    for (const app::FindingDifference& one : finding.differences)
        differences.push_back({{"what", one.what}, {"said", one.said}, {"now", one.now}});
    return {{"kind", finding.kind},
            {"run", finding.run},
            {"number", finding.number},
            {"key", finding.key},
            {"day", finding.day},
            {"since", finding.since},
            {"differences", std::move(differences)},
            {"on_hand", finding.on_hand},
            {"given", finding.given},
            {"sold", finding.sold},
            {"receivers", list_of(finding.receivers)},
            {"words", finding.words},
            {"where", finding.where},
            {"next_step", finding.next_step}};
}

Json to_json(const app::Term& term) {
    return {
        {"name", term.name}, {"value", term.value}, {"unit", term.unit}, {"how", term.how}, {"source", term.source}};
}

Json to_json(const engine::Age& age) {
    Json parts = Json::array();
    for (const engine::VintagePart& part : age.parts)
        parts.push_back({{"name", part.name},
                         {"share", part.share},
                         {"age_years", part.age_years},
                         {"age_spread_years", part.age_spread_years},
                         {"assumed", part.assumed}});
    Json others = Json::array();
    for (const engine::OtherSource& other : age.others)
        others.push_back({{"name", other.name}, {"kind", ledger::word(other.kind)}, {"share", other.share}});
    return {{"from", engine::word(age.from)},
            {"mean_years", age.mean_years},
            {"sd_years", age.sd_years},
            {"low_years", age.low_years},
            {"high_years", age.high_years},
            {"youngest_years", age.youngest_years},
            {"youngest_name", age.youngest_name},
            {"youngest_share", age.youngest_share},
            {"share_older_than_3_years", engine::share_older_than(age, 3.0)},
            {"effective_vintages", age.effective_vintages},
            {"assumed", age.assumed},
            {"beer_share", age.beer_share},
            {"parts", std::move(parts)},
            {"others", std::move(others)}};
}

std::string line_of(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace undercroft::render

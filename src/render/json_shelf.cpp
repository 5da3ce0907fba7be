#include "render/json_parts.hpp"
#include "render/shelf.hpp"

namespace undercroft::render {
namespace {

Json to_json(const app::RecallPlace& place) {
    Json gone = Json::array();
    for (const auto& [cause, count] : place.gone) gone.push_back({{"cause", cause}, {"count", count}});
    return {{"kind", place.kind},           {"number", place.number},       {"name", place.name},
            {"location", place.location},   {"holds", amount(place.holds)}, {"share", or_null(place.share)},
            {"certainty", place.certainty}, {"since", place.since},         {"packaged", place.packaged},
            {"count", place.count},         {"left", place.left},           {"received", list_of(place.received)},
            {"gone", std::move(gone)}};
}

Json places(const std::vector<app::RecallPlace>& list) {
    Json json = Json::array();
    for (const app::RecallPlace& one : list) json.push_back(to_json(one));
    return json;
}

Json to_json(const app::DregsUse& use) {
    return {{"use", use.use}, {"answer", use.answer}, {"why", use.why}};
}

Json to_json(const app::ShelfRun& one) {
    Json json = render::to_json(one.run);
    Json opened = Json::array();
    for (const app::ShelfTasting& tasting : one.opened)
        opened.push_back({{"day", tasting.day},
                          {"years", tasting.years},
                          {"liking", or_null(tasting.liking)},
                          {"words", tasting.words}});
    json["solera"] = one.solera;
    json["next"] = one.next ? render::to_json(*one.next) : Json(nullptr);
    json["opened"] = std::move(opened);
    json["received"] = list_of(one.received);
    return json;
}

}  // namespace

std::string json_of(const app::ShelfView& view) {
    Json json = head_of(view.book);
    json["on"] = view.on;
    Json& by_place = json["places"] = Json::array();
    for (const app::ShelfPlace& place : view.places) {
        Json runs = Json::array();
        for (const app::ShelfRun& one : place.runs) runs.push_back(to_json(one));
        by_place.push_back({{"location", place.location}, {"containers", place.containers}, {"runs", std::move(runs)}});
    }
    json["due"] = list_of(view.due);
    Json& verticals = json["verticals"] = Json::array();
    for (const app::Vertical& one : view.verticals) verticals.push_back({{"solera", one.solera}, {"runs", one.runs}});
    Json& trends = json["trends"] = Json::array();
    for (const app::ShelfTrend& one : view.trends)
        trends.push_back({{"of", one.of},
                          {"tastings", one.tastings},
                          {"per_year", one.per_year},
                          {"sd", one.sd},
                          {"words", one.words}});
    return line_of(json);
}

std::string json_of(const app::WeighingView& view) {
    Json json = head_of(view.book);
    json["vessel"] = view.vessel;
    json["twin"] = view.twin;
    json["since"] = view.since;
    json["volume"] = amount(view.volume);
    json["words"] = view.words;
    json["terms"] = list_of(view.terms);
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

std::string json_of(const app::PrintedView& view) {
    Json json = head_of(view.book);
    json["what"] = view.what;
    json["subject"] = view.subject;
    json["file"] = view.file;
    json["pages"] = view.pages;
    json["words"] = view.words;
    json["kept"] = view.kept;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

std::string json_of(const app::RecallView& view) {
    Json json = head_of(view.book);
    json["what"] = view.what;
    json["subject"] = view.subject;
    json["on"] = view.on;
    json["words"] = view.words;
    json["vessels"] = places(view.vessels);
    json["runs"] = places(view.runs);
    json["gear"] = view.gear;
    json["on_hand"] = view.on_hand;
    json["with_others"] = view.with_others;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

std::string json_of(const app::DregsView& view) {
    Json json = head_of(view.book);
    json["subject"] = view.subject;
    json["on"] = view.on;
    json["years_in_container"] = view.years_in_container;
    Json& cultures = json["cultures"] = Json::array();
    for (const app::DregsCulture& one : view.cultures)
        cultures.push_back({{"name", one.name},
                            {"kind", one.kind},
                            {"certainty", one.certainty},
                            {"since", one.since},
                            {"alive", one.alive},
                            {"about", one.about}});
    json["displaced"] = view.displaced;
    json["share"] = to_json(view.share);
    json["pitch"] = to_json(view.pitch);
    Json& back = json["put_back"] = Json::array();
    for (const app::DregsUse& one : view.put_back) back.push_back(to_json(one));
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

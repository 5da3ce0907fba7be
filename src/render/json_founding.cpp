#include "render/ages.hpp"
#include "render/json.hpp"
#include "render/json_parts.hpp"

namespace undercroft::render {
namespace {

// A sitting is the same inside another answer as it is alone.
Json sitting_of(const app::SittingView& view) {
    return Json::parse(json_of(view));
}

Json to_json(const app::RememberedLine& lot) {
    return {{"name", lot.name},        {"volume", amount(lot.volume)}, {"share", lot.share},
            {"brewed_from", lot.from}, {"brewed_to", lot.to},          {"was", lot.was}};
}

Json turn_of(const engine::SoleraTurn& turn) {
    return {{"turn", turn.turn},
            {"years", turn.years},
            {"pulled", amount(turn.pulled)},
            {"mean_years", turn.mean_years},
            {"sd_years", turn.sd_years},
            {"share_under_1_year", 1.0 - turn.share_older_than(1.0)},
            {"share_older_than_3_years", turn.share_older_than(3.0)}};
}

Json to_json(const app::DesignLine& line) {
    const engine::Design& design = line.design;
    Json turns = Json::array();
    for (const engine::SoleraTurn& turn : line.turns) turns.push_back(turn_of(turn));
    return {{"stages", design.stages},
            {"abreast", design.abreast},
            {"vessel", amount(design.vessel)},
            {"ullage", amount(design.ullage)},
            {"price_each", design.price_each},
            {"interval_years", design.interval_years},
            {"share", design.share},
            {"pull", amount(design.pull)},
            {"yearly_litres", design.yearly_litres},
            {"age_at_wait", design.age_at_wait},
            {"older_at_wait", design.older_at_wait},
            {"young_share", line.young_share},
            {"settled_years", design.settled_years},
            {"turns_to_settle", or_null(line.turns_to_settle)},
            {"fit", design.fit},
            {"reached", design.reached()},
            {"hands_on_days", design.hands_on_days},
            {"price", design.price},
            {"burden", design.burden},
            {"turns", std::move(turns)}};
}

Json to_json(const engine::FastStart& start) {
    Json first = Json::array();
    for (const Volume pull : start.plan.first_pulls) first.push_back(amount(pull));
    return {{"start", engine::word(start.start)},
            {"start_years", start.plan.start_age_years},
            {"first_pulls", std::move(first)},
            {"turn_reached", or_null(start.turn_reached)},
            {"years_reached", start.turn_reached ? Json(start.years_reached) : Json(nullptr)},
            {"litres_before", start.litres_before},
            {"mean_at_wait", start.mean_at_wait}};
}

Json to_json(const app::ChangeSide& side) {
    Json turns = Json::array();
    for (const app::ChangeTurn& turn : side.turns)
        turns.push_back({{"day", turn.day},
                         {"pulled", amount(turn.pulled)},
                         {"refilled", amount(turn.refilled)},
                         {"age", render::to_json(turn.age)}});
    return {{"stages", side.stages},
            {"share", side.share},
            {"interval_years", side.interval_years},
            {"yearly_litres", side.yearly_litres},
            {"turns", std::move(turns)}};
}

}  // namespace

std::string json_of(const app::RememberView& view) {
    Json lots = Json::array();
    for (const app::RememberedLine& lot : view.lots) lots.push_back(to_json(lot));
    Json json = head_of(view.book);
    json["vessel"] = view.vessel;
    json["terms"] = list_of(view.terms);
    json["lots"] = std::move(lots);
    json["sitting"] = sitting_of(view.sitting);
    return line_of(json);
}

std::string json_of(const app::DesignView& view) {
    Json designs = Json::array();
    for (const app::DesignLine& line : view.designs) designs.push_back(to_json(line));
    Json starts = Json::array();
    for (const engine::FastStart& start : view.starts) starts.push_back(to_json(start));
    Json json = head_of(view.book);
    json["convention"] = "by volume, before the pull, from entry plus the age of the new beer";
    json["reached"] = view.reached;
    json["answer"] = view.answer;
    json["wait_years"] = view.wish.wait_years;
    json["designs"] = std::move(designs);
    json["chosen"] = view.chosen + 1;
    json["starts"] = std::move(starts);
    json["cautions"] = list_of(view.cautions);
    json["sitting"] = view.sitting ? sitting_of(*view.sitting) : Json(nullptr);
    return line_of(json);
}

std::string json_of(const app::ChangeView& view) {
    Json json = head_of(view.book);
    json["vessel"] = view.vessel;
    json["convention"] = "by volume, before the pull, from brew day";
    json["usual"] = view.usual;
    json["old"] = to_json(view.old_way);
    json["new"] = to_json(view.new_way);
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

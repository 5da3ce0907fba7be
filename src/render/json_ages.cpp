#include "render/ages.hpp"
#include "render/json_parts.hpp"

namespace undercroft::render {
namespace {

Json to_json(const engine::AgeFigure& figure) {
    return {{"young", figure.young}, {"middle", figure.middle}, {"old", figure.old}};
}

Json to_json(const std::optional<app::AgeAtTurn>& then) {
    if (!then) return nullptr;
    return {{"day", then->day}, {"age", render::to_json(then->age)}};
}

Json to_json(const engine::SoleraTurn& turn, const std::vector<double>& older_than) {
    Json fills = Json::array();
    for (const engine::FillShare& fill : turn.fills)
        fills.push_back({{"turn", fill.turn}, {"years", fill.years}, {"share", fill.share}});
    Json older = Json::array();
    for (const double years : older_than) older.push_back({{"years", years}, {"share", turn.share_older_than(years)}});
    return {{"turn", turn.turn},
            {"years", turn.years},
            {"pulled", amount(turn.pulled)},
            {"refilled", amount(turn.refilled)},
            {"mean_years", turn.mean_years},
            {"sd_years", turn.sd_years},
            {"stage_years", turn.stage_years},
            {"after_refill_years", turn.after_refill_years},
            {"original_share", turn.original_share},
            {"original_share_left", turn.original_share_left},
            {"effective_fills", turn.effective_fills},
            {"older", std::move(older)},
            {"fills", std::move(fills)}};
}

}  // namespace

std::string json_of(const app::AgeView& view) {
    Json json = head_of(view.book);
    json["on"] = view.on;
    json["kind"] = view.kind;
    json["subject"] = view.subject;
    json["state"] = view.state;
    json["state_words"] = view.state_words;
    json["volume"] = amount(view.volume);
    json["age"] = render::to_json(view.age);
    Json percentiles = Json::array();
    for (const engine::AgePercentile& row : view.profile.percentiles)
        percentiles.push_back({{"percent", row.percent}, {"years", to_json(row.years)}});
    json["percentiles"] = std::move(percentiles);
    Json older = Json::array();
    for (const engine::OlderShare& row : view.profile.older)
        older.push_back({{"years", row.years}, {"share", to_json(row.share)}});
    json["older"] = std::move(older);
    json["before_pull"] = to_json(view.before_pull);
    json["after_refill"] = to_json(view.after_refill);
    json["packaged"] = view.packaged.empty() ? Json(nullptr) : Json(view.packaged);
    json["years_in_container"] = view.kind == "run" ? Json(view.years_in_container) : Json(nullptr);
    return line_of(json);
}

std::string json_of(const app::SoleraView& view) {
    const engine::SoleraPlan& plan = view.plan;
    Json stages = Json::array();
    for (const Volume stage : plan.stages) stages.push_back(amount(stage));
    Json json = head_of(view.book);
    json["convention"] = "by volume, before the pull";
    json["stages"] = std::move(stages);
    json["pull"] = amount(plan.pull);
    json["interval_years"] = plan.interval_years;
    json["new_beer_years"] = plan.age_in_years;
    json["start_years"] = plan.start_age_years;
    json["evaporation"] = plan.evaporation;
    json["mixing"] = plan.mixing;
    json["drawn"] = plan.drawn == engine::DrawnFrom::below ? "below" : "above";
    Json turns = Json::array();
    for (const engine::SoleraTurn& turn : view.turns) turns.push_back(to_json(turn, view.older_than));
    json["turns"] = std::move(turns);
    json["limit_years"] = or_null(view.limit_years);
    json["turns_to_settle"] = or_null(view.turns_to_settle);
    json["settle_within"] = view.settle_within;
    json["settled"] = list_of(view.settled);
    json["carried_over"] = list_of(view.carried_over);
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

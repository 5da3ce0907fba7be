#include "render/json_parts.hpp"
#include "render/web.hpp"

namespace undercroft::render {
namespace {

// An empty text is nothing known.
Json day_or_null(const std::string& day) {
    return day.empty() ? Json(nullptr) : Json(day);
}

const char* word(Gallons gallons) {
    return gallons == Gallons::us ? "us" : gallons == Gallons::imperial ? "imperial" : "unset";
}

template <class View>
Json subject_of(const View& view) {
    Json json = head_of(view.book);
    json["on"] = view.on;
    json["kind"] = view.kind;
    json["subject"] = view.subject;
    json["number"] = view.number;
    return json;
}

}  // namespace

std::string json_of(const app::AboutView& view, const std::string& version) {
    Json json = head_of(view.book);
    json["gallons"] = word(view.gallons);
    json["version"] = version;
    json["now"] = iso_text(view.now);
    json["today"] = view.today;
    json["empty"] = view.empty;
    return line_of(json);
}

std::string json_of(const app::EntryView& view) {
    Json json = head_of(view.book);
    json["entry"] = to_json(view.entry);
    json["chain"] = list_of(view.chain);
    return line_of(json);
}

std::string json_of(const app::ChoicesView& view) {
    Json json = Json::object();
    Json& fruits = json["fruits"] = Json::array();
    for (const app::FruitChoice& one : view.fruits)
        fruits.push_back({{"id", one.id},
                          {"name", one.name},
                          {"form", one.form},
                          {"brix", or_null(one.brix)},
                          {"sugars_g_per_100_g", or_null(one.sugars_g_per_100_g)}});
    Json& cultures = json["cultures"] = Json::array();
    for (const app::CultureChoice& one : view.cultures)
        cultures.push_back({{"id", one.id},
                            {"name", one.name},
                            {"killer", one.killer},
                            {"diastatic", one.diastatic},
                            {"makes_gas", one.makes_gas},
                            {"may_enter_sour_solera", one.may_enter_sour_solera},
                            {"may_enter_clean_solera", one.may_enter_clean_solera}});
    Json& containers = json["containers"] = Json::array();
    for (const app::ContainerChoice& one : view.containers)
        containers.push_back({{"id", one.id},
                              {"name", one.name},
                              {"material", one.material},
                              {"volume_ml", one.volume_ml},
                              {"head_space_percent", one.head_space_percent},
                              {"pressure_container", one.pressure_container},
                              {"working_limit_bar", or_null(one.working_limit_bar)},
                              {"caution", one.caution}});
    Json& flavourings = json["flavourings"] = Json::array();
    for (const app::FlavouringChoice& one : view.flavourings)
        flavourings.push_back({{"id", one.id},
                               {"name", one.name},
                               {"form", one.form},
                               {"dose_unit", one.dose_unit},
                               {"dose_low", one.dose_low},
                               {"dose_middle", one.dose_middle},
                               {"dose_high", one.dose_high},
                               {"days_to_90_percent", one.days_to_90_percent},
                               {"hazard", one.hazard}});
    Json& allergens = json["allergens"] = Json::array();
    for (const app::AllergenChoice& one : view.allergens) allergens.push_back({{"id", one.id}, {"name", one.name}});
    Json& words = json["words"] = Json::object();
    for (const auto& [name, list] : view.words) words[name] = list;
    return line_of(json);
}

std::string json_of(const app::RiverView& view) {
    Json json = subject_of(view);
    Json& lots = json["lots"] = Json::array();
    for (const app::RiverLot& one : view.lots)
        lots.push_back({{"serial", one.serial},
                        {"number", one.number},
                        {"name", one.name},
                        {"kind", one.kind},
                        {"brewed_from", day_or_null(one.brewed_from)},
                        {"brewed_to", day_or_null(one.brewed_to)},
                        {"assumed", one.assumed}});
    Json& steps = json["steps"] = Json::array();
    for (const app::RiverStep& one : view.steps) {
        Json parts = Json::array();
        for (const app::RiverPart& part : one.parts)
            parts.push_back({{"serial", part.serial}, {"volume", amount(part.volume)}});
        steps.push_back({{"time", one.time},
                         {"day", one.day},
                         {"number", one.number},
                         {"after", one.after},
                         {"volume", amount(one.volume)},
                         {"parts", std::move(parts)}});
    }
    Json& turns = json["turns"] = Json::array();
    for (const app::RiverTurn& one : view.turns)
        turns.push_back({{"number", one.number},
                         {"day", day_or_null(one.day)},
                         {"refilled_day", day_or_null(one.refilled_day)},
                         {"pulled", amount(one.pulled)},
                         {"refilled", amount(one.refilled)}});
    json["usual_pull"] = view.usual_pull ? amount(*view.usual_pull) : Json(nullptr);
    json["usual_interval_days"] = or_null(view.usual_interval_days);
    return line_of(json);
}

std::string json_of(const app::FlowView& view) {
    Json json = subject_of(view);
    json["here"] = amount(view.here);
    Json& nodes = json["nodes"] = Json::array();
    for (const app::FlowNode& one : view.nodes)
        nodes.push_back({{"id", one.id},
                         {"what", one.what},
                         {"name", one.name},
                         {"number", one.number == 0 ? Json(nullptr) : Json(one.number)},
                         {"mean_age_years", or_null(one.mean_age_years)},
                         {"flagged", one.flagged},
                         {"why", one.why}});
    Json& links = json["links"] = Json::array();
    for (const app::FlowLink& one : view.links)
        links.push_back({{"from", one.from}, {"to", one.to}, {"volume", amount(one.volume)}});
    return line_of(json);
}

std::string json_of(const app::ReadingsView& view) {
    Json json = subject_of(view);
    Json& list = json["series"] = Json::array();
    for (const app::ReadingSeries& one : view.series) {
        Json points = Json::array();
        for (const app::ReadingPoint& point : one.points)
            points.push_back({{"time", point.time},
                              {"day", point.day},
                              {"value", point.value},
                              {"sd", point.sd},
                              {"instrument", point.instrument},
                              {"number", point.number}});
        list.push_back({{"quantity", one.quantity},
                        {"unit", one.unit},
                        {"decimals", one.decimals},
                        {"points", std::move(points)}});
    }
    return line_of(json);
}

}  // namespace undercroft::render

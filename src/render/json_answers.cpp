#include "render/json.hpp"
#include "render/json_parts.hpp"

namespace undercroft::render {
namespace {

Json to_json(const app::LastReading& reading) {
    return {{"quantity", reading.quantity},
            {"value", reading.value},
            {"unit", reading.unit},
            {"day", reading.day},
            {"days_ago", reading.days_ago},
            {"calibrated", reading.calibrated.empty() ? Json(nullptr) : Json(reading.calibrated)}};
}

Json to_json(const app::StockLine& stock) {
    return {{"number", stock.number},        {"found_by", stock.found_by},   {"day", stock.day},
            {"days_ago", stock.days_ago},    {"found", amount(stock.found)}, {"found_sd", amount(stock.found_sd)},
            {"booked", amount(stock.booked)}};
}

Json to_json(const app::EvaporationLine& evaporation) {
    return {{"likely", amount(evaporation.likely)},
            {"low", amount(evaporation.low)},
            {"high", amount(evaporation.high)},
            {"share_a_year", evaporation.share_a_year},
            {"since", evaporation.since}};
}

Json to_json(const app::VesselSummary& vessel) {
    Json last = Json::array();
    for (const app::LastReading& reading : vessel.last) last.push_back(to_json(reading));
    return {{"number", vessel.number},
            {"name", vessel.name},
            {"tag", vessel.tag},
            {"role", ledger::word(vessel.role)},
            {"material", vessel.material},
            {"location", vessel.location},
            {"capacity", amount(vessel.capacity)},
            {"full", amount(vessel.full)},
            {"volume", amount(vessel.volume)},
            {"volume_sd", amount(vessel.volume_sd)},
            {"gauge", vessel.gauge},
            {"stock_take", vessel.stock_take ? to_json(*vessel.stock_take) : Json(nullptr)},
            {"evaporation", vessel.evaporation ? to_json(*vessel.evaporation) : Json(nullptr)},
            {"solids", amount(vessel.solids)},
            {"fill", vessel.fill},
            {"age", vessel.age ? render::to_json(*vessel.age) : Json(nullptr)},
            {"last", std::move(last)}};
}

Json to_json(const app::NamedEstimate& named) {
    const engine::Estimate& estimate = named.estimate;
    return {{"quantity", named.quantity},
            {"mean", estimate.mean},
            {"sd", estimate.sd},
            {"unit", named.unit},
            {"decimals", named.decimals},
            {"provenance", engine::word(estimate.provenance)},
            {"read_at", estimate.read_at ? Json(iso_text(*estimate.read_at)) : Json(nullptr)},
            {"why", estimate.why}};
}

Json to_json(const app::CultureLine& culture) {
    return {{"name", culture.name},
            {"kind", culture.kind},
            {"killer", ledger::word(culture.killer)},
            {"toxin", ledger::word(culture.toxin)},
            {"diastatic", ledger::word(culture.diastatic)},
            {"certainty", ledger::word(culture.certainty)},
            {"since", culture.since},
            {"came_from", culture.came_from},
            {"through", culture.through},
            {"last_in", culture.last_in}};
}

Json to_json(const app::AllergenLine& allergen) {
    return {{"group", allergen.group}, {"mg_per_litre", or_null(allergen.mg_per_litre)}};
}

Json to_json(const app::TraceStep& step) {
    return {{"what", step.what},
            {"name", step.name},
            {"detail", step.detail},
            {"share", step.share},
            {"volume", amount(step.volume)},
            {"when", step.when},
            {"certainty", step.certainty}};
}

Json to_json(const app::Change& change) {
    return {{"subject", change.subject}, {"what", change.what}, {"before", change.before}, {"after", change.after}};
}

Json to_json(const app::FruitDate& date) {
    return {{"day", date.day}, {"task", date.task}, {"done_when", date.done_when}, {"caution", date.caution}};
}

Json to_json(const app::FruitWay& way);

template <class T>
Json list(const std::vector<T>& values) {
    Json out = Json::array();
    for (const T& value : values) out.push_back(to_json(value));
    return out;
}

Json to_json(const app::FruitWay& way) {
    return {{"way", way.way},
            {"title", way.title},
            {"terms", list_of(way.terms)},
            {"least_vessel", amount(way.least_vessel)},
            {"final_volume", amount(way.final_volume)},
            {"final_alcohol", way.final_alcohol},
            {"final_gravity", way.final_gravity},
            {"gas_if_closed_volumes", way.gas_if_closed_volumes},
            {"dates", list(way.dates)}};
}

Json to_json(const Error& error) {
    Json facts = Json::array();
    for (const Fact& fact : error.facts) facts.push_back({{"label", fact.label}, {"value", fact.value}});
    return {{"kind", word(error.kind)},
            {"where", error.where},
            {"what", error.what},
            {"facts", std::move(facts)},
            {"next_step", error.next_step}};
}

void fill_holding(Json& json, const app::HoldingView& view) {
    json["on"] = view.on;
    json["vessel"] = view.vessel ? to_json(*view.vessel) : Json(nullptr);
    json["run"] = view.run ? render::to_json(*view.run) : Json(nullptr);
    json["age_from_brew_day"] = view.from_brew_day ? render::to_json(*view.from_brew_day) : Json(nullptr);
    json["age_from_entry"] = view.from_entry ? render::to_json(*view.from_entry) : Json(nullptr);
    json["estimates"] = list(view.estimates);
    json["cultures"] = list(view.cultures);
    json["allergens"] = list(view.allergens);
    json["inside"] = view.inside;
    json["took_from"] = view.took_from;
    json["entries"] = list_of(view.entries);
    json["cautions"] = list_of(view.cautions);
    json["findings"] = list_of(view.findings);
}

Json json_of_band(const app::BandLine& band) {
    return {{"low", band.low}, {"mid", band.mid}, {"high", band.high}};
}

Json json_of_spread(const app::GasSpreadView& view) {
    Json causes = Json::array();
    for (std::size_t i = 0; i < view.causes.size(); ++i)
        causes.push_back({{"name", view.causes[i].first},
                          {"volumes", json_of_band(view.causes[i].second)},
                          {"share", view.shares[i]}});
    Json curve = Json::array();
    for (const auto& [celsius, bar] : view.by_temperature)
        curve.push_back({{"celsius", celsius}, {"gauge_bar", json_of_band(bar)}});
    return {{"words", view.words},
            {"volumes", json_of_band(view.volumes)},
            {"causes", std::move(causes)},
            {"by_temperature", std::move(curve)},
            {"at_store", view.at_store ? json_of_band(*view.at_store) : Json(nullptr)},
            {"over_limit", view.over_limit},
            {"warmest_safe_c", or_null(view.warmest_safe_c)},
            {"carbonated_from_days", or_null(view.carbonated_from_days)},
            {"carbonated_until_days", or_null(view.carbonated_until_days)}};
}

void fill_gas(Json& json, const app::GasCheckView& view) {
    Json curve = Json::array();
    for (const auto& [celsius, bar] : view.by_temperature) curve.push_back({{"celsius", celsius}, {"gauge_bar", bar}});
    json["subject"] = view.subject;
    json["container"] = view.container;
    json["verdict"] = view.verdict;
    json["verdict_words"] = view.verdict_words;
    json["reasons"] = view.reasons;
    json["gas"] = list_of(view.gas);
    json["total_volumes"] = view.total_volumes;
    json["total_g_per_l"] = view.total_g_per_l;
    json["pressure"] = list_of(view.pressure);
    json["total_gauge_bar"] = view.total_gauge_bar;
    json["store_c"] = view.store_c;
    json["limit_bar"] = or_null(view.limit_bar);
    json["allowed_bar"] = view.allowed_bar;
    json["limit_needed_bar"] = view.limit_needed_bar;
    json["by_temperature"] = std::move(curve);
    json["spread"] = view.spread ? json_of_spread(*view.spread) : Json(nullptr);
    json["cautions"] = list_of(view.cautions);
}

void fill_label(Json& json, const app::LabelView& view) {
    Json facts = Json::object();
    for (const auto& [name, value] : view.facts) facts[name] = value;
    json["run"] = view.run;
    json["text"] = view.text;
    json["facts"] = std::move(facts);
    json["kept"] = view.kept;
}

void fill_sitting(Json& json, const app::SittingView& view) {
    json["booked"] = view.booked;
    json["already"] = view.already;
    json["key"] = view.key;
    json["when"] = view.when;
    json["entries"] = list_of(view.entries);
    for (const auto& [name, holdings] : {std::pair{"before", &view.before}, std::pair{"after", &view.after}}) {
        Json& list = json[name] = Json::array();
        for (const app::HoldingView& holding : *holdings) fill_holding(list.emplace_back(Json::object()), holding);
    }
    Json touched = Json::array();
    for (const app::Touched& one : view.touched) {
        Json cultures = Json::array();
        for (const app::TouchedCulture& culture : one.cultures)
            cultures.push_back({{"name", culture.name}, {"certainty", culture.certainty}});
        touched.push_back({{"number", one.number},
                           {"name", one.name},
                           {"held", amount(one.held)},
                           {"volume", amount(one.volume)},
                           {"cultures", std::move(cultures)}});
    }
    json["touched"] = std::move(touched);
    json["changes"] = list(view.changes);
    json["moved"] = list(view.moved);
    json["findings_opened"] = list_of(view.findings_opened);
    json["findings_closed"] = list_of(view.findings_closed);
    Json checks = Json::array();
    for (const app::GasCheckView& check : view.gas_checks) fill_gas(checks.emplace_back(Json::object()), check);
    json["gas_checks"] = std::move(checks);
    Json labels = Json::array();
    for (const app::LabelView& label : view.labels) fill_label(labels.emplace_back(Json::object()), label);
    json["labels"] = std::move(labels);
    json["cautions"] = list_of(view.cautions);
    json["remarks"] = view.remarks;
    json["objection"] = view.objection ? to_json(*view.objection) : Json(nullptr);
}

}  // namespace

const char* word(ErrorKind kind) {
    switch (kind) {
        case ErrorKind::bad_input:
            return "bad_input";
        case ErrorKind::not_found:
            return "not_found";
        case ErrorKind::impossible:
            return "impossible";
        case ErrorKind::stale:
            return "stale";
        case ErrorKind::outside_model:
            return "outside_model";
        case ErrorKind::read_only:
            return "read_only";
        case ErrorKind::storage:
            return "storage";
    }
    return "";
}

std::string json_of(const app::CellarView& view) {
    Json json = head_of(view.book);
    json["on"] = view.on;
    json["vessels"] = list(view.vessels);
    json["runs"] = list_of(view.runs);
    json["in"] = amount(view.in);
    json["out"] = amount(view.out);
    json["on_hand"] = amount(view.on_hand);
    json["today"] = list_of(view.today);
    json["findings"] = list_of(view.findings);
    return line_of(json);
}

std::string json_of(const app::HoldingView& view) {
    Json json = head_of(view.book);
    fill_holding(json, view);
    return line_of(json);
}

std::string json_of(const app::EntriesView& view) {
    Json json = head_of(view.book);
    json["entries"] = list_of(view.entries);
    json["more"] = view.more == 0 ? Json(nullptr) : Json(view.more);
    return line_of(json);
}

std::string json_of(const app::SittingView& view) {
    Json json = head_of(view.book);
    fill_sitting(json, view);
    return line_of(json);
}

std::string json_of(const app::JottedView& view) {
    Json json = head_of(view.sitting.book);
    json["acts"] = view.acts;
    fill_sitting(json, view.sitting);
    return line_of(json);
}

std::string json_of(const app::RoundView& view) {
    Json json = head_of(view.book);
    json["on"] = view.on;
    json["vessels"] = list(view.vessels);
    return line_of(json);
}

std::string json_of(const app::DueView& view) {
    Json json = head_of(view.book);
    json["on"] = view.on;
    json["within_days"] = view.within_days;
    json["due"] = list_of(view.lines);
    return line_of(json);
}

std::string json_of(const app::GasCheckView& view) {
    Json json = head_of(view.book);
    fill_gas(json, view);
    return line_of(json);
}

std::string json_of(const app::FruitView& view) {
    Json json = head_of(view.book);
    json["fruit"] = view.fruit;
    json["mass"] = view.mass;
    json["fruit_terms"] = list_of(view.fruit_terms);
    json["ways"] = list(view.ways);
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

std::string json_of(const app::TraceView& view) {
    Json json = head_of(view.book);
    json["direction"] = view.direction;
    json["subject"] = view.subject;
    json["on"] = view.on;
    json["sources"] = list(view.sources);
    json["additions"] = list(view.additions);
    json["cultures"] = list(view.cultures);
    json["path"] = list(view.path);
    json["share_sum"] = view.share_sum;
    return line_of(json);
}

std::string json_of(const app::LabelView& view) {
    Json json = head_of(view.book);
    fill_label(json, view);
    return line_of(json);
}

std::string json_of(const app::GearView& view) {
    Json gear = Json::array();
    for (const app::GearLine& one : view.gear) {
        Json riders = Json::array();
        for (const app::RiderLine& rider : one.riders)
            riders.push_back({{"culture", rider.culture}, {"since", rider.since}, {"was_in", rider.was_in}});
        gear.push_back({{"name", one.name},
                        {"last_in", one.last_in},
                        {"last_used", one.last_used},
                        {"riders", std::move(riders)}});
    }
    Json json = head_of(view.book);
    json["on"] = view.on;
    json["gear"] = std::move(gear);
    return line_of(json);
}

std::string json_of(const app::FindingsView& view) {
    Json json = head_of(view.book);
    json["findings"] = list_of(view.findings);
    return line_of(json);
}

std::string json_of(const app::CheckView& view) {
    Json json = head_of(view.book);
    Json findings = Json::array();
    for (const ledger::CheckFinding& finding : view.findings)
        findings.push_back({{"check", finding.check}, {"ok", finding.ok}, {"what", finding.what}});
    json["ok"] = view.ok();
    json["findings"] = std::move(findings);
    json["head"] = view.head;
    return line_of(json);
}

std::string json_of(const app::BackupView& view) {
    Json json = head_of(view.book);
    json["path"] = view.path;
    json["entries"] = view.entries;
    json["head"] = view.head;
    return line_of(json);
}

std::string json_of(const Error& error) {
    return line_of({{"error", to_json(error)}});
}

std::string json_of(const Error& error, const app::SittingView& sitting) {
    Json json = {{"error", to_json(error)}};
    Json& shown = json["sitting"] = head_of(sitting.book);
    fill_sitting(shown, sitting);
    return line_of(json);
}

}  // namespace undercroft::render

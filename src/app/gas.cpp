#include "app/gas.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

#include "app/bodies.hpp"
#include "app/weighing.hpp"
#include "base/letters.hpp"
#include "chem/extract.hpp"
#include "chem/gas.hpp"
#include "engine/package/watch.hpp"
#include "units/amount.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

namespace package = engine::package;

// A culture that is diastatic by the book counts with the reach of the diastatic kind, whatever its kind's row says.
constexpr const char* k_diastatic_kind = "ale_farmhouse_diastatic";

std::vector<const tables::CultureKind*> cultures_in(const ledger::Cellar& cellar, const ledger::Liquid& liquid,
                                                    const tables::Tables& tables) {
    std::vector<const tables::CultureKind*> kinds;
    const auto add = [&kinds](const tables::CultureKind* kind) {
        if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.push_back(kind);
    };
    for (const ledger::CultureHere& here : liquid.cultures) {
        const ledger::Culture& culture = cellar.cultures[at_index(here.culture)].as;
        const auto kind = tables.find_culture(culture.kind);
        // A kind of a later table that this program does not know is as wild as can be.
        const auto row = kind ? kind : tables.find_culture("wild_unknown");
        if (row) add(*row);
        if (culture.diastatic != ledger::Diastatic::no && row && (*row)->diastatic == tables::DiastaticType::no)
            if (const auto diastatic = tables.find_culture(k_diastatic_kind)) add(*diastatic);
    }
    return kinds;
}

// The watch is the newest readings that agree; what fell before them was work.
std::optional<package::Evidence> evidence_of(const engine::LiquidState& state,
                                             const std::vector<const tables::CultureKind*>& cultures) {
    if (state.watch.empty()) return std::nullopt;
    constexpr double k_days_a_year = 365.25;
    const std::size_t first = package::plateau_begin(state.watch, package::evidence_needed(cultures).resolution_sg);
    package::Evidence evidence;
    evidence.readings = static_cast<int>(state.watch.size() - first);
    const Instant last = state.watch.back().at;
    evidence.days = years_between(state.watch[first].at, last) * k_days_a_year;
    evidence.days_undisturbed = years_between(state.watch.front().at, last) * k_days_a_year;
    const auto [low, high] =
        std::minmax_element(state.watch.begin() + static_cast<std::ptrdiff_t>(first), state.watch.end(),
                            [](const auto& a, const auto& b) { return a.gravity < b.gravity; });
    evidence.change_sg = high->gravity - low->gravity;
    if (!state.temperatures_c.empty())
        evidence.coolest =
            Temperature::from_celsius(*std::min_element(state.temperatures_c.begin(), state.temperatures_c.end()));
    return evidence;
}

Result<double> grams_per_litre(std::string_view field, const std::string& text) {
    TRY(const Decimal value, parse_grams_per_litre(field, text));
    if (value.value() < 0) return fail(ErrorKind::bad_input, std::string(field), text + " is below zero.");
    return value.value();
}

// "14 days, 2.1 bar", "14 days, squeeze 3", either with ", 28 C".
Result<package::CanaryReading> canary_of(const std::string& text) {
    package::CanaryReading reading;
    std::vector<std::string> parts;
    std::istringstream cut(text);
    for (std::string part; std::getline(cut, part, ',');) parts.push_back(trimmed(part));
    const auto no = [&text] {
        return fail(
            ErrorKind::bad_input, "canary",
            "\"" + text.substr(0, 60) +
                "\" is no reading of a canary; say \"14 days, 2.1 bar\" or \"14 days, squeeze 3\", and \", 28 C\" "
                "when it was not kept at 30 °C.");
    };
    if (parts.size() < 2 || parts.size() > 3) return no();
    TRY(const int days, parse_span("canary", parts[0]));
    reading.days = days;
    constexpr std::string_view k_squeeze = "squeeze ";
    if (lower(parts[1]).starts_with(k_squeeze)) {
        TRY(const Decimal grade, parse_number("squeeze", parts[1].substr(k_squeeze.size()), 0, 5));
        if (grade.places() != 0) return no();
        reading.squeeze = static_cast<int>(std::lround(grade.value()));
    } else {
        TRY(reading.gauge, parse_gauge_pressure("canary", parts[1]));
    }
    if (parts.size() == 3) {
        TRY(reading.kept, parse_temperature("canary", parts[2]));
    }
    return reading;
}

BandLine line_of(const package::Band& band) {
    return {band.low, band.mid, band.high};
}

std::string range_text(const package::Band& band, int places, const std::string& unit) {
    return number_text(band.low, places) + " to " + number_text(band.high, places) + unit;
}

// "0.3 %"; a chance that no draw met is not none.
std::string chance_text(double chance, int draws) {
    if (chance * draws < 1.0) return "below 1 in " + std::to_string(draws);
    return percent_text(chance, chance < 0.0995 ? 2 : 0);
}

std::string spread_words(const package::GasSpread& spread, const package::GasCheck& check) {
    std::string words = "Nine of ten bottles come to " + range_text(spread.volumes, 1, " volumes of CO2");
    if (spread.at_store)
        words += " and " + range_text(spread.at_store->bar, 1, " bar") + " at " + text_of(spread.at_store->at);
    words += ", the middle one to " + number_text(spread.volumes.mid, 1) + " volumes";
    if (spread.at_store) words += " and " + number_text(spread.at_store->bar.mid, 1) + " bar";
    words += ".";
    if (check.limit) {
        if (spread.at_store)
            words += " The chance that one passes the limit of " + text_of(*check.limit) +
                     " there: " + chance_text(spread.over_limit, spread.draws) + ".";
        words += spread.warmest_safe_store
                     ? " 95 of 100 stay within the " + text_of(*check.allowed) + " allowed up to a store of " +
                           text_of(*spread.warmest_safe_store) + "."
                     : std::string(" In no store do 95 of 100 stay within what is allowed.");
    }
    if (spread.carbonated_from_days && spread.carbonated_until_days)
        words += " All of it is there after " + number_text(*spread.carbonated_from_days, 0) + " to " +
                 number_text(*spread.carbonated_until_days, 0) + " days at the cultures' liking, later when cooler.";
    if (spread.plateau_counts) words += " The long watch bounds what can still come.";
    if (spread.canary == package::CanaryVerdict::narrows) words += " The canary's readings narrow it.";
    const double speed = package::canary_speed(package::k_canary_kept, check.store);
    if (spread.canary == package::CanaryVerdict::none && spread.canary_days.size() == 3 && speed > 1.0)
        words += " A canary bottle kept at " + text_of(package::k_canary_kept) + " runs " + number_text(speed, 1) +
                 " times as fast as this store: look at it after " + std::to_string(spread.canary_days[0]) + ", " +
                 std::to_string(spread.canary_days[1]) + " and " + std::to_string(spread.canary_days[2]) + " days.";
    return words;
}

GasSpreadView spread_view(const package::GasSpread& spread, const package::GasCheck& check) {
    GasSpreadView view;
    view.volumes = line_of(spread.volumes);
    for (const package::GasCause& cause : spread.causes) {
        view.causes.emplace_back(cause.name, line_of(cause.volumes));
        view.shares.push_back(cause.share);
    }
    for (const package::PressureBand& band : spread.pressure)
        view.by_temperature.emplace_back(band.at.in_celsius(), line_of(band.bar));
    if (spread.at_store) view.at_store = line_of(spread.at_store->bar);
    view.over_limit = spread.over_limit;
    if (spread.warmest_safe_store) view.warmest_safe_c = spread.warmest_safe_store->in_celsius();
    view.carbonated_from_days = spread.carbonated_from_days;
    view.carbonated_until_days = spread.carbonated_until_days;
    view.words = spread_words(spread, check);
    return view;
}

GasCheckView gas_view(const package::GasCheck& check, const std::string& subject) {
    GasCheckView view;
    view.subject = subject;
    view.container = check.container;
    view.verdict = package::word(check.verdict);
    view.verdict_words = check.words;
    view.reasons = check.reasons;
    view.gas = check.gas;
    view.total_volumes = check.total_volumes;
    view.total_g_per_l = check.total_g_per_l;
    view.pressure = check.pressure;
    view.total_gauge_bar = check.total ? check.total->in_bar() : 0.0;
    view.store_c = check.store.in_celsius();
    if (check.limit) view.limit_bar = check.limit->in_bar();
    if (check.allowed) view.allowed_bar = check.allowed->in_bar();
    if (check.limit_needed) view.limit_needed_bar = check.limit_needed->in_bar();
    for (const auto& [temperature, pressure] : check.by_temperature)
        view.by_temperature.emplace_back(temperature.in_celsius(), pressure.in_bar());
    view.cautions = check.cautions;
    return view;
}

}  // namespace

Result<Temperature> parse_store(std::string_view field, const std::string& text) {
    // Where bottles stand, at its warmest; common practice, no source. The post and a car: 45 to 50 °C.
    struct Store {
        std::string_view word;
        double warmest_c;
    };
    constexpr auto k_stores =
        std::to_array<Store>({{"cellar", 15.0}, {"flat", 28.0}, {"attic", 45.0}, {"post", 50.0}, {"car", 50.0}});
    for (const Store& one : k_stores)
        if (lower(text) == one.word) return Temperature::from_celsius(one.warmest_c);
    auto temperature = parse_temperature(field, text);
    if (!temperature && text.find_first_of("0123456789") == std::string::npos)
        return fail(ErrorKind::bad_input, std::string(field),
                    "\"" + text.substr(0, 40) +
                        "\" is no store; say its warmest temperature, or cellar, flat, attic, post or car.");
    return temperature;
}

std::string verdict_in_words(const std::string& verdict) {
    std::string words = verdict;
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

package::GasQuestion gas_question_of(const ledger::Cellar& cellar, const engine::StateBook& states,
                                     const tables::Tables& tables, engine::HolderRef holder) {
    const bool bottled = holder.run >= 0;
    const engine::LiquidState& state =
        bottled ? states.runs[at_index(holder.run)] : states.vessels[at_index(holder.vessel)];
    const ledger::Liquid& liquid =
        bottled ? cellar.runs[at_index(holder.run)].liquid : cellar.vessels[at_index(holder.vessel)].liquid;
    package::GasQuestion question;
    if (state.composition) {
        chem::Composition composition = *state.composition;
        if (bottled && state.gravity_provenance != engine::Provenance::read) {
            // Nobody read the bottles since: the priming counts as sugar, not as gravity.
            const ledger::Package& run = cellar.runs[at_index(holder.run)].as;
            question.priming_g_per_l = run.priming_sugar.in_grams() / (run.fill * run.count).in_litres();
            composition.real_extract_g_per_l =
                std::max(0.0, composition.real_extract_g_per_l - question.priming_g_per_l);
        }
        if (state.gravity_provenance != engine::Provenance::assumed)
            question.gravity = package::Gravity{chem::gravity_of(composition), state.gravity_sd};
        question.abv = chem::abv_of(composition);
        question.extract_g_per_l = composition.real_extract_g_per_l;
        // Fruit or sugar can lift the gravity above that of the wort: then the strength says what it was.
        if (state.original_gravity > 1.0 && state.original_gravity >= chem::gravity_of(composition))
            question.original_gravity = state.original_gravity;
    }
    question.cultures = cultures_in(cellar, liquid, tables);
    question.malic_g_per_l = state.malic_g_per_l;
    question.citric_g_per_l = state.citric_g_per_l;
    question.sorbitol_g_per_l = state.sorbitol_g_per_l;
    question.fruit_sugar_g_per_l = state.fruit_sugar_g_per_l;
    for (const int index : liquid.additions)
        if (cellar.additions[at_index(index)].as.kind == ledger::AdditionKind::hops)
            question.hops = package::Hops::dry_hopped;
    question.measured_co2_g_per_l = state.dissolved_co2_g_per_l;
    if (!state.temperatures_c.empty()) {
        const auto [low, high] = std::minmax_element(state.temperatures_c.begin(), state.temperatures_c.end());
        question.coolest_while_working = Temperature::from_celsius(*low);
        question.warmest_since_finished = Temperature::from_celsius(*high);
    }
    question.evidence = evidence_of(state, question.cultures);
    if (!bottled && question.evidence && liquid.volume > Volume{})
        if (const auto found = package::weighed(weights_of(cellar, holder.vessel), {}, liquid.volume.in_litres()))
            question.evidence->co2_most_a_day = found->co2_most_a_day;
    if (bottled) {
        const ledger::Package& run = cellar.runs[at_index(holder.run)].as;
        question.head_space = run.head_space.value();
        question.air = run.purged ? chem::AirInHeadSpace::purged : chem::AirInHeadSpace::trapped;
    }
    return question;
}

Result<void> state_figures(package::GasQuestion& question, const GasRequest& request, const tables::Tables& tables,
                           Gallons gallons) {
    if (!request.gravity.empty()) {
        TRY(const Decimal gravity, gravity_as_sg("gravity", request.gravity));
        question.gravity = package::Gravity{gravity.value(), gravity.places() >= 4 ? 0.00025 : 0.0005};
        question.extract_g_per_l.reset();
        if (request.alcohol.empty()) question.abv.reset();
    }
    if (!request.original_gravity.empty()) {
        TRY(const Decimal original, gravity_as_sg("og", request.original_gravity));
        question.original_gravity = original.value();
    }
    if (!request.alcohol.empty()) {
        TRY(const Decimal alcohol, parse_alcohol("alcohol", request.alcohol));
        question.abv = alcohol.value();
        question.extract_g_per_l.reset();
    }
    if (!request.priming.empty()) {
        TRY(question.priming_g_per_l, grams_per_litre("priming", request.priming));
    }
    if (!request.malic.empty()) {
        TRY(question.malic_g_per_l, grams_per_litre("malic", request.malic));
    }
    if (!request.citric.empty()) {
        TRY(question.citric_g_per_l, grams_per_litre("citric", request.citric));
    }
    if (!request.sorbitol.empty()) {
        TRY(question.sorbitol_g_per_l, grams_per_litre("sorbitol", request.sorbitol));
    }
    if (!request.cultures.empty()) question.cultures.clear();
    for (const std::string& text : request.cultures) {
        TRY(const tables::CultureKind* kind, tables.find_culture(text));
        question.cultures.push_back(kind);
    }
    if (!request.container.empty()) {
        TRY(question.container, tables.find_container(request.container));
    }
    double brimful = question.container != nullptr ? 0.0 : -1.0;
    if (!request.head_space.empty()) {
        TRY(question.head_space, parse_share("head-space", request.head_space));
    } else if (!request.fill.empty() && brimful == 0.0) {
        // The nominal volume is what the container holds when filled as meant: its own head space is on top.
        TRY(const Volume fill, positive_volume("fill", request.fill, gallons));
        const double inside =
            question.container->volume_ml / 1000.0 / (1.0 - question.container->head_space_percent / 100.0);
        question.head_space = 1.0 - fill.in_litres() / inside;
        if (*question.head_space < 0.0)
            return fail(ErrorKind::bad_input, "fill",
                        request.fill + " does not go into " + question.container->name + ".");
    }
    if (request.purged) question.air = chem::AirInHeadSpace::purged;
    if (!request.limit.empty()) {
        TRY(question.makers_limit, parse_gauge_pressure("limit", request.limit));
    }
    if (!request.store.empty()) {
        TRY(question.store, parse_store("store", request.store));
        if (question.store.in_celsius() < 0 || question.store.in_celsius() > 50)
            return fail(ErrorKind::outside_model, "store",
                        "The pressure is worked out from 0 °C to 50 °C; asked at " + text_of(question.store) + ".");
    }
    if (!request.horizon.empty()) {
        constexpr double k_days_a_month = 365.25 / 12.0;
        TRY(const int days, parse_span("horizon", request.horizon));
        question.horizon_months = static_cast<int>(std::ceil(days / k_days_a_month));
    }
    if (request.given_away) question.destination = package::Destination::given_away;
    if (!request.fermentation_temperature.empty()) {
        TRY(question.warmest_since_finished, parse_temperature("fermented-at", request.fermentation_temperature));
    }
    if (!request.altitude.empty()) {
        TRY(const Decimal metres, parse_number("altitude", request.altitude, -400, 5000));
        question.ambient = chem::ambient_pressure_at(metres.value());
    }
    if (request.stable) {
        const package::EvidenceNeeded needed = package::evidence_needed(question.cultures);
        question.evidence = package::Evidence{needed.readings, needed.days, 0.0, Temperature::from_celsius(20.0)};
    }
    for (const std::string& text : request.canary) {
        TRY(package::CanaryReading reading, canary_of(text));
        question.canary.push_back(reading);
    }
    if (!request.forced.empty()) {
        TRY(const Decimal forced, gravity_as_sg("forced", request.forced));
        if (!question.evidence) question.evidence = package::Evidence{};
        question.evidence->forced = package::Gravity{forced.value(), forced.places() >= 4 ? 0.00025 : 0.0005};
    }
    return {};
}

Result<GasCheckView> full_gas_view(const package::GasCheck& check, const package::GasQuestion& question,
                                   const tables::Tables& tables, const std::string& subject) {
    GasCheckView view = gas_view(check, subject);
    if (!check.complete) return view;
    TRY(const package::GasSpread spread, package::gas_spread(question, tables));
    view.spread = spread_view(spread, check);
    return view;
}

Result<GasCheckView> full_gas_view(const package::GasQuestion& question, const tables::Tables& tables,
                                   const std::string& subject) {
    TRY(const package::GasCheck check, package::gas_check(question, tables));
    return full_gas_view(check, question, tables, subject);
}

Result<GasCheckView> gas_sum(const GasRequest& request, const tables::Tables& tables, Gallons gallons) {
    package::GasQuestion question;
    TRY_VOID(state_figures(question, request, tables, gallons));
    if (question.container == nullptr) {
        if (request.limit.empty())
            return fail(ErrorKind::bad_input, "container",
                        "Into what? Name a container such as bottle_330_heavy, or give the maker's --limit.");
        question.container_name = "own container";
    }
    return full_gas_view(question, tables, "");
}

}  // namespace undercroft::app

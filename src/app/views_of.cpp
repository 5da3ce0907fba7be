#include "app/views_of.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/index.hpp"
#include "engine/state/alive.hpp"

namespace undercroft::app {
namespace {

const ledger::Liquid& liquid_of(const ledger::Cellar& cellar, engine::HolderRef holder) {
    return holder.run >= 0 ? cellar.runs[at(holder.run)].liquid : cellar.vessels[at(holder.vessel)].liquid;
}

const std::vector<int>& entries_of(const ledger::Cellar& cellar, engine::HolderRef holder) {
    return holder.run >= 0 ? cellar.runs[at(holder.run)].entries : cellar.vessels[at(holder.vessel)].entries;
}

std::vector<LastReading> last_readings(const Seen& seen, engine::HolderRef holder) {
    std::vector<LastReading> last;
    std::set<ledger::Quantity> have;
    const auto& entries = entries_of(seen.cellar, holder);
    const ledger::VesselState* vessel = holder.run >= 0 ? nullptr : &seen.cellar.vessels[at(holder.vessel)];
    if (vessel != nullptr && vessel->liquid.volume == Volume{}) return last;
    for (auto index = entries.rbegin(); index != entries.rend(); ++index) {
        const ledger::Entry& entry = *seen.cellar.entries[at(*index)];
        // What was read before the vessel stood empty was another liquid.
        if (vessel != nullptr && vessel->filled_since && entry.at() < *vessel->filled_since) break;
        const auto* reading = std::get_if<ledger::Reading>(&entry.body);
        const auto* logged = std::get_if<ledger::LoggerFile>(&entry.body);
        if (reading == nullptr && (logged == nullptr || logged->points.empty())) continue;
        // A logger says how warm it was when it was read out.
        const std::vector<ledger::Measured> values =
            reading != nullptr
                ? reading->values
                : std::vector<ledger::Measured>{{ledger::Quantity::temperature, logged->points.back().celsius, "C"}};
        const std::string& instrument = reading != nullptr ? reading->instrument : logged->instrument;
        for (const ledger::Measured& one : values) {
            if (!have.insert(one.quantity).second) continue;
            const Day day = day_of(entry.at(), seen.telling.zone);
            LastReading line{ledger::word(one.quantity), one.value.text(), one.unit, iso_text(day),
                             days_between(day, day_of(seen.when, seen.telling.zone))};
            if (const auto* off_by = seen.cellar.calibration_at(*index, instrument, one.quantity)) {
                line.calibrated = number_text(engine::calibrated(one, off_by), one.value.places());
                line.offset = (off_by->offset.value() > 0.0 ? "+" : "") + off_by->offset.text() +
                              (off_by->unit == one.unit ? "" : " " + off_by->unit);
            }
            last.push_back(std::move(line));
        }
    }
    return last;
}

// What is known within a factor of two claims no more.
Volume to_two_figures(double litres) {
    if (litres <= 0.0) return {};
    const double step = std::pow(10.0, std::floor(std::log10(litres)) - 1.0);
    return Volume::from_litres(std::round(litres / step) * step);
}

void add_estimate(std::vector<NamedEstimate>& list, const char* quantity, const char* unit, int decimals,
                  const std::optional<engine::Estimate>& estimate) {
    if (estimate) list.push_back({quantity, unit, decimals, *estimate});
}

std::vector<NamedEstimate> estimates_of(const engine::LiquidState& state) {
    std::vector<NamedEstimate> list;
    add_estimate(list, "gravity", "SG", 4, state.gravity());
    add_estimate(list, "alcohol", "% vol", 1, state.alcohol());
    add_estimate(list, "ph", "pH", 2, state.ph_estimate());
    add_estimate(list, "ta", "g/L as lactic acid, to pH 8.2", 1, state.ta);
    add_estimate(list, "ibu", "IBU", 0, state.ibu);
    add_estimate(list, "colour", "EBC", 0, state.colour_ebc);
    return list;
}

std::string addition_text(const Seen& seen, int index, bool inside) {
    const ledger::AdditionState& addition = seen.cellar.additions[at(index)];
    std::string text = (addition.as.mass > Mass{} ? text_of(addition.as.mass) : seen.telling.volume(addition.as.dose)) +
                       " " + addition.as.name;
    if (inside) text += addition.as.contained ? " (in a bag)" : " (loose)";
    text += " since " + seen.telling.day_text(addition.from);
    if (!inside && addition.until) text += " until " + seen.telling.day_text(*addition.until);
    return text;
}

std::string estimate_text(const NamedEstimate& named) {
    std::string text = number_text(named.estimate.mean, named.decimals);
    if (named.estimate.sd > 0.0) text += " ± " + number_text(named.estimate.sd, named.decimals);
    return text;
}

std::string culture_list(const HoldingView& view) {
    std::string text;
    for (const CultureLine& culture : view.cultures)
        text += (text.empty() ? "" : ", ") + culture.name + " (" + ledger::word(culture.certainty) + ")";
    return text;
}

std::string allergen_list(const HoldingView& view) {
    std::string text;
    for (const AllergenLine& allergen : view.allergens) {
        text += (text.empty() ? "" : ", ") + allergen.group;
        if (allergen.mg_per_litre) text += " " + number_text(*allergen.mg_per_litre, 1) + " mg/L";
    }
    return text;
}

}  // namespace

ledger::Certainty certainty_of(const Seen& seen, engine::HolderRef holder, const ledger::CultureHere& here) {
    const engine::LiquidState& state =
        holder.run >= 0 ? seen.states.runs[at(holder.run)] : seen.states.vessels[at(holder.vessel)];
    return engine::certainty_at(here, state, seen.tables.culture_row(seen.cellar.cultures[at(here.culture)].as.kind),
                                seen.when);
}

std::string age_text(const engine::Age& age) {
    std::string text = duration_text(age.mean_years) + " on average";
    if (age.parts.size() > 1)
        text +=
            ", youngest part " + duration_text(age.youngest_years) + " (" + percent_text(age.youngest_share, 0) + ")";
    if (age.assumed) text += ", in part assumed";
    return text;
}

std::string described(const VesselSummary& vessel, VolumeUnit unit) {
    std::string words = ledger::word(vessel.role);
    for (const std::string& part : {vessel.material, text_of(vessel.capacity, unit) + " brimful", vessel.location})
        if (!part.empty()) words += ", " + part;
    return words;
}

VesselSummary vessel_summary(const Seen& seen, int vessel) {
    const ledger::VesselState& state = seen.cellar.vessels[at(vessel)];
    VesselSummary view;
    view.number = seen.telling.number_of(state.key);
    view.name = state.as.name;
    view.tag = state.as.tag;
    view.role = state.as.role;
    view.material = state.as.material;
    view.location = state.as.location;
    view.capacity = state.as.capacity;
    view.full = state.full();
    view.volume = state.liquid.volume;
    for (const int index : state.additions_inside) view.solids += seen.cellar.additions[at(index)].as.solids;
    view.fill = view.volume.in_litres() / view.full.in_litres();
    view.age = engine::age_of(seen.cellar, state.liquid, seen.when, seen.telling.zone, engine::AgeFrom::brew_day);
    view.last = last_readings(seen, {vessel, -1});
    view.gauge = gauge_text(state.as.gauge);
    const engine::Stock& stock = seen.states.stock[at(vessel)];
    view.volume_sd = Volume::from_litres(std::min(stock.sd_litres, view.volume.in_litres()));
    if (stock.last) {
        const Day day = day_of(stock.last->at, seen.telling.zone);
        view.stock_take = StockLine{seen.telling.number_of(stock.last->entry),
                                    ledger::word(stock.last->found_by),
                                    iso_text(day),
                                    days_between(day, day_of(seen.when, seen.telling.zone)),
                                    stock.last->found,
                                    stock.last->found_sd,
                                    stock.last->booked};
    }
    if (const auto likely = engine::likely_evaporation(state.as, stock, seen.when))
        view.evaporation =
            EvaporationLine{to_two_figures(likely->litres), to_two_figures(likely->low), to_two_figures(likely->high),
                            likely->share_a_year, seen.telling.day_text(likely->since)};
    return view;
}

bool stands_before(const VesselSummary& a, const VesselSummary& b) {
    // -1, 0, 1; runs of digits by their value.
    const auto compare = [](const std::string& left, const std::string& right) {
        const auto digit = [](char c) { return c >= '0' && c <= '9'; };
        const auto number = [&](const std::string& text, std::size_t& i) {
            while (i < text.size() && text[i] == '0') ++i;
            std::string digits;
            while (i < text.size() && digit(text[i])) digits += text[i++];
            return digits;
        };
        std::size_t i = 0;
        std::size_t j = 0;
        while (i < left.size() && j < right.size()) {
            if (digit(left[i]) && digit(right[j])) {
                const std::string one = number(left, i);
                const std::string other = number(right, j);
                if (one.size() != other.size()) return one.size() < other.size() ? -1 : 1;
                if (const int order = one.compare(other); order != 0) return order;
            } else if (left[i] != right[j]) {
                return left[i] < right[j] ? -1 : 1;
            } else {
                ++i;
                ++j;
            }
        }
        return i < left.size() ? 1 : j < right.size() ? -1 : 0;
    };
    const auto filled_first = [&](const std::string& left, const std::string& right) {
        if (left.empty() != right.empty()) return left.empty() ? 1 : -1;
        return compare(left, right);
    };
    if (const int order = filled_first(a.location, b.location); order != 0) return order < 0;
    if (const int order = filled_first(a.tag, b.tag); order != 0) return order < 0;
    return compare(a.name, b.name) < 0;
}

RunSummary run_summary(const Seen& seen, int run) {
    const ledger::RunState& state = seen.cellar.runs[at(run)];
    RunSummary view;
    view.number = seen.telling.number_of(state.key);
    view.run = state.as.run;
    view.source = seen.cellar.vessels[at(state.source)].as.name;
    view.container = state.as.container_name;
    view.fill = state.as.fill;
    view.count = state.as.count;
    view.left = state.left;
    for (const auto& [cause, count] : state.taken) view.taken.emplace_back(ledger::word(cause), count);
    if (state.missing > 0) view.taken.emplace_back("missing", state.missing);
    view.found_again = state.found;
    view.packaged = seen.telling.day_text(state.packaged);
    view.location = state.as.location;
    view.age_when_packaged =
        engine::age_of(seen.cellar, state.liquid, state.packaged, seen.telling.zone, engine::AgeFrom::brew_day);
    view.years_in_container = std::max(0.0, years_between(state.packaged, seen.when));
    return view;
}

HoldingView holding_view(const Seen& seen, engine::HolderRef holder, std::size_t entries) {
    HoldingView view;
    view.on = seen.telling.day_text(seen.when);
    const ledger::Liquid& liquid = liquid_of(seen.cellar, holder);
    if (holder.run >= 0) {
        view.run = run_summary(seen, holder.run);
        view.estimates = estimates_of(seen.states.runs[at(holder.run)]);
    } else {
        view.vessel = vessel_summary(seen, holder.vessel);
        view.estimates = estimates_of(seen.states.vessels[at(holder.vessel)]);
        for (const int index : seen.cellar.vessels[at(holder.vessel)].additions_inside)
            view.inside.push_back(addition_text(seen, index, true));
    }
    view.from_brew_day = engine::age_of(seen.cellar, liquid, seen.when, seen.telling.zone, engine::AgeFrom::brew_day);
    view.from_entry = engine::age_of(seen.cellar, liquid, seen.when, seen.telling.zone, engine::AgeFrom::entry);
    for (const ledger::CultureHere& here : liquid.cultures) {
        const ledger::CultureState& culture = seen.cellar.cultures[at(here.culture)];
        view.cultures.push_back({culture.as.name, culture.as.kind, culture.as.killer, culture.as.toxin,
                                 culture.as.diastatic, certainty_of(seen, holder, here),
                                 seen.telling.day_text(here.since), seen.cellar.vessels[at(culture.vessel)].as.name,
                                 here.gear >= 0 ? seen.cellar.gear[at(here.gear)].name : "",
                                 here.gear >= 0 ? seen.cellar.vessels[at(here.gear_was_in)].as.name : ""});
    }
    std::stable_sort(view.cultures.begin(), view.cultures.end(),
                     [](const CultureLine& a, const CultureLine& b) { return a.certainty > b.certainty; });
    for (const ledger::AllergenHere& here : liquid.allergens) view.allergens.push_back({here.group, here.mg_per_litre});
    for (const int index : liquid.additions) view.took_from.push_back(addition_text(seen, index, false));
    const auto& list = entries_of(seen.cellar, holder);
    for (auto index = list.rbegin(); index != list.rend() && view.entries.size() < entries; ++index)
        view.entries.push_back(seen.telling.line(*seen.cellar.entries[at(*index)]));
    return view;
}

Touched touched_of(const HoldingView& before, const HoldingView& after) {
    const auto held = [](const HoldingView& view) {
        if (view.vessel) return view.vessel->volume;
        return view.run ? view.run->fill * view.run->left : Volume{};
    };
    Touched touched;
    const HoldingView& there = after.vessel || after.run ? after : before;
    touched.number = there.vessel ? there.vessel->number : there.run ? there.run->number : 0;
    touched.name = there.vessel ? there.vessel->name : there.run ? there.run->run : std::string();
    touched.held = held(before);
    touched.volume = held(after);
    for (const CultureLine& culture : after.cultures)
        touched.cultures.push_back({culture.name, ledger::word(culture.certainty)});
    std::sort(touched.cultures.begin(), touched.cultures.end());
    return touched;
}

std::vector<Change> changes_between(const HoldingView& before, const HoldingView& after, VolumeUnit unit) {
    std::vector<Change> rows;
    const std::string subject = after.vessel    ? after.vessel->name
                                : after.run     ? after.run->run
                                : before.vessel ? before.vessel->name
                                                : "";
    const auto row = [&](const std::string& what, const std::string& was, const std::string& is) {
        if (was != is) rows.push_back({subject, what, was, is});
    };
    const auto volume = [unit](const HoldingView& view) -> std::string {
        if (view.vessel)
            return text_of(view.vessel->volume, unit) + " (" + percent_text(view.vessel->fill, 0) + " full)";
        if (view.run) return std::to_string(view.run->left) + " left";
        return "";
    };
    row("volume", volume(before), volume(after));
    const auto age = [](const HoldingView& view) {
        return view.from_brew_day ? age_text(*view.from_brew_day) : std::string();
    };
    row("age from brew day", age(before), age(after));
    const bool emptied = after.vessel && after.vessel->volume == Volume{};
    for (const char* quantity : {"gravity", "alcohol", "ph", "ta", "ibu", "colour"}) {
        const auto value = [quantity](const HoldingView& view) {
            for (const NamedEstimate& named : view.estimates)
                if (named.quantity == quantity) return estimate_text(named);
            return std::string();
        };
        const std::string was = value(before);
        const std::string is = value(after);
        row(quantity, was, is.empty() && !was.empty() && !emptied ? "not known until read" : is);
    }
    row("cultures", culture_list(before), culture_list(after));
    row("allergens", allergen_list(before), allergen_list(after));
    const auto joined = [](const std::vector<std::string>& list) {
        std::string text;
        for (const std::string& one : list) text += (text.empty() ? "" : "; ") + one;
        return text;
    };
    row("inside", joined(before.inside), joined(after.inside));
    return rows;
}

}  // namespace undercroft::app

#include <fmt/core.h>

#include <algorithm>

#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/text.hpp"

namespace undercroft::render {
namespace {

constexpr std::size_t k_strata = 12;
constexpr std::size_t k_longest_name = 16;
constexpr std::int64_t k_worth_telling_ul = 50'000;  // less than a sample that evaporated is no news

std::string sequence_text(const app::BookLine& book) {
    return book.sequence > 0 ? fmt::format("entry #{}", book.sequence) : std::string("no entries yet");
}

std::string youngest_text(const engine::Age& age) {
    return percent_text(age.youngest_share, 0) + ", " + duration_text(age.youngest_years);
}

std::string gravity_text(const std::vector<app::LastReading>& last) {
    const auto gravity =
        std::find_if(last.begin(), last.end(), [](const auto& reading) { return reading.quantity == "gravity"; });
    if (gravity != last.end())
        return (gravity->calibrated.empty() ? gravity->value : gravity->calibrated) +
               (gravity->unit == "SG" ? "" : " " + gravity->unit) + ", " + ago_text(gravity->days_ago);
    return last.empty() ? std::string{} : reading_text(last.front());
}

// How well it is known once somebody has looked.
std::string held_text(const app::VesselSummary& vessel, VolumeUnit unit) {
    if (vessel.volume.ul() == 0) return "empty";
    return vessel.stock_take ? text_with_spread(vessel.volume, vessel.volume_sd, unit) : text_of(vessel.volume, unit);
}

std::string stock_lines(const app::VesselSummary& vessel, VolumeUnit unit) {
    std::string out;
    if (vessel.stock_take) {
        const app::StockLine& stock = *vessel.stock_take;
        out += wrapped("  ", fmt::format("stock-take: found {} by {} {} (entry #{})",
                                         text_with_spread(stock.found, stock.found_sd, unit), stock.found_by,
                                         ago_text(stock.days_ago), stock.number));
        if (stock.booked != stock.found)
            out += wrapped("  ", fmt::format("entries booked since then for before it make the book say {} there: "
                                             "correct {} to settle it again",
                                             text_of(stock.booked, unit), stock.number));
    }
    if (vessel.volume.ul() > 0 && vessel.volume_sd.ul() > 0)
        out += wrapped("  ", fmt::format("known to \u00B1 {}{}", spread_text(vessel.volume_sd, unit),
                                         vessel.stock_take ? "" : "; no stock-take yet"));
    if (vessel.evaporation && vessel.evaporation->high.ul() >= k_worth_telling_ul)
        out +=
            wrapped("  ", fmt::format("likely evaporated since {}: about {} ({} to {}), not booked; {} gives off {} a "
                                      "year (common practice, no source)",
                                      vessel.evaporation->since, text_of(vessel.evaporation->likely, unit),
                                      text_of(vessel.evaporation->low, unit), text_of(vessel.evaporation->high, unit),
                                      vessel.material, percent_text(vessel.evaporation->share_a_year, 1)));
    return out;
}

std::string vessel_table(const app::CellarView& view) {
    Table table(
        {Align::left, Align::left, Align::right, Align::right, Align::left, Align::left, Align::left, Align::left});
    table.head({"", "vessel", "holds", "full at", "oldest first", "mean age", "youngest", "last read"});
    for (const app::VesselSummary& vessel : view.vessels) {
        const std::string inside =
            vessel.age ? strata(*vessel.age, vessel.fill, k_strata) : strata(engine::Age{}, vessel.fill, k_strata);
        table.row({vessel.tag, clipped(vessel.name, k_longest_name), held_text(vessel, view.book.unit),
                   text_of(vessel.full, view.book.unit), inside,
                   vessel.age ? (vessel.age->assumed ? "~" : "") + duration_text(vessel.age->mean_years) : "",
                   vessel.age ? youngest_text(*vessel.age) : "", gravity_text(vessel.last)});
    }
    return table.text();
}

std::string run_table(const app::CellarView& view) {
    Table table({Align::left, Align::right, Align::left, Align::left, Align::left, Align::left, Align::left});
    table.head({"run", "left", "of", "from", "packaged", "inside it was", "kept"});
    for (const app::RunSummary& run : view.runs)
        table.row({run.run, std::to_string(run.left),
                   fmt::format("{} x {}", run.count, text_of(run.fill, view.book.unit)),
                   clipped(run.source, k_longest_name), run.packaged,
                   run.age_when_packaged ? mean_age_text(*run.age_when_packaged) + " old" : "", run.location});
    return table.text();
}

std::string way_of(const app::CultureLine& culture) {
    if (!culture.through.empty()) return fmt::format(", through {}, last in {}", culture.through, culture.last_in);
    return culture.came_from.empty() ? std::string() : ", came in at " + culture.came_from;
}

std::string culture_table(const std::vector<app::CultureLine>& cultures) {
    Table table({Align::left, Align::left, Align::left, Align::left});
    for (const app::CultureLine& culture : cultures) {
        std::string traits = culture.kind;
        if (culture.killer == ledger::KillerPhenotype::killer)
            traits += fmt::format("; killer, toxin {}", ledger::word(culture.toxin));
        else if (culture.killer == ledger::KillerPhenotype::unknown)
            traits += "; killer factor unknown";
        if (culture.diastatic == ledger::Diastatic::yes) traits += "; diastatic";
        if (culture.diastatic == ledger::Diastatic::unknown) traits += "; diastatic or not unknown";
        table.row({ledger::word(culture.certainty), culture.name,
                   fmt::format("since {}{}", culture.since, way_of(culture)), traits});
    }
    return table.text();
}

std::string estimate_table(const std::vector<app::NamedEstimate>& estimates) {
    Table table({Align::left, Align::right, Align::left, Align::left, Align::left, Align::left});
    for (const app::NamedEstimate& named : estimates) {
        const engine::Estimate& estimate = named.estimate;
        // A spread below the digits shown still has to be seen: one more digit then.
        const int digits = estimate.sd > 0.0 && number_text(estimate.sd, named.decimals).find_first_of("123456789") ==
                                                    std::string::npos
                               ? named.decimals + 1
                               : named.decimals;
        table.row({quantity_text(named.quantity), number_text(estimate.mean, digits),
                   estimate.sd > 0.0 ? "\u00B1 " + number_text(estimate.sd, digits) : "",
                   named.unit == "pH" ? "" : named.unit, engine::word(estimate.provenance), estimate.why});
    }
    return table.text();
}

std::string allergen_text(const std::vector<app::AllergenLine>& allergens) {
    std::string text;
    for (const app::AllergenLine& allergen : allergens)
        text += (text.empty() ? "" : ", ") + allergen.group +
                (allergen.mg_per_litre ? fmt::format(" {} mg/L", figure_text(*allergen.mg_per_litre, "mg/L"))
                                       : std::string(" (amount unknown)"));
    return text;
}

std::string facts_of(const app::VesselSummary& vessel, VolumeUnit unit) {
    std::string out = fmt::format("  {} of {} ({} brimful)", text_of(vessel.volume, unit), text_of(vessel.full, unit),
                                  text_of(vessel.capacity, unit));
    if (vessel.solids.ul() > 0) out += fmt::format(", fruit takes {} of the room", text_of(vessel.solids, unit));
    out += "\n  " + std::string(ledger::word(vessel.role));
    if (!vessel.material.empty()) out += ", " + vessel.material;
    if (!vessel.location.empty()) out += ", " + vessel.location;
    out += fmt::format("; entry #{}{}\n", vessel.number, vessel.tag.empty() ? "" : ", tag " + vessel.tag);
    if (!vessel.gauge.empty()) out += wrapped("  ", vessel.gauge);
    out += stock_lines(vessel, unit);
    for (const app::LastReading& reading : vessel.last) out += "  last read: " + reading_text(reading) + "\n";
    return out;
}

std::string facts_of(const app::RunSummary& run, VolumeUnit unit) {
    std::string out =
        fmt::format("  {} of {} left, {} of {} each\n", run.left, run.count, run.container, text_of(run.fill, unit));
    out += fmt::format("  packaged {} from {}, {} ago; entry #{}\n", run.packaged, run.source,
                       duration_text(run.years_in_container), run.number);
    if (!run.location.empty()) out += "  kept: " + run.location + "\n";
    std::string taken;
    for (const auto& [cause, count] : run.taken)
        taken += (taken.empty() ? "" : ", ") + fmt::format("{} {}", count, cause);
    if (!taken.empty()) out += "  gone: " + taken + "\n";
    if (run.found_again > 0)
        out += fmt::format("  counted: {} more than the book had, of those it had gone\n", run.found_again);
    return out;
}

std::string age_lines(const app::HoldingView& view) {
    std::string out;
    Table table({Align::left, Align::left, Align::left});
    for (const auto* age : {&view.from_brew_day, &view.from_entry}) {
        if (!*age) continue;
        std::string range;
        if ((*age)->high_years - (*age)->low_years >= 0.05)
            range = fmt::format("{} to {} by what is assumed; ", duration_text((*age)->low_years),
                                duration_text((*age)->high_years));
        table.row({(*age)->from == engine::AgeFrom::brew_day ? "from the day brewed" : "from the day it came in",
                   mean_age_text(**age),
                   fmt::format("{}youngest part {}, {} ({}); older than 3 years {}", range,
                               percent_text((*age)->youngest_share, 0), duration_text((*age)->youngest_years),
                               (*age)->youngest_name, percent_text(engine::share_older_than(**age, 3.0), 0))});
    }
    if (!table.empty()) out += heading("Mean age by volume") + table.text();
    if (view.from_brew_day) out += make_up(*view.from_brew_day);
    return out;
}

std::string list_of(std::string_view head, const std::vector<std::string>& lines) {
    std::string out;
    for (const std::string& line : lines) out += wrapped("  ", line);
    return out.empty() ? out : heading(head) + out;
}

}  // namespace

std::string text_of(const app::CellarView& view) {
    std::string out = title(view.book, "the cellar on " + view.on, sequence_text(view.book));
    if (view.vessels.empty())
        return out +
               "\nNo vessels yet. Begin with one:\n"
               "  undercroft vessel Amber --capacity 60 L --ullage 6 L --role solera\n"
               "  undercroft lot \"Founding wort\" 54 L --into Amber --og 1.048\n";
    out += "\n" + vessel_table(view);
    if (!view.runs.empty()) out += "\n" + run_table(view);
    if (!view.today.empty())
        out += heading("Today and next") + due_table(view.today) + "  undercroft due says why, and what settles it.\n";
    constexpr std::size_t k_findings_shown = 3;
    out += finding_lines("No longer true", view.findings, k_findings_shown);
    out += fmt::format("\n  In {} = out {} + on hand {}\n", text_of(view.in, view.book.unit),
                       text_of(view.out, view.book.unit), text_of(view.on_hand, view.book.unit));
    return out;
}

std::string text_of(const app::HoldingView& view) {
    const std::string name = view.vessel ? view.vessel->name : view.run ? view.run->run : std::string{};
    std::string out = title(view.book, name + " on " + view.on, sequence_text(view.book));
    out += block_of(view.cautions);
    out += finding_lines("No longer true", view.findings, view.findings.size());
    out += "\n";
    if (view.vessel) out += facts_of(*view.vessel, view.book.unit);
    if (view.run) out += facts_of(*view.run, view.book.unit);
    out += age_lines(view);
    if (!view.estimates.empty()) out += heading("What it is like") + estimate_table(view.estimates);
    if (!view.cultures.empty()) out += heading("Who lives there") + culture_table(view.cultures);
    if (!view.allergens.empty()) out += heading("Allergens") + wrapped("  ", allergen_text(view.allergens));
    out += list_of("In it", view.inside);
    out += list_of("It carries the taste of", view.took_from);
    if (!view.entries.empty()) out += heading("Entries, newest first") + entry_lines(view.entries);
    return out;
}

std::string text_of(const app::EntriesView& view) {
    const std::string out = title(view.book, "entries, newest first", sequence_text(view.book));
    return out + "\n" + (view.entries.empty() ? "  none\n" : entry_lines(view.entries));
}

}  // namespace undercroft::render

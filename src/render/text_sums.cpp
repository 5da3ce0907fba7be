#include <fmt/core.h>

#include <algorithm>

#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/text.hpp"

namespace undercroft::render {
namespace {

std::string step_table(const std::vector<app::TraceStep>& steps, VolumeUnit unit, bool with_shares) {
    Table table({Align::right, Align::right, Align::left, Align::left, Align::left, Align::left});
    for (const app::TraceStep& step : steps)
        table.row({with_shares ? percent_text(step.share, step.share < 0.0995 ? 1 : 0) : "",
                   with_shares || step.volume.ul() > 0 ? text_of(step.volume, unit) : "", step.what,
                   step.certainty.empty() ? step.name : step.name + " (" + step.certainty + ")", step.when,
                   step.detail});
    return table.text();
}

std::string date_lines(const std::vector<app::FruitDate>& dates) {
    std::string out;
    for (const app::FruitDate& date : dates) {
        out += "  " + date.day + "  " + date.task + "\n";
        if (!date.done_when.empty()) out += wrapped("              ", "done when: " + date.done_when);
        if (!date.caution.empty()) out += wrapped("          !!  ", date.caution);
    }
    return out;
}

std::string way_text(const app::FruitWay& way, Sources& sources) {
    std::string out = heading(way.title) + term_lines(way.terms, sources);
    if (!way.dates.empty()) out += heading(way.title + ": the days") + date_lines(way.dates);
    return out;
}

// The outcomes beside each other, one column a way.
std::string side_by_side(const app::FruitView& view) {
    std::vector<Align> columns{Align::left};
    std::vector<std::string> names{""};
    std::vector<std::string> volumes{"volume in the end"};
    std::vector<std::string> alcohols{"alcohol, % vol"};
    std::vector<std::string> gravities{"gravity, SG"};
    std::vector<std::string> vessels{"least vessel"};
    std::vector<std::string> gases{"CO2 if closed too early, volumes"};
    for (const app::FruitWay& way : view.ways) {
        columns.push_back(Align::right);
        names.push_back(way.title);
        volumes.push_back(text_of(way.final_volume, view.book.unit));
        alcohols.push_back(number_text(way.final_alcohol, 1));
        gravities.push_back(number_text(way.final_gravity, 4));
        vessels.push_back(text_of(way.least_vessel, view.book.unit));
        gases.push_back(number_text(way.gas_if_closed_volumes, 1));
    }
    Table table(columns);
    table.head(names);
    for (auto* row : {&volumes, &alcohols, &gravities, &vessels, &gases}) table.row(*row);
    return table.text();
}

}  // namespace

std::string text_of(const app::TraceView& view) {
    const bool back = view.direction == "back";
    std::string out = title(view.book, (back ? "what is in " : "where it went: ") + view.subject, "on " + view.on);
    // A culture has no share: where it may live stands under its own heading.
    if (!view.sources.empty() || view.cultures.empty())
        out += heading(back ? "Sources, by share" : "Where it is, and what left") +
               (view.sources.empty() ? "  nothing\n" : step_table(view.sources, view.book.unit, true)) +
               fmt::format("  together {}\n", percent_text(view.share_sum, 1));
    if (!view.additions.empty())
        out += heading("Additions it touched") + step_table(view.additions, view.book.unit, false);
    if (!view.cultures.empty()) out += heading("Cultures") + step_table(view.cultures, view.book.unit, false);
    if (!view.path.empty()) out += heading("By way of") + step_table(view.path, view.book.unit, false);
    return out;
}

std::string text_of(const app::FruitView& view) {
    std::string out = title(view.book, view.mass + " of " + view.fruit, "");
    out += block_of(view.cautions);
    out += "\n" + side_by_side(view);
    Sources sources;
    out += heading("The fruit") + term_lines(view.fruit_terms, sources);
    for (const app::FruitWay& way : view.ways) out += way_text(way, sources);
    return out + sources.text();
}

std::string text_of(const app::CheckView& view) {
    std::string out = title(view.book, view.ok() ? "the book is whole" : "THE BOOK IS NOT WHOLE",
                            fmt::format("entry #{}", view.book.sequence));
    Table table({Align::left, Align::left, Align::left});
    for (const ledger::CheckFinding& finding : view.findings)
        table.row({finding.ok ? "ok" : "WRONG", finding.check, finding.what});
    out += "\n" + table.text();
    const bool told = std::any_of(view.findings.begin(), view.findings.end(),
                                  [](const ledger::CheckFinding& finding) { return finding.check == "chain"; });
    if (!view.head.empty() && !told) out += "\n  head " + view.head + "\n";
    if (!view.ok()) out += "\nBook nothing more in it. Copy the file as it is, and go back to the last good backup.\n";
    return out;
}

std::string text_of(const app::BackupView& view) {
    return title(view.book, fmt::format("{} entries copied", view.entries), "") + "  " + view.path + "\n  head " +
           view.head + "\n";
}

std::string text_of(const Error& error) {
    // A store says what is wrong with a file in half a sentence: the file's name goes in front.
    const bool half = !error.what.empty() && error.what[0] >= 'a' && error.what[0] <= 'z' && !error.where.empty();
    std::string out = wrapped("", half ? error.where + ": " + error.what : error.what);
    Table table({Align::left, Align::left});
    for (const Fact& fact : error.facts) table.row({fact.label, fact.value});
    out += table.text();
    if (!error.next_step.empty()) out += wrapped("", error.next_step);
    return out;
}

}  // namespace undercroft::render

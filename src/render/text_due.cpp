#include <fmt/core.h>

#include <algorithm>
#include <cstdlib>

#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/text.hpp"
#include "units/span.hpp"

namespace undercroft::render {
namespace {

std::string days_text(int days) {
    return fmt::format("{} day{}", days, days == 1 ? "" : "s");
}

// The newest value of a quantity, without its unit.
std::string last_of(const app::VesselSummary& vessel, std::string_view quantity) {
    const auto found = std::find_if(vessel.last.begin(), vessel.last.end(),
                                    [&](const app::LastReading& reading) { return reading.quantity == quantity; });
    return found == vessel.last.end() ? std::string{} : found->value;
}

std::string last_day(const app::VesselSummary& vessel) {
    return vessel.last.empty() ? std::string("never") : ago_text(vessel.last.front().days_ago);
}

}  // namespace

std::string due_text(const app::DueLine& line) {
    if (line.days < 0) return "overdue " + days_text(-line.days);
    if (line.days > 0) return "in " + days_text(line.days);
    return line.until > line.day ? "until " + line.until : "today";
}

std::string due_table(const std::vector<app::DueLine>& lines) {
    Table table({Align::left, Align::left, Align::left, Align::left});
    for (const app::DueLine& line : lines)
        table.row({line.urgent ? "!!" : "", due_text(line), line.subject, line.title});
    return table.text();
}

std::string text_of(const app::DueView& view) {
    std::string out = title(view.book, "what is due within " + span_text(view.within_days) + " of " + view.on, "");
    if (view.lines.empty()) return out + "\n  Nothing.\n";
    for (const app::DueLine& line : view.lines) {
        out += fmt::format("\n{}\n", wrapped(line.urgent ? "!! " : "  ",
                                             fmt::format("{}: {}, {}", line.subject, line.title, due_text(line))));
        out.pop_back();
        out += wrapped("      ", line.why + ".");
        out += "      " + line.command + "\n";
    }
    return out + "\n  undercroft remind sets how often a reading, tasting, pull or top-up is due.\n";
}

std::string text_of(const app::RoundView& view) {
    std::string out = title(view.book, "a round on " + view.on, "");
    if (view.vessels.empty()) return out + "\n  No vessel holds anything.\n";
    Table table({Align::left, Align::left, Align::left, Align::right, Align::right, Align::right, Align::right,
                 Align::right, Align::left, Align::left});
    table.head({"", "vessel", "place", "holds", "SG", "pH", "TA", "\u00B0C", "last read", "now"});
    for (const app::VesselSummary& vessel : view.vessels)
        table.row({vessel.tag, vessel.name, vessel.location, text_of(vessel.volume, view.book.unit),
                   last_of(vessel, "gravity"), last_of(vessel, "ph"), last_of(vessel, "ta"),
                   last_of(vessel, "temperature"), last_day(vessel), "______________"});
    out += "\n" + table.text();
    return out +
           "\n  One line a vessel in this order comes back: 1.008 pH 3.42 18 C TA 6.2, words.\n"
           "  An empty line or \"same\" passes a vessel by; \"Amber: 1.008\" goes to that one.\n";
}

std::string text_of(const app::JottedView& view) {
    std::string out = "Understood as\n";
    for (const std::string& act : view.acts) out += "  " + act + "\n";
    return out + "\n" + text_of(view.sitting);
}

}  // namespace undercroft::render

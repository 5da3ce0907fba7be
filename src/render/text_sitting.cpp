#include <fmt/core.h>

#include <cmath>

#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/text.hpp"

namespace undercroft::render {
namespace {

std::string verdict_mark(const std::string& verdict) {
    if (verdict == "do_not") return "DO NOT PACKAGE";
    if (verdict == "wait") return "WAIT";
    return "READY";
}

std::string change_table(const app::SittingView& view, const std::vector<app::Change>& changes) {
    Table table({Align::left, Align::left, Align::left, Align::left});
    table.head({"", "", "before", view.booked || view.already ? "now" : "after"});
    std::string subject;
    for (const app::Change& change : changes) {
        table.row({change.subject == subject ? "" : change.subject, quantity_text(change.what),
                   change.before.empty() ? "-" : change.before, change.after.empty() ? "-" : change.after});
        subject = change.subject;
    }
    return table.text();
}

std::string numbers_text(const std::vector<app::EntryLine>& entries) {
    if (entries.empty()) return "none";
    return fmt::format("#{}-#{}", entries.front().number, entries.back().number);
}

std::string verdict_of(const app::GasCheckView& view) {
    std::string out = fmt::format("  {}\n", verdict_mark(view.verdict)) + wrapped("  ", view.verdict_words);
    for (const std::string& reason : view.reasons) out += wrapped("  - ", reason);
    return out + block_of(view.cautions);
}

std::string limit_of(const app::GasCheckView& view) {
    return wrapped(
        "  ", view.limit_bar
                  ? fmt::format("Allowed {} bar: 0.8 of the {} bar it is made for.", number_text(view.allowed_bar, 2),
                                number_text(*view.limit_bar, 2))
                  : fmt::format("Nobody has said what {} is made for: ask its maker for at least {} bar.",
                                view.container, number_text(std::ceil(view.limit_needed_bar * 10.0 - 1e-9) / 10.0, 1)));
}

std::string figures_of(const app::GasCheckView& view) {
    Sources sources;
    std::string out = heading("Gas that can be there, upper bounds") + term_lines(view.gas, sources);
    out += fmt::format("  together {} volumes of CO2, {} g/L\n", number_text(view.total_volumes, 2),
                       number_text(view.total_g_per_l, 1));
    out += heading(fmt::format("Pressure at {} \u00B0C, the warmest store", number_text(view.store_c, 0))) +
           term_lines(view.pressure, sources) + limit_of(view);
    if (!view.by_temperature.empty() && !view.spread) {
        Table table({Align::right, Align::right, Align::left});
        for (const auto& [celsius, bar] : view.by_temperature)
            table.row({number_text(celsius, 0) + " \u00B0C", number_text(bar, 2) + " bar",
                       view.limit_bar && bar > view.allowed_bar ? "more than allowed" : ""});
        out += heading("At other temperatures") + table.text();
    }
    return out + sources.text();
}

std::string band_text(const app::BandLine& band, int places) {
    return number_text(band.low, places) + " to " + number_text(band.high, places);
}

std::string spread_of(const app::GasSpreadView& view, double allowed_bar) {
    Table causes({Align::left, Align::right, Align::right});
    causes.head({"", "volumes", "share"});
    for (std::size_t i = 0; i < view.causes.size(); ++i)
        if (view.causes[i].second.high > 0.0)
            causes.row({view.causes[i].first, band_text(view.causes[i].second, 2), percent_text(view.shares[i], 0)});
    Table curve({Align::right, Align::right, Align::right, Align::left});
    curve.head({"store", "middle, bar", "nine of ten", ""});
    for (const auto& [celsius, bar] : view.by_temperature)
        curve.row({number_text(celsius, 0) + " \u00B0C", number_text(bar.mid, 2), band_text(bar, 2),
                   allowed_bar > 0.0 && bar.high > allowed_bar ? "not for 95 of 100" : ""});
    return heading("What single bottles come to") + wrapped("  ", view.words) + causes.text() + "\n" + curve.text();
}

std::string gas_title(const app::GasCheckView& view) {
    return "gas check" + (view.subject.empty() ? "" : " of " + view.subject) + " in " + view.container;
}

// Beside a sitting: what decides, without the sums.
std::string gas_in_short(const app::GasCheckView& view) {
    return heading(gas_title(view)) + verdict_of(view) +
           fmt::format("\n  Every cause at its most: {} volumes of CO2 and {} bar gauge at {} \u00B0C.\n",
                       number_text(view.total_volumes, 1), number_text(view.total_gauge_bar, 1),
                       number_text(view.store_c, 0)) +
           limit_of(view) + "  undercroft gas shows every figure.\n";
}

std::string numbers_phrase(const std::vector<app::EntryLine>& entries) {
    return entries.size() == 1 ? fmt::format("entry #{}", entries.front().number) : "entries " + numbers_text(entries);
}

}  // namespace

std::string acknowledgement(const app::SittingView& view) {
    return fmt::format("{} {} entries {}\n",
                       view.already  ? "already booked"
                       : view.booked ? "booked"
                                     : "what-if",
                       view.key, numbers_text(view.entries));
}

std::string text_of(const app::SittingView& view) {
    std::string out;
    if (!view.booked && !view.already)
        out += "What if: nothing was booked.\n";
    else
        out += (view.already ? "Booked before: " : "Booked ") + numbers_phrase(view.entries) + ".\n";
    out += title(view.book, view.when, "sitting " + view.key);
    out += block_of(view.cautions);
    out += "\n" + entry_lines(view.entries);
    if (!view.changes.empty()) out += "\n" + change_table(view, view.changes);
    if (!view.moved.empty())
        out += heading("News travels: what else is different today") + change_table(view, view.moved);
    out += finding_lines("No longer true", view.findings_opened, view.findings_opened.size());
    if (!view.findings_closed.empty()) out += heading("Settled by this");
    for (const app::FindingView& finding : view.findings_closed)
        out += wrapped("  ", finding.kind + " of " + finding.run + ", entry #" + std::to_string(finding.number));
    if (!view.remarks.empty()) out += "\n";
    for (const std::string& remark : view.remarks) out += wrapped("  * ", remark);
    for (const app::GasCheckView& check : view.gas_checks) out += gas_in_short(check);
    for (const app::LabelView& label : view.labels) out += "\n" + text_of(label);
    return out;
}

std::string text_of(const app::GasCheckView& view) {
    return title(view.book, gas_title(view), "") + "\n" + verdict_of(view) +
           (view.spread ? spread_of(*view.spread, view.allowed_bar) : "") + figures_of(view);
}

std::string text_of(const app::LabelView& view) {
    std::string out = "Label of " + view.run + (view.kept ? ", kept in the book" : ", not kept") + "\n";
    for (const std::string& line :
         broken(std::string_view(view.text).substr(0, view.text.find_last_not_of('\n') + 1), k_columns - 4))
        out += line.empty() ? "  |\n" : "  | " + line + "\n";
    return out;
}

}  // namespace undercroft::render

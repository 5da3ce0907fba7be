#include <fmt/core.h>

#include <algorithm>

#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/text.hpp"

namespace undercroft::render {

std::string finding_lines(std::string_view head, const std::vector<app::FindingView>& findings, std::size_t most) {
    if (findings.empty()) return {};
    std::string out = heading(head);
    for (std::size_t i = 0; i < std::min(findings.size(), most); ++i) {
        out += wrapped("  ! ", findings[i].words);
        out += wrapped("    ", findings[i].where);
    }
    if (findings.size() > most)
        out += fmt::format("  and {} more: undercroft findings lists them\n", findings.size() - most);
    return out;
}

std::string text_of(const app::FindingsView& view) {
    std::string out = title(view.book,
                            view.findings.empty()       ? "nothing that was said has become untrue"
                            : view.findings.size() == 1 ? "1 finding stands"
                                                        : fmt::format("{} findings stand", view.findings.size()),
                            fmt::format("entry #{}", view.book.sequence));
    for (const app::FindingView& finding : view.findings) {
        out += "\n" + wrapped("! ", finding.words) + wrapped("  ", finding.where);
        Table table({Align::left, Align::left, Align::left});
        table.head({"", fmt::format("said in #{} on {}", finding.number, finding.day), "now"});
        for (const app::FindingDifference& one : finding.differences) table.row({one.what, one.said, one.now});
        out += table.text() + wrapped("  ", finding.next_step);
    }
    return out;
}

std::string text_of(const app::GearView& view) {
    std::string out = title(view.book, "gear on " + view.on, fmt::format("entry #{}", view.book.sequence));
    if (view.gear.empty())
        return out +
               "\nNone is known yet. Name it where it is used: undercroft pull Amber 18 L Jar --gear \"long hose\"\n";
    Table table({Align::left, Align::left, Align::left});
    table.head({"gear", "last in", "possible in what it touches, until a kill step"});
    for (const app::GearLine& gear : view.gear) {
        std::string riders;
        for (const app::RiderLine& rider : gear.riders)
            riders += fmt::format("{}{} (from {}, since {})", riders.empty() ? "" : ", ", rider.culture, rider.was_in,
                                  rider.since);
        table.row({gear.name, gear.last_in.empty() ? "" : gear.last_in + ", " + gear.last_used,
                   riders.empty() ? "nothing" : riders});
    }
    return out + "\n" + table.text();
}

}  // namespace undercroft::render

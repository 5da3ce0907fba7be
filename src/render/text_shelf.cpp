#include <fmt/core.h>

#include <algorithm>

#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/shelf.hpp"
#include "units/amount.hpp"

namespace undercroft::render {
namespace {

std::string receiver_text(const app::Receiver& one) {
    return fmt::format("{} {}{} on {}", one.count, one.cause, one.who.empty() ? "" : " to " + one.who, one.day);
}

std::string bottles_text(const app::RecallPlace& run) {
    std::string text = fmt::format("{} of {} on hand", run.left, run.count);
    for (const auto& [cause, count] : run.gone) text += fmt::format(", {} {}", count, cause);
    return text;
}

std::string how_much(const app::RecallPlace& place) {
    if (!place.certainty.empty()) return place.certainty + " since " + place.since;
    return place.share ? share_text(*place.share) : std::string();
}

std::string mark_of(const std::string& answer) {
    return answer == "yes" ? "YES" : answer == "no" ? "NO" : "WITH CARE";
}

std::string use_text(const std::string& name, const app::DregsUse& use) {
    return wrapped(fmt::format("  {:<9}  {}: ", mark_of(use.answer), name), use.why);
}

std::string opened_text(const app::ShelfTasting& one) {
    return one.day + ", after " + duration_text(one.years) +
           (one.liking ? ", liked " + number_text(*one.liking, 0) + " of 10" : "") +
           (one.words.empty() ? "" : ": " + one.words);
}

}  // namespace

std::string text_of(const app::ShelfView& view) {
    std::string out = title(view.book, "the shelf on " + view.on, fmt::format("entry #{}", view.book.sequence));
    if (view.places.empty()) return out + "\n  No bottle is on hand.\n";
    for (const app::ShelfPlace& place : view.places) {
        out += heading(fmt::format("{}, {} containers", place.location.empty() ? "No place said" : place.location,
                                   place.containers));
        Table table({Align::left, Align::right, Align::left, Align::left, Align::left});
        table.head({"run", "left", "of", "packaged", "next"});
        for (const app::ShelfRun& one : place.runs)
            table.row({one.run.run, fmt::format("{}/{}", one.run.left, one.run.count), one.solera, one.run.packaged,
                       one.next ? due_text(*one.next) + ": " + one.next->title : ""});
        out += table.text();
        for (const app::ShelfRun& one : place.runs) {
            for (const app::Receiver& who : one.received) out += wrapped("  " + one.run.run + ": ", receiver_text(who));
            for (const app::ShelfTasting& tasting : one.opened)
                out += wrapped("  " + one.run.run + " opened ", opened_text(tasting));
        }
    }
    if (!view.due.empty()) out += heading("To be done") + due_table(view.due);
    if (!view.verticals.empty()) {
        out += heading("Side by side");
        for (const app::Vertical& one : view.verticals) {
            std::string runs;
            for (const std::string& run : one.runs) runs += (runs.empty() ? "" : ", ") + run;
            out += wrapped("  " + one.solera + ": ", runs);
        }
    }
    if (!view.trends.empty()) {
        out += heading("With the years in the bottle");
        for (const app::ShelfTrend& one : view.trends) out += wrapped("  " + one.of + ": ", one.words);
    }
    return out;
}

std::string text_of(const app::WeighingView& view) {
    Sources sources;
    return title(view.book, "weighed: " + view.vessel + (view.twin.empty() ? "" : " beside " + view.twin),
                 "since " + view.since) +
           "\n" + wrapped("  ", view.words) + heading("What it lost") + term_lines(view.terms, sources) +
           sources.text() + block_of(view.cautions);
}

std::string text_of(const app::PrintedView& view) {
    std::string out = title(view.book, view.what + (view.subject.empty() ? "" : " of " + view.subject), "on paper") +
                      wrapped("  ", view.words);
    if (!view.file.empty()) out += wrapped("  ", "Written to " + view.file + ".");
    if (view.kept) out += wrapped("  ", "What it says is kept in the book, which tells you when it is no longer true.");
    return out + block_of(view.cautions);
}

std::string text_of(const app::RecallView& view) {
    std::string out = title(view.book, "recall of " + view.subject, "on " + view.on) + wrapped("  ", view.words) +
                      block_of(view.cautions);
    if (!view.vessels.empty()) {
        Table table({Align::left, Align::left, Align::right, Align::left});
        table.head({"vessel", "place", "holds", view.what == "culture" ? "there" : "of it"});
        for (const app::RecallPlace& one : view.vessels)
            table.row({one.name, one.location, text_of(one.holds, view.book.unit), how_much(one)});
        out += heading("Vessels") + table.text();
    }
    if (!view.runs.empty()) {
        Table table({Align::left, Align::left, Align::left, Align::left, Align::left});
        table.head({"run", "packaged", "place", view.what == "culture" ? "there" : "of it", "containers"});
        for (const app::RecallPlace& one : view.runs)
            table.row({one.name, one.packaged, one.location, how_much(one), bottles_text(one)});
        out += heading("Runs") + table.text();
    }
    if (view.with_others > 0) {
        Table table({Align::left, Align::right, Align::left, Align::left, Align::left});
        table.head({"who", "count", "", "on", "run"});
        for (const app::RecallPlace& run : view.runs)
            for (const app::Receiver& one : run.received)
                table.row(
                    {one.who.empty() ? "not said" : one.who, std::to_string(one.count), one.cause, one.day, run.name});
        out += heading("Who has some") + table.text();
    }
    if (!view.gear.empty()) {
        std::string names;
        for (const std::string& one : view.gear) names += (names.empty() ? "" : ", ") + one;
        out += heading("Gear it may ride on") + wrapped("  ", names);
    }
    return out;
}

std::string text_of(const app::DregsView& view) {
    std::string out = title(view.book, "the dregs of " + view.subject, "on " + view.on);
    Table table({Align::left, Align::left, Align::left, Align::left, Align::left});
    table.head({"culture", "there", "since", "now", ""});
    for (const app::DregsCulture& one : view.cultures)
        table.row({one.name, one.certainty, one.since, one.alive, one.about});
    out +=
        heading("What may live in it") + (view.cultures.empty() ? "  nothing that the book knows of\n" : table.text());
    if (!view.displaced.empty()) {
        out += heading("What made way for what");
        for (const std::string& one : view.displaced) out += wrapped("  ", one);
    }
    out += heading("Fit") + use_text("to share", view.share) + use_text("to pitch", view.pitch);
    for (const app::DregsUse& one : view.put_back) out += use_text("back into " + one.use, one);
    return out + block_of(view.cautions);
}

}  // namespace undercroft::render

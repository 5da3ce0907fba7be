#include "paper/lists.hpp"

#include <cmath>

#include "paper/flow.hpp"
#include "units/amount.hpp"

namespace undercroft::paper {

namespace {

std::string answer_words(const app::DregsUse& use) {
    return (use.answer == "yes" ? "Yes. " : use.answer == "no" ? "No. " : "With care. ") + use.why;
}

void say_cautions(Flow& flow, const std::vector<app::Caution>& cautions) {
    if (cautions.empty()) return;
    flow.small_heading("Mind");
    for (const app::Caution& caution : cautions) flow.point(caution.words);
}

std::string how_much(const app::RecallPlace& place) {
    if (!place.certainty.empty()) return place.certainty + " since " + place.since;
    return place.share ? percent_text(*place.share, *place.share < 0.1 ? 1 : 0) : "took its taste";
}

std::string gone_words(const app::RecallPlace& run) {
    std::string words;
    for (const auto& [cause, count] : run.gone)
        words += (words.empty() ? "" : ", ") + std::to_string(count) + " " + cause;
    return words;
}

void say_people(Flow& flow, const app::RecallView& recall) {
    bool any = false;
    for (const app::RecallPlace& run : recall.runs) any = any || !run.received.empty();
    if (!any) return;
    flow.small_heading("Who has some");
    flow.row({{0.08, "told"}, {0.32, "who"}, {0.12, "how many"}, {0.12, "how"}, {0.16, "on"}, {0.20, "run"}}, true);
    for (const app::RecallPlace& run : recall.runs)
        for (const app::Receiver& one : run.received)
            flow.row({{0.08, "□"},
                      {0.32, one.who.empty() ? "not said" : one.who},
                      {0.12, std::to_string(one.count)},
                      {0.12, one.cause},
                      {0.16, one.day},
                      {0.20, run.name}});
}

}  // namespace

Result<std::string> culture_card(const app::DregsView& dregs) {
    Flow flow({"card", 105.0, 148.0}, {"Dregs of " + dregs.subject, dregs.on}, 7.0);
    flow.heading("Dregs of " + dregs.subject);
    if (dregs.book.invented) flow.paragraph("Invented: nothing here is real.");
    if (dregs.cultures.empty()) flow.paragraph("Nobody has said what lives in it.");
    for (const app::DregsCulture& culture : dregs.cultures)
        flow.point(culture.name + " (" + culture.kind + "), " + culture.certainty + ", " + culture.alive +
                   (culture.about.empty() ? "" : "; " + culture.about));
    for (const std::string& words : dregs.displaced) flow.paragraph(words);
    flow.small_heading("To share");
    flow.paragraph(answer_words(dregs.share));
    flow.small_heading("To pitch");
    flow.paragraph(answer_words(dregs.pitch));
    say_cautions(flow, dregs.cautions);
    return flow.finish();
}

Result<std::string> recall_list(const app::RecallView& recall, const PageSize& page) {
    Flow flow(page, {"Recall of " + recall.subject, recall.on}, 9.0);
    flow.heading("Recall of " + recall.subject);
    if (recall.book.invented) flow.paragraph("Invented: nothing here is real.");
    flow.paragraph(recall.words, true);
    say_people(flow, recall);
    if (!recall.runs.empty()) {
        flow.small_heading("Runs");
        flow.row({{0.16, "run"}, {0.16, "on hand"}, {0.24, "gone"}, {0.18, "where"}, {0.26, "of it"}}, true);
        for (const app::RecallPlace& run : recall.runs)
            flow.row({{0.16, run.name},
                      {0.16, std::to_string(run.left) + " of " + std::to_string(run.count)},
                      {0.24, gone_words(run)},
                      {0.18, run.location.empty() ? "not said" : run.location},
                      {0.26, how_much(run)}});
    }
    if (!recall.vessels.empty()) {
        flow.small_heading("Vessels");
        flow.row({{0.32, "vessel"}, {0.18, "holds"}, {0.24, "where"}, {0.26, "of it"}}, true);
        for (const app::RecallPlace& vessel : recall.vessels)
            flow.row({{0.32, vessel.name},
                      {0.18, number_text(vessel.holds.in_litres(), 1) + " L"},
                      {0.24, vessel.location.empty() ? "not said" : vessel.location},
                      {0.26, how_much(vessel)}});
    }
    for (std::size_t i = 0; i < recall.gear.size(); ++i) {
        if (i == 0) flow.small_heading("Gear it may ride on");
        flow.point(recall.gear[i]);
    }
    say_cautions(flow, recall.cautions);
    return flow.finish();
}

Result<std::string> tasting_sheets(const app::BlindView& set, const PageSize& page, const std::string& today) {
    Flow flow(page, {"Tasting, set " + set.set, today}, 9.0);
    constexpr double k_words_share = 0.28;
    for (const app::BlindSheet& sheet : set.sheets) {
        flow.heading(sheet.taster);
        if (set.book.invented) flow.paragraph("Invented: nothing here is real.");
        flow.paragraph("Set " + set.set +
                       ". Taste in this order, a glass at a time, and write 0 to 10: 0 none, 1 just there, "
                       "3 clear, 5 middling, 7 strong, 10 at most.");
        const double each = (1.0 - k_words_share) / double(sheet.codes.size());
        std::vector<Cell> head = {{k_words_share, ""}};
        for (const std::string& code : sheet.codes) head.push_back({each, code});
        flow.row(head, true);
        const auto line = [&](const std::string& name) {
            std::vector<Cell> cells = {{k_words_share, name}};
            for (std::size_t i = 0; i < sheet.codes.size(); ++i) cells.push_back({each, "____"});
            flow.row(cells);
        };
        for (const app::BlindAttribute& one : set.attributes) line(one.name);
        line("liking");
        line("fault");
        flow.small_heading("In words");
        for (const std::string& code : sheet.codes) flow.row({{0.12, code}, {0.88, std::string(60, '_')}});
        flow.small_heading("What the words mean");
        for (const app::BlindAttribute& one : set.attributes) flow.point(one.name + ": " + one.explanation);
        say_cautions(flow, set.cautions);
        flow.next_page();
    }
    flow.heading("The key of set " + set.set);
    flow.paragraph("For whoever pours. Keep it from whoever tastes.", true);
    flow.row({{0.2, "code"}, {0.8, "glass"}}, true);
    for (const app::BlindKey& one : set.key)
        flow.row({{0.2, one.code}, {0.8, one.subject + (one.again ? " (a second glass of it)" : "")}});
    return flow.finish();
}

}  // namespace undercroft::paper

// Previewing and booking sittings.
#include <algorithm>
#include <utility>

#include "app/book_line.hpp"
#include "app/book_look.hpp"
#include "app/drafter.hpp"

namespace undercroft::app {
namespace {

// Somebody else may book between our drafting and our booking; so often it is tried again.
constexpr int k_most_tries = 4;

std::string certainty_list(const Touched& one) {
    std::vector<TouchedCulture> cultures = one.cultures;
    std::sort(cultures.begin(), cultures.end());
    std::string text;
    for (const TouchedCulture& culture : cultures)
        text += (text.empty() ? "" : ", ") + culture.name + " (" + culture.certainty + ")";
    return text.empty() ? "none" : text;
}

bool is_same_holding(const Touched& a, const Touched& b) {
    return a.number == b.number && (a.number != 0 || a.name == b.name);
}

// What is other than was shown, one fact a figure.
std::vector<Fact> differences_between(const std::vector<Touched>& shown, const std::vector<Touched>& now,
                                      VolumeUnit unit) {
    std::vector<Fact> facts;
    const auto find = [](const std::vector<Touched>& list, const Touched& wanted) -> const Touched* {
        const auto found =
            std::find_if(list.begin(), list.end(), [&](const Touched& one) { return is_same_holding(one, wanted); });
        return found == list.end() ? nullptr : &*found;
    };
    const auto fact = [&](const Touched& one, const std::string& what, const std::string& was, const std::string& is) {
        if (was != is) facts.push_back({one.name + ", " + what, "shown " + was + ", now " + is});
    };
    const auto exact = [unit](Volume a, Volume b) {
        // Shown alike, they still differ: then to the microlitre.
        return text_of(a, unit) == text_of(b, unit) && a != b ? exact_text_of(a) : text_of(a, unit);
    };
    for (const Touched& is : now) {
        const Touched* was = find(shown, is);
        if (was == nullptr) {
            facts.push_back({is.name, "was not touched when this was shown"});
            continue;
        }
        fact(is, "before", exact(was->held, is.held), exact(is.held, was->held));
        fact(is, "after", exact(was->volume, is.volume), exact(is.volume, was->volume));
        fact(is, "cultures", certainty_list(*was), certainty_list(is));
    }
    for (const Touched& was : shown)
        if (find(now, was) == nullptr) facts.push_back({was.name, "is not touched any more"});
    return facts;
}

}  // namespace

DraftInputs Book::draft_inputs() {
    return {m_journal.facts(),
            m_entries,
            m_course,
            m_persons,
            m_zone,
            m_tables,
            m_surroundings,
            unit_of(m_journal.facts()),
            [this](const std::string& commitment) { return m_journal.picture(commitment); }};
}

Result<SittingView> Book::preview(const SittingRequest& request) {
    TRY_VOID(load());
    Drafter drafter{draft_inputs()};
    TRY_VOID(drafter.draft(request));
    SittingView view;
    TRY_VOID(drafter.show(view));
    view.book = line();
    view.already = drafter.already();
    if (drafter.objection() && !drafter.already()) {
        view.remarks.push_back(drafter.objection()->next_step);
        view.objection = drafter.objection();
    }
    return view;
}

Result<void> Book::check_writable() const {
    if (!m_journal.read_only()) return {};
    return fail(ErrorKind::read_only, m_journal.facts().name,
                "This book was written by a newer program and opens read-only here.", {},
                "Book with the program that wrote it.");
}

Result<void> Book::append(Drafter& drafter, SittingView& view) {
    if (!drafter.already()) {
        TRY(const ledger::Booked booked, m_journal.append(drafter.sitting(), m_surroundings.now(), m_sequence));
        view.already = booked.already;
        for (std::size_t i = 0; i < view.entries.size() && i < booked.entries.size(); ++i) {
            view.entries[i].number = booked.entries[i].sequence;
        }
        TRY_VOID(take_in(booked.entries));
        // Booked, the entry that opened a finding has a number.
        if (!view.findings_opened.empty()) {
            TRY(const Look here, look(Moment{}));
            const std::vector<FindingView> standing = findings_at(here);
            for (FindingView& opened : view.findings_opened)
                for (const FindingView& one : standing)
                    if (one.key == opened.key) opened = one;
        }
    } else {
        view.already = true;
    }
    view.booked = true;
    for (LabelView& label : view.labels) label.kept = true;
    view.book = line();
    return {};
}

Result<SittingView> Book::book(const SittingRequest& request) {
    TRY_VOID(check_writable());
    TRY_VOID(load());
    Drafter drafter{draft_inputs()};
    TRY_VOID(drafter.draft(request));
    if (drafter.objection() && !drafter.already()) return tl::unexpected(*drafter.objection());
    SittingView view;
    TRY_VOID(drafter.show(view));
    TRY_VOID(append(drafter, view));
    return view;
}

Result<AsShown> Book::book_as_shown(const SittingRequest& request, const Expected& expected) {
    TRY_VOID(check_writable());
    for (int tries = 1;; ++tries) {
        TRY_VOID(load());
        const std::int64_t drafted_on = m_sequence;
        Drafter drafter{draft_inputs()};
        TRY_VOID(drafter.draft(request));
        if (drafter.objection() && !drafter.already()) return tl::unexpected(*drafter.objection());
        AsShown outcome;
        TRY_VOID(drafter.show(outcome.sitting));
        if (!drafter.already() && m_sequence != expected.sequence) {
            std::vector<Fact> facts =
                differences_between(expected.touched, outcome.sitting.touched, unit_of(m_journal.facts()));
            if (!facts.empty()) {
                facts.push_back({"shown on", "entry #" + std::to_string(expected.sequence)});
                facts.push_back({"the book is at", "entry #" + std::to_string(m_sequence)});
                outcome.stale = Error{ErrorKind::stale, "expected",
                                      "The book has moved on, and this would do something else than was shown.",
                                      std::move(facts), "Look at what it would do now, and book that or leave it."};
                outcome.sitting.book = line();
                return outcome;
            }
        }
        auto booked = append(drafter, outcome.sitting);
        if (booked) return outcome;
        // Another program was quicker: its sitting is judged like any other that came in between.
        TRY(const std::int64_t last, m_journal.last_sequence());
        const bool overtaken = booked.error().kind == ErrorKind::stale && last != drafted_on;
        if (!overtaken || tries == k_most_tries) return tl::unexpected(std::move(booked).error());
    }
}

}  // namespace undercroft::app

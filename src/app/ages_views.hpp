// Answers about ages and about soleras as a whole.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/views.hpp"
#include "engine/age/design.hpp"
#include "engine/age/profile.hpp"
#include "engine/age/solera.hpp"

namespace undercroft::app {

// The same vessel at another point of its last turn.
struct AgeAtTurn {
    std::string day;
    engine::Age age;
};

struct AgeView {
    BookLine book;
    std::string on;
    std::string kind;  // "vessel" or "run"
    std::string subject;
    std::string state;        // "now", "before_pull", "after_refill", "when_packaged"
    std::string state_words;  // "12 days after the refill of 2026-03-02"
    Volume volume;            // of that state; of a run what is left
    engine::Age age;          // in that state
    engine::AgeProfile profile;
    std::optional<AgeAtTurn> before_pull;   // of the last turn of a vessel
    std::optional<AgeAtTurn> after_refill;  // …
    std::string packaged;                   // of a run
    double years_in_container = 0.0;        // of a run
};

// A solera without a book, turn by turn and settled.
struct SoleraView {
    BookLine book;  // empty
    engine::SoleraPlan plan;
    std::vector<engine::SoleraTurn> turns;
    std::vector<double> older_than;      // years, the columns of share
    std::optional<double> limit_years;   // mean age of the pull, settled
    std::vector<Term> settled;           // closed forms and counts, each with how it was got
    std::optional<int> turns_to_settle;  // counted; nothing: never, or beyond counting
    double settle_within = 0.01;
    std::vector<Term> carried_over;  // a spoilt refill, a culture that grows, what does not evaporate
    std::vector<Caution> cautions;
};

struct RememberedLine {
    std::string name;
    Volume volume;
    double share = 0.0;
    std::string from, to;  // days it may have been brewed on
    std::string was;       // before a find, where it changed: "1.51 L", "2.5 L of Remembered refill 6 back"
};

// An old solera as it was answered for, and the sitting that books it.
struct RememberView {
    BookLine book;
    std::string vessel;
    std::vector<Term> terms;
    std::vector<RememberedLine> lots;
    SittingRequest drafted;  // what books it
    SittingView sitting;
};

struct DesignLine {
    engine::Design design;
    std::vector<engine::SoleraTurn> turns;  // the first eight
    double young_share = 0.0;               // of the pull at the end of the wait, younger than a year
    std::optional<int> turns_to_settle;     // within 1 %
};

struct DesignView {
    BookLine book;  // empty without --draft
    engine::DesignWish wish;
    std::vector<DesignLine> designs;        // best first
    std::vector<engine::FastStart> starts;  // of the first design, or of the one drafted
    std::size_t chosen = 0;                 // index of that design
    bool reached = false;                   // some design meets the wish in time
    std::string answer;                     // one sentence
    std::vector<Caution> cautions;
    SittingRequest drafted;              // likewise, as acts
    std::optional<SittingView> sitting;  // what --draft books, or would book
};

struct ChangeTurn {
    std::string day;
    Volume pulled;
    Volume refilled;  // new beer for the whole chain
    engine::Age age;  // of the pull
};

struct ChangeSide {
    std::vector<std::string> stages;  // names, the first gets the new beer
    double share = 0.0;
    double interval_years = 0.0;
    double yearly_litres = 0.0;
    std::vector<ChangeTurn> turns;
};

// The same solera as it is and as it would be; nothing is booked.
struct ChangeView {
    BookLine book;
    std::string vessel;
    std::string usual;  // where the old share and interval come from
    ChangeSide old_way;
    ChangeSide new_way;
    std::vector<Caution> cautions;
};

}  // namespace undercroft::app

// How a pull could be finished: every way ranked, or one at a dose with its dates, from a book or from figures alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/act.hpp"
#include "app/views.hpp"
#include "engine/finish/learning.hpp"
#include "engine/finish/rank.hpp"
#include "tables/tables.hpp"
#include "units/amount.hpp"

namespace undercroft::app {

// As typed; empty texts: as usual.
struct FinishRequest {
    std::string subject;  // of a book: the vessel the pull stands in, or will be pulled from
    std::string
        beer;  // without one: "Pull, 20 L, ph 3.4, ta 7.1, alcohol 6, gravity 1.004, culture mixed_sour, sour 7"
    std::string volume;               // of a book: only so much of it
    std::vector<std::string> wants;   // of a book: instead of the booked target
    std::vector<std::string> faults;  // without a book
    std::vector<std::string> with;    // partners for a blend: vessels of a book, or stocks as `beer`
    std::vector<std::string> prices;  // "sour cherry 6": a kilogram, or a litre of beer
    std::vector<std::string> only;    // kinds: fruit, spice, oak, dry_hop, blend, age, rest, acid, ...
    std::vector<std::string>
        fruits;                  // not in the tables, from their label: "cloudberry, sugar 6, acid 1.2, form fresh"
    std::string vessel;          // brimful volume of where it would stand, "25 L"
    std::string technique;       // one only: "sour cherry", "vanilla"
    std::string dose;            // of it: "160 g/L", "25 %"; empty: the middle of the table
    std::string days;            // of contact; empty: as usual
    std::string from;            // day it begins; empty: today
    bool clean = false;          // without a book: a clean beer, not a sour one
    bool sorbate = false;        // the label of the fruit names sorbate or benzoate
    bool neutral_yeast = false;  // the fruit's own yeast is known to be no killer
    bool all = false;            // every row on a terminal, not the first dozen
};

struct FinishFigure {
    std::string figure;
    std::string wanted;
    double before = 0.0;
    double after = 0.0;
    double sd = 0.0;
    double inside = 0.0;        // chance
    double inside_alone = 0.0;  // if it were left alone
};

struct FinishMove {
    std::string attribute;
    double points = 0.0;
    double sd = 0.0;
};

struct FinishDate {
    std::string day;  // ISO
    std::string what;
    std::string caution;
};

struct FinishOption {
    std::string technique;  // id
    std::string way;        // "onto_beer", "pre_fermented"; empty: no fruit
    std::string kind;
    std::string name;
    std::string dose;  // "160 g/L"
    double amount = 0.0;
    double days = 0.0;
    double ready_days = 0.0;  // contact and the watch before packaging
    double inside = 0.0;      // chance of all of the target at once
    double off = 0.0;         // mean steps outside
    double worst = 0.0;       // the same at the 95th of 100
    double gain = 0.0, gain_sd = 0.0;
    bool clear = false;
    std::vector<FinishFigure> figures;
    std::vector<FinishMove> moves;  // what it moves of the tasting, most first
    std::vector<std::string> reasons;
    double litres = 0.0;  // that comes out
    double gas_expected = 0.0, gas_worst = 0.0;
    double least_vessel_litres = 0.0;
    double hands_on_minutes = 0.0;
    std::optional<double> cost;
    std::string culture;
    std::string back;
    std::string sources;  // of what it moves
    std::vector<Caution> cautions;
};

struct FinishSplit {
    struct Part {
        std::string name;
        std::string dose;
        double litres = 0.0;
    };
    std::vector<Part> parts;
    double one_inside = 0.0;
    double off = 0.0;
    std::string why;
};

struct FinishView {
    BookLine book;
    std::string subject;
    std::string on;
    double litres = 0.0;
    bool sour = true;
    std::string words;
    std::vector<std::string> target;  // "sourness 4 to 6"
    std::vector<std::string> remarks;
    std::vector<FinishOption> options;                             // best first
    std::vector<std::pair<std::string, std::string>> not_offered;  // name, why
    std::vector<FinishSplit> splits;
    std::vector<FinishDate> dates;  // of the one technique that was asked for
    bool all = false;
    std::string command;  // that books the choice; empty: none was asked for
    std::vector<Caution> cautions;
    // For whoever books the choice: the one option of a request that names a technique.
    std::optional<engine::finish::Option> chosen;
};

// What a book knows of it, before the request is read.
struct FinishBasis {
    engine::finish::Portion portion;
    engine::finish::Target target;
    std::string subject;
    std::vector<engine::blend::Stock> partners;
    std::vector<tables::Effect> effects;
    int taught = 0;  // effects that own tastings changed
    Day today{};
};

// "160 g/L", "25 %", "6 months" as the technique's unit.
[[nodiscard]] Result<double> read_finish_dose(const std::string& text, const tables::Technique& technique);

[[nodiscard]] Result<FinishView> finish_view(FinishBasis basis, const FinishRequest& request,
                                             const tables::Tables& tables, Gallons gallons);
// Without a book.
[[nodiscard]] Result<FinishView> finish_sum(const FinishRequest& request, const tables::Tables& tables, Gallons gallons,
                                            Day today);
// A file for finish_sum: each line a word and the rest: beer, want, with, fault, price, only, fruit, vessel, technique,
// dose, days, clean, sorbate, neutral-yeast; lines that begin with # say nothing. What the request has already stays.
[[nodiscard]] Result<void> read_finish_lines(const std::string& text, FinishRequest& request);

}  // namespace undercroft::app

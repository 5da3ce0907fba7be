// What an amount of fruit brings into a beer: sugars by kind, acids, water, potassium, room, doses.
//
// Holds: every amount is proportional to the mass bought; an amount nobody knows is std::nullopt and named in a
// caution, never zero. Sorbitol is no sugar here: it stays as extract, and counts only in the worst case of gas.
// Leaves out: colour, tannin, aroma; how fast the pulp gives its sugar up (all of it is counted).
// The table is good to 20 to 30 %, from one cultivar to the next: a measured Brix is better.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "engine/state/term.hpp"
#include "ledger/entry.hpp"
#include "tables/tables.hpp"
#include "units/mass.hpp"
#include "units/volume.hpp"

namespace undercroft::engine::fruit {

using engine::Caution;
using engine::Term;

struct PacketDose {
    double per_unit = 0.0;
    enum class Unit { ml, g } unit = Unit::ml;
};

// What the label of bought fruit says of preservatives.
enum class Sulphite { by_the_table, on_label, none_on_label };
enum class Sorbate { not_said, on_label };

struct FruitOptions {
    double hold_up_share = 0.10;               // L of liquid that stays in the pulp per kg of fruit, 0 to 0.5
    std::optional<double> juice_brix;          // measured, 2 to 40 °Bx: replaces the table's sugars, keeps their split
    std::optional<PacketDose> enzyme_per_kg;   // of fruit, by the packet; else the table's middle for pectinase
    std::optional<PacketDose> nutrient_per_l;  // of the liquid the fruit brings, by the packet
    Sulphite sulphite = Sulphite::by_the_table;
    Sorbate sorbate = Sorbate::not_said;
};

// Grams in all of the fruit; a field that is nullopt is not known.
struct FruitContents {
    double glucose = 0.0;
    double fructose = 0.0;
    double sucrose = 0.0;
    double maltose = 0.0;
    double unassigned = 0.0;  // sugar no source splits; counts as disaccharide, so never too low for gas
    double hexose = 0.0;      // what the sugars above give once split
    double water = 0.0;
    std::optional<double> sorbitol;
    std::optional<double> citric;
    std::optional<double> malic;
    std::optional<double> tartaric;
    std::optional<double> potassium;
    std::optional<double> pectin;

    [[nodiscard]] double sugars() const { return glucose + fructose + sucrose + maltose + unassigned; }
};

struct FruitAddition {
    std::string item;  // id of the row of data/fruit.csv
    std::string name;  // "sour cherry, fresh"
    tables::FruitForm form = tables::FruitForm::fresh;
    Mass bought;
    Mass in_vessel;  // edible part, with the pits of stone fruit
    Mass edible;
    bool has_pits = false;
    FruitContents contents;
    double acid_meq = 0.0;  // protons of the acids that are known
    std::optional<double> potassium_meq;

    Volume brings;                         // its water, and 0.62 mL per gram of sugar
    Volume room;                           // what whole fruit takes in a vessel: 0.95 L per kg
    Volume solids;                         // room less what it brings, not below 0
    Volume hold_up;                        // liquid that stays behind in the pulp at racking
    PacketDose enzyme;                     // for all of it; per_unit holds the amount
    std::optional<PacketDose> nutrient;    // likewise
    std::optional<Mass> sulphite_at_most;  // total SO2, the legal maximum of such fruit
    Sorbate sorbate = Sorbate::not_said;

    ledger::AdditionContents booked;          // as an entry holds it; unassigned sugar as sucrose, unknown as 0
    std::vector<ledger::Allergen> allergens;  // mg per litre of what it brings
    std::vector<Term> terms;
    std::vector<Caution> cautions;
};

// Fails: bad_input for a mass that is not above 0, an option out of range, a Brix on dried fruit or one below what
// the fruit's acids and sorbitol alone show; outside_model when the table has no water or sugar for the fruit.
[[nodiscard]] Result<FruitAddition> resolve(const tables::Tables& tables, const tables::Fruit& fruit, Mass bought,
                                            const FruitOptions& options = {});

// Loose or in a bag, as an entry for that vessel: nothing is booked by it.
enum class Loose { yes, in_a_bag };
[[nodiscard]] ledger::Addition draft_of(const FruitAddition& addition, const ledger::EntryKey& vessel, Loose loose);

}  // namespace undercroft::engine::fruit

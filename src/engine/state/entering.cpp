#include "engine/state/entering.hpp"

#include <algorithm>
#include <cmath>

#include "chem/extract.hpp"
#include "chem/gas.hpp"
#include "chem/sugar.hpp"

namespace undercroft::engine {
namespace {

// Usual values and wide spreads for what nobody said; common practice, no source.
constexpr double k_assumed_gravity = 1.010;
constexpr double k_assumed_gravity_sd = 0.006;
constexpr double k_assumed_alcohol = 5.5;
constexpr double k_spirit_alcohol = 40.0;
constexpr double k_stated_gravity_sd = 0.001;
// Share of a fruit's acid that a titration finds, the rest being bound by its potassium: 0.55 to 0.80 by pH.
constexpr double k_titratable_share = 0.70;
constexpr double k_titratable_share_sd = 0.12;
constexpr double k_lactic_g_per_meq = 0.09008;

Estimate stated(const Decimal& value, double sd, const std::string& lot) {
    return Estimate{value.value(), sd, Provenance::stated, std::nullopt, "given when " + lot + " entered"};
}

// A usual gravity where nobody said; common practice, no source. Juice and syrup bring sugar whether stated or not.
double usual_gravity_of(ledger::LotKind kind) {
    return kind == ledger::LotKind::fruit ? 1.050 : kind == ledger::LotKind::syrup ? 1.300 : 1.0;
}
double usual_gravity_sd_of(ledger::LotKind kind) {
    return kind == ledger::LotKind::fruit ? 0.015 : kind == ledger::LotKind::syrup ? 0.05 : 0.0;
}

double hexose_grams(const ledger::AdditionContents& contents) {
    return contents.glucose.in_grams() + contents.fructose.in_grams() +
           chem::hexose_equivalent(chem::Sugar::sucrose) * (contents.sucrose.in_grams() + contents.maltose.in_grams());
}

double extract_grams(const ledger::AdditionContents& contents) {
    return contents.glucose.in_grams() + contents.fructose.in_grams() + contents.sucrose.in_grams() +
           contents.maltose.in_grams() + contents.sorbitol.in_grams();
}

// Milliequivalents of acid protons.
double acid_meq(const ledger::AdditionContents& contents) {
    return 1000.0 * (contents.citric_acid.in_grams() * 3.0 / 192.124 + contents.malic_acid.in_grams() * 2.0 / 134.087 +
                     contents.tartaric_acid.in_grams() * 2.0 / 150.087 + contents.lactic_acid.in_grams() / 90.078);
}

}  // namespace

Estimate exactly_none() {
    return Estimate{0.0, 0.0, Provenance::stated, std::nullopt, "brings none"};
}

LiquidState of_beer(const ledger::LotEnters& lot) {
    LiquidState state;
    const bool has_original = lot.original_gravity.has_value();
    const bool has_gravity = lot.gravity.has_value();
    const double original = has_original ? lot.original_gravity->value() : 0.0;
    double gravity = k_assumed_gravity;
    state.gravity_provenance = Provenance::stated;
    state.gravity_why = "given when " + lot.name + " entered";
    state.gravity_sd = k_stated_gravity_sd;
    if (has_gravity) {
        gravity = lot.gravity->value();
    } else if (has_original) {
        gravity = lot.alcohol ? k_assumed_gravity : original;  // with no gravity of its own it is still wort
        if (lot.alcohol) {
            state.gravity_provenance = Provenance::assumed;
            state.gravity_sd = k_assumed_gravity_sd;
            state.gravity_why = "nobody said: a usual gravity for fermented beer";
        }
    } else {
        state.gravity_provenance = Provenance::assumed;
        state.gravity_sd = k_assumed_gravity_sd;
        state.gravity_why = "nobody said: a usual gravity for fermented beer";
    }
    if (lot.alcohol) {
        state.composition = chem::composition_from_gravity_and_abv(gravity, lot.alcohol->value());
        state.alcohol_provenance = Provenance::stated;
        state.alcohol_sd = k_alcohol_from_gravity_sd;
        state.alcohol_why = "given when " + lot.name + " entered";
    } else if (has_original) {
        state.composition = chem::composition_of(original, gravity);
        state.alcohol_provenance = Provenance::computed;
        state.alcohol_sd = gravity < original ? k_alcohol_from_gravity_sd : 0.0;
        state.alcohol_why = "from the fall of gravity since the wort";
    } else {
        state.composition = chem::composition_from_gravity_and_abv(gravity, k_assumed_alcohol);
        state.alcohol_provenance = Provenance::assumed;
        state.alcohol_sd = k_assumed_alcohol_sd;
        state.alcohol_why = "nobody said: a usual strength";
    }
    state.original_gravity =
        has_original ? original
                     : std::max(gravity, chem::gravity_of_plato(chem::original_extract_of(*state.composition)));
    if (lot.ph)
        state.ph =
            LiquidState::PhRange{lot.ph->value(), lot.ph->value(), k_ph_reading_sd, Provenance::stated, std::nullopt};
    if (lot.ta_g_per_litre) state.ta = stated(*lot.ta_g_per_litre, k_ta_reading_sd, lot.name);
    if (lot.ibu) state.ibu = stated(*lot.ibu, 2.0, lot.name);
    if (lot.colour_ebc) state.colour_ebc = stated(*lot.colour_ebc, 2.0, lot.name);
    return state;
}

LiquidState of_other(const ledger::LotEnters& lot) {
    LiquidState state;
    const bool sugary = lot.kind == ledger::LotKind::fruit || lot.kind == ledger::LotKind::syrup;
    const bool has_gravity = lot.gravity || lot.original_gravity;
    const double gravity = lot.gravity            ? lot.gravity->value()
                           : lot.original_gravity ? lot.original_gravity->value()
                                                  : usual_gravity_of(lot.kind);
    const double spirit = lot.kind == ledger::LotKind::spirit ? k_spirit_alcohol : 0.0;
    const double alcohol = lot.alcohol ? lot.alcohol->value() : spirit;
    state.composition = lot.kind == ledger::LotKind::spirit && !lot.gravity
                            ? chem::composition_from_gravity_and_abv(
                                  chem::gravity_of(chem::composition_from_gravity_and_abv(0.9, alcohol)), alcohol)
                            : chem::composition_from_gravity_and_abv(gravity, alcohol);
    state.gravity_provenance = has_gravity ? Provenance::stated : Provenance::assumed;
    state.gravity_sd = lot.kind == ledger::LotKind::water ? 0.0
                       : has_gravity                      ? k_stated_gravity_sd
                                                          : usual_gravity_sd_of(lot.kind);
    state.alcohol_provenance = lot.alcohol || spirit == 0.0 ? Provenance::stated : Provenance::assumed;
    state.alcohol_sd = state.alcohol_provenance == Provenance::assumed ? 2.0 : 0.0;
    state.gravity_why = has_gravity ? "given when " + lot.name + " entered" : "nobody said: a usual gravity";
    state.alcohol_why = "given when " + lot.name + " entered";
    if (sugary)
        state.fruit_sugar_g_per_l =
            state.composition->real_extract_g_per_l * chem::hexose_equivalent(chem::Sugar::sucrose);
    state.ibu = exactly_none();
    if (lot.kind == ledger::LotKind::water) {
        state.ta = exactly_none();
        state.colour_ebc = exactly_none();
    }
    return state;
}

LiquidState of_addition(const ledger::Addition& addition) {
    LiquidState state;
    const double volume = addition.brings.in_litres();
    const ledger::AdditionContents& in = addition.contents;
    state.composition = chem::Composition{in.ethanol.in_grams() / volume, extract_grams(in) / volume};
    // Fruit differs by 20 to 30 % between cultivars and summers; a quarter of its extract as spread.
    state.gravity_sd = 0.25 * (chem::gravity_of(*state.composition) - 1.0);
    state.gravity_provenance = Provenance::stated;
    state.alcohol_provenance = Provenance::stated;
    state.gravity_why = state.alcohol_why = "by the table's composition of " + addition.name;
    const double meq_per_l = acid_meq(in) / volume;
    state.ta = Estimate{k_titratable_share * meq_per_l * k_lactic_g_per_meq,
                        k_titratable_share_sd * meq_per_l * k_lactic_g_per_meq, Provenance::stated, std::nullopt,
                        "the part of the fruit's acid a titration finds"};
    state.ibu = exactly_none();
    state.malic_g_per_l = in.malic_acid.in_grams() / volume;
    state.citric_g_per_l = in.citric_acid.in_grams() / volume;
    state.sorbitol_g_per_l = in.sorbitol.in_grams() / volume;
    state.fruit_sugar_g_per_l = hexose_grams(in) / volume;
    return state;
}

}  // namespace undercroft::engine

#include "chem/acid_dose.hpp"

#include <array>
#include <cmath>
#include <string>

#include "chem/gas.hpp"
#include "chem/root.hpp"
#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

// A calcium ion adds 2 to the ionic strength, two potassium ions 1.
constexpr std::array<DoserFacts, k_dosers> k_facts{{
    {"lactic acid", Acid::lactic, 90.078, 0.0, 0.0, 0.0, 0.88},
    {"acetic acid", Acid::acetic, 60.052, 0.0, 0.0, 0.0, 1.0},
    {"malic acid", Acid::malic, 134.087, 0.0, 0.0, 0.0, 1.0},
    {"citric acid", Acid::citric, 192.124, 0.0, 0.0, 0.0, 1.0},
    {"citric acid monohydrate", Acid::citric, 210.139, 0.0, 0.0, 0.0, 1.0},
    {"tartaric acid", Acid::tartaric, 150.087, 0.0, 0.0, 0.0, 1.0},
    {"succinic acid", Acid::succinic, 118.088, 0.0, 0.0, 0.0, 1.0},
    {"phosphoric acid", Acid::phosphoric, 97.994, 0.0, 0.0, 0.0, 0.85},
    {"calcium carbonate", {}, 100.087, 2.0, 1.0, 1.0, 1.0},
    {"potassium carbonate", {}, 138.205, 2.0, 0.0, 1.0, 1.0},
    {"potassium bicarbonate", {}, 100.115, 1.0, 0.0, 1.0, 1.0},
    {"sodium bicarbonate", {}, 84.007, 1.0, 0.0, 1.0, 1.0},
}};

constexpr double k_close_enough = 1e-9;  // of a pH, or mol/L

}  // namespace

const DoserFacts& facts_of(Doser doser) {
    return k_facts[static_cast<std::size_t>(doser)];
}

AcidMix dosed(const AcidMix& mix, Doser doser, double purity, double g_per_l) {
    const DoserFacts& facts = facts_of(doser);
    const double mol = purity * g_per_l / facts.g_per_mol;
    AcidMix after = mix;
    if (facts.acid) after[*facts.acid] += mol;
    after.strong_ions += facts.charge * mol;
    after.inert_salt += facts.extra_salt * mol;
    return after;
}

Result<Dose> dose_for(const AcidSystem& system, const AcidMix& mix, double litres, Doser doser, double purity,
                      const DoseTarget& target) {
    const DoserFacts& facts = facts_of(doser);
    const std::string name(facts.name);
    if (!(purity > 0.0 && purity <= 1.0))
        return fail(ErrorKind::bad_input, "strength", percent_text(purity, 1) + " is outside 0 to 100 % by mass.");
    if (!(litres > 0.0 && std::isfinite(litres)))
        return fail(ErrorKind::bad_input, "volume", number_text(litres, 2) + " L is nothing to dose.");
    const bool by_ph = target.of == DoseTarget::Of::ph;
    const auto reached = [&](double g_per_l) -> Result<double> {
        const AcidMix after = dosed(mix, doser, purity, g_per_l);
        return by_ph ? system.ph(after) : system.titratable(after, target.ta_end);
    };
    const auto say = [&](double value) {
        return by_ph ? "pH " + number_text(value, 2)
                     : number_text(value * constants_of(Acid::lactic).g_per_mol, 2) + " g/L as lactic acid";
    };
    TRY(const double before, reached(0.0));
    // An acid lowers the pH and raises TA, a carbonate the other way round.
    const bool falls = by_ph == facts.acid.has_value();
    if (falls ? target.value > before + k_close_enough : target.value < before - k_close_enough)
        return fail(ErrorKind::bad_input, "target",
                    name + (falls ? " only lowers it: the liquid is at " : " only raises it: the liquid is at ") +
                        say(before) + " and " + say(target.value) + " is wanted.");
    // The strongest dose that can still be reckoned with: at most 50 g/L, and inside the activity law.
    double most = k_most_dose_g_per_l;
    auto far = reached(most);
    while (!far && most > 0.01) far = reached(most *= 0.8);
    if (!far) return tl::unexpected(far.error());
    if (falls ? *far > target.value : *far < target.value)
        return fail(ErrorKind::outside_model, "target",
                    say(target.value) + " is out of reach: " + number_text(most, 1) + " g/L of " + name +
                        " brings it to " + say(*far) + ".");
    const auto off = [&](double g_per_l) { return reached(g_per_l).value_or(target.value) - target.value; };
    Dose dose;
    dose.g_per_l = bracketed_root(off, 0.0, most);
    dose.grams = dose.g_per_l * litres;
    dose.co2_g_per_l = facts.co2 * purity * dose.g_per_l / facts.g_per_mol * k_co2_g_per_mol;
    dose.after = dosed(mix, doser, purity, dose.g_per_l);
    TRY(dose.ph_before, system.ph(mix));
    TRY(dose.ph_after, system.ph(dose.after));
    TRY(dose.ta_before, system.titratable(mix, target.ta_end));
    TRY(dose.ta_after, system.titratable(dose.after, target.ta_end));
    return dose;
}

}  // namespace undercroft::chem

// What must hold for any mixture of acids, salts and buffer, drawn at random.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "chem/acid_dose.hpp"
#include "chem/acid_inverse.hpp"
#include "chem/acid_mix.hpp"
#include "tests/properties/always.hpp"
#include "tests/properties/split_mix.hpp"

namespace undercroft::chem {
namespace {

using testing::expect_for_seeds;
using testing::SplitMix64;

// Beer, fruit juice, mineral water and odd things; `salty` comes near an ionic strength of 0.5.
AcidMix random_mix(SplitMix64& random, bool salty = false) {
    AcidMix mix;
    for (double& acid : mix.acids)
        if (random.one_in(2)) acid = random.uniform(0.0, 0.06);
    if (random.one_in(2)) mix.buffer = {random.uniform(0.0, 0.06), random.uniform(0.0, 0.01)};
    mix.strong_ions = random.uniform(-0.02, 0.06);
    mix.inert_salt = salty ? random.uniform(0.0, 0.3) : random.uniform(0.0, 0.02);
    mix.abv = random.one_in(3) ? 0.0 : random.uniform(0.0, 15.0);
    return mix;
}

AcidConditions random_conditions(SplitMix64& random) {
    return {Temperature::from_celsius(random.uniform(0.0, 40.0)), random.one_in(4) ? Activity::none : Activity::davies};
}

Acid random_acid(SplitMix64& random) {
    return k_all_acids[static_cast<std::size_t>(random.between(0, k_acids - 1))];
}

TEST(AcidProperties, MoreAcidNeverRaisesThePh) {
    expect_for_seeds("more acid, lower pH", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system(random_conditions(random));
        AcidMix mix = random_mix(random, true);
        const Acid acid = random_acid(random);
        auto before = system.ph(mix);
        int steps = 0;
        for (int i = 0; i < 12; ++i) {
            mix[acid] += random.uniform(1e-5, 0.02);
            const auto after = system.ph(mix);
            // Beyond an ionic strength of 0.5 there is no answer.
            if (before && after) {
                EXPECT_LE(*after, *before + 1e-12) << constants_of(acid).name << ' ' << seed;
                ++steps;
            }
            before = after;
        }
        return steps;
    });
}

TEST(AcidProperties, MoreStrongBaseNeverLowersThePh) {
    expect_for_seeds("more base, higher pH", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system(random_conditions(random));
        AcidMix mix = random_mix(random, true);
        auto before = system.ph(mix);
        for (int i = 0; i < 12; ++i) {
            mix.strong_ions += random.uniform(1e-6, 0.01);
            const auto after = system.ph(mix);
            if (before && after) {
                EXPECT_GE(*after, *before - 1e-12) << seed;
            }
            before = after;
        }
        return 12;
    });
}

TEST(AcidProperties, ChargesAddUpToNothingWithinAMillionthOfAMillionth) {
    expect_for_seeds("residual of the charge balance", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidConditions conditions = random_conditions(random);
        const AcidSystem system(conditions);
        const AcidMix mix = random_mix(random);
        const auto state = system.state(mix);
        if (!state) return 0;
        // The charge asked for at that pH and ionic strength is a road of its own.
        const double charge = system.charge(mix, {state->ph, state->ionic_strength, mix.abv});
        EXPECT_LT(std::abs(charge), 1e-12) << seed;
        for (std::size_t i = 0; i < k_acids; ++i) {
            EXPECT_GE(state->undissociated[i], 0.0);
            EXPECT_LE(state->undissociated[i], state->protonated[i] + 1e-15);
            EXPECT_LE(state->protonated[i], 1.0);
        }
        EXPECT_GT(state->capacity, 0.0);
        return 1;
    });
}

TEST(AcidProperties, EveryMixHasAPhOrARefusal) {
    expect_for_seeds("an answer or a refusal", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system(random_conditions(random));
        AcidMix mix = random_mix(random);
        if (random.one_in(3)) mix.strong_ions = random.uniform(-2.0, 2.0);
        if (random.one_in(3)) mix[random_acid(random)] = random.uniform(-0.1, 3.0);
        if (random.one_in(8)) mix.inert_salt = std::nan("");
        if (const auto ph = system.ph(mix)) {
            EXPECT_GE(*ph, 0.0);
            EXPECT_LE(*ph, 14.0);
            EXPECT_NEAR(system.state(mix).value().ph, *ph, 1e-12);
        }
        return 1;
    });
}

TEST(AcidProperties, ManyAtOnceAreTheSameAsOneByOneOnEveryWidth) {
    expect_for_seeds("batch of mixes", testing::cases_to_run(4), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system(random_conditions(random));
        std::vector<AcidMix> mixes;
        for (auto i = random.between(1, 300); i > 0; --i) {
            mixes.push_back(random_mix(random));
            if (random.one_in(20)) mixes.back().strong_ions = random.uniform(-3.0, 3.0);
            if (random.one_in(20)) mixes.back()[random_acid(random)] = -0.001;
            if (random.one_in(20)) mixes.back().abv = 16.0;
        }
        std::vector<double> one(mixes.size());
        const std::size_t failed = system.ph_of_many(mixes, one, Lanes::one);
        std::size_t refused = 0;
        for (std::size_t i = 0; i < mixes.size(); ++i) {
            const auto alone = system.ph(mixes[i]);
            if (!alone) ++refused;
            EXPECT_TRUE(alone ? one[i] == *alone : std::isnan(one[i])) << seed << ' ' << i;
        }
        EXPECT_EQ(failed, refused);
        for (const Lanes lanes : {Lanes::automatic, Lanes::two, Lanes::four, Lanes::eight}) {
            if (!has_lanes(lanes)) continue;
            std::vector<double> wide(mixes.size());
            EXPECT_EQ(system.ph_of_many(mixes, wide, lanes), failed);
            for (std::size_t i = 0; i < mixes.size(); ++i)
                EXPECT_TRUE(wide[i] == one[i] || (std::isnan(wide[i]) && std::isnan(one[i]))) << seed << ' ' << i;
        }
        return static_cast<int>(mixes.size());
    });
}

TEST(AcidProperties, ALiquidBlendedWithItselfDoesNotChange) {
    expect_for_seeds("blend with itself", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system(random_conditions(random));
        const AcidMix mix = random_mix(random);
        std::vector<BlendPart> parts;
        for (auto i = random.between(1, 6); i > 0; --i) parts.push_back({mix, random.uniform(0.1, 50.0)});
        const AcidMix whole = blend(parts).value();
        for (std::size_t i = 0; i < k_acids; ++i) EXPECT_NEAR(whole.acids[i], mix.acids[i], 1e-16);
        const auto before = system.ph(mix);
        const auto after = system.ph(whole);
        EXPECT_EQ(before.has_value(), after.has_value());
        // Rounding of the shares, where there is no buffer.
        if (before && after) {
            EXPECT_NEAR(*after, *before, 1e-9);
        }
        return 1;
    });
}

TEST(AcidProperties, ABlendLiesBetweenThePhOfItsPartsAndItsChargeIsTheSumOfTheirs) {
    expect_for_seeds("blends", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system(random_conditions(random));
        // Alike in alcohol and salt: those alone may carry a blend a little outside.
        const double abv = random.uniform(0.0, 12.0);
        std::vector<BlendPart> parts;
        double lowest = 14.0;
        double highest = 0.0;
        for (auto i = random.between(2, 6); i > 0; --i) {
            AcidMix mix = random_mix(random);
            mix.abv = abv;
            const auto ph = system.ph(mix);
            if (!ph) return 0;
            lowest = std::min(lowest, *ph);
            highest = std::max(highest, *ph);
            parts.push_back({mix, random.uniform(0.1, 50.0)});
        }
        const AcidMix whole = blend(parts).value();
        const auto state = system.state(whole);
        if (!state) return 0;
        // Unlike ionic strengths may move it by some hundredths beyond the ends.
        EXPECT_GT(state->ph, lowest - 0.15) << seed;
        EXPECT_LT(state->ph, highest + 0.15) << seed;
        const AcidSystem::BlendPoint at{state->ph, state->ionic_strength, abv};
        double charge = 0.0;
        double litres = 0.0;
        for (const BlendPart& part : parts) {
            charge += system.charge(part.mix, at) * part.litres;
            litres += part.litres;
        }
        EXPECT_NEAR(charge / litres, 0.0, 1e-12) << seed;
        // It falls as the pH rises, so a range of pH is two linear constraints.
        double above = 0.0;
        for (const BlendPart& part : parts)
            above += system.charge(part.mix, {state->ph + 0.05, state->ionic_strength, abv}) * part.litres;
        EXPECT_LT(above, charge) << seed;
        return 1;
    });
}

// Beers: buffer, lactic and acetic acid, some phosphate.
AcidMix random_beer(SplitMix64& random) {
    AcidMix mix;
    mix[Acid::lactic] = random.uniform(0.002, 0.09);
    mix[Acid::acetic] = random.uniform(0.0005, 0.03);
    mix.buffer = {random.uniform(0.02, 0.05), random.uniform(0.002, 0.006)};
    mix.strong_ions = random.uniform(0.010, 0.030);
    mix.abv = random.uniform(3.0, 10.0);
    return mix;
}

TEST(AcidProperties, TheMeanOfThePartsIsGoodEnoughForTheLinearForm) {
    double worst = 0.0;
    expect_for_seeds("linear form at the mean", testing::cases_to_run(), [&worst](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system;
        std::vector<BlendPart> parts;
        double salt = 0.0;
        double abv = 0.0;
        const auto count = random.between(2, 6);
        for (auto i = count; i > 0; --i) {
            parts.push_back({random_beer(random), random.uniform(0.1, 50.0)});
            salt += system.state(parts.back().mix).value().ionic_strength / static_cast<double>(count);
            abv += parts.back().mix.abv / static_cast<double>(count);
        }
        const double exact = system.ph(blend(parts).value()).value();
        // Where the linear form has its zero.
        double low = 2.0;
        double high = 7.0;
        for (int i = 0; i < 50; ++i) {
            const double ph = 0.5 * (low + high);
            double charge = 0.0;
            for (const BlendPart& part : parts) charge += system.charge(part.mix, {ph, salt, abv}) * part.litres;
            (charge > 0.0 ? low : high) = ph;
        }
        worst = std::max(worst, std::abs(low - exact));
        return 1;
    });
    EXPECT_LT(worst, 0.05);  // what a pH meter shows
    std::printf("figure: linear form at the mean of the parts: worst pH error %.4f\n", worst);
}

TEST(AcidProperties, InferringFromWhatAMixReadsGivesTheMixBack) {
    expect_for_seeds("inverse of forward", testing::cases_to_run(4), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system(AcidConditions{Temperature::from_celsius(20.0), Activity::davies});
        const AcidMix beer = random_beer(random);
        AcidReadings readings;
        readings.ph = {system.ph(beer).value(), 1e-7};
        readings.ta = {system.titratable(beer).value(), 1e-9};
        readings.acetic = {beer[Acid::acetic], 1e-9};
        // Known buffer, or else two readings do not settle three unknowns.
        AcidPrior prior = usual_prior(beer.abv);
        prior.known.buffer = beer.buffer;
        prior.buffer_sd = 1e-7;
        const InferredAcids found = infer_acids(system, readings, prior).value();
        EXPECT_NEAR(found.mix[Acid::lactic], beer[Acid::lactic], 1e-6) << seed;
        EXPECT_NEAR(found.mix.strong_ions, beer.strong_ions, 1e-6) << seed;
        EXPECT_NEAR(found.ph, readings.ph->value, 1e-6);
        EXPECT_NEAR(found.ta, readings.ta->value, 1e-8);
        return 1;
    });
}

TEST(AcidProperties, AReadingLeftOutWidensTheSpread) {
    expect_for_seeds("a reading left out", testing::cases_to_run(4), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system;
        const AcidMix beer = random_beer(random);
        AcidReadings readings;
        readings.ph = {system.ph(beer).value(), k_ph_reading_sd};
        readings.ta = {system.titratable(beer).value(), k_ta_reading_sd};
        const AcidPrior prior = usual_prior(beer.abv);
        const auto both = infer_acids(system, readings, prior).value();
        // Beyond the priors their pull is taken off, and the spread grows for that.
        if (both.fit != InferredAcids::Fit::likely) return 0;
        readings.ta.reset();
        const auto alone = infer_acids(system, readings, prior).value();
        // Linear about another mix, hence the two per cent.
        EXPECT_GT(alone.unknown[InferredAcids::lactic].sd, 0.98 * both.unknown[InferredAcids::lactic].sd) << seed;
        return 1;
    });
}

TEST(AcidProperties, AnyReadingsAreAnsweredAndNoMixLiesNearerThanTheNearest) {
    int impossible = 0;
    expect_for_seeds("any readings", testing::cases_to_run(4), [&impossible](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system;
        AcidReadings readings;
        readings.ph = {random.uniform(2.0, 7.5), random.uniform(0.01, 0.2)};
        readings.ta = {random.uniform(0.0, 0.25), random.uniform(0.0003, 0.01)};
        if (random.one_in(3)) readings.acetic = {random.uniform(0.0, 0.05), random.uniform(0.0002, 0.005)};
        const auto found = infer_acids(system, readings, usual_prior(5.0));
        if (!found) {
            ADD_FAILURE() << found.error().what << ' ' << seed;
            return 0;
        }
        EXPECT_NEAR(system.ph(found->mix).value(), found->ph, 1e-9) << seed;
        EXPECT_NEAR(system.titratable(found->mix).value(), found->ta, 1e-12) << seed;
        EXPECT_GE(found->mix[Acid::lactic], 0.0);
        EXPECT_GE(found->mix[Acid::acetic], 0.0);
        for (const Uncertain& unknown : found->unknown) EXPECT_GT(unknown.sd, 0.0) << seed;
        if (found->fit != InferredAcids::Fit::impossible) return 1;
        ++impossible;
        const auto distance = [&](const AcidMix& mix) {
            const double acetic =
                readings.acetic ? (mix[Acid::acetic] - readings.acetic->value) / readings.acetic->sd : 0.0;
            return std::hypot((system.ph(mix).value() - readings.ph->value) / readings.ph->sd,
                              (system.titratable(mix).value() - readings.ta->value) / readings.ta->sd, acetic);
        };
        const double nearest = distance(found->mix);
        for (int i = 0; i < 200; ++i) {
            AcidMix other = found->mix;
            other[Acid::lactic] = random.uniform(0.0, random.one_in(2) ? 0.45 : 0.02);
            other[Acid::acetic] = readings.acetic ? found->mix[Acid::acetic] : random.uniform(0.0, 0.2);
            const double buffer = random.uniform(0.2, 2.5);
            other.buffer = {k_wort_buffer.low * buffer, k_wort_buffer.high * buffer};
            other.strong_ions = random.uniform(-0.02, 0.15);
            if (!system.ph(other) || !system.titratable(other)) continue;
            EXPECT_GT(distance(other), 0.98 * nearest) << seed;
        }
        return 1;
    });
    EXPECT_GT(impossible, 0);
    std::printf("figure: readings no mix gives: %d\n", impossible);
}

TEST(AcidProperties, ADoseReachesWhatItWasWorkedOutFor) {
    expect_for_seeds("doses", testing::cases_to_run(), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        const AcidSystem system;
        const AcidMix beer = random_beer(random);
        const auto doser = static_cast<Doser>(random.between(0, k_dosers - 1));
        const double purity = random.uniform(0.3, 1.0);
        const bool by_ph = random.one_in(2);
        const double towards = facts_of(doser).acid ? -1.0 : 1.0;
        DoseTarget target;
        target.of = by_ph ? DoseTarget::Of::ph : DoseTarget::Of::ta;
        target.value = by_ph ? system.ph(beer).value() + towards * random.uniform(0.0, 0.6)
                             : system.titratable(beer).value() - towards * random.uniform(0.0, 0.03);
        const auto dose = dose_for(system, beer, 20.0, doser, purity, target);
        if (!dose) return 0;
        EXPECT_GE(dose->grams, 0.0);
        EXPECT_NEAR(by_ph ? dose->ph_after : dose->ta_after, target.value, 1e-8) << seed;
        // Acid lowers the pH, a carbonate raises it.
        const double down = facts_of(doser).acid ? dose->ph_before - dose->ph_after : dose->ph_after - dose->ph_before;
        EXPECT_GE(down, -1e-12);
        return 1;
    });
}

}  // namespace
}  // namespace undercroft::chem

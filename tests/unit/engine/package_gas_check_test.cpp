#include "engine/package/gas_check.hpp"
#include "engine/package/watch.hpp"
#include "tests/support/celsius.hpp"
#include "tests/support/reference_tables.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace undercroft::engine::package {
namespace {

using testing::celsius;
using testing::reference_tables;

const tables::CultureKind* culture_of(const char* id) {
    return reference_tables().find_culture(id).value();
}

const tables::ContainerKind* container(const char* id) {
    return reference_tables().find_container(id).value();
}

// A dry ale, watched as a clean ale asks, in glass that its maker rates.
GasQuestion dry_ale() {
    GasQuestion question;
    question.gravity = Gravity{1.0090, 0.00025};
    question.original_gravity = 1.048;
    question.cultures = {culture_of("ale_clean")};
    question.container = container("bottle_330_heavy");
    question.makers_limit = GaugePressure::from_bar(7.0);
    question.evidence = Evidence{3, 5.0, 0.0, celsius(20.0)};
    question.priming_g_per_l = 5.0;
    return question;
}

GasCheck checked(const GasQuestion& question) {
    return gas_check(question, reference_tables()).value();
}

double volumes(const GasCheck& check, const std::string& name) {
    for (const Term& term : check.gas) {
        if (term.name == name) return term.value;
    }
    ADD_FAILURE() << "no term " << name;
    return 0.0;
}

bool says(const GasCheck& check, const char* words) {
    return std::any_of(check.reasons.begin(), check.reasons.end(),
                       [&](const std::string& reason) { return reason.find(words) != std::string::npos; });
}

TEST(GasCheck, IsReadyForADryAleInRatedGlass) {
    const GasCheck check = checked(dry_ale());
    EXPECT_EQ(check.verdict, Verdict::ready) << (check.reasons.empty() ? "" : check.reasons[0]);
    EXPECT_EQ(check.words.rfind("Ready to package in Returnable heavy bottle 330 mL", 0), 0u) << check.words;
    EXPECT_NE(check.words.find("95 in 100 come to"), std::string::npos);
    EXPECT_TRUE(check.reasons.empty());
    EXPECT_NE(check.words.find("12 months at up to 25 \u00B0C"), std::string::npos);
    EXPECT_NEAR(check.allowed.value().in_bar(), 5.6, 1e-12);
}

TEST(GasCheck, AddsEveryCauseAndNothingElse) {
    GasQuestion question = dry_ale();
    question.cultures = {culture_of("mixed_sour")};
    question.malic_g_per_l = 2.0;
    question.citric_g_per_l = 1.0;
    question.sorbitol_g_per_l = 3.0;
    question.fruit_sugar_g_per_l = 4.0;
    question.hops = Hops::dry_hopped;
    const GasCheck check = checked(question);
    ASSERT_EQ(check.gas.size(), 8u);
    double sum = 0.0;
    for (const Term& term : check.gas) {
        EXPECT_GT(term.value, 0.0) << term.name;
        EXPECT_FALSE(term.how.empty() || term.source.empty()) << term.name;
        sum += term.value;
    }
    EXPECT_NEAR(sum, check.total_volumes, 1e-12);
    EXPECT_NEAR(volumes(check, "malic acid"), 2.0 * 0.33, 0.01);    // worst case, 0.33 volumes per g/L
    EXPECT_NEAR(volumes(check, "citric acid"), 1.0 * 0.23, 0.005);  // 0.23 volumes per g/L
    double pressure = 0.0;
    for (const Term& term : check.pressure) pressure += term.name == "total gauge" ? 0.0 : term.value;
    EXPECT_NEAR(pressure, check.total.value().in_bar(), 1e-12);
}

TEST(GasStillToCome, ReachesTheLowestGravityOfAnyCulturePossible) {
    GasQuestion question = dry_ale();
    const GasCheck ale = checked(question);
    // 1.048 down by 82 % is 1.00864, below the 1.009 that the table rounds to.
    EXPECT_NEAR(ale.lowest_gravity, 1.0 + 0.048 * 0.18, 1e-12);
    EXPECT_NEAR(volumes(ale, "fermentables left"),
                (1.0095 - ale.lowest_gravity) * 1000.0 * chem::k_volumes_per_gravity_point_safety, 1e-9);
    question.cultures.push_back(culture_of("brett_slow"));
    const GasCheck with_brett = checked(question);
    EXPECT_NEAR(with_brett.lowest_gravity, 0.999, 1e-4);
    EXPECT_GT(with_brett.total_volumes, ale.total_volumes + 5.0);
}

TEST(GasStillToCome, CountsTheDoubtOfTheReading) {
    GasQuestion question = dry_ale();
    question.cultures = {culture_of("mixed_sour")};
    question.gravity = Gravity{1.0020, 0.0};
    const double sure = volumes(checked(question), "fermentables left");
    question.gravity = Gravity{1.0020, 0.0005};
    EXPECT_NEAR(volumes(checked(question), "fermentables left") - sure, chem::k_volumes_per_gravity_point_safety,
                1e-9);  // two sd are 0.001
}

TEST(GasStillToCome, IsBoundedWidelyWhenNobodyKnowsWhereItStarted) {
    GasQuestion question = dry_ale();
    const double known = volumes(checked(question), "fermentables left");
    question.original_gravity.reset();
    const GasCheck unknown = checked(question);
    EXPECT_GT(volumes(unknown, "fermentables left"), known + 2.0);
    EXPECT_TRUE(says(unknown, "Neither original gravity nor alcohol"));
    // The alcohol says as much as the original gravity does.
    question.abv = 5.1;
    EXPECT_NEAR(volumes(checked(question), "fermentables left"), known, 0.2);
}

TEST(GasStillToCome, IsNothingInBeerThatWasKilled) {
    GasQuestion question = dry_ale();
    question.cultures = {culture_of("none_killed")};
    question.priming_g_per_l = 0.0;
    question.malic_g_per_l = 3.0;
    question.sorbitol_g_per_l = 3.0;
    question.hops = Hops::dry_hopped;
    question.gravity = Gravity{1.0200, 0.0005};
    question.evidence.reset();
    const GasCheck check = checked(question);
    EXPECT_NEAR(check.total_volumes, volumes(check, "dissolved already"), 1e-12);
    EXPECT_EQ(check.verdict, Verdict::ready);
    EXPECT_TRUE(std::any_of(check.cautions.begin(), check.cautions.end(),
                            [](const Caution& caution) { return caution.id == "gas.kill"; }));
    // Sugar put in is counted all the same: somebody may have missed a cell.
    question.priming_g_per_l = 6.0;
    EXPECT_GT(checked(question).total_volumes, check.total_volumes + 1.0);
}

TEST(GasStillToCome, OfFruitIsCountedEvenWhereTheBeerWasKilled) {
    GasQuestion question = dry_ale();
    question.cultures = {culture_of("none_killed")};
    question.fruit_sugar_g_per_l = 10.0;
    EXPECT_NEAR(volumes(checked(question), "fruit sugar not shown fermented"), 10.0 * 0.4885 / 1.9768, 0.001);
}

TEST(AcidsAndSorbitol, MakeGasOnlyInTheHandsOfThoseThatTakeThem) {
    GasQuestion question = dry_ale();
    question.malic_g_per_l = 3.0;
    question.citric_g_per_l = 3.0;
    question.sorbitol_g_per_l = 3.0;
    question.cultures = {culture_of("ale_clean")};
    EXPECT_GT(volumes(checked(question), "malic acid"), 0.9);
    EXPECT_EQ(volumes(checked(question), "citric acid"), 0.0);
    EXPECT_EQ(volumes(checked(question), "sorbitol"), 0.0);
    question.cultures = {culture_of("pedio")};
    EXPECT_NEAR(volumes(checked(question), "malic acid"), 3.0 * 0.166, 0.005);
    EXPECT_GT(volumes(checked(question), "citric acid"), 0.6);
    EXPECT_GT(volumes(checked(question), "sorbitol"), 0.7);
    question.cultures = {culture_of("brett_slow")};
    EXPECT_EQ(volumes(checked(question), "citric acid"), 0.0);
    EXPECT_GT(volumes(checked(question), "sorbitol"), 0.7);
}

TEST(HopCreep, IsTheSmallerOfTheEnzymesReachAndTheDextrinsLeft) {
    GasQuestion question = dry_ale();
    question.hops = Hops::dry_hopped;
    // 1.3 % vol are 10.26 g/L ethanol, 9.80 g/L CO2, 4.96 volumes; ale stops at 1.0086, so 6 volumes of dextrin lie
    // below.
    EXPECT_NEAR(volumes(checked(question), "hop creep"), 4.96, 0.01);
    question.cultures = {culture_of("brett_slow")};
    EXPECT_LT(volumes(checked(question), "hop creep"), 0.7);  // it takes nearly all of them anyway
}

TEST(DissolvedGas, MeasuredIsTakenAtItsWord) {
    GasQuestion question = dry_ale();
    question.measured_co2_g_per_l = 5.0;
    question.coolest_while_working = celsius(2.0);
    EXPECT_NEAR(volumes(checked(question), "dissolved already"), 5.0 / 1.9768, 1e-12);
}

TEST(DissolvedGas, IsLessUpTheMountain) {
    GasQuestion question = dry_ale();
    const double sea = volumes(checked(question), "dissolved already");
    question.ambient = chem::ambient_pressure_at(1500.0);
    EXPECT_LT(volumes(checked(question), "dissolved already"), 0.9 * sea);
}

// --- verdicts ----------------------------------------------------------------------------------

TEST(DoNotPackage, PastEightTenthsOfTheWeakestLimit) {
    GasQuestion question = dry_ale();
    question.makers_limit = GaugePressure::from_bar(checked(question).drawn.value().high / 0.8 - 0.01);
    const GasCheck over = checked(question);
    EXPECT_EQ(over.verdict, Verdict::do_not);
    EXPECT_TRUE(says(over, "0.8 of the limit"));
    question.makers_limit = GaugePressure::from_bar(over.drawn.value().high / 0.8 + 0.01);
    EXPECT_EQ(checked(question).verdict, Verdict::ready);
}

TEST(DoNotPackage, ByTheClosureWhenItIsTheWeakest) {
    GasQuestion question = dry_ale();
    question.container = container("pressure_barrel");
    EXPECT_NEAR(checked(question).limit.value().in_bar(), 0.7, 1e-12);  // not the 7 bar somebody typed
    EXPECT_EQ(checked(question).verdict, Verdict::do_not);
}

TEST(DoNotPackage, InWhatIsNotMadeForPressureWhateverTheLimitTyped) {
    for (const char* id : {"demijohn_glass", "bottle_decorative", "bottle_wine_still", "growler_glass", "bag_in_box"}) {
        GasQuestion question = dry_ale();
        question.container = container(id);
        question.makers_limit = GaugePressure::from_bar(16.0);
        EXPECT_EQ(checked(question).verdict, Verdict::do_not) << id;
        EXPECT_TRUE(says(checked(question), "not made for pressure")) << id;
    }
}

TEST(DoNotPackage, LiveBeerInACan) {
    GasQuestion question = dry_ale();
    question.container = container("can_light");
    EXPECT_EQ(checked(question).verdict, Verdict::do_not);
    EXPECT_TRUE(says(checked(question), "ferment again"));
}

TEST(DoNotPackage, WithHardlyAnyHeadSpace) {
    GasQuestion question = dry_ale();
    question.head_space = 0.019;
    EXPECT_EQ(checked(question).verdict, Verdict::do_not);
    EXPECT_FALSE(checked(question).total.has_value());
    question.head_space = 0.025;
    EXPECT_EQ(checked(question).verdict, Verdict::ready);
    question.store = celsius(36.0);
    EXPECT_EQ(checked(question).verdict, Verdict::do_not);  // 3 % from 35 °C on
}

TEST(DoNotPackage, ForTheCarWhatIsFineForTheCellar) {
    GasQuestion question = dry_ale();
    question.destination = Destination::given_away;
    const GasCheck check = checked(question);
    EXPECT_EQ(check.store, celsius(50.0));
    EXPECT_EQ(check.verdict, Verdict::do_not);
}

TEST(Wait, ForTheMakersFigureAndNameIt) {
    GasQuestion question = dry_ale();
    question.makers_limit.reset();
    const GasCheck check = checked(question);
    EXPECT_EQ(check.verdict, Verdict::wait);
    EXPECT_FALSE(check.limit.has_value());
    EXPECT_NEAR(check.limit_needed.value().in_bar(), check.drawn.value().high / 0.8, 1e-12);
    EXPECT_TRUE(says(check, "ask for one of at least"));
    // A burst figure in the table never stands in for it.
    question.container = container("bottle_sparkling_750");
    EXPECT_FALSE(checked(question).limit.has_value());
}

TEST(Wait, ForAGravityNobodyRead) {
    GasQuestion question = dry_ale();
    question.gravity.reset();
    const GasCheck check = checked(question);
    EXPECT_EQ(check.verdict, Verdict::wait);
    EXPECT_FALSE(check.complete);
    EXPECT_TRUE(says(check, "take a reading"));
}

TEST(Wait, ForTheMakerToSayWhetherItMayReferment) {
    GasQuestion question = dry_ale();
    question.container = container("bottle_500_light");
    EXPECT_EQ(checked(question).verdict, Verdict::wait);
    EXPECT_TRUE(says(checked(question), "Ask the maker whether"));
}

TEST(Wait, WhileNobodyHasSaidWhatLivesInIt) {
    GasQuestion question = dry_ale();
    question.cultures.clear();
    question.gravity = Gravity{0.9990, 0.0};
    question.evidence = Evidence{6, 200.0, 0.0, celsius(20.0)};
    const GasCheck check = checked(question);
    EXPECT_EQ(check.verdict, Verdict::wait);
    EXPECT_TRUE(says(check, "counts as wild"));
}

TEST(Wait, UntilTheWatchOfTheStrongestCultureIsDone) {
    GasQuestion question = dry_ale();
    question.cultures = {culture_of("ale_clean"), culture_of("brett_slow")};
    question.gravity = Gravity{1.0000, 0.0};
    const auto with = [&](std::optional<Evidence> evidence) {
        question.evidence = evidence;
        return checked(question);
    };
    EXPECT_EQ(with(std::nullopt).verdict, Verdict::wait);
    EXPECT_EQ(with(Evidence{3, 55.0, 0.0, celsius(20.0)}).verdict, Verdict::wait);
    EXPECT_EQ(with(Evidence{2, 56.0, 0.0, celsius(20.0)}).verdict, Verdict::wait);
    EXPECT_EQ(with(Evidence{3, 56.0, 0.0, celsius(20.0)}).verdict, Verdict::ready);
    EXPECT_EQ(with(Evidence{3, 56.0, 0.0005, celsius(20.0)}).verdict, Verdict::ready);  // within resolution
    EXPECT_EQ(with(Evidence{3, 56.0, 0.0006, celsius(20.0)}).verdict, Verdict::wait);
    EXPECT_EQ(with(Evidence{3, 56.0, 0.0, celsius(14.0)}).verdict, Verdict::wait);
    EXPECT_EQ(with(Evidence{3, 90.0, 0.0, celsius(14.0)}).verdict, Verdict::ready);
    EXPECT_EQ(with(Evidence{3, 400.0, 0.0, celsius(8.0)}).verdict, Verdict::wait);          // asleep: proves nothing
    EXPECT_EQ(with(Evidence{3, 56.0, 0.0, std::nullopt}).verdict, Verdict::wait);           // nobody said how warm
    EXPECT_EQ(with(Evidence{3, std::nan(""), 0.0, celsius(20.0)}).verdict, Verdict::wait);  // no number is no evidence
    EXPECT_EQ(with(Evidence{3, 56.0, std::nan(""), celsius(20.0)}).verdict, Verdict::wait);
    EXPECT_TRUE(says(with(Evidence{2, 20.0, 0.0, celsius(20.0)}), "3 readings over 56 days"));
}

TEST(Watch, IsTheNewestReadingsThatAgree) {
    const auto read = [](double gravity) { return engine::GravityReading{Instant{}, gravity, 0.0005, {}}; };
    const std::vector<engine::GravityReading> watch{read(1.020), read(1.004), read(1.003), read(1.0035), read(1.003)};
    EXPECT_EQ(plateau_begin(watch, 0.0005), 2u);
    EXPECT_EQ(plateau_begin(watch, 0.001), 1u);
    EXPECT_EQ(plateau_begin({}, 0.0005), 0u);
    EXPECT_EQ(plateau_begin({read(1.020), read(1.010)}, 0.0005), 1u) << "one reading agrees with itself";
}

TEST(Reasons, NameTheEvidenceThatWouldLowerThePressure) {
    GasQuestion question = dry_ale();
    question.gravity = Gravity{1.0200, 0.00025};
    question.malic_g_per_l = 2.0;
    EXPECT_EQ(checked(question).verdict, Verdict::do_not);
    EXPECT_TRUE(says(checked(question), "forced test"));
    EXPECT_TRUE(says(checked(question), "Malic acid"));
    EXPECT_TRUE(says(checked(question), "purging the head space"));
    question.cultures = {culture_of("brett_slow")};
    EXPECT_FALSE(says(checked(question), "forced test")) << "it takes months, so days prove nothing";
    EXPECT_TRUE(says(checked(question), "wake late"));
}

TEST(EvidenceNeeded, IsTheWorstOfEveryColumn) {
    const EvidenceNeeded both =
        evidence_needed({culture_of("lacto_hop_sensitive"), culture_of("ale_farmhouse_diastatic")});
    EXPECT_EQ(both.days, 28.0);
    EXPECT_EQ(both.days_below_15_c, 90.0);
    EXPECT_EQ(both.readings, 3);
    EXPECT_EQ(both.resolution_sg, 0.0005);
    const EvidenceNeeded dead = evidence_needed({culture_of("none_killed")});
    EXPECT_EQ(dead.readings, 0);
    EXPECT_EQ(dead.days, 0.0);
}

TEST(GasCautions, StandBesideEveryVerdict) {
    GasQuestion fine = dry_ale();
    GasQuestion waiting = dry_ale();
    waiting.gravity.reset();
    GasQuestion refused = dry_ale();
    refused.container = container("demijohn_glass");
    for (const GasQuestion& question : {fine, waiting, refused}) {
        const GasCheck check = checked(question);
        for (const char* id : {"gas.glass", "gas.chill", "gas.posted", "gas.room", "gas.local_rules"}) {
            EXPECT_TRUE(std::any_of(check.cautions.begin(), check.cautions.end(),
                                    [&](const Caution& caution) { return caution.id == id; }))
                << id << " beside " << word(check.verdict);
        }
    }
    EXPECT_EQ(checked(refused).cautions.front().id, "gas.do_not");
    EXPECT_EQ(checked(waiting).cautions.front().id, "gas.wait");
}

TEST(GasQuestionThatCannotBe, IsRefusedWithTheFieldNamed) {
    const auto where = [](auto change) {
        GasQuestion question = dry_ale();
        change(question);
        const auto check = gas_check(question, reference_tables());
        return check ? std::string("accepted") : check.error().where;
    };
    EXPECT_EQ(where([](GasQuestion& q) { q.gravity = Gravity{2.0, 0.0}; }), "gravity");
    EXPECT_EQ(where([](GasQuestion& q) { q.original_gravity = 1.004; }), "original gravity");
    EXPECT_EQ(where([](GasQuestion& q) { q.priming_g_per_l = -1.0; }), "priming");
    EXPECT_EQ(where([](GasQuestion& q) { q.malic_g_per_l = 1e6; }), "malic acid");
    EXPECT_EQ(where([](GasQuestion& q) { q.abv = 40.0; }), "alcohol");
    EXPECT_EQ(where([](GasQuestion& q) { q.store = celsius(60.0); }), "store");
    EXPECT_EQ(where([](GasQuestion& q) { q.head_space = 1.5; }), "head space");
    EXPECT_EQ(where([](GasQuestion& q) { q.makers_limit = GaugePressure::from_bar(-1.0); }), "limit");
    EXPECT_EQ(where([](GasQuestion& q) { q.horizon_months = 0; }), "horizon");
}

}  // namespace
}  // namespace undercroft::engine::package

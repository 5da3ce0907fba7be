// A keeper's words find the row that is meant, or are answered with the nearest names.
#include <gtest/gtest.h>

#include <string>

#include "tables/tables.hpp"
#include "tests/support/reference_tables.hpp"

namespace undercroft::tables {
namespace {

using testing::reference_tables;

std::string fruit_id(std::string_view wanted) {
    const auto found = reference_tables().find_fruit(wanted);
    return found ? (*found)->id : "! " + found.error().what + " " + found.error().next_step;
}

TEST(FruitLookup, ANameAloneMeansItsFreshForm) {
    EXPECT_EQ(fruit_id("plum"), "plum_fresh");
    EXPECT_EQ(fruit_id("Sour Cherry"), "sour_cherry_fresh");
    EXPECT_EQ(fruit_id("sour-cherry"), "sour_cherry_fresh");
    EXPECT_EQ(fruit_id("apricot"), "apricot_fresh");
}

TEST(FruitLookup, ANameWithOneFormOnlyMeansThatForm) {
    EXPECT_EQ(fruit_id("prune"), "prune_dried");
    EXPECT_EQ(fruit_id("lemon"), "lemon_juice");
    EXPECT_EQ(fruit_id("date"), "date_dried_deglet_noor");
}

TEST(FruitLookup, AnExactIdComesFirstAndReachesTheSingleRecordsToo) {
    EXPECT_EQ(fruit_id("pear_fresh_single_record"), "pear_fresh_single_record");
    EXPECT_EQ(fruit_id("pear"), "pear_fresh");
}

TEST(FruitLookup, NameAndFormMayStandInAnyOrder) {
    EXPECT_EQ(fruit_id("plum, fresh"), "plum_fresh");
    EXPECT_EQ(fruit_id("frozen sour cherry"), "sour_cherry_frozen_unsweetened");
    EXPECT_EQ(fruit_id("dried apricot"), "apricot_dried_sulfured");
    EXPECT_EQ(fruit_id("dried hibiscus"), "hibiscus_roselle_dried_calyx");
    EXPECT_EQ(fruit_id("canned pear"), "pear_canned_in_juice_solids_liquid");
}

TEST(FruitLookup, WordsThatCanMeanTwoRowsAreRefusedWithBoth) {
    const auto found = reference_tables().find_fruit("frozen strawberry");
    ASSERT_FALSE(found.has_value());
    EXPECT_EQ(found.error().kind, ErrorKind::bad_input);
    ASSERT_EQ(found.error().facts.size(), 2U);
    EXPECT_EQ(found.error().facts[0].label, "strawberry_frozen_unsweetened");
    EXPECT_EQ(found.error().facts[1].label, "strawberry_frozen_sweetened_sliced");
}

TEST(FruitLookup, AnUnknownNameIsAnsweredWithTheNearest) {
    const auto plumm = reference_tables().find_fruit("plumm");
    ASSERT_FALSE(plumm.has_value());
    EXPECT_EQ(plumm.error().kind, ErrorKind::not_found);
    EXPECT_NE(plumm.error().next_step.find("\"plum\""), std::string::npos) << plumm.error().next_step;

    const auto cherry = reference_tables().find_fruit("cherry");
    ASSERT_FALSE(cherry.has_value());
    EXPECT_NE(cherry.error().next_step.find("\"sour cherry\""), std::string::npos) << cherry.error().next_step;
    EXPECT_NE(cherry.error().next_step.find("\"sweet cherry\""), std::string::npos) << cherry.error().next_step;

    EXPECT_FALSE(reference_tables().find_fruit("").has_value());
    EXPECT_FALSE(reference_tables().find_fruit("fresh").has_value());
}

TEST(FruitLookup, EveryRowIsFoundByItsIdAndEveryFruitByItsName) {
    for (const Fruit& fruit : reference_tables().fruits) {
        EXPECT_EQ(fruit_id(fruit.id), fruit.id);
        const auto by_name = reference_tables().find_fruit(fruit.name);
        ASSERT_TRUE(by_name.has_value()) << fruit.name;
        EXPECT_EQ((*by_name)->name, fruit.name);
        EXPECT_EQ((*by_name)->row_type, RowType::composite);
    }
}

TEST(Lookup, OtherTablesAreFoundByIdAndName) {
    EXPECT_EQ((*reference_tables().find_culture("Lager yeast"))->id, "lager_yeast");
    EXPECT_EQ((*reference_tables().find_culture("mixed_sour"))->name, "Mixed sour culture");
    EXPECT_EQ((*reference_tables().find_container("keg_steel_high"))->working_limit_bar, 7.0);
    EXPECT_EQ((*reference_tables().find_task("pull the share"))->id, "pull");
    EXPECT_EQ((*reference_tables().find_flavouring("dried ginger"))->id, "ginger_dried");
    EXPECT_EQ((*reference_tables().find_allergen("milk"))->id, "milk");
    EXPECT_EQ((*reference_tables().find_allergen("tree nuts"))->id, "nuts");
}

TEST(Lookup, GingerAloneCanBeFreshOrDriedWhichDifferFivefold) {
    const auto ginger = reference_tables().find_flavouring("ginger");
    ASSERT_FALSE(ginger.has_value());
    EXPECT_EQ(ginger.error().facts.size(), 2U);
}

TEST(Lookup, CinnamonAloneIsNotGuessedSinceOneKindHarmsTheLiver) {
    const auto cinnamon = reference_tables().find_flavouring("cinnamon");
    ASSERT_FALSE(cinnamon.has_value());
    EXPECT_NE(cinnamon.error().next_step.find("cassia"), std::string::npos);
    EXPECT_NE(cinnamon.error().next_step.find("Ceylon"), std::string::npos);
}

TEST(FruitSugars, ASplitOfItsOwnKeepsWhatTheSourceLeavesUnsplit) {
    // Passion fruit: total 11.2, split 3.6 + 2.8 + 3.3 = 9.7 (data/fruit.csv).
    const Fruit* passion = *reference_tables().find_fruit("passion fruit");
    const auto sugars = sugars_of(*passion, nullptr);
    ASSERT_TRUE(sugars.has_value());
    EXPECT_EQ(sugars->split, FruitSugars::Split::own_row);
    EXPECT_NEAR(sugars->unassigned, 1.5, 1e-9);
    // 9.874 as the table prints it, plus 1.5 g as disaccharide.
    EXPECT_NEAR(sugars->hexose_equivalent(), 9.874 + 1.5 * 360.312 / 342.297, 0.001);
}

TEST(FruitSugars, AMissingSplitFollowsTheFreshRowAndKeepsTheTotal) {
    const Fruit* frozen = *reference_tables().find_fruit("frozen sour cherry");
    const auto sugars = reference_tables().composition_of(*frozen).sugars;
    ASSERT_TRUE(sugars.has_value());
    EXPECT_EQ(sugars->split, FruitSugars::Split::fresh_row_ratio);
    EXPECT_NEAR(sugars->glucose + sugars->fructose + sugars->sucrose + sugars->maltose, *frozen->total_sugars, 1e-9);
    EXPECT_NEAR(sugars->glucose / sugars->fructose, 4.18 / 3.51, 1e-9);  // sour_cherry_fresh
    EXPECT_EQ(sugars->unassigned, 0.0);
}

TEST(FruitSugars, ThePackersSugarIsSucrose) {
    const Fruit* sweetened = *reference_tables().find_fruit("strawberry_frozen_sweetened_sliced");
    const auto sugars = reference_tables().composition_of(*sweetened).sugars;
    ASSERT_TRUE(sugars.has_value());
    EXPECT_GE(sugars->sucrose, sweetened->added_sugar);
    EXPECT_NEAR(sugars->glucose + sugars->fructose + sugars->sucrose, *sweetened->total_sugars, 1e-9);
}

TEST(FruitSugars, WithoutAFreshRowOnlyTheTotalIsKnownAndNoneOfItIsLost) {
    Fruit jam;
    jam.total_sugars = 60.0;
    const auto sugars = sugars_of(jam, nullptr);
    ASSERT_TRUE(sugars.has_value());
    EXPECT_EQ(sugars->split, FruitSugars::Split::none);
    EXPECT_EQ(sugars->unassigned, 60.0);
    EXPECT_NEAR(sugars->hexose_equivalent(), 60.0 * 360.312 / 342.297, 1e-9);
}

TEST(FruitSugars, FruitWithoutAnyFigureHasNoSugarsRatherThanZero) {
    const Fruit* hibiscus = *reference_tables().find_fruit("dried hibiscus");
    EXPECT_FALSE(sugars_of(*hibiscus, nullptr).has_value());
    const FruitComposition composition = reference_tables().composition_of(*hibiscus);
    EXPECT_EQ(composition.potassium.basis, Estimated::Basis::unknown);
    EXPECT_FALSE(composition.potassium.g_per_100_g.has_value());
}

TEST(FruitComposition, DriedFruitHasItsPotassiumFromTheFreshRowByDryMatter) {
    // Prune 69.08 g dry, plum 12.77 g dry per 100 g: ratio 5.41 (USDA water; data/fruit.csv).
    const FruitComposition prune = reference_tables().composition_of(**reference_tables().find_fruit("prune"));
    EXPECT_EQ(prune.potassium.basis, Estimated::Basis::fresh_row_scaled);
    EXPECT_NEAR(*prune.potassium.g_per_100_g, 0.157 * 5.41, 0.001);  // ratio given to three figures
    EXPECT_EQ(prune.sorbitol.basis, Estimated::Basis::own_row);
    EXPECT_EQ(*prune.sorbitol.g_per_100_g, 14.7);
}

TEST(FruitComposition, AFreshRowKeepsItsOwnFigures) {
    const Fruit* plum = *reference_tables().find_fruit("plum");
    EXPECT_EQ(fresh_row_of(reference_tables().fruits, *plum), plum);
    const FruitComposition composition = reference_tables().composition_of(*plum);
    EXPECT_EQ(composition.malic.basis, Estimated::Basis::own_row);
    EXPECT_EQ(*composition.malic.g_per_100_g, 1.22);
    EXPECT_NEAR(plum->edible_share, 0.94, 1e-12);
}

TEST(AttributeLookup, AKeepersWordMeansTheRowThatItIsAnotherWordFor) {
    const Tables& tables = reference_tables();
    for (const auto& [word, id] :
         {std::pair{"sour", "sourness"}, std::pair{"Funk", "farmyard"}, std::pair{"oak", "wood"},
          std::pair{"Berry and cherry", "berry_cherry"}, std::pair{"berry_cherry", "berry_cherry"}})
        EXPECT_EQ(tables.attribute_id(word), id) << word;
    EXPECT_EQ(tables.attribute_id("salty"), "salty") << "not in the table: it stays as it is";
    EXPECT_EQ(tables.fault_id("diacetyl"), "buttery");
    EXPECT_EQ(tables.fault_id("mouse"), "mousy");
}

TEST(AttributeLookup, AnUnknownWordIsAnsweredWithTheNearest) {
    const auto unknown = reference_tables().find_attribute("bitternes");
    ASSERT_FALSE(unknown);
    EXPECT_NE(unknown.error().next_step.find("itterness"), std::string::npos) << unknown.error().next_step;
    EXPECT_FALSE(reference_tables().find_attribute(""));
    EXPECT_FALSE(reference_tables().find_fault(" - "));
}

TEST(FaultTable, RefusesAWordOfTwoRowsAndAnUnsafeFaultThatMayBePackaged) {
    const std::string head =
        "id,name,also,smells_or_tastes_like,cause,confirm_how,mends_with_time,mend_low_weeks,mend_high_weeks,"
        "blocks_pull,blocks_packaging,blocks_refilling,blocks_return_to_solera,unsafe,action,caution,mark,source\n";
    const auto row = [](const std::string& id, const std::string& also, const std::string& packaging,
                        const std::string& unsafe, const std::string& mends = "no,,") {
        return id + "," + id + "," + also + ",smell,cause,look," + mends + ",no," + packaging + ",no,no," + unsafe +
               ",do,,P,common practice\n";
    };
    EXPECT_TRUE(parse_faults(head + row("one", "uno", "yes", "yes"), "f.csv"));
    EXPECT_FALSE(parse_faults(head + row("one", "uno", "no", "yes"), "f.csv"));
    EXPECT_FALSE(parse_faults(head + row("one", "uno", "no", "no") + row("two", "uno", "no", "no"), "f.csv"));
    EXPECT_FALSE(parse_faults(head + row("one", "uno", "no", "no", "weeks,,"), "f.csv"));
    EXPECT_FALSE(parse_faults(head + row("one", "uno", "no", "no", "weeks,8,2"), "f.csv"));
}

}  // namespace
}  // namespace undercroft::tables

// Ways to finish a beer and what they move: the tables hang together.
#include "tables/technique.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "tables/tables.hpp"

namespace undercroft::tables {
namespace {

const Tables& shipped_for_finish() {
    static const Tables k_tables = load().value();
    return k_tables;
}

TEST(Techniques, LeaveItAloneIsAmongThemAndEveryFruitCanBeDoneBothWays) {
    const auto& all = shipped_for_finish().techniques;
    EXPECT_TRUE(std::any_of(all.begin(), all.end(), [](const Technique& one) { return one.id == "leave"; }));
    std::multiset<std::string> fruit;
    for (const Technique& one : all)
        if (one.kind == TechniqueKind::fruit) fruit.insert(one.id);
    for (const std::string& id : fruit) EXPECT_EQ(fruit.count(id), 2U) << id;
    EXPECT_GE(fruit.size(), 40U);
}

TEST(Techniques, NameRowsThatAreThere) {
    const Tables& t = shipped_for_finish();
    for (const Technique& one : t.techniques) {
        if (one.data_row.empty()) continue;
        if (one.kind == TechniqueKind::fruit) {
            EXPECT_TRUE(t.find_fruit(one.data_row)) << one.id;
        } else {
            EXPECT_TRUE(t.find_flavouring(one.data_row)) << one.id;
        }
    }
    for (const Effect& effect : t.effects) EXPECT_TRUE(t.find_attribute(effect.attribute)) << effect.attribute;
    for (const Interaction& one : t.interactions)
        for (const std::string& changed : one.changes) EXPECT_TRUE(t.find_attribute(changed)) << one.id;
}

TEST(Techniques, NoFruitSpiceOrHopMayGoBackToASolera) {
    for (const Technique& one : shipped_for_finish().techniques)
        if (one.kind == TechniqueKind::fruit || one.kind == TechniqueKind::spice ||
            one.kind == TechniqueKind::dry_hop) {
            EXPECT_EQ(one.back, BackToSolera::no) << one.id;
        }
}

TEST(Techniques, AreFoundByWhatAKeeperCallsThem) {
    const auto& all = shipped_for_finish().techniques;
    const auto id = [&](const char* typed) {
        const auto found = find_technique(all, typed);
        return found ? (*found)->id : found.error().what;
    };
    EXPECT_EQ(id("sour cherry"), "fruit_sour_cherry");
    EXPECT_EQ((*find_technique(all, "sour cherry"))->way, FruitWay::onto_beer);
    EXPECT_EQ((*find_technique(all, "sour cherry pre"))->way, FruitWay::pre_fermented);
    EXPECT_EQ((*find_technique(all, "fruit_sour_cherry"))->way, FruitWay::onto_beer);
    EXPECT_EQ((*find_technique(all, "fruit_sour_cherry_pre_fermented"))->way, FruitWay::pre_fermented);
    EXPECT_EQ(id("leave"), "leave");
    EXPECT_EQ(id("dry hop"), "dry_hop");
    const auto unknown = find_technique(all, "sour chery");
    ASSERT_FALSE(unknown);
    EXPECT_NE(unknown.error().next_step.find("Sour cherry"), std::string::npos) << unknown.error().next_step;
}

TEST(Techniques, ABadRowIsRefusedByItsColumn) {
    const std::string head =
        "id,name,kind,variant,applies_to,data_row,dose_unit,dose_low,dose_mid,dose_high,days_low,days_typical,days_"
        "high,"
        "reversible,adds_fermentables,restarts_stability_clock,culture_after,may_return_to_solera,first_taste_days,"
        "latest_out_days,caution,mark,source\n";
    const auto where = [&](const std::string& row) {
        const auto parsed = parse_techniques(head + row, "techniques.csv");
        return parsed ? std::string() : parsed.error().where;
    };
    EXPECT_EQ(where("a,A,spice,,both,,g/L,1,2,3,1,2,3,no,no,no,unchanged,no,1,4,,P,common practice\n"), "");
    EXPECT_NE(where("a,A,spice,,both,,g/L,3,2,1,1,2,3,no,no,no,unchanged,no,1,4,,P,common practice\n").find("dose_mid"),
              std::string::npos);
    EXPECT_NE(where("a,A,fruit,,both,,g/L,1,2,3,1,2,3,no,no,no,unchanged,no,1,4,,P,common practice\n").find("variant"),
              std::string::npos);
}

}  // namespace
}  // namespace undercroft::tables

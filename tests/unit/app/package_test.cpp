// Bottles: the gas check stands before the booking, and the label says what is inside.
#include <gtest/gtest.h>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class Bottling : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        RegisterVessel amber;
        amber.name = "The Amber";
        amber.capacity = "60 L";
        amber.role = "solera";
        EnterLot old_beer;
        old_beer.vessel = "The Amber";
        old_beer.name = "Old beer";
        old_beer.volume = "40 L";
        old_beer.original_gravity = "1.050";
        old_beer.gravity = "1.006";
        old_beer.brewed = "2024-03-14";
        old_beer.cultures = {"mixed_sour"};
        book.must({amber, old_beer}, "2026-01-02");
    }
    static PackageRun run(const std::string& acknowledge = "") {
        PackageRun act;
        act.from = "The Amber";
        act.container = "bottle_330_heavy";
        act.count = "24";
        act.priming = "5 g/L";
        act.acknowledge = acknowledge;
        return act;
    }
    std::int64_t newest() { return *book.journal().last_sequence(); }
};

TEST_F(Bottling, IsObjectedToWhereTheEvidenceIsMissing) {
    const auto shown = book.preview({run()});
    ASSERT_TRUE(shown) << "the what-if shows the check";
    ASSERT_EQ(shown->gas_checks.size(), 1U);
    EXPECT_NE(shown->gas_checks[0].verdict, "no_objection");
    const std::int64_t before = newest();
    const auto refused = book.book({run()});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    EXPECT_EQ(refused.error().where, "gas check");
    EXPECT_FALSE(refused.error().facts.empty()) << "each reason names the evidence that would change it";
    EXPECT_EQ(newest(), before);
}

TEST_F(Bottling, IsBookedWithTheKeepersReasonBesideIt) {
    const SittingView view = book.must({run("already in bottles, kept cold in a box")});
    bool acknowledged = false;
    const auto entries = book.journal().entries();
    for (const ledger::Entry& entry : *entries)
        if (const auto* body = std::get_if<ledger::Acknowledge>(&entry.body)) {
            acknowledged = true;
            EXPECT_EQ(body->words, "already in bottles, kept cold in a box");
            EXPECT_EQ(body->caution, "gas." + view.gas_checks[0].verdict);
        }
    EXPECT_TRUE(acknowledged);
    const auto bottles = book->show("AMBER-26-1", {});
    ASSERT_TRUE(bottles) << bottles.error().what;
    EXPECT_EQ(bottles->run->left, 24);
}

TEST_F(Bottling, CannotSlipPastTheCheckByACorrection) {
    const SittingView view = book.must({run("trial")});
    Correct correct;
    correct.entry = "#" + std::to_string(view.entries[0].number);
    correct.reason = "more sugar than was written";
    PackageRun sweeter = run();
    sweeter.run = "AMBER-26-1";
    sweeter.priming = "20 g/L";
    correct.instead = std::make_shared<const Act>(sweeter);
    const auto refused = book.book({correct});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().where, "gas check");
    sweeter.acknowledge = "they are in the freezer";
    correct.instead = std::make_shared<const Act>(sweeter);
    // Corrected after some were taken: the check is of the bottles as they were filled.
    book.must({TakeBottles{"AMBER-26-1", "24", "given", "", "", ""}});
    const SittingView corrected = book.must({correct});
    ASSERT_EQ(corrected.gas_checks.size(), 1U);
    EXPECT_GT(corrected.gas_checks[0].total_volumes, view.gas_checks[0].total_volumes + 3.0)
        << "15 g/L more make nearly four volumes";
}

TEST_F(Bottling, CountsSugarPutIntoTheVesselAndStillAnswers) {
    AddAddition sugar;
    sugar.vessel = "The Amber";
    sugar.kind = "sugar";
    sugar.item = "table sugar";
    sugar.amount = "400 g";
    GasRequest request;
    request.beer = "The Amber";
    request.container = "bottle_330_heavy";
    const auto before = book->gas(request);
    ASSERT_TRUE(before) << before.error().what;
    book.must({sugar});
    const auto after = book->gas(request);
    ASSERT_TRUE(after) << after.error().what;
    // 400 g in 40 L are 10 g/L of sucrose: 10.5 of hexose, 2.6 volumes.
    EXPECT_GT(after->total_volumes, before->total_volumes + 2.5);
}

TEST_F(Bottling, DoesNotTakeMoreForTheHoseThanThereIs) {
    PackageRun all = run("trial");
    all.count = "all";
    all.loss = "41 L";
    const auto refused = book.book({all});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    EXPECT_NE(refused.error().what.find("does not fill one"), std::string::npos);
}

TEST_F(Bottling, FillsAllThereIsAndSaysWhatStays) {
    PackageRun all = run("trial");
    all.count = "all";
    all.priming.clear();
    const SittingView view = book.must({all});
    EXPECT_EQ(book->show("AMBER-26-1", {})->run->count, 121);  // 40 / 0.33 = 121.2
    EXPECT_EQ(book.held("The Amber").ul(), 40'000'000 - 121 * 330'000);
    bool told = false;
    for (const std::string& remark : view.remarks)
        told = told || remark.find("stays in The Amber") != std::string::npos;
    EXPECT_TRUE(told);
}

TEST_F(Bottling, GivesEveryRunACodeOfItsOwn) {
    book.must({run("trial")});
    book.must({run("trial")});
    EXPECT_TRUE(book->show("AMBER-26-2", {}));
    PackageRun named = run("trial");
    named.run = "AMBER-26-2";
    const auto refused = book.book({named});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().what, "There is a \"AMBER-26-2\" already.");
}

TEST_F(Bottling, GivesALateRunACodeThatNoLaterOneHas) {
    book.must({run("trial")});
    book.must({run("found the note")}, "2026-02-01");
    EXPECT_EQ(book->show("AMBER-26-1", {})->run->packaged, "2026-03-14");
    EXPECT_EQ(book->show("AMBER-26-2", {})->run->packaged, "2026-02-01");
}

TEST_F(Bottling, KeepsTheCodeThatStandsOnTheBottlesWhenTheRunIsCorrected) {
    const SittingView view = book.must({run("trial")});
    Correct correct;
    correct.entry = "#" + std::to_string(view.entries[0].number);
    correct.reason = "counted again";
    PackageRun fewer = run("trial");
    fewer.count = "22";
    correct.instead = std::make_shared<const Act>(fewer);
    book.must({correct});
    EXPECT_EQ(book->show("AMBER-26-1", {})->run->count, 22);
}

TEST_F(Bottling, RefusesAKegAndABottleOverItsBrim) {
    PackageRun keg = run("trial");
    keg.container = "keg_soda_19";
    EXPECT_EQ(book.book({keg}).error().where, "container");
    PackageRun brim = run("trial");
    brim.fill = "0.4 L";
    EXPECT_EQ(book.book({brim}).error().where, "fill");
    PackageRun sweet = run("trial");
    sweet.priming = "31 g/L";
    EXPECT_EQ(book.book({sweet}).error().where, "priming");
}

TEST_F(Bottling, TakesNoMoreThanAreLeftAndReturnsTheRest) {
    book.must({run("trial")});
    book.must({TakeBottles{"AMBER-26-1", "20", "given", "Bo", "", ""}});
    const auto more = book.book({TakeBottles{"AMBER-26-1", "5", "opened", "", "", ""}});
    ASSERT_FALSE(more);
    EXPECT_EQ(more.error().kind, ErrorKind::impossible);
    const Volume before = book.held("The Amber");
    book.must({TakeBottles{"AMBER-26-1", "all", "returned", "", "The Amber", ""}});
    EXPECT_EQ(book.held("The Amber") - before, Volume::from_ul(4 * 330'000));
    EXPECT_EQ(book->show("AMBER-26-1", {})->run->left, 0);
}

TEST_F(Bottling, PutsOnTheLabelWhatIsInside) {
    AddAddition cherries;
    cherries.vessel = "The Amber";
    cherries.item = "sour_cherry_fresh";
    cherries.amount = "2 kg";
    book.must({cherries});
    PitchCulture killer;
    killer.vessel = "The Amber";
    killer.kind = "wine_killer_k2";
    book.must({killer});
    book.must({run("trial")});
    const auto label = book->label("AMBER-26-1", "Cherry Night");
    ASSERT_TRUE(label);
    const auto fact = [&](const std::string& name) -> std::string {
        for (const auto& [key, value] : label->facts)
            if (key == name) return value;
        return "no such fact";
    };
    EXPECT_EQ(fact("name"), "Cherry Night");
    EXPECT_EQ(fact("run"), "AMBER-26-1");
    EXPECT_EQ(fact("packaged"), "2026-03-14");
    EXPECT_EQ(fact("contents"), "0.33 L");
    EXPECT_NE(fact("age").find("from brew day"), std::string::npos);
    EXPECT_NE(fact("age").find("2 years"), std::string::npos) << fact("age");
    EXPECT_NE(fact("make-up").find("Old beer"), std::string::npos);
    EXPECT_NE(fact("with").find("cherry"), std::string::npos) << fact("with");
    EXPECT_NE(fact("alcohol").find("% vol"), std::string::npos);
    EXPECT_NE(fact("allergens").find("gluten"), std::string::npos);
    EXPECT_NE(fact("culture").find("killer wine yeast"), std::string::npos);
    EXPECT_FALSE(label->kept);

    PrintLabel print;
    print.run = "AMBER-26-1";
    print.name = "Cherry Night";
    const SittingView printed = book.must({print});
    ASSERT_EQ(printed.labels.size(), 1U);
    EXPECT_TRUE(printed.labels[0].kept);
    const auto entries = book.journal().entries();
    const auto* snapshot = std::get_if<ledger::Snapshot>(&entries->back().body);
    ASSERT_NE(snapshot, nullptr);
    EXPECT_EQ(snapshot->text, label->text);
    EXPECT_EQ(snapshot->facts.at("allergens"), fact("allergens"));
}

TEST_F(Bottling, NamesTheBeerAfterItsVesselWhenNobodyDid) {
    book.must({run("trial")});
    const auto label = book->label("AMBER-26-1", "");
    ASSERT_TRUE(label);
    EXPECT_TRUE(label->text.starts_with("The Amber\n")) << label->text;
}

}  // namespace
}  // namespace undercroft::testing

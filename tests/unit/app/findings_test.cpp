// What was said on paper and became untrue (DESIGN 5, rule 9).
#include <gtest/gtest.h>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

// A solera, a jar pulled from it, 20 labelled bottles of the jar; 3 of them given to Ines.
class LabelledBottles : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        RegisterVessel amber;
        amber.name = "The Amber";
        amber.capacity = "60 L";
        amber.role = "solera";
        RegisterVessel jar;
        jar.name = "Jar";
        jar.capacity = "23 L";
        book.must({amber, jar, brew("1.048")}, "2025-01-02");
        MoveLiquid pull;
        pull.reason = ledger::Reason::pull;
        pull.from = "The Amber";
        pull.to = {{"Jar", "20 L"}};
        book.must({pull}, "2025-06-01");
        PackageRun package;
        package.from = "Jar";
        package.run = "AMB-1";
        package.container = "bottle_sparkling_750";
        package.count = "20";
        package.limit = "10 bar";
        package.acknowledge = "cold box";
        book.must({package}, "2025-07-01");
        label();
        give(3, "Ines");
    }
    static EnterLot brew(const std::string& original_gravity) {
        EnterLot lot;
        lot.vessel = "The Amber";
        lot.name = "Founding wort";
        lot.volume = "50 L";
        lot.original_gravity = original_gravity;
        lot.gravity = "1.008";
        lot.brewed = "2024-12-20";
        return lot;
    }
    SittingView label() {
        PrintLabel act;
        act.run = "AMB-1";
        return book.must({act});
    }
    SittingView give(int count, const std::string& to, const std::string& cause = "given") {
        TakeBottles take;
        take.run = "AMB-1";
        take.count = std::to_string(count);
        take.cause = cause;
        take.person = to;
        return book.must({take});
    }
    SittingView pitch(const std::string& kind, const std::string& when, bool suspected = false) {
        PitchCulture act;
        act.vessel = "The Amber";
        act.kind = kind;
        act.suspected = suspected;
        return book.must({act}, when);
    }
    std::vector<FindingView> findings() {
        const auto view = book->findings();
        if (!view) ADD_FAILURE() << view.error().what;
        return view ? view->findings : std::vector<FindingView>{};
    }
    SittingView correct(std::int64_t number, const Act& instead) {
        Correct act;
        act.entry = "#" + std::to_string(number);
        act.reason = "misread";
        act.instead = std::make_shared<const Act>(instead);
        return book.must({act});
    }
};

TEST_F(LabelledBottles, CarryALabelThatIsTrueUntilNewsComes) {
    EXPECT_TRUE(findings().empty());
    give(2, "", "opened");
    EXPECT_TRUE(findings().empty());
    pitch("wine_killer_k2", "2026-03-01");
    EXPECT_TRUE(findings().empty()) << "what came into the solera after the pull is not in the bottles";
}

TEST_F(LabelledBottles, AreCountedWithWhoHasThem) {
    const SittingView view = pitch("wine_killer_k2", "2025-03-01");
    ASSERT_EQ(view.findings_opened.size(), 1U);
    give(4, "Bo", "sold");
    give(5, "", "opened");
    const auto standing = findings();
    ASSERT_EQ(standing.size(), 1U);
    const FindingView& one = standing[0];
    EXPECT_EQ(one.kind, "label");
    EXPECT_EQ(one.run, "AMB-1");
    EXPECT_EQ(one.on_hand, 8);
    EXPECT_EQ(one.given, 3);
    EXPECT_EQ(one.sold, 4);
    EXPECT_EQ(one.since, view.entries[0].number);
    ASSERT_EQ(one.receivers.size(), 2U);
    EXPECT_EQ(one.receivers[0].who, "Ines");
    EXPECT_EQ(one.receivers[1].who, "Bo");
    EXPECT_NE(one.words.find("15 bottles of AMB-1 carry a label that is no longer true: it says no killer yeast; since "
                             "entry #" +
                             std::to_string(one.since) + " one is likely inside"),
              std::string::npos)
        << one.words;
}

TEST_F(LabelledBottles, AreNamedWithTheEntryThatDidItHoweverMuchCameAfter) {
    book.must({WriteNote{"", "before"}});
    pitch("wine_killer_k2", "2026-02-01");
    const SittingView guilty = pitch("wine_killer_k2", "2025-03-01");
    for (int i = 0; i < 9; ++i) book.must({WriteNote{"", "after"}});
    ASSERT_EQ(findings().size(), 1U);
    EXPECT_EQ(findings()[0].since, guilty.entries[0].number);
}

TEST_F(LabelledBottles, OfALaterLabelDoNotCarryTheOldOne) {
    pitch("wine_killer_k2", "2025-03-01");
    const SittingView again = label();
    EXPECT_TRUE(again.findings_closed.empty()) << "the three given away still carry the old one";
    ASSERT_EQ(findings().size(), 1U);
    EXPECT_EQ(findings()[0].on_hand, 0);
    EXPECT_EQ(findings()[0].given, 3);
    const SittingView told = book.must({AcknowledgeFinding{"AMB-1", "told Ines"}});
    EXPECT_EQ(told.findings_closed.size(), 1U);
    EXPECT_TRUE(findings().empty());
}

TEST_F(LabelledBottles, AreFoundAgainWhenSomethingElseChangesAfterItWasDealtWith) {
    pitch("wine_killer_k2", "2025-03-01");
    book.must({AcknowledgeFinding{"AMB-1", "all told"}});
    EXPECT_TRUE(findings().empty());
    AddAddition milk;
    milk.vessel = "The Amber";
    milk.kind = "other";
    milk.item = "whey";
    milk.amount = "100 mL";
    milk.allergens = {"milk"};
    const SittingView view = book.must({milk}, "2025-04-01");
    ASSERT_EQ(view.findings_opened.size(), 1U);
    ASSERT_EQ(findings().size(), 1U);
    ASSERT_EQ(findings()[0].differences.size(), 1U) << "what was acknowledged is not told again";
    EXPECT_EQ(findings()[0].differences[0].what, "allergens");
    EXPECT_NE(findings()[0].differences[0].now.find("milk"), std::string::npos);
}

TEST_F(LabelledBottles, AreNotFoundForAnAlcoholInsideTheToleranceOfTheLabel) {
    EXPECT_TRUE(correct(3, brew("1.049")).findings_opened.empty());
    const SittingView far = correct(*book.journal().last_sequence(), brew("1.068"));
    ASSERT_EQ(far.findings_opened.size(), 2U);
    EXPECT_EQ(far.findings_opened[0].differences[0].what, "verdict") << "its culture goes lower from more wort";
    EXPECT_EQ(far.findings_opened[1].differences[0].what, "alcohol");
    const SittingView back = correct(*book.journal().last_sequence(), brew("1.048"));
    EXPECT_EQ(back.findings_closed.size(), 2U) << "when the correction was the mistake";
}

TEST_F(LabelledBottles, AreLeftAloneOnceTheyAreGoneOrTheLabelWasVoided) {
    pitch("wine_killer_k2", "2025-03-01");
    give(17, "", "opened");
    ASSERT_EQ(findings().size(), 1U) << "three are with Ines";
    std::int64_t printed = 0;
    const auto entries = book.journal().entries();
    for (const ledger::Entry& entry : *entries)
        if (const auto* snapshot = std::get_if<ledger::Snapshot>(&entry.body))
            if (snapshot->kind == ledger::SnapshotKind::label) printed = entry.sequence;
    const SittingView view = book.must({VoidEntry{"#" + std::to_string(printed), "never stuck on"}});
    EXPECT_EQ(view.findings_closed.size(), 1U);
    EXPECT_TRUE(findings().empty());
}

TEST_F(LabelledBottles, CannotBeAcknowledgedWhereNothingIsFound) {
    const auto refused = book.book({AcknowledgeFinding{"AMB-1", "all told"}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
}

TEST_F(LabelledBottles, HaveACautionThatHoldsForTheRiskItWasAcceptedAt) {
    const SittingView view = correct(3, [] {
        EnterLot lot = brew("1.048");
        lot.gravity = "1.016";
        return lot;
    }());
    bool caution = false;
    for (const FindingView& one : view.findings_opened) caution = caution || one.kind == "caution";
    EXPECT_TRUE(caution) << "eight points of gravity more can become gas";
    EXPECT_TRUE(book->check()->ok()) << "a finding is no damage";
}

TEST_F(LabelledBottles, AreTheSameInAWhatIfAndOnceItIsBooked) {
    PitchCulture act;
    act.vessel = "The Amber";
    act.kind = "wine_killer_k2";
    const auto shown = book.preview({act}, "2025-03-01");
    ASSERT_TRUE(shown);
    EXPECT_TRUE(findings().empty());
    const SittingView booked = book.must({act}, "2025-03-01");
    ASSERT_EQ(shown->findings_opened.size(), booked.findings_opened.size());
    EXPECT_EQ(shown->findings_opened[0].key, booked.findings_opened[0].key);
    EXPECT_EQ(shown->findings_opened[0].since, 0) << "a draft has no number";
    EXPECT_GT(booked.findings_opened[0].since, 0);
    ASSERT_EQ(shown->moved.size(), booked.moved.size());
    EXPECT_GT(shown->moved.size(), 0U);
}

}  // namespace
}  // namespace undercroft::testing

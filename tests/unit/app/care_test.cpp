// Care at the vessel, as typed: what rides on a hose reaches the gas check and the trace, and not the label.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;
using ledger::Certainty;

class TakingCare : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        RegisterVessel amber{.name = "The Amber",
                             .tag = {},
                             .capacity = "60 L",
                             .ullage = {},
                             .role = "solera",
                             .material = "oak",
                             .location = {}};
        RegisterVessel tank = amber;
        tank.name = "Tank";
        tank.material = "steel";
        RegisterVessel jar = tank;
        jar.name = "Jar";
        jar.role = "finishing";
        jar.material = "glass";
        EnterLot sour = lot("Sour", "The Amber", "1.006", "mixed_sour");
        EnterLot lager = lot("Lager", "Tank", "1.010", "lager_yeast");
        book.must({amber, tank, jar, sour, lager}, "2026-01-02");
    }
    static EnterLot lot(const std::string& name, const std::string& into, const std::string& gravity,
                        const std::string& culture) {
        EnterLot act;
        act.vessel = into;
        act.name = name;
        act.volume = "40 L";
        act.original_gravity = "1.048";
        act.gravity = gravity;
        act.cultures = {culture};
        return act;
    }
    static MoveLiquid rack(const std::string& from, const std::string& to, const std::string& volume,
                           const std::string& gear) {
        MoveLiquid act;
        act.from = from;
        act.to = {{to, volume}};
        act.gear = {gear};
        return act;
    }
    static TakeReading read(const std::string& subject, const std::string& gravity, const std::string& ph = "") {
        TakeReading act;
        act.subject = subject;
        act.gravity = gravity;
        act.ph = ph;
        return act;
    }
    // The hose was in the sour, then in the lager.
    void hose() {
        book.must({rack("The Amber", "Jar", "5 L", "long hose")}, "2026-01-10");
        book.must({LoseLiquid{"Jar", "all", "dump"}, CleanVessel{.vessel = "Jar", .words = {}, .kill = true}},
                  "2026-01-11");
        book.must({rack("Tank", "Jar", "10 L", "long hose")}, "2026-01-12");
    }
    [[nodiscard]] std::optional<CultureLine> in(const std::string& subject, const std::string& kind,
                                                const Moment& moment = {}) {
        const auto view = book->show(subject, moment);
        EXPECT_TRUE(view);
        for (const CultureLine& one : view->cultures)
            if (one.kind == kind) return one;
        return std::nullopt;
    }
    [[nodiscard]] double gas_in(const std::string& beer) {
        GasRequest request;
        request.beer = beer;
        request.container = "bottle_330_heavy";
        request.limit = "10 bar";
        const auto gas = book->gas(request);
        EXPECT_TRUE(gas);
        return gas->total_volumes;
    }
    std::string label_of(const std::string& run) {
        const SittingView view = book.must({PrintLabel{run, ""}});
        return view.labels.empty() ? std::string() : view.labels.front().text;
    }
};

TEST_F(TakingCare, SinceWhenAndThroughWhichGearIsTold) {
    hose();
    const auto suspected = in("Tank", "mixed_sour");
    ASSERT_TRUE(suspected);
    EXPECT_EQ(suspected->certainty, Certainty::possible);
    EXPECT_EQ(suspected->since, "2026-01-12");
    EXPECT_EQ(suspected->through, "long hose");
    EXPECT_EQ(suspected->last_in, "The Amber");
    EXPECT_EQ(in("Tank", "mixed_sour", Moment{"2026-01-11", ""}), std::nullopt);
}

TEST_F(TakingCare, WhatAHoseMayHaveBroughtCountsForGasAndNotForTheLabel) {
    const double before = gas_in("Tank");
    hose();
    EXPECT_GT(gas_in("Tank"), before + 1.0) << "a mixed culture may eat what the lager yeast left";
    PackageRun run;
    run.from = "Tank";
    run.container = "bottle_330_heavy";
    run.count = "4";
    run.run = "T-1";
    run.acknowledge = "a trial in a box";
    book.must({run});
    EXPECT_EQ(label_of("T-1").find("Wild yeast"), std::string::npos);
    ConfirmCulture plate{"T-1", "mixed sour culture", "plate"};
    const SittingView view = book.must({plate});
    ASSERT_FALSE(view.findings_opened.empty());
    EXPECT_TRUE(std::any_of(view.findings_opened.begin(), view.findings_opened.end(), [](const FindingView& one) {
        return one.kind == "label";
    })) << "now it is certain, and the label does not say so";
    EXPECT_NE(label_of("T-1").find("Wild yeast"), std::string::npos);
}

TEST_F(TakingCare, AHoseEndsTheEvidenceOfAStableGravity) {
    book.must({read("Tank", "1.0100")}, "2026-01-03");
    hose();
    const auto entries = book->show("Tank", {});
    ASSERT_TRUE(entries);
    GasRequest request;
    request.beer = "Tank";
    request.container = "bottle_330_heavy";
    const auto gas = book->gas(request);
    ASSERT_TRUE(gas);
    EXPECT_NE(gas->verdict, "no_objection");
}

TEST_F(TakingCare, OldSaccharomycesLeavesTheLabelButNotTheGasCheck) {
    book.must({LoseLiquid{"Tank", "all", "dump"}, CleanVessel{.vessel = "Tank", .words = {}, .kill = true},
               lot("Plum beer", "Tank", "1.004", "wine_killer_k2"), read("Tank", "1.004", "3.30")},
              "2026-01-20");
    book.set_clock("2027-01-10T10:00:00.000Z");
    EXPECT_EQ(in("Tank", "wine_killer_k2")->certainty, Certainty::certain);
    PackageRun run;
    run.from = "Tank";
    run.container = "bottle_330_heavy";
    run.count = "4";
    run.run = "P-1";
    run.acknowledge = "a trial in a box";
    book.must({run});
    EXPECT_NE(label_of("P-1").find("killer wine yeast"), std::string::npos);
    book.set_clock("2027-01-25T10:00:00.000Z");
    EXPECT_EQ(in("Tank", "wine_killer_k2")->certainty, Certainty::possible);
    EXPECT_EQ(in("Tank", "wine_killer_k2", Moment{"2027-01-15", ""})->certainty, Certainty::certain);
    EXPECT_EQ(label_of("P-1").find("killer wine yeast"), std::string::npos);
    EXPECT_TRUE(book->findings()->findings.empty()) << "time alone makes no label untrue";
    const auto trace = book->trace_forward("Wine yeast, killer positive (K2 type)", {});
    ASSERT_TRUE(trace);
    EXPECT_FALSE(trace->cultures.empty());
}

TEST_F(TakingCare, HeatLeavesBottlesWithoutALiveCulture) {
    PackageRun run;
    run.from = "Tank";
    run.container = "bottle_330_heavy";
    run.count = "4";
    run.run = "T-1";
    run.acknowledge = "a trial in a box";
    book.must({run});
    TreatLiquid heat;
    heat.subject = "T-1";
    heat.method = "heat";
    heat.temperature = "65 C";
    heat.minutes = "20";
    const SittingView view = book.must({heat});
    EXPECT_FALSE(view.cautions.empty());
    EXPECT_NE(label_of("T-1").find("No live culture is known"), std::string::npos);
}

TEST_F(TakingCare, BrettanomycesAndBacteriaWantMoreHeatThanYeast) {
    TreatLiquid heat;
    heat.subject = "The Amber";
    heat.method = "heat";
    heat.temperature = "60 C";
    heat.minutes = "40";
    book.must({heat});
    EXPECT_EQ(in("The Amber", "mixed_sour")->certainty, Certainty::possible);
    heat.minutes = "61";
    book.must({heat});
    EXPECT_EQ(in("The Amber", "mixed_sour"), std::nullopt);
}

TEST_F(TakingCare, TheSulphiteOfATreatmentStandsOnTheLabelFromTenMilligramsOn) {
    TreatLiquid treat;
    treat.subject = "Tank";
    treat.method = "sulphite";
    treat.so2 = "8 mg/L";
    book.must({treat});
    const auto amount = [this]() -> std::optional<double> {
        const auto shown = book->show("Tank", {});
        for (const AllergenLine& one : shown->allergens)
            if (one.group == "sulphite") return one.mg_per_litre;
        return std::nullopt;
    };
    EXPECT_NEAR(amount().value_or(0), 8.0, 1e-9);
    book.must({treat});
    EXPECT_NEAR(amount().value_or(0), 16.0, 1e-9);
    EXPECT_EQ(in("Tank", "lager_yeast")->certainty, Certainty::certain) << "never a kill step";
}

TEST_F(TakingCare, OnlyHeatReachesWhatLivesInWood) {
    book.must({LoseLiquid{"The Amber", "all", "dump"}});
    book.must({CleanVessel{.vessel = "The Amber", .words = {}, .kill = true, .agent = "peracetic"}});
    EXPECT_EQ(in("The Amber", "mixed_sour")->certainty, Certainty::possible);
    book.must({CleanVessel{.vessel = "The Amber", .words = {}, .kill = true, .agent = "heat"}});
    EXPECT_EQ(in("The Amber", "mixed_sour"), std::nullopt);
}

TEST_F(TakingCare, ASplitSoleraHasTurnsOfItsOwnAndOneAge) {
    const auto age_of = [this](const std::string& vessel) { return book->show(vessel, {})->from_brew_day->mean_years; };
    const double before = age_of("The Amber");
    SplitVessel split;
    split.vessel = "The Amber";
    split.into = "Amber Two";
    split.volume = "half";
    split.fresh.capacity = "30 L";
    const SittingView view = book.must({split});
    EXPECT_EQ(view.entries.size(), 2U);
    EXPECT_NEAR(age_of("The Amber"), before, 1e-9);
    EXPECT_NEAR(age_of("Amber Two"), before, 1e-9);
    EXPECT_EQ(book->show("Amber Two", {})->vessel->role, ledger::VesselRole::solera);
    EXPECT_EQ(in("Amber Two", "mixed_sour")->certainty, Certainty::likely);
    EXPECT_EQ(book.held("Amber Two").ul(), 20'000'000);
}

TEST_F(TakingCare, TheEndOfAVesselIsOneSittingOrNothing) {
    EndVessel end;
    end.vessel = "The Amber";
    end.to = {{"Jar", "10 L"}};
    const auto refused = book.book({end});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    EXPECT_EQ(book.held("The Amber").ul(), 40'000'000) << "nothing half applied";
    end.dump = true;
    const SittingView view = book.must({end});
    EXPECT_EQ(view.entries.size(), 3U);
    EXPECT_FALSE(book->show("The Amber", {}));
    EXPECT_EQ(book.held("Jar").ul(), 10'000'000);
}

}  // namespace
}  // namespace undercroft::testing

// A keeper with a stick, a scale, a meter that is off and a logger: what is booked, and what is said.
#include <gtest/gtest.h>

#include "app/logger.hpp"
#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

class AKeeperWithAStick : public ::testing::Test {
protected:
    TestBook book;

    void SetUp() override {
        RegisterVessel amber;
        amber.name = "The Amber";
        amber.capacity = "60 L";
        amber.ullage = "2 L";
        amber.material = "steel";
        amber.tare = "12 kg";
        amber.shape = "upright";
        amber.inner_height = "50 cm";
        RegisterVessel barrel;
        barrel.name = "Old Peat Row";
        barrel.capacity = "225 L";
        barrel.material = "oak";
        barrel.inner_height = "69 cm";
        barrel.head_diameter = "56 cm";
        RegisterVessel jar;
        jar.name = "Jar 23";
        jar.capacity = "25 L";
        book.must({amber, barrel, jar}, "2025-03-02");
        EnterLot lot;
        lot.name = "First wort";
        lot.original_gravity = "1.050";
        lot.gravity = "1.010";
        lot.vessel = "The Amber";
        lot.volume = "54 L";
        book.must({lot}, "2025-03-03");
    }
    static TakeStock stock(const std::string& subject) {
        TakeStock act;
        act.subject = subject;
        return act;
    }
    template <class Body>
    Body last_of_kind() {
        const auto entries = book.journal().entries();
        for (auto entry = entries->rbegin(); entry != entries->rend(); ++entry)
            if (const auto* body = std::get_if<Body>(&entry->body)) return *body;
        ADD_FAILURE() << "no such entry";
        return {};
    }
    std::string refusal(Act act) {
        const auto view = book.book({std::move(act)});
        if (!view) return view.error().what + " " + view.error().next_step;
        ADD_FAILURE() << "it was booked";
        return {};
    }
    static bool says(const SittingView& view, const std::string& words) {
        for (const std::string& remark : view.remarks)
            if (remark.find(words) != std::string::npos) return true;
        for (const std::string& remark : view.remarks) ADD_FAILURE() << remark;
        return false;
    }
};

TEST_F(AKeeperWithAStick, DipsAndBooksTheDifferenceAsEvaporation) {
    TakeStock dip = stock("The Amber");
    dip.dip = "43.5 cm";  // of 50 cm and 60 L: 52.2 L
    const SittingView view = book.must({dip});
    EXPECT_TRUE(says(view, "Found 52.2 ± 0.8 L in The Amber; the book said 54 L: 1.8 L less, booked as evaporation."));
    const auto body = last_of_kind<ledger::Settle>();
    EXPECT_EQ(body.found, Volume::from_litres(52.2));
    EXPECT_EQ(body.missing, Volume::from_litres(1.8));
    EXPECT_EQ(body.depth, Length::from_centimetres(43.5));
    EXPECT_EQ(body.cause, ledger::LossCause::evaporation);
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(52.2));
    const auto shown = book->show("The Amber", {});
    ASSERT_TRUE(shown && shown->vessel->stock_take);
    EXPECT_EQ(shown->vessel->stock_take->found_by, "dip");
    EXPECT_EQ(shown->vessel->volume_sd, body.found_sd);
}

TEST_F(AKeeperWithAStick, MeasuresTheHeadSpaceJustAsWell) {
    TakeStock ullage = stock("The Amber");
    ullage.ullage = "6.5 cm";
    book.must({ullage});
    EXPECT_EQ(last_of_kind<ledger::Settle>().found, Volume::from_litres(52.2));
}

TEST_F(AKeeperWithAStick, WeighsWithTheTareAndTheDensityOfTheLiquid) {
    TakeStock weight = stock("The Amber");
    weight.weight = "65 kg";  // 53 kg of 1.010: 52.57 L at 0.9982 kg/L of water
    book.must({weight});
    EXPECT_NEAR(last_of_kind<ledger::Settle>().found.in_litres(), 53.0 / (1.010 * 0.9982031), 1e-3);
    EXPECT_NEAR(last_of_kind<ledger::Settle>().found_sd.in_litres(), 0.28, 0.02);
}

TEST_F(AKeeperWithAStick, SaysWhenTheDifferenceLiesWithinTheSpread) {
    TakeStock volume = stock("The Amber");
    volume.volume = "53.8 L";
    volume.cause = "unknown";
    const SittingView view = book.must({volume});
    EXPECT_TRUE(says(view, "within the spread"));
    EXPECT_TRUE(says(view, "booked as an unknown loss"));
    EXPECT_EQ(book.held("The Amber"), Volume::from_litres(53.8));
}

TEST_F(AKeeperWithAStick, WondersAtEvaporationThatTheMaterialDoesNotGiveOff) {
    TakeStock volume = stock("The Amber");
    volume.volume = "44 L";
    EXPECT_TRUE(says(book.must({volume}), "more than steel usually gives off"));
}

TEST_F(AKeeperWithAStick, FindsMoreAndItIsAsOldAsTheRest) {
    const auto before = book->show("The Amber", {});
    TakeStock full = stock("The Amber");
    full.full = true;
    // 58 L of 54 that ever went in is more than any measuring explains.
    EXPECT_NE(refusal(full).find("more than ever went in"), std::string::npos);
    TakeStock volume = stock("The Amber");
    volume.volume = "56 L";
    EXPECT_TRUE(says(book.must({volume}), "2 L more, booked as found"));
    const auto after = book->show("The Amber", {});
    EXPECT_NEAR(after->from_brew_day->mean_years, before->from_brew_day->mean_years, 1e-9);
}

TEST_F(AKeeperWithAStick, FindsTheBookRight) {
    TakeStock volume = stock("The Amber");
    volume.volume = "54 L";
    EXPECT_TRUE(says(book.must({volume}), "the book was right"));
    const auto body = last_of_kind<ledger::Settle>();
    EXPECT_EQ(body.missing + body.surplus, Volume{});
}

TEST_F(AKeeperWithAStick, TakesFruitOffWhatTheStickShows) {
    AddAddition fruit;
    fruit.vessel = "The Amber";
    fruit.item = "plum_fresh";
    fruit.amount = "2 kg";
    book.must({fruit});
    const Volume solids = book->show("The Amber", {})->vessel->solids;
    ASSERT_GT(solids, Volume{});
    TakeStock dip = stock("The Amber");
    dip.dip = "46 cm";
    EXPECT_TRUE(says(book.must({dip}), "is fruit in The Amber"));
    // The stick is read to the millilitre, and the fruit is not.
    EXPECT_EQ(last_of_kind<ledger::Settle>().found, Volume::from_litres(55.2) - solids);
}

TEST_F(AKeeperWithAStick, IsRefusedWhatCannotBeMeant) {
    EXPECT_NE(refusal(stock("The Amber")).find("How was it found?"), std::string::npos);
    TakeStock two = stock("The Amber");
    two.dip = "40 cm";
    two.full = true;
    EXPECT_NE(refusal(two).find("One way at a time"), std::string::npos);
    TakeStock deep = stock("The Amber");
    deep.dip = "51 cm";
    EXPECT_NE(refusal(deep).find("50 cm high inside"), std::string::npos);
    TakeStock bare = stock("The Amber");
    bare.dip = "40";
    EXPECT_NE(refusal(bare).find("40 cm"), std::string::npos);
    TakeStock shapeless = stock("Jar 23");
    shapeless.dip = "10 cm";
    EXPECT_NE(refusal(shapeless).find("--shape"), std::string::npos);
    TakeStock untared = stock("Jar 23");
    untared.weight = "10 kg";
    EXPECT_NE(refusal(untared).find("--tare"), std::string::npos);
    TakeStock light = stock("The Amber");
    light.weight = "11 kg";
    EXPECT_NE(refusal(light).find("less than The Amber weighs empty"), std::string::npos);
    TakeStock heavy = stock("The Amber");
    heavy.weight = "90 kg";
    EXPECT_NE(refusal(heavy).find("cannot hold that much"), std::string::npos);
    TakeStock counted = stock("The Amber");
    counted.count = "3";
    EXPECT_NE(refusal(counted).find("is a vessel"), std::string::npos);
    TakeStock caused = stock("The Amber");
    caused.volume = "50 L";
    caused.cause = "spill";
    EXPECT_NE(refusal(caused).find("evaporation, unknown"), std::string::npos);
    TakeStock empty = stock("Jar 23");
    empty.volume = "1 L";
    EXPECT_NE(refusal(empty).find("nothing has ever gone into Jar 23"), std::string::npos);
}

TEST_F(AKeeperWithAStick, GivesAVesselItsShapeLater) {
    RegisterVessel jar;
    jar.name = "Jar 23";
    jar.capacity = "25 L";
    jar.dip_marks = {"10 cm=8 L", "20 cm = 18 L"};
    Correct correct;
    correct.entry = "#3";
    correct.reason = "measured at last";
    correct.instead = std::make_shared<const Act>(jar);
    book.must({correct});
    EXPECT_EQ(book->show("Jar 23", {})->vessel->gauge, "a dip table of 2 marks");
    const auto refused = [&](RegisterVessel act) {
        act.name = "Other";
        act.capacity = "25 L";
        return refusal(act);
    };
    RegisterVessel act;
    act.dip_marks = {"20 cm=8 L", "10 cm=18 L"};
    EXPECT_NE(refused(act).find("a deeper mark holds more"), std::string::npos);
    act.dip_marks = {"20 cm 8 L"};
    EXPECT_NE(refused(act).find("depth=volume"), std::string::npos);
    act.dip_marks = {"20 cm=26 L"};
    EXPECT_NE(refused(act).find("holds brimful"), std::string::npos);
    act.dip_marks.clear();
    act.shape = "table";
    EXPECT_NE(refused(act).find("wants its marks"), std::string::npos);
    act.shape = "upright";
    EXPECT_NE(refused(act).find("--inner-height"), std::string::npos);
    act.shape = "";
    act.inner_height = "40 cm";
    EXPECT_NE(refused(act).find("--shape"), std::string::npos);
    act.head_diameter = "41 cm";
    EXPECT_NE(refused(act).find("widest place"), std::string::npos);
}

TEST_F(AKeeperWithAStick, CountsBottles) {
    PackageRun run;
    run.from = "The Amber";
    run.container = "bottle_sparkling_750";
    run.count = "24";
    run.run = "AMB-1";
    run.acknowledge = "drunk at once";
    book.must({run});
    TakeStock count = stock("AMB-1");
    count.count = "22";
    EXPECT_TRUE(says(book.must({count}), "22 of AMB-1 are there; the book said 24: 2 missing"));
    EXPECT_EQ(book->show("AMB-1", {})->run->left, 22);
    count.count = "25";
    EXPECT_NE(refusal(count).find("never had that many"), std::string::npos);
    count.count = "23";
    EXPECT_TRUE(says(book.must({count}), "1 more, booked as found"));
    EXPECT_EQ(book->show("AMB-1", {})->run->found_again, 1);
    TakeStock dipped = stock("AMB-1");
    dipped.volume = "3 L";
    EXPECT_NE(refusal(dipped).find("Bottles are counted"), std::string::npos);
}

TEST_F(AKeeperWithAStick, IsToldWhatHasLikelyEvaporated) {
    EnterLot lot;
    lot.name = "Peat";
    lot.vessel = "Old Peat Row";
    lot.volume = "200 L";
    lot.gravity = "1.010";
    book.must({lot}, "2025-03-14");
    const auto shown = book->show("Old Peat Row", {});
    ASSERT_TRUE(shown && shown->vessel->evaporation);
    EXPECT_NEAR(shown->vessel->evaporation->likely.in_litres(), 8.0, 0.05);  // 4 % of 200 L in a year
    EXPECT_EQ(book.held("Old Peat Row"), Volume::from_litres(200));
}

TEST_F(AKeeperWithAStick, CalibratesAMeterForWhatItReadBefore) {
    TakeReading reading;
    reading.subject = "The Amber";
    reading.ph = "3.52";
    reading.instrument = "pH meter";
    book.must({reading}, "2026-02-01");
    CalibrateInstrument calibrate;
    calibrate.instrument = "pH meter";
    calibrate.quantity = "ph";
    calibrate.reads = "4.07";
    calibrate.truth = "4.01";
    calibrate.since = "2026-01-10";
    const SittingView view = book.must({calibrate});
    EXPECT_EQ(last_of_kind<ledger::Calibrate>().offset, (Decimal{-6, 2}));
    const auto ph = [&] {
        const auto shown = book->show("The Amber", {});
        for (const NamedEstimate& named : shown->estimates)
            if (named.quantity == "ph") return named.estimate.mean;
        return 0.0;
    };
    EXPECT_NEAR(ph(), 3.46, 1e-9);
    const auto shown = book->show("The Amber", {});
    EXPECT_EQ(shown->vessel->last.at(0).value, "3.52");
    EXPECT_EQ(shown->vessel->last.at(0).calibrated, "3.46");
    EXPECT_EQ(shown->vessel->last.at(0).offset, "-0.06");
    book.must({VoidEntry{"last", "wrong buffer"}});
    EXPECT_NEAR(ph(), 3.52, 1e-9);
}

TEST_F(AKeeperWithAStick, IsRefusedACalibrationThatCannotBe) {
    CalibrateInstrument act;
    act.instrument = "meter";
    act.quantity = "ph";
    EXPECT_NE(refusal(act).find("--reads"), std::string::npos);
    act.offset = "three";
    EXPECT_NE(refusal(act).find("is no offset"), std::string::npos);
    act.offset = "5";
    EXPECT_NE(refusal(act).find("thrown away"), std::string::npos);
    act.quantity = "temperature";
    act.offset = "0.5";
    EXPECT_NE(refusal(act).find("0.5 of what?"), std::string::npos);
    act.offset = "0.5 C";
    act.since = "2027-01-01";
    EXPECT_NE(refusal(act).find("in the future"), std::string::npos);
    act.since.clear();
    act.quantity = "weather";
    EXPECT_NE(refusal(act).find("gravity, ph, ta"), std::string::npos);
    act.quantity = "gravity";
    act.offset.clear();
    act.reads = "1.002";
    EXPECT_NE(refusal(act).find("--reads"), std::string::npos);
    act.truth = "0 P";
    EXPECT_NE(refusal(act).find("two units"), std::string::npos);
}

TEST_F(AKeeperWithAStick, ReadsALoggerOutAsOneEntryAtItsLastRow) {
    ReadLogger logger;
    logger.subject = "The Amber";
    logger.file = "sticks/cellar.csv";
    logger.bytes = "Time,Temperature (°C)\n2026-03-01 08:00,18.0\n2026-03-02 08:00,24.5\n2026-03-03 08:00,17.0\n";
    const SittingView view = book.must({logger});
    EXPECT_TRUE(says(view, "3 rows from 2026-03-01 to 2026-03-03: 17.0 to 24.5 °C"));
    ASSERT_EQ(view.entries.size(), 1U);
    EXPECT_EQ(view.entries[0].day, "2026-03-03");
    EXPECT_EQ(last_of_kind<ledger::LoggerFile>().file, "cellar.csv");
    GasRequest gas;
    gas.beer = "The Amber";
    gas.container = "bottle_sparkling_750";
    const auto check = book->gas(gas);
    ASSERT_TRUE(check);
    bool warm = false;
    for (const Term& term : check->gas) warm = warm || term.how.find("24.5") != std::string::npos;
    EXPECT_TRUE(warm);
    EXPECT_NE(refusal(logger).find("already"), std::string::npos);
}

// --- files of loggers ------------------------------------------------------------------------------

const Instant k_now = *parse_iso_instant("2026-03-14T10:00:00.000Z");

Logged logged(const std::string& bytes, const std::vector<std::string>& maps = {}) {
    auto read = read_logger(bytes, "cellar.csv", maps, UtcZone{}, k_now);
    if (read) return *std::move(read);
    ADD_FAILURE() << read.error().where << ": " << read.error().what;
    return {};
}
Error refused(const std::string& bytes, const std::vector<std::string>& maps = {}) {
    const auto read = read_logger(bytes, "cellar.csv", maps, UtcZone{}, k_now);
    if (!read) return read.error();
    ADD_FAILURE() << "it was read";
    return {};
}

TEST(ALoggerFile, IsReadHoweverItWritesItsTimes) {
    const Instant half_past_six = *parse_iso_instant("2026-03-01T18:30:15.000Z");
    for (const char* row : {"2026-03-01 18:30:15", "2026-03-01T18:30:15", "2026-03-01T18:30:15Z",
                            "2026-03-01T18:30:15.250Z", "2026-03-01T19:30:15+01:00", "2026-03-01 13:30:15 -0500"}) {
        const Logged file =
            logged(std::string("Timestamp,Temp C\n") + row + ",18.25\n", {"Timestamp=date,Temp C=temperature C"});
        ASSERT_EQ(file.rows.size(), 1U) << row;
        EXPECT_EQ(iso_text(file.rows[0].at), iso_text(half_past_six)) << row;
        EXPECT_EQ(file.rows[0].celsius, 18.25);
        EXPECT_EQ(file.decimals, 2);
    }
}

TEST(ALoggerFile, IsReadByItsHeadingsInCelsiusOrFahrenheitOfOneColumnOrTwo) {
    EXPECT_NEAR(logged("Date;Time;Temperature (°F)\n2026-03-01;18:30;64.4\n").rows.at(0).celsius, 18.0, 1e-9);
    EXPECT_NEAR(logged("No.;Datum;Uhrzeit;Temp [C];Battery\n1;1.3.2026;18:30;18,5;99\n").rows.at(0).celsius, 18.5,
                1e-9);
    EXPECT_NEAR(logged("Date/Time,Celsius\n2026-03-01 18:30,18.5\n").rows.at(0).celsius, 18.5, 1e-9);
    EXPECT_NEAR(logged("When,Probe\n3/1/2026 18:30,18.5\n", {"When=date mdy,Probe=temperature C"}).rows.at(0).celsius,
                18.5, 1e-9);
}

TEST(ALoggerFile, ThatCannotBeReadSaysWhyAndWhere) {
    EXPECT_NE(refused("Time,Temp\n2026-03-01 18:30,18.5\n").what.find("C or F"), std::string::npos);
    EXPECT_NE(refused("Time,Humidity\n2026-03-01 18:30,60\n").what.find("temperature"), std::string::npos);
    EXPECT_NE(refused("Time,Temp 1 C,Temp 2 C\n2026-03-01 18:30,18,19\n").what.find("More than one"),
              std::string::npos);
    EXPECT_NE(refused("Index,Temp °C\n1,18.5\n").what.find("time"), std::string::npos);
    EXPECT_NE(refused("").what.find("empty"), std::string::npos);
    EXPECT_NE(refused("Time,Temp °C\n").what.find("no rows"), std::string::npos);
    const Error rows = refused(
        "Time,Temp °C\n2026-03-01 18:30,18.5\nyesterdayish,18.5\n2026-03-01 18:40,warm\n2026-03-01,18\n"
        "2026-04-01 18:30,18.5\n2026-03-01 18:50,185\n");
    EXPECT_NE(rows.what.find("5 of 6 rows"), std::string::npos);
    ASSERT_EQ(rows.facts.size(), 5U);
    EXPECT_EQ(rows.facts[0].label, "line 3, column Time");
    EXPECT_EQ(rows.facts[1].label, "line 4, column Temp °C");
    EXPECT_NE(rows.facts[1].value.find("expected a temperature"), std::string::npos);
    EXPECT_NE(rows.facts[2].value.find("day and time"), std::string::npos);
    EXPECT_NE(rows.facts[3].value.find("future"), std::string::npos);
    EXPECT_NE(rows.facts[4].value.find("-10 C to 60 C"), std::string::npos);
}

TEST(ALoggerFile, IsThinnedToWhatALineCannotSay) {
    // A year of a row every ten minutes: a cellar's slow wave, a daily one on it, and one hot hour.
    std::vector<LoggedRow> rows;
    for (int i = 0; i < 52'560; ++i) {
        const double day = i / 144.0;
        double celsius = 14.0 + 4.0 * std::sin(day / 58.0) + 0.3 * std::sin(day * 6.283185);
        if (i == 30'000) celsius = 29.75;
        rows.push_back({Instant{k_now.ms - std::int64_t{600'000} * (52'560 - i)}, celsius});
    }
    const Thinned kept = thinned(rows, 1000);
    EXPECT_LE(kept.points.size(), 1000U);
    ASSERT_TRUE(kept.thinned_to);
    EXPECT_EQ(kept.points.front().at, rows.front().at);
    EXPECT_EQ(kept.points.back().at, rows.back().at);
    double warmest = 0.0;
    double coldest = 99.0;
    double all_coldest = 99.0;
    for (const LoggedRow& row : rows) all_coldest = std::min(all_coldest, row.celsius);
    for (const LoggedRow& point : kept.points) {
        warmest = std::max(warmest, point.celsius);
        coldest = std::min(coldest, point.celsius);
    }
    EXPECT_EQ(warmest, 29.75);
    EXPECT_EQ(coldest, all_coldest);
    // Every row lies within the stated distance of the line between the points beside it.
    std::size_t next = 1;
    for (const LoggedRow& row : rows) {
        while (kept.points[next].at < row.at) ++next;
        const LoggedRow& a = kept.points[next - 1];
        const LoggedRow& b = kept.points[next];
        const double part = static_cast<double>(row.at.ms - a.at.ms) / static_cast<double>(b.at.ms - a.at.ms);
        EXPECT_LE(std::fabs(row.celsius - (a.celsius + part * (b.celsius - a.celsius))), *kept.thinned_to + 1e-9);
    }
    EXPECT_EQ(thinned({rows[0]}, 1000).points.size(), 1U);
    EXPECT_FALSE(thinned({rows[0], rows[1]}, 1000).thinned_to);
}

}  // namespace
}  // namespace undercroft::testing

// A keeper's spreadsheet, as it comes: every way of writing it, and every row that will not do.
#include "app/sheet.hpp"

#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>

#include "tests/support/kept_book.hpp"

namespace undercroft::app {
namespace {

using testing::KeptBook;

Sheet read(const std::string& bytes, const std::string& map) {
    auto sheet = read_sheet(bytes, "sheet.csv", {map});
    if (sheet) return *std::move(sheet);
    ADD_FAILURE() << sheet.error().where << ": " << sheet.error().what;
    return {};
}

Error refusal(const std::string& bytes, const std::string& map) {
    const auto sheet = read_sheet(bytes, "sheet.csv", {map});
    if (!sheet) return sheet.error();
    ADD_FAILURE() << "taken: " << map;
    return {};
}

TEST(Sheet, IsPartedByCommasSemicolonsOrTabsAsItsHeaderIs) {
    for (const char separator : {',', ';', '\t'}) {
        std::string bytes = "Day|SG\r\n2026-01-02|1.010\r\n\r\n2026-01-03|1.009";
        std::replace(bytes.begin(), bytes.end(), '|', separator);
        const Sheet sheet = read("\xEF\xBB\xBF" + bytes, "Day=date,SG=gravity");
        ASSERT_EQ(sheet.rows.size(), 2U) << separator;
        EXPECT_EQ(sheet.rows[1].line, 4);
        EXPECT_EQ(sheet.rows[1].cell(*sheet.column(SheetField::gravity)), "1.009");
    }
}

// RFC 4180, section 2, rules 5 to 7.
TEST(Sheet, ReadsQuotedCellsWithSeparatorsLineBreaksAndQuotes) {
    const Sheet sheet =
        read("Day,Words\n2026-01-02,\"hay, and\nlemon \"\"zest\"\"\"\n2026-01-03,plain\n", "Day=date,Words=words");
    ASSERT_EQ(sheet.rows.size(), 2U);
    EXPECT_EQ(sheet.rows[0].cell(*sheet.column(SheetField::words)), "hay, and\nlemon \"zest\"");
    EXPECT_EQ(sheet.rows[1].line, 4);
    const Error error = refusal("Day,Words\n2026-01-02,\"hay\n", "Day=date,Words=words");
    EXPECT_NE(error.what.find("never closed"), std::string::npos);
}

TEST(Sheet, AColumnNameMayHoldACommaInQuotes) {
    const Sheet sheet = read("Day;Gravity, SG\n2026-01-02;1,010\n", "Day=date,\"Gravity, SG=gravity\"");
    EXPECT_EQ(sheet.rows[0].cell(*sheet.column(SheetField::gravity)), "1,010");
}

TEST(Sheet, RefusesAMapThatCannotBeMeant) {
    const std::string bytes = "Day,SG,pH\n2026-01-02,1.010,3.4\n";
    for (const char* map : {"", "SG=gravity", "Day=date,SG", "Day=date,SG=gravy", "Day=date,SG=score",
                            "Day=date,SG=gravity,pH=gravity", "Day=date,SG=words g/L", "Day=date ymd,SG=gravity"})
        EXPECT_EQ(refusal(bytes, map).where, "map") << map;
    const Error missing = refusal(bytes, "Dya=date,SG=gravity");
    EXPECT_EQ(missing.where, "sheet.csv line 1");
    EXPECT_EQ(missing.facts[0].value, "Day, SG, pH");
    EXPECT_EQ(missing.facts[1].value, "Day");
    EXPECT_EQ(refusal(" \n", "Day=date").where, "sheet.csv");
}

class SheetIntoABook : public ::testing::Test {
protected:
    void SetUp() override {
        std::string pattern = (std::filesystem::temp_directory_path() / "undercroft-sheet-XXXXXX").string();
        ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
        m_folder = pattern;
        m_book = KeptBook::begin((m_folder / "mine.book").string(), "Mine", '1');
        EnterLot lot;
        lot.vessel = "Amber";
        lot.name = "Old";
        lot.volume = "50 L";
        lot.gravity = "1.012";
        SittingRequest request;
        request.when = "2024-01-10";
        request.acts = {RegisterVessel{"Amber", "A", "60 L", "", "solera", "", ""},
                        RegisterVessel{"Jar", "", "6 L", "", "", "", ""}, lot};
        ASSERT_TRUE(m_book->book().book(request));
    }
    void TearDown() override {
        m_book.reset();
        std::filesystem::remove_all(m_folder);
    }
    Result<SheetView> bring(const std::string& bytes, const std::string& map, Booking booking = Booking::now) {
        return m_book->transfer().import_sheet({"sheet.csv", bytes, {map}, "Amber", "", "Ines"}, booking);
    }
    std::vector<ledger::Entry> brought() {
        auto entries = m_book->copy().entries;
        entries.erase(entries.begin(), entries.begin() + 3);
        return entries;
    }

    std::filesystem::path m_folder;
    std::unique_ptr<KeptBook> m_book;
};

TEST_F(SheetIntoABook, RowsBecomeSittingsByDayAndVessel) {
    const auto view = bring(
        "Date,Time,Where,SG,pH,Temp,Sour,Words\n"
        "2024-02-01,09:30,,1.0100,3.5,18,,\n"
        "2024-02-01,,Jar,,,,,empty and clean\n"
        "2024-02-01,18:00,,,,,6,hay\n"
        "2024-02-03,,,\"1,008\",,64 F,,\n",
        "Date=date,Time=time,Where=vessel,SG=gravity,pH=ph,Temp=temperature C,Sour=score sour,Words=words");
    ASSERT_TRUE(view) << view.error().what;
    EXPECT_EQ(view->sittings, 3);
    EXPECT_EQ(view->readings, 2);
    EXPECT_EQ(view->tastings, 2);
    EXPECT_EQ(view->first_day, "2024-02-01");
    EXPECT_EQ(view->last_day, "2024-02-03");
    const auto entries = brought();
    ASSERT_EQ(entries.size(), 4U);
    const auto& reading = std::get<ledger::Reading>(entries[0].body);
    ASSERT_EQ(reading.values.size(), 3U);
    EXPECT_EQ(reading.values[0].value.text(), "1.0100");  // the digits as written
    EXPECT_EQ(reading.values[2].value.text(), "18.0");
    EXPECT_EQ(iso_text(entries[0].at()), "2024-02-01T09:30:00.000Z");
    // The same visit later that day is the same sitting, at its own time.
    EXPECT_EQ(entries[1].key.sitting, entries[0].key.sitting);
    EXPECT_EQ(iso_text(entries[1].at()), "2024-02-01T18:00:00.000Z");
    EXPECT_NE(entries[2].key.sitting, entries[0].key.sitting);  // the jar's, at noon
    const auto& last = std::get<ledger::Reading>(entries[3].body);
    EXPECT_EQ(last.values[0].value.text(), "1.008");
    EXPECT_EQ(last.values[1].unit, "F");
    EXPECT_EQ(m_book->copy().persons.size(), 1U);
    EXPECT_TRUE(m_book->whole());
}

TEST_F(SheetIntoABook, EveryRowThatWillNotDoIsNamedAndNothingIsBooked) {
    const auto view = bring(
        "Date,Vessel,SG,Temp,Sour\n"
        "2024-02-01,,1.010,18 C,\n"
        "03/04/2024,,1.010,,\n"
        "2024-02-02,,1.05,,\n"
        "2024-02-03,,,18,\n"
        "2024-02-04,Barrel,1.010,,\n"
        "2023-02-04,,1.010,,\n"
        "2099-01-01,,1.010,,\n"
        ",,1.010,,\n"
        "2024-02-05,,,,11\n"
        "2024-02-06,,1.010,,,,\n",
        "Date=date,Vessel=vessel,SG=gravity,Temp=temperature,Sour=score sour");
    ASSERT_FALSE(view);
    EXPECT_EQ(view.error().kind, ErrorKind::bad_input);
    const std::pair<const char*, const char*> expected[] = {
        {"line 3, column Date", "03/04/2024"},
        {"line 4, column SG", "1.05"},
        {"line 5, column Temp", "18"},
        {"line 6, column Vessel", "Barrel"},
        {"line 7, column Vessel", "from 2024-01-10 on"},
        {"line 8, column Date", "future"},
        {"line 9, column Date", "expected a day"},
        {"line 10, column Sour", "0 to 10"},
        {"line 11, column 6", "expected at most 5 cells"},
    };
    ASSERT_EQ(view.error().facts.size(), std::size(expected));
    for (std::size_t i = 0; i < std::size(expected); ++i) {
        EXPECT_EQ(view.error().facts[i].label, expected[i].first);
        EXPECT_NE(view.error().facts[i].value.find(expected[i].second), std::string::npos)
            << view.error().facts[i].value;
    }
    EXPECT_EQ(brought().size(), 0U);
}

TEST_F(SheetIntoABook, TheOrderOfDayAndMonthIsTakenFromTheMap) {
    const std::string bytes = "Date,SG\n03/04/2024,1.010\n";
    ASSERT_TRUE(bring(bytes, "Date=date mdy,SG=gravity"));
    ASSERT_TRUE(bring(bytes, "Date=date dmy,SG=gravity"));
    const auto entries = brought();
    ASSERT_EQ(entries.size(), 2U);
    EXPECT_EQ(iso_text(entries[0].at()), "2024-03-04T12:00:00.000Z");
    EXPECT_EQ(iso_text(entries[1].at()), "2024-04-03T12:00:00.000Z");
}

TEST_F(SheetIntoABook, AWhatIfBooksNothingAndASecondTimeNothingIsNew) {
    const std::string bytes = "Date,SG,Words\n2024-02-01,1.010,hay\n2024-02-01,1.010,hay\n2024-02-02,,\n";
    const std::string map = "Date=date,SG=gravity,Words=words";
    const auto shown = bring(bytes, map, Booking::what_if);
    ASSERT_TRUE(shown);
    EXPECT_FALSE(shown->booked);
    EXPECT_EQ(shown->readings, 1);
    EXPECT_EQ(shown->already, 2);  // the same row twice
    EXPECT_EQ(shown->passed_over, 1);
    EXPECT_EQ(brought().size(), 0U);
    ASSERT_TRUE(bring(bytes, map)->booked);
    const auto again = bring(bytes + "2024-02-03,1.009,\n", map);
    ASSERT_TRUE(again);
    EXPECT_EQ(again->already, 4);
    EXPECT_EQ(again->readings, 1);
    EXPECT_EQ(brought().size(), 3U);
}

TEST_F(SheetIntoABook, SamplesThatTheVesselDoesNotHoldAreRefusedWithTheirLine) {
    const auto view =
        bring("Date,SG,Sample\n2024-02-01,1.010,30 L\n2024-02-02,1.010,30 L\n", "Date=date,SG=gravity,Sample=sample");
    ASSERT_FALSE(view);
    EXPECT_EQ(view.error().kind, ErrorKind::impossible);
    EXPECT_EQ(view.error().where, "sheet.csv line 3");
    EXPECT_EQ(brought().size(), 0U);
}

}  // namespace
}  // namespace undercroft::app

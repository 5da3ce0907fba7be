// Malformed tables: each is refused with the place and with what was expected.
#include "tables/csv.hpp"

#include <gtest/gtest.h>

#include <string>

namespace undercroft::tables {
namespace {

CsvTable table_of(std::string_view bytes) {
    auto table = CsvTable::parse(bytes, "spice.csv");
    EXPECT_TRUE(table.has_value());
    return table ? std::move(*table) : CsvTable();
}

Error error_of(std::string_view bytes) {
    auto table = CsvTable::parse(bytes, "spice.csv");
    EXPECT_FALSE(table.has_value());
    return table ? Error{} : table.error();
}

TEST(Csv, ACellInQuotesMayHoldCommasLineEndsAndDoubledQuotes) {
    // RFC 4180 section 2, points 5 to 7.
    const CsvTable table = table_of("id,text\r\na,\"one, \"\"two\"\"\r\nthree\"\r\nb,plain\r\n");
    ASSERT_EQ(table.size(), 2U);
    EXPECT_EQ(*table.row(0).text("text"), "one, \"two\"\r\nthree");
    EXPECT_EQ(table.row(0).line(), 2);
    EXPECT_EQ(*table.row(1).text("text"), "plain");
    EXPECT_EQ(table.row(1).line(), 4);
}

TEST(Csv, TheLastLineMayLackItsEndAndTheFirstMayHaveAByteOrderMark) {
    const CsvTable table = table_of("\xEF\xBB\xBFid,dose\nclove,0.05");
    ASSERT_EQ(table.size(), 1U);
    EXPECT_EQ(*table.row(0).id("id"), "clove");
    EXPECT_EQ(*table.row(0).number("dose", {0.0, 1.0}), 0.05);
}

TEST(Csv, AnEmptyCellAtTheEndOfALineIsACell) {
    const CsvTable table = table_of("id,limit\nclove,\nnutmeg,");
    ASSERT_EQ(table.size(), 2U);
    EXPECT_EQ(*table.row(0).number_or_empty("limit", {0.0, 1.0}), std::nullopt);
    EXPECT_EQ(*table.row(1).number_or_empty("limit", {0.0, 1.0}), std::nullopt);
}

TEST(Csv, AnEmptyFileIsRefused) {
    const Error error = error_of("");
    EXPECT_EQ(error.where, "spice.csv");
    EXPECT_NE(error.what.find("expected a header"), std::string::npos);
}

TEST(Csv, ARowWithTooFewOrTooManyCellsIsRefusedByItsLine) {
    EXPECT_EQ(error_of("id,dose\nclove,1\nnutmeg\n").where, "spice.csv line 3, column 1");
    EXPECT_EQ(error_of("id,dose\nclove,1,2\n").where, "spice.csv line 2, column 3");
    EXPECT_NE(error_of("id,dose\nclove,1,2\n").what.find("expected 2"), std::string::npos);
    EXPECT_EQ(error_of("id,dose\n\nclove,1\n").where, "spice.csv line 2, column 1");
}

TEST(Csv, AQuoteThatIsNeverClosedIsRefused) {
    const Error error = error_of("id,text\na,\"open\nb,c\n");
    EXPECT_EQ(error.where, "spice.csv line 4, column 2");
    EXPECT_NE(error.what.find("never closed"), std::string::npos);
}

TEST(Csv, AQuoteInsideABareCellAndTextAfterAClosingQuoteAreRefused) {
    EXPECT_EQ(error_of("id,text\na,12\" oak\n").where, "spice.csv line 2, column 2");
    EXPECT_EQ(error_of("id,text\n\"a\"b,c\n").where, "spice.csv line 2, column 1");
}

TEST(Csv, TwoColumnsOfOneNameAreRefused) {
    EXPECT_EQ(error_of("id,dose,dose\n").where, "spice.csv line 1, column 3");
    EXPECT_EQ(error_of("id,,dose\n").where, "spice.csv line 1, column 2");
}

TEST(Csv, ANumberOutsideItsRangeNamesLineColumnValueAndRange) {
    const CsvTable table = table_of("id,share\nclove,1.5\n");
    const auto share = table.row(0).number("share", {0.0, 1.0});
    ASSERT_FALSE(share.has_value());
    EXPECT_EQ(share.error().kind, ErrorKind::bad_input);
    EXPECT_EQ(share.error().where, "spice.csv line 2, column share");
    EXPECT_EQ(share.error().what, "\"1.5\": expected a number from 0 to 1.");
}

TEST(Csv, WhatIsNotWhollyANumberIsNotReadAsOne) {
    const CsvTable table = table_of("id,dose\na,1 g\nb,nan\nc,inf\nd,1e999\ne, 2\nf,\"1,5\"\ng,0x10\n");
    for (std::size_t i = 0; i < table.size(); ++i) {
        EXPECT_FALSE(table.row(i).number_or_empty("dose", {0.0, 1000.0}).has_value()) << "row " << i;
    }
}

TEST(Csv, ANeededCellMayNotBeEmpty) {
    const CsvTable table = table_of("id,dose,source\n,,\n");
    EXPECT_FALSE(table.row(0).text("source").has_value());
    EXPECT_FALSE(table.row(0).number("dose", {0.0, 1.0}).has_value());
    EXPECT_FALSE(table.row(0).id("id").has_value());
}

TEST(Csv, AnIdHoldsLowerCaseLettersDigitsAndUnderscores) {
    const CsvTable table = table_of("id\nstar anise\nStar\n1star\nstar_anise2\n");
    EXPECT_FALSE(table.row(0).id("id").has_value());
    EXPECT_FALSE(table.row(1).id("id").has_value());
    EXPECT_FALSE(table.row(2).id("id").has_value());
    EXPECT_EQ(*table.row(3).id("id"), "star_anise2");
}

TEST(Csv, AListRefusesAnEmptyItem) {
    const CsvTable table = table_of("id,toxins\na,K1; K2 ;K28\nb,\nc,K1;;K2\n");
    EXPECT_EQ(*table.row(0).list("toxins", ';'), (std::vector<std::string>{"K1", "K2", "K28"}));
    EXPECT_TRUE(table.row(1).list("toxins", ';')->empty());
    EXPECT_FALSE(table.row(2).list("toxins", ';').has_value());
}

TEST(Csv, AWordOutsideItsListNamesThoseThatAreAccepted) {
    const CsvTable table = table_of("id,unit\na,m\n");
    const auto unit = table.row(0).word<int>("unit", {{"h", 1}, {"d", 2}});
    ASSERT_FALSE(unit.has_value());
    EXPECT_EQ(unit.error().what, "\"m\": expected one of \"h\", \"d\".");
}

TEST(Csv, AMissingColumnIsNamed) {
    const CsvTable table = table_of("id\na\n");
    const auto dose = table.row(0).number("dose", {0.0, 1.0});
    ASSERT_FALSE(dose.has_value());
    EXPECT_NE(dose.error().what.find("\"dose\""), std::string::npos);
}

}  // namespace
}  // namespace undercroft::tables

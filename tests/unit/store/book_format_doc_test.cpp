// docs/book-format.md is all that somebody has in twenty years: it must say everything, and its recipe must work.
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "store/digest.hpp"
#include "store/entry_codec.hpp"
#include "tests/unit/store/book_fixture.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using namespace ledger;
using testing::RawDatabase;

std::string page() {
    return testing::bytes_of_file(std::string(UNDERCROFT_SOURCE_DIR) + "/docs/book-format.md");
}

bool says(const std::string& word) {
    return page().find("`" + word + "`") != std::string::npos;
}

class BookFormatPage : public testing::BookTest {
protected:
    void SetUp() override {
        BookTest::SetUp();
        const auto book = begin_book();
        const auto entries = testing::full_entry_of_every_kind();
        ASSERT_TRUE(book->append({entries[0].key.sitting, entries, {testing::person("Ines")}}, entries[0].recorded, 0));
        m_head = book->chain_head().value();
    }

    // Runs the shell recipe of the page on the book, as it stands there.
    std::string run_recipe() {
        std::smatch recipe;
        const std::string text = page();
        if (!std::regex_search(text, recipe, std::regex("```sh\n([^`]*)```"))) return "no recipe in the page";
        std::filesystem::copy_file(book_path(), path("book.db"), std::filesystem::copy_options::overwrite_existing);
        std::ofstream{path("recipe.sh")} << recipe[1];
        const std::string command = "cd '" + path("") + "' && sh recipe.sh > said 2>&1";
        if (std::system(command.c_str()) != 0) return "the recipe failed: " + testing::bytes_of_file(path("said"));
        return testing::bytes_of_file(path("said"));
    }

    // The same of the second recipe, on an export; `from` is replaced in it first.
    std::string run_export_recipe(const std::string& from = "", const std::string& to = "") {
        const std::string text = page();
        const auto begin = text.find("```sh\n", text.find("## The export"));
        const auto end = text.find("```", begin + 6);
        if (begin == std::string::npos || end == std::string::npos) return "no recipe in the page";
        std::ostringstream lines;
        if (!open_book(book_path(), Access::read).value()->export_to(lines)) return "no export";
        std::string exported = lines.str();
        if (!from.empty()) exported.replace(exported.find(from), from.size(), to);
        std::ofstream{path("export.jsonl")} << exported;
        std::ofstream{path("recipe.sh")} << text.substr(begin + 6, end - begin - 6);
        const std::string command = "cd '" + path("") + "' && sh recipe.sh > said 2>&1";
        if (std::system(command.c_str()) != 0) return "the recipe failed: " + testing::bytes_of_file(path("said"));
        return testing::bytes_of_file(path("said"));
    }

    std::string m_head;
};

TEST_F(BookFormatPage, NamesEveryFieldOfEveryEntry) {
    std::set<std::string> names;
    for (const Entry& entry : testing::full_entry_of_every_kind()) {
        EXPECT_TRUE(page().find("**`" + kind_word(entry.body) + "`**") != std::string::npos) << kind_word(entry.body);
        const std::string text = encode(entry).value();
        const std::regex field("\"([a-z0-9_]+)\":");
        for (std::sregex_iterator it(text.begin(), text.end(), field), end; it != end; ++it) names.insert((*it)[1]);
    }
    // Members of maps, named by the keeper.
    names.erase("sour");
    names.erase("alcohol");
    EXPECT_GT(names.size(), 80U);
    for (const std::string& name : names) EXPECT_TRUE(says(name)) << name;
    for (const char* fact : {"id", "name", "zone", "gallons", "invented", "begun_ms", "format"})
        EXPECT_TRUE(says(fact)) << fact;
}

TEST_F(BookFormatPage, NamesEveryWordAnEntryCanHold) {
    const auto all_said = [](auto first, auto last) {
        using E = decltype(first);
        for (int value = static_cast<int>(first); value <= static_cast<int>(last); ++value)
            EXPECT_TRUE(says(word(static_cast<E>(value)))) << word(static_cast<E>(value));
    };
    all_said(VesselRole::solera, VesselRole::serving);
    all_said(LotKind::beer, LotKind::unknown);
    all_said(Reason::fill, Reason::serve);
    all_said(LossCause::sample, LossCause::unknown);
    all_said(AdditionKind::fruit, AdditionKind::other);
    all_said(KillerPhenotype::sensitive, KillerPhenotype::not_applicable);
    all_said(ToxinType::none, ToxinType::unknown);
    all_said(Diastatic::no, Diastatic::unknown);
    all_said(TakeCause::opened, TakeCause::returned);
    all_said(SnapshotKind::label, SnapshotKind::verdict);
    all_said(Recurring::reading, Recurring::top_up);
    all_said(Quantity::gravity, Quantity::weight);
    all_said(VesselShape::upright, VesselShape::table);
    all_said(FoundBy::dip, FoundBy::count);
}

TEST_F(BookFormatPage, NamesEveryTableAndColumn) {
    RawDatabase raw{book_path()};
    for (const char* table : {"book", "entry", "person"}) {
        EXPECT_NE(page().find("**" + std::string(table) + "**"), std::string::npos) << table;
        for (int column = 0;; ++column) {
            const std::string name = raw.text("SELECT name FROM pragma_table_info('" + std::string(table) +
                                              "') WHERE cid = " + std::to_string(column));
            if (name.empty()) break;
            EXPECT_TRUE(says(name)) << table << "." << name;
        }
    }
}

TEST_F(BookFormatPage, ItsExampleIsAnEntry) {
    std::smatch example;
    const std::string text = page();
    ASSERT_TRUE(std::regex_search(text, example, std::regex("\n    (\\{\"at_ms\"[^\n]*(\n    [^\n]+)*)")));
    const std::string one_line = std::regex_replace(example[1].str(), std::regex("\n    "), "");
    const auto entry = decode_entry(one_line);
    ASSERT_TRUE(entry) << entry.error().what << one_line;
    EXPECT_TRUE(std::holds_alternative<Loss>(entry->body));
}

TEST_F(BookFormatPage, ItsRecipeProvesABookWithoutTheProgram) {
    if (std::system("command -v sqlite3 b2sum > /dev/null 2>&1") != 0) GTEST_SKIP() << "no sqlite3 or b2sum here";
    EXPECT_EQ(run_recipe(),
              "whole: " + std::to_string(testing::kinds_of_entries()) + " entries, head " + m_head + "\n");
}

TEST_F(BookFormatPage, ItsRecipeFindsAChangedByteWithoutTheProgram) {
    if (std::system("command -v sqlite3 b2sum > /dev/null 2>&1") != 0) GTEST_SKIP() << "no sqlite3 or b2sum here";
    {
        RawDatabase raw{book_path()};
        raw.drop_triggers();
        ASSERT_EQ(
            raw.execute("UPDATE entry SET canonical = replace(canonical, 'bright', 'bricht') WHERE sequence = 10"), "");
    }
    EXPECT_EQ(run_recipe(), "broken at entry 10\n");
}

TEST_F(BookFormatPage, ItsRecipeForAnExportProvesItAndFindsAChangedByte) {
    if (std::system("command -v b2sum perl > /dev/null 2>&1") != 0) GTEST_SKIP() << "no b2sum or perl here";
    EXPECT_EQ(run_export_recipe(), "whole: 25 entries, head " + m_head + "\n");
    EXPECT_EQ(run_export_recipe("bright", "bricht"), "broken at entry 10\n");
    EXPECT_EQ(run_export_recipe("Kiln Lane", "Kiln Lame"), "broken at entry 0\n");
}

}  // namespace
}  // namespace undercroft::store

// From a book to paper: tags, the card for dregs, a recall, the letter of a year.
#include "paper/print.hpp"

#include <gtest/gtest.h>

#include <string>

#include "paper/book_pages.hpp"
#include "tests/support/test_book.hpp"
#include "tests/unit/paper/read_back.hpp"

namespace undercroft::paper {
namespace {

using testing::in_one_line;
using testing::ReadBack;

class Paper : public ::testing::Test {
protected:
    testing::TestBook book;
    std::string exported = "a line of an export\n";

    void SetUp() override {
        app::RegisterVessel vessel;
        vessel.name = "Old Stone";
        vessel.capacity = "60 L";
        vessel.role = "solera";
        vessel.tag = "S";
        vessel.location = "north vault";
        app::EnterLot lot;
        lot.vessel = "Old Stone";
        lot.name = "Spring wort";
        lot.volume = "40 L";
        lot.original_gravity = "1.048";
        lot.gravity = "1.004";
        lot.cultures = {"mixed_sour"};
        book.must({vessel, lot}, "2025-01-02");
        app::PackageRun package;
        package.from = "Old Stone";
        package.container = "bottle_330_heavy";
        package.count = "12";
        package.run = "OLD-1";
        package.location = "rack 1";
        package.acknowledge = "a test";
        app::TakeBottles give;
        give.run = "OLD-1";
        give.count = "3";
        give.cause = "given";
        give.person = "Ines";
        book.must({package}, "2025-08-01");
        book.must({give}, "2025-10-01");
    }
    Result<Printed> print_it(PrintRequest request) {
        return print(*book, request, [this]() -> Result<std::string> { return exported; });
    }
    std::string text_of(PrintRequest request) {
        const auto printed = print_it(std::move(request));
        if (!printed) return "refused: " + printed.error().what;
        return in_one_line(ReadBack(printed->pdf).text());
    }
    static void says(const std::string& text, std::initializer_list<const char*> parts) {
        for (const char* part : parts) EXPECT_NE(text.find(part), std::string::npos) << part << " is not in: " << text;
    }
};

TEST_F(Paper, LabelsAreAsManyAsAreOnHandAndSendToLocalRules) {
    const Printed printed = print_it({.what = "labels", .subject = "OLD-1"}).value();
    EXPECT_NE(printed.view.words.find("9 labels of OLD-1"), std::string::npos) << printed.view.words;
    ASSERT_FALSE(printed.view.cautions.empty());
    EXPECT_NE(printed.view.cautions[0].words.find("local rules"), std::string::npos);
}

TEST_F(Paper, ATagShowsTheLetterTheNameAndACode) {
    const Printed printed = print_it({.what = "tags", .subject = "", .vessels = {"Old Stone"}}).value();
    const ReadBack paper(printed.pdf);
    says(paper.text(), {"S", "Old Stone", "solera", "north vault"});
    EXPECT_EQ(paper.codes().substr(0, 9), "Old Stone");
}

TEST_F(Paper, ACardForDregsTellsWhatLivesAndWhatToMind) {
    says(text_of({.what = "card", .subject = "OLD-1"}),
         {"Dregs of OLD-1", "Mixed sour", "To share", "To pitch", "try dregs in a spare jar"});
}

TEST_F(Paper, ARecallListsEveryPersonToTickOff) {
    says(text_of({.what = "recall", .subject = "Spring wort"}),
         {"Recall of Spring wort", "Ines", "OLD-1", "9 of 12", "rack 1", "Old Stone", "Hold back every container"});
}

TEST_F(Paper, TheLetterTellsEveryVesselsYearAndHoldsTheBook) {
    const Printed printed = print_it({.what = "letter", .subject = "", .year = "2025"}).value();
    const ReadBack paper(printed.pdf);
    says(in_one_line(paper.text()), {"the letter of 2025", "Old Stone", "Spring wort", "Who lives there", "Its year",
                                     "2025-08-01", "OLD-1", "Bottles under gas can burst", "from-pages"});
    EXPECT_EQ(paper.pages(), printed.view.pages);
    EXPECT_EQ(export_of(paper.code_lines()).value(), exported);
    EXPECT_EQ(paper.text().find("2026-03-14"), std::string::npos) << "as it stood at the end of that year";
}

TEST_F(Paper, AreA4OrLetter) {
    const auto size = [&](const char* page) {
        return ReadBack(print_it({.what = "recall", .subject = "Spring wort", .paper = page})->pdf).page_size();
    };
    EXPECT_NE(size("A4").find("A4"), std::string::npos);
    EXPECT_NE(size("letter").find("612 x 792"), std::string::npos);
    EXPECT_EQ(print_it({.what = "pages", .subject = "", .paper = "A0"}).error().where, "paper");
}

TEST_F(Paper, RefusesWhatIsNotThere) {
    EXPECT_EQ(print_it({.what = "labels", .subject = "NONE-1"}).error().kind, ErrorKind::not_found);
    EXPECT_EQ(print_it({.what = "labels", .subject = ""}).error().where, "run");
    EXPECT_EQ(print_it({.what = "tags", .subject = "", .vessels = {"OLD-1"}}).error().where, "vessel");
    EXPECT_EQ(print_it({.what = "letter", .subject = "", .year = "2027"}).error().where, "year");
    EXPECT_EQ(print_it({.what = "letter", .subject = "", .year = "last"}).error().where, "year");
    EXPECT_EQ(print_it({.what = "poster", .subject = ""}).error().where, "what");
}

}  // namespace
}  // namespace undercroft::paper

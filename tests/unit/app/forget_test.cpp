// Forgetting, pictures, and books of a newer program.
#include <algorithm>

#include <gtest/gtest.h>

#include "app/forget.hpp"
#include "tests/support/test_book.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

TEST(NameInWords, IsFoundAsAWholeWordOnly) {
    EXPECT_TRUE(holds_name("Ines found it thin", "Ines"));
    EXPECT_TRUE(holds_name("so INES said", "Ines"));
    EXPECT_TRUE(holds_name("(Ines)", "Ines"));
    EXPECT_TRUE(holds_name("Inesita, then Ines", "Ines"));
    EXPECT_FALSE(holds_name("Inesita", "Ines"));
    EXPECT_FALSE(holds_name("Inesä", "Ines")) << "a letter of another alphabet goes on with the word";
    EXPECT_FALSE(holds_name("", "Ines"));
    EXPECT_FALSE(holds_name("anything", ""));
}

class PictureOfTheCellar : public ::testing::Test {
protected:
    TestBook book;
    const std::string m_png = "\x89PNG\r\n\x1a\n the airlock";

    static SittingRequest with(const std::string& bytes, const std::string& key = "") {
        SittingRequest request;
        request.key = key;
        request.acts = {WriteNote{.subject = {}, .words = "look", .picture_file = "airlock.png", .picture = bytes}};
        return request;
    }
};

TEST_F(PictureOfTheCellar, SentTwiceIsBookedOnceAlthoughItsSaltIsDrawnAnew) {
    const auto shown = book->preview(with(m_png));
    ASSERT_TRUE(shown) << shown.error().what;
    ASSERT_TRUE(book->book(with(m_png, shown->key)));
    const auto again = book->book(with(m_png, shown->key));
    ASSERT_TRUE(again) << again.error().what;
    EXPECT_TRUE(again->already);
    const auto other = book->book(with(m_png + "!", shown->key));
    ASSERT_FALSE(other);
    EXPECT_EQ(other.error().kind, ErrorKind::stale);
    EXPECT_EQ(book->picture("last")->bytes, m_png);
}

TEST_F(PictureOfTheCellar, IsGoneOnceForgottenAndCanStillBeSentAgainHarmlessly) {
    const auto shown = book->preview(with(m_png));
    ASSERT_TRUE(book->book(with(m_png, shown->key)));
    EXPECT_FALSE(book->forget_picture("last", true)->forgotten);
    EXPECT_EQ(book->picture("last")->bytes, m_png);
    EXPECT_TRUE(book->forget_picture("last", false)->forgotten);
    const auto gone = book->picture("last");
    ASSERT_FALSE(gone);
    EXPECT_EQ(gone.error().kind, ErrorKind::not_found);
    EXPECT_TRUE(book->book(with(m_png, shown->key))->already);
    EXPECT_FALSE(book->picture("last")) << "sending it again does not bring it back";
}

TEST_F(PictureOfTheCellar, IsRefusedWhenItIsNone) {
    for (const std::string& bytes : {std::string("GIF89a"), std::string(), m_png + std::string(8 << 20, 'x')}) {
        const auto refused = book->book(with(bytes));
        ASSERT_FALSE(refused);
        EXPECT_EQ(refused.error().kind, ErrorKind::bad_input);
        EXPECT_NE(refused.error().what.find("airlock.png"), std::string::npos);
    }
}

TEST(ForgottenPerson, IsGoneFromEveryAnswerAtOnce) {
    TestBook book;
    SittingRequest request;
    request.by = "Ines Kestrel";
    request.acts = {WriteNote{"", "Ines Kestrel was here"}};
    ASSERT_TRUE(book->book(request));
    EXPECT_FALSE(book->forget_person("ines kestrel", false)) << "the exact name";
    const auto view = book->forget_person("Ines Kestrel", false);
    ASSERT_TRUE(view) << view.error().what;
    EXPECT_EQ(view->entries, 1);
    ASSERT_EQ(view->mentions.size(), 1U) << "words are part of the chain and stay";
    const auto entries = book->entries({.most = 10});
    ASSERT_TRUE(entries);
    EXPECT_EQ(entries->entries[0].by, "a forgotten person");
}

// A newer program wrote entries of a kind unknown here.
class NewerBook : public ::testing::Test {
protected:
    WrittenBook written;
    std::vector<ledger::Entry> entries() const { return written.entries(); }
    static ledger::Unknown serenade() { return {"serenade", "{}"}; }
};

TEST_F(NewerBook, SaysOnEveryAnswerHowMuchItLeavesOutAndSinceWhen) {
    const auto amber = written.vessel(on_day(0), "Amber", 60);
    written.lot(on_day(1), amber, "Brew", 50);
    written.write(on_day(40), serenade());
    written.write(on_day(20), serenade());
    ledger::MemoryJournal journal{invented_facts(), entries()};
    TestBook book{journal};
    const auto expect_said = [](const BookLine& line) {
        EXPECT_TRUE(line.read_only);
        EXPECT_EQ(line.skipped, 2);
        EXPECT_EQ(line.skipped_since, "2020-01-21");
        EXPECT_EQ(line.answers_until, "");
    };
    expect_said(book->cellar({})->book);
    expect_said(book->show("Amber", {})->book);
    expect_said(book->entries({.most = 10})->book);
    expect_said(book->trace_back("Amber", {})->book);
    expect_said(book->trace_forward("Brew", {})->book);
    expect_said(book->findings()->book);
    expect_said(book->check()->book);
    expect_said(book.preview({WriteNote{"", "what if"}})->book);
    EXPECT_EQ(book.held("Amber"), litres(50));
    const auto refused = book.book({WriteNote{"", "no"}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::read_only);
    EXPECT_EQ(book->forget_person("Ines", false).error().kind, ErrorKind::not_found);
}

TEST_F(NewerBook, AnswersUpToWhereItNoLongerFitsTogetherWithoutThem) {
    const auto amber = written.vessel(on_day(0), "Amber", 60);
    written.lot(on_day(1), amber, "Brew", 10);
    written.write(on_day(20), serenade());  // which brought what is taken now
    written.loss(on_day(30), amber, 30);
    written.loss(on_day(50), amber, 1);
    ledger::MemoryJournal journal{invented_facts(), entries()};
    TestBook book{journal};
    const auto cellar = book->cellar({});
    ASSERT_TRUE(cellar) << cellar.error().what;
    EXPECT_EQ(cellar->book.answers_until, "2020-01-31");
    EXPECT_EQ(cellar->on, "2020-01-31");
    EXPECT_EQ(book.held("Amber"), litres(10));
    const auto earlier = book->cellar({"2020-01-10", ""});
    ASSERT_TRUE(earlier);
    EXPECT_EQ(earlier->book.answers_until, "") << "nothing of it lies before that day";
    const auto check = book->check();
    ASSERT_TRUE(check);
    EXPECT_TRUE(check->ok()) << "what cannot be proved is no damage";
    const auto volumes = std::find_if(check->findings.begin(), check->findings.end(),
                                      [](const auto& finding) { return finding.check == "volumes"; });
    ASSERT_NE(volumes, check->findings.end());
    EXPECT_NE(volumes->what.find("not proved"), std::string::npos) << volumes->what;
}

}  // namespace
}  // namespace undercroft::testing

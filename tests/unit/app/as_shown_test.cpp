// A sitting that was shown is booked on a book that has moved on only when it still does what was shown.
#include <gtest/gtest.h>

#include <functional>

#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

// A journal that somebody else writes to right before we do, once.
class Overtaken final : public ledger::Journal {
public:
    explicit Overtaken(ledger::Journal& journal) : m_journal(journal) {}
    std::function<void()> others_book = nullptr;

    const ledger::BookFacts& facts() const override { return m_journal.facts(); }
    bool read_only() const override { return m_journal.read_only(); }
    Result<std::vector<ledger::Entry>> entries() override { return m_journal.entries(); }
    Result<std::vector<ledger::Person>> persons() override { return m_journal.persons(); }
    Result<std::int64_t> last_sequence() override { return m_journal.last_sequence(); }
    Result<ledger::Booked> append(const ledger::Sitting& sitting, Instant recorded, std::int64_t expected) override {
        if (others_book) std::exchange(others_book, nullptr)();
        return m_journal.append(sitting, recorded, expected);
    }
    Result<std::optional<ledger::Picture>> picture(const std::string& one) override { return m_journal.picture(one); }
    Result<void> forget(const std::string& one) override { return m_journal.forget(one); }
    Result<void> forget_picture(const std::string& one) override { return m_journal.forget_picture(one); }

private:
    ledger::Journal& m_journal;
};

// Two devices over one book: the cellar's, and a phone that looked earlier.
class APhoneInTheCellar : public ::testing::Test {
protected:
    ledger::MemoryJournal journal{invented_facts()};
    Overtaken own_way{journal};
    TestBook cellar{journal};
    TestBook phone{own_way};

    void SetUp() override {
        cellar.must({vessel("Amber"), vessel("Peat"), vessel("Jar 23"), vessel("Jar 24")}, "2026-01-02");
        cellar.must({lot("Amber", "50 L"), lot("Peat", "40 L")}, "2026-01-03");
        cellar.pass(1);
        phone.pass(5);
    }
    static RegisterVessel vessel(const std::string& name) {
        RegisterVessel act;
        act.name = name;
        act.capacity = "60 L";
        return act;
    }
    static EnterLot lot(const std::string& into, const std::string& volume) {
        EnterLot act;
        act.vessel = into;
        act.name = "Wort of " + into;
        act.volume = volume;
        act.original_gravity = "1.048";
        act.gravity = "1.010";
        return act;
    }
    static Act pull(const std::string& from, const std::string& volume, const std::string& into = "Jar 23") {
        MoveLiquid act;
        act.reason = ledger::Reason::pull;
        act.from = from;
        act.to = {{into, volume}};
        return act;
    }
    static Act pitch(const std::string& into, bool suspected) {
        PitchCulture act;
        act.vessel = into;
        act.kind = "wild_unknown";
        act.name = "Stranger";
        act.suspected = suspected;
        return act;
    }
    static Act note(const std::string& words) { return WriteNote{"", words, {}, {}}; }

    SittingRequest sitting(std::vector<Act> acts) {
        SittingRequest request;
        request.key = "0190f3c8-0000-7000-8000-00000000000" + std::to_string(++m_keys);
        request.acts = std::move(acts);
        return request;
    }
    Expected shown(const SittingRequest& request) {
        const auto view = phone->preview(request);
        if (!view) ADD_FAILURE() << view.error().what;
        return view ? Expected{view->book.sequence, view->touched} : Expected{};
    }
    std::int64_t entries() { return *journal.last_sequence(); }
    // Books what was shown; the stale outcome is looked at by the test.
    AsShown agree(const SittingRequest& request, const Expected& expected) {
        auto outcome = phone->book_as_shown(request, expected);
        if (outcome) return *std::move(outcome);
        ADD_FAILURE() << outcome.error().where << ": " << outcome.error().what;
        return {};
    }

private:
    int m_keys = 0;
};

TEST_F(APhoneInTheCellar, BooksWhatItShowedOnTheBookItShowed) {
    const SittingRequest request = sitting({pull("Amber", "a third")});
    const Expected expected = shown(request);
    ASSERT_EQ(expected.touched.size(), 2U);
    EXPECT_EQ(expected.touched[0].name, "Amber");
    EXPECT_EQ(expected.touched[0].number, 1);
    EXPECT_EQ(expected.touched[0].held, Volume::from_litres(50));
    EXPECT_EQ(expected.touched[0].volume.ul(), 33'333'334);
    EXPECT_EQ(expected.touched[1].held, Volume{});
    const AsShown outcome = agree(request, expected);
    EXPECT_FALSE(outcome.stale);
    EXPECT_TRUE(outcome.sitting.booked);
}

TEST_F(APhoneInTheCellar, BooksWhenOnlyAnotherVesselMovedOn) {
    const SittingRequest request = sitting({pull("Amber", "10 L")});
    const Expected expected = shown(request);
    cellar.must({pull("Peat", "5 L", "Jar 24"), note("the door sticks")});
    const std::int64_t before = entries();
    const AsShown outcome = agree(request, expected);
    EXPECT_FALSE(outcome.stale);
    EXPECT_TRUE(outcome.sitting.booked);
    EXPECT_EQ(entries(), before + 1);
}

TEST_F(APhoneInTheCellar, BooksNothingWhenAVolumeChanged) {
    const SittingRequest request = sitting({pull("Amber", "10 L")});
    const Expected expected = shown(request);
    cellar.must({pull("Amber", "5 L", "Jar 24")});
    const std::int64_t before = entries();
    const AsShown outcome = agree(request, expected);
    ASSERT_TRUE(outcome.stale);
    EXPECT_EQ(outcome.stale->kind, ErrorKind::stale);
    EXPECT_FALSE(outcome.sitting.booked);
    EXPECT_EQ(entries(), before);
    const Fact before_it = {"Amber, before", "shown 50 L, now 45 L"};
    const Fact after_it = {"Amber, after", "shown 40 L, now 35 L"};
    EXPECT_EQ(outcome.stale->facts.at(0), before_it);
    EXPECT_EQ(outcome.stale->facts.at(1), after_it);
    // What it would do now is shown, and can be agreed to.
    EXPECT_EQ(outcome.sitting.touched[0].volume, Volume::from_litres(35));
    EXPECT_TRUE(agree(request, {outcome.sitting.book.sequence, outcome.sitting.touched}).sitting.booked);
}

TEST_F(APhoneInTheCellar, BooksNothingWhenOnlyWhatItTakesAllOfChanged) {
    // "All of it" leaves the vessel empty either way: what left it tells.
    const SittingRequest request = sitting({pull("Amber", "all")});
    const Expected expected = shown(request);
    cellar.must({pull("Amber", "5 L", "Jar 24")});
    EXPECT_TRUE(agree(request, expected).stale);
}

TEST_F(APhoneInTheCellar, BooksNothingWhenACertaintyChanged) {
    const SittingRequest request = sitting({pull("Amber", "10 L")});
    Expected expected = shown(request);
    cellar.must({pitch("Amber", true)});
    AsShown outcome = agree(request, expected);
    ASSERT_TRUE(outcome.stale);
    const Fact stranger = {"Amber, cultures", "shown none, now Stranger (possible)"};
    EXPECT_EQ(outcome.stale->facts.at(0), stranger);
    expected = {outcome.sitting.book.sequence, outcome.sitting.touched};
    // The same culture, surer of it.
    cellar.must({pitch("Amber", false)});
    outcome = agree(request, expected);
    EXPECT_TRUE(outcome.stale);
}

TEST_F(APhoneInTheCellar, FindsTheVesselItMadeItselfByItsName) {
    const SittingRequest request = sitting({vessel("Jar 25"), pull("Amber", "10 L", "Jar 25")});
    const Expected expected = shown(request);
    cellar.must({note("the door sticks")});
    EXPECT_TRUE(agree(request, expected).sitting.booked);
}

TEST_F(APhoneInTheCellar, MayBeToldAVesselIsNoLongerThere) {
    const SittingRequest request = sitting({pull("Amber", "10 L")});
    const Expected expected = shown(request);
    cellar.must({RetireVessel{"Jar 23"}});
    const auto outcome = phone->book_as_shown(request, expected);
    ASSERT_FALSE(outcome);
    EXPECT_EQ(outcome.error().kind, ErrorKind::not_found);
}

TEST_F(APhoneInTheCellar, IsAnsweredAsBookedHoweverTheBookMovedOn) {
    const SittingRequest request = sitting({pull("Amber", "10 L")});
    const Expected expected = shown(request);
    EXPECT_FALSE(agree(request, expected).sitting.already);
    cellar.must({pull("Amber", "5 L", "Jar 24")});
    const std::int64_t before = entries();
    const AsShown again = agree(request, expected);
    EXPECT_FALSE(again.stale);
    EXPECT_TRUE(again.sitting.already);
    EXPECT_TRUE(again.sitting.booked);
    EXPECT_EQ(entries(), before);
    SittingRequest other = request;
    other.acts = {pull("Amber", "11 L")};
    const auto refused = phone->book_as_shown(other, expected);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::stale);
    EXPECT_EQ(refused.error().where, "key");
}

TEST_F(APhoneInTheCellar, JudgesWhatComesBetweenItsLookAndItsBooking) {
    const SittingRequest request = sitting({pull("Amber", "10 L")});
    const Expected expected = shown(request);
    own_way.others_book = [&] { cellar.must({note("quicker")}); };
    EXPECT_TRUE(agree(request, expected).sitting.booked);
    const SittingRequest second = sitting({pull("Amber", "10 L")});
    const Expected of_second = shown(second);
    own_way.others_book = [&] { cellar.must({pull("Amber", "1 L", "Jar 24")}); };
    EXPECT_TRUE(agree(second, of_second).stale);
}

TEST_F(APhoneInTheCellar, TakesTheCulturesOfWhatWasShownInAnyOrder) {
    cellar.must({pitch("Amber", false)});
    PitchCulture house;
    house.vessel = "Amber";
    house.kind = "mixed sour culture";
    house.name = "House culture";
    cellar.must({house});
    const SittingRequest request = sitting({pull("Amber", "10 L")});
    Expected expected = shown(request);
    ASSERT_EQ(expected.touched[0].cultures.size(), 2U);
    std::swap(expected.touched[0].cultures[0], expected.touched[0].cultures[1]);
    cellar.must({note("the door sticks")});
    EXPECT_FALSE(agree(request, expected).stale);
}

}  // namespace
}  // namespace undercroft::testing

// Blends as a keeper asks for them: what wishes mean, which stocks of a book can serve, what is refused.
#include "app/blending.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/reference_tables.hpp"
#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

TEST(Wishes, AreReadAsTheyAreSaid) {
    const auto range = [](const std::string& text) { return read_wish(text, false, reference_tables()).value().range; };
    EXPECT_DOUBLE_EQ(*range("ph 3.4 to 3.5").low, 3.4);
    EXPECT_DOUBLE_EQ(*range("ph 3.4 to 3.5").high, 3.5);
    EXPECT_DOUBLE_EQ(*range("ta at most 7 g/L").high, 7.0);
    EXPECT_FALSE(range("ta at most 7 g/L").low);
    EXPECT_DOUBLE_EQ(*range("sour at least 4").low, 4.0);
    EXPECT_DOUBLE_EQ(*range("acidity 6").low, 5.75) << "about 6: half a step to either side";
}

TEST(Wishes, WithoutAFigureOrANameAreRefused) {
    for (const char* text : {"", "ph", "3.4 ph", "ph about right", "ph 3.4 to", "ph at 3.4 most", "ta 6 weight much"}) {
        const auto wish = read_wish(text, false, reference_tables());
        EXPECT_FALSE(wish) << text;
        if (!wish) {
            EXPECT_EQ(wish.error().where, "want") << text;
        }
    }
    const auto wish = read_wish("share of Spring wort at most 20 % weight 3", true, reference_tables()).value();
    EXPECT_EQ(wish.figure, "share of Spring wort");
    EXPECT_DOUBLE_EQ(wish.weight, 3.0);
    EXPECT_TRUE(wish.must);
}

class BlendOfABook : public ::testing::Test {
protected:
    TestBook book;

    void enter(const std::string& name, const std::string& ph, const std::string& ta, const std::string& culture) {
        RegisterVessel vessel;
        vessel.name = name;
        vessel.capacity = "60 L";
        vessel.role = "solera";
        EnterLot lot;
        lot.vessel = name;
        lot.name = name + " wort";
        lot.volume = "40 L";
        lot.original_gravity = "1.048";
        lot.gravity = name == "Sweet" ? "1.012" : "1.004";
        lot.cultures = {culture};
        TakeReading read;
        read.subject = name;
        read.ph = ph;
        read.ta = ta;
        book.must({vessel, lot, read}, "2025-01-02");
    }
    void SetUp() override {
        enter("Sharp", "3.20", "8 g/L", "mixed_sour");
        enter("Soft", "3.90", "3 g/L", "mixed_sour");
        enter("Sweet", "4.20", "2 g/L", "ale_clean");
    }
    static BlendRequest wanting(std::vector<std::string> wants) {
        BlendRequest request;
        request.volume = "20 L";
        request.wants = std::move(wants);
        return request;
    }
    static double litres_of(const BlendRecipe& recipe, const std::string& stock) {
        for (const BlendPart& part : recipe.parts)
            if (part.stock == stock) return part.litres;
        return 0.0;
    }
};

TEST_F(BlendOfABook, MeetsAPhAndWarnsOfWhatFermentsAgain) {
    const BlendView view = book->plan_blend(wanting({"ph 3.45 to 3.55"})).value();
    EXPECT_TRUE(view.proven);
    const BlendRecipe& best = view.recipes.front();
    EXPECT_NEAR(best.litres, 20.0, 1e-9);
    EXPECT_FALSE(best.figures.front().missed);
    EXPECT_GT(best.inside, 0.2);
    BlendRequest sweet = wanting({"ta 5"});
    sweet.without = {"Soft"};
    const BlendView lively = book->plan_blend(sweet).value();
    EXPECT_GT(lively.recipes.front().points, 3.0) << "the sour culture meets the sugar of the clean one";
    EXPECT_NE(lively.recipes.front().ferments.find("let it finish"), std::string::npos);
    EXPECT_TRUE(std::any_of(lively.cautions.begin(), lively.cautions.end(),
                            [](const Caution& one) { return one.id == "blend.gas"; }));
}

TEST_F(BlendOfABook, LeavesOutACultureAndWhatIsYoung) {
    BlendRequest request = wanting({"alcohol 5.5"});
    request.without_culture = "mixed sour";
    const BlendView clean = book->plan_blend(request).value();
    EXPECT_NEAR(litres_of(clean.recipes.front(), "Sweet"), 20.0, 1e-9);
    const auto sharp = std::find_if(clean.stocks.begin(), clean.stocks.end(),
                                    [](const BlendStock& one) { return one.name == "Sharp"; });
    EXPECT_NE(sharp->left_out.find("may live in it"), std::string::npos);
    request = wanting({"alcohol 5.5"});
    request.older_than = "5 years";
    EXPECT_FALSE(book->plan_blend(request));
}

TEST_F(BlendOfABook, DraftsTheMovesThatWouldBookIt) {
    RegisterVessel jar;
    jar.name = "Jar";
    jar.capacity = "25 L";
    jar.role = "finishing";
    book.must({jar}, "2025-01-03");
    BlendRequest request = wanting({"ph 3.5"});
    request.into = "Jar";
    const BlendView view = book->plan_blend(request).value();
    ASSERT_FALSE(view.drafted.acts.empty());
    book.must(view.drafted.acts);
    EXPECT_NEAR(book.held("Jar").in_litres(), 20.0, 1e-6);
}

TEST_F(BlendOfABook, SaysWhichLimitsCannotHoldTogether) {
    BlendRequest request = wanting({});
    request.musts = {"ph at most 3.0", "alcohol at most 8"};
    const auto refused = book->plan_blend(request);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::impossible);
    EXPECT_NE(refused.error().what.find("pH at most 3.00"), std::string::npos) << refused.error().what;
    EXPECT_NE(refused.error().what.find("nearest is 3.2"), std::string::npos) << refused.error().what;
}

TEST_F(BlendOfABook, PoursABenchSheetAndFindsTheSurest) {
    BlendRequest request = wanting({"ph 3.4 to 3.6", "ta 4 to 6"});
    request.recipes = "1";
    request.glass = "100 mL";
    request.neighbours = "5 %";
    request.surest = true;
    const BlendView view = book->plan_blend(request).value();
    EXPECT_GE(view.glasses.size(), 3U);
    ASSERT_EQ(view.recipes.back().name, "surest");
    EXPECT_GE(view.recipes.back().inside, view.recipes.front().inside - 0.03);
}

TEST(BlendSum, TakesTypedStocksAndRefusesWhatIsNone) {
    const tables::Tables& tables = reference_tables();
    BlendRequest request;
    request.stocks = {"Strong, 40 L, alcohol 9", "Weak, 40 L, alcohol 5"};
    request.volume = "20 L";
    request.musts = {"alcohol 5.9 to 6.1"};
    const BlendView view = blend_sum(request, tables, Gallons::unset).value();
    EXPECT_NEAR(view.recipes.front().parts.front().litres, 15.0, 0.6);
    const auto refused = [&](const std::string& stock) {
        request.stocks = {stock};
        const auto answer = blend_sum(request, tables, Gallons::unset);
        return answer ? std::string("answered") : answer.error().where;
    };
    EXPECT_EQ(refused("Strong"), "stock");
    EXPECT_EQ(refused("Strong, 40 L, alcohol"), "stock");
    EXPECT_EQ(refused("Strong, much, alcohol 9"), "stock");
    EXPECT_EQ(refused("Strong, 40 L, culture gremlin"), "culture");
}

}  // namespace
}  // namespace undercroft::testing

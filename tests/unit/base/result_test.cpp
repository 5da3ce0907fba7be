#include "base/result.hpp"

#include <gtest/gtest.h>

#include <memory>

namespace undercroft {
namespace {

Result<int> poured(int litres) {
    if (litres < 0) return fail(ErrorKind::impossible, "volume", "less than nothing", {{"asked", "-1 L"}}, "pour less");
    return litres;
}

Result<void> checked(int litres) {
    TRY_VOID(poured(litres));
    return {};
}

Result<int> poured_twice(int first, int second, int& reached) {
    TRY(const int a, poured(first));
    reached = 1;
    TRY(const int b, poured(second));
    reached = 2;
    TRY_VOID(checked(a + b));
    return a + b;
}

TEST(Try, PassesTheValueOn) {
    int reached = 0;
    EXPECT_EQ(poured_twice(2, 3, reached).value(), 5);
    EXPECT_EQ(reached, 2);
}

TEST(Try, StopsAtTheFirstErrorAndHandsItOnWhole) {
    int reached = 0;
    const auto result = poured_twice(2, -1, reached);
    ASSERT_FALSE(result);
    EXPECT_EQ(reached, 1);
    EXPECT_EQ(result.error(),
              (Error{ErrorKind::impossible, "volume", "less than nothing", {{"asked", "-1 L"}}, "pour less"}));
}

TEST(Try, MovesWhatCannotBeCopied) {
    const auto make = []() -> Result<std::unique_ptr<int>> { return std::make_unique<int>(7); };
    const auto use = [&]() -> Result<int> {
        TRY(const auto held, make());
        return *held;
    };
    EXPECT_EQ(use().value(), 7);
}

}  // namespace
}  // namespace undercroft

// Tasting tests that count answers: is there a difference, is one liked better, and could this test have shown it?
//
// Holds: exact binomials, no normal approximation. Triangle (ISO 4120): the odd one of three, 1 in 3 by guessing;
// duo-trio (ISO 10399): which of two is like the first, 1 in 2; paired (ISO 5495): which of two is more so, or liked
// better, 1 in 2, one-sided where only one answer is expected, two-sided else. Fewer than six answers give no verdict.
// Leaves out: several answers of one taster: as evidence against guessing they count, for what people in general notice
// they do not.
#pragma once

#include <optional>

#include "base/result.hpp"

namespace undercroft::engine::taste {

enum class CountingTest { triangle, duo_trio, paired };
enum class Sides { one, two };  // two: only of a paired test

inline constexpr int k_least_answers = 6;
inline constexpr int k_most_answers = 10'000;

struct CountingQuestion {
    CountingTest test = CountingTest::triangle;
    int answers = 0;
    int right = 0;  // right, or for the one preferred more often
    Sides sides = Sides::one;
    double alpha = 0.05;          // chance of a difference where there is none
    double discriminators = 0.3;  // share of tasters who truly notice, that the test should show
};

enum class CountingVerdict { different, not_shown, too_few };

struct CountingAnswer {
    CountingVerdict verdict = CountingVerdict::too_few;
    double p = 1.0;             // chance of this many or more by guessing alone
    std::optional<int> needed;  // right answers for a verdict at alpha; nullopt: cannot be reached
    double share_right = 0.0;
    // Share of tasters who noticed, beyond guessing, with its exact 90 % interval (Clopper and Pearson 1934); 0 where
    // fewer were right than guess right. Of a paired test two-sided: nullopt.
    std::optional<double> noticed;
    std::optional<double> noticed_low;
    std::optional<double> noticed_high;
    double power = 0.0;                 // chance to show that share of discriminators
    std::optional<int> answers_for_80;  // answers that would show it 80 times of 100; nullopt: above k_most_answers
};

// Fails: bad_input for counts, an alpha or a share that cannot be, and for two sides of a test that has one.
[[nodiscard]] Result<CountingAnswer> counting_test(const CountingQuestion& question);
// Smallest count whose chance by guessing is at most alpha; nullopt when not even all are enough.
[[nodiscard]] std::optional<int> needed_right(CountingTest test, int answers, double alpha, Sides sides = Sides::one);

}  // namespace undercroft::engine::taste

#include "engine/taste/counting.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <string>

namespace undercroft::engine::taste {

namespace {

using Binomial = boost::math::binomial_distribution<double>;

double guessed(CountingTest test) {
    return test == CountingTest::triangle ? 1.0 / 3.0 : 0.5;
}

// Chance of `right` or more.
double at_least(int answers, int right, double chance) {
    if (right <= 0) return 1.0;
    return boost::math::cdf(boost::math::complement(Binomial(answers, chance), right - 1));
}

double p_of(CountingTest test, int answers, int right, Sides sides) {
    const double one = at_least(answers, right, guessed(test));
    return sides == Sides::one ? one : std::min(1.0, 2.0 * one);
}

// Whoever notices is right; the others guess.
double chance_with(CountingTest test, double discriminators) {
    return discriminators + (1.0 - discriminators) * guessed(test);
}

double power_of(CountingTest test, int answers, double alpha, Sides sides, double discriminators) {
    const auto needed = needed_right(test, answers, alpha, sides);
    return needed ? at_least(answers, *needed, chance_with(test, discriminators)) : 0.0;
}

// The power of an exact test saws up and down: the first number of answers from which the next few all suffice.
std::optional<int> answers_for(const CountingQuestion& q, double power) {
    constexpr int k_in_a_row = 3;
    int held = 0;
    for (int answers = k_least_answers; answers <= k_most_answers;) {
        const bool enough = power_of(q.test, answers, q.alpha, q.sides, q.discriminators) >= power;
        held = enough ? held + 1 : 0;
        if (held == k_in_a_row) return answers - k_in_a_row + 1;
        // Far from enough, large steps do.
        answers += answers < 400 || enough ? 1 : answers / 100;
    }
    return std::nullopt;
}

double noticed_of(CountingTest test, double share_right) {
    const double guess = guessed(test);
    return std::clamp((share_right - guess) / (1.0 - guess), 0.0, 1.0);
}

Result<void> check(const CountingQuestion& q) {
    if (q.answers < 1 || q.answers > k_most_answers)
        return fail(ErrorKind::bad_input, "tasters",
                    std::to_string(q.answers) + " answers; a test has 1 to " + std::to_string(k_most_answers) + ".");
    if (q.right < 0 || q.right > q.answers)
        return fail(ErrorKind::bad_input, "right",
                    std::to_string(q.right) + " of " + std::to_string(q.answers) + " cannot be.");
    if (!(q.alpha > 0.0) || q.alpha > 0.5)
        return fail(ErrorKind::bad_input, "alpha",
                    "The chance of a false difference is above 0 and at most 50 %; 5 % is usual.");
    if (!(q.discriminators > 0.0) || q.discriminators > 1.0)
        return fail(ErrorKind::bad_input, "noticing", "The share that notices is above 0 and at most 100 %.");
    if (q.sides == Sides::two && q.test != CountingTest::paired)
        return fail(ErrorKind::bad_input, "sides",
                    "Only a paired test can be two-sided: the others have a right answer.");
    return {};
}

}  // namespace

std::optional<int> needed_right(CountingTest test, int answers, double alpha, Sides sides) {
    int low = 0;
    int high = answers + 1;  // the first that is enough lies above low and at or below high
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        (p_of(test, answers, middle, sides) <= alpha ? high : low) = middle;
    }
    return high <= answers ? std::optional(high) : std::nullopt;
}

Result<CountingAnswer> counting_test(const CountingQuestion& q) {
    TRY_VOID(check(q));
    CountingAnswer answer;
    answer.share_right = static_cast<double>(q.right) / q.answers;
    // Two-sided, it is the one preferred more often that counts.
    const int right = q.sides == Sides::two ? std::max(q.right, q.answers - q.right) : q.right;
    answer.p = p_of(q.test, q.answers, right, q.sides);
    answer.needed = needed_right(q.test, q.answers, q.alpha, q.sides);
    answer.power = power_of(q.test, q.answers, q.alpha, q.sides, q.discriminators);
    answer.answers_for_80 = answers_for(q, 0.80);
    if (q.sides == Sides::one) {
        constexpr double k_each_side = 0.05;
        answer.noticed = noticed_of(q.test, answer.share_right);
        answer.noticed_low = noticed_of(q.test, Binomial::find_lower_bound_on_p(q.answers, q.right, k_each_side));
        answer.noticed_high = noticed_of(q.test, Binomial::find_upper_bound_on_p(q.answers, q.right, k_each_side));
    }
    if (q.answers < k_least_answers)
        answer.verdict = CountingVerdict::too_few;
    else
        answer.verdict = answer.p <= q.alpha ? CountingVerdict::different : CountingVerdict::not_shown;
    return answer;
}

}  // namespace undercroft::engine::taste

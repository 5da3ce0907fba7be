// Runs a property over many seeds, the same ones every time.
#pragma once

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <sstream>
#include <string>

namespace undercroft::testing {

// From the environment, 200 when it says nothing; `divisor` for properties that cost more.
inline int cases_to_run(int divisor = 1) {
    const char* text = std::getenv("UNDERCROFT_CASES");
    const int cases = text == nullptr ? 200 : std::atoi(text);
    return cases / divisor < 1 ? 1 : cases / divisor;
}

// `property` takes a seed; what it counted is told in one line.
struct Counted {
    long cases = 0;
    long entries = 0;
};

template <class Property>
void expect_for_seeds(const char* what, int cases, Property property) {
    Counted counted;
    const auto begin = std::chrono::steady_clock::now();
    rc::detail::TestParams params;
    params.seed = 20'260'314;
    params.maxSuccess = cases;
    const auto over_seeds = [&property, &counted] {
        const auto seed = *rc::gen::noShrink(rc::gen::resize(1000, rc::gen::arbitrary<std::uint64_t>()));
        ++counted.cases;
        counted.entries += static_cast<long>(property(seed));
    };
    const auto result = rc::detail::checkTestable(over_seeds, rc::detail::TestMetadata{}, params);
    if (!result.template is<rc::detail::SuccessResult>()) {
        std::ostringstream told;
        rc::detail::printResultMessage(result, told);
        ADD_FAILURE() << told.str();
    }
    const std::chrono::duration<double> seconds = std::chrono::steady_clock::now() - begin;
    std::printf("figure: %s: cases %ld, entries %ld, seconds %.2f\n", what, counted.cases, counted.entries,
                seconds.count());
}

}  // namespace undercroft::testing

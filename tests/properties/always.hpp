// Runs a property over many seeds, the same ones every time.
#pragma once

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <sstream>
#include <string>

#include "tests/properties/split_mix.hpp"

namespace undercroft::testing {

inline constexpr double k_share_tolerance = 1e-12;  // of shares that two ways lead to

// From the environment, 200 when it says nothing; `divisor` for properties that cost more.
inline int cases_to_run(int divisor = 1) {
    const char* text = std::getenv("UNDERCROFT_CASES");
    const int cases = text == nullptr ? 200 : std::atoi(text);
    return cases / divisor < 1 ? 1 : cases / divisor;
}

// UNDERCROFT_CASE=<seed> runs the one case of that seed, as a failure names it.
inline std::optional<std::uint64_t> only_case() {
    const char* text = std::getenv("UNDERCROFT_CASE");
    if (text == nullptr) return std::nullopt;
    return std::strtoull(text, nullptr, 10);
}

// `property` takes a seed and gives how many entries it looked at; what it counted is told in one line.
struct Counted {
    long cases = 0;
    long entries = 0;
};

template <class Property>
void expect_for_seeds(const char* what, int cases, Property property) {
    Counted counted;
    const auto begin = std::chrono::steady_clock::now();
    rc::detail::TestParams params;
    params.maxSuccess = 1;
    // Not drawn by RapidCheck, whose whole numbers come again and again. One check a seed, since RapidCheck runs a case
    // once more when it fails.
    SplitMix64 seeds{20'260'314};
    const std::optional<std::uint64_t> only = only_case();
    if (only) cases = 1;
    for (bool holds = true; holds && counted.cases < cases;) {
        const std::uint64_t seed = only ? *only : seeds.next();
        const auto of_seed = [&property, &counted, seed] { counted.entries += static_cast<long>(property(seed)); };
        const auto result = rc::detail::checkTestable(of_seed, rc::detail::TestMetadata{}, params);
        ++counted.cases;
        holds = result.template is<rc::detail::SuccessResult>();
        if (holds) continue;
        std::ostringstream told;
        rc::detail::printResultMessage(result, told);
        ADD_FAILURE() << "seed " << seed << ": " << told.str();
    }
    const std::chrono::duration<double> seconds = std::chrono::steady_clock::now() - begin;
    std::printf("figure: %s: cases %ld, entries %ld, seconds %.2f\n", what, counted.cases, counted.entries,
                seconds.count());
}

}  // namespace undercroft::testing

// What to carbonate with, against what the trade reckons with and against the balance of what is poured together.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "app/calc.hpp"

namespace undercroft::app {
namespace {

CalcRequest asked(std::map<std::string, std::vector<std::string>, std::less<>> options) {
    CalcRequest request;
    request.options = std::move(options);
    return request;
}

double term(const CalcView& view, const std::string& name) {
    const auto found =
        std::find_if(view.terms.begin(), view.terms.end(), [&](const Term& one) { return one.name == name; });
    return found == view.terms.end() ? -1.0 : found->value;
}

TEST(Priming, TakesAboutFourGramsOfSugarALitreForAVolume) {
    // common practice, no source
    const CalcView view =
        calc_priming(asked({{"--co2", {"2.5 vol"}}, {"--volume", {"20 L"}}, {"--measured", {"1 vol"}}})).value();
    EXPECT_NEAR(term(view, "table sugar") / 1.5, 4.0, 0.2);
    // Dextrose as it is sold holds a tenth of water: about 4.6 g/L a volume (common practice, no source).
    EXPECT_NEAR(term(view, "dextrose as sold") / 1.5, 4.6, 0.2);
    EXPECT_GT(term(view, "honey"), term(view, "table sugar"));
}

TEST(Priming, WithWortOrYoungBeerHoldsTheTargetInAllThatIsPouredTogether) {
    const CalcView view = calc_priming(asked({{"--co2", {"2.6 vol"}},
                                              {"--volume", {"10 L"}},
                                              {"--measured", {"0.9 vol"}},
                                              {"--wort", {"1.050"}},
                                              {"--wort-ends", {"1.010"}},
                                              {"--young", {"1.016"}},
                                              {"--young-ends", {"1.006"}}}))
                              .value();
    const double wort = term(view, "wort");
    EXPECT_NEAR((10.0 * 0.9 + wort * 40.0 * 0.5) / (10.0 + wort), 2.6, 1e-6);
    const double young = term(view, "young beer");
    EXPECT_NEAR((10.0 * 0.9 + young * (0.9 + 10.0 * 0.5)) / (10.0 + young), 2.6, 1e-6);
}

TEST(Priming, CountsContainersAndWhatIsLeftOver) {
    const CalcView view =
        calc_priming(
            asked(
                {{"--co2", {"2.6 vol"}}, {"--volume", {"10 L"}}, {"--measured", {"0.9 vol"}}, {"--fill", {"750 mL"}}}))
            .value();
    EXPECT_EQ(term(view, "containers"), 13.0);
    EXPECT_NEAR(term(view, "left over"), 0.25, 1e-9);
}

}  // namespace
}  // namespace undercroft::app

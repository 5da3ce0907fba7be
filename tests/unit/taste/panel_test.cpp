// Panels: closed forms where there are some, and tasters that are known found again.
#include "engine/taste/panel.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace undercroft::engine::taste {
namespace {

TEST(Panel, OfOneTasterIsWideAndNoRefusal) {
    const Panel panel = panel_of({{"Ines", "Amber", 6.0}}).value();
    const PanelFigure& amber = panel.samples.at("Amber");
    EXPECT_EQ(amber.tasters, 1);
    EXPECT_NEAR(amber.mean, 6.0, 0.3);
    // One score: what cannot be repeated and what tasters differ by, together.
    EXPECT_NEAR(amber.sd, std::hypot(panel.unrepeatable_sd, panel.offset_sd), 0.1);
    EXPECT_GT(amber.sd, 1.0);
}

TEST(Panel, OfMoreTastersIsNarrowerAndTheirMeanWhereAllTastedAll) {
    std::vector<Score> scores;
    const double values[4][3] = {{6, 3, 8}, {7, 4, 9}, {5, 2, 7}, {6, 3, 8}};
    const char* tasters[] = {"Ines", "Marit", "Tobias", "Lea"};
    const char* samples[] = {"A", "B", "C"};
    for (int t = 0; t < 4; ++t)
        for (int s = 0; s < 3; ++s) scores.push_back({tasters[t], samples[s], values[t][s]});
    const Panel panel = panel_of(scores).value();
    // Balanced: the differences between samples are those of their means.
    EXPECT_NEAR(panel.samples.at("A").mean - panel.samples.at("B").mean, 3.0, 0.1);
    EXPECT_NEAR(panel.samples.at("C").mean - panel.samples.at("A").mean, 2.0, 0.1);
    EXPECT_GT(panel.tasters.at("Marit").offset, panel.tasters.at("Ines").offset);
    EXPECT_LT(panel.tasters.at("Tobias").offset, panel.tasters.at("Ines").offset);
    EXPECT_LT(panel.samples.at("A").sd, panel_of({{"Ines", "A", 6.0}}).value().samples.at("A").sd);
}

TEST(Panel, TakesAnOffsetOffWhereASampleWasTastedByTheHighTasterAlone) {
    std::vector<Score> scores;
    for (int s = 0; s < 8; ++s) {
        const double value = 2.0 + s % 5;
        scores.push_back({"High", "S" + std::to_string(s), value + 2.0});
        scores.push_back({"Low", "S" + std::to_string(s), value});
    }
    scores.push_back({"High", "Alone", 7.0});
    const double alone = panel_of(scores).value().samples.at("Alone").mean;
    EXPECT_LT(alone, 6.7) << "the others would have given less";
    EXPECT_GT(alone, 5.3);
}

TEST(Panel, DoesNotGoByTheOrderOfScores) {
    std::vector<Score> scores;
    std::mt19937 bits(7);
    for (int t = 0; t < 5; ++t)
        for (int s = 0; s < 6; ++s)
            if (bits() % 3 != 0)
                scores.push_back({"T" + std::to_string(t), "S" + std::to_string(s), double(bits() % 11)});
    const Panel one = panel_of(scores).value();
    std::shuffle(scores.begin(), scores.end(), bits);
    const Panel other = panel_of(scores).value();
    for (const auto& [sample, figure] : one.samples) EXPECT_EQ(figure.mean, other.samples.at(sample).mean) << sample;
}

TEST(Panel, TellsHowWellATasterRepeats) {
    const Panel panel =
        panel_of({{"Ines", "A", 6.0}, {"Ines", "A", 6.0}, {"Marit", "A", 3.0}, {"Marit", "A", 7.0}, {"Lea", "A", 5.0}})
            .value();
    EXPECT_EQ(panel.tasters.at("Ines").duplicates, 1);
    EXPECT_DOUBLE_EQ(panel.tasters.at("Ines").repeats, 0.0);
    EXPECT_NEAR(panel.tasters.at("Marit").repeats, 4.0 / std::sqrt(2.0), 1e-12);
    EXPECT_EQ(panel.tasters.at("Lea").duplicates, 0);
}

// Synthetic panels of known tasters: how often nine-tenths intervals hold the truth (docs/models/taste.md).
TEST(Panel, NineTenthsIntervalsHoldAboutNineOfTenTruths) {
    std::mt19937_64 bits(20260314);
    std::normal_distribution<double> normal;
    int held = 0;
    int asked = 0;
    double error = 0.0;
    double plain_error = 0.0;
    for (int panel_number = 0; panel_number < 200; ++panel_number) {
        std::vector<Score> scores;
        std::map<std::string, double> truth;
        std::map<std::string, std::pair<double, int>> plain;
        std::vector<std::pair<double, double>> tasters;
        for (int t = 0; t < 4; ++t) tasters.emplace_back(0.9 * normal(bits), 1.0 + 0.15 * normal(bits));
        for (int s = 0; s < 8; ++s) {
            const std::string sample = "S" + std::to_string(s);
            truth[sample] = 5.0 + 1.5 * normal(bits);
            for (int t = 0; t < 4; ++t) {
                if (bits() % 4 == 0) continue;  // not everybody is always there
                const auto& [offset, scale] = tasters[std::size_t(t)];
                const double value = 5.0 + offset + scale * (truth[sample] - 5.0) + 1.0 * normal(bits);
                scores.push_back({"T" + std::to_string(t), sample, std::clamp(value, 0.0, 10.0)});
                plain[sample].first += scores.back().value;
                ++plain[sample].second;
            }
        }
        const Panel panel = panel_of(scores).value();
        for (const auto& [sample, figure] : panel.samples) {
            ++asked;
            held += std::abs(figure.mean - truth[sample]) <= 1.645 * figure.sd ? 1 : 0;
            error += (figure.mean - truth[sample]) * (figure.mean - truth[sample]);
            const double mean = plain[sample].first / plain[sample].second;
            plain_error += (mean - truth[sample]) * (mean - truth[sample]);
        }
    }
    const double coverage = double(held) / asked;
    std::printf("figure: panels: %.1f %% of %d truths inside 90 %%; error %.2f points, of plain means %.2f\n",
                100.0 * coverage, asked, std::sqrt(error / asked), std::sqrt(plain_error / asked));
    EXPECT_GT(coverage, 0.85);
    EXPECT_LT(coverage, 0.96);
    EXPECT_LT(error, plain_error) << "taking offsets off is better than averaging";
}

TEST(Panel, RefusesNothingNobodyAndWhatIsOffTheScale) {
    EXPECT_EQ(panel_of({}).error().where, "scores");
    EXPECT_EQ(panel_of({{"", "A", 5.0}}).error().where, "taster");
    EXPECT_EQ(panel_of({{"Ines", "A", 11.0}}).error().where, "scores");
    EXPECT_EQ(panel_of({{"Ines", "A", -1.0}}).error().where, "scores");
}

}  // namespace
}  // namespace undercroft::engine::taste

// A river of many years in few strokes: less is drawn, and nothing is lost of what is there.
#include <gtest/gtest.h>

#include <algorithm>

#include "app/river_outline.hpp"

namespace undercroft::app {
namespace {

// A vessel of 50 L pulled and refilled a hundred times, 10 L each; the first lot was remembered, the last is water.
RiverView long_river() {
    RiverView river;
    const auto day = [](int n) { return std::to_string(1920 + n) + "-03-01"; };
    std::vector<double> parts;
    for (int n = 0; n <= 100; ++n) {
        RiverLot lot;
        lot.serial = n + 1;
        lot.number = 10 + n;
        lot.name = "Brew " + std::to_string(n);
        lot.kind = n == 100 ? "water" : "beer";
        lot.assumed = n == 0;
        lot.brewed_from = lot.brewed_to = day(n);
        river.lots.push_back(lot);
        for (const bool after : {false, true}) {
            RiverStep step;
            step.number = lot.number;
            step.day = day(n);
            step.after = after;
            if (after) {
                for (double& part : parts) part *= 0.8;
                parts.push_back(n == 0 ? 50e6 : 10e6);
            }
            for (std::size_t i = 0; i < parts.size(); ++i) {
                const Volume volume = Volume::from_ul(static_cast<std::int64_t>(parts[i]));
                if (volume == Volume{}) continue;
                step.parts.push_back({static_cast<int>(i) + 1, volume});
                step.volume += volume;
            }
            river.steps.push_back(step);
        }
    }
    return river;
}

Volume sum_of(const RiverStep& step) {
    Volume sum;
    for (const RiverPart& part : step.parts) sum += part.volume;
    return sum;
}

TEST(RiverOutline, OfAsMuchAsThereIsIsTheRiver) {
    const RiverView river = long_river();
    const RiverView same = outline_of(river, 0, 0);
    EXPECT_EQ(same.lots.size(), 101U);
    EXPECT_EQ(same.steps.size(), 202U);
    EXPECT_EQ(outline_of(river, 101, 202).lots.size(), 101U);
}

TEST(RiverOutline, KeepsEveryMicrolitreOfEveryStepItKeeps) {
    const RiverView few = outline_of(long_river(), 12, 20);
    EXPECT_EQ(few.steps.size(), 20U);
    EXPECT_LE(few.lots.size(), 14U) << "each kind apart";
    for (const RiverStep& step : few.steps) {
        EXPECT_EQ(sum_of(step), step.volume);
        for (const RiverPart& part : step.parts) EXPECT_LE(part.serial, static_cast<int>(few.lots.size()));
    }
    EXPECT_EQ(few.steps.front().day, "1920-03-01");
    EXPECT_EQ(few.steps.back().day, "2020-03-01");
    EXPECT_TRUE(few.steps.back().after);
}

TEST(RiverOutline, JoinsWhatWasBrewedOneAfterTheOther) {
    const RiverView few = outline_of(long_river(), 12, 0);
    const auto named = [&few](const std::string& name) {
        return std::find_if(few.lots.begin(), few.lots.end(), [&](const RiverLot& lot) { return lot.name == name; });
    };
    EXPECT_NE(named("Brew 0"), few.lots.end()) << "what is remembered stays apart";
    EXPECT_NE(named("Brew 100"), few.lots.end()) << "what is no beer stays apart";
    const auto first = named("Brew 1 to Brew 9");
    ASSERT_NE(first, few.lots.end());
    EXPECT_EQ(first->brewed_from, "1921-03-01");
    EXPECT_EQ(first->brewed_to, "1929-03-01");
    EXPECT_EQ(first->number, 11);
}

}  // namespace
}  // namespace undercroft::app

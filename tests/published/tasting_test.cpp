// Tasting tests against the tables of their standards and a worked example.
//
// iso4120.csv: the layout of ISO 4120, worked out exactly (its own column says so); the standard's print may differ in
// rare cells where it approximated. The other rows below are of the layouts of ISO 10399 and ISO 5495, likewise.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "engine/taste/counting.hpp"
#include "engine/taste/ranking.hpp"

namespace undercroft::engine::taste {
namespace {

TEST(Iso4120, EveryRowOfTheTriangleTable) {
    std::ifstream file(std::string(UNDERCROFT_SOURCE_DIR) + "/tests/published/iso4120.csv");
    ASSERT_TRUE(file);
    std::string line;
    std::getline(file, line);
    int rows = 0;
    const double alphas[] = {0.20, 0.10, 0.05, 0.01, 0.001};
    while (std::getline(file, line)) {
        std::istringstream cells(line);
        std::string cell;
        std::getline(cells, cell, ',');
        const int answers = std::stoi(cell);
        for (const double alpha : alphas) {
            std::getline(cells, cell, ',');
            const auto needed = needed_right(CountingTest::triangle, answers, alpha);
            if (cell.empty()) {
                EXPECT_FALSE(needed) << answers << " at " << alpha;
            } else {
                ASSERT_TRUE(needed) << answers << " at " << alpha;
                EXPECT_EQ(*needed, std::stoi(cell)) << answers << " at " << alpha;
            }
        }
        ++rows;
    }
    EXPECT_EQ(rows, 56);
}

struct Row {
    int answers;
    std::vector<int> needed;  // at 0.20, 0.10, 0.05, 0.01, 0.001; 0: cannot be reached
};

TEST(Iso10399, DuoTrioAndPairedOneSided) {
    const std::vector<Row> rows = {{6, {5, 6, 6, 0, 0}},       {7, {6, 6, 7, 7, 0}},       {8, {6, 7, 7, 8, 0}},
                                   {10, {7, 8, 9, 10, 10}},    {12, {8, 9, 10, 11, 12}},   {15, {10, 11, 12, 13, 14}},
                                   {18, {12, 13, 13, 15, 16}}, {20, {13, 14, 15, 16, 18}}, {24, {15, 16, 17, 19, 20}},
                                   {30, {18, 20, 20, 22, 24}}, {36, {22, 23, 24, 26, 28}}, {48, {28, 29, 31, 33, 36}},
                                   {60, {34, 36, 37, 40, 43}}};
    const double alphas[] = {0.20, 0.10, 0.05, 0.01, 0.001};
    for (const Row& row : rows)
        for (std::size_t i = 0; i < 5; ++i)
            for (const CountingTest test : {CountingTest::duo_trio, CountingTest::paired})
                EXPECT_EQ(needed_right(test, row.answers, alphas[i]).value_or(0), row.needed[i])
                    << row.answers << " at " << alphas[i];
}

TEST(Iso5495, PairedTwoSided) {
    const std::vector<Row> rows = {{6, {6, 0, 0}},     {7, {7, 0, 0}},     {8, {8, 8, 0}},     {10, {9, 10, 0}},
                                   {12, {10, 11, 12}}, {15, {12, 13, 14}}, {18, {14, 15, 17}}, {20, {15, 17, 18}},
                                   {24, {18, 19, 21}}, {30, {21, 23, 25}}, {36, {25, 27, 29}}, {48, {32, 34, 36}},
                                   {60, {39, 41, 44}}};
    const double alphas[] = {0.05, 0.01, 0.001};
    for (const Row& row : rows)
        for (std::size_t i = 0; i < 3; ++i)
            EXPECT_EQ(needed_right(CountingTest::paired, row.answers, alphas[i], Sides::two).value_or(0), row.needed[i])
                << row.answers << " at " << alphas[i];
}

// ISO 8587, Annex A, as quoted on a public page: 8 assessors, 5 products, rank sums 17, 31, 32, 23, 17. Orders that add
// up to these sums.
TEST(Iso8587, TheExampleOfItsAnnex) {
    const double orders[8][5] = {{2, 5, 4, 3, 1}, {2, 4, 3, 5, 1}, {1, 5, 2, 3, 4}, {1, 2, 5, 4, 3},
                                 {4, 5, 3, 1, 2}, {1, 4, 5, 2, 3}, {2, 3, 5, 4, 1}, {4, 3, 5, 1, 2}};
    const double wanted[5] = {17, 31, 32, 23, 17};
    const char* names[] = {"A", "B", "C", "D", "E"};
    std::vector<Ranking> rankings;
    for (int j = 0; j < 8; ++j) {
        Ranking one;
        one.taster = std::to_string(j);
        for (int p = 0; p < 5; ++p) one.places.emplace_back(names[p], orders[j][p]);
        rankings.push_back(std::move(one));
    }
    const RankingAnswer answer = ranking_test(rankings).value();
    for (const auto& [sample, sum] : answer.sums) EXPECT_EQ(sum, wanted[sample[0] - 'A']) << sample;
    EXPECT_NEAR(answer.statistic, 10.600, 1e-9);
    EXPECT_NEAR(answer.p, 0.03145, 5e-6);
    EXPECT_NEAR(answer.least_difference, 12.40, 0.005);
    EXPECT_NEAR(answer.agreement, 0.33125, 1e-9);
    EXPECT_TRUE(answer.different);
    // 17 differs from 31 and from 32, twice each: there are two samples of 17; 23 differs from none.
    EXPECT_EQ(answer.apart.size(), 4U);
    for (const auto& [one, other] : answer.apart) {
        EXPECT_NE(one, "D");
        EXPECT_NE(other, "D");
    }
}

}  // namespace
}  // namespace undercroft::engine::taste

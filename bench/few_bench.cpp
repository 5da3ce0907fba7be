// Blends of few stocks drawn at random: our own search (solve/few.hpp) beside the general solver on the same model.
// `few_bench STOCKS SECONDS_OURS SECONDS_GENERAL [SEEDS]` prints a line a seed and the medians.
// `few_bench lp STOCKS SEED` writes the same model as LP text for another solver (few_rival.mjs).
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <utility>
#include <vector>

#include "solve/few.hpp"

namespace {

using namespace undercroft;

constexpr int k_attributes = 8;

class Draws {
public:
    explicit Draws(std::uint64_t seed) : m_state(seed) {}
    double uniform() {
        m_state += 0x9E3779B97F4A7C15U;
        std::uint64_t z = m_state;
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
        z ^= z >> 31U;
        return static_cast<double>(z >> 11U) / 9007199254740992.0;
    }
    double normal() {
        double sum = -6.0;
        for (int i = 0; i < 12; ++i) sum += uniform();
        return sum;
    }

private:
    std::uint64_t m_state;
};

solve::FewProblem drawn(int stocks, std::uint64_t seed) {
    Draws draws(seed);
    solve::FewProblem problem;
    problem.most_used = 5;
    problem.figures.resize(k_attributes);
    for (int i = 0; i < stocks; ++i) {
        problem.columns.push_back({0.05, 0.08 + 0.52 * draws.uniform()});
        const double factors[2] = {draws.normal(), draws.normal()};
        for (int a = 0; a < k_attributes; ++a)
            problem.figures[static_cast<std::size_t>(a)].values.push_back(0.6 * factors[a % 2] + draws.normal());
    }
    std::vector<double> target(k_attributes, 0.0);
    double shares = 0.0;
    for (int s = 0; s < 9; ++s) {
        const auto stock = static_cast<std::size_t>(draws.uniform() * stocks);
        const double share = draws.uniform();
        shares += share;
        for (std::size_t a = 0; a < target.size(); ++a) target[a] += share * problem.figures[a].values[stock];
    }
    for (std::size_t a = 0; a < target.size(); ++a) {
        const double at = target[a] / shares + 0.15 * draws.normal();
        const double weight = 0.5 + draws.uniform();
        problem.figures[a].hinges = {{weight, at, true}, {weight, at, false}};
    }
    return problem;
}

solve::Program written_out(const solve::FewProblem& problem) {
    solve::Program program;
    solve::Row total{problem.total, problem.total, {}};
    solve::Row count{-solve::k_no_limit, static_cast<double>(problem.most_used), {}};
    std::vector<int> amounts;
    for (const solve::FewColumn& column : problem.columns) {
        const int amount = program.add({0.0, column.most, 0.0, false});
        const int used = program.add({0.0, 1.0, 0.0, true});
        program.add(solve::Row{-solve::k_no_limit, 0.0, {{amount, 1.0}, {used, -column.most}}});
        program.add(solve::Row{0.0, solve::k_no_limit, {{amount, 1.0}, {used, -column.least}}});
        total.terms.emplace_back(amount, 1.0);
        count.terms.emplace_back(used, 1.0);
        amounts.push_back(amount);
    }
    program.add(std::move(total));
    program.add(std::move(count));
    for (const solve::Figure& figure : problem.figures) {
        const int over = program.add({0.0, solve::k_no_limit, figure.hinges[0].slope, false});
        const int under = program.add({0.0, solve::k_no_limit, figure.hinges[1].slope, false});
        solve::Row row{figure.hinges[0].at, figure.hinges[0].at, {{over, -1.0}, {under, 1.0}}};
        for (std::size_t i = 0; i < amounts.size(); ++i) row.terms.emplace_back(amounts[i], figure.values[i]);
        program.add(std::move(row));
    }
    return program;
}

void print_terms(const std::vector<std::pair<int, double>>& terms) {
    for (const auto& [column, factor] : terms) std::printf(" %+.17g x%d", factor, column);
}

void print_lp(const solve::Program& program) {
    std::printf("Minimize\n obj:");
    for (std::size_t j = 0; j < program.columns.size(); ++j)
        if (program.columns[j].cost != 0.0) std::printf(" %+.17g x%zu", program.columns[j].cost, j);
    std::printf("\nSubject To\n");
    for (std::size_t r = 0; r < program.rows.size(); ++r) {
        const solve::Row& row = program.rows[r];
        std::printf(" r%zu:", r);
        print_terms(row.terms);
        if (row.low == row.high)
            std::printf(" = %.17g\n", row.low);
        else if (row.low == -solve::k_no_limit)
            std::printf(" <= %.17g\n", row.high);
        else
            std::printf(" >= %.17g\n", row.low);
    }
    std::printf("Bounds\n");
    for (std::size_t j = 0; j < program.columns.size(); ++j)
        if (program.columns[j].high != solve::k_no_limit)
            std::printf(" 0 <= x%zu <= %.17g\n", j, program.columns[j].high);
    std::printf("General\n");
    for (std::size_t j = 0; j < program.columns.size(); ++j)
        if (program.columns[j].whole) std::printf(" x%zu\n", j);
    std::printf("End\n");
}

template <typename Work>
double seconds_of(Work work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

const char* word_of(solve::Standing standing) {
    return standing == solve::Standing::proven ? "proven" : standing == solve::Standing::found ? "found" : "none";
}

}  // namespace

int main(int count, char** words) {
    if (count < 4) return 2;
    if (std::string_view(words[1]) == "lp") {
        print_lp(written_out(drawn(std::atoi(words[2]), static_cast<std::uint64_t>(std::atoi(words[3])))));
        return 0;
    }
    const int stocks = std::atoi(words[1]);
    const int seeds = count > 4 ? std::atoi(words[4]) : 5;
    std::vector<double> ours;
    std::vector<double> general;
    for (int seed = 1; seed <= seeds; ++seed) {
        const solve::FewProblem problem = drawn(stocks, static_cast<std::uint64_t>(seed));
        solve::Answer few;
        solve::Answer cbc;
        ours.push_back(seconds_of([&] { few = nearest_of_few(problem, {std::atof(words[2])}); }));
        std::printf("%d stocks, seed %d: ours %.6f (bound %.6f, %s) in %.3f s", stocks, seed, few.cost, few.bound,
                    word_of(few.standing), ours.back());
        std::fflush(stdout);
        if (std::atof(words[3]) > 0.0) {
            const solve::Program program = written_out(problem);
            general.push_back(seconds_of([&] { cbc = least_cost(program, {std::atof(words[3])}); }));
            std::printf("; general %.6f (bound %.6f, %s) in %.3f s", cbc.cost, cbc.bound, word_of(cbc.standing),
                        general.back());
        }
        std::printf("\n");
    }
    std::printf("median: ours %.3f s", median(ours));
    if (!general.empty()) std::printf(", general %.3f s, ratio %.3f", median(general), median(ours) / median(general));
    std::printf("\n");
}

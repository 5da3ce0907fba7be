// pH of 65,536 liquids of six acids: bisection of 50 steps against this program, one by one and many at once.
//
// The problems: pK (2.98, 4.34), (3.40, 5.13), (3.86), (4.76), (3.13, 4.76, 6.40), (1.81, 7.2); 5 to 30, 0 to 30, 0 to
// 20, 3 to 12, 0 to 2, 0 to 2 mmol/L of each; strong ions 2 to 32 mmol/L; drawn until the pH lies in 2.6 to 4.6; Kw
// 1e-14, no activities. SplitMix64 from 1. `--answers FILE` writes the first thousand with their pH, for
// bench/acid_reference.py.
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <span>
#include <vector>

#include "bench/ratio_reporter.hpp"
#include "bench/split_mix.hpp"
#include "chem/charge_balance.hpp"

namespace undercroft::bench {
namespace {

using chem::ChargeBalance;
using chem::Lanes;

constexpr std::size_t k_count = 65'536;
constexpr std::size_t k_acids = 6;
const std::array<chem::Protolyte, k_acids> k_protolytes{
    {{2, {2.98, 4.34}}, {2, {3.40, 5.13}}, {1, {3.86}}, {1, {4.76}}, {3, {3.13, 4.76, 6.40}}, {2, {1.81, 7.2}}}};

// Bisection in ln h from pH 14 to 0, as anyone would write it.
class Bisection {
public:
    Bisection() {
        for (std::size_t a = 0; a < k_acids; ++a)
            for (std::size_t step = 0; step < 3; ++step) m_k[a][step] = std::pow(10.0, -k_protolytes[a].pk[step]);
    }
    [[nodiscard]] double ph(const double* totals, double strong) const {
        constexpr double k_ln10 = 2.302585092994046;
        double low = -14.0 * k_ln10;
        double high = 0.0;
        for (int i = 0; i < 50; ++i) {
            const double middle = 0.5 * (low + high);
            (charge(totals, strong, std::exp(middle)) > 0.0 ? high : low) = middle;
        }
        return -0.5 * (low + high) / k_ln10;
    }

private:
    [[nodiscard]] double charge(const double* totals, double strong, double h) const {
        double sum = strong + h - 1e-14 / h;
        for (std::size_t a = 0; a < k_acids; ++a) {
            double weight = 1.0;
            double all = 1.0;
            double given = 0.0;
            for (int step = 0; step < k_protolytes[a].steps; ++step) {
                weight *= m_k[a][static_cast<std::size_t>(step)] / h;
                all += weight;
                given += (step + 1) * weight;
            }
            sum -= totals[a] * given / all;
        }
        return sum;
    }
    double m_k[k_acids][3]{};
};

struct Problems {
    std::array<std::vector<double>, k_acids> columns;
    std::vector<std::array<double, k_acids>> rows;
    std::vector<double> strong;
    std::vector<double> bisected;
    double worst = 0.0;  // of all methods, pH
};

Problems& problems() {
    static Problems k_problems = [] {
        constexpr double k_low[k_acids] = {5, 0, 0, 3, 0, 0};
        constexpr double k_high[k_acids] = {30, 30, 20, 12, 2, 2};
        const Bisection bisection;
        Draws draws{SplitMix64(1)};
        Problems made;
        while (made.rows.size() < k_count) {
            std::array<double, k_acids> row{};
            for (std::size_t a = 0; a < k_acids; ++a) row[a] = 1e-3 * draws.uniform(k_low[a], k_high[a]);
            const double strong = 1e-3 * draws.uniform(2.0, 32.0);
            const double ph = bisection.ph(row.data(), strong);
            if (ph < 2.6 || ph > 4.6) continue;
            for (std::size_t a = 0; a < k_acids; ++a) made.columns[a].push_back(row[a]);
            made.rows.push_back(row);
            made.strong.push_back(strong);
            made.bisected.push_back(ph);
        }
        return made;
    }();
    return k_problems;
}

void compare(benchmark::State& state, const std::vector<double>& found) {
    double worst = 0.0;
    for (std::size_t i = 0; i < k_count; ++i) {
        const double off = std::abs(found[i] - problems().bisected[i]);
        if (!(off <= worst)) worst = off;
    }
    state.counters["pH_off"] = worst;
    if (!(worst <= 1e-9)) state.SkipWithError("differs from bisection by more than 1e-9");
}

void by_bisection(benchmark::State& state) {
    const Bisection bisection;
    std::vector<double> found(k_count);
    for ([[maybe_unused]] auto _ : state) {
        for (std::size_t i = 0; i < k_count; ++i)
            found[i] = bisection.ph(problems().rows[i].data(), problems().strong[i]);
        benchmark::DoNotOptimize(found.data());
    }
    compare(state, found);
}

void one_by_one(benchmark::State& state) {
    const ChargeBalance balance(k_protolytes, {14.0, 0.0});
    std::vector<double> found(k_count);
    for ([[maybe_unused]] auto _ : state) {
        for (std::size_t i = 0; i < k_count; ++i)
            found[i] = balance.ph({problems().rows[i], problems().strong[i]}).value();
        benchmark::DoNotOptimize(found.data());
    }
    compare(state, found);
}

chem::AmountColumns columns() {
    chem::AmountColumns view;
    for (std::size_t a = 0; a < k_acids; ++a) view.totals[a] = problems().columns[a].data();
    view.strong_ions = problems().strong.data();
    view.count = k_count;
    return view;
}

void many(benchmark::State& state, Lanes lanes) {
    const ChargeBalance balance(k_protolytes, {14.0, 0.0});
    std::vector<double> found(k_count);
    for ([[maybe_unused]] auto _ : state) {
        balance.solve_many(columns(), found.data(), lanes);
        benchmark::DoNotOptimize(found.data());
    }
    compare(state, found);
}

// The same liquids with activities by Davies: another, harder sum, so not compared with the bisection above.
void many_with_activities(benchmark::State& state, Lanes lanes) {
    const ChargeBalance balance(k_protolytes, chem::water_at(Temperature::from_celsius(25.0)));
    std::vector<double> found(k_count);
    std::size_t failed = 0;
    for ([[maybe_unused]] auto _ : state) {
        failed += balance.solve_many(columns(), found.data(), lanes);
        benchmark::DoNotOptimize(found.data());
    }
    if (failed != 0) state.SkipWithError("some were not solved");
}

int write_answers(const char* path) {
    const ChargeBalance balance(k_protolytes, {14.0, 0.0});
    std::vector<double> found(k_count);
    balance.solve_many(columns(), found.data());
    std::ofstream file(path);
    file.precision(17);
    for (std::size_t i = 0; i < 1000; ++i) {
        for (const double total : problems().rows[i]) file << total << ',';
        file << problems().strong[i] << ',' << found[i] << '\n';
    }
    return file ? 0 : 1;
}

struct Width {
    const char* name;
    Lanes lanes;
    double target;
};
constexpr Width k_widths[] = {{"one lane", Lanes::one, 10.0},
                              {"two lanes (x86-64-v2)", Lanes::two, 0.0},
                              {"four lanes (x86-64-v3)", Lanes::four, 25.0},
                              {"eight lanes (x86-64-v4)", Lanes::eight, 50.0}};

}  // namespace
}  // namespace undercroft::bench

int main(int argc, char** argv) {
    using namespace undercroft::bench;
    if (argc == 3 && std::strcmp(argv[1], "--answers") == 0) return write_answers(argv[2]);
    const std::string group = "pH of 65,536 liquids, 6 acids";
    std::vector<Row> rows{{group, "bisection, 50 steps", true, 0.0}, {group, "one by one", false, 10.0}};
    const auto add = [&](const std::string& name, auto run) {
        benchmark::RegisterBenchmark((group + "/" + name).c_str(), run)
            ->Unit(benchmark::kMillisecond)
            ->Repetitions(5)
            ->ReportAggregatesOnly(false);
    };
    add("bisection, 50 steps", by_bisection);
    add("one by one", one_by_one);
    for (const Width& width : k_widths) {
        if (!undercroft::chem::has_lanes(width.lanes)) continue;
        rows.push_back({group, width.name, false, width.target});
        add(width.name, [lanes = width.lanes](benchmark::State& state) { many(state, lanes); });
        const std::string with = std::string("Davies, ") + width.name;
        rows.push_back({group, with, false, 0.0});
        add(with, [lanes = width.lanes](benchmark::State& state) { many_with_activities(state, lanes); });
    }
    benchmark::Initialize(&argc, argv);
    RatioReporter reporter(rows);
    benchmark::RunSpecifiedBenchmarks(&reporter);
    reporter.print_table();
    benchmark::Shutdown();
    return 0;
}

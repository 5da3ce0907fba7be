// The gas check of one package as a distribution, 10,000 bottles at 51 temperatures, and the same pressures worked out
// one by one through the checked function.
#include <benchmark/benchmark.h>

#include "chem/gas.hpp"
#include "engine/package/gas_spread.hpp"
#include "tables/tables.hpp"

namespace {

using namespace undercroft;
namespace package = undercroft::engine::package;

const tables::Tables& shipped_tables() {
    static const tables::Tables k_tables = tables::load().value();
    return k_tables;
}

package::GasQuestion mixed_sour() {
    package::GasQuestion question;
    question.gravity = package::Gravity{1.0040, 0.00025};
    question.original_gravity = 1.050;
    for (const char* id : {"ale_clean", "wild_unknown", "ale_farmhouse_diastatic"})
        question.cultures.push_back(shipped_tables().find_culture(id).value());
    question.makers_limit = GaugePressure::from_bar(100.0);  // never passed, so every degree is worked out
    question.head_space = 0.05;
    question.priming_g_per_l = 4.0;
    return question;
}

void gas_spread(benchmark::State& state) {
    const package::GasQuestion question = mixed_sour();
    for (auto _ : state) benchmark::DoNotOptimize(package::gas_spread(question, shipped_tables()).value().over_limit);
}
BENCHMARK(gas_spread)->Unit(benchmark::kMillisecond);

void pressures_one_by_one(benchmark::State& state) {
    chem::ClosedContainer closed;
    closed.head_space = 0.05;
    closed.abv = 6.0;
    closed.extract_g_per_l = 30.0;
    for (auto _ : state) {
        double sum = 0.0;
        for (int celsius = 0; celsius <= 50; ++celsius)
            for (int bottle = 0; bottle < package::k_gas_draws; ++bottle) {
                closed.co2_g_per_l = 4.0 + 1e-4 * bottle;
                sum += chem::pressure_in(closed, Temperature::from_celsius(celsius)).value().total.in_bar();
            }
        benchmark::DoNotOptimize(sum);
    }
}
BENCHMARK(pressures_one_by_one)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();

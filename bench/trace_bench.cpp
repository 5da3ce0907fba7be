// Both ways of a trace over books of a million movements, beside one replay of the same book.
#include <benchmark/benchmark.h>

#include <map>
#include <string>

#include "bench/movements.hpp"
#include "engine/trace/trace.hpp"
#include "ledger/replay.hpp"

namespace undercroft::bench {
namespace {

constexpr std::size_t k_movements = 1'000'000;

struct Traced {
    std::vector<ledger::Entry> entries;
    ledger::Cellar cellar;
};

const Traced& book_of(bool solera) {
    static std::map<bool, Traced> books;
    const auto [book, is_new] = books.try_emplace(solera);
    if (is_new) {
        book->second.entries = entries_of(solera ? solera_book(k_movements) : random_book(k_movements));
        book->second.cellar = ledger::replay(book->second.entries).value();
    }
    return book->second;
}

int full_vessel(const ledger::Cellar& cellar) {
    int vessel = 0;
    while (cellar.vessels[static_cast<std::size_t>(vessel)].liquid.volume == Volume{}) ++vessel;
    return vessel;
}

void replay(benchmark::State& state, bool solera) {
    const Traced& book = book_of(solera);
    for (auto _ : state) benchmark::DoNotOptimize(ledger::replay(book.entries).value().lots.size());
}
void back(benchmark::State& state, bool solera) {
    const Traced& book = book_of(solera);
    const int vessel = full_vessel(book.cellar);
    for (auto _ : state) benchmark::DoNotOptimize(engine::trace_back(book.cellar, {vessel, -1}).lots.size());
}
void forward(benchmark::State& state, bool solera) {
    const Traced& book = book_of(solera);
    for (auto _ : state) benchmark::DoNotOptimize(engine::trace_lots(book.cellar, {0}).on_hand.size());
}

BENCHMARK_CAPTURE(replay, solera_book, true)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(back, solera_book, true)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(forward, solera_book, true)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(replay, random_book, false)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(back, random_book, false)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(forward, random_book, false)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace undercroft::bench

BENCHMARK_MAIN();

// What keepers wait for, on a book of the generator: whole commands (the book opened, asked and closed again) and the
// same questions to a book that stays open. Booking adds entries to the file: give it a copy.
//
//     book_bench FILE [--benchmark_…]
#include <benchmark/benchmark.h>

#include <cstdio>
#include <cstdlib>
#include <functional>
#include <memory>

#include "app/book.hpp"
#include "bench/ratio_reporter.hpp"
#include "bench/split_mix.hpp"
#include "ledger/replay.hpp"
#include "store/book_file.hpp"
#include "store/digest.hpp"
#include "tables/tables.hpp"

namespace undercroft::bench {
namespace {

constexpr const char* k_now = "2026-07-01T12:00:00.000Z";
constexpr const char* k_ten_years_back = "2016-07-01";

template <class T>
T must(Result<T> result) {
    if (result) return *std::move(result);
    std::fprintf(stderr, "%s: %s\n", result.error().where.c_str(), result.error().what.c_str());
    std::exit(1);
}

std::string random16() {
    static SplitMix64 random{20'260'701};
    std::string hex;
    for (int half = 0; half < 2; ++half) {
        char text[20];
        std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(random.next()));
        hex += text;
    }
    return hex;
}

// A book opened as a command opens it.
struct Opened {
    UtcZone zone;
    std::unique_ptr<store::BookFile> file;
    std::unique_ptr<app::Book> book;
};

std::unique_ptr<Opened> open(const std::string& path, const tables::Tables& tables, store::Access access) {
    auto opened = std::make_unique<Opened>();
    opened->file = must(store::open_book(path, access));
    const Instant now = must(parse_iso_instant(k_now));
    app::Surroundings surroundings{[now] { return now; }, random16, store::commitment_of};
    opened->book = std::make_unique<app::Book>(*opened->file, nullptr, opened->zone, tables, surroundings);
    return opened;
}

app::SittingRequest reading(const std::string& vessel, const std::string& when) {
    app::TakeReading act;
    act.subject = vessel;
    act.gravity = "1.0090";
    act.ph = "3.4";
    app::SittingRequest request;
    request.when = when;
    request.acts.push_back(act);
    return request;
}

using Ask = std::function<void(app::Book&)>;

void add(const std::string& name, const std::string& path, const tables::Tables& tables, store::Access access,
         const Ask& ask, std::vector<Row>& rows) {
    rows.push_back({"command", name, false, 0.0});
    benchmark::RegisterBenchmark(("command/" + name).c_str(),
                                 [path, &tables, access, ask](benchmark::State& state) {
                                     for (auto _ : state) {
                                         const auto opened = open(path, tables, access);
                                         ask(*opened->book);
                                     }
                                 })
        ->Unit(benchmark::kMillisecond)
        ->Iterations(1);
    rows.push_back({"open book", name, false, 0.0});
    benchmark::RegisterBenchmark(("open book/" + name).c_str(),
                                 [path, &tables, access, ask](benchmark::State& state) {
                                     const auto opened = open(path, tables, access);
                                     ask(*opened->book);
                                     for (auto _ : state) ask(*opened->book);
                                 })
        ->Unit(benchmark::kMillisecond)
        ->Iterations(3);
}

void add_parts(const std::string& path, std::vector<Row>& rows) {
    const auto part = [&rows](const std::string& name, std::function<void(benchmark::State&)> run) {
        rows.push_back({"part", name, false, 0.0});
        benchmark::RegisterBenchmark(("part/" + name).c_str(), std::move(run))
            ->Unit(benchmark::kMillisecond)
            ->Iterations(1);
    };
    part("open the file", [path](benchmark::State& state) {
        for (auto _ : state) benchmark::DoNotOptimize(must(store::open_book(path, store::Access::read)));
    });
    part("read the entries", [path](benchmark::State& state) {
        const auto file = must(store::open_book(path, store::Access::read));
        for (auto _ : state) benchmark::DoNotOptimize(must(file->entries()));
    });
    part("replay them", [path](benchmark::State& state) {
        const auto entries = must(must(store::open_book(path, store::Access::read))->entries());
        for (auto _ : state) benchmark::DoNotOptimize(ledger::replay(entries));
    });
    part("states of the liquids", [path](benchmark::State& state) {
        const auto entries = must(must(store::open_book(path, store::Access::read))->entries());
        const auto cellar = ledger::replay(entries);
        for (auto _ : state) benchmark::DoNotOptimize(engine::states_of(*cellar));
    });
}

}  // namespace
}  // namespace undercroft::bench

int main(int count, char** values) {
    using namespace undercroft;
    using namespace undercroft::bench;
    benchmark::Initialize(&count, values);
    if (count != 2) {
        std::fprintf(stderr, "book_bench FILE\n");
        return 2;
    }
    const std::string path = values[1];
    const tables::Tables tables = must(tables::load());
    const std::string vessel = "Cask 1";
    std::vector<Row> rows;
    const auto ask = [&](const std::string& name, const Ask& question) {
        add(name, path, tables, store::Access::read, question, rows);
    };
    const auto act = [&](const std::string& name, const std::string& when) {
        add(
            name, path, tables, store::Access::write,
            [vessel, when](app::Book& book) { benchmark::DoNotOptimize(must(book.book(reading(vessel, when)))); },
            rows);
    };
    add_parts(path, rows);
    ask("cellar", [](app::Book& book) { benchmark::DoNotOptimize(must(book.cellar({}))); });
    ask("show", [vessel](app::Book& book) { benchmark::DoNotOptimize(must(book.show(vessel, {}))); });
    ask("show, ten years back", [vessel](app::Book& book) {
        benchmark::DoNotOptimize(must(book.show(vessel, {k_ten_years_back, ""})));
    });
    ask("trace back", [vessel](app::Book& book) { benchmark::DoNotOptimize(must(book.trace_back(vessel, {}))); });
    act("book a reading of today", "");
    act("book a reading of ten years back", k_ten_years_back);
    RatioReporter reporter{rows};
    benchmark::RunSpecifiedBenchmarks(&reporter);
    reporter.print_table();
    return 0;
}

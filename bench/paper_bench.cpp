// Sheets of 40 labels with their codes, and the codes of a book of the size a keeper fills in some years.
#include <benchmark/benchmark.h>

#include <random>
#include <string>

#include "paper/book_pages.hpp"
#include "paper/labels.hpp"

namespace {

using namespace undercroft;

void forty_labels(benchmark::State& state) {
    app::LabelView label;
    label.run = "AMB-3";
    label.facts = {{"name", "The Amber"},
                   {"run", "AMB-3"},
                   {"packaged", "2026-04-16"},
                   {"contents", "0.33 L"},
                   {"make-up", "60 % Winter amber (11 months), 40 % Harvest amber (21 months)"},
                   {"age", "2.5 years on average when packaged, from brew day; youngest part 11 months"},
                   {"alcohol", "6.2 % vol (± 0.5)"},
                   {"allergens", "cereals containing gluten (wheat, barley)"},
                   {"culture", "Live culture inside. Wild yeast and lactic bacteria are among it."},
                   {"caution", "Under pressure and alive: keep cool and upright, never in a hot car."}};
    label.strata = {{0.4, 1.75}, {0.6, 0.9}};
    paper::LabelJob job;
    job.grid = paper::parse_grid("A4 2x7").value();
    job.count = 40;
    for (auto _ : state) benchmark::DoNotOptimize(paper::label_sheet(label, job, "2026-04-16").value().pdf.size());
}
BENCHMARK(forty_labels)->Unit(benchmark::kMillisecond);

void a_book_on_paper(benchmark::State& state) {
    std::string lines;
    std::mt19937 bits(7);
    for (int i = 0; i < 2'000; ++i)
        lines += "{\"entry\":" + std::to_string(i) + ",\"salt\":\"" + std::to_string(bits()) + std::to_string(bits()) +
                 "\"}\n";
    for (auto _ : state)
        benchmark::DoNotOptimize(paper::book_pages(lines, paper::a4(), {"a book", "2026-04-16"}).value().pdf.size());
}
BENCHMARK(a_book_on_paper)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();

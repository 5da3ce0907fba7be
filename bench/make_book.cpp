// Writes a book of the benchmarks through the store: make_book FILE ENTRIES [LAST_DAY]
#include <cstdlib>
#include <iostream>
#include <string>

#include "bench/keeper_book.hpp"
#include "store/book_file.hpp"

namespace undercroft::bench {
namespace {

Result<std::int64_t> make_book(const std::string& path, std::size_t entries, const std::string& last_day) {
    TRY(const Day last, parse_iso_day(last_day));
    const std::vector<ledger::Sitting> sittings = keeper_book(entries, noon_of(last, UtcZone{}));
    ledger::BookFacts facts;
    facts.id = "6f1c2a34-5b6d-4e7f-8a9b-0c1d2e3f4a5b";
    facts.name = "Benchmark, " + std::to_string(entries) + " entries";
    facts.zone = "UTC";
    facts.invented = true;
    facts.begun = sittings.front().entries.front().at();
    TRY(const auto book, store::create_book(path, facts));
    std::int64_t sequence = 0;
    for (const ledger::Sitting& sitting : sittings) {
        TRY(const ledger::Booked booked, book->append(sitting, sitting.entries.front().at(), sequence));
        sequence = booked.entries.back().sequence;
    }
    return sequence;
}

}  // namespace
}  // namespace undercroft::bench

int main(int count, char** values) {
    if (count < 3) {
        std::cerr << "make_book FILE ENTRIES [LAST_DAY]\n";
        return 2;
    }
    const auto made = undercroft::bench::make_book(values[1], std::strtoull(values[2], nullptr, 10),
                                                   count > 3 ? values[3] : "2026-06-30");
    if (!made) {
        std::cerr << made.error().where << ": " << made.error().what << "\n";
        return 1;
    }
    std::cout << *made << " entries in " << values[1] << "\n";
    return 0;
}

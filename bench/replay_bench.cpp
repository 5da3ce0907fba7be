// Replays the random and the solera book by four data structures and by the whole ledger, and shares of lots at the
// end.
#include <benchmark/benchmark.h>
#include <sqlite3.h>

#include <cmath>
#include <cstdlib>
#include <functional>
#include <memory>

#include "bench/movements.hpp"
#include "bench/ratio_reporter.hpp"
#include "bench/rivals.hpp"
#include "ledger/replay.hpp"

namespace undercroft::bench {
namespace {

struct Book {
    std::string name;
    Movements movements;
    std::vector<ledger::Entry> entries;
    int asked = 0;  // the vessel whose shares are wanted
};

std::shared_ptr<const Book> make(const std::string& name, Movements movements) {
    auto book = std::make_shared<Book>();
    book->name = name;
    book->movements = std::move(movements);
    book->entries = entries_of(book->movements);
    Volumes volumes{book->movements.vessels};
    for (const Movement& movement : book->movements.list) volumes.move(movement);
    while (volumes.of(book->asked) == Volume{}) ++book->asked;
    return book;
}

constexpr double k_share_tolerance = 1e-12;

// A wrong answer is worth no time: it ends the program.
void must_equal(const LotShares& a, const LotShares& b, const std::string& who) {
    std::vector<double> row(1'000'000, 0.0);
    for (const auto& [lot, share] : a) row[at(lot)] += share;
    for (const auto& [lot, share] : b) row[at(lot)] -= share;
    for (const double difference : row)
        if (std::fabs(difference) > k_share_tolerance) {
            std::fprintf(stderr, "%s: shares differ by %g\n", who.c_str(), difference);
            std::exit(1);
        }
}

template <class Rival>
void check(const Book& book, const SortedVectors& right, const std::string& who) {
    Rival rival{book.movements};
    rival.replay(book.movements);
    for (int vessel = 0; vessel < book.movements.vessels; ++vessel)
        if (right.volumes().of(vessel) > Volume{}) must_equal(rival.shares(vessel), right.shares(vessel), who);
}

void check_ledger(const Book& book, const SortedVectors& right) {
    const auto cellar = ledger::replay(book.entries);
    if (!cellar) {
        std::fprintf(stderr, "%s cannot be: %s\n", book.name.c_str(), cellar.error().what.c_str());
        std::exit(1);
    }
    for (int vessel = 0; vessel < book.movements.vessels; ++vessel) {
        if (right.volumes().of(vessel) == Volume{}) continue;
        LotShares list;
        const auto row = cellar->shares(cellar->vessels[at(vessel)].liquid);
        for (std::size_t lot = 0; lot < row.size(); ++lot) list.emplace_back(static_cast<int>(lot), row[lot]);
        must_equal(list, right.shares(vessel), book.name + ", ledger");
    }
}

void check_all(const Book& book) {
    SortedVectors right{book.movements};
    right.replay(book.movements);
    check<HashMaps>(book, right, book.name + ", hash maps");
    check<DenseRows>(book, right, book.name + ", dense rows");
    check<BareGraph>(book, right, book.name + ", mix graph");
    check_ledger(book, right);
    BareGraph graph{book.movements};
    graph.replay(book.movements);
    const std::vector<double> rows = graph.all_shares();
    const auto lots = at(book.movements.lots);
    for (int vessel = 0; vessel < book.movements.vessels; ++vessel) {
        LotShares list;
        for (std::size_t lot = 0; lot < lots; ++lot) list.emplace_back(lot, rows[at(vessel) * lots + lot]);
        if (right.volumes().of(vessel) > Volume{}) must_equal(list, right.shares(vessel), book.name + ", all rows");
    }
    std::printf("%s: %zu movements, %d lots; the shares of all vessels agree to %g.\n", book.name.c_str(),
                book.movements.list.size(), book.movements.lots, k_share_tolerance);
}

std::vector<Row> g_rows;

void add(const std::string& group, const std::string& name, double target, bool is_baseline,
         std::function<void(benchmark::State&)> run) {
    g_rows.push_back({group, name, is_baseline, target});
    benchmark::RegisterBenchmark((group + "/" + name).c_str(), std::move(run))->Unit(benchmark::kMillisecond);
}

template <class Rival>
void add_one_vessel(const std::shared_ptr<const Book>& book, const std::string& name, double target, bool is_baseline) {
    add(book->name + ": replay, one vessel", name, target, is_baseline, [book](benchmark::State& state) {
        for (auto _ : state) {
            Rival rival{book->movements};
            rival.replay(book->movements);
            benchmark::DoNotOptimize(rival.shares(book->asked));
            state.counters["MB"] = static_cast<double>(rival.bytes()) / 1e6;
        }
    });
}

template <class Rival>
void add_all_vessels(const std::shared_ptr<const Book>& book, const std::string& name, double target,
                     bool is_baseline) {
    add(book->name + ": replay, all vessels", name, target, is_baseline, [book](benchmark::State& state) {
        for (auto _ : state) {
            Rival rival{book->movements};
            rival.replay(book->movements);
            benchmark::DoNotOptimize(rival.all_shares());
        }
    });
}

void add_ledger(const std::shared_ptr<const Book>& book) {
    add(book->name + ": replay, one vessel", "whole ledger", 0, false, [book](benchmark::State& state) {
        for (auto _ : state) {
            const auto cellar = ledger::replay(book->entries);
            benchmark::DoNotOptimize(cellar->shares(cellar->vessels[at(book->asked)].liquid));
        }
    });
}

void add_book(const std::shared_ptr<const Book>& book, double one, double all) {
    add_one_vessel<SortedVectors>(book, "sorted vectors", 0, true);
    add_one_vessel<HashMaps>(book, "hash maps", 0, false);
    add_one_vessel<DenseRows>(book, "dense rows", 0, false);
    add_one_vessel<BareGraph>(book, "mix graph", one, false);
    add_ledger(book);
    add_all_vessels<SortedVectors>(book, "sorted vectors", 0, true);
    add_all_vessels<DenseRows>(book, "dense rows", 0, false);
    add_all_vessels<BareGraph>(book, "mix graph", all, false);
}

// The movements as rows of a table: number, kind, from, to, volume.
std::shared_ptr<sqlite3> table_of(const Movements& movements, const std::string& path) {
    std::remove(path.c_str());
    sqlite3* raw = nullptr;
    sqlite3_open(path.c_str(), &raw);
    const std::shared_ptr<sqlite3> database{raw, sqlite3_close};
    sqlite3_exec(raw, "CREATE TABLE movement (id INTEGER PRIMARY KEY, kind INT, source INT, target INT, ul INT); BEGIN",
                 nullptr, nullptr, nullptr);
    sqlite3_stmt* insert = nullptr;
    sqlite3_prepare_v2(raw, "INSERT INTO movement (kind, source, target, ul) VALUES (?1, ?2, ?3, ?4)", -1, &insert,
                       nullptr);
    for (const Movement& movement : movements.list) {
        sqlite3_bind_int(insert, 1, static_cast<int>(movement.kind));
        sqlite3_bind_int(insert, 2, movement.from);
        sqlite3_bind_int(insert, 3, movement.to);
        sqlite3_bind_int64(insert, 4, movement.volume.ul());
        sqlite3_step(insert);
        sqlite3_reset(insert);
    }
    sqlite3_finalize(insert);
    sqlite3_exec(raw, "COMMIT", nullptr, nullptr, nullptr);
    return database;
}

void add_scan(const std::shared_ptr<const Book>& book, const std::string& path) {
    const std::string group = book->name + ": read against replay";
    const auto database = table_of(book->movements, path);
    add(group, "SQLite scan", 0, true, [database](benchmark::State& state) {
        for (auto _ : state) {
            sqlite3_stmt* select = nullptr;
            sqlite3_prepare_v2(database.get(), "SELECT kind, source, target, ul FROM movement ORDER BY id", -1, &select,
                               nullptr);
            std::int64_t sum = 0;
            while (sqlite3_step(select) == SQLITE_ROW)
                sum += sqlite3_column_int(select, 0) + sqlite3_column_int(select, 1) + sqlite3_column_int(select, 2) +
                       sqlite3_column_int64(select, 3);
            sqlite3_finalize(select);
            benchmark::DoNotOptimize(sum);
        }
    });
    add(group, "mix graph", 4, false, [book](benchmark::State& state) {
        for (auto _ : state) {
            BareGraph graph{book->movements};
            graph.replay(book->movements);
            benchmark::DoNotOptimize(graph.bytes());
        }
    });
    add(group, "whole ledger", 0, false, [book](benchmark::State& state) {
        for (auto _ : state) benchmark::DoNotOptimize(ledger::replay(book->entries));
    });
}

}  // namespace
}  // namespace undercroft::bench

int main(int count, char** values) {
    using namespace undercroft::bench;
    benchmark::Initialize(&count, values);
    const auto random = make("random 100k", random_book(100'000));
    const auto solera = make("solera 100k", solera_book(100'000));
    if (count > 1 && values[1] == std::string("agree")) {
        for (const auto& book : {random, solera}) check_all(*book);
        return 0;
    }
    const auto large = make("solera 1M", solera_book(1'000'000));
    for (const auto& book : {random, solera, large}) check_all(*book);
    add_book(random, 250, 6);
    add_book(solera, 25, 10);
    add_book(large, 100, 0);
    add_scan(large, count > 1 ? values[1] : "/tmp/undercroft-bench-movements.sqlite");
    RatioReporter reporter{g_rows};
    benchmark::RunSpecifiedBenchmarks(&reporter);
    reporter.print_table();
    return 0;
}

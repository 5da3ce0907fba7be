#include "bench/movements.hpp"

#include <algorithm>
#include <string>

#include "bench/sitting_key.hpp"
#include "bench/split_mix.hpp"
#include "ledger/order.hpp"

namespace undercroft::bench {
namespace {

constexpr int k_ranks = 5;
constexpr int k_vessels = 500;
constexpr int k_of_a_rank = k_vessels / k_ranks;
constexpr int k_lots_a_year = 8;

// What is in the vessels while a book is drawn.
class Drawn {
public:
    Drawn(int vessels, Volume capacity, std::size_t wanted) : m_wanted(wanted) {
        m_book.vessels = vessels;
        m_book.capacity = capacity;
        m_held.resize(static_cast<std::size_t>(vessels));
    }
    [[nodiscard]] bool full() const { return m_book.list.size() >= m_wanted; }
    Volume& held(int vessel) { return m_held[static_cast<std::size_t>(vessel)]; }
    void lot(int to, Volume volume) {
        if (add({MovementKind::lot, -1, to, volume})) ++m_book.lots;
    }
    void transfer(int from, int to, Volume volume) { add({MovementKind::transfer, from, to, volume}); }
    void removal(int from, Volume volume) { add({MovementKind::removal, from, -1, volume}); }
    Movements take() { return std::move(m_book); }

private:
    bool add(Movement movement) {
        if (full() || movement.volume <= Volume{}) return false;
        if (movement.from >= 0) held(movement.from) -= movement.volume;
        if (movement.to >= 0) held(movement.to) += movement.volume;
        m_book.list.push_back(movement);
        return true;
    }

    std::size_t m_wanted;
    Movements m_book;
    std::vector<Volume> m_held;
};

Volume part(Volume volume, double share) {
    return Volume::from_ul(static_cast<std::int64_t>(static_cast<double>(volume.ul()) * share));
}

}  // namespace

Movements random_book(std::size_t movements) {
    constexpr Volume k_capacity = Volume::from_ul(2'000'000'000);
    const Volume nearly_nothing = part(k_capacity, 0.001);
    Draws<XorShift64> draws;
    Drawn book{k_vessels, k_capacity, movements};
    while (!book.full()) {
        const double what = draws.uniform();
        if (what < 0.12) {
            const int to = draws.below(k_vessels);
            book.lot(to, part(k_capacity - book.held(to), draws.uniform(0.2, 0.8)));
            continue;
        }
        const int from = draws.below(k_vessels);
        if (book.held(from) < nearly_nothing) continue;
        if (what < 0.90) {
            const int to = draws.below(k_vessels);
            if (to == from) continue;
            const Volume wanted =
                draws.chance(0.25) ? book.held(from) : part(book.held(from), draws.uniform(0.01, 0.31));
            book.transfer(from, to, std::min(wanted, k_capacity - book.held(to)));
        } else {
            book.removal(from, draws.chance(0.1) ? book.held(from) : part(book.held(from), draws.uniform(0.0, 0.02)));
        }
    }
    return book.take();
}

Movements solera_book(std::size_t movements) {
    constexpr Volume k_capacity = Volume::from_ul(600'000'000);
    constexpr int k_tank = k_vessels;
    Draws<XorShift64> draws;
    Drawn book{k_vessels + 1, k_capacity * k_vessels, movements};
    // Vessels of one rank, filled up by so many new lots: each serves its share of the vessels.
    const auto fill = [&](int first, int count, int lots) {
        for (int lot = 0; lot < lots; ++lot) {
            const int begin = first + count * lot / lots;
            const int end = first + count * (lot + 1) / lots;
            Volume missing;
            for (int vessel = begin; vessel < end; ++vessel) missing += k_capacity - book.held(vessel);
            book.lot(k_tank, missing);
            for (int vessel = begin; vessel < end; ++vessel)
                book.transfer(k_tank, vessel, k_capacity - book.held(vessel));
        }
    };
    fill(0, k_vessels, k_lots_a_year);
    while (!book.full()) {
        for (int month = 0; month < 12; ++month)
            for (int vessel = 0; vessel < k_vessels; ++vessel)
                if (draws.chance(0.3)) book.removal(vessel, part(book.held(vessel), draws.uniform(0.0, 0.005)));
        // The last rank is the oldest.
        for (int vessel = k_vessels - k_of_a_rank; vessel < k_vessels; ++vessel)
            book.removal(vessel, part(book.held(vessel), 0.25));
        for (int rank = k_ranks - 1; rank > 0; --rank)
            for (int vessel = rank * k_of_a_rank; vessel < (rank + 1) * k_of_a_rank; ++vessel)
                for (int time = 0; time < 3; ++time) {
                    const int from = (rank - 1) * k_of_a_rank + draws.below(k_of_a_rank);
                    const Volume room = k_capacity - book.held(vessel);
                    book.transfer(from, vessel, std::min(part(book.held(from), 0.25), part(room, 0.5)));
                }
        fill(0, k_of_a_rank, k_lots_a_year);
    }
    return book.take();
}

std::vector<ledger::Entry> entries_of(const Movements& movements) {
    std::vector<ledger::Entry> entries;
    std::vector<ledger::EntryKey> vessels;
    const Instant begin{1'000'000'000'000};
    const auto write = [&](ledger::Body body) {
        const auto number = static_cast<unsigned>(entries.size());
        const Instant at{begin.ms + static_cast<std::int64_t>(number) * 60'000};
        ledger::Entry entry;
        entry.key = {sitting_key(at, number), 0};
        entry.place = ledger::place_at(at, entry.key);
        entry.body = std::move(body);
        entry.recorded = at;
        entry.sequence = static_cast<std::int64_t>(number) + 1;
        entries.push_back(std::move(entry));
        return entries.back().key;
    };
    for (int vessel = 0; vessel < movements.vessels; ++vessel) {
        ledger::VesselJoins joins;
        joins.name = "Vessel " + std::to_string(vessel);
        joins.capacity = movements.capacity;
        vessels.push_back(write(joins));
    }
    const auto key = [&vessels](int vessel) { return vessels[static_cast<std::size_t>(vessel)]; };
    for (const Movement& movement : movements.list) {
        switch (movement.kind) {
            case MovementKind::lot: {
                ledger::LotEnters lot;
                lot.vessel = key(movement.to);
                lot.name = "lot";
                lot.volume = movement.volume;
                write(lot);
                break;
            }
            case MovementKind::transfer: {
                ledger::Move move;
                move.from = key(movement.from);
                move.to = {{key(movement.to), movement.volume}};
                write(move);
                break;
            }
            case MovementKind::removal:
                write(ledger::Loss{key(movement.from), movement.volume, ledger::LossCause::evaporation});
                break;
        }
    }
    return entries;
}

}  // namespace undercroft::bench

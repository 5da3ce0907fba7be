#include "bench/keeper_book.hpp"

#include <algorithm>
#include <string>

#include "bench/sitting_key.hpp"
#include "bench/split_mix.hpp"
#include "ledger/order.hpp"

namespace undercroft::bench {
namespace {

using namespace ledger;

constexpr std::int64_t k_ms_per_day = 86'400'000;
constexpr int k_years = 30;

Volume litres(double amount) {
    return Volume::from_ul(static_cast<std::int64_t>(amount * 1000.0) * 1000);
}

// A vessel as the generator sees it: enough to write only what is possible.
struct Held {
    EntryKey key;
    Volume capacity;
    Volume volume;
    double gravity = 1.012;
};

struct Bottles {
    EntryKey key;
    int left = 0;
};

class Keeper {
public:
    Keeper(std::size_t entries, Instant last, std::uint64_t seed) : m_wanted(entries), m_draws(SplitMix64{seed}) {
        m_now = {last.ms - static_cast<std::int64_t>(k_years) * 365 * k_ms_per_day};
        m_last = last;
    }

    std::vector<Sitting> write() {
        const std::size_t soleras = std::max<std::size_t>(2, m_wanted / 2'000);
        found(soleras);
        // Days pass so that the book is full on the last of them.
        while (m_written < m_wanted) {
            const double done = static_cast<double>(m_written) / static_cast<double>(m_wanted);
            const auto span = static_cast<double>(k_years) * 365 * static_cast<double>(k_ms_per_day);
            const auto at = m_last.ms - static_cast<std::int64_t>((1.0 - done) * span);
            m_now = {std::max(at, m_now.ms + 60'000)};
            begin();
            const int acts = static_cast<int>(soleras / 2 + 1);
            for (int act = 0; act < acts; ++act) visit();
            end();
        }
        return std::move(m_sittings);
    }

private:
    void begin() { m_sitting = Sitting{sitting_key(m_now, m_number++), {}, {}}; }
    void end() {
        for (Entry& entry : m_sitting.entries) entry.sitting_size = static_cast<int>(m_sitting.entries.size());
        m_written += m_sitting.entries.size();
        m_sittings.push_back(std::move(m_sitting));
    }
    EntryKey write(Body body) {
        Entry entry;
        entry.key = {m_sitting.key, static_cast<int>(m_sitting.entries.size())};
        entry.place = place_at(m_now, entry.key);
        entry.body = std::move(body);
        m_sitting.entries.push_back(entry);
        return entry.key;
    }

    void found(std::size_t soleras) {
        begin();
        for (std::size_t i = 0; i < soleras + soleras / 2; ++i) {
            const bool solera = i < soleras;
            const std::string number = std::to_string(i + 1);
            VesselJoins joins;
            joins.name = (solera ? "Cask " : "Jar ") + number;
            joins.capacity = litres(solera ? 228 : 54);
            joins.ullage = litres(2);
            joins.role = solera ? VesselRole::solera : VesselRole::finishing;
            joins.material = solera ? "oak" : "glass";
            joins.location = "under the stairs";
            const EntryKey key = write(joins);
            (solera ? m_soleras : m_jars).push_back({key, joins.capacity, {}, 1.012});
        }
        for (Held& solera : m_soleras) {
            lot_into(solera, litres(200), Reason::fill);
            Pitch pitch;
            pitch.vessel = solera.key;
            pitch.culture = {"House culture", "mixed_sour", KillerPhenotype::neutral, ToxinType::none, Diastatic::no};
            write(pitch);
        }
        end();
    }

    void lot_into(Held& target, Volume volume, Reason reason) {
        LotEnters lot;
        lot.vessel = target.key;
        lot.name = "Brew " + std::to_string(++m_brews);
        lot.volume = volume;
        lot.reason = reason;
        lot.brewed_from = day_of_now();
        lot.original_gravity = Decimal{1040 + m_draws.below(25), 3};
        lot.gravity = Decimal{1010 + m_draws.below(8), 3};
        lot.ibu = Decimal{6 + m_draws.below(10), 0};
        lot.allergens = {{"gluten", std::nullopt}};
        write(lot);
        target.volume += volume;
        target.gravity = (target.gravity + 1.014) / 2.0;
    }

    // One thing a keeper does: mostly to look, now and then a turn.
    void visit() {
        const double what = m_draws.uniform();
        Held& solera = m_soleras[static_cast<std::size_t>(m_draws.below(static_cast<int>(m_soleras.size())))];
        if (what < 0.35)
            read(solera);
        else if (what < 0.55)
            drink();
        else if (what < 0.65)
            taste(solera);
        else if (what < 0.75)
            evaporate(solera);
        else if (what < 0.80)
            note(solera);
        else
            turn(solera);
    }

    void read(Held& held) {
        if (held.volume < litres(1)) return;
        held.gravity = std::max(1.001, held.gravity - m_draws.uniform(0.0, 0.001));
        Reading reading;
        reading.subject = held.key;
        reading.values = {
            {Quantity::gravity, Decimal::from_double(held.gravity, 4), "SG"},
            {Quantity::ph, Decimal::from_double(m_draws.uniform(3.2, 3.7), 2), "pH"},
            {Quantity::temperature, Decimal::from_double(m_draws.uniform(12, 19), 1), "C"},
        };
        reading.instrument = "glass hydrometer";
        reading.sample = Volume::from_ul(20'000);
        write(reading);
        held.volume -= reading.sample;
    }
    void taste(Held& held) {
        if (held.volume < litres(1)) return;
        Tasting tasting;
        tasting.subject = held.key;
        tasting.scores = {{"sour", Decimal{m_draws.below(100), 1}}, {"funk", Decimal{m_draws.below(100), 1}}};
        tasting.words = "drier than the last time, a little oak";
        tasting.liking = Decimal{m_draws.below(100), 1};
        tasting.sample = Volume::from_ul(50'000);
        write(tasting);
        held.volume -= tasting.sample;
    }
    void evaporate(Held& held) {
        if (held.volume < litres(10)) return;
        const Volume volume = litres(m_draws.uniform(0.2, 2.0));
        write(Loss{held.key, volume, LossCause::evaporation});
        held.volume -= volume;
    }
    void note(const Held& held) { write(Note{held.key, "the bung wants a new cloth"}); }

    void drink() {
        if (m_bottles.empty()) return;
        Bottles& bottles = m_bottles[static_cast<std::size_t>(m_draws.below(static_cast<int>(m_bottles.size())))];
        Take take;
        take.run = bottles.key;
        take.count = std::min(bottles.left, 1 + m_draws.below(6));
        take.cause = m_draws.chance(0.7) ? TakeCause::opened : TakeCause::given;
        write(take);
        bottles.left -= take.count;
        if (bottles.left == 0) {
            bottles = m_bottles.back();
            m_bottles.pop_back();
        }
    }

    // Pull into a free jar, refill; what stands in a jar gets fruit, or is packaged.
    void turn(Held& solera) {
        Held& jar = m_jars[static_cast<std::size_t>(m_draws.below(static_cast<int>(m_jars.size())))];
        if (jar.volume == Volume{}) {
            const Volume pulled = litres(m_draws.uniform(20, 45));
            if (solera.volume < pulled + litres(60)) return;
            Move move;
            move.from = solera.key;
            move.to = {{jar.key, pulled}};
            move.reason = Reason::pull;
            write(move);
            solera.volume -= pulled;
            jar.volume += pulled;
            jar.gravity = solera.gravity;
            const Volume room = solera.capacity - litres(2) - solera.volume;
            lot_into(solera, std::min(room, litres(m_draws.uniform(20, 60))), Reason::refill);
        } else if (m_draws.chance(0.3) && jar.volume < litres(44)) {
            fruit_into(jar);
        } else {
            package(jar);
        }
    }

    void fruit_into(Held& jar) {
        Addition addition;
        addition.vessel = jar.key;
        addition.kind = AdditionKind::fruit;
        addition.item = "plum";
        addition.name = "plum, fresh";
        addition.mass = Mass::from_mg(4'000'000);
        addition.brings = Volume::from_ul(3'700'000);
        addition.contents.glucose = Mass::from_mg(200'000);
        addition.contents.fructose = Mass::from_mg(120'000);
        addition.contents.sucrose = Mass::from_mg(60'000);
        addition.contents.sorbitol = Mass::from_mg(56'000);
        addition.contents.malic_acid = Mass::from_mg(60'000);
        addition.contents.potassium = Mass::from_mg(6'000);
        write(addition);
        jar.volume += addition.brings;
    }

    void package(Held& jar) {
        Package package;
        package.from = jar.key;
        package.run = "R" + std::to_string(++m_runs);
        package.container = "bottle_330_heavy";
        package.container_name = "bottle 0.33 L, heavy";
        package.fill = Volume::from_ul(330'000);
        package.count = static_cast<int>(jar.volume.ul() / package.fill.ul());
        package.head_space = Decimal{4, 2};
        package.loss = jar.volume - package.fill * package.count;
        package.location = "shelf 3";
        if (package.count == 0) return;
        const EntryKey key = write(package);
        m_bottles.push_back({key, package.count});
        Snapshot verdict;
        verdict.kind = SnapshotKind::verdict;
        verdict.subject = key;
        verdict.text = "No objection at the first check.";
        verdict.facts = {{"verdict", "ready"}, {"store", "25 °C"}, {"limit", "4.0 bar"}};
        write(verdict);
        write(Care{jar.key, "hot water, then steam"});
        jar.volume = {};
    }

    [[nodiscard]] Day day_of_now() const { return day_of(m_now, UtcZone{}); }

    std::size_t m_wanted;
    Draws<SplitMix64> m_draws;
    Instant m_now;
    Instant m_last;
    std::size_t m_written = 0;
    unsigned m_number = 0;
    int m_brews = 0;
    int m_runs = 0;
    std::vector<Held> m_soleras;
    std::vector<Held> m_jars;
    std::vector<Bottles> m_bottles;
    Sitting m_sitting;
    std::vector<Sitting> m_sittings;
};

}  // namespace

std::vector<Sitting> keeper_book(std::size_t entries, Instant last, std::uint64_t seed) {
    return Keeper{entries, last, seed}.write();
}

std::vector<Entry> booked(const std::vector<Sitting>& sittings) {
    std::vector<Entry> entries;
    for (const Sitting& sitting : sittings)
        for (const Entry& entry : sitting.entries) {
            entries.push_back(entry);
            entries.back().sequence = static_cast<std::int64_t>(entries.size());
            entries.back().recorded = entry.at();
        }
    return entries;
}

}  // namespace undercroft::bench

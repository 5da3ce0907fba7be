// Ages over random books and random chains, held to sums that know nothing of the mix graph or of litres by fill.
#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/age/profile.hpp"
#include "engine/age/solera.hpp"
#include "tests/properties/always.hpp"
#include "tests/properties/dense_reference.hpp"
#include "tests/properties/random_book.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

struct DensePart {
    long double years;
    long double volume;
};

// Beer of a holder in the dense table, with the age of each lot counted here. Empty when found liquid is in it: that is
// spread over what the vessel held then, which the table does not keep.
std::vector<DensePart> dense_parts(const Cellar& cellar, const DenseHolder& holder,
                                   const std::vector<std::string>& names, Instant when) {
    std::vector<DensePart> parts;
    for (std::size_t i = 0; i < cellar.lots.size(); ++i) {
        const auto part = holder.parts.find(names[i]);
        if (part == holder.parts.end() || part->second <= 0.0L) continue;
        if (cellar.lots[i].like != k_no_node) return {};
        if (cellar.lots[i].kind != LotKind::beer) continue;
        const LotState& lot = cellar.lots[i];
        const long double ms = static_cast<long double>(when.ms - lot.entered.ms);
        long double years = std::max(0.0L, ms / 31'557'600'000.0L);
        // A brew day that is a range counts by its middle, even from entry: that beer was old when it came.
        if (lot.brewed_from && lot.brewed_to && *lot.brewed_from != *lot.brewed_to) {
            const Day day = day_of(when, UtcZone{});
            const int days =
                std::max(0, days_between(*lot.brewed_from, day)) + std::max(0, days_between(*lot.brewed_to, day));
            years = days / 2.0L / 365.25L;
        }
        parts.push_back({years, part->second});
    }
    return parts;
}

TEST(AnyBook, IsAsOldAsADenseTableOfVesselsByLotsSays) {
    long compared = 0;
    expect_for_seeds("ages against a dense table", cases_to_run(), [&](std::uint64_t seed) {
        RandomBook book{seed};
        book.grow(60);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        const DenseCellar dense = dense_cellar_of(book.entries());
        const std::vector<std::string> names = dense_lot_names(*cellar);
        const Instant when{cellar->entries.back()->at().ms + 400 * k_ms_per_day};
        const auto look = [&](const EntryKey& key, const Liquid& liquid) {
            const auto age = engine::age_of(*cellar, liquid, when, UtcZone{}, engine::AgeFrom::entry);
            const auto parts = dense_parts(*cellar, dense.holders.at(key.text()), names, when);
            if (!age || parts.empty()) return;
            long double volume = 0.0L;
            long double sum = 0.0L;
            for (const DensePart& part : parts) {
                volume += part.volume;
                sum += part.volume * part.years;
            }
            const long double mean = sum / volume;
            long double variance = 0.0L;
            long double older = 0.0L;  // from the day before it is a year and a half
            for (const DensePart& part : parts) {
                variance += part.volume / volume * (part.years - mean) * (part.years - mean);
                if (part.years >= 1.5L - 1.0L / 365.25L) older += part.volume / volume;
            }
            // Shares are exact to 1e-15 of the whole liquid; of beer that is a sliver of it, that is divided by the
            // sliver.
            const double rounding = 1e-15 / age->beer_share;
            RC_ASSERT(std::fabs(age->mean_years - static_cast<double>(mean)) <= 1e-10 + rounding);
            RC_ASSERT(std::fabs(age->sd_years - std::sqrt(static_cast<double>(variance))) <= 1e-6 + rounding);
            const auto profile = engine::profile_of(*age, {1.5});
            RC_ASSERT(std::fabs(profile.older[0].share.middle - static_cast<double>(older)) <= 1e-9 + rounding);
            // A percentile is an age that is there, with at least so much no older and less than so much younger.
            for (const engine::AgePercentile& row : profile.percentiles) {
                long double no_older = 0.0L;
                long double younger = 0.0L;
                for (const DensePart& part : parts) {
                    if (static_cast<double>(part.years) <= row.years.middle + 1e-9) no_older += part.volume / volume;
                    if (static_cast<double>(part.years) < row.years.middle - 1e-9) younger += part.volume / volume;
                }
                RC_ASSERT(static_cast<double>(no_older) >= row.percent / 100.0 - 1e-8);
                RC_ASSERT(static_cast<double>(younger) < row.percent / 100.0 + 1e-8);
            }
            ++compared;
        };
        for (const VesselState& vessel : cellar->vessels) look(vessel.key, vessel.liquid);
        for (const RunState& run : cellar->runs) look(run.key, run.liquid);
        return book.entries().size();
    });
    EXPECT_GT(compared, cases_to_run()) << "hardly a liquid was compared";
}

TEST(AnyChain, WorkedOutWithoutABookIsWhatTheSameMovesGiveInOne) {
    expect_for_seeds("chains against a replayed book", cases_to_run(2), [](std::uint64_t seed) {
        SplitMix64 random(seed);
        engine::SoleraPlan plan;
        const auto stages = static_cast<std::size_t>(random.between(1, 5));
        for (std::size_t i = 0; i < stages; ++i)
            plan.stages.push_back(Volume::from_ul(random.between(20, 200) * 1'000'000));
        const Volume smallest = *std::min_element(plan.stages.begin(), plan.stages.end());
        plan.pull = Volume::from_ul(smallest.ul() * random.between(5, 40) / 100);
        if (random.one_in(2)) plan.first_pulls = {Volume::from_ul(plan.pull.ul() / 2), Volume{}};
        plan.evaporation = random.one_in(2) ? static_cast<double>(random.between(1, 6)) / 100.0 : 0.0;
        plan.interval_years = static_cast<double>(random.between(1, 8)) / 4.0;
        if (plan.trouble() != nullptr) plan.evaporation = 0.0;
        RC_ASSERT(plan.trouble() == nullptr);
        const auto turns = engine::turns_of(plan, 10);

        WrittenBook book;
        std::vector<EntryKey> vessels;
        for (const Volume full : plan.stages) {
            vessels.push_back(book.vessel(on_day(0), "Stage " + std::to_string(vessels.size() + 1), full.in_litres()));
            book.lot(on_day(0), vessels.back(), "fill", full.in_litres());
        }
        for (const engine::SoleraTurn& turn : turns) {
            const Instant when{on_day(0).ms + std::llround(turn.years * 31'557'600'000.0)};
            for (std::size_t i = 0; i < vessels.size(); ++i)
                if (plan.evaporation > 0.0)
                    book.loss(when, vessels[i], plan.stages[i].in_litres() * plan.evaporation, LossCause::evaporation);
            const auto cellar = book.cellar();
            RC_ASSERT(bool(cellar));
            for (std::size_t i = 0; i < vessels.size(); ++i) {
                const auto age =
                    engine::age_of(*cellar, cellar->vessels[i].liquid, when, UtcZone{}, engine::AgeFrom::entry);
                RC_ASSERT(age.has_value());
                // The book rounds evaporation to the microlitre, of 20 L at least, ten times over.
                RC_ASSERT(std::fabs(age->mean_years - turn.stage_years[i]) <= 1e-5);
                if (i + 1 == vessels.size()) {
                    RC_ASSERT(std::fabs(age->sd_years - turn.sd_years) <= 1e-5);
                    RC_ASSERT(std::fabs(engine::share_older_than(*age, 1.0 - 1e-9) - turn.share_older_than(1.0)) <=
                              1e-5);
                }
            }
            double gap = turn.pulled.in_litres();
            if (gap > 0.0) book.loss(when, vessels.back(), gap, LossCause::served);
            for (std::size_t i = vessels.size(); i-- > 0;) {
                gap += plan.stages[i].in_litres() * plan.evaporation;
                if (gap <= 0.0) break;
                if (i == 0)
                    book.lot(when, vessels[0], "fill", gap);
                else
                    book.move(when, vessels[i - 1], vessels[i], gap);
            }
        }
        return book.entries().size();
    });
}

}  // namespace
}  // namespace undercroft::testing

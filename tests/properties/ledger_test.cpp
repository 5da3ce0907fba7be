// Properties of the replay over random books (DESIGN 5: order, exact volume, sources, certainty, supersede).
#include <algorithm>
#include <cmath>
#include <set>

#include "engine/age/age.hpp"
#include "engine/state/state.hpp"
#include "engine/trace/recall.hpp"
#include "tests/properties/all_ways.hpp"
#include "tests/properties/always.hpp"
#include "tests/properties/dense_reference.hpp"
#include "tests/properties/random_book.hpp"
#include "tests/properties/told.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

// Sums of up to some hundred products of doubles near one.
constexpr std::size_t k_entries = 60;

RandomBook book_of(std::uint64_t seed) {
    RandomBook book{seed};
    book.grow(k_entries);
    return book;
}

template <class Look>
void each_liquid(const Cellar& cellar, Look look) {
    for (std::size_t i = 0; i < cellar.vessels.size(); ++i)
        look(cellar.vessels[i].key, cellar.vessels[i].liquid, engine::HolderRef{static_cast<int>(i), -1});
    for (std::size_t i = 0; i < cellar.runs.size(); ++i)
        look(cellar.runs[i].key, cellar.runs[i].liquid, engine::HolderRef{-1, static_cast<int>(i)});
}

TEST(AnyBook, HasTakenInWhatWentOutAndWhatIsOnHandToTheMicrolitre) {
    expect_for_seeds("in = out + on hand", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        const Totals totals = cellar->totals();
        RC_ASSERT(totals.in.ul() == (totals.out + totals.on_hand).ul());
        const DenseCellar dense = dense_cellar_of(book.entries());
        RC_ASSERT(totals.in.ul() == dense.in);
        RC_ASSERT(totals.out.ul() == dense.out);
        for (const VesselState& vessel : cellar->vessels) {
            Volume solids;
            for (const int index : vessel.additions_inside)
                solids += cellar->additions[static_cast<std::size_t>(index)].as.solids;
            RC_ASSERT(vessel.liquid.volume >= Volume{});
            RC_ASSERT(vessel.liquid.volume + solids <= vessel.as.capacity);
        }
        return book.entries().size();
    });
}

TEST(AnyBook, HoldsTheSharesThatATableOfVesselsByLotsGives) {
    expect_for_seeds("shares against a dense table", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        const DenseCellar dense = dense_cellar_of(book.entries());
        const std::vector<std::string> names = dense_lot_names(*cellar);
        each_liquid(*cellar, [&](const EntryKey& key, const Liquid& liquid, engine::HolderRef) {
            const DenseHolder& expected = dense.holders.at(key.text());
            RC_ASSERT(liquid.volume.ul() == expected.ul);
            const std::vector<double> shares = cellar->shares(liquid);
            if (liquid.node == k_no_node) {
                RC_ASSERT(liquid.volume == Volume{});
                return;
            }
            double sum = 0.0;
            long double total = 0.0L;
            for (const auto& [name, part] : expected.parts) total += part;
            for (std::size_t i = 0; i < shares.size(); ++i) {
                sum += shares[i];
                const auto part = expected.parts.find(names[i]);
                const double share = part == expected.parts.end() ? 0.0 : static_cast<double>(part->second / total);
                RC_ASSERT(std::fabs(shares[i] - share) <= k_share_tolerance);
            }
            RC_ASSERT(std::fabs(sum - 1.0) <= k_share_tolerance);
        });
        return book.entries().size();
    });
}

TEST(AnyBook, RecallsALotFromEveryPlaceOfTheDenseTableAndFromNoOther) {
    expect_for_seeds("recall against a dense table", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        const DenseCellar dense = dense_cellar_of(book.entries());
        const std::vector<std::string> names = dense_lot_names(*cellar);
        for (std::size_t lot = 0; lot < names.size(); ++lot) {
            std::map<engine::HolderRef, double> recalled;
            for (const engine::HeldIn& held : engine::holders_of(*cellar, {static_cast<int>(lot)}))
                recalled[held.holder] = held.share;
            each_liquid(*cellar, [&](const EntryKey& key, const Liquid& liquid, engine::HolderRef holder) {
                const DenseHolder& expected = dense.holders.at(key.text());
                const auto found = recalled.find(holder);
                // Of bottles that are gone the table keeps nothing; the recall names their run all the same.
                if (liquid.volume == Volume{}) {
                    RC_ASSERT(found == recalled.end() || holder.run >= 0);
                    return;
                }
                long double total = 0.0L;
                for (const auto& [name, part] : expected.parts) total += part;
                const auto part = expected.parts.find(names[lot]);
                const double share = part == expected.parts.end() ? 0.0 : static_cast<double>(part->second / total);
                RC_ASSERT(std::fabs((found == recalled.end() ? 0.0 : found->second) - share) <= k_share_tolerance);
            });
        }
        return book.entries().size();
    });
}

TEST(AnyBook, KnowsTheCulturesAndAllergensThatAnyWayLeadsToAndNoOthers) {
    expect_for_seeds("cultures and allergens against a search of all ways", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        auto reached = all_ways(book.entries());
        const std::vector<std::string> names = dense_culture_names(*cellar);
        each_liquid(*cellar, [&](const EntryKey& key, const Liquid& liquid, engine::HolderRef) {
            std::map<std::string, Certainty> found;
            for (const CultureHere& here : liquid.cultures)
                found[names[static_cast<std::size_t>(here.culture)]] = here.certainty;
            RC_ASSERT(found == reached[key.text()].cultures);
            std::map<std::string, Amount> allergens;
            for (const AllergenHere& here : liquid.allergens)
                allergens[here.group] = here.mg_per_litre ? Amount::known : Amount::unknown;
            RC_ASSERT(allergens == reached[key.text()].allergens);
        });
        return book.entries().size();
    });
}

TEST(AnyBook, NeverLosesAnAllergenWhileLiquidMoves) {
    expect_for_seeds("allergens against a plain table", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        const DenseCellar dense = dense_cellar_of(book.entries());
        each_liquid(*cellar, [&](const EntryKey& key, const Liquid& liquid, engine::HolderRef) {
            const auto& expected = dense.holders.at(key.text()).allergens;
            RC_ASSERT(liquid.allergens.size() == expected.size());
            for (const AllergenHere& here : liquid.allergens) {
                RC_ASSERT(expected.contains(here.group));
                const auto& amount = expected.at(here.group);
                RC_ASSERT(here.mg_per_litre.has_value() == amount.has_value());
                if (!amount) continue;
                const double there = static_cast<double>(*amount);
                RC_ASSERT(std::fabs(*here.mg_per_litre - there) <= 1e-9 * std::max(1.0, there));
            }
            // Whatever lot is in it has brought its allergens with it.
            const std::vector<double> shares = cellar->shares(liquid);
            for (const Entry* entry : cellar->entries) {
                const auto* lot = std::get_if<LotEnters>(&entry->body);
                if (lot == nullptr) continue;
                for (std::size_t i = 0; i < shares.size(); ++i)
                    if (shares[i] > 0.0 && cellar->lots[i].name == lot->name)
                        for (const Allergen& one : lot->allergens)
                            RC_ASSERT(std::any_of(liquid.allergens.begin(), liquid.allergens.end(),
                                                  [&](const AllergenHere& here) { return here.group == one.group; }));
            }
        });
        return book.entries().size();
    });
}

TEST(AnyBook, IsTheSameInWhateverOrderItsEntriesArrive) {
    expect_for_seeds("arrival order", cases_to_run(), [](std::uint64_t seed) {
        RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        std::vector<Entry> shuffled = book.entries();
        for (std::size_t i = shuffled.size(); i > 1; --i)
            std::swap(shuffled[i - 1],
                      shuffled[static_cast<std::size_t>(book.random().between(0, static_cast<std::int64_t>(i) - 1))]);
        const auto again = replay(shuffled);
        RC_ASSERT(bool(again));
        RC_ASSERT(told(*again) == told(*cellar));
        RC_ASSERT(told(engine::states_of(*again)) == told(engine::states_of(*cellar)));
        return book.entries().size();
    });
}

TEST(AnyBook, IsAsBeforeWhenACorrectionIsCorrectedBack) {
    expect_for_seeds("correct and back", cases_to_run(), [](std::uint64_t seed) {
        RandomBook book = book_of(seed);
        const auto before = replay(book.entries());
        RC_ASSERT(bool(before));
        // One entry after the other until one may be changed on its own: others stand on most.
        std::vector<Entry> entries = book.entries();
        const Entry target = entries[book.any_live()];
        Body changed = target.body;
        if (auto* lot = std::get_if<LotEnters>(&changed)) lot->volume = Volume::from_ul(1);
        if (auto* reading = std::get_if<Reading>(&changed)) reading->sample = Volume{};
        if (auto* vessel = std::get_if<VesselJoins>(&changed)) vessel->name += " again";
        if (auto* loss = std::get_if<Loss>(&changed)) loss->volume = Volume::from_ul(1);
        if (auto* settle = std::get_if<Settle>(&changed)) settle->missing = settle->surplus = Volume{};
        if (auto* calibrate = std::get_if<Calibrate>(&changed)) calibrate->offset = Decimal{1, 1};
        const Entry there = book.correction_of(target, changed, 900'001);
        const Entry back = book.correction_of(there, target.body, 900'002);
        entries.push_back(there);
        entries.push_back(back);
        const auto restored = replay(entries);
        RC_ASSERT(bool(restored));
        RC_ASSERT(told(*restored) == told(*before));
        RC_ASSERT(told(engine::states_of(*restored)) == told(engine::states_of(*before)));
        return entries.size();
    });
}

TEST(AnyBook, IsAsBeforeWhenAVoidedEntryIsPutBack) {
    expect_for_seeds("void and back", cases_to_run(), [](std::uint64_t seed) {
        RandomBook book = book_of(seed);
        const auto before = replay(book.entries());
        RC_ASSERT(bool(before));
        std::vector<Entry> entries = book.entries();
        const Entry target = entries[book.any_live()];
        const Entry gone = book.correction_of(target, Void{}, 900'001);
        entries.push_back(gone);
        if (const auto without = replay(entries)) {
            const Totals totals = without->totals();
            RC_ASSERT(totals.in.ul() == (totals.out + totals.on_hand).ul());
            RC_ASSERT(without->entries.size() + 1 == before->entries.size());
        }
        entries.push_back(book.correction_of(gone, target.body, 900'002));
        const auto restored = replay(entries);
        RC_ASSERT(bool(restored));
        RC_ASSERT(told(*restored) == told(*before));
        return entries.size();
    });
}

TEST(AnyBook, FindsTheWholeOfEveryLotAgain) {
    expect_for_seeds("traces forward and back", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        for (std::size_t i = 0; i < cellar->lots.size(); ++i) {
            const engine::ForwardTrace trace = engine::trace_lots(*cellar, {static_cast<int>(i)});
            std::int64_t sum = 0;
            for (const engine::WentTo& went : trace.on_hand) sum += went.volume.ul();
            for (const auto& [cause, volume] : trace.gone) sum += volume.ul();
            // Each holder and each cause is rounded to the microlitre on its own; shares carry 1e-12.
            const auto holders = static_cast<double>(trace.on_hand.size() + trace.gone.size());
            const auto volume = static_cast<double>(cellar->lots[i].volume.ul());
            RC_ASSERT(std::fabs(static_cast<double>(sum) - volume) <= holders + volume * k_share_tolerance);
        }
        each_liquid(*cellar, [&](const EntryKey&, const Liquid& liquid, engine::HolderRef holder) {
            const engine::BackTrace trace = engine::trace_back(*cellar, holder);
            double sum = 0.0;
            for (const auto& [lot, share] : trace.lots) sum += share;
            if (liquid.node != k_no_node) RC_ASSERT(std::fabs(sum - 1.0) <= k_share_tolerance);
            for (const engine::PathStep& step : trace.path) RC_ASSERT(step.from <= step.to);
        });
        return book.entries().size();
    });
}

TEST(AnyBook, AgesItsPartsToSharesOfOne) {
    expect_for_seeds("ages", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        const Instant now = on_day(4000);
        each_liquid(*cellar, [&](const EntryKey&, const Liquid& liquid, engine::HolderRef) {
            for (const auto from : {engine::AgeFrom::brew_day, engine::AgeFrom::entry}) {
                const auto age = engine::age_of(*cellar, liquid, now, UtcZone{}, from);
                if (!age) continue;
                double sum = 0.0;
                double mean = 0.0;
                for (const engine::VintagePart& part : age->parts) {
                    sum += part.share;
                    mean += part.share * part.age_years;
                    RC_ASSERT(part.age_years >= 0.0);
                }
                RC_ASSERT(std::fabs(sum - 1.0) <= 1e-11);  // each share is a quotient of two sums
                RC_ASSERT(std::fabs(mean - age->mean_years) <= 1e-9);
                RC_ASSERT(age->low_years <= age->mean_years + 1e-12);
                RC_ASSERT(age->mean_years <= age->high_years + 1e-12);
                RC_ASSERT(age->effective_vintages >= 1.0 - 1e-9);
                RC_ASSERT(age->effective_vintages <= static_cast<double>(age->parts.size()) + 1e-9);
                double others = 0.0;
                for (const engine::OtherSource& other : age->others) others += other.share;
                RC_ASSERT(std::fabs(age->beer_share + others - 1.0) <= 1e-11);
            }
        });
        return book.entries().size();
    });
}

TEST(AnyBook, KeepsItsEstimatesPossible) {
    expect_for_seeds("estimates", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = book_of(seed);
        const auto cellar = replay(book.entries());
        RC_ASSERT(bool(cellar));
        const engine::StateBook states = engine::states_of(*cellar);
        const auto look = [](const engine::LiquidState& state, Volume volume) {
            RC_ASSERT(state.volume.ul() == volume.ul());
            if (volume == Volume{}) RC_ASSERT(!state.composition);
            if (!state.composition) return;
            RC_ASSERT(std::isfinite(state.composition->ethanol_g_per_l));
            RC_ASSERT(std::isfinite(state.composition->real_extract_g_per_l));
            RC_ASSERT(state.composition->ethanol_g_per_l >= 0.0);
            RC_ASSERT(state.composition->real_extract_g_per_l >= 0.0);
            RC_ASSERT(state.gravity_sd >= 0.0);
            RC_ASSERT(state.alcohol_sd >= 0.0);
            RC_ASSERT(state.malic_g_per_l >= 0.0);
            RC_ASSERT(state.fruit_sugar_g_per_l >= 0.0);
            if (state.ph) RC_ASSERT(state.ph->low <= state.ph->high);
            if (state.ta) RC_ASSERT(state.ta->mean >= 0.0);
        };
        for (std::size_t i = 0; i < cellar->vessels.size(); ++i) {
            RC_ASSERT(states.stock[i].volume.ul() == cellar->vessels[i].liquid.volume.ul());
            RC_ASSERT(std::isfinite(states.stock[i].sd_litres) && states.stock[i].sd_litres >= 0.0);
            if (states.stock[i].volume == Volume{}) RC_ASSERT(states.stock[i].sd_litres == 0.0);
        }
        for (std::size_t i = 0; i < cellar->vessels.size(); ++i)
            look(states.vessels[i], cellar->vessels[i].liquid.volume);
        for (std::size_t i = 0; i < cellar->runs.size(); ++i) look(states.runs[i], cellar->runs[i].liquid.volume);
        return book.entries().size();
    });
}

TEST(AnyBook, IsBuiltOfEveryKindOfActThatThePropertiesAreAbout) {
    std::map<std::string, int> kinds;
    int after = 0;
    int returned = 0;
    int through_gear = 0;
    int splits = 0;
    int killed_gear = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const RandomBook book = book_of(seed);
        for (const Entry& entry : book.entries()) {
            ++kinds[kind_word(entry.body)];
            if (entry.place.path.find('/') != std::string::npos) ++after;
            if (const auto* take = std::get_if<Take>(&entry.body))
                if (take->cause == TakeCause::returned) ++returned;
            if (const auto* move = std::get_if<Move>(&entry.body); move != nullptr && move->reason == Reason::split)
                ++splits;
            if (const auto* care = std::get_if<Care>(&entry.body); care != nullptr && care->kill && !care->gear.empty())
                ++killed_gear;
        }
        if (const auto cellar = replay(book.entries())) through_gear += static_cast<int>(cellar->arrivals.size());
    }
    for (const char* kind : {"vessel", "retire", "lot", "move", "loss", "add", "lift", "pitch", "reading", "package",
                             "take", "care", "treat", "confirm", "note", "void", "settle", "calibrate", "logger"})
        EXPECT_GT(kinds[kind], 5) << kind;
    EXPECT_GT(after, 5);
    EXPECT_GT(returned, 5);
    EXPECT_GT(through_gear, 5);
    EXPECT_GT(splits, 5);
    EXPECT_GT(killed_gear, 5);
}

}  // namespace
}  // namespace undercroft::testing

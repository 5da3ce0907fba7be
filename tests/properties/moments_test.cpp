// Two ways to the same cellar: as it was and as it was known, whole and in halves, before and after a late entry.
#include <cmath>
#include <map>

#include "engine/age/age.hpp"
#include "engine/state/state.hpp"
#include "ledger/alike.hpp"
#include "tests/properties/always.hpp"
#include "tests/properties/random_book.hpp"
#include "tests/properties/told.hpp"
#include "tests/support/written_book.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

constexpr std::size_t k_entries_grown = 60;
constexpr unsigned k_first_own_sitting = 910'000;

RandomBook grown_book(std::uint64_t seed) {
    RandomBook book{seed};
    book.grow(k_entries_grown);
    return book;
}

Entry own_entry(unsigned number, Instant at, Body body) {
    Entry entry;
    entry.key = {sitting_key(k_first_own_sitting + number), 0};
    entry.place = {at, entry.key.text()};
    entry.recorded = at;
    entry.body = std::move(body);
    return entry;
}

TEST(AnyBook, IsOnADayWhatWasKnownOnItWhenNothingCameLate) {
    expect_for_seeds("on and known on", cases_to_run(), [](std::uint64_t seed) {
        RandomBook book = grown_book(seed);
        std::vector<Entry> entries = book.entries();
        // Each was written down when it happened, its corrections too.
        for (Entry& entry : entries) entry.recorded = entry.at();
        for (int i = 0; i < 5; ++i) {
            const auto some =
                static_cast<std::size_t>(book.random().between(0, static_cast<std::int64_t>(entries.size()) - 1));
            const Instant then = entries[some].at();
            const auto on = replay(entries, {.until = then, .before = {}, .known_on = {}});
            const auto known_on = replay(entries, {.until = {}, .before = {}, .known_on = then});
            RC_ASSERT(bool(on) == bool(known_on));
            if (!on) continue;  // what was corrected since may not stand by itself
            RC_ASSERT(told(*on) == told(*known_on));
            RC_ASSERT(told(engine::states_of(*on)) == told(engine::states_of(*known_on)));
        }
        return entries.size();
    });
}

void expect_near(double one, double other) {
    RC_ASSERT(std::fabs(one - other) <= 1e-9 * std::max(1.0, std::fabs(one)));
}

void expect_same_estimate(const std::optional<engine::Estimate>& one, const std::optional<engine::Estimate>& other) {
    RC_ASSERT(one.has_value() == other.has_value());
    if (!one) return;
    expect_near(one->mean, other->mean);
    expect_near(one->sd, other->sd);
}

TEST(AnyBook, KnowsAsMuchOfTwoHalvesPouredTogetherAsOfTheWhole) {
    expect_for_seeds("halves joined again", cases_to_run(), [](std::uint64_t seed) {
        const RandomBook book = grown_book(seed);
        const auto before = replay(book.entries());
        RC_ASSERT(bool(before));
        const engine::StateBook whole = engine::states_of(*before);
        Instant last;
        for (const Entry& entry : book.entries()) last = std::max(last, entry.at());
        const Instant then{last.ms + k_ms_per_day};
        std::size_t looked = 0;
        for (std::size_t i = 0; i < before->vessels.size(); ++i) {
            const VesselState& vessel = before->vessels[i];
            const Volume held = vessel.liquid.volume;
            if (vessel.retired || held.ul() < 2) continue;
            VesselJoins joins;
            joins.name = "Halves";
            joins.capacity = held;
            const Entry joined = own_entry(1, then, joins);
            const auto part = [&](Volume volume) {
                Move move;
                move.from = vessel.key;
                move.to = {{joined.key, volume}};
                move.reason = Reason::rack;
                return move;
            };
            const Volume half = Volume::from_ul(held.ul() / 2);
            std::vector<Entry> entries = book.entries();
            entries.push_back(joined);
            entries.push_back(own_entry(2, then, part(half)));
            entries.push_back(own_entry(3, then, part(held - half)));
            const auto after = replay(entries);
            RC_ASSERT(bool(after));
            const engine::StateBook states = engine::states_of(*after);
            const engine::LiquidState& one = whole.vessels[i];
            const engine::LiquidState& halves = states.vessels.back();
            RC_ASSERT(one.volume == halves.volume);
            RC_ASSERT(one.composition.has_value() == halves.composition.has_value());
            if (one.composition) {
                expect_near(one.composition->ethanol_g_per_l, halves.composition->ethanol_g_per_l);
                expect_near(one.composition->real_extract_g_per_l, halves.composition->real_extract_g_per_l);
                expect_near(one.gravity_sd, halves.gravity_sd);
                expect_near(one.alcohol_sd, halves.alcohol_sd);
            }
            expect_same_estimate(one.ta, halves.ta);
            expect_same_estimate(one.ibu, halves.ibu);
            expect_same_estimate(one.colour_ebc, halves.colour_ebc);
            RC_ASSERT(one.ph.has_value() == halves.ph.has_value());
            if (one.ph) {
                expect_near(one.ph->low, halves.ph->low);
                expect_near(one.ph->high, halves.ph->high);
                expect_near(one.ph->sd, halves.ph->sd);
            }
            const auto age = engine::age_of(*before, vessel.liquid, then, UtcZone{}, engine::AgeFrom::brew_day);
            const auto again =
                engine::age_of(*after, after->vessels.back().liquid, then, UtcZone{}, engine::AgeFrom::brew_day);
            RC_ASSERT(age.has_value() == again.has_value());
            if (age) {
                expect_near(age->mean_years, again->mean_years);
                expect_near(age->effective_vintages, again->effective_vintages);
                expect_near(engine::share_older_than(*age, 1.0), engine::share_older_than(*again, 1.0));
            }
            ++looked;
        }
        return looked;
    });
}

// All that is told of a liquid, by what no replay numbers anew.
std::string liquid_print(const Cellar& cellar, const Liquid& liquid) {
    std::string text = std::to_string(liquid.volume.ul());
    const std::vector<double> shares = cellar.shares(liquid);
    std::map<std::string, std::string> parts;
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (shares[i] > 0.0) parts[cellar.lots[i].key.text() + cellar.lots[i].name] += std::to_string(shares[i]);
    for (const auto& [lot, share] : parts) text += " " + lot + "=" + share;
    for (const CultureHere& here : liquid.cultures)
        text += " " + cellar.cultures[static_cast<std::size_t>(here.culture)].as.name + word(here.certainty) +
                std::to_string(here.since.ms) + "/" + std::to_string(here.brought.ms);
    for (const AllergenHere& here : liquid.allergens)
        text += " " + here.group + (here.mg_per_litre ? std::to_string(*here.mg_per_litre) : "?");
    for (const int index : liquid.additions) text += " " + cellar.additions[static_cast<std::size_t>(index)].as.name;
    if (const auto age = engine::age_of(cellar, liquid, on_day(4000), UtcZone{}, engine::AgeFrom::brew_day))
        text += " aged " + std::to_string(age->mean_years);
    return text;
}

TEST(Alike, IsOnlyWhatIsAlikeAndMostOfWhatIs) {
    long alike_said = 0;
    long alike_looked = 0;
    expect_for_seeds("alike before and after a correction", cases_to_run(), [&](std::uint64_t seed) {
        RandomBook book = grown_book(seed);
        const auto before = replay(book.entries());
        RC_ASSERT(bool(before));
        std::vector<Entry> entries = book.entries();
        const Entry target = entries[book.any_live()];
        Body changed = target.body;
        if (auto* lot = std::get_if<LotEnters>(&changed)) {
            lot->volume = Volume::from_ul(lot->volume.ul() + 1000);
            lot->name += " again";
        }
        if (auto* loss = std::get_if<Loss>(&changed)) loss->volume = Volume::from_ul(1);
        if (auto* move = std::get_if<Move>(&changed)) move->loss = Volume::from_ul(1);
        if (auto* vessel = std::get_if<VesselJoins>(&changed)) vessel->name += " again";
        entries.push_back(book.correction_of(target, changed, 920'001));
        const auto after = replay(entries);
        if (!after) return std::size_t{0};
        const Alike alike{*before, *after};
        for (std::size_t i = 0; i < before->vessels.size(); ++i) {
            const int j = after->vessel_of(before->vessels[i].key);
            if (j < 0) continue;
            const bool same = liquid_print(*before, before->vessels[i].liquid) ==
                              liquid_print(*after, after->vessels[static_cast<std::size_t>(j)].liquid);
            const bool said = alike.vessels(static_cast<int>(i), j);
            if (said) RC_ASSERT(same);
            alike_said += said;
            alike_looked += same;
        }
        for (std::size_t i = 0; i < before->runs.size(); ++i) {
            const int j = after->run_of(before->runs[i].key);
            if (j < 0 || !alike.runs(static_cast<int>(i), j)) continue;
            RC_ASSERT(liquid_print(*before, before->runs[i].liquid) ==
                      liquid_print(*after, after->runs[static_cast<std::size_t>(j)].liquid));
        }
        return entries.size();
    });
    std::printf("figure: vessels called alike: %ld of %ld\n", alike_said, alike_looked);
    EXPECT_GE(2 * alike_said, alike_looked) << "else nothing is gained";
}

}  // namespace
}  // namespace undercroft::testing

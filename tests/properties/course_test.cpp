// A book taken up from checkpoints is the book replayed from nothing, whatever comes late or is corrected.
#include "app/course.hpp"

#include "tests/properties/always.hpp"
#include "tests/properties/random_book.hpp"
#include "tests/properties/told.hpp"

namespace undercroft::testing {
namespace {

using namespace ledger;

// So near to each other that these short books have several.
constexpr std::size_t k_way_back = 2;

std::string keys_in(const Cellar& cellar) {
    std::string text;
    for (const Entry* entry : cellar.entries) text += entry->key.text() + "\n";
    return text;
}

std::string told_by(tl::expected<std::shared_ptr<const app::Standing>, ReplayFault> standing) {
    if (!standing) return "fault at " + standing.error().entry.text() + ": " + standing.error().what;
    return keys_in((*standing)->cellar) + told((*standing)->cellar) + told((*standing)->states);
}

std::string told_from_nothing(std::span<const Entry> entries, const Scope& scope) {
    const auto cellar = replay(entries, scope);
    if (!cellar) return "fault at " + cellar.error().entry.text() + ": " + cellar.error().what;
    return keys_in(*cellar) + told(*cellar) + told(engine::states_of(*cellar));
}

std::vector<const Entry*> pointers_to(std::span<const Entry> entries) {
    std::vector<const Entry*> pointers;
    for (const Entry& entry : entries) pointers.push_back(&entry);
    return pointers;
}

// The whole, up to an entry's instant, or before its place.
Scope some_scope(SplitMix64& random, std::span<const Entry> entries) {
    Scope scope;
    const Entry& entry =
        entries[static_cast<std::size_t>(random.between(0, static_cast<std::int64_t>(entries.size()) - 1))];
    if (random.one_in(2)) scope.before = entry.place;
    if (random.one_in(4)) scope.until = entry.at();
    return scope;
}

TEST(ABookTakenUpFromCheckpoints, IsTheBookReplayedFromNothing) {
    expect_for_seeds("checkpoints against full replay", cases_to_run(2), [](std::uint64_t seed) {
        RandomBook book{seed};
        book.grow(60);
        SplitMix64& random = book.random();
        const std::span<const Entry> all = book.entries();
        std::size_t booked = 1;
        app::Course course{all.first(booked), k_way_back};
        while (booked < all.size()) {
            for (int questions = 0; questions < 3; ++questions) {
                const auto scope = some_scope(random, all.first(booked));
                RC_ASSERT(told_by(course.at(scope)) == told_from_nothing(all.first(booked), scope));
            }
            const auto count = static_cast<std::size_t>(
                random.between(1, std::min<std::int64_t>(5, static_cast<std::int64_t>(all.size() - booked))));
            const auto next = pointers_to(all.subspan(booked, count));
            app::Course drafted = course.with(next);
            for (int questions = 0; questions < 3; ++questions) {
                const auto scope = some_scope(random, all.first(booked + count));
                RC_ASSERT(told_by(drafted.at(scope)) == told_from_nothing(all.first(booked + count), scope));
            }
            course.add(next);
            booked += count;
        }
        return all.size();
    });
}

TEST(ABookTakenUpFromCheckpoints, NamesTheEntryThatBreaksAsTheBookReplayedFromNothing) {
    expect_for_seeds("faults of late entries", cases_to_run(2), [](std::uint64_t seed) {
        RandomBook book{seed};
        book.grow(60);
        app::Course course{book.entries(), k_way_back};
        RC_ASSERT(bool(course.at({})));
        // Taken out of the book, or ten times what it was: most books cannot be so.
        for (unsigned number = 0; number < 10; ++number) {
            const Entry target = book.entries()[book.any_live()];
            Body changed = Void{};
            if (const auto* lot = std::get_if<LotEnters>(&target.body); lot != nullptr && number % 2 == 0) {
                LotEnters more = *lot;
                more.volume = lot->volume * 10;
                changed = more;
            }
            std::vector<Entry> entries = book.entries();
            entries.push_back(book.correction_of(target, changed, 900'001 + number));
            const Entry* const late = &entries.back();
            RC_ASSERT(told_by(course.with({&late, 1}).at({})) == told_from_nothing(entries, {}));
        }
        return book.entries().size();
    });
}

}  // namespace
}  // namespace undercroft::testing

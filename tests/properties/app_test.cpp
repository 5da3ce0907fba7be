// What-if then book gives what the what-if showed, and what is sent twice is booked once (DESIGN 2, 5.2).
#include <stdlib.h>

#include <cmath>
#include <filesystem>
#include <map>

#include "ledger/memory_journal.hpp"
#include "store/book_file.hpp"
#include "tests/properties/always.hpp"
#include "tests/properties/random_keeper.hpp"
#include "tests/support/test_book.hpp"

namespace undercroft::testing {
namespace {

using namespace app;

constexpr int k_sittings = 60;

// Empty when the two say the same, else where they part.
std::string difference(const HoldingView& one, const HoldingView& other) {
    if (one.vessel.has_value() != other.vessel.has_value() || one.run.has_value() != other.run.has_value())
        return "kind";
    if (one.vessel && (one.vessel->volume != other.vessel->volume || one.vessel->solids != other.vessel->solids ||
                       one.vessel->name != other.vessel->name))
        return "volume";
    if (one.run && (one.run->left != other.run->left || one.run->run != other.run->run)) return "bottles";
    if (one.from_brew_day.has_value() != other.from_brew_day.has_value()) return "age";
    if (one.from_brew_day) {
        const engine::Age& a = *one.from_brew_day;
        const engine::Age& b = *other.from_brew_day;
        if (a.parts.size() != b.parts.size() || a.others.size() != b.others.size()) return "parts";
        for (std::size_t i = 0; i < a.parts.size(); ++i)
            if (a.parts[i].name != b.parts[i].name ||
                std::fabs(a.parts[i].share - b.parts[i].share) > k_share_tolerance ||
                std::fabs(a.parts[i].age_years - b.parts[i].age_years) > k_share_tolerance)
                return "part " + a.parts[i].name;
        for (std::size_t i = 0; i < a.others.size(); ++i)
            if (std::fabs(a.others[i].share - b.others[i].share) > k_share_tolerance) return "other sources";
    }
    if (one.cultures.size() != other.cultures.size()) return "cultures";
    for (std::size_t i = 0; i < one.cultures.size(); ++i)
        if (one.cultures[i].name != other.cultures[i].name ||
            one.cultures[i].certainty != other.cultures[i].certainty ||
            one.cultures[i].since != other.cultures[i].since)
            return "culture " + one.cultures[i].name;
    if (one.allergens.size() != other.allergens.size()) return "allergens";
    for (std::size_t i = 0; i < one.allergens.size(); ++i)
        if (one.allergens[i].group != other.allergens[i].group ||
            one.allergens[i].mg_per_litre != other.allergens[i].mg_per_litre)
            return "allergen " + one.allergens[i].group;
    if (one.estimates.size() != other.estimates.size()) return "estimates";
    for (std::size_t i = 0; i < one.estimates.size(); ++i)
        if (one.estimates[i].quantity != other.estimates[i].quantity ||
            one.estimates[i].estimate.mean != other.estimates[i].estimate.mean ||
            one.estimates[i].estimate.sd != other.estimates[i].estimate.sd)
            return "estimate " + one.estimates[i].quantity;
    if (one.inside != other.inside || one.took_from != other.took_from) return "additions";
    return "";
}

std::int64_t sequence_of(TestBook& book) {
    return *book.journal().last_sequence();
}

bool is_in(const CellarView& cellar, const std::string& vessel) {
    return std::any_of(cellar.vessels.begin(), cellar.vessels.end(),
                       [&](const VesselSummary& view) { return view.name == vessel; });
}

struct Kept {
    SittingRequest request;
    std::size_t entries = 0;
};

// A keeper's month: every sitting previewed, booked, looked at and sent again. Gives how many entries were booked.
long keep_a_book(TestBook& book, std::uint64_t seed) {
    RandomKeeper keeper{seed, reference_tables()};
    std::vector<Kept> kept;
    for (int i = 0; i < k_sittings; ++i) {
        book.pass(keeper.random().between(1, 3000));
        const auto cellar = book->cellar({});
        RC_ASSERT(bool(cellar));
        RC_ASSERT(cellar->in.ul() == (cellar->out + cellar->on_hand).ul());
        SittingRequest request = keeper.some_sitting(*cellar);
        const std::int64_t before = sequence_of(book);
        const auto shown = book->preview(request);
        RC_ASSERT(sequence_of(book) == before);
        if (!shown) {
            const auto refused = book->book(request);
            RC_ASSERT(!refused);
            RC_ASSERT(refused.error().kind == shown.error().kind);
            RC_ASSERT(refused.error().what == shown.error().what);
            RC_ASSERT(!shown.error().what.empty());
            RC_ASSERT(sequence_of(book) == before);
            continue;
        }
        request.key = shown->key;
        const auto booked = book->book(request);
        if (!booked) RC_FAIL(booked.error().where + ": " + booked.error().what);
        RC_ASSERT(booked->booked && !booked->already);
        RC_ASSERT(sequence_of(book) == before + static_cast<std::int64_t>(shown->entries.size()));
        RC_ASSERT(booked->entries.size() == shown->entries.size());
        for (std::size_t k = 0; k < shown->entries.size(); ++k) {
            RC_ASSERT(booked->entries[k].text == shown->entries[k].text);
            RC_ASSERT(booked->entries[k].key == shown->entries[k].key);
        }
        RC_ASSERT(booked->after.size() == shown->after.size());
        const auto now = book->cellar({});
        RC_ASSERT(bool(now));
        for (std::size_t k = 0; k < shown->after.size(); ++k) {
            RC_ASSERT(difference(shown->after[k], booked->after[k]) == "");
            // Of a sitting that is late, the views are of its own moment.
            if (!request.when.empty() || !request.after.empty()) continue;
            const HoldingView& view = shown->after[k];
            if (!view.vessel && !view.run) continue;
            // A vessel that has left can still be what a sitting was about, but is not found by its name any more.
            if (view.vessel && !is_in(*now, view.vessel->name)) continue;
            const auto stands = book->show(view.vessel ? view.vessel->name : view.run->run, {});
            if (!stands) RC_FAIL(stands.error().what);
            RC_ASSERT(difference(view, *stands) == "");
        }
        kept.push_back({request, shown->entries.size()});
        // The net was slow: the same sitting again, now and then an old one.
        const std::int64_t after = sequence_of(book);
        const Kept& again = kept[keeper.random().one_in(2) ? kept.size() - 1
                                                           : static_cast<std::size_t>(keeper.random().between(
                                                                 0, static_cast<std::int64_t>(kept.size()) - 1))];
        const auto repeated = book->book(again.request);
        if (!repeated) RC_FAIL("sent again: " + repeated.error().where + ": " + repeated.error().what);
        RC_ASSERT(repeated->already);
        RC_ASSERT(repeated->entries.size() == again.entries);
        RC_ASSERT(sequence_of(book) == after);
        SittingRequest other = again.request;
        other.acts.push_back(WriteNote{"", "and another thing"});
        const auto stale = book->book(other);
        RC_ASSERT(!stale);
        RC_ASSERT(stale.error().kind == ErrorKind::stale);
        RC_ASSERT(sequence_of(book) == after);
    }
    return sequence_of(book);
}

TEST(AnySitting, GivesWhatTheWhatIfShowedAndIsBookedOnceHoweverOftenItIsSent) {
    expect_for_seeds("what-if then book, in memory", cases_to_run(1), [](std::uint64_t seed) {
        TestBook book;
        return keep_a_book(book, seed);
    });
}

TEST(AnySitting, IsOfEveryKindThatThePropertiesAreAbout) {
    std::map<std::string, int> kinds;
    int late = 0;
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        TestBook book;
        keep_a_book(book, seed);
        const auto booked = book.journal().entries();
        ASSERT_TRUE(booked);
        for (const ledger::Entry& entry : *booked) {
            ++kinds[ledger::kind_word(entry.body)];
            if (entry.supersedes && !std::holds_alternative<ledger::Void>(entry.body)) ++kinds["correction"];
            if (entry.place.at.ms + 3'600'000 < entry.recorded.ms) ++late;
        }
    }
    for (const char* kind : {"vessel", "lot", "move", "loss", "add", "lift", "pitch", "reading", "tasting", "package",
                             "take", "care", "note", "acknowledge", "void", "correction"})
        EXPECT_GT(kinds[kind], 5) << kind;
    EXPECT_GT(late, 30);
}

TEST(AnySitting, GivesTheSameInABookOnDisk) {
    std::string folder = (std::filesystem::temp_directory_path() / "undercroft-properties-XXXXXX").string();
    ASSERT_NE(::mkdtemp(folder.data()), nullptr);
    expect_for_seeds("what-if then book, on disk", cases_to_run(10), [&folder](std::uint64_t seed) {
        const std::string path = folder + "/" + std::to_string(seed) + ".book";
        std::filesystem::remove(path);
        auto file = store::create_book(path, invented_facts());
        RC_ASSERT(bool(file));
        long entries = 0;
        {
            TestBook book{**file};
            entries = keep_a_book(book, seed);
        }
        const auto findings = (*file)->check_store();
        RC_ASSERT(bool(findings));
        for (const auto& finding : *findings) RC_ASSERT(finding.ok);
        // Read by another program, it replays to the same cellar.
        const auto stored = (*file)->entries();
        RC_ASSERT(bool(stored));
        ledger::MemoryJournal copy{invented_facts(), *stored, *(*file)->persons()};
        TestBook on_disk{**file};
        TestBook in_memory{copy};
        const auto one = on_disk->cellar({});
        const auto other = in_memory->cellar({});
        RC_ASSERT(bool(one) && bool(other));
        RC_ASSERT(one->vessels.size() == other->vessels.size());
        RC_ASSERT(one->on_hand.ul() == other->on_hand.ul());
        return entries;
    });
    std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace undercroft::testing

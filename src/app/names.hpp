// Which vessel, run, lot, culture or entry a keeper means.
//
// Holds: "#12" names the vessel or run whose first entry is #12; where another one is called "#12", it is refused with
// both. Else a name is matched whole first (upper and lower case alike), then as a vessel's tag, then as a word or
// words of a name that fit only one thing. What fits several is refused with all of them; what fits none is
// answered with the nearest names.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "app/describe.hpp"
#include "base/result.hpp"
#include "engine/trace/trace.hpp"
#include "ledger/journal.hpp"
#include "ledger/replay.hpp"

namespace undercroft::app {

// Vessels that have not left the cellar; `field` is named in the error.
[[nodiscard]] Result<int> find_vessel(const ledger::Cellar& cellar, std::string_view field, const std::string& text);
// A run by its code.
[[nodiscard]] Result<int> find_run(const ledger::Cellar& cellar, std::string_view field, const std::string& text);
// Of an error of find_vessel or find_holder: when nothing of that name is there at `moment` but a vessel joins later,
// an error that says on which day; else the same error. `today` is the cellar without an end.
[[nodiscard]] Error unless_later(Error error, const ledger::Cellar& today, Instant moment, const Telling& telling);
// A vessel or a run; by its number also a vessel that has left.
[[nodiscard]] Result<engine::HolderRef> find_holder(const ledger::Cellar& cellar, std::string_view field,
                                                    const std::string& text);

// The names of vessels and runs alone, for reading lines without the cellar at hand.
class Names {
public:
    struct Name {
        std::string text;
        std::string tag;
        int index = 0;
    };
    struct Found {
        std::string text;
        bool is_run = false;
        std::size_t words = 0;  // how many of the words it took
    };

    explicit Names(const ledger::Cellar& cellar);
    // The vessel or run that the first words name: as many words as possible, a whole name or a tag before a part of
    // one. Nothing when they name none; bad_input when they could name several.
    [[nodiscard]] Result<std::optional<Found>> at_front(std::span<const std::string> words) const;
    // "vessel" names only vessels.
    [[nodiscard]] Result<std::string> vessel(std::string_view field, const std::string& text) const;

private:
    std::vector<Name> m_vessels;
    std::vector<Name> m_runs;
};

// All lots, additions or cultures of that name, in the one list where it is found.
struct Origin {
    std::vector<int> lots;
    std::vector<int> additions;
    std::vector<int> cultures;
};
[[nodiscard]] Result<Origin> find_origin(const ledger::Cellar& cellar, const std::string& text);
// An addition that is in a vessel now.
[[nodiscard]] Result<int> find_inside(const ledger::Cellar& cellar, int vessel, const std::string& text);

// "#12" or "12": the entry with that number. "last": the newest entry of the book that still counts.
[[nodiscard]] Result<const ledger::Entry*> find_entry(std::span<const ledger::Entry> entries,
                                                      const ledger::Chains& chains, const std::string& text);
// Stale unless nothing supersedes the entry; the error names the newest of its chain.
[[nodiscard]] Result<void> require_newest(const ledger::Chains& chains, const ledger::Entry& entry);

// The name behind a commitment; "a forgotten person" when it was forgotten, "" for none.
[[nodiscard]] std::string person_name(const std::vector<ledger::Person>& persons, const std::string& commitment);

}  // namespace undercroft::app

// The cellar at any place of the book, taken up from the nearest replay before it instead of from nothing.
//
// Holds: at() gives what ledger::replay and engine::states_of give of the same entries, bit for bit. Replays are
// kept at places further and further back, so that a late entry costs a few times what follows it; a book with
// drafts shares those before the first place the drafts change.
// Leaves out: books as they were known earlier (Scope::known_on), which are other books.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "engine/state/state.hpp"
#include "ledger/replay.hpp"

namespace undercroft::app {

struct Standing {
    ledger::Cellar cellar;
    engine::StateBook states;
};

class Course {
public:
    Course() = default;
    // The entries must stay where they are as long as the course, or what it gave, is used. The last checkpoint lies
    // `way_back` entries before the end, the others each four times as far back.
    explicit Course(std::span<const ledger::Entry> entries, std::size_t way_back = 4096);

    // More entries of the book.
    void add(std::span<const ledger::Entry* const> more);
    // The same book with drafts, which does not change this one. It keeps no checkpoints of its own.
    [[nodiscard]] Course with(std::span<const ledger::Entry* const> drafts) const;

    [[nodiscard]] tl::expected<std::shared_ptr<const Standing>, ledger::ReplayFault> at(const ledger::Scope& scope);

    // Of all entries, those of a book that cannot be replayed too.
    [[nodiscard]] const ledger::Chains& chains() const { return *m_chains; }

private:
    using Kept = std::shared_ptr<Standing>;
    enum class Checkpoints { kept, borrowed };

    // Puts more live entries in their places, and lets go of replays that go beyond the first of these.
    void take_in(std::span<const ledger::Entry* const> more);
    void keep_checkpoint(std::size_t entries, const Standing& standing);

    [[nodiscard]] std::size_t entries_in(const ledger::Scope& scope) const;
    // The longest replay kept of at most so many live entries, ready to be taken further.
    [[nodiscard]] Kept taken_up(std::size_t entries);
    void keep_recent(std::size_t entries, Kept standing);
    [[nodiscard]] std::size_t next_checkpoint(std::size_t entries) const;

    std::shared_ptr<ledger::Chains> m_chains = std::make_shared<ledger::Chains>();
    std::optional<ledger::ReplayFault> m_broken;
    std::vector<const ledger::Entry*> m_live;  // in order
    Checkpoints m_habit = Checkpoints::kept;
    std::size_t m_way_back = 4096;
    // By the number of live entries they hold.
    std::map<std::size_t, Kept> m_checkpoints;
    std::map<std::size_t, Kept> m_recent;
};

}  // namespace undercroft::app

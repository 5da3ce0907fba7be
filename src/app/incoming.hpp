// Entries of another book on their way into this one. For the transfer*.cpp files.
#pragma once

#include <string>
#include <vector>

#include "app/transfer_views.hpp"
#include "ledger/bulk.hpp"

namespace undercroft::app {

class Incoming {
public:
    // `as` is the entry as it is to be booked, `original` the one it comes from. In order of arrival there; what is
    // taken of one sitting comes together.
    void take(const ledger::Entry& original, ledger::Entry as);

    // Replays the book with all of it, and fills the view with what came in. Errors: impossible, naming the entry that
    // breaks and, of an incoming one, its number there.
    [[nodiscard]] Result<void> fit_into(const ledger::BookCopy& here, const ledger::BookCopy& other, const Zone& zone,
                                        ImportView& view) const;

    // As they are to be booked, each with the people and pictures of `from` that it names.
    [[nodiscard]] std::vector<ledger::Sitting> sittings(const ledger::BookCopy& from) const;

private:
    std::vector<ledger::Entry> m_entries;
    std::vector<std::int64_t> m_numbers;  // of the originals
};

// After the booking.
void mark_booked(ImportView& view, const std::vector<ledger::Entry>& booked);

// Entries in order, cut where the sitting changes, each sitting with the people and pictures that it names.
[[nodiscard]] std::vector<ledger::Sitting> sittings_of(const std::vector<ledger::Entry>& entries,
                                                       const std::vector<ledger::Person>& persons,
                                                       const std::vector<ledger::Picture>& pictures);

}  // namespace undercroft::app

// Many sittings at once: what importing and comparing books needs beyond Journal.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "ledger/journal.hpp"

namespace undercroft::ledger {

// All of a book, proved: of the open one, of another one, or of an export.
struct BookCopy {
    BookFacts facts;
    std::vector<Person> persons;
    std::vector<Picture> pictures;
    std::vector<Entry> entries;       // in order of arrival, with sequence and recorded time
    std::vector<std::string> hashes;  // of each entry, 64 hex digits: what names it in any book
    std::string head;                 // last link of the chain, 64 hex digits
};

class Bulk {
public:
    virtual ~Bulk() = default;
    // Errors: storage when the book is damaged.
    [[nodiscard]] virtual Result<BookCopy> whole_copy() = 0;
    // Books all of the sittings, in this order, or none. Unlike Journal::append the entries state when they were
    // recorded, and a person or picture may come that was forgotten elsewhere (a commitment and
    // nothing else).
    //   stale      the book's last sequence is no longer `expected_sequence`, or one of the keys is there
    //   others     as Journal::append
    [[nodiscard]] virtual Result<std::vector<Entry>> append_all(const std::vector<Sitting>& sittings,
                                                                std::int64_t expected_sequence) = 0;
};

}  // namespace undercroft::ledger

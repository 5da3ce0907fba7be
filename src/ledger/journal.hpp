// What the book needs of a store. `store` implements it over SQLite; tests over memory.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/instant.hpp"
#include "base/result.hpp"
#include "ledger/entry.hpp"
#include "ledger/picture.hpp"
#include "units/amount.hpp"

namespace undercroft::ledger {

// Fixed when the book is begun, and bound into the first link of its hash chain.
struct BookFacts {
    std::string id;    // UUID of version 4, lower case
    std::string name;  // "Kiln Lane"
    std::string zone;  // IANA zone name, "Europe/Lisbon"
    Gallons gallons = Gallons::unset;
    bool invented = false;  // the demo cellar: shown wherever the book is shown
    Instant begun;
    int format = 1;
    friend bool operator==(const BookFacts&, const BookFacts&) = default;
};

// A name lives in its own table; entries hold only the commitment, BLAKE2b-256(salt || name) in hex.
// The salt stays beside the name, so forgetting a row leaves nothing that could be guessed.
struct Person {
    std::string commitment;
    std::string salt;  // 16 bytes in hex, empty once forgotten
    std::string name;  // empty once forgotten
    friend bool operator==(const Person&, const Person&) = default;
};

// What is booked together: all or nothing.
struct Sitting {
    std::string key;                     // sitting key of every entry in it
    std::vector<Entry> entries;          // index 0, 1, 2, …
    std::vector<Person> persons;         // new names the entries refer to
    std::vector<Picture> pictures = {};  // new pictures the entries refer to
};

struct Booked {
    bool already = false;        // this sitting, byte for byte, was in the book before
    std::vector<Entry> entries;  // with sequence and recorded time
};

class Journal {
public:
    virtual ~Journal() = default;

    [[nodiscard]] virtual const BookFacts& facts() const = 0;
    // True when the book holds entries or a format this program does not know.
    [[nodiscard]] virtual bool read_only() const = 0;
    // All entries in order of arrival (sequence).
    [[nodiscard]] virtual Result<std::vector<Entry>> entries() = 0;
    [[nodiscard]] virtual Result<std::vector<Person>> persons() = 0;
    // Sequence number of the last entry, 0 for an empty book.
    [[nodiscard]] virtual Result<std::int64_t> last_sequence() = 0;

    // Books a sitting atomically and durably: when this returns, the entries survive the process.
    //   stale      the book's last sequence is no longer `expected_sequence`
    //   stale      the sitting key is there with another body
    //   read_only  a newer book
    //   storage    disk full, locked too long, read-back differs: nothing was booked
    // The same sitting again is answered with what was booked then (`already`), whatever the sequence.
    [[nodiscard]] virtual Result<Booked> append(const Sitting& sitting, Instant recorded,
                                                std::int64_t expected_sequence) = 0;

    // The picture of that commitment, emptied when it was forgotten; nothing when the book never held it.
    [[nodiscard]] virtual Result<std::optional<Picture>> picture(const std::string& commitment) = 0;
    // Empties salt and name of a person, or salt and bytes of a picture; every entry stays as it is.
    // Errors: not_found, read_only, storage.
    [[nodiscard]] virtual Result<void> forget(const std::string& person) = 0;
    [[nodiscard]] virtual Result<void> forget_picture(const std::string& commitment) = 0;
};

// One named check of a book: "chain", "volumes", …
struct CheckFinding {
    std::string check;
    bool ok = false;
    std::string what;  // what was counted, or what is wrong and where
};

class Keepsafe {  // copies and proofs of a book
public:
    virtual ~Keepsafe() = default;
    // Copies the open book into a new file through SQLite's own backup; refuses a file that is there.
    [[nodiscard]] virtual Result<std::int64_t> backup_to(const std::string& path) = 0;  // entries copied
    // Walks the hash chain, person commitments and stored columns against the canonical bytes.
    [[nodiscard]] virtual Result<std::vector<CheckFinding>> check_store() = 0;
    // Last link of the chain, 64 hex digits: written down elsewhere, it proves all of the book up to here.
    [[nodiscard]] virtual Result<std::string> chain_head() = 0;
    // Sequence of the entry with that link, 0 for the link of an empty book, -1 when no entry has it.
    [[nodiscard]] virtual Result<std::int64_t> entry_of_link(const std::string& hex) = 0;
};

}  // namespace undercroft::ledger

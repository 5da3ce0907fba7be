// A book in memory, for tests of whatever stands on Journal and for rehearsals.
//
// Holds: append() keeps the contract of Journal, to the same errors in the same order as a stored book.
// Leaves out: durability, the hash chain, and what guards stored bytes: the form of keys, commitments, salts
// and texts is not looked at.
#pragma once

#include <vector>

#include "ledger/journal.hpp"

namespace undercroft::ledger {

class MemoryJournal final : public Journal {
public:
    // `entries` are in the book already, in order of arrival, and carry their sequence and recorded time. With
    // an entry of kind Unknown among them the book is read-only.
    explicit MemoryJournal(BookFacts facts, std::vector<Entry> entries = {}, std::vector<Person> persons = {});

    [[nodiscard]] const BookFacts& facts() const override { return m_facts; }
    [[nodiscard]] bool read_only() const override;
    [[nodiscard]] Result<std::vector<Entry>> entries() override { return m_entries; }
    [[nodiscard]] Result<std::vector<Person>> persons() override { return m_persons; }
    [[nodiscard]] Result<std::int64_t> last_sequence() override;
    [[nodiscard]] Result<Booked> append(const Sitting& sitting, Instant recorded,
                                        std::int64_t expected_sequence) override;
    [[nodiscard]] Result<std::optional<Picture>> picture(const std::string& commitment) override;
    [[nodiscard]] Result<void> forget(const std::string& person) override;
    [[nodiscard]] Result<void> forget_picture(const std::string& commitment) override;

private:
    BookFacts m_facts;
    std::vector<Entry> m_entries;
    std::vector<Person> m_persons;
    std::vector<Picture> m_pictures;
};

}  // namespace undercroft::ledger

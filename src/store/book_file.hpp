// A book in a file: what ledger asks of a store (Journal, Keepsafe, Exporter, Bulk) over SQLite.
//
// Holds: when append() has returned, the sitting survives the end of the process and, by the disk's word,
// of the machine; a sitting that failed has left nothing behind. Opening never makes a file. Whenever no
// program has the book open it is one file. One program writes at a time; others read meanwhile.
// Leaves out: whether the entries make sense together (ledger/replay.hpp). An object is used by one thread.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "ledger/bulk.hpp"
#include "ledger/exporter.hpp"
#include "ledger/journal.hpp"

namespace undercroft::store {

class Database;
enum class MissingPicture;

enum class Access { read, write };

class BookFile final : public ledger::Journal, public ledger::Keepsafe, public ledger::Exporter, public ledger::Bulk {
public:
    BookFile(std::unique_ptr<Database> database, ledger::BookFacts facts, Access access, bool newer);
    BookFile(const BookFile&) = delete;
    BookFile& operator=(const BookFile&) = delete;
    ~BookFile() override;

    [[nodiscard]] const ledger::BookFacts& facts() const override { return m_facts; }
    // A newer book, as the header says; a book opened with Access::read is not, though append() refuses it too.
    [[nodiscard]] bool read_only() const override { return m_newer; }
    [[nodiscard]] Result<std::vector<ledger::Entry>> entries() override;
    [[nodiscard]] Result<std::vector<ledger::Person>> persons() override;
    [[nodiscard]] Result<std::int64_t> last_sequence() override;
    // Beyond the header's errors: bad_input when an entry cannot stand in the book (entry_codec.hpp), when the
    // sitting's keys do not count 0, 1, 2, …, or when it names a person the book does not know or brings one
    // that none of its entries names. A person who was forgotten stays forgotten.
    [[nodiscard]] Result<ledger::Booked> append(const ledger::Sitting& sitting, Instant recorded,
                                                std::int64_t expected_sequence) override;

    // Errors: bad_input when a file of that name is there, not_found when the folder is missing, storage. A
    // failed backup leaves no file.
    [[nodiscard]] Result<std::int64_t> backup_to(const std::string& path) override;
    // The checks of book_check.hpp.
    [[nodiscard]] Result<std::vector<ledger::CheckFinding>> check_store() override;

    // Empties salt and name of a person, also in the bytes of the file. Backups made before keep them.
    // Errors: not_found, read_only, storage.
    [[nodiscard]] Result<void> forget(const std::string& commitment) override;
    [[nodiscard]] Result<std::optional<ledger::Picture>> picture(const std::string& commitment) override;
    [[nodiscard]] Result<void> forget_picture(const std::string& commitment) override;
    [[nodiscard]] Result<std::string> chain_head() override;
    [[nodiscard]] Result<std::int64_t> entry_of_link(const std::string& hex) override;

    [[nodiscard]] Result<ledger::ExportTotals> export_to(std::ostream& out) override;
    [[nodiscard]] Result<ledger::ExportTotals> export_to_file(const std::string& path) override;
    [[nodiscard]] Result<ledger::BookCopy> whole_copy() override;
    [[nodiscard]] Result<std::vector<ledger::Entry>> append_all(const std::vector<ledger::Sitting>& sittings,
                                                                std::int64_t expected_sequence) override;

private:
    [[nodiscard]] Result<void> check_writable() const;
    [[nodiscard]] Result<void> forget_row(const char* there, const char* update, const std::string& commitment,
                                          const Failure& unknown);
    // Looks again for what another, newer program may have written meanwhile.
    [[nodiscard]] Result<void> look_for_newer();
    [[nodiscard]] Result<std::string> link_at(std::int64_t sequence);
    // Takes what the cache beside the book holds of it; gives the sequence of the last of these, 0 for none.
    [[nodiscard]] Result<std::int64_t> take_cached(std::vector<ledger::Entry>& entries);
    // Inside a write transaction: gives the entries sequence numbers from `last` + 1 on, moves `last` and `link` on,
    // and reads back what was written.
    [[nodiscard]] Result<void> write_sitting(std::vector<ledger::Entry>& entries, const ledger::Sitting& sitting,
                                             MissingPicture missing, std::int64_t& last, std::string& link);

    std::unique_ptr<Database> m_database;
    ledger::BookFacts m_facts;
    Access m_access;
    bool m_newer;
    std::int64_t m_known = 0;  // up to this entry all kinds and formats have been looked at
};

// Errors: bad_input when a file of that name is there or the facts cannot stand (no name, no zone, an id that
// is no UUID of version 4, a format other than this program's), not_found when the folder is missing, storage.
[[nodiscard]] Result<std::unique_ptr<BookFile>> create_book(const std::string& path, const ledger::BookFacts& facts);

// Errors: not_found; bad_input for a folder, an empty file, or a file that is no book; storage when it is
// damaged or, with Access::write, write-protected. A newer book opens, and its read_only() is true.
[[nodiscard]] Result<std::unique_ptr<BookFile>> open_book(const std::string& path, Access access);

}  // namespace undercroft::store

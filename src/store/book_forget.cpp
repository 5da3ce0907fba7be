// Forgetting a person or a picture in an open book.
#include "store/book_file.hpp"
#include "store/picture_rows.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

Result<void> BookFile::forget(const std::string& commitment) {
    return forget_row("SELECT 1 FROM person WHERE commitment = ?1",
                      "UPDATE person SET salt = '', name = '' WHERE commitment = ?1", commitment,
                      fail(ErrorKind::not_found, "person", "the book knows no such person."));
}

Result<void> BookFile::forget_picture(const std::string& commitment) {
    const Failure unknown = fail(ErrorKind::not_found, "picture", "the book holds no such picture.");
    TRY(const bool there, has_pictures(*m_database));
    if (!there) return unknown;
    return forget_row("SELECT 1 FROM picture WHERE commitment = ?1",
                      "UPDATE picture SET salt = '', media_type = '', bytes = x'' WHERE commitment = ?1", commitment,
                      unknown);
}

Result<std::optional<ledger::Picture>> BookFile::picture(const std::string& commitment) {
    return read_picture(*m_database, commitment);
}

Result<void> BookFile::forget_row(const char* there, const char* update, const std::string& commitment,
                                  const Failure& unknown) {
    TRY_VOID(check_writable());
    {
        TRY(auto transaction, Transaction::begin(*m_database, Transaction::Kind::write));
        TRY_VOID(look_for_newer());
        TRY_VOID(check_writable());
        TRY(auto select, m_database->prepare(there));
        select.bind(1, commitment);
        TRY(const bool known, select.step());
        if (!known) return unknown;
        TRY(auto change, m_database->prepare(update));
        change.bind(1, commitment);
        TRY_VOID(change.run());
        TRY_VOID(transaction.commit());
    }
    // The log may still hold the page with the name.
    return m_database->execute("PRAGMA wal_checkpoint(TRUNCATE)");
}

}  // namespace undercroft::store

#include "store/newer.hpp"

#include "store/entry_codec.hpp"
#include "store/schema.hpp"

namespace undercroft::store {

Result<bool> holds_newer(Database& database, const ledger::BookFacts& facts, std::int64_t known) {
    if (facts.format > k_book_format) return true;
    TRY(const auto step, database.integer("PRAGMA user_version"));
    if (step > k_schema_step) return true;
    TRY(auto rows, database.prepare("SELECT DISTINCT kind, format FROM entry WHERE sequence > ?1"));
    rows.bind(1, known);
    while (true) {
        TRY(const bool row, rows.step());
        if (!row) return false;
        if (rows.integer(1) > k_entry_format || !is_known_kind(rows.text(0))) return true;
    }
}

Failure newer_book(const std::string& path) {
    return fail(ErrorKind::read_only, path,
                "a newer program has written to this book: it can be read here, not written.", {},
                "Use that program, or a newer one, to write.");
}

}  // namespace undercroft::store

#include "store/schema.hpp"

#include <array>

#include "store/schema/0001_book.hpp"
#include "store/schema/0002_picture.hpp"

namespace undercroft::store {
namespace {

constexpr std::array k_steps{k_schema_0001, k_schema_0002};
static_assert(k_steps.size() == k_schema_step);

}  // namespace

Result<void> build_schema(Database& database, std::int64_t from, std::int64_t to) {
    for (std::int64_t step = from; step < to; ++step)
        TRY_VOID(database.execute(k_steps.at(static_cast<std::size_t>(step))));
    TRY_VOID(database.execute(("PRAGMA application_id = " + std::to_string(k_application_id)).c_str()));
    return database.execute(("PRAGMA user_version = " + std::to_string(to)).c_str());
}

Result<void> bring_up_to_date(Database& database) {
    TRY(auto step, database.integer("PRAGMA user_version"));
    if (step >= k_schema_step) return {};
    TRY(auto transaction, Transaction::begin(database, Transaction::Kind::write));
    // Another program may have done it meanwhile.
    TRY(step, database.integer("PRAGMA user_version"));
    if (step < k_schema_step) TRY_VOID(build_schema(database, step, k_schema_step));
    return transaction.commit();
}

Result<void> set_habits(Database& database) {
    // secure_delete: a name that is forgotten leaves no bytes behind in the file.
    // trusted_schema, cell_size_check: the file may come from anywhere.
    return database.execute(
        "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA foreign_keys = ON;"
        "PRAGMA recursive_triggers = ON; PRAGMA secure_delete = ON; PRAGMA synchronous = FULL;");
}

Result<std::string> schema_text(Database& database) {
    TRY(auto rows, database.prepare("SELECT type || ' ' || name || ' ' || coalesce(sql, '') FROM sqlite_schema"
                                    " ORDER BY type, name"));
    std::string text;
    while (true) {
        TRY(const bool row, rows.step());
        if (!row) return text;
        text += rows.text(0) + "\n";
    }
}

}  // namespace undercroft::store

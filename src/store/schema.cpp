#include "store/schema.hpp"

#include <array>

#include "store/schema/0001_book.hpp"

namespace undercroft::store {
namespace {

constexpr std::array k_steps{k_schema_0001};
static_assert(k_steps.size() == k_schema_step);

}  // namespace

Result<void> build_schema(Database& database) {
    for (const char* step : k_steps) TRY_VOID(database.execute(step));
    TRY_VOID(database.execute(("PRAGMA application_id = " + std::to_string(k_application_id)).c_str()));
    return database.execute(("PRAGMA user_version = " + std::to_string(k_schema_step)).c_str());
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

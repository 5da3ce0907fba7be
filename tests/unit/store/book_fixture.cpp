#include "tests/unit/store/book_fixture.hpp"

#include <sqlite3.h>
#include <stdlib.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <vector>

#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store::testing {

void BookTest::SetUp() {
    std::string pattern = (std::filesystem::temp_directory_path() / "undercroft-store-XXXXXX").string();
    ASSERT_NE(::mkdtemp(pattern.data()), nullptr);
    m_folder = pattern;
}

void BookTest::TearDown() {
    std::filesystem::remove_all(m_folder);
}

std::unique_ptr<BookFile> BookTest::begin_book() const {
    auto book = create_book(book_path(), facts());
    if (!book) {
        ADD_FAILURE() << book.error().where << ": " << book.error().what;
        return nullptr;
    }
    return *std::move(book);
}

std::string BookTest::files() const {
    std::vector<std::string> names;
    for (const auto& file : std::filesystem::directory_iterator(m_folder))
        names.push_back(file.path().filename().string());
    std::sort(names.begin(), names.end());
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : " ") + name;
    return text;
}

RawDatabase::RawDatabase(const std::string& path) {
    EXPECT_EQ(sqlite3_open_v2(path.c_str(), &m_handle, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr), SQLITE_OK);
    // Tests change hundreds of books by hand; none of those needs to reach the disk.
    EXPECT_EQ(execute("PRAGMA synchronous = OFF"), "");
}

RawDatabase::~RawDatabase() {
    sqlite3_close_v2(m_handle);
}

std::string RawDatabase::execute(const std::string& sql) {
    return sqlite3_exec(m_handle, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK ? "" : sqlite3_errmsg(m_handle);
}

std::string RawDatabase::text(const std::string& sql) {
    sqlite3_stmt* statement = nullptr;
    EXPECT_EQ(sqlite3_prepare_v2(m_handle, sql.c_str(), -1, &statement, nullptr), SQLITE_OK)
        << sqlite3_errmsg(m_handle);
    std::string text;
    if (sqlite3_step(statement) == SQLITE_ROW) {
        const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement, 0));
        if (bytes != nullptr) text.assign(bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement, 0)));
    }
    sqlite3_finalize(statement);
    return text;
}

void RawDatabase::drop_triggers() {
    while (true) {
        const std::string name = text("SELECT name FROM sqlite_schema WHERE type = 'trigger' LIMIT 1");
        if (name.empty()) return;
        ASSERT_EQ(execute("DROP TRIGGER " + name), "");
    }
}

std::string unwell(BookFile& book) {
    const auto findings = book.check_store();
    if (!findings) return "error: " + findings.error().what;
    std::string text;
    for (const ledger::CheckFinding& finding : *findings)
        if (!finding.ok) text += (text.empty() ? "" : " ") + finding.check;
    return text;
}

std::string said_by(BookFile& book, const std::string& check) {
    const auto findings = book.check_store();
    if (!findings) return findings.error().what;
    for (const ledger::CheckFinding& finding : *findings)
        if (finding.check == check) return finding.what;
    return "no such check";
}

std::string bytes_of_file(const std::string& path) {
    std::ifstream file{path, std::ios::binary};
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace undercroft::store::testing

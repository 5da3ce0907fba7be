// A folder of its own for each test, and the ways a test looks into a book from outside.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <memory>
#include <string>

#include "store/book_file.hpp"

struct sqlite3;

namespace undercroft::store::testing {

inline constexpr Instant k_now{1'710'000'000'000};  // 9 March 2024

class BookTest : public ::testing::Test {
protected:
    void SetUp() override;
    void TearDown() override;

    [[nodiscard]] std::string path(const std::string& name) const { return (m_folder / name).string(); }
    [[nodiscard]] std::string book_path() const { return path("kiln-lane.book"); }
    // A new book at book_path(), open for writing. Fails the test when it cannot be.
    [[nodiscard]] std::unique_ptr<BookFile> begin_book() const;
    // The names in the folder, in order, with a space between.
    [[nodiscard]] std::string files() const;

private:
    std::filesystem::path m_folder;
};

// SQLite without the habits of the store, as any other program would open the file.
class RawDatabase {
public:
    explicit RawDatabase(const std::string& path);
    ~RawDatabase();
    RawDatabase(const RawDatabase&) = delete;
    RawDatabase& operator=(const RawDatabase&) = delete;

    // Empty when it worked, else SQLite's words.
    std::string execute(const std::string& sql);
    // First column of the first row as text; empty when there is none.
    std::string text(const std::string& sql);
    // What no program should do: the triggers go, and the schema's own marks stay.
    void drop_triggers();

private:
    sqlite3* m_handle = nullptr;
};

// Names of the checks that are not well, with a space between; empty when all are.
std::string unwell(BookFile& book);
// What that check says.
std::string said_by(BookFile& book, const std::string& check);

std::string bytes_of_file(const std::string& path);

}  // namespace undercroft::store::testing

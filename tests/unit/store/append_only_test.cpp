// No program changes what is booked, and one changed byte is found.
#include <gtest/gtest.h>

#include "tests/unit/store/book_fixture.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using testing::k_now;

using namespace ledger;
using testing::person;
using testing::RawDatabase;

class AppendOnly : public testing::BookTest {
protected:
    // A book with an entry of every kind, and two persons: Ines, and Rui who is forgotten.
    void SetUp() override {
        BookTest::SetUp();
        const auto book = begin_book();
        const auto entries = testing::full_entry_of_every_kind();
        ASSERT_TRUE(book->append({entries[0].key.sitting, entries, {person("Ines")}}, k_now, 0));
        Sitting second = testing::numbered_sitting(20, 3);
        second.entries[0].by = person("Rui").commitment;
        second.persons = {person("Rui")};
        ASSERT_TRUE(book->append(second, k_now, static_cast<std::int64_t>(entries.size())));
        ASSERT_TRUE(book->forget(person("Rui").commitment));
        ASSERT_EQ(testing::unwell(*book), "");
        ASSERT_TRUE(book->backup_to(path("bare.book")));
        RawDatabase{path("bare.book")}.drop_triggers();
    }

    // Runs `sql` in another program that knows nothing of the triggers, and asks what the book says then.
    std::string unwell_after(const std::string& sql) {
        std::filesystem::copy_file(path("bare.book"), path("changed.book"),
                                   std::filesystem::copy_options::overwrite_existing);
        {
            RawDatabase raw{path("changed.book")};
            EXPECT_EQ(raw.execute("PRAGMA ignore_check_constraints = ON; " + sql), "") << sql;
        }
        auto book = open_book(path("changed.book"), Access::read);
        return book ? testing::unwell(**book) : "does not open";
    }
};

TEST_F(AppendOnly, NoProgramCanChangeOrDeleteAnEntry) {
    RawDatabase raw{book_path()};
    EXPECT_EQ(raw.execute("UPDATE entry SET volume_ul = 1 WHERE sequence = 1"), "entries never change");
    EXPECT_EQ(raw.execute("DELETE FROM entry WHERE sequence = 1"), "entries never change");
    EXPECT_EQ(raw.execute("UPDATE book SET canonical = '{}'"), "the facts of a book never change");
    EXPECT_EQ(raw.execute("DELETE FROM book"), "the facts of a book never change");
    EXPECT_EQ(raw.execute("INSERT INTO book VALUES (2, '{}', zeroblob(32))"), "a book is begun once");
    EXPECT_EQ(raw.execute("INSERT OR REPLACE INTO book VALUES (1, '{}', zeroblob(32))"), "a book is begun once");
}

TEST_F(AppendOnly, NoProgramCanReplaceAnEntry) {
    RawDatabase raw{book_path()};
    const auto replace = [&](const std::string& verb, const std::string& sequence, const std::string& idx) {
        return raw.execute(verb + " INTO entry SELECT " + sequence + ", sitting, " + idx +
                           ", sitting_size, format, kind, at_ms, path, supersedes, 0, by_person, person, "
                           "subject, volume_ul, mass_mg, count, canonical, link FROM entry WHERE sequence = 1");
    };
    const std::string before = raw.text("SELECT group_concat(recorded_ms) FROM entry");
    for (const char* verb : {"INSERT OR REPLACE", "REPLACE", "INSERT OR IGNORE", "INSERT"}) {
        EXPECT_EQ(replace(verb, "1", "idx + 1000"), "an entry takes the next sequence number") << verb;
        EXPECT_EQ(replace(verb, "99", "idx + 1000"), "an entry takes the next sequence number") << verb;
        EXPECT_EQ(replace(verb, "(SELECT max(sequence) + 1 FROM entry)", "idx"), "this entry is in the book already")
            << verb;
    }
    EXPECT_EQ(raw.text("SELECT group_concat(recorded_ms) FROM entry"), before);
}

TEST_F(AppendOnly, APersonCanOnlyBeForgotten) {
    RawDatabase raw{book_path()};
    EXPECT_EQ(raw.execute("UPDATE person SET name = 'Eva'"), "a person can only be forgotten");
    EXPECT_EQ(raw.execute("UPDATE person SET name = ''"), "a person can only be forgotten");
    EXPECT_EQ(raw.execute("UPDATE person SET name = '', salt = '', commitment = replace(commitment, '0', '1')"),
              "a person can only be forgotten");
    EXPECT_EQ(raw.execute("DELETE FROM person"), "a person can only be forgotten");
    EXPECT_EQ(raw.execute("INSERT OR REPLACE INTO person SELECT commitment, salt, 'Eva' FROM person"),
              "this person is in the book already");
    EXPECT_EQ(raw.execute("UPDATE person SET name = '', salt = ''"), "");
}

TEST_F(AppendOnly, TheTriggersThemselvesAreMissedWhenGone) {
    EXPECT_EQ(unwell_after("SELECT 1"), "format");
}

TEST_F(AppendOnly, OneChangedByteInAnyColumnOfAnyRowIsFound) {
    RawDatabase raw{book_path()};
    const std::string last = raw.text("SELECT max(sequence) FROM entry");
    ASSERT_EQ(last, std::to_string(testing::kinds_of_entries() + 3));
    int tried = 0;
    const auto try_one = [&](const std::string& table, const std::string& key, const std::string& column) {
        const std::string where = " WHERE " + key;
        if (raw.text("SELECT " + column + " IS NULL OR length(" + column + ") = 0 FROM " + table + where) == "1")
            return;
        // The last byte of a text or blob gets its lowest bit turned; a number grows.
        const std::string kind = raw.text("SELECT typeof(" + column + ") FROM " + table + where);
        const std::string bytes = raw.text("SELECT " + column + " FROM " + table + where);
        std::string changed = "(" + column + " + 128)";
        if (kind != "integer") {
            changed = "CAST(x'";
            for (std::size_t i = 0; i < bytes.size(); ++i) {
                char hex[4];
                const unsigned turned = i + 1 == bytes.size() ? 1U : 0U;
                std::snprintf(hex, sizeof hex, "%02x", static_cast<unsigned char>(bytes[i]) ^ turned);
                changed += hex;
            }
            changed += "' AS " + std::string(kind == "blob" ? "BLOB" : "TEXT") + ")";
        }
        const std::string found = unwell_after("UPDATE " + table + " SET " + column + " = " + changed + where);
        // "format" alone only says that the triggers are gone.
        EXPECT_NE(found, "format") << table << "." << column << " where " << key;
        ++tried;
    };
    for (const char* column :
         {"sequence", "sitting", "idx", "sitting_size", "format", "kind", "at_ms", "path", "supersedes", "recorded_ms",
          "by_person", "person", "subject", "volume_ul", "mass_mg", "count", "canonical", "link"})
        for (int sequence = 1; sequence <= testing::kinds_of_entries() + 3; ++sequence)
            try_one("entry", "sequence = " + std::to_string(sequence), column);
    for (const char* column : {"canonical", "link"}) try_one("book", "id = 1", column);
    for (const char* name : {"name = 'Ines'", "name = ''"})
        for (const char* column : {"commitment", "salt", "name"}) try_one("person", name, column);
    EXPECT_GT(tried, 250);
}

TEST_F(AppendOnly, EveryByteOfAnEntryCounts) {
    RawDatabase raw{book_path()};
    const std::string canonical = raw.text("SELECT canonical FROM entry WHERE sequence = 5");
    for (std::size_t i = 0; i < canonical.size(); ++i) {
        std::string changed = canonical;
        changed[i] = static_cast<char>(changed[i] ^ 2);
        std::string quoted;
        for (const char c : changed) quoted += c == '\'' ? std::string("''") : std::string(1, c);
        const std::string found = unwell_after("UPDATE entry SET canonical = '" + quoted + "' WHERE sequence = 5");
        EXPECT_NE(found.find("chain"), std::string::npos) << i << " " << found;
    }
}

TEST_F(AppendOnly, AMissingOrAddedRowIsFound) {
    EXPECT_EQ(unwell_after("DELETE FROM entry WHERE sequence = " + std::to_string(testing::kinds_of_entries() + 3)),
              "format sittings");
    EXPECT_EQ(unwell_after("DELETE FROM entry WHERE sequence = 2"), "format chain sittings");
    EXPECT_EQ(unwell_after("DELETE FROM entry WHERE sequence = 1"), "format chain sittings");
    EXPECT_EQ(unwell_after("DELETE FROM person WHERE name = 'Ines'"), "format persons");
    EXPECT_EQ(unwell_after("INSERT INTO person VALUES ('" + std::string(64, 'a') + "', '', '')"), "format persons");
    EXPECT_EQ(unwell_after("DELETE FROM book"), "does not open");
}

TEST_F(AppendOnly, AWholeSittingTakenFromTheEndChangesTheHead) {
    const auto head = open_book(book_path(), Access::read).value()->chain_head().value();
    EXPECT_EQ(head.size(), 64U);
    // What no check inside the file can see; a head written down elsewhere does.
    EXPECT_EQ(unwell_after("DELETE FROM entry WHERE sequence > " + std::to_string(testing::kinds_of_entries()) +
                           "; DELETE FROM person WHERE name = ''"),
              "format");
    EXPECT_NE(open_book(path("changed.book"), Access::read).value()->chain_head().value(), head);
}

TEST_F(AppendOnly, AFindingNamesWhatIsWrongAndWhere) {
    unwell_after("UPDATE entry SET volume_ul = volume_ul + 1 WHERE sequence = 5");
    const auto book = open_book(path("changed.book"), Access::read).value();
    EXPECT_EQ(testing::said_by(*book, "columns"), "entry 5: column volume_ul differs from the entry itself");
    EXPECT_NE(
        testing::said_by(*book, "chain").find(std::to_string(testing::kinds_of_entries() + 3) + " entries, head "),
        std::string::npos);
}

TEST_F(AppendOnly, ABookWithADamagedEntryIsRefusedWhenReadNotGuessedAt) {
    unwell_after("UPDATE entry SET canonical = substr(canonical, 2) WHERE sequence = 5");
    const auto book = open_book(path("changed.book"), Access::read).value();
    const auto entries = book->entries();
    ASSERT_FALSE(entries);
    EXPECT_EQ(entries.error().kind, ErrorKind::storage);
    EXPECT_EQ(entries.error().where, "entry 5");
}

}  // namespace
}  // namespace undercroft::store

// A book in a file with what the tests ask of it: a clock and chance of its own, acts, and the use cases that need a
// file.
#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "app/transfer.hpp"
#include "store/book_file.hpp"
#include "tests/support/test_book.hpp"

namespace undercroft::testing {

class KeptBook {
public:
    // `digit` makes the book's id.
    static std::unique_ptr<KeptBook> begin(const std::string& path, const std::string& name, char digit,
                                           bool invented = false) {
        ledger::BookFacts facts = invented_facts();
        facts.id = std::string("6f1c1d0e-3b52-4c1a-9d55-00000000000") + digit;
        facts.name = name;
        facts.invented = invented;
        return over(store::create_book(path, facts));
    }
    static std::unique_ptr<KeptBook> open(const std::string& path) {
        return over(store::open_book(path, store::Access::write));
    }

    store::BookFile& file() { return *m_file; }
    app::Book& book() { return *m_book; }
    app::Transfer& transfer() { return m_transfer; }
    void pass(std::int64_t minutes) { m_book.pass(minutes); }
    void keep(std::vector<app::Act> acts) {
        m_book.pass(1);
        m_book.must(std::move(acts));
    }
    Volume held(const std::string& vessel) { return m_book.held(vessel); }
    ledger::BookCopy copy() {
        auto copy = m_file->whole_copy();
        if (copy) return *std::move(copy);
        ADD_FAILURE() << copy.error().what;
        return {};
    }
    // By every check of the store and of the entries.
    bool whole() {
        const auto findings = m_file->check_store();
        if (!findings) return false;
        for (const ledger::CheckFinding& finding : *findings)
            if (!finding.ok) return false;
        const auto view = m_book->check();
        return view && view->ok();
    }

private:
    explicit KeptBook(std::unique_ptr<store::BookFile> file)
        : m_file(std::move(file)),
          m_book(*m_file),
          m_transfer(*m_file, *m_file, m_zone, reference_tables(), m_book.surroundings()) {}
    static std::unique_ptr<KeptBook> over(Result<std::unique_ptr<store::BookFile>> file) {
        if (!file) {
            ADD_FAILURE() << file.error().where << ": " << file.error().what;
            return nullptr;
        }
        return std::unique_ptr<KeptBook>(new KeptBook(*std::move(file)));
    }

    std::unique_ptr<store::BookFile> m_file;
    UtcZone m_zone;
    TestBook m_book;
    app::Transfer m_transfer;
};

}  // namespace undercroft::testing

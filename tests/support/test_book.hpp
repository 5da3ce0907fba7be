// A book with a clock that stands still until it is moved, in UTC, and random bytes that count up.
#pragma once

#include <gtest/gtest.h>

#include <cstdio>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "app/book.hpp"
#include "ledger/memory_journal.hpp"
#include "store/digest.hpp"
#include "tables/tables.hpp"
#include "tests/support/reference_tables.hpp"

namespace undercroft::testing {

inline ledger::BookFacts invented_facts() {
    ledger::BookFacts facts;
    facts.id = "3f2504e0-4f89-41d3-9a0c-0305e82c3301";
    facts.name = "Kiln Lane";
    facts.zone = "UTC";
    facts.invented = true;
    return facts;
}

// Opens an app::Book over a journal in memory, or over one that is given.
class TestBook {
public:
    TestBook() : m_own(std::make_unique<ledger::MemoryJournal>(invented_facts())), m_journal(m_own.get()) { open(); }
    explicit TestBook(ledger::Journal& journal) : m_journal(&journal) { open(); }
    TestBook(const TestBook&) = delete;
    TestBook& operator=(const TestBook&) = delete;

    app::Book& operator*() { return *m_book; }
    app::Book* operator->() { return m_book.get(); }
    ledger::Journal& journal() { return *m_journal; }

    // 14 March 2026, 10:00, and later.
    void set_clock(const std::string& iso) { m_now = *parse_iso_instant(iso); }
    void pass(std::int64_t minutes) { m_now.ms += minutes * 60'000; }
    [[nodiscard]] Instant now() const { return m_now; }

    Result<app::SittingView> book(std::vector<app::Act> acts, const std::string& when = "") {
        app::SittingRequest request;
        request.acts = std::move(acts);
        request.when = when;
        return m_book->book(request);
    }
    Result<app::SittingView> preview(std::vector<app::Act> acts, const std::string& when = "") {
        app::SittingRequest request;
        request.acts = std::move(acts);
        request.when = when;
        return m_book->preview(request);
    }
    // Books, and fails the test with the refusal's own words when it is refused.
    app::SittingView must(std::vector<app::Act> acts, const std::string& when = "") {
        auto view = book(std::move(acts), when);
        if (view) return std::move(*view);
        std::string told = view.error().where + ": " + view.error().what;
        for (const Fact& fact : view.error().facts) told += " | " + fact.label + ": " + fact.value;
        ADD_FAILURE() << told;
        return {};
    }
    Volume held(const std::string& vessel) {
        const auto view = m_book->show(vessel, {});
        if (view && view->vessel) return view->vessel->volume;
        ADD_FAILURE() << "no vessel " << vessel;
        return {};
    }

    [[nodiscard]] app::Surroundings surroundings() {
        app::Surroundings surroundings;
        surroundings.now = [this] { return m_now; };
        surroundings.random16 = [this] {
            char text[40];
            std::snprintf(text, sizeof text, "%032llx", ++m_drawn);
            return std::string(text);
        };
        surroundings.commitment = [](const std::string& salt, const std::string& name) {
            return store::commitment_of(salt, name);
        };
        return surroundings;
    }

private:
    void open() {
        m_now = *parse_iso_instant("2026-03-14T10:00:00.000Z");
        m_book = std::make_unique<app::Book>(*m_journal, nullptr, m_zone, reference_tables(), surroundings());
    }

    std::unique_ptr<ledger::MemoryJournal> m_own;
    ledger::Journal* m_journal;
    UtcZone m_zone;
    Instant m_now;
    unsigned long long m_drawn = 0;
    std::unique_ptr<app::Book> m_book;
};

}  // namespace undercroft::testing

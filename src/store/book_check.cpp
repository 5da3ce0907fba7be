#include "store/book_check.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include "store/digest.hpp"
#include "store/entry_codec.hpp"
#include "store/entry_row.hpp"
#include "store/picture_rows.hpp"
#include "store/schema.hpp"

namespace undercroft::store {
namespace {

using ledger::CheckFinding;

// Collects what one check finds wrong: the first in words, the rest as a number.
class Finding {
public:
    explicit Finding(std::string check) : m_check(std::move(check)) {}

    void wrong(const std::string& what) {
        if (m_count++ == 0) m_first = what;
    }
    void wrong(const Error& error) { wrong((error.where.empty() ? "" : error.where + ": ") + error.what); }

    [[nodiscard]] CheckFinding finish(const std::string& when_good) const {
        if (m_count == 0) return {m_check, true, when_good};
        if (m_count == 1) return {m_check, false, m_first};
        return {m_check, false, m_first + " (and " + std::to_string(m_count - 1) + " more)"};
    }

private:
    std::string m_check;
    std::string m_first;
    std::int64_t m_count = 0;
};

std::string number_of(std::int64_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string entry_name(std::int64_t sequence) {
    return "entry " + std::to_string(sequence);
}

CheckFinding check_integrity(Database& database) {
    Finding finding{"integrity"};
    const auto run = [&]() -> Result<void> {
        TRY(auto rows, database.prepare("PRAGMA integrity_check(20)"));
        while (true) {
            TRY(const bool row, rows.step());
            if (!row) return {};
            if (rows.text(0) != "ok") finding.wrong(rows.text(0));
        }
    };
    if (const auto outcome = run(); !outcome) finding.wrong(outcome.error());
    return finding.finish("the file's pages and indexes are sound");
}

CheckFinding check_format(Database& database) {
    Finding finding{"format"};
    std::string when_good;
    const auto run = [&]() -> Result<void> {
        TRY(const auto mark, database.integer("PRAGMA application_id"));
        if (mark != k_application_id) finding.wrong("the file is not marked as a book");
        TRY(const auto step, database.integer("PRAGMA user_version"));
        when_good = "schema step " + std::to_string(step);
        if (step > k_schema_step) {
            when_good = "schema step " + std::to_string(step) + ", newer than this program: tables not compared";
        } else {
            TRY(auto fresh, Database::in_memory());
            TRY_VOID(build_schema(*fresh, 0, std::max(step, std::int64_t{1})));
            TRY(const std::string due, schema_text(*fresh));
            TRY(const std::string found, schema_text(database));
            if (step < 1 || found != due) finding.wrong("tables or triggers are not as this program makes them");
        }
        TRY(const std::string canonical, database.text("SELECT canonical FROM book"));
        TRY([[maybe_unused]] const auto facts, decode_facts(canonical));
        return {};
    };
    if (const auto outcome = run(); !outcome) finding.wrong(outcome.error());
    return finding.finish(when_good);
}

// Walks the entries once for the checks that look at each.
class EntryWalk {
public:
    Result<void> run(Database& database) {
        TRY(const std::string facts, database.text("SELECT canonical FROM book"));
        TRY(m_link, database.text("SELECT link FROM book"));
        if (m_link != link_of_facts(facts)) m_chain.wrong("link 0 does not follow from the facts of the book");
        TRY(auto rows, database.prepare(std::string(k_select_rows) + " ORDER BY sequence"));
        while (true) {
            TRY(const bool more, rows.step());
            if (!more) break;
            visit(read_row(rows));
        }
        close_sitting();
        return {};
    }

    void wrong(const Error& error) {
        for (Finding* finding : {&m_chain, &m_columns, &m_sittings}) finding->wrong(error);
    }
    [[nodiscard]] std::vector<CheckFinding> findings() const {
        const std::string entries = number_of(m_last, "entry", "entries");
        return {m_chain.finish(entries + ", head " + hex_of(m_link)),
                m_columns.finish(m_unknown == 0 ? entries
                                                : entries + ", " + number_of(m_unknown, "is", "are") +
                                                      " of a kind this program does not know"),
                m_sittings.finish(number_of(m_sitting_count, "sitting", "sittings") + ", all whole")};
    }
    [[nodiscard]] const std::set<std::string>& named() const { return m_named; }
    [[nodiscard]] const std::set<std::string>& pictures() const { return m_pictures; }
    [[nodiscard]] bool knows_every_kind() const { return m_unknown == 0; }

private:
    void visit(const EntryRow& row) {
        if (row.sequence != m_last + 1)
            m_chain.wrong(entry_name(m_last + 1) + " is missing: " + entry_name(row.sequence) + " comes next");
        if (row.link != link_of_entry(m_link, row.canonical))
            m_chain.wrong(entry_name(row.sequence) + ": its link does not follow from its bytes and the link before");
        m_link = row.link;
        m_last = row.sequence;

        if (const auto column = wrong_column(row); !column)
            m_columns.wrong(column.error());
        else if (!column->empty())
            m_columns.wrong(entry_name(row.sequence) + ": column " + *column + " differs from the entry itself");
        if (row.format > k_entry_format || !is_known_kind(row.kind)) ++m_unknown;

        if (row.sitting != m_sitting) {
            close_sitting();
            m_sitting = row.sitting;
            m_sitting_size = row.sitting_size;
            m_next_index = 0;
            ++m_sitting_count;
            if (!m_seen.insert(row.sitting).second)
                m_sittings.wrong("sitting " + row.sitting + " stands in two places");
        }
        if (row.idx != m_next_index || row.sitting_size != m_sitting_size)
            m_sittings.wrong(entry_name(row.sequence) + " does not continue sitting " + row.sitting);
        m_next_index = row.idx + 1;

        if (row.kind == "note" && row.format > 1)
            if (const auto entry = entry_in(row.sequence, row.canonical)) m_pictures.merge(pictures_named(*entry));
        if (row.by_person) m_named.insert(*row.by_person);
        if (row.body.person) m_named.insert(*row.body.person);
    }

    void close_sitting() {
        if (!m_sitting.empty() && m_next_index != m_sitting_size)
            m_sittings.wrong("sitting " + m_sitting + " has " + std::to_string(m_next_index) + " of " +
                             std::to_string(m_sitting_size) + " entries");
    }

    Finding m_chain{"chain"};
    Finding m_columns{"columns"};
    Finding m_sittings{"sittings"};
    std::string m_link;
    std::int64_t m_last = 0;
    std::int64_t m_unknown = 0;
    std::string m_sitting;
    std::int64_t m_sitting_size = 0;
    std::int64_t m_next_index = 0;
    std::int64_t m_sitting_count = 0;
    std::set<std::string> m_seen;
    std::set<std::string> m_named;
    std::set<std::string> m_pictures;
};

CheckFinding check_persons(Database& database, const EntryWalk& walk) {
    Finding finding{"persons"};
    std::int64_t known = 0;
    std::int64_t forgotten = 0;
    const auto run = [&]() -> Result<void> {
        std::set<std::string> missing = walk.named();
        TRY(auto rows, database.prepare("SELECT commitment, salt, name FROM person"));
        while (true) {
            TRY(const bool more, rows.step());
            if (!more) break;
            const ledger::Person person{rows.text(0), rows.text(1), rows.text(2)};
            const bool empty = person.salt.empty() && person.name.empty();
            ++(empty ? forgotten : known);
            if (!empty && commitment_of(person.salt, person.name) != person.commitment)
                finding.wrong("person " + person.commitment + ": salt and name do not give the commitment");
            // A newer kind of entry may name a person where we do not look.
            if (missing.erase(person.commitment) == 0 && walk.knows_every_kind())
                finding.wrong("person " + person.commitment + " is named by no entry");
        }
        for (const std::string& commitment : missing)
            finding.wrong("person " + commitment + " is named by an entry, but has no row");
        return {};
    };
    if (const auto outcome = run(); !outcome) finding.wrong(outcome.error());
    return finding.finish(number_of(known, "name", "names") + ", " + std::to_string(forgotten) + " forgotten");
}

CheckFinding check_pictures(Database& database, const EntryWalk& walk) {
    Finding finding{"pictures"};
    std::int64_t known = 0;
    std::int64_t forgotten = 0;
    const auto run = [&]() -> Result<void> {
        std::set<std::string> missing = walk.pictures();
        TRY(const bool there, has_pictures(database));
        if (there) {
            TRY(auto rows, database.prepare("SELECT commitment FROM picture"));
            while (true) {
                TRY(const bool more, rows.step());
                if (!more) break;
                TRY(const auto picture, read_picture(database, rows.text(0)));
                if (!picture) continue;
                const bool empty = picture->salt.empty() && picture->media_type.empty() && picture->bytes.empty();
                ++(empty ? forgotten : known);
                if (!empty && !check_picture(*picture))
                    finding.wrong("picture " + picture->commitment + ": salt and bytes do not give the commitment");
                if (missing.erase(picture->commitment) == 0 && walk.knows_every_kind())
                    finding.wrong("picture " + picture->commitment + " is named by no entry");
            }
        }
        for (const std::string& commitment : missing)
            finding.wrong("picture " + commitment + " is named by an entry, but has no row");
        return {};
    };
    if (const auto outcome = run(); !outcome) finding.wrong(outcome.error());
    return finding.finish(number_of(known, "picture", "pictures") + ", " + std::to_string(forgotten) + " forgotten");
}

}  // namespace

Result<std::vector<CheckFinding>> check_book(Database& database) {
    TRY(auto snapshot, Transaction::begin(database, Transaction::Kind::read));
    std::vector<CheckFinding> findings{check_integrity(database), check_format(database)};
    EntryWalk walk;
    if (const auto outcome = walk.run(database); !outcome) walk.wrong(outcome.error());
    for (CheckFinding& finding : walk.findings()) findings.push_back(std::move(finding));
    findings.push_back(check_persons(database, walk));
    findings.push_back(check_pictures(database, walk));
    TRY_VOID(snapshot.commit());
    return findings;
}

}  // namespace undercroft::store

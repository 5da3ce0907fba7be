// Schema step 1: the book as first released. Never edited again; a change is a step of its own.
#pragma once

namespace undercroft::store {

inline constexpr const char* k_schema_0001 = R"sql(
-- One row: what was fixed when the book was begun, and link 0 of the chain.
CREATE TABLE book (
    id        INTEGER PRIMARY KEY CHECK (id = 1),
    canonical TEXT NOT NULL,
    link      BLOB NOT NULL CHECK (length(link) = 32)
) STRICT;

-- The only place where names live. Forgetting a person empties salt and name.
CREATE TABLE person (
    commitment TEXT PRIMARY KEY CHECK (length(commitment) = 64),
    salt       TEXT NOT NULL,
    name       TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- One row an entry. `canonical` is the entry; the columns before it repeat what is looked for often.
CREATE TABLE entry (
    sequence     INTEGER PRIMARY KEY CHECK (sequence > 0),
    sitting      TEXT NOT NULL,
    idx          INTEGER NOT NULL CHECK (idx BETWEEN 0 AND 999999),
    sitting_size INTEGER NOT NULL CHECK (sitting_size > idx),
    format       INTEGER NOT NULL CHECK (format > 0),
    kind         TEXT NOT NULL,
    at_ms        INTEGER NOT NULL,
    path         TEXT NOT NULL,
    supersedes   TEXT,
    recorded_ms  INTEGER NOT NULL,
    by_person    TEXT REFERENCES person (commitment),
    person       TEXT REFERENCES person (commitment),
    subject      TEXT,
    volume_ul    INTEGER,
    mass_mg      INTEGER,
    count        INTEGER,
    canonical    TEXT NOT NULL,
    link         BLOB NOT NULL CHECK (length(link) = 32),
    UNIQUE (sitting, idx)
) STRICT;

CREATE INDEX entry_by_kind ON entry (kind, format);

-- Append only, whatever program writes. REPLACE deletes without asking the delete trigger unless
-- recursive_triggers is on, so the insert triggers refuse what is there already.
CREATE TRIGGER book_once BEFORE INSERT ON book WHEN EXISTS (SELECT 1 FROM book)
BEGIN SELECT RAISE(ABORT, 'a book is begun once'); END;
CREATE TRIGGER book_no_update BEFORE UPDATE ON book
BEGIN SELECT RAISE(ABORT, 'the facts of a book never change'); END;
CREATE TRIGGER book_no_delete BEFORE DELETE ON book
BEGIN SELECT RAISE(ABORT, 'the facts of a book never change'); END;

CREATE TRIGGER entry_next BEFORE INSERT ON entry
WHEN NEW.sequence IS NOT (SELECT coalesce(max(sequence), 0) + 1 FROM entry)
BEGIN SELECT RAISE(ABORT, 'an entry takes the next sequence number'); END;
CREATE TRIGGER entry_once BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE sitting = NEW.sitting AND idx = NEW.idx)
BEGIN SELECT RAISE(ABORT, 'this entry is in the book already'); END;
CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'entries never change'); END;
CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'entries never change'); END;

CREATE TRIGGER person_once BEFORE INSERT ON person
WHEN EXISTS (SELECT 1 FROM person WHERE commitment = NEW.commitment)
BEGIN SELECT RAISE(ABORT, 'this person is in the book already'); END;
CREATE TRIGGER person_forget_only BEFORE UPDATE ON person
WHEN NOT (NEW.commitment IS OLD.commitment AND NEW.salt IS '' AND NEW.name IS '')
BEGIN SELECT RAISE(ABORT, 'a person can only be forgotten'); END;
CREATE TRIGGER person_no_delete BEFORE DELETE ON person
BEGIN SELECT RAISE(ABORT, 'a person can only be forgotten'); END;
)sql";

}  // namespace undercroft::store

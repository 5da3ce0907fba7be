-- A book as the program wrote it at schema step 1 (before pictures), dumped by SQLite's own shell. Invented.
BEGIN TRANSACTION;
CREATE TABLE book (
    id        INTEGER PRIMARY KEY CHECK (id = 1),
    canonical TEXT NOT NULL,
    link      BLOB NOT NULL CHECK (length(link) = 32)
) STRICT;
INSERT INTO book VALUES(1,'{"begun_ms":1773511200000,"format":1,"gallons":"unset","id":"63cbe1e4-5932-4dd7-844c-3cd7f43c661c","name":"Vault","zone":"Europe/Lisbon"}',X'1a8624436cf20bc56ebdc3934af24ded0b7de92b1f7223305abf63bfc8852761');
CREATE TABLE person (
    commitment TEXT PRIMARY KEY CHECK (length(commitment) = 64),
    salt       TEXT NOT NULL,
    name       TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO person VALUES('cac34608152d74d79eac2cee3d6cd9a53d1981468e35dd625b02b8dfaa31e3e2','b0643a4e15e67e01893eb7db0dddbdb4','Ines');
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
INSERT INTO entry VALUES(1,'019ced81-4d00-71e5-a51b-0ef9536369ca',0,1,1,'vessel',1773511200000,'019ced81-4d00-71e5-a51b-0ef9536369ca:000000',NULL,1773511200000,'cac34608152d74d79eac2cee3d6cd9a53d1981468e35dd625b02b8dfaa31e3e2',NULL,NULL,60000000,NULL,NULL,'{"at_ms":1773511200000,"body":{"capacity_ul":60000000,"name":"Amber","role":"solera"},"by":"cac34608152d74d79eac2cee3d6cd9a53d1981468e35dd625b02b8dfaa31e3e2","format":1,"key":"019ced81-4d00-71e5-a51b-0ef9536369ca:000000","kind":"vessel","path":"019ced81-4d00-71e5-a51b-0ef9536369ca:000000","recorded_ms":1773511200000,"sitting_size":1}',X'e1b95e606e833326d0ef8b42c3e5d583b03e86e9a6f58e4ea03c5f0012301731');
INSERT INTO entry VALUES(2,'019ced81-4d00-71e6-b52f-ebe706064c02',0,2,1,'lot',1773511200000,'019ced81-4d00-71e6-b52f-ebe706064c02:000000',NULL,1773511200000,NULL,NULL,'019ced81-4d00-71e5-a51b-0ef9536369ca:000000',50000000,NULL,NULL,'{"at_ms":1773511200000,"body":{"allergens":[{"group":"gluten"}],"brewed_from":"2026-03-14","brewed_to":"2026-03-14","kind":"beer","name":"Founding","original_gravity_sg":"1.048","reason":"fill","vessel":"019ced81-4d00-71e5-a51b-0ef9536369ca:000000","volume_ul":50000000},"format":1,"key":"019ced81-4d00-71e6-b52f-ebe706064c02:000000","kind":"lot","path":"019ced81-4d00-71e6-b52f-ebe706064c02:000000","recorded_ms":1773511200000,"sitting_size":2}',X'016952d69b9b9e055661b6b89637c0d93228f894d72e7b08221c91795cd0a982');
INSERT INTO entry VALUES(3,'019ced81-4d00-71e6-b52f-ebe706064c02',1,2,1,'note',1773511200000,'019ced81-4d00-71e6-b52f-ebe706064c02:000001',NULL,1773511200000,NULL,NULL,'019ced81-4d00-71e5-a51b-0ef9536369ca:000000',NULL,NULL,NULL,'{"at_ms":1773511200000,"body":{"subject":"019ced81-4d00-71e5-a51b-0ef9536369ca:000000","words":"the airlock was dry"},"format":1,"key":"019ced81-4d00-71e6-b52f-ebe706064c02:000001","kind":"note","path":"019ced81-4d00-71e6-b52f-ebe706064c02:000001","recorded_ms":1773511200000,"sitting_size":2}',X'0339068d2c4d1b79439ce68ffcaffb29d630972930a673a4e192aa90b2b85111');
CREATE INDEX entry_by_kind ON entry (kind, format);
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
COMMIT;
PRAGMA application_id = 1430475330;
PRAGMA user_version = 1;

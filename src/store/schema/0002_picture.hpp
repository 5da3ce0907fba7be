// Schema step 2: pictures. Never edited again; a change is a step of its own.
#pragma once

namespace undercroft::store {

inline constexpr const char* k_schema_0002 = R"sql(
-- The only place where the bytes of pictures lie; entries hold the commitment. Forgetting one empties the rest.
CREATE TABLE picture (
    commitment TEXT PRIMARY KEY CHECK (length(commitment) = 64),
    salt       TEXT NOT NULL,
    media_type TEXT NOT NULL,
    bytes      BLOB NOT NULL CHECK (length(bytes) <= 8388608)
) STRICT;

CREATE TRIGGER picture_once BEFORE INSERT ON picture
WHEN EXISTS (SELECT 1 FROM picture WHERE commitment = NEW.commitment)
BEGIN SELECT RAISE(ABORT, 'this picture is in the book already'); END;
CREATE TRIGGER picture_forget_only BEFORE UPDATE ON picture
WHEN NOT (NEW.commitment IS OLD.commitment AND NEW.salt IS '' AND NEW.media_type IS '' AND NEW.bytes IS x'')
BEGIN SELECT RAISE(ABORT, 'a picture can only be forgotten'); END;
CREATE TRIGGER picture_no_delete BEFORE DELETE ON picture
BEGIN SELECT RAISE(ABORT, 'a picture can only be forgotten'); END;
)sql";

}  // namespace undercroft::store

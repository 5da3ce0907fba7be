// Pictures for tests: bytes that begin like a PNG or JPEG, which is all the book looks at.
#pragma once

#include <string>

#include "ledger/picture.hpp"
#include "store/digest.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store::testing {

inline ledger::Picture picture_of(const std::string& bytes) {
    const std::string salt = "000102030405060708090a0b0c0d0e0f";
    return {commitment_of(salt, bytes), salt, ledger::media_type_of(bytes), bytes};
}

inline ledger::Picture airlock() {
    return picture_of("\x89PNG\r\n\x1a\n the airlock, which was dry");
}

// A sitting of one note with that picture.
inline ledger::Sitting note_with(unsigned number, const ledger::Picture& picture) {
    ledger::Note note;
    note.words = "look";
    note.picture = picture.commitment;
    ledger::Sitting sitting = sitting_of(sitting_key(number), {note});
    sitting.pictures = {picture};
    return sitting;
}

}  // namespace undercroft::store::testing

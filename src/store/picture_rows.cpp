#include "store/picture_rows.hpp"

#include "store/digest.hpp"

namespace undercroft::store {

using ledger::Picture;

Result<void> check_picture(const Picture& picture) {
    if (picture.bytes.size() > ledger::k_largest_picture || ledger::media_type_of(picture.bytes).empty() ||
        ledger::media_type_of(picture.bytes) != picture.media_type || !is_salt(picture.salt) ||
        commitment_of(picture.salt, picture.bytes) != picture.commitment)
        return fail(ErrorKind::bad_input, "picture",
                    "a picture is a PNG or JPEG of at most 8 MB and comes with a salt of 16 bytes in hex and the "
                    "commitment made of both.");
    return {};
}

std::set<std::string> pictures_named(const ledger::Entry& entry) {
    const auto* note = std::get_if<ledger::Note>(&entry.body);
    if (note == nullptr || note->picture.empty()) return {};
    return {note->picture};
}

Result<bool> has_pictures(Database& database) {
    TRY(const auto tables,
        database.integer("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'picture'"));
    return tables == 1;
}

Result<std::optional<Picture>> read_picture(Database& database, const std::string& commitment) {
    TRY(const bool there, has_pictures(database));
    if (!there) return std::nullopt;
    TRY(auto select, database.prepare("SELECT commitment, salt, media_type, bytes FROM picture WHERE commitment = ?1"));
    select.bind(1, commitment);
    TRY(const bool row, select.step());
    if (!row) return std::nullopt;
    return Picture{select.text(0), select.text(1), select.text(2), select.text(3)};
}

Result<std::vector<std::string>> picture_commitments(Database& database) {
    std::vector<std::string> commitments;
    TRY(const bool there, has_pictures(database));
    if (!there) return commitments;
    TRY(auto select, database.prepare("SELECT commitment FROM picture ORDER BY commitment"));
    while (true) {
        TRY(const bool row, select.step());
        if (!row) return commitments;
        commitments.push_back(select.text(0));
    }
}

Result<void> insert_picture(Database& database, const Picture& picture) {
    TRY(auto row, database.prepare("INSERT INTO picture (commitment, salt, media_type, bytes)"
                                   " VALUES (?1, ?2, ?3, ?4)"));
    row.bind(1, picture.commitment).bind(2, picture.salt).bind(3, picture.media_type);
    row.bind_blob(4, picture.bytes);
    return row.run();
}

Result<void> insert_pictures(Database& database, const std::vector<Picture>& pictures,
                             const std::vector<ledger::Entry>& entries, MissingPicture missing) {
    std::set<std::string> named;
    for (const ledger::Entry& entry : entries) named.merge(pictures_named(entry));
    for (const Picture& picture : pictures) {
        if (!named.contains(picture.commitment))
            return fail(ErrorKind::bad_input, "picture", "a sitting brings only pictures that its entries name.");
        TRY(const auto there, read_picture(database, picture.commitment));
        if (there) continue;
        TRY_VOID(insert_picture(database, picture));
    }
    for (const std::string& commitment : named) {
        TRY(const auto there, read_picture(database, commitment));
        if (there) continue;
        if (missing == MissingPicture::refused)
            return fail(ErrorKind::bad_input, "picture",
                        "an entry names picture " + commitment + ", which the book does not hold.");
        TRY_VOID(insert_picture(database, {commitment, {}, {}, {}}));
    }
    return {};
}

}  // namespace undercroft::store

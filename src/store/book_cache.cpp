#include "store/book_cache.hpp"

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string_view>
#include <system_error>
#include <utility>

#include "store/digest.hpp"
#include "store/entry_codec.hpp"
#include "store/entry_image.hpp"

namespace undercroft::store {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view k_cache_mark = "undercroft cache, may be deleted\n";

// What comes first in the file; the digest of all the rest follows, then the image.
std::string head_of(const std::string& book_id, const std::string& link) {
    return std::string(k_cache_mark) + shape_of_images() + book_id + link;
}

std::optional<std::string> bytes_of(const std::string& path) {
    std::error_code code;
    const auto size = fs::file_size(path, code);
    if (code) return std::nullopt;
    std::ifstream file(path, std::ios::binary);
    std::string bytes(size, '\0');
    if (!file.read(bytes.data(), static_cast<std::streamsize>(size))) return std::nullopt;
    return bytes;
}

}  // namespace

std::string cache_path_of(const std::string& book_path) {
    return book_path + ".cache";
}

std::optional<CachedBook> read_cache(const std::string& book_path, const std::string& book_id, std::size_t room) {
    const auto bytes = bytes_of(cache_path_of(book_path));
    if (!bytes) return std::nullopt;
    const std::string_view whole = *bytes;
    const std::string start = head_of(book_id, {});
    if (whole.size() < start.size() + 2 * k_digest_bytes || !whole.starts_with(start)) return std::nullopt;
    CachedBook cached;
    cached.link = whole.substr(start.size(), k_digest_bytes);
    const std::string_view digest = whole.substr(start.size() + k_digest_bytes, k_digest_bytes);
    const std::string_view image = whole.substr(start.size() + 2 * k_digest_bytes);
    if (blake2b_256({whole.substr(0, start.size() + k_digest_bytes), image}) != digest) return std::nullopt;
    auto entries = entries_of_image(image, room);
    if (!entries || entries->empty()) return std::nullopt;
    cached.entries = *std::move(entries);
    cached.last = cached.entries.back().sequence;
    return cached;
}

void write_cache(const std::string& book_path, const std::string& book_id, const std::vector<ledger::Entry>& entries,
                 const std::string& link) {
    const std::string path = cache_path_of(book_path);
    const std::string working = path + "." + std::to_string(::getpid());
    const std::string head = head_of(book_id, link);
    const std::string image = image_of(entries);
    std::error_code code;
    {
        std::ofstream file(working, std::ios::binary | std::ios::trunc);
        file << head << blake2b_256({head, image}) << image;
        file.flush();
        if (!file) {
            fs::remove(working, code);
            return;
        }
    }
    fs::rename(working, path, code);
    if (code) fs::remove(working, code);
}

Result<ledger::CheckFinding> check_cache(Database& database, const std::string& book_id) {
    const std::string path = cache_path_of(database.path());
    const std::string name = fs::path(path).filename().string();
    std::error_code code;
    if (!fs::exists(path, code)) return ledger::CheckFinding{"caches", true, "none is kept, and none is needed"};
    const ledger::CheckFinding unused{"caches", true, name + " is of another state or program and is not used"};
    const auto cached = read_cache(database.path(), book_id, 0);
    if (!cached) return unused;
    TRY(auto rows, database.prepare("SELECT canonical, link FROM entry WHERE sequence <= ?1 ORDER BY sequence"));
    rows.bind(1, cached->last);
    std::string link;
    std::size_t count = 0;
    std::int64_t differs = 0;
    while (true) {
        TRY(const bool row, rows.step());
        if (!row) break;
        link = rows.text(1);
        if (count == cached->entries.size()) return unused;
        const ledger::Entry& entry = cached->entries[count++];
        const auto canonical = encode(entry);
        if (differs == 0 && (!canonical || *canonical != rows.text(0))) differs = entry.sequence;
    }
    if (count < cached->entries.size() || link != cached->link) return unused;
    if (differs != 0)
        return ledger::CheckFinding{"caches", false,
                                    "entry " + std::to_string(differs) + " in " + name +
                                        " is not that of the book: delete that file, nothing is lost"};
    return ledger::CheckFinding{"caches", true,
                                std::to_string(count) + " entries in " + name + " are those of the book"};
}

}  // namespace undercroft::store

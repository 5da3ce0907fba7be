#include "main/cellars.hpp"

#include <stdlib.h>

#include <system_error>

#include "main/system_zone.hpp"

namespace undercroft {

Result<ServedBook> open_served(const std::string& path, const tables::Tables& tables,
                               const app::Surroundings& surroundings) {
    ServedBook served;
    TRY(served.file, store::open_book(path, store::Access::write));
    TRY(served.zone, system_zone(served.file->facts().zone));
    store::BookFile& file = *served.file;
    served.book = std::make_unique<app::Book>(file, &file, *served.zone, tables, surroundings);
    served.transfer = std::make_unique<app::Transfer>(file, file, *served.zone, tables, surroundings);
    return served;
}

Scratch::~Scratch() {
    std::error_code ignored;
    if (!m_folder.empty()) std::filesystem::remove_all(m_folder, ignored);
}

Result<std::string> Scratch::new_file(const std::string& ending) {
    if (m_folder.empty()) {
        std::error_code code;
        std::string name = (std::filesystem::temp_directory_path(code) / "undercroft-XXXXXX").string();
        if (code || ::mkdtemp(name.data()) == nullptr)
            return fail(ErrorKind::storage, "temporary folder", "No folder for passing files could be made.", {},
                        "Is there room, and may you write there? TMPDIR names another place.");
        m_folder = name;
    }
    return (m_folder / (std::to_string(++m_files) + ending)).string();
}

}  // namespace undercroft

// The books that are open while the program serves: the one that was named, and the invented one in a folder of its
// own.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>

#include "api/api.hpp"
#include "store/book_file.hpp"

namespace undercroft {

// A book in a file with everything that stands on it.
struct ServedBook {
    std::unique_ptr<Zone> zone;
    std::unique_ptr<store::BookFile> file;
    std::unique_ptr<app::Book> book;
    std::unique_ptr<app::Transfer> transfer;

    [[nodiscard]] api::Cellar cellar() { return {*book, *transfer, *file}; }
};

[[nodiscard]] Result<ServedBook> open_served(const std::string& path, const tables::Tables& tables,
                                             const app::Surroundings& surroundings);

// A folder for what lives no longer than the server; gone with it.
class Scratch {
public:
    Scratch() = default;
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch();

    // A name that nothing has there yet. Makes the folder when it is first asked for, for this user alone.
    [[nodiscard]] Result<std::string> new_file(const std::string& ending);

private:
    std::filesystem::path m_folder;
    int m_files = 0;
};

}  // namespace undercroft

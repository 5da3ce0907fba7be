// A file that is there whole or not at all: written under a working name beside its place, then moved.
//
// Holds: a file that is there already is never touched; what was not published is removed again.
#pragma once

#include <string>

#include "base/result.hpp"

namespace undercroft::store {

class NewFile {
public:
    // Makes an empty file under the working name. Errors: bad_input when `path` is taken, not_found when
    // its folder is missing, storage when the system refuses.
    [[nodiscard]] static Result<NewFile> claim(const std::string& path);
    NewFile(NewFile&& other) noexcept;
    NewFile& operator=(NewFile&&) = delete;
    ~NewFile();

    [[nodiscard]] const std::string& working_path() const { return m_working; }
    // Brings the bytes to the disk and moves them to their place. Whoever wrote them has closed the file.
    [[nodiscard]] Result<void> publish();

private:
    NewFile(std::string path, std::string working) : m_path(std::move(path)), m_working(std::move(working)) {}

    std::string m_path;
    std::string m_working;  // empty once moved
};

// Absolute, so that no name means anything special to SQLite.
[[nodiscard]] std::string absolute_path(const std::string& path);

}  // namespace undercroft::store

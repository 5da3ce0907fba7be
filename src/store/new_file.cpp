#include "store/new_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <utility>

namespace undercroft::store {
namespace {

namespace fs = std::filesystem;

Failure taken(const std::string& path) {
    return fail(ErrorKind::bad_input, path, "there is a file of this name already; it is left as it is.", {},
                "Choose another name.");
}

Failure refused(const std::string& path, int code) {
    return fail(ErrorKind::storage, path, "the system does not let the file be written.",
                {{"system", std::strerror(code)}});
}

Result<void> sync(const std::string& path, int flags) {
    const int file = ::open(path.c_str(), flags | O_CLOEXEC);
    if (file < 0) return refused(path, errno);
    const int outcome = ::fsync(file);
    const int code = errno;
    ::close(file);
    if (outcome != 0) return refused(path, code);
    return {};
}

}  // namespace

std::string absolute_path(const std::string& path) {
    std::error_code ignored;
    const fs::path absolute = fs::absolute(path, ignored);
    return absolute.empty() ? path : absolute.string();
}

Result<NewFile> NewFile::claim(const std::string& path) {
    if (path.empty()) return fail(ErrorKind::bad_input, "file", "the file needs a name.");
    const std::string whole = absolute_path(path);
    std::error_code code;
    if (!fs::is_directory(fs::path(whole).parent_path(), code))
        return fail(ErrorKind::not_found, path, "the folder it should lie in is not there.", {},
                    "Make the folder first, or choose another.");
    if (fs::exists(fs::symlink_status(whole, code))) return taken(path);
    std::string working = whole + ".part-" + std::to_string(::getpid());
    const int file = ::open(working.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) return refused(working, errno);
    ::close(file);
    return NewFile{whole, std::move(working)};
}

NewFile::NewFile(NewFile&& other) noexcept
    : m_path(std::move(other.m_path)), m_working(std::exchange(other.m_working, {})) {}

NewFile::~NewFile() {
    if (m_working.empty()) return;
    for (const char* tail : {"", "-journal", "-wal", "-shm"}) ::unlink((m_working + tail).c_str());
}

Result<void> NewFile::publish() {
    TRY_VOID(sync(m_working, O_RDWR));
    int outcome = ::renameat2(AT_FDCWD, m_working.c_str(), AT_FDCWD, m_path.c_str(), RENAME_NOREPLACE);
    if (outcome != 0 && (errno == EINVAL || errno == ENOSYS)) {
        // A file system without this call (some network and memory-stick ones): look, then move.
        std::error_code code;
        if (fs::exists(fs::symlink_status(m_path, code))) return taken(m_path);
        outcome = std::rename(m_working.c_str(), m_path.c_str());
    }
    if (outcome != 0) return errno == EEXIST ? taken(m_path) : refused(m_path, errno);
    m_working.clear();
    return sync(fs::path(m_path).parent_path().string(), O_RDONLY | O_DIRECTORY);
}

}  // namespace undercroft::store

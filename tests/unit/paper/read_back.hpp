// Paper as others read it: text by Poppler's pdftotext, codes by ZBar's zbarimg from pages drawn at a printer's 300
// dpi.
#pragma once

#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace undercroft::testing {

class ReadBack {
public:
    explicit ReadBack(const std::string& pdf) {
        std::string pattern = (std::filesystem::temp_directory_path() / "undercroft-paper-XXXXXX").string();
        if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder to read paper in");
        m_folder = pattern;
        std::ofstream(m_folder / "page.pdf", std::ios::binary) << pdf;
    }
    ~ReadBack() {
        std::error_code code;
        std::filesystem::remove_all(m_folder, code);
    }
    ReadBack(const ReadBack&) = delete;
    ReadBack& operator=(const ReadBack&) = delete;

    [[nodiscard]] std::string text() const { return said_by("pdftotext -enc UTF-8 page.pdf - 2>/dev/null"); }
    // Of all pages, one after another, as they stand.
    [[nodiscard]] std::string codes(int dpi = 300) const {
        return said_by("pdftoppm -r " + std::to_string(dpi) +
                       " -gray -png page.pdf p && zbarimg -q --raw p*.png 2>/dev/null");
    }
    [[nodiscard]] std::vector<std::string> code_lines(int dpi = 300) const {
        std::vector<std::string> lines;
        std::string line;
        for (const char c : codes(dpi)) {
            if (c != '\n') {
                line += c;
                continue;
            }
            lines.push_back(line);
            line.clear();
        }
        return lines;
    }
    // The first picture in it, as a portable pixmap.
    [[nodiscard]] std::string picture() const { return said_by("pdfimages page.pdf i && cat i-000.ppm"); }
    [[nodiscard]] int pages() const {
        const std::string info = said_by("pdfinfo page.pdf 2>/dev/null");
        const auto at = info.find("Pages:");
        return at == std::string::npos ? 0 : std::atoi(info.c_str() + at + 6);
    }
    // "612 x 792" points of a page.
    [[nodiscard]] std::string page_size() const {
        const std::string info = said_by("pdfinfo page.pdf 2>/dev/null");
        const auto at = info.find("Page size:");
        return at == std::string::npos ? "" : info.substr(at, info.find('\n', at) - at);
    }

private:
    [[nodiscard]] std::string said_by(const std::string& command) const {
        std::string said;
        FILE* pipe = ::popen(("cd '" + m_folder.string() + "' && " + command).c_str(), "r");
        if (pipe == nullptr) return said;
        std::array<char, 4096> chunk{};
        while (const std::size_t got = std::fread(chunk.data(), 1, chunk.size(), pipe)) said.append(chunk.data(), got);
        ::pclose(pipe);
        return said;
    }

    std::filesystem::path m_folder;
};

// A text with its line breaks and runs of blanks as single blanks: where lines break is not what was asked.
inline std::string in_one_line(const std::string& text) {
    std::string line;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\n' || c == '\f' || c == '\t';
        if (!blank)
            line += c;
        else if (!line.empty() && line.back() != ' ')
            line += ' ';
    }
    return line;
}

}  // namespace undercroft::testing

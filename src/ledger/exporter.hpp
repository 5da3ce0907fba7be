// Writing a whole book out as lines of text (docs/book-format.md, "The export").
#pragma once

#include <cstdint>
#include <iosfwd>
#include <string>

#include "base/result.hpp"

namespace undercroft::ledger {

struct ExportTotals {
    std::int64_t persons = 0;
    std::int64_t pictures = 0;
    std::int64_t entries = 0;
    std::string head;  // last link of the chain, 64 hex digits
    friend bool operator==(const ExportTotals&, const ExportTotals&) = default;
};

class Exporter {
public:
    virtual ~Exporter() = default;
    // One state of the book, whatever is booked meanwhile, line by line: memory does not grow with the book.
    // Errors: storage, when the book is damaged or `out` takes no more.
    [[nodiscard]] virtual Result<ExportTotals> export_to(std::ostream& out) = 0;
    // The same into a new file, there whole or not at all. Errors: also bad_input when a file of that name is
    // there, not_found when its folder is missing.
    [[nodiscard]] virtual Result<ExportTotals> export_to_file(const std::string& path) = 0;
};

}  // namespace undercroft::ledger

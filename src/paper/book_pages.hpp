// A whole book on paper: its export, packed, as codes that a phone or a scanner reads; and the export again from what
// was read.
//
// Holds: export_of(codes_of(x)) is x, in whatever order the codes come and however often. Every code says which of how
// many it is, of which book, and has a check sum of its own; one that was read wrong is passed over and told as
// missing. Form of a code, all in letters that a code packs tightly (ISO/IEC 18004, alphanumeric mode):
//   UC1:<book>:<number>:<of>:<check>:<data>
// with <book> and <check> CRC-32 in hexadecimal (of the whole packed export, and of all that stands before and the
// data), numbers from 1, and <data> base 45 (RFC 9285) of a part of the export packed by zlib (RFC 1950).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "paper/flow.hpp"

namespace undercroft::paper {

// Fails: bad_input for a book larger than 64 MB as an export.
[[nodiscard]] Result<std::vector<std::string>> codes_of(std::string_view exported);
// Lines that are no code of a book are passed over. Fails: bad_input where codes are missing (it says which), belong to
// several books, or do not unpack.
[[nodiscard]] Result<std::string> export_of(const std::vector<std::string>& lines);

// Draws them from the next page of `flow` on, twelve to a page.
[[nodiscard]] Result<void> draw_codes(Flow& flow, const std::vector<std::string>& codes);

struct BookPages {
    std::string pdf;
    int codes = 0;
    int pages = 0;
};
[[nodiscard]] Result<BookPages> book_pages(std::string_view exported, const PageSize& page, const Imprint& imprint);

}  // namespace undercroft::paper

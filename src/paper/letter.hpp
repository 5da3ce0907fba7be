// The keeper's letter: a year of a cellar on paper, with the whole book behind it as codes.
#pragma once

#include <string>
#include <vector>

#include "app/letter.hpp"
#include "base/result.hpp"
#include "paper/book_pages.hpp"
#include "paper/grid.hpp"

namespace undercroft::paper {

// `exported`: the book as an export; empty: without its pages.
[[nodiscard]] Result<BookPages> keepers_letter(const app::LetterView& letter, std::string_view exported,
                                               const PageSize& page);

}  // namespace undercroft::paper

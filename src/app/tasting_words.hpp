// The words of a tasting sheet: what can be scored and what can be named as a fault, each explained.
#pragma once

#include <string>
#include <vector>

#include "app/views_of.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// A word that this book defined for itself.
struct OwnWord {
    std::string word;
    std::string like;
};

struct TastingWordsView {
    BookLine book;
    std::vector<tables::Attribute> attributes;
    std::vector<tables::Fault> faults;
    std::vector<OwnWord> own;
    std::string on_faults;  // how a fault that time mends is over
};

// All of them, or the one that `wanted` means. Without `book`. Fails: not_found with the nearest.
[[nodiscard]] Result<TastingWordsView> tasting_words_view(const Seen& seen, const std::string& wanted);

}  // namespace undercroft::app

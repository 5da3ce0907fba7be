// What can be wrong with a beer: how it smells, why, whether time mends it, and what it forbids (data/faults.csv).
//
// Leaves out: faults that a keeper defines in the book.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

struct Fault {
    std::string id;
    std::string name;
    std::vector<std::string> also;  // words that mean it too
    std::string smells_like;
    std::string cause;
    std::string confirm_how;
    bool mends_with_time = false;
    std::optional<double> mend_low_weeks;  // usual span until it is gone
    std::optional<double> mend_high_weeks;
    bool blocks_pull = false;
    bool blocks_packaging = false;
    bool blocks_refilling = false;
    bool blocks_return_to_solera = false;
    bool unsafe = false;  // do not taste further
    std::string action;
    std::string caution;
    char mark = 'P';
    std::string source;
};

// Id, name or another word for it, upper and lower case alike; not_found names the nearest.
[[nodiscard]] Result<const Fault*> find_fault(const std::vector<Fault>& all, std::string_view wanted);
[[nodiscard]] Result<std::vector<Fault>> parse_faults(std::string_view csv, std::string file);

}  // namespace undercroft::tables

// Allergens that a label must name, by region (data/allergens.csv).
//
// Holds: an id is unique within its region, and one id means the same thing in every region it stands in.
// Leaves out: exemptions and wording, which the keeper's local rules decide.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

enum class Region { eu, us };

struct Allergen {
    std::string id;  // "gluten", "sulphite", "milk", "nuts", ...
    Region region = Region::eu;
    std::string name;                             // as the rule calls it
    std::optional<double> declare_from_mg_per_l;  // nullopt: any amount
    std::string relevance_to_beer;                // may be empty
    char mark = 'M';
    std::string source;
};

// By id or name, in any region; the first row found. What it is called elsewhere: allergen_in().
[[nodiscard]] Result<const Allergen*> find_allergen(const std::vector<Allergen>& all, std::string_view wanted);
// Null when that region has no rule for it.
[[nodiscard]] const Allergen* allergen_in(const std::vector<Allergen>& all, std::string_view id, Region region);
[[nodiscard]] Result<std::vector<Allergen>> parse_allergens(std::string_view csv, std::string file);

}  // namespace undercroft::tables

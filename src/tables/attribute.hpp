// What a taster scores, each with a plain explanation (data/attributes.csv).
//
// Holds: the scale is 0 to 10 for all beers: 0 none, 1 just there, 3 clear, 5 middling, 7 strong, 10 as strong as it
// gets. Leaves out: attributes that a keeper defines in the book.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

struct Attribute {
    std::string id;
    std::string name;
    std::vector<std::string> also;  // words that mean it too
    std::string group;              // "taste", "mouthfeel", "aroma", "overall"
    std::string explanation;
    std::string reference_for_3;  // a sample that fixes 3; may be empty
    std::string reference_for_7;
    std::string causes;
    std::string raises;
    std::string lowers;
    std::optional<double> usual_clean_low, usual_clean_high;  // points
    std::optional<double> usual_sour_low, usual_sour_high;
    std::string chem_quantity;         // "titratable_acidity"; empty: nothing measured stands for it
    std::optional<double> chem_slope;  // points per `chem_unit`
    std::string chem_unit;
    std::string chem_note;
    char mark = 'P';
    std::string source;
};

// Id, name or another word for it, upper and lower case alike; not_found names the nearest.
[[nodiscard]] Result<const Attribute*> find_attribute(const std::vector<Attribute>& all, std::string_view wanted);
[[nodiscard]] Result<std::vector<Attribute>> parse_attributes(std::string_view csv, std::string file);

}  // namespace undercroft::tables

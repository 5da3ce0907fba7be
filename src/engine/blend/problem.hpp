// What a blend is made of and what it shall be: stocks with their estimates, wishes, and limits.
//
// A figure is anything that mixes by volume and has a name: "alcohol" (% vol), "extract" (g/L real), "ta" (g/L as
// lactic), "ibu", "colour" (EBC), "age" (mean years), "share of LOT", a tasted attribute (0 to 10), "cost" (a litre).
// Two mix otherwise and are known by their names: "ph" by charge, and "undissociated" (mmol/L of organic acid that
// holds a proton, what tastes sour), which follows from the acids at a pH that is asked for.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "chem/acid_mix.hpp"
#include "tables/tables.hpp"

namespace undercroft::engine::blend {

inline constexpr const char* k_ph = "ph";
inline constexpr const char* k_undissociated = "undissociated";

struct Figure {
    double mean = 0.0;
    double sd = 0.0;  // one standard deviation
};

struct Stock {
    std::string name;
    double litres = 0.0;     // held
    double keep_back = 0.0;  // litres that stay
    std::map<std::string, Figure> figures;
    std::optional<chem::AcidMix> acids;  // inferred from its pH and TA (chem/acid_inverse.hpp); nullopt: no pH known
    double ph_sd = 0.0;
    // For what may still ferment.
    std::optional<double> gravity;
    std::optional<double> original_gravity;
    std::vector<const tables::CultureKind*> cultures;  // possible ones too
    std::vector<std::string> allergens;
};

// How one stock may be used, beside what there is of it.
struct Use {
    std::string stock;
    double least = 0.0;  // litres that must be in
    bool whole = false;  // all of it that may be drawn, or nothing
    bool excluded = false;
};

// From `low` to `high`; either may be missing.
struct Range {
    std::optional<double> low;
    std::optional<double> high;
};

// A limit that is kept, or a wish that costs `weight` for each `unit` beyond the range.
struct Wish {
    std::string figure;
    Range range;
    bool must = false;
    double weight = 1.0;
    double unit = 1.0;  // what counts as one step off: 0.1 of a pH, 1 g/L, one point of taste
};

enum class Aim {
    nearest,       // to the wishes
    most,          // litres, within the limits
    cheapest,      // by the figure "cost", within the limits
    least_ferment  // gravity that can still fall, within the limits
};

struct Blend {
    std::string name;              // of the product; may be empty
    std::optional<double> litres;  // to be made; only Aim::most does without
    std::vector<Wish> wishes;
    Aim aim = Aim::nearest;
    int most_stocks = 0;      // 0: as many as there are
    double least_draw = 0.0;  // litres of a stock that is used at all
};

struct Problem {
    std::vector<Stock> stocks;
    std::vector<Use> uses;
    std::vector<Blend> blends;  // made of the same stocks at once
    double step = 0.0;          // litres that can be measured out; 0: any
};

}  // namespace undercroft::engine::blend

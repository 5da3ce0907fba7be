// Fruit: what a hundred grams of it bring into a beer (data/fruit.csv).
//
// Holds: all amounts are g per 100 g of the edible part; an empty cell is std::nullopt, never zero.
// A row is a composite of the sources it names, or a single published record kept for comparison.
// Leaves out: skins' tannin and colour, and everything that a keeper's own Brix reading knows better
// (cultivars differ by 20 to 30 %).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

enum class FruitForm { fresh, frozen, dried, canned, juice };

enum class RowType {
    composite,      // what the engines use
    single_record,  // one published record, for comparison
};

struct Fruit {
    std::string id;         // "sour_cherry_fresh"
    std::string name;       // "sour cherry"
    std::string form_text;  // "frozen unsweetened"
    FruitForm form = FruitForm::fresh;
    RowType row_type = RowType::composite;
    std::string fresh_row;  // id of the fresh composite row that fills its gaps; empty for that row itself

    double edible_share = 1.0;  // of the purchased mass: what is left without pits, stems, peel; 1 when not given
    std::string refuse;         // what the rest is; may be empty

    // g per 100 g edible.
    std::optional<double> water;
    std::optional<double> total_sugars;  // without sorbitol
    std::optional<double> glucose;       // glucose, fructose and sucrose are given together or not at all
    std::optional<double> fructose;
    std::optional<double> sucrose;
    std::optional<double> maltose;
    double added_sugar = 0.0;        // part of total_sugars put there by the packer, as sucrose
    std::optional<double> sorbitol;  // no food for most Saccharomyces; some lactic bacteria take it slowly
    std::optional<double> citric;    // as free acid, bound or not
    std::optional<double> malic;
    std::optional<double> tartaric;
    std::optional<double> pectin;     // as calcium pectate
    std::optional<double> potassium;  // g, not mg: the strong ion that binds part of the acid

    std::optional<double> juice_pH_low;
    std::optional<double> juice_pH_high;
    std::optional<double> juice_brix;  // degrees Brix of single-strength juice

    std::string notes;
    std::string source;  // of water and total sugars; data/fruit.csv names the sources of the other columns too
};

// The sugars of one fruit, g per 100 g edible, none of them lost: what no source splits is `unassigned`.
struct FruitSugars {
    double glucose = 0.0;
    double fructose = 0.0;
    double sucrose = 0.0;
    double maltose = 0.0;
    double unassigned = 0.0;  // total less the sum of the split, when above zero

    enum class Split {
        own_row,          // the row gives it
        fresh_row_ratio,  // total of this row, split as in the fresh row of the same fruit; packer's sugar as sucrose
        none,             // only the total is known
    } split = Split::none;

    // Hexose, g, after hydrolysis: disaccharides x 360.312/342.297. `unassigned` counts as disaccharide,
    // so this is never too low for gas; it is at most 5.3 % of the unassigned part too high.
    [[nodiscard]] double hexose_equivalent() const;
};

// std::nullopt when the row gives no sugars at all (hibiscus). `fresh` may be null.
[[nodiscard]] std::optional<FruitSugars> sugars_of(const Fruit& fruit, const Fruit* fresh);

// A figure with the row it comes from.
struct Estimated {
    std::optional<double> g_per_100_g;  // nullopt: nobody knows, and it must not be taken for zero
    enum class Basis { own_row, fresh_row_scaled, unknown } basis = Basis::unknown;
};

// The row's own figures, gaps filled from the fresh row of the same fruit times the ratio of dry matter
// (without the packer's sugar). Good to +-30 %. `fresh` may be null.
struct FruitComposition {
    std::optional<double> water;
    std::optional<FruitSugars> sugars;
    Estimated sorbitol;
    Estimated citric;
    Estimated malic;
    Estimated tartaric;
    Estimated pectin;
    Estimated potassium;
};
[[nodiscard]] FruitComposition composition_of(const Fruit& fruit, const Fruit* fresh);

// Exact id first; then the name alone, which means its fresh form (or, when there is none, its only form);
// then name and form in any order ("frozen sour cherry", "plum, fresh"). Case and punctuation do not matter.
// not_found names the nearest few; bad_input when the words can mean two rows. The pointer is into `fruits`.
[[nodiscard]] Result<const Fruit*> find_fruit(const std::vector<Fruit>& fruits, std::string_view wanted);

// The fresh row that fills a row's gaps (plum for prune), or null; for a fresh composite row, itself.
[[nodiscard]] const Fruit* fresh_row_of(const std::vector<Fruit>& fruits, const Fruit& fruit);

[[nodiscard]] Result<std::vector<Fruit>> parse_fruits(std::string_view csv, std::string file);

}  // namespace undercroft::tables

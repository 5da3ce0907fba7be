// How old a liquid is: one number hides the young part, so there are always several, and the convention is named.
//
// Holds: vintage make-up is the share among the *beer* sources; fruit, water, syrup and spirit are stated apart.
// Means are by volume, over a perfectly mixed vessel.
// Leaves out: percentiles (profile.hpp), soleras without a book (solera.hpp) and designs (design.hpp).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/instant.hpp"
#include "ledger/replay.hpp"

namespace undercroft::engine {

enum class AgeFrom { brew_day, entry };  // entry: the day the lot came into the cellar
[[nodiscard]] const char* word(AgeFrom value);

struct VintagePart {
    int lot = -1;  // index in Cellar::lots
    std::string name;
    double share = 0.0;             // among beer
    double age_years = 0.0;         // middle of its range
    double age_spread_years = 0.0;  // half of the range it lies in, 0 when the day is known
    bool assumed = false;
};

struct OtherSource {
    std::string name;
    ledger::LotKind kind = ledger::LotKind::fruit;
    double share = 0.0;  // of the whole liquid
};

struct Age {
    AgeFrom from = AgeFrom::brew_day;
    double mean_years = 0.0;
    double sd_years = 0.0;        // between the parts, by share
    double low_years = 0.0;       // mean if every ranged lot were at the young end of its range
    double high_years = 0.0;      // … and at the old end
    double youngest_years = 0.0;  // youngest part with a share of at least 0.1 %
    std::string youngest_name;
    double youngest_share = 0.0;
    double effective_vintages = 0.0;  // 1 / sum of squared shares
    bool assumed = false;             // an assumed age weighs in with at least 1 %
    double beer_share = 0.0;          // of the whole liquid
    std::vector<VintagePart> parts;   // largest share first
    std::vector<OtherSource> others;  // largest share first
};

// Age of a liquid of `cellar` at `when`; nothing for an empty liquid or one without beer.
[[nodiscard]] std::optional<Age> age_of(const ledger::Cellar& cellar, const ledger::Liquid& liquid, Instant when,
                                        const Zone& zone, AgeFrom from);

// How old one lot of beer is at `when`, in the middle of the range it lies in.
[[nodiscard]] double years_of_lot(const ledger::LotState& lot, Instant when, const Zone& zone, AgeFrom from);

// A brew is three years old on its third birthday, though the years to it may hold 1095 days and not 1095.75: whatever
// asks for an age of at least so much counts from a day before.
inline constexpr double k_birthday_years = 1.0 / 365.25;

// Share of the beer at least `years` old, to the day.
[[nodiscard]] double share_older_than(const Age& age, double years);

}  // namespace undercroft::engine

// The plain text of a label, the facts it was computed from, and what of it somebody may rely on.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "app/views_of.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// `beer_name`: what the beer is called; empty: the vessel it was packaged from.
[[nodiscard]] LabelView label_of(const Seen& seen, const tables::Tables& tables, int run, const std::string& beer_name);

// A make-up as bands, oldest first; none without an age.
[[nodiscard]] std::vector<Stratum> strata_of(const std::optional<engine::Age>& age);

// What whoever drinks it, or pitches its dregs, relies on.
struct LabelClaims {
    std::string allergens;
    std::string culture;                      // the notice, in words
    std::optional<double> alcohol;            // % vol, as printed
    double alcohol_tolerance = 0.0;           // % vol to either side, as printed
    std::optional<ledger::Certainty> killer;  // of a killer yeast inside, from likely on; absent: none, or not known

    [[nodiscard]] std::string alcohol_text() const;  // "5.9 % vol (± 0.3)"; empty when nothing is said
};

// By what the book knows of a run, as it is at `when`.
[[nodiscard]] LabelClaims claims_of(const ledger::Cellar& cellar, const engine::StateBook& states,
                                    const tables::Tables& tables, int run, Instant when);
// By the facts kept with a printed label. `killer` stays absent: paper says it in words only.
[[nodiscard]] LabelClaims claims_of(const std::map<std::string, std::string>& facts);

}  // namespace undercroft::app

// The weights of a jar as the book has them: since its liquid was last touched, in days and grams.
#pragma once

#include <optional>
#include <string>

#include "app/views_of.hpp"
#include "engine/package/weighing.hpp"

namespace undercroft::app {

struct WeighingView {
    BookLine book;
    std::string vessel;
    std::string twin;   // empty: none
    std::string since;  // ISO day of the first weight that counts
    Volume volume;
    std::vector<Term> terms;
    std::string words;  // what it comes to, a few sentences
    std::vector<Caution> cautions;
};

// Weights of a vessel read since something went in, came out or was hung in it; days since the first of them.
[[nodiscard]] std::vector<FitPoint> weights_of(const ledger::Cellar& cellar, int vessel);
// Without `book`. `twin`: index of the vessel with water, or -1.
[[nodiscard]] Result<WeighingView> weighing_of(const Seen& seen, int vessel, int twin, std::optional<double> scale_g);

}  // namespace undercroft::app

// Stocks of a blend: from a vessel or run of a book, or as typed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/blending.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

struct Acidity {
    std::optional<engine::blend::Figure> ph;
    std::optional<engine::blend::Figure> ta;  // g/L as lactic
};
// Infers the acids behind a pH, with the TA where there is one; its pH is then that of those acids. Nothing without a
// pH.
[[nodiscard]] Result<void> give_acids(engine::blend::Stock& stock, const Acidity& acidity);
// A pH and acidity that beer may have when nobody read them: 3.9 ± 0.5 and 4 ± 2.5 g/L (own choice: what sour and clean
// beers of a cellar span).
[[nodiscard]] Acidity wide_guess();
// One standard deviation of a figure that was only stated (common practice, no source).
[[nodiscard]] double usual_sd(const std::string& figure, double value);

[[nodiscard]] Result<KnownStock> read_stock(const std::string& text, const tables::Tables& tables, Gallons gallons);
// `lots`: names of lots whose share is asked for.
[[nodiscard]] Result<KnownStock> stock_of(const Seen& seen, engine::HolderRef holder,
                                          const std::vector<std::string>& lots);

}  // namespace undercroft::app

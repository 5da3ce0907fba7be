// Stocks for tests of blends.
#pragma once

#include <string>

#include "chem/acid_inverse.hpp"
#include "engine/blend/recipe.hpp"
#include "tests/support/reference_tables.hpp"

namespace undercroft::engine::blend {

inline Stock stock(const std::string& name, double litres, std::map<std::string, Figure> figures) {
    Stock one;
    one.name = name;
    one.litres = litres;
    one.figures = std::move(figures);
    return one;
}

// With the acids that its pH and TA speak for.
inline Stock sour(const std::string& name, double litres, double ph, double ta, double abv = 6.0) {
    Stock one = stock(name, litres, {{"ta", {ta, 0.2}}, {"alcohol", {abv, 0.1}}});
    chem::AcidReadings readings;
    readings.ph = chem::Uncertain{ph, chem::k_ph_reading_sd};
    readings.ta = chem::Uncertain{ta / 90.078, chem::k_ta_reading_sd};
    one.acids = chem::infer_acids(chem::AcidSystem(), readings, chem::usual_prior(abv)).value().mix;
    // The stock reads what its acids read, not quite what was typed.
    one.acids->abv = abv;
    one.ph_sd = 0.05;
    return one;
}

inline Wish want(const std::string& figure, double low, double high, double unit = 1.0, double weight = 1.0) {
    return {figure, {low, high}, false, weight, unit};
}
inline Wish must(const std::string& figure, std::optional<double> low, std::optional<double> high) {
    return {figure, {low, high}, true, 1.0, 1.0};
}

inline double litres_of(const Made& made, std::size_t index) {
    for (const Part& part : made.parts)
        if (part.stock == index) return part.litres;
    return 0.0;
}

}  // namespace undercroft::engine::blend

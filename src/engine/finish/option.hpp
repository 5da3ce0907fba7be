// One way to finish a portion: what it would become, how surely, and what it asks for.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/finish/chemistry.hpp"
#include "engine/finish/draws.hpp"
#include "engine/finish/exposure.hpp"

namespace undercroft::engine::finish {

struct Option {
    tables::Technique technique;
    std::string name;  // as a keeper says it: with the partner of a blend
    Dose dose;
    Chemistry chemistry;
    std::map<std::string, Figure> points;  // changes of attributes, before they act on each other
    Outcome outcome;
    double gain = 0.0;        // steps nearer to the target than leaving it alone, on the mean
    double gain_sd = 0.0;     // of that, over all that is uncertain
    bool clear = false;       // the gain is at least twice its spread
    double days = 0.0;        // of contact
    double watch_days = 0.0;  // that come on top before packaging
    double hands_on_minutes = 0.0;
    std::optional<double> cost;  // by the keeper's prices
    std::optional<Exposure> exposure;
    bool too_large = false;            // for its vessel
    std::string culture;               // what lives in it afterwards
    std::string back;                  // may it go back into a solera?
    std::vector<std::string> reasons;  // why, in words, most telling first
    std::vector<Caution> cautions;
};

// How long the watch before packaging is, by what lives in the beer: days.
[[nodiscard]] double watch_days_of(const tables::Tables& tables, const Portion& portion);
[[nodiscard]] double hands_on_of(const tables::Tables& tables, const tables::Technique& technique, double litres);

// Of a dose that is given. Fails: what chemistry_of fails with.
[[nodiscard]] Result<Option> option_of(const tables::Tables& tables, const std::vector<tables::Effect>& effects,
                                       const Portion& portion, const Target& target, const Prices& prices,
                                       const Draws& draws, const tables::Technique& technique, const Dose& dose);
// Gain and reasons, beside leaving it alone.
void compare(Option& option, const Outcome& alone, const Portion& portion, const Target& target);

// "160 g/L", "25 %", "6 months"; empty without a dose.
[[nodiscard]] std::string dose_text(const tables::Technique& technique, double amount);

}  // namespace undercroft::engine::finish

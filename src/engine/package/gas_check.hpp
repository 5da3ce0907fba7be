// The gas check: what pressure may come in a package, and whether its weakest part bears it.
//
// Holds: ready only where 95 in 100 containers stay within 0.8 of the weakest limit in the warmest store of the
// horizon, the maker's figure is known, the gravity read, the cultures named and the watch they ask for done. More
// sugar or a warmer store never betters a verdict. Beside it stands the upper bound: every cause at its most, all
// added. Leaves out: gas lost through closures.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "engine/package/gas_question.hpp"
#include "engine/package/gas_spread.hpp"
#include "engine/state/term.hpp"

namespace undercroft::engine::package {

using engine::Caution;
using engine::Term;

enum class Verdict { ready, wait, do_not };
[[nodiscard]] const char* word(Verdict verdict);  // "ready", "wait", "do_not"

struct GasCheck {
    std::string container;
    Verdict verdict = Verdict::wait;
    std::string words;                 // one sentence with horizon and store
    std::vector<std::string> reasons;  // why not better; each names the evidence that would change it
    std::vector<Term> gas;             // volumes of CO2, upper bounds; their sum is the total
    double total_volumes = 0.0;
    double total_g_per_l = 0.0;
    bool complete = true;                // false: a cause is missing (gravity not read), so the total is too low
    double lowest_gravity = 1.0;         // that any possible culture may reach
    std::vector<Term> pressure;          // bar: CO2, air, vapour, less ambient
    std::optional<GaugePressure> total;  // at the warmest store; nullopt when the head space is refused
    std::optional<Band> drawn;           // the same of single containers, bar; nullopt also with the gravity not read
    std::optional<GaugePressure> none_above;  // instead of `drawn`, where the verdict can do without
    CanaryVerdict canary = CanaryVerdict::none;
    Temperature store = Temperature::from_celsius(25.0);
    double head_space = 0.0;
    std::optional<GaugePressure> limit;         // weakest of container and closure; nullopt: unrated
    std::optional<GaugePressure> allowed;       // 0.8 of it
    std::optional<GaugePressure> limit_needed;  // what to ask the maker for: what 95 in 100 stay within / 0.8
    std::vector<std::pair<Temperature, GaugePressure>> by_temperature;  // 0 to 50 °C, where it can be worked out
    std::vector<Caution> cautions;
};

// Drawing ten thousand bottles is nearly all the work of a check. For many runs at once it is done where_they_decide:
// the verdict is the same, only the figures in its words may be an upper bound.
enum class Draws { always, where_they_decide };

// Fails: bad_input for amounts that cannot be; outside_model above 20 % vol, 200 g/L extract or 50 °C.
// What only lacks evidence is no failure: it waits.
[[nodiscard]] Result<GasCheck> gas_check(const GasQuestion& question, const tables::Tables& tables,
                                         Draws draws = Draws::always);

}  // namespace undercroft::engine::package

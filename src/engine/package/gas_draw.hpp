// One bottle of a package drawn from what is not known: the luck it has, the gas that comes to, and the pressure of
// that. The distribution (gas_spread.hpp) and the canary bottle (canary.hpp) are many of these.
//
// Holds: every bottle draws all of its luck, in one order, so that two questions compare draw by draw; more luck of one
// kind, the rest alike, never means less gas; but for the head space, where less means more pressure.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "base/result.hpp"
#include "engine/package/bound.hpp"
#include "engine/package/closed.hpp"
#include "engine/package/gas_question.hpp"

namespace undercroft::engine::package {

// The middle, and what nine of ten bottles lie between.
struct Band {
    double low = 0.0;   // 5 %
    double mid = 0.0;   // 50 %
    double high = 0.0;  // 95 %
};
// Of at least one value, by nearest rank.
[[nodiscard]] Band band_of(std::vector<double> values);

inline constexpr int k_gas_draws = 10'000;

// In the order of GasBound::terms.
struct Cause {
    enum Index : std::size_t { dissolved, priming, fermentables, fruit_sugar, malic, citric, sorbitol, creep, count };
};
using CauseVolumes = std::array<double, Cause::count>;
[[nodiscard]] double total_of(const CauseVolumes& volumes);

// What one bottle draws.
struct Luck {
    double gravity, watch, dissolved, head_space, priming;          // standard normal
    double attenuation, priming_growth, sugar_growth, acid, creep;  // uniform, 0 to 1
    double takes = 1.0;  // of what slow cultures could still take: not drawn, only a canary tells that it is less
};
[[nodiscard]] std::vector<Luck> thrown(std::uint64_t seed, int draws);
// The k_gas_draws that every verdict rests on; throwing them takes longer than using them.
inline constexpr std::uint64_t k_usual_seed = 1;
[[nodiscard]] const std::vector<Luck>& usual_luck();

// The package as it was asked about.
struct Asked {
    GasBound bound;
    Closed closed;
    Temperature store = Temperature::from_celsius(25.0);
};
[[nodiscard]] Result<Asked> asked_of(const GasQuestion& question, const tables::Tables& tables);

// Keeps references to both arguments.
class Drawing {
public:
    Drawing(const GasQuestion& question, const Asked& asked);

    [[nodiscard]] bool plateau_counts() const { return m_fall_a_day_counts; }
    // Of CO2, when all of it has come.
    [[nodiscard]] CauseVolumes volumes(const Luck& luck) const;

private:
    void weigh_watch(Temperature store);
    // SG still to fall.
    [[nodiscard]] double left(const Luck& luck) const;

    const GasQuestion& m_question;
    const GasBound& m_bound;
    double m_days;
    std::vector<const tables::CultureKind*> m_live;
    double m_dissolved = 0.0;
    double m_priming_theory = 0.0;
    double m_priming_growth = 0.0;
    double m_least_malic = 1.0;  // of its bound
    bool m_fall_a_day_counts = false;
    double m_faster_in_store = 1.0;
};

struct Bottle {
    double co2_g_per_l;
    double head_space;
};
[[nodiscard]] Bottle bottle_of(double volumes, const Closed& closed, const Luck& luck);
// Total gauge in bar of each, with CO2 as the real gas it is.
[[nodiscard]] std::vector<double> bars_at(Temperature now, const std::vector<Bottle>& bottles,
                                          const GasQuestion& question, const Asked& asked);
// Total gauge in bar that not one of the usual draws passes, from their worst luck alone.
[[nodiscard]] double no_bar_above(Temperature now, const Drawing& drawing, const GasQuestion& question,
                                  const Asked& asked);

}  // namespace undercroft::engine::package

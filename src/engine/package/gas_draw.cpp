#include "engine/package/gas_draw.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <tuple>
#include <utility>

#include "base/index.hpp"
#include "engine/package/canary.hpp"
#include "engine/package/watch.hpp"

namespace undercroft::engine::package {

namespace {

// One standard deviation each; common practice, no source.
constexpr double k_dissolved_doubt = 0.06;    // of the rule for beer that was not measured
constexpr double k_measured_doubt = 0.04;     // of a measured figure
constexpr double k_priming_doubt = 0.04;      // weighing, and how evenly it is stirred in
constexpr double k_head_space_doubt = 0.005;  // of the inside, from bottle to bottle
constexpr double k_days_a_month = 365.25 / 12.0;

class Dice {
public:
    explicit Dice(std::uint64_t seed) : m_bits(seed) {}
    Luck throw_all() {
        Luck luck{};
        std::tie(luck.gravity, luck.watch) = normals();
        std::tie(luck.dissolved, luck.head_space) = normals();
        luck.priming = normals().first;
        luck.attenuation = uniform();
        luck.priming_growth = uniform();
        luck.sugar_growth = uniform();
        luck.acid = uniform();
        luck.creep = uniform();
        return luck;
    }

private:
    double uniform() { return static_cast<double>(m_bits() >> 11U) * 0x1p-53; }
    // Box and Muller: the library's own normal is not said to be the same everywhere.
    std::pair<double, double> normals() {
        const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform()));
        const double angle = 2.0 * std::numbers::pi * uniform();
        return {radius * std::cos(angle), radius * std::sin(angle)};
    }
    std::mt19937_64 m_bits;
};

// Rises with u from low to high, most often near mode.
double triangular(double u, double low, double mode, double high) {
    if (!(high > low)) return high;
    const double turn = (mode - low) / (high - low);
    return u < turn ? low + std::sqrt(u * (high - low) * (mode - low))
                    : high - std::sqrt((1.0 - u) * (high - low) * (high - mode));
}

// Reorders `values`.
double percentile(std::vector<double>& values, double share) {
    const auto place = static_cast<std::ptrdiff_t>(std::ceil(share * static_cast<double>(values.size()))) - 1;
    const auto nth = values.begin() + std::max<std::ptrdiff_t>(place, 0);
    std::nth_element(values.begin(), nth, values.end());
    return *nth;
}

// Total gauge in bar, with CO2 as the real gas it is: the fugacity dissolves, and the pressure is a little above it.
double bar_in(const chem::PressureAt& pressure, const Bottle& bottle, Temperature now) {
    const chem::ContainerPressure ideal = pressure.of(bottle.co2_g_per_l, bottle.head_space);
    const double co2 = ideal.co2.in_bar();
    return ideal.total.in_bar() + co2 * (1.0 / chem::co2_fugacity_coefficient(ideal.co2, now) - 1.0);
}

chem::ClosedContainer closed_like(const GasQuestion& question, const Asked& asked) {
    chem::ClosedContainer like;
    like.air = asked.closed.air;
    like.abv = asked.bound.abv;
    like.extract_g_per_l = asked.bound.extract_g_per_l;
    like.filled_at = question.filled_at;
    like.ambient = question.ambient;
    return like;
}

// A bottle filled above the least stands for one at the least: what presses there is not gas alone.
double head_space_at(Temperature now, double share) {
    return std::clamp(share, now.in_celsius() > 35.0 ? k_least_head_space_warm : k_least_head_space, 0.99);
}

// The worst luck of each kind among the usual draws, in one bottle.
struct Extremes {
    Luck worst{};
    double least_head_space = 0.0;
    double most_head_space = 0.0;
};
const Extremes& extremes() {
    static const Extremes found = [] {
        Extremes most;
        most.worst = usual_luck().front();
        for (const Luck& luck : usual_luck()) {
            for (double Luck::*kind : {&Luck::gravity, &Luck::dissolved, &Luck::priming, &Luck::attenuation,
                                       &Luck::priming_growth, &Luck::sugar_growth, &Luck::acid, &Luck::creep})
                most.worst.*kind = std::max(most.worst.*kind, luck.*kind);
            most.worst.watch = std::max(std::abs(most.worst.watch), std::abs(luck.watch));
            most.least_head_space = std::min(most.least_head_space, luck.head_space);
            most.most_head_space = std::max(most.most_head_space, luck.head_space);
        }
        return most;
    }();
    return found;
}

}  // namespace

Band band_of(std::vector<double> values) {
    return {percentile(values, 0.05), percentile(values, 0.50), percentile(values, 0.95)};
}

double total_of(const CauseVolumes& volumes) {
    double total = 0.0;
    for (const double of_cause : volumes) total += of_cause;
    return total;
}

std::vector<Luck> thrown(std::uint64_t seed, int draws) {
    std::vector<Luck> luck;
    luck.reserve(at(draws));
    Dice dice(seed);
    for (int draw = 0; draw < draws; ++draw) luck.push_back(dice.throw_all());
    return luck;
}

const std::vector<Luck>& usual_luck() {
    static const std::vector<Luck> luck = thrown(k_usual_seed, k_gas_draws);
    return luck;
}

Result<Asked> asked_of(const GasQuestion& question, const tables::Tables& tables) {
    Asked asked;
    TRY_VOID(canary_said_well(question.canary));
    TRY(asked.bound, bound_of(question, tables));
    TRY(asked.closed, closed_of(question));
    TRY(asked.store, warmest_of(question));
    return asked;
}

Drawing::Drawing(const GasQuestion& question, const Asked& asked)
    : m_question(question), m_bound(asked.bound), m_days(question.horizon_months * k_days_a_month) {
    for (const tables::CultureKind* kind : m_bound.cultures)
        if (kind->makes_gas()) m_live.push_back(kind);
    m_dissolved = m_bound.terms.at(Cause::dissolved).value;
    m_priming_theory = m_bound.terms.at(Cause::priming).value;
    m_priming_growth =
        m_priming_theory * chem::co2_with_growth(question.priming_sugar) / chem::co2_in_theory(question.priming_sugar);
    if (std::any_of(m_live.begin(), m_live.end(), [](const auto* kind) { return may_take_malic_whole(*kind); }))
        m_least_malic = chem::k_co2_per_malic_by_bacteria / chem::k_co2_per_malic_worst;
    weigh_watch(asked.store);
}

CauseVolumes Drawing::volumes(const Luck& luck) const {
    CauseVolumes of{};
    const double doubt = m_question.measured_co2_g_per_l ? k_measured_doubt : k_dissolved_doubt;
    of[Cause::dissolved] = m_dissolved * std::max(0.0, 1.0 + doubt * luck.dissolved);
    of[Cause::priming] = (m_priming_growth + luck.priming_growth * (m_priming_theory - m_priming_growth)) *
                         std::max(0.0, 1.0 + k_priming_doubt * luck.priming);
    of[Cause::fermentables] = luck.takes * left(luck) * 1000.0 * chem::k_volumes_per_gravity_point_safety;
    // Stoichiometry is the most; new yeast takes up to 6 % of it.
    of[Cause::fruit_sugar] = m_bound.terms.at(Cause::fruit_sugar).value * (0.94 + 0.06 * luck.sugar_growth);
    // The amounts are upper bounds already. Malic acid is taken by bacteria at the least, citric by nobody.
    of[Cause::malic] = m_bound.terms.at(Cause::malic).value * (m_least_malic + luck.acid * (1.0 - m_least_malic));
    of[Cause::citric] = m_bound.terms.at(Cause::citric).value * luck.acid;
    of[Cause::sorbitol] = m_bound.terms.at(Cause::sorbitol).value;
    of[Cause::creep] = m_bound.terms.at(Cause::creep).value * luck.creep;
    return of;
}

void Drawing::weigh_watch(Temperature store) {
    if (!m_question.evidence) return;
    const Evidence& seen = *m_question.evidence;
    m_fall_a_day_counts = !m_live.empty() && past_the_false_plateau(seen, m_bound.cultures);
    // Yeast works about twice as fast for ten degrees: a cool watch says less of a warm store.
    if (m_fall_a_day_counts) {
        const double warmer = store.in_celsius() - seen.coolest->in_celsius();
        m_faster_in_store = std::pow(2.0, std::max(0.0, warmer) / 10.0);
    }
}

double Drawing::left(const Luck& luck) const {
    if (!m_question.gravity) return 0.0;
    const Gravity& gravity = *m_question.gravity;
    const double now = gravity.mean + gravity.sd * luck.gravity;
    double most = 0.0;
    for (const tables::CultureKind* kind : m_live) {
        const double above_water = m_bound.original_gravity - 1.0;
        const double lowest = lowest_gravity_of(*kind, m_bound.original_gravity);
        const double reach = 1.0 - (lowest - 1.0) / std::max(above_water, 1e-9);
        const double attenuation = triangular(luck.attenuation, std::min(kind->attenuation_low, reach),
                                              std::min(kind->attenuation_typical, reach), reach);
        double falls = std::max(0.0, now - (1.0 + above_water * (1.0 - attenuation)));
        if (m_question.evidence && m_question.evidence->forced && forced_test_counts(*kind)) {
            const Gravity& forced = *m_question.evidence->forced;
            // The same hydrometer reads both: its doubt is counted twice over, which errs to the safe side.
            falls = std::min(
                falls, std::max(0.0, gravity.mean - forced.mean + std::hypot(gravity.sd, forced.sd) * luck.gravity));
        }
        most = std::max(most, falls);
    }
    if (m_fall_a_day_counts) {
        const Evidence& seen = *m_question.evidence;
        // A fall hides in the doubt of the first and the last reading.
        const double hidden = seen.change_sg + std::sqrt(2.0) * gravity.sd * std::abs(luck.watch);
        most = std::min(most, hidden / seen.days * m_days * m_faster_in_store);
        if (seen.co2_most_a_day) {
            const double points =
                chem::co2_volumes_of_g_per_l(*seen.co2_most_a_day * m_days) / chem::k_volumes_per_gravity_point_safety;
            most = std::min(most, points / 1000.0 * m_faster_in_store);
        }
    }
    return most;
}

Bottle bottle_of(double volumes, const Closed& closed, const Luck& luck) {
    return {chem::co2_g_per_l_of_volumes(volumes), closed.head_space + k_head_space_doubt * luck.head_space};
}

std::vector<double> bars_at(Temperature now, const std::vector<Bottle>& bottles, const GasQuestion& question,
                            const Asked& asked) {
    const chem::PressureAt pressure(closed_like(question, asked), now);
    std::vector<double> bars(bottles.size());
    std::transform(bottles.begin(), bottles.end(), bars.begin(), [&](const Bottle& bottle) {
        return bar_in(pressure, {bottle.co2_g_per_l, head_space_at(now, bottle.head_space)}, now);
    });
    return bars;
}

double no_bar_above(Temperature now, const Drawing& drawing, const GasQuestion& question, const Asked& asked) {
    const Extremes& luck = extremes();
    const chem::PressureAt pressure(closed_like(question, asked), now);
    const double co2 = chem::co2_g_per_l_of_volumes(total_of(drawing.volumes(luck.worst)));
    const auto of = [&](double head_space_luck) {
        return pressure.of(co2, head_space_at(now, asked.closed.head_space + k_head_space_doubt * head_space_luck));
    };
    // Little head space holds the gas at more pressure, much of it the air of a bottle that cooled.
    const chem::ContainerPressure little = of(luck.least_head_space);
    const chem::ContainerPressure much = of(luck.most_head_space);
    const AbsolutePressure gas = std::max(little.co2, much.co2);
    return gas.in_bar() / chem::co2_fugacity_coefficient(gas, now) + std::max(little.air, much.air).in_bar() +
           std::max(little.vapour, much.vapour).in_bar() - question.ambient.in_bar();
}

}  // namespace undercroft::engine::package

#include "engine/package/gas_spread.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <tuple>
#include <utility>

#include "base/index.hpp"
#include "engine/package/bound.hpp"
#include "engine/package/closed.hpp"
#include "engine/package/watch.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::package {

namespace {

// One standard deviation each; common practice, no source.
constexpr double k_dissolved_doubt = 0.06;    // of the rule for beer that was not measured
constexpr double k_measured_doubt = 0.04;     // of a measured figure
constexpr double k_priming_doubt = 0.04;      // weighing, and how evenly it is stirred in
constexpr double k_head_space_doubt = 0.005;  // of the inside, from bottle to bottle
constexpr std::uint64_t k_usual_seed = 1;
constexpr double k_days_a_month = 365.25 / 12.0;

// In the order of GasBound::terms.
enum Cause { dissolved, priming, fermentables, fruit_sugar, malic, citric, sorbitol, creep, k_causes };

// What one bottle draws: always all of it, in this order, so that questions compare draw by draw.
struct Luck {
    double gravity, watch, dissolved, head_space, priming;          // standard normal
    double attenuation, priming_growth, sugar_growth, acid, creep;  // uniform, 0 to 1
};

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

class Drawing {
public:
    Drawing(const GasQuestion& question, const GasBound& bound, Temperature store)
        : m_question(question), m_bound(bound), m_days(question.horizon_months * k_days_a_month) {
        for (const tables::CultureKind* kind : bound.cultures)
            if (kind->makes_gas()) m_live.push_back(kind);
        m_dissolved = bound.terms.at(dissolved).value;
        m_priming_theory = bound.terms.at(priming).value;
        m_priming_growth = m_priming_theory * chem::co2_with_growth(question.priming_sugar) /
                           chem::co2_in_theory(question.priming_sugar);
        if (std::any_of(m_live.begin(), m_live.end(), [](const auto* kind) { return may_take_malic_whole(*kind); }))
            m_least_malic = chem::k_co2_per_malic_by_bacteria / chem::k_co2_per_malic_worst;
        weigh_watch(store);
    }

    [[nodiscard]] bool plateau_counts() const { return m_fall_a_day_counts; }

    [[nodiscard]] std::array<double, k_causes> volumes(const Luck& luck) const {
        std::array<double, k_causes> of{};
        const double doubt = m_question.measured_co2_g_per_l ? k_measured_doubt : k_dissolved_doubt;
        of[dissolved] = m_dissolved * std::max(0.0, 1.0 + doubt * luck.dissolved);
        of[priming] = (m_priming_growth + luck.priming_growth * (m_priming_theory - m_priming_growth)) *
                      std::max(0.0, 1.0 + k_priming_doubt * luck.priming);
        of[fermentables] = left(luck) * 1000.0 * chem::k_volumes_per_gravity_point_safety;
        // Stoichiometry is the most; new yeast takes up to 6 % of it.
        of[fruit_sugar] = m_bound.terms.at(fruit_sugar).value * (0.94 + 0.06 * luck.sugar_growth);
        // The amounts are upper bounds already. Malic acid is taken by bacteria at the least, citric by nobody.
        of[malic] = m_bound.terms.at(malic).value * (m_least_malic + luck.acid * (1.0 - m_least_malic));
        of[citric] = m_bound.terms.at(citric).value * luck.acid;
        of[sorbitol] = m_bound.terms.at(sorbitol).value;
        of[creep] = m_bound.terms.at(creep).value * luck.creep;
        return of;
    }

private:
    void weigh_watch(Temperature store) {
        if (!m_question.evidence) return;
        const Evidence& seen = *m_question.evidence;
        m_fall_a_day_counts = !m_live.empty() && past_the_false_plateau(seen, m_bound.cultures);
        // Yeast works about twice as fast for ten degrees: a cool watch says less of a warm store.
        if (m_fall_a_day_counts) {
            const double warmer = store.in_celsius() - seen.coolest->in_celsius();
            m_faster_in_store = std::pow(2.0, std::max(0.0, warmer) / 10.0);
        }
    }

    // SG still to fall.
    [[nodiscard]] double left(const Luck& luck) const {
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
                falls = std::min(falls, std::max(0.0, gravity.mean - forced.mean +
                                                          std::hypot(gravity.sd, forced.sd) * luck.gravity));
            }
            most = std::max(most, falls);
        }
        if (m_fall_a_day_counts) {
            const Evidence& seen = *m_question.evidence;
            // A fall hides in the doubt of the first and the last reading.
            const double hidden = seen.change_sg + std::sqrt(2.0) * gravity.sd * std::abs(luck.watch);
            most = std::min(most, hidden / seen.days * m_days * m_faster_in_store);
            if (seen.co2_most_a_day) {
                const double points = chem::co2_volumes_of_g_per_l(*seen.co2_most_a_day * m_days) /
                                      chem::k_volumes_per_gravity_point_safety;
                most = std::min(most, points / 1000.0 * m_faster_in_store);
            }
        }
        return most;
    }

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

// Reorders `values`.
double percentile(std::vector<double>& values, double share) {
    const auto place = static_cast<std::ptrdiff_t>(std::ceil(share * static_cast<double>(values.size()))) - 1;
    const auto nth = values.begin() + std::max<std::ptrdiff_t>(place, 0);
    std::nth_element(values.begin(), nth, values.end());
    return *nth;
}

Band band_of(std::vector<double> values) {
    return {percentile(values, 0.05), percentile(values, 0.50), percentile(values, 0.95)};
}

double mean_of(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

struct Bottle {
    double co2_g_per_l;
    double head_space;
};

// Total gauge in bar, with CO2 as the real gas it is: the fugacity dissolves, and the pressure is a little above it.
double bar_in(const chem::PressureAt& pressure, const Bottle& bottle, Temperature now) {
    const chem::ContainerPressure ideal = pressure.of(bottle.co2_g_per_l, bottle.head_space);
    const double co2 = ideal.co2.in_bar();
    return ideal.total.in_bar() + co2 * (1.0 / chem::co2_fugacity_coefficient(ideal.co2, now) - 1.0);
}

std::vector<Luck> thrown(std::uint64_t seed, int draws) {
    std::vector<Luck> luck;
    luck.reserve(at(draws));
    Dice dice(seed);
    for (int draw = 0; draw < draws; ++draw) luck.push_back(dice.throw_all());
    return luck;
}

// Every verdict rests on the same draws; throwing them takes longer than using them.
const std::vector<Luck>& usual_luck() {
    static const std::vector<Luck> luck = thrown(k_usual_seed, k_gas_draws);
    return luck;
}

// The package as it was asked about, and what draws of it come to.
struct Asked {
    GasBound bound;
    Closed closed;
    Temperature store = Temperature::from_celsius(25.0);
};

Result<Asked> asked_of(const GasQuestion& question, const tables::Tables& tables) {
    Asked asked;
    TRY(asked.bound, bound_of(question, tables));
    TRY(asked.closed, closed_of(question));
    TRY(asked.store, warmest_of(question));
    return asked;
}

double total_of(const std::array<double, k_causes>& volumes) {
    double total = 0.0;
    for (const double of_cause : volumes) total += of_cause;
    return total;
}

Bottle bottle_of(double volumes, const Closed& closed, const Luck& luck) {
    return {chem::co2_g_per_l_of_volumes(volumes), closed.head_space + k_head_space_doubt * luck.head_space};
}

std::vector<double> bars_at(Temperature now, const std::vector<Bottle>& bottles, const GasQuestion& question,
                            const Asked& asked) {
    chem::ClosedContainer like;
    like.air = asked.closed.air;
    like.abv = asked.bound.abv;
    like.extract_g_per_l = asked.bound.extract_g_per_l;
    like.filled_at = question.filled_at;
    like.ambient = question.ambient;
    const chem::PressureAt pressure(like, now);
    // A bottle filled above the least stands for one at the least: what presses there is not gas alone.
    const double least = now.in_celsius() > 35.0 ? k_least_head_space_warm : k_least_head_space;
    std::vector<double> bars(bottles.size());
    std::transform(bottles.begin(), bottles.end(), bars.begin(), [&](Bottle bottle) {
        bottle.head_space = std::clamp(bottle.head_space, least, 0.99);
        return bar_in(pressure, bottle, now);
    });
    return bars;
}

void add_pressures(GasSpread& spread, const std::vector<Bottle>& bottles, const GasQuestion& question,
                   const Asked& asked) {
    const Closed& closed = asked.closed;
    int hottest = 50;  // whole degrees, with head space enough
    while (hottest >= 0 && head_space_refused(closed.head_space, Temperature::from_celsius(hottest))) --hottest;
    const auto at_degrees = [&](int celsius) {
        std::vector<double> bars = bars_at(Temperature::from_celsius(celsius), bottles, question, asked);
        return band_of(std::move(bars));
    };
    for (int celsius = 0; celsius <= hottest; celsius += 5)
        spread.pressure.push_back({Temperature::from_celsius(celsius), at_degrees(celsius)});
    if (closed.limit && hottest >= 0) {
        // The pressure rises with the temperature: the last degree that is safe lies between one that is and one that
        // is not.
        const double allowed = k_share_of_limit * closed.limit->in_bar();
        int safe = -1;
        int unsafe = hottest + 1;
        for (const PressureBand& shown : spread.pressure) {
            const int celsius = static_cast<int>(std::lround(shown.at.in_celsius()));
            if (shown.bar.high <= allowed) {
                safe = celsius;
            } else {
                unsafe = celsius;
                break;
            }
        }
        while (unsafe - safe > 1) {
            const int between = (safe + unsafe) / 2;
            (at_degrees(between).high <= allowed ? safe : unsafe) = between;
        }
        if (safe >= 0) spread.warmest_safe_store = Temperature::from_celsius(safe);
    }
    if (head_space_refused(closed.head_space, asked.store)) return;
    std::vector<double> bars = bars_at(asked.store, bottles, question, asked);
    if (closed.limit) {
        const auto over =
            std::count_if(bars.begin(), bars.end(), [&](double bar) { return bar > closed.limit->in_bar(); });
        spread.over_limit = static_cast<double>(over) / spread.draws;
    }
    spread.at_store = PressureBand{asked.store, band_of(std::move(bars))};
}

void add_when_carbonated(GasSpread& spread, const GasBound& bound) {
    if (!bound.alive || bound.to_come <= 0.0) return;
    for (const tables::CultureKind* kind : bound.cultures) {
        if (!kind->makes_gas() || !kind->days_to_stable_low || !kind->days_to_stable_high) continue;
        spread.carbonated_from_days = std::max(spread.carbonated_from_days.value_or(0.0), *kind->days_to_stable_low);
        spread.carbonated_until_days = std::max(spread.carbonated_until_days.value_or(0.0), *kind->days_to_stable_high);
    }
}

}  // namespace

Result<GasSpread> gas_spread(const GasQuestion& question, const tables::Tables& tables, std::uint64_t seed, int draws) {
    if (draws < 100 || draws > 1'000'000) {
        return fail(ErrorKind::bad_input, "draws",
                    std::to_string(draws) + " draws; it is 100 to 1,000,000, and 10,000 is usual.");
    }
    TRY(const Asked asked, asked_of(question, tables));
    const Drawing drawing(question, asked.bound, asked.store);

    std::array<std::vector<double>, k_causes> by_cause;
    for (auto& values : by_cause) values.reserve(at(draws));
    std::vector<double> totals;
    std::vector<Bottle> bottles;
    totals.reserve(at(draws));
    bottles.reserve(at(draws));
    const bool usual = seed == k_usual_seed && draws == k_gas_draws;
    const std::vector<Luck> own = usual ? std::vector<Luck>{} : thrown(seed, draws);
    for (const Luck& luck : usual ? usual_luck() : own) {
        const auto of = drawing.volumes(luck);
        for (int cause = 0; cause < k_causes; ++cause) by_cause[at(cause)].push_back(of[at(cause)]);
        totals.push_back(total_of(of));
        bottles.push_back(bottle_of(totals.back(), asked.closed, luck));
    }

    GasSpread spread;
    spread.draws = draws;
    spread.plateau_counts = drawing.plateau_counts();
    const double mean_total = mean_of(totals);
    for (int cause = 0; cause < k_causes; ++cause) {
        const auto& values = by_cause[at(cause)];
        spread.causes.push_back({asked.bound.terms.at(at(cause)).name, band_of(values),
                                 mean_total > 0.0 ? mean_of(values) / mean_total : 0.0});
    }
    spread.volumes = band_of(totals);
    add_pressures(spread, bottles, question, asked);
    add_when_carbonated(spread, asked.bound);
    return spread;
}

Result<std::optional<PressureBand>> drawn_at_store(const GasQuestion& question, const tables::Tables& tables) {
    TRY(const Asked asked, asked_of(question, tables));
    if (head_space_refused(asked.closed.head_space, asked.store)) return std::optional<PressureBand>{};
    const Drawing drawing(question, asked.bound, asked.store);
    std::vector<Bottle> bottles;
    bottles.reserve(usual_luck().size());
    for (const Luck& luck : usual_luck())
        bottles.push_back(bottle_of(total_of(drawing.volumes(luck)), asked.closed, luck));
    return std::optional<PressureBand>(
        PressureBand{asked.store, band_of(bars_at(asked.store, bottles, question, asked))});
}

}  // namespace undercroft::engine::package

// A second gas check, written apart from src/engine/package, to hold it to: a plain Monte Carlo over single bottles
// with <random>'s own distributions and the bottle of bottle_gauge.hpp. The relations are written down again: volumes
// left after fermentation 3.0378 - 0.050062 F + 0.00026555 F², 2 CO2 of 44.009 of a hexose of 180.156, 0.9565 g of CO2
// of 2.0665 g of extract with growth (Balling), 1.9768 g a volume, Weiss's virial coefficient. It takes a beer whose
// strength is known, in a container whose head space and air were said.
#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "engine/package/gas_question.hpp"
#include "engine/package/gas_spread.hpp"
#include "tests/support/bottle_gauge.hpp"

namespace undercroft::testing {

class PlainGas {
public:
    using Question = engine::package::GasQuestion;
    explicit PlainGas(const Question& question, std::uint64_t seed = 7) : m_q(question), m_bits(seed) {}

    // Total gauge in bar at `t` °C: what 5, 50 and 95 of 100 bottles stay within.
    engine::package::Band band_at(double t, int bottles) {
        std::vector<double> bars;
        for (int i = 0; i < bottles; ++i) bars.push_back(one_bottle(t));
        std::sort(bars.begin(), bars.end());
        const auto at_share = [&](double share) { return bars[std::size_t(share * double(bars.size() - 1))]; };
        return {at_share(0.05), at_share(0.50), at_share(0.95)};
    }

    [[nodiscard]] double share_above(double bar, double t, int bottles) {
        int above = 0;
        for (int i = 0; i < bottles; ++i) above += one_bottle(t) > bar ? 1 : 0;
        return double(above) / bottles;
    }

private:
    static constexpr double k_volume = 1.9768;  // g/L
    static constexpr double k_hexose_to_co2 = 2.0 * 44.009 / 180.156;

    double normal() { return m_normal(m_bits); }
    double uniform() { return m_uniform(m_bits); }

    static double left_at(double celsius, double ambient) {
        const double f = celsius * 1.8 + 32.0;
        return (3.0378 - 0.050062 * f + 0.00026555 * f * f) * k_volume * ambient / 1.01325;
    }

    [[nodiscard]] double dissolved() const {
        if (m_q.measured_co2_g_per_l) return *m_q.measured_co2_g_per_l;
        const double ambient = m_q.ambient.in_bar();
        const double warm = left_at(m_q.warmest_since_finished.in_celsius(), ambient);
        return m_q.coolest_while_working ? std::max(warm, left_at(m_q.coolest_while_working->in_celsius(), ambient))
                                         : warm;
    }

    static double lowest(const tables::CultureKind& kind, double og) {
        const double by_attenuation = 1.0 + (og - 1.0) * (1.0 - kind.attenuation_high);
        return kind.lowest_gravity_from_1_048
                   ? std::min(by_attenuation, 1.0 + (*kind.lowest_gravity_from_1_048 - 1.0) * (og - 1.0) / 0.048)
                   : by_attenuation;
    }

    // Which share of a triangle lies below x, turned round by halving.
    static double attenuation(double share, const tables::CultureKind& kind, double reach) {
        const double low = std::min(kind.attenuation_low, reach);
        const double mode = std::min(kind.attenuation_typical, reach);
        const auto below = [&](double x) {
            return x < mode ? (x - low) * (x - low) / ((reach - low) * (mode - low))
                            : 1.0 - (reach - x) * (reach - x) / ((reach - low) * (reach - mode));
        };
        double from = low;
        double to = reach;
        while (to - from > 1e-7) {
            const double middle = 0.5 * (from + to);
            (below(middle) < share ? from : to) = middle;
        }
        return to;
    }

    // How far the wort of this bottle lets anything go is one draw for all that live in it.
    double gravity_still_to_fall(double now) {
        const double og = *m_q.original_gravity;
        const double share = uniform();
        double most = 0.0;
        for (const tables::CultureKind* kind : m_q.cultures) {
            if (!kind->makes_gas()) continue;
            const double reach = 1.0 - (lowest(*kind, og) - 1.0) / (og - 1.0);
            most = std::max(most, now - 1.0 - (og - 1.0) * (1.0 - attenuation(share, *kind, reach)));
        }
        return most;
    }

    double one_bottle(double t) {
        double co2 = dissolved() * (1.0 + (m_q.measured_co2_g_per_l ? 0.04 : 0.06) * normal());
        const double theory = m_q.priming_g_per_l * k_hexose_to_co2 * 360.312 / 342.297;
        const double growth = theory * (0.9565 / 2.0665) / k_hexose_to_co2;
        co2 += (growth + uniform() * (theory - growth)) * (1.0 + 0.04 * normal());
        const double now = m_q.gravity->mean + m_q.gravity->sd * normal();
        co2 += gravity_still_to_fall(now) * 1000.0 * 0.58 * k_volume;
        const double head = std::max(t > 35.0 ? 0.03 : 0.02, *m_q.head_space + 0.005 * normal());
        return real_gas(co2, head, t);
    }

    [[nodiscard]] double real_gas(double co2, double head, double t) const {
        const double ambient = m_q.ambient.in_bar();
        const bool trapped = *m_q.air == chem::AirInHeadSpace::trapped;
        const double ideal = bottle_gauge(co2, head, trapped, *m_q.abv, *m_q.extract_g_per_l, ambient, t);
        const double air = (ambient - 0.02339) * head / (1.0 - (1.0 - head) * kell_density(20.0) / kell_density(t)) *
                           (t + 273.15) / 293.15;
        const double vapour = 6.1121e-3 * std::exp((18.678 - t / 234.5) * t / (257.14 + t));
        const double carbon = ideal + ambient - (trapped ? air : 0.0) - vapour;
        const double k = t + 273.15;
        const double virial = -1636.75 + 12.0408 * k - 3.27957e-2 * k * k + 3.16528e-5 * k * k * k;
        return ideal + carbon * (std::exp(-virial * 1e-3 * carbon / (0.0831446 * k)) - 1.0);
    }

    const Question& m_q;
    std::mt19937_64 m_bits;
    std::normal_distribution<double> m_normal;
    std::uniform_real_distribution<double> m_uniform;
};

}  // namespace undercroft::testing

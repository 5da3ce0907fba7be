#include "engine/package/gas_spread.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/index.hpp"
#include "engine/package/canary.hpp"
#include "engine/package/gas_draw.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::package {

namespace {

double mean_of(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
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
    const Drawing drawing(question, asked);

    std::array<std::vector<double>, Cause::count> by_cause;
    for (auto& values : by_cause) values.reserve(at(draws));
    std::vector<double> totals;
    std::vector<Bottle> bottles;
    totals.reserve(at(draws));
    bottles.reserve(at(draws));
    const bool usual = seed == k_usual_seed && draws == k_gas_draws;
    const std::vector<Luck> own = usual ? std::vector<Luck>{} : thrown(seed, draws);
    const CanaryTold canary = told_by_canary(question, asked, drawing, usual ? usual_luck() : own);
    for (const Luck& luck : canary.luck) {
        const auto of = drawing.volumes(luck);
        for (std::size_t cause = 0; cause < of.size(); ++cause) by_cause[cause].push_back(of[cause]);
        totals.push_back(total_of(of));
        bottles.push_back(bottle_of(totals.back(), asked.closed, luck));
    }

    GasSpread spread;
    spread.draws = draws;
    spread.plateau_counts = drawing.plateau_counts();
    spread.canary = canary.verdict;
    spread.canary_days = canary_days(asked);
    const double mean_total = mean_of(totals);
    for (std::size_t cause = 0; cause < by_cause.size(); ++cause) {
        const auto& values = by_cause[cause];
        spread.causes.push_back(
            {asked.bound.terms.at(cause).name, band_of(values), mean_total > 0.0 ? mean_of(values) / mean_total : 0.0});
    }
    spread.volumes = band_of(totals);
    add_pressures(spread, bottles, question, asked);
    add_when_carbonated(spread, asked.bound);
    return spread;
}

Result<DrawnAtStore> drawn_at_store(const GasQuestion& question, const tables::Tables& tables) {
    DrawnAtStore drawn;
    TRY(const Asked asked, asked_of(question, tables));
    if (head_space_refused(asked.closed.head_space, asked.store)) return drawn;
    const Drawing drawing(question, asked);
    const CanaryTold canary = told_by_canary(question, asked, drawing, usual_luck());
    drawn.canary = canary.verdict;
    std::vector<Bottle> bottles;
    bottles.reserve(canary.luck.size());
    for (const Luck& luck : canary.luck)
        bottles.push_back(bottle_of(total_of(drawing.volumes(luck)), asked.closed, luck));
    drawn.band = PressureBand{asked.store, band_of(bars_at(asked.store, bottles, question, asked))};
    return drawn;
}

Result<std::optional<GaugePressure>> no_draw_above(const GasQuestion& question, const tables::Tables& tables) {
    TRY(const Asked asked, asked_of(question, tables));
    if (head_space_refused(asked.closed.head_space, asked.store)) return std::optional<GaugePressure>{};
    return std::optional<GaugePressure>(
        GaugePressure::from_bar(no_bar_above(asked.store, Drawing(question, asked), question, asked)));
}

}  // namespace undercroft::engine::package

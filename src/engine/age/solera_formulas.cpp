#include "engine/age/solera_formulas.hpp"

#include <cmath>
#include <cstddef>

namespace undercroft::engine {

SteadySolera steady_state(const SoleraPlan& plan) {
    SteadySolera steady;
    const double interval = plan.interval_years;
    std::vector<double> coming(plan.stages.size());  // litres into each stage in a turn
    double leaves = plan.pull.in_litres();
    for (std::size_t i = plan.stages.size(); i-- > 0;) {
        coming[i] = leaves + plan.evaporation * plan.stages[i].in_litres();
        leaves = coming[i];
    }
    double mean = plan.age_in_years;
    double variance = 0.0;
    for (std::size_t i = 0; i < plan.stages.size(); ++i) {
        const double share = coming[i] / plan.stages[i].in_litres();  // renewed in a turn
        mean += interval / share;
        variance += interval * interval * (1.0 - share) / (share * share);
        steady.stage_years.push_back(mean);
    }
    steady.mean_years = mean;
    steady.after_refill_years = mean - interval;
    steady.time_average_years = mean - interval / 2.0;
    steady.sd_years = std::sqrt(variance);
    steady.youngest_years = plan.age_in_years + interval * static_cast<double>(plan.stages.size());
    steady.yearly = plan.pull.in_litres() / interval;
    steady.yearly_new_beer = leaves / interval;
    return steady;
}

double share_made_ago(double f, int k) {
    return f * std::pow(1.0 - f, k - 1);
}

double original_share_in_draw(double f, int n) {
    return std::pow(1.0 - f, n - 1);
}

int pulls_until_original_below(double f, double p) {
    int pulls = 0;
    for (double left = 1.0; left >= p; left *= 1.0 - f) ++pulls;
    return pulls;
}

double effective_vintages(double f) {
    return (2.0 - f) / f;
}

double not_yet_through(int stages, double f, int k) {
    if (k < stages) return 1.0;
    if (f >= 1.0) return 0.0;
    // In logarithms, so that many small pulls do not run out of digits.
    double term = k * std::log1p(-f);
    double sum = 0.0;
    for (int j = 0; j < stages; ++j) {
        sum += std::exp(term);
        term += std::log(static_cast<double>(k - j) / (j + 1)) + std::log(f) - std::log1p(-f);
    }
    return sum;
}

double share_of_age(int stages, double f, int k) {
    if (k < stages) return 0.0;
    return not_yet_through(stages, f, k - 1) - not_yet_through(stages, f, k);
}

double nth_draw_intervals(int stages, double f, int n) {
    double sum = 0.0;
    for (int k = 0; k < n; ++k) sum += not_yet_through(stages, f, k);
    return sum;
}

double concentration_factor(double e, double f) {
    return (e + f) / f;
}

}  // namespace undercroft::engine

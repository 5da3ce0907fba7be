#include "chem/acid_inverse.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr std::size_t k_unknowns = InferredAcids::k_unknowns;
using Vector = std::array<double, k_unknowns>;
using Matrix = std::array<Vector, k_unknowns>;

constexpr Vector k_low{0.0, 0.0, 0.2, -0.02};
constexpr Vector k_high{0.45, 0.2, 2.5, 0.15};
constexpr double k_weak = 1e3;  // how much wider a prior becomes when only its bounds are to count

struct Problem {
    const AcidSystem& system;
    const AcidReadings& readings;
    const AcidPrior& prior;
    double widened = 1.0;

    [[nodiscard]] AcidMix mix_of(const Vector& at) const {
        AcidMix mix = prior.known;
        mix[Acid::lactic] = at[InferredAcids::lactic];
        mix[Acid::acetic] = at[InferredAcids::acetic];
        mix.buffer.low *= at[InferredAcids::buffer];
        mix.buffer.high *= at[InferredAcids::buffer];
        mix.strong_ions = at[InferredAcids::strong_ions];
        return mix;
    }
    [[nodiscard]] Vector prior_values() const {
        return {prior.lactic.value, prior.acetic.value, 1.0, prior.strong_ions.value};
    }
    [[nodiscard]] Vector prior_sds() const {
        return {prior.lactic.sd * widened, prior.acetic.sd * widened, prior.buffer_sd * widened,
                prior.strong_ions.sd * widened};
    }
    // Each in units of its spread: readings first, then priors.
    [[nodiscard]] Result<std::vector<double>> residuals(const Vector& at) const {
        std::vector<double> all;
        const AcidMix mix = mix_of(at);
        if (readings.ph) {
            TRY(const double ph, system.ph(mix));
            all.push_back((ph - readings.ph->value) / readings.ph->sd);
        }
        if (readings.ta) {
            TRY(const double ta, system.titratable(mix, readings.ta_end));
            all.push_back((ta - readings.ta->value) / readings.ta->sd);
        }
        if (readings.acetic) all.push_back((mix[Acid::acetic] - readings.acetic->value) / readings.acetic->sd);
        const Vector means = prior_values();
        const Vector sds = prior_sds();
        for (std::size_t i = 0; i < k_unknowns; ++i) all.push_back((at[i] - means[i]) / sds[i]);
        return all;
    }
};

double sum_of_squares(const std::vector<double>& residuals) {
    double sum = 0.0;
    for (const double r : residuals) sum += r * r;
    return sum;
}

// Solves a symmetric positive system; rows and columns of frozen unknowns are left out.
Vector solved(Matrix a, Vector b, const std::array<bool, k_unknowns>& frozen) {
    for (std::size_t i = 0; i < k_unknowns; ++i) {
        if (!frozen[i]) continue;
        for (std::size_t j = 0; j < k_unknowns; ++j) a[i][j] = a[j][i] = i == j ? 1.0 : 0.0;
        b[i] = 0.0;
    }
    for (std::size_t i = 0; i < k_unknowns; ++i)
        for (std::size_t j = i + 1; j < k_unknowns; ++j) {
            const double factor = a[j][i] / a[i][i];
            for (std::size_t k = i; k < k_unknowns; ++k) a[j][k] -= factor * a[i][k];
            b[j] -= factor * b[i];
        }
    Vector x{};
    for (std::size_t i = k_unknowns; i-- > 0;) {
        double sum = b[i];
        for (std::size_t k = i + 1; k < k_unknowns; ++k) sum -= a[i][k] * x[k];
        x[i] = sum / a[i][i];
    }
    return x;
}

struct Linear {
    Matrix normal{};    // J^T J
    Vector gradient{};  // J^T r
};

Result<Linear> linearised(const Problem& problem, const Vector& at) {
    TRY(const std::vector<double> here, problem.residuals(at));
    std::array<std::vector<double>, k_unknowns> slopes;
    constexpr Vector k_steps{1e-6, 1e-6, 1e-5, 1e-6};
    for (std::size_t i = 0; i < k_unknowns; ++i) {
        Vector up = at;
        Vector down = at;
        up[i] += k_steps[i];
        if (at[i] - k_steps[i] >= k_low[i]) down[i] -= k_steps[i];
        TRY(const std::vector<double> above, problem.residuals(up));
        TRY(const std::vector<double> below, problem.residuals(down));
        for (std::size_t r = 0; r < here.size(); ++r) slopes[i].push_back((above[r] - below[r]) / (up[i] - down[i]));
    }
    Linear linear;
    for (std::size_t i = 0; i < k_unknowns; ++i) {
        for (std::size_t j = 0; j < k_unknowns; ++j)
            for (std::size_t r = 0; r < here.size(); ++r) linear.normal[i][j] += slopes[i][r] * slopes[j][r];
        for (std::size_t r = 0; r < here.size(); ++r) linear.gradient[i] += slopes[i][r] * here[r];
    }
    return linear;
}

// Marquardt's descent that stays within the bounds: an unknown that a bound holds back is frozen for the step.
Result<Vector> likeliest(const Problem& problem, Vector at) {
    TRY(std::vector<double> residuals, problem.residuals(at));
    double best = sum_of_squares(residuals);
    double damping = 1e-3;
    constexpr int k_rounds = 200;
    for (int round = 0; round < k_rounds && damping < 1e12; ++round) {
        TRY(const Linear linear, linearised(problem, at));
        std::array<bool, k_unknowns> frozen{};
        for (std::size_t i = 0; i < k_unknowns; ++i)
            frozen[i] =
                (at[i] <= k_low[i] && linear.gradient[i] > 0.0) || (at[i] >= k_high[i] && linear.gradient[i] < 0.0);
        bool moved = false;
        while (!moved && damping < 1e12) {
            Matrix damped = linear.normal;
            for (std::size_t i = 0; i < k_unknowns; ++i) damped[i][i] *= 1.0 + damping;
            const Vector step = solved(damped, linear.gradient, frozen);
            Vector next = at;
            double size = 0.0;
            for (std::size_t i = 0; i < k_unknowns; ++i) {
                next[i] = std::clamp(at[i] - step[i], k_low[i], k_high[i]);
                size = std::max(size, std::abs(next[i] - at[i]));
            }
            if (size < 1e-14) return at;
            const auto there = problem.residuals(next);
            const double sum = there ? sum_of_squares(*there) : INFINITY;
            if (sum <= best) {
                const bool settled = best - sum <= 1e-15 * best && size < 1e-11;
                at = next;
                best = sum;
                damping = std::max(1e-12, damping * 0.1);
                moved = true;
                if (settled) return at;
            } else {
                damping *= 10.0;
            }
        }
    }
    return at;
}

Result<void> check(const char* where, const std::optional<Uncertain>& reading, double low, double high) {
    if (!reading) return {};
    if (!(reading->value >= low && reading->value <= high))
        return fail(ErrorKind::bad_input, where,
                    number_text(reading->value, 3) + " cannot be; it is between " + number_text(low, 0) + " and " +
                        number_text(high, 0) + ".");
    if (!(reading->sd > 0.0 && std::isfinite(reading->sd)))
        return fail(ErrorKind::bad_input, where, "A reading has a spread above zero.");
    return {};
}

double worst_off(const Problem& problem, const InferredAcids& found) {
    double worst = 0.0;
    if (problem.readings.ph) worst = std::max(worst, std::abs(found.ph_off) / problem.readings.ph->sd);
    if (problem.readings.ta) worst = std::max(worst, std::abs(found.ta_off) / problem.readings.ta->sd);
    return worst;
}

Result<InferredAcids> estimate(const Problem& problem, const Vector& start) {
    TRY(const Vector at, likeliest(problem, start));
    TRY(const Linear linear, linearised(problem, at));
    InferredAcids found;
    found.mix = problem.mix_of(at);
    for (std::size_t i = 0; i < k_unknowns; ++i) {
        Vector unit{};
        unit[i] = 1.0;
        found.covariance[i] = solved(linear.normal, unit, {});
        // Nothing is less certain than anything between its bounds.
        const double widest = (k_high[i] - k_low[i]) / std::sqrt(12.0);
        found.unknown[i] = {at[i], std::min(widest, std::sqrt(std::max(0.0, found.covariance[i][i])))};
    }
    TRY(found.ph, problem.system.ph(found.mix));
    TRY(found.ta, problem.system.titratable(found.mix, problem.readings.ta_end));
    if (problem.readings.ph) found.ph_off = problem.readings.ph->value - found.ph;
    if (problem.readings.ta) found.ta_off = problem.readings.ta->value - found.ta;
    return found;
}

constexpr double k_likely_within = 2.0;    // spreads of a reading
constexpr double k_possible_within = 1.0;  // once only the bounds hold it back

}  // namespace

AcidPrior usual_prior(double abv) {
    AcidPrior prior;
    prior.known.buffer = k_wort_buffer;
    prior.known.abv = abv;
    return prior;
}

Result<InferredAcids> infer_acids(const AcidSystem& system, const AcidReadings& readings, const AcidPrior& prior) {
    if (!readings.ph && !readings.ta)
        return fail(ErrorKind::bad_input, "readings", "A pH or a titratable acidity is needed, best of all both.");
    TRY_VOID(check("pH", readings.ph, 0.0, 14.0));
    TRY_VOID(check("TA", readings.ta, 0.0, 1.0));
    TRY_VOID(check("acetic acid", readings.acetic, 0.0, 1.0));
    Problem problem{system, readings, prior, 1.0};
    Vector start = problem.prior_values();
    if (readings.acetic) start[InferredAcids::acetic] = readings.acetic->value;
    if (readings.ta) start[InferredAcids::lactic] = readings.ta->value;
    for (std::size_t i = 0; i < k_unknowns; ++i) start[i] = std::clamp(start[i], k_low[i], k_high[i]);
    TRY(InferredAcids found, estimate(problem, start));
    if (worst_off(problem, found) <= k_likely_within) return found;

    // Only the bounds hold it back now: does any mix give both readings? Begun from several corners too, since along a
    // bound there can be more than one resting place.
    problem.widened = k_weak;
    Vector again{};
    for (std::size_t i = 0; i < k_unknowns; ++i) again[i] = found.unknown[i].value;
    std::vector<Vector> starts{again};
    std::vector<double> acetics{again[InferredAcids::acetic]};
    if (!readings.acetic) acetics.insert(acetics.end(), {0.0, 0.05});
    for (const double lactic : {0.0, 0.1, 0.4})
        for (const double buffer : {0.3, 2.0})
            for (const double strong_ions : {-0.015, 0.03, 0.12})
                for (const double acetic : acetics) starts.push_back({lactic, acetic, buffer, strong_ions});
    Vector best = again;
    double least = INFINITY;
    for (const Vector& from : starts) {
        const auto there = likeliest(problem, from);
        if (!there) continue;  // a corner may lie outside the activity law
        TRY(const std::vector<double> left, problem.residuals(*there));
        if (sum_of_squares(left) >= least) continue;
        least = sum_of_squares(left);
        best = *there;
    }
    TRY(InferredAcids nearest, estimate(problem, best));
    nearest.fit =
        worst_off(problem, nearest) <= k_possible_within ? InferredAcids::Fit::unusual : InferredAcids::Fit::impossible;
    return nearest;
}

}  // namespace undercroft::chem

// The inner loop that finds the pH of several liquids side by side, one in each lane of a vector.
//
// Included by one .cpp for every instruction set (charge_balance_kernel_*.cpp), which defines UNDERCROFT_LANES first
// and calls solve_columns. All of it lives in an unnamed namespace and uses no library: code made for a newer processor
// must not be shared with the rest of the program by the linker.
//
// Holds: every lane is computed as if it were alone, with the same operations in the same order (no fused multiply-add,
// built with -ffp-contract=off), so the answers are the same to the bit whatever the number of lanes.
//
// Method: Newton in x = ln(activity of H+) on f = strong + h - oh - sum c n(x), whose slope h + oh + sum c var(n) is
// positive; once near, with Halley's second derivative. exp(-s) of a step s is taken as (2 - s)/(2 + s), so that no
// step costs an exponential. With activities it is Newton in two unknowns, x and y = ln(activity coefficient), the
// second equation being Davies. A lane stops once a step is so small that the next would be below rounding.
#pragma once

#include "chem/charge_balance_task.hpp"

namespace undercroft::chem {
namespace {

#if UNDERCROFT_LANES == 1
using V = double;
using Mask = bool;
inline V spread(double x) {
    return x;
}
inline V load(const double* from) {
    return *from;
}
inline void store(double* to, V x) {
    *to = x;
}
inline bool any(Mask mask) {
    return mask;
}
inline Mask no_lane() {
    return false;
}
#else
using V = double __attribute__((vector_size(8 * UNDERCROFT_LANES)));
using Mask = long long __attribute__((vector_size(8 * UNDERCROFT_LANES)));
inline V spread(double x) {
    return x - V{};
}
inline V load(const double* from) {
    V x;
    __builtin_memcpy(&x, from, sizeof x);
    return x;
}
inline void store(double* to, const V& x) {
    __builtin_memcpy(to, &x, sizeof x);
}
inline bool any(const Mask& mask) {
    long long all = 0;
    for (int i = 0; i < UNDERCROFT_LANES; ++i) all |= mask[i];
    return all != 0;
}
inline Mask no_lane() {
    return Mask{};
}
#endif

inline V square_root(const V& x) {
#if UNDERCROFT_LANES == 1
    return __builtin_sqrt(x);
#else
    V root;
    for (int i = 0; i < UNDERCROFT_LANES; ++i) root[i] = __builtin_sqrt(x[i]);
    return root;
#endif
}

inline V within(const V& x, const V& low, const V& high) {
    const V floored = x < low ? low : x;
    return floored > high ? high : floored;
}

// exp of -0.7 to 0.1 by its series: 15 terms leave 2e-16.
inline V exp_of_little(const V& x) {
    V sum = spread(1.0);
    for (int k = 14; k > 0; --k) sum = 1.0 + sum * x * (1.0 / k);
    return sum;
}

// Of positive normal numbers. 2^e m with m between 0.707 and 1.414, ln m = 2 artanh((m - 1)/(m + 1)).
inline V log10_of(const V& x) {
#if UNDERCROFT_LANES == 1
    using Bits = unsigned long long;
#else
    using Bits = unsigned long long __attribute__((vector_size(8 * UNDERCROFT_LANES)));
#endif
    Bits bits;
    __builtin_memcpy(&bits, &x, sizeof bits);
    // The exponent as a double, without a conversion that only the newest processors have: it becomes the lowest
    // bits of 2^52.
    const Bits exponent_bits = (bits >> 52) | 0x4330000000000000ULL;
    const Bits mantissa_bits = (bits & 0x000FFFFFFFFFFFFFULL) | 0x3FF0000000000000ULL;
    V exponent;
    V m;
    __builtin_memcpy(&exponent, &exponent_bits, sizeof exponent);
    __builtin_memcpy(&m, &mantissa_bits, sizeof m);
    exponent = exponent - 4503599627371519.0;  // 2^52 + 1023
    const Mask high = m > 1.4142135623730951;
    exponent = high ? exponent + 1.0 : exponent;
    m = high ? m * 0.5 : m;
    const V z = (m - 1.0) / (m + 1.0);
    const V z2 = z * z;
    // 1 + z^2/3 + z^4/5 ... z^20/21, in pairs so that fewer steps wait for each other.
    const V z4 = z2 * z2;
    const V z8 = z4 * z4;
    const V low = (1.0 + z2 * (1.0 / 3.0)) + z4 * (1.0 / 5.0 + z2 * (1.0 / 7.0));
    const V middle = (1.0 / 9.0 + z2 * (1.0 / 11.0)) + z4 * (1.0 / 13.0 + z2 * (1.0 / 15.0));
    const V high_terms = (1.0 / 17.0 + z2 * (1.0 / 19.0)) + z4 * (1.0 / 21.0);
    const V sum = low + z8 * (middle + z8 * high_terms);
    return exponent * 0.30102999566398120 + z * sum * 0.86858896380650365;  // log10(2), 2 log10(e)
}

constexpr int k_most_rounds = 60;
// A step of Newton's leaves an error of about its square, one of Halley's of its cube, times some
// ten: below 1e-14 and 1e-12.
constexpr double k_small_step_of_newton = 3e-8;
constexpr double k_small_step_of_halley = 3e-5;
constexpr double k_near = 0.5;  // from here on Halley's step is safe
constexpr double k_longest_step = 1.5;
constexpr double k_lowest_log_gamma = -0.6;
constexpr double k_highest_log_gamma = 0.05;

// Sums over all protolytes of c times moments of the charge z: mean, mean square, variance; without activities the
// third central moment, with them the covariance of z and z^2 and the variance of z^2.
struct Moments {
    V mean = V{};
    V square = V{};
    V variance = V{};
    V third = V{};
    V covariance = V{};
    V corrected_covariance = V{};  // over those whose pK follows the activity coefficient
    V square_variance = V{};       // likewise
};

// Three protolytes of at most `steps` protons, side by side so that their divisions overlap; the list is filled up with
// empty ones.
template <bool with_gamma, int steps>
inline void add_three(const BalanceModel::Steps* three, const V* totals, const V* corrected, const V* read,
                      Moments& sum) {
    V weight[3];
    V form[3][3];
#pragma GCC unroll 3
    for (int j = 0; j < 3; ++j) {
        const V* factor = three[j].as_read ? read : corrected;
        form[j][0] = three[j].k[0] * factor[0];
        weight[j] = 1.0 + form[j][0];
#pragma GCC unroll 2
        for (int z = 1; z < steps; ++z) {
            form[j][z] = form[j][z - 1] * (three[j].k[z] * factor[z]);
            weight[j] = weight[j] + form[j][z];
        }
    }
    const V inverses[3] = {1.0 / weight[0], 1.0 / weight[1], 1.0 / weight[2]};
#pragma GCC unroll 3
    for (int j = 0; j < 3; ++j) {
        V mean = form[j][0];
        V square = form[j][0];
        V cube = form[j][0];
        V fourth = form[j][0];
#pragma GCC unroll 2
        for (int z = 1; z < steps; ++z) {
            const double charge = z + 1;
            mean = mean + charge * form[j][z];
            square = square + charge * charge * form[j][z];
            cube = cube + charge * charge * charge * form[j][z];
            if (with_gamma) {
                fourth = fourth + charge * charge * charge * charge * form[j][z];
            }
        }
        mean = mean * inverses[j];
        square = square * inverses[j];
        sum.mean = sum.mean + totals[j] * mean;
        const V variance = square - mean * mean;
        sum.variance = sum.variance + totals[j] * variance;
        cube = cube * inverses[j] - mean * square;
        if (!with_gamma) {
            sum.third = sum.third + totals[j] * (cube - 2.0 * mean * variance);
        } else {
            sum.square = sum.square + totals[j] * square;
            sum.covariance = sum.covariance + totals[j] * cube;
            if (three[j].as_read) continue;
            sum.corrected_covariance = sum.corrected_covariance + totals[j] * cube;
            sum.square_variance = sum.square_variance + totals[j] * (fourth * inverses[j] - square * square);
        }
    }
}

// `corrected` and `read` are 1/(activity of H+), as each further proton finds it.
template <bool with_gamma>
inline Moments moments_of(const BalanceModel& model, const V* totals, const V* corrected, const V* read) {
    Moments sum;
    for (int p = 0; p < model.protolytes; p += 3) {
        const BalanceModel::Steps* three = model.steps + p;
        const int steps = three[2].count;  // they stand in order
        if (steps == 1)
            add_three<with_gamma, 1>(three, totals + p, corrected, read, sum);
        else if (steps == 2)
            add_three<with_gamma, 2>(three, totals + p, corrected, read, sum);
        else
            add_three<with_gamma, 3>(three, totals + p, corrected, read, sum);
    }
    return sum;
}

struct Start {
    V a;
    V inverse_a;
};

// Charges at the fixed points are sums of products; between the two where they turn, ln a is taken as straight.
inline Start start_of(const BalanceModel& model, const V* totals, const V& strong) {
    V left = V{};
    V right = spread(-1.0);
    V a = spread(model.guesses[0].activity_h);
    V inverse_a = spread(model.guesses[0].inverse);
    V before = V{};
    for (int g = 0; g < k_guesses; ++g) {
        const BalanceModel::Guess& guess = model.guesses[g];
        V charge = strong + guess.free_charge;
        for (int p = 0; p < model.protolytes; ++p) charge = charge - totals[p] * guess.mean[p];
        if (g > 0) {
            const Mask turns = (before > 0.0) & (charge <= 0.0);
            left = turns ? before : left;
            right = turns ? charge : right;
            a = turns ? spread(model.guesses[g - 1].activity_h) : a;
            inverse_a = turns ? spread(model.guesses[g - 1].inverse) : inverse_a;
        }
        before = charge;
    }
    const Mask beyond = before > 0.0;
    a = beyond ? spread(model.guesses[k_guesses - 1].activity_h) : a;
    inverse_a = beyond ? spread(model.guesses[k_guesses - 1].inverse) : inverse_a;
    const V y = left / (left - right) * model.guess_step;
    // exp(-y) for y up to 1.5, near enough to begin with.
    const V even = 12.0 + y * y;
    const V odd = 6.0 * y;
    return {a * ((even - odd) / (even + odd)), inverse_a * ((even + odd) / (even - odd))};
}

template <bool with_gamma>
inline void solve_block(const BalanceModel& model, const double* const* columns, unsigned long at,
                        const double* strong_ions, const double* inert_salt, const double* pk_shift, double* ph) {
    V totals[k_most_protolytes_in_task];
    Mask refused = no_lane();
    for (int p = 0; p < model.protolytes; ++p) {
        totals[p] = columns[p] == nullptr ? V{} : load(columns[p] + at);
        refused = refused | (totals[p] < 0.0);
    }
    const V strong = load(strong_ions);
    const V magnitude = strong < 0.0 ? -strong : strong;
    const V salt = inert_salt == nullptr ? V{} : load(inert_salt);
    V shift = spread(1.0);
    if (pk_shift != nullptr) {
        const V exponent = load(pk_shift) * -k_ln10;
        shift = exp_of_little(exponent);
    }
    const Start start = start_of(model, totals, strong);
    V a = start.a;
    V inverse_a = start.inverse_a;
    V log_gamma = spread(with_gamma ? -0.16 : 0.0);
    V ionic_strength = V{};
    Mask running = strong == strong;
    for (int round = 0; round < k_most_rounds && any(running); ++round) {
        V h = a;
        V oh = inverse_a * model.kw;
        const V shifted = inverse_a * shift;
        V corrected[3] = {shifted, shifted, shifted};
        V read[3] = {inverse_a, inverse_a, inverse_a};
        if (with_gamma) {
            const V negative = -log_gamma;
            const V inverse_gamma = exp_of_little(negative);
            const V squared = inverse_gamma * inverse_gamma;
            h = a * inverse_gamma;
            oh = oh * inverse_gamma;
            corrected[0] = shifted * inverse_gamma;
            corrected[1] = corrected[0] * squared;
            corrected[2] = corrected[1] * squared;
        }
        const Moments moments = moments_of<with_gamma>(model, totals, corrected, read);
        V wanted = strong + h - oh - moments.mean;
        V slope = h + oh + moments.variance;
        Mask moving = no_lane();
        if (with_gamma) {
            const V charges = salt + 0.5 * (magnitude + h + oh + moments.square);
            const V floor = spread(1e-12);
            const V ceiling = spread(1.0);
            const V counted = within(charges, floor, ceiling);
            const V root = square_root(counted);
            const V one_more = 1.0 + root;
            const V inverse = 1.0 / (root * one_more * one_more);
            const V law = (counted * one_more * inverse - 0.3 * counted) * model.minus_a_ln10;
            const V law_slope = (0.5 * inverse - 0.3) * model.minus_a_ln10;
            const V half_h = 0.5 * h;
            const V half_oh = 0.5 * oh;
            const V by_log_gamma = oh - h + moments.corrected_covariance;
            const V law_by_x = law_slope * (half_h - half_oh - 0.5 * moments.covariance);
            const V law_by_y = law_slope * (-half_h - half_oh - 0.5 * moments.square_variance);
            const V off = log_gamma - law;
            const V own = 1.0 - law_by_y;
            // Two lines of Newton: slope dx + by_log_gamma dy = wanted, -law_by_x dx + own dy = off.
            const V determinant = slope * own + by_log_gamma * law_by_x;
            const V dy = (off * slope + wanted * law_by_x) / determinant;
            wanted = wanted * own - off * by_log_gamma;
            slope = determinant;
            const V low = spread(k_lowest_log_gamma);
            const V high = spread(k_highest_log_gamma);
            const V next = log_gamma - dy;
            const V next_log_gamma = within(next, low, high);
            moving = (dy > k_small_step_of_newton) | (dy < -k_small_step_of_newton);
            log_gamma = running ? next_log_gamma : log_gamma;
            ionic_strength = running ? charges : ionic_strength;
        }
        double small_step = k_small_step_of_newton;
        if (!with_gamma) {
            const V size = wanted < 0.0 ? -wanted : wanted;
            const V curvature = h - oh - moments.third;
            const V bend = size < slope * k_near ? 0.5 * wanted * curvature : V{};
            wanted = wanted * slope;
            slope = slope * slope - bend;
            small_step = k_small_step_of_halley;
        }
        const V longest = slope * k_longest_step;
        const V shortest = -longest;
        const V step = within(wanted, shortest, longest);
        const V down = 2.0 * slope - step;
        const V up = 2.0 * slope + step;
        const V next_a = a * (down / up);
        const V next_inverse_a = inverse_a * (up / down);
        const V size = wanted < 0.0 ? -wanted : wanted;
        moving = moving | (size > slope * small_step);
        a = running ? next_a : a;
        inverse_a = running ? next_inverse_a : inverse_a;
        running = running & moving;
    }
    Mask failed = refused | running | (strong != strong) | (a != a) | (a > 1.0) | (a < 1e-14);
    if (with_gamma) failed = failed | (ionic_strength > model.highest_ionic_strength);
    const V usable = failed ? spread(1.0) : a;
    const V negative_log = -log10_of(usable);
    const V answer = failed ? spread(__builtin_nan("")) : negative_log;
    store(ph, answer);
}

template <bool with_gamma>
inline void solve_all(const BalanceTask& task) {
    const BalanceModel& model = *task.model;
    constexpr unsigned long k_lanes = UNDERCROFT_LANES;
    unsigned long done = 0;
    for (; done + k_lanes <= task.count; done += k_lanes) {
        solve_block<with_gamma>(model, task.totals, done, task.strong_ions + done,
                                task.inert_salt == nullptr ? nullptr : task.inert_salt + done,
                                task.pk_shift == nullptr ? nullptr : task.pk_shift + done, task.ph + done);
    }
    if (done == task.count) return;
    // The last few are repeated until they fill the lanes.
    double rest[k_most_protolytes_in_task + 4][k_lanes] = {};
    for (unsigned long i = 0; i < k_lanes; ++i) {
        const unsigned long from = done + i < task.count ? done + i : task.count - 1;
        for (int p = 0; p < model.protolytes; ++p) rest[p][i] = task.totals[p] == nullptr ? 0.0 : task.totals[p][from];
        rest[k_most_protolytes_in_task][i] = task.strong_ions[from];
        if (task.inert_salt != nullptr) rest[k_most_protolytes_in_task + 1][i] = task.inert_salt[from];
        if (task.pk_shift != nullptr) rest[k_most_protolytes_in_task + 2][i] = task.pk_shift[from];
    }
    const double* columns[k_most_protolytes_in_task] = {};
    for (int p = 0; p < model.protolytes; ++p) columns[p] = rest[p];
    double* answers = rest[k_most_protolytes_in_task + 3];
    solve_block<with_gamma>(model, columns, 0, rest[k_most_protolytes_in_task], rest[k_most_protolytes_in_task + 1],
                            rest[k_most_protolytes_in_task + 2], answers);
    for (unsigned long i = 0; done + i < task.count; ++i) task.ph[done + i] = answers[i];
}

inline void solve_columns(const BalanceTask& task) {
    if (task.model->minus_a_ln10 < 0.0)
        solve_all<true>(task);
    else
        solve_all<false>(task);
}

}  // namespace
}  // namespace undercroft::chem

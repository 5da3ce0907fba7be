#include "chem/charge_balance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "chem/charge_balance_task.hpp"
#include "chem/extract.hpp"
#include "chem/root.hpp"
#include "units/amount.hpp"

namespace undercroft::chem {

static_assert(k_most_protolytes == static_cast<std::size_t>(k_most_protolytes_in_task));

namespace {

constexpr double k_lowest_ph = 0.0;
constexpr double k_highest_ph = 14.0;
constexpr double k_highest_shift = 0.3;
constexpr double k_first_guess_ph = 2.0;
constexpr double k_guess_ph_step = 0.7;      // to 5.5: beer and juice; beyond takes a few rounds more
constexpr double k_gamma_of_guesses = 0.85;  // ionic strength 0.04

Failure refuse_amount(const char* where, double value) {
    return fail(ErrorKind::bad_input, where,
                number_text(value * 1e3, 3) + " mmol/L cannot be; it is a number, zero or more.");
}

Failure refuse_ionic_strength() {
    return fail(ErrorKind::outside_model, "ionic strength", "above 0.5 mol/L, where the activity law of Davies ends.",
                {}, "Thin the liquid in the sum, or leave out what is not in solution.");
}

Result<void> check(const Amounts& amounts) {
    for (const double total : amounts.totals)
        if (!(total >= 0.0 && std::isfinite(total))) return refuse_amount("acid", total);
    if (!std::isfinite(amounts.strong_ions)) return refuse_amount("strong ions", amounts.strong_ions);
    if (!(amounts.inert_salt >= 0.0 && std::isfinite(amounts.inert_salt)))
        return refuse_amount("salt", amounts.inert_salt);
    if (!(amounts.pk_shift >= 0.0 && amounts.pk_shift <= k_highest_shift))
        return fail(ErrorKind::outside_model, "pK shift",
                    number_text(amounts.pk_shift, 2) + " is outside 0 to 0.3, which is 0 to 21 % vol of ethanol.");
    return {};
}

// What check() asks, without the words.
bool possible(const Amounts& amounts) {
    double lowest = amounts.inert_salt;
    double sum = amounts.inert_salt;
    for (const double total : amounts.totals) {
        lowest = std::min(lowest, total);
        sum += total;
    }
    return lowest >= 0.0 && std::isfinite(sum + amounts.strong_ions) && amounts.pk_shift >= 0.0 &&
           amounts.pk_shift <= k_highest_shift;
}

using Kernel = void (*)(const BalanceTask&);

Kernel kernel_of(Lanes lanes) {
#if defined(__x86_64__)
    switch (lanes) {
        case Lanes::one:
            return solve_columns_by_one;
        case Lanes::two:
            return solve_columns_by_two;
        case Lanes::four:
            return solve_columns_by_four;
        case Lanes::eight:
            return solve_columns_by_eight;
        case Lanes::automatic:
            break;
    }
    static const Kernel k_widest = has_lanes(Lanes::eight)  ? solve_columns_by_eight
                                   : has_lanes(Lanes::four) ? solve_columns_by_four
                                   : has_lanes(Lanes::two)  ? solve_columns_by_two
                                                            : solve_columns_by_one;
    return k_widest;
#else
    static_cast<void>(lanes);
    return solve_columns_by_one;
#endif
}

// Relative weights of the forms that have given 0, 1, 2 and 3 protons.
struct Forms {
    std::array<double, 4> weight{1.0, 0.0, 0.0, 0.0};
    double sum = 1.0;
};

Forms forms_of(const BalanceModel::Steps& steps, double activity_h, double gamma, double shift) {
    Forms forms;
    double correction = steps.as_read ? 1.0 : shift / gamma;
    for (int step = 0; step < steps.count; ++step) {
        const auto at = static_cast<std::size_t>(step);
        forms.weight[at + 1] = forms.weight[at] * steps.k[at] * correction / activity_h;
        forms.sum += forms.weight[at + 1];
        // An ion of charge z has gamma^(z^2); from z to z + 1 the ratio falls by gamma^(2z + 1).
        if (!steps.as_read) correction /= gamma * gamma;
    }
    return forms;
}

double power_of_ten(double exponent) {
    return std::exp(k_ln10 * exponent);
}

}  // namespace

bool has_lanes(Lanes lanes) {
#if defined(__x86_64__)
    switch (lanes) {
        case Lanes::automatic:
        case Lanes::one:
            return true;
        case Lanes::two:
            return __builtin_cpu_supports("x86-64-v2") != 0;
        case Lanes::four:
            return __builtin_cpu_supports("x86-64-v3") != 0;
        case Lanes::eight:
            return __builtin_cpu_supports("x86-64-v4") != 0;
    }
    return false;
#else
    return lanes == Lanes::automatic || lanes == Lanes::one;
#endif
}

Medium water_at(Temperature temperature, Activity activity) {
    const double t = temperature.in_celsius();
    const double kelvin = temperature.in_kelvin();
    Medium medium;
    medium.pkw = 4470.99 / kelvin - 6.0875 + 0.01706 * kelvin;
    if (activity == Activity::davies) {
        const double permittivity = 87.740 + t * (-0.40008 + t * (9.398e-4 - 1.410e-6 * t));
        const double density = water_density(temperature) / 1000.0;
        medium.davies_a = 1.82483e6 * std::sqrt(density) * std::pow(permittivity * kelvin, -1.5);
    }
    return medium;
}

double davies_log10_gamma(double davies_a, double ionic_strength) {
    const double root = std::sqrt(ionic_strength);
    return -davies_a * (root / (1.0 + root) - 0.3 * ionic_strength);
}

// Everything but the strong ions, at one activity of H+ and one coefficient.
struct ChargeBalance::Sums {
    double h = 0.0;
    double oh = 0.0;
    double mean = 0.0;    // mol/L of negative charge on the protolytes
    double square = 0.0;  // sum of z^2 c over them
};

ChargeBalance::ChargeBalance(std::span<const Protolyte> protolytes, Medium medium) : m_davies_a(medium.davies_a) {
    m_size = std::min(protolytes.size(), k_most_protolytes);
    for (int count = 1; count <= 3; ++count) {
        for (std::size_t p = 0; p < m_size; ++p) {
            if (protolytes[p].steps != count) continue;
            m_place[p] = static_cast<std::size_t>(m_model.protolytes);
            BalanceModel::Steps& steps = m_model.steps[m_model.protolytes++];
            steps.count = count;
            steps.as_read = protolytes[p].basis == Protolyte::Basis::as_read;
            for (std::size_t step = 0; step < static_cast<std::size_t>(count); ++step)
                steps.k[step] = power_of_ten(-protolytes[p].pk[step]);
        }
    }
    for (; m_model.protolytes % 3 != 0; ++m_model.protolytes)
        m_model.steps[m_model.protolytes].count = m_model.steps[m_model.protolytes - 1].count;
    m_model.kw = power_of_ten(-medium.pkw);
    m_model.minus_a_ln10 = -medium.davies_a * k_ln10;
    m_model.highest_ionic_strength = k_highest_ionic_strength;
    m_model.guess_step = k_ln10 * k_guess_ph_step;
    const double gamma = m_davies_a > 0.0 ? k_gamma_of_guesses : 1.0;
    for (int g = 0; g < k_guesses; ++g) {
        BalanceModel::Guess& guess = m_model.guesses[g];
        guess.activity_h = power_of_ten(-(k_first_guess_ph + k_guess_ph_step * g));
        guess.inverse = 1.0 / guess.activity_h;
        guess.free_charge = guess.activity_h / gamma - m_model.kw / (guess.activity_h * gamma);
        for (int p = 0; p < m_model.protolytes; ++p) {
            const Forms forms = forms_of(m_model.steps[p], guess.activity_h, gamma, 1.0);
            for (std::size_t z = 1; z < forms.weight.size(); ++z)
                guess.mean[p] += static_cast<double>(z) * forms.weight[z] / forms.sum;
        }
    }
}

ChargeBalance::Sums ChargeBalance::sums(const Amounts& amounts, double activity_h, double gamma) const {
    Sums sums;
    sums.h = activity_h / gamma;
    sums.oh = m_model.kw / (activity_h * gamma);
    const double shift = amounts.pk_shift == 0.0 ? 1.0 : power_of_ten(-amounts.pk_shift);
    for (std::size_t p = 0; p < std::min(size(), amounts.totals.size()); ++p) {
        const Forms forms = forms_of(m_model.steps[m_place[p]], activity_h, gamma, shift);
        double mean = 0.0;
        double square = 0.0;
        for (std::size_t z = 1; z < forms.weight.size(); ++z) {
            const double share = forms.weight[z] / forms.sum;
            mean += static_cast<double>(z) * share;
            square += static_cast<double>(z * z) * share;
        }
        sums.mean += amounts.totals[p] * mean;
        sums.square += amounts.totals[p] * square;
    }
    return sums;
}

// Finds the ionic strength that fits itself, strong ions being whatever the balance asks for.
std::optional<Balance> ChargeBalance::settle(const Amounts& amounts, double ph) const {
    const double activity_h = power_of_ten(-ph);
    Balance balance;
    balance.ph = ph;
    double gamma = 1.0;
    constexpr int k_rounds = 200;
    for (int round = 0; round < k_rounds; ++round) {
        const Sums at = sums(amounts, activity_h, gamma);
        balance.strong_ions = at.mean + at.oh - at.h;
        balance.ionic_strength = amounts.inert_salt + 0.5 * (std::abs(balance.strong_ions) + at.h + at.oh + at.square);
        balance.h_mol_per_l = at.h;
        balance.gamma = gamma;
        if (m_davies_a == 0.0) return balance;
        const double counted = std::min(balance.ionic_strength, 2.0 * k_highest_ionic_strength);
        const double next = power_of_ten(davies_log10_gamma(m_davies_a, counted));
        if (std::abs(next - gamma) <= 2e-16 * gamma) return balance;
        // Close to the end rounding may swing between two neighbours.
        if (round > 60 && std::abs(next - gamma) <= 1e-14 * gamma) return balance;
        gamma = next;
    }
    return std::nullopt;
}

Result<Balance> ChargeBalance::at_ph(const Amounts& amounts, double ph) const {
    TRY_VOID(check(amounts));
    if (!(ph >= k_lowest_ph && ph <= k_highest_ph))
        return fail(ErrorKind::bad_input, "pH", number_text(ph, 2) + " is outside 0 to 14.");
    const auto balance = settle(amounts, ph);
    if (!balance || (m_davies_a > 0.0 && balance->ionic_strength > k_highest_ionic_strength))
        return refuse_ionic_strength();
    return *balance;
}

// The sure way, for what Newton does not settle: the strong ions needed rise with pH.
std::optional<double> ChargeBalance::bracketed(const Amounts& amounts) const {
    if (!check(amounts)) return std::nullopt;
    const auto surplus = [&](double ph) {
        const auto balance = settle(amounts, ph);
        return balance ? balance->strong_ions - amounts.strong_ions : std::nan("");
    };
    if (!(surplus(k_lowest_ph) <= 0.0 && surplus(k_highest_ph) >= 0.0)) return std::nullopt;
    const double ph = bracketed_root(surplus, k_lowest_ph, k_highest_ph);
    const auto found = settle(amounts, ph);
    constexpr double k_residual = 1e-12;  // mol/L
    if (!found || !(std::abs(found->strong_ions - amounts.strong_ions) <= k_residual)) return std::nullopt;
    if (m_davies_a > 0.0 && found->ionic_strength > k_highest_ionic_strength) return std::nullopt;
    return ph;
}

std::size_t ChargeBalance::solve_many(const AmountColumns& columns, double* ph, Lanes lanes) const {
    BalanceTask task{};
    task.model = &m_model;
    for (std::size_t p = 0; p < size(); ++p) task.totals[m_place[p]] = columns.totals[p];
    task.strong_ions = columns.strong_ions;
    task.inert_salt = columns.inert_salt;
    task.pk_shift = columns.pk_shift;
    task.ph = ph;
    task.count = columns.count;
    kernel_of(lanes)(task);

    std::size_t failed = 0;
    for (std::size_t i = 0; i < columns.count; ++i) {
        if (!std::isnan(ph[i])) continue;
        std::array<double, k_most_protolytes> totals{};
        for (std::size_t p = 0; p < size(); ++p) totals[p] = columns.totals[p] == nullptr ? 0.0 : columns.totals[p][i];
        Amounts amounts;
        amounts.totals = std::span(totals).first(size());
        amounts.strong_ions = columns.strong_ions[i];
        amounts.inert_salt = columns.inert_salt == nullptr ? 0.0 : columns.inert_salt[i];
        amounts.pk_shift = columns.pk_shift == nullptr ? 0.0 : columns.pk_shift[i];
        if (const auto found = bracketed(amounts))
            ph[i] = *found;
        else
            ++failed;
    }
    return failed;
}

Result<double> ChargeBalance::ph(const Amounts& amounts) const {
    if (!possible(amounts)) TRY_VOID(check(amounts));
    BalanceTask task{};
    task.model = &m_model;
    for (std::size_t p = 0; p < size(); ++p) task.totals[m_place[p]] = &amounts.totals[p];
    task.strong_ions = &amounts.strong_ions;
    if (amounts.inert_salt > 0.0) task.inert_salt = &amounts.inert_salt;
    if (amounts.pk_shift > 0.0) task.pk_shift = &amounts.pk_shift;
    double ph = 0.0;
    task.ph = &ph;
    task.count = 1;
    solve_columns_by_one(task);
    if (!std::isnan(ph)) return ph;
    if (const auto found = bracketed(amounts)) return *found;
    const auto in_the_middle = settle(amounts, 7.0);
    if (m_davies_a > 0.0 && (!in_the_middle || std::abs(amounts.strong_ions) > k_highest_ionic_strength ||
                             in_the_middle->ionic_strength > k_highest_ionic_strength))
        return refuse_ionic_strength();
    return fail(ErrorKind::outside_model, "pH", "would lie outside 0 to 14, or beyond the activity law of Davies.");
}

Result<Balance> ChargeBalance::solve(const Amounts& amounts) const {
    TRY(const double found, ph(amounts));
    return at_ph(amounts, found);
}

double ChargeBalance::weak_charge(const Amounts& amounts, double ph, double ionic_strength) const {
    const double gamma = m_davies_a == 0.0 ? 1.0 : power_of_ten(davies_log10_gamma(m_davies_a, ionic_strength));
    const Sums at = sums(amounts, power_of_ten(-ph), gamma);
    return at.h - at.oh - at.mean;
}

double ChargeBalance::share(std::size_t index, int given, const Balance& at, double pk_shift) const {
    const Forms forms =
        forms_of(m_model.steps[m_place[index]], power_of_ten(-at.ph), at.gamma, power_of_ten(-pk_shift));
    return forms.weight[static_cast<std::size_t>(given)] / forms.sum;
}

}  // namespace undercroft::chem

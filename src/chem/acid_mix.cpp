#include "chem/acid_mix.hpp"

#include <algorithm>
#include <cmath>

#include "units/amount.hpp"

namespace undercroft::chem {

namespace {

constexpr double k_low_pks[] = {3.8, 4.9};
constexpr double k_high_pk = 6.6;
constexpr std::size_t k_buffer_groups = 3;
constexpr std::size_t k_totals = k_acids + k_buffer_groups;
constexpr double k_highest_abv = 15.0;

ChargeBalance balance_at(const AcidConditions& conditions) {
    std::array<Protolyte, k_totals> protolytes;
    for (std::size_t i = 0; i < k_acids; ++i) {
        const Acid acid = k_all_acids[i];
        protolytes[i].steps = constants_of(acid).protons;
        for (int step = 1; step <= protolytes[i].steps; ++step)
            protolytes[i].pk[static_cast<std::size_t>(step - 1)] = pk_of(acid, step, conditions.temperature);
    }
    const double groups[k_buffer_groups] = {k_low_pks[0], k_low_pks[1], k_high_pk};
    for (std::size_t i = 0; i < k_buffer_groups; ++i) {
        protolytes[k_acids + i].pk[0] = groups[i];
        protolytes[k_acids + i].basis = Protolyte::Basis::as_read;
    }
    return ChargeBalance(protolytes, water_at(conditions.temperature, conditions.activity));
}

using Totals = std::array<double, k_totals>;

Totals totals_of(const AcidMix& mix) {
    Totals totals{};
    std::copy(mix.acids.begin(), mix.acids.end(), totals.begin());
    totals[k_acids] = 0.5 * mix.buffer.low;
    totals[k_acids + 1] = 0.5 * mix.buffer.low;
    totals[k_acids + 2] = mix.buffer.high;
    return totals;
}

Amounts amounts_of(const AcidMix& mix, const Totals& totals) {
    return {totals, mix.strong_ions, mix.inert_salt, k_pk_per_abv * mix.abv};
}

double share_without_proton(double pk, double ph) {
    return 1.0 / (1.0 + std::pow(10.0, pk - ph));
}

AcidMix without_gas(AcidMix mix) {
    mix[Acid::carbonic] = 0.0;
    return mix;
}

Result<void> check_range(const AcidConditions& conditions, const AcidMix& mix) {
    const double t = conditions.temperature.in_celsius();
    if (!(t >= 0.0 && t <= 40.0))
        return fail(ErrorKind::outside_model, "temperature",
                    text_of(conditions.temperature) + " is outside 0 to 40 °C, where the constants of the acids hold.");
    if (!(mix.abv >= 0.0 && mix.abv <= k_highest_abv))
        return fail(
            ErrorKind::outside_model, "alcohol",
            number_text(mix.abv, 1) + " % vol is outside 0 to 15 % vol, where its effect on the acids was measured.");
    return {};
}

}  // namespace

BufferCapacities capacities_of(const LumpedBuffer& buffer) {
    const auto charge = [&](double ph) {
        return 0.5 * buffer.low * (share_without_proton(k_low_pks[0], ph) + share_without_proton(k_low_pks[1], ph)) +
               buffer.high * share_without_proton(k_high_pk, ph);
    };
    return {(charge(5.0) - charge(3.0)) / 2.0, (charge(8.2) - charge(5.0)) / 3.2};
}

std::string basis_text(const AcidConditions& conditions) {
    return "pH at " + text_of(conditions.temperature) +
           (conditions.activity == Activity::davies ? ", activity of H+ by Davies" : ", concentration of H+");
}

AcidSystem::AcidSystem(const AcidConditions& conditions)
    : m_conditions(conditions), m_balance(balance_at(conditions)) {}

Result<AcidState> AcidSystem::state(const AcidMix& mix) const {
    TRY_VOID(check_range(m_conditions, mix));
    const Totals totals = totals_of(mix);
    TRY(const Balance balance, m_balance.solve(amounts_of(mix, totals)));
    AcidState state;
    state.ph = balance.ph;
    state.h_mol_per_l = balance.h_mol_per_l;
    state.ionic_strength = balance.ionic_strength;
    // By difference: the base itself adds to the ionic strength.
    constexpr double k_step = 1e-4;
    const auto above = m_balance.at_ph(amounts_of(mix, totals), std::min(14.0, balance.ph + k_step));
    const auto below = m_balance.at_ph(amounts_of(mix, totals), std::max(0.0, balance.ph - k_step));
    // At the very end of the activity law one of the two is beyond it.
    const Balance& high = above ? *above : balance;
    const Balance& low = below ? *below : balance;
    state.capacity = (high.strong_ions - low.strong_ions) / (high.ph - low.ph);
    state.sourness = balance.h_mol_per_l;
    const double shift = k_pk_per_abv * mix.abv;
    for (std::size_t i = 0; i < k_acids; ++i) {
        const AcidConstants& constants = constants_of(k_all_acids[i]);
        state.undissociated[i] = m_balance.share(i, 0, balance, shift);
        state.protonated[i] = 1.0 - m_balance.share(i, constants.protons, balance, shift);
        if (constants.organic) state.sourness += mix.acids[i] * state.protonated[i];
    }
    return state;
}

Result<double> AcidSystem::ph(const AcidMix& mix) const {
    TRY_VOID(check_range(m_conditions, mix));
    const Totals totals = totals_of(mix);
    return m_balance.ph(amounts_of(mix, totals));
}

Result<double> AcidSystem::strong_ions_to_ph(const AcidMix& mix, double ph) const {
    TRY_VOID(check_range(m_conditions, mix));
    const Totals totals = totals_of(mix);
    TRY(const Balance balance, m_balance.at_ph(amounts_of(mix, totals), ph));
    return balance.strong_ions - mix.strong_ions;
}

Result<double> AcidSystem::titratable(const AcidMix& mix, double end_ph) const {
    return strong_ions_to_ph(without_gas(mix), end_ph);
}

Result<AcidMix> AcidSystem::with_ph(const AcidMix& mix, double ph) const {
    TRY(const double missing, strong_ions_to_ph(mix, ph));
    AcidMix result = mix;
    result.strong_ions += missing;
    return result;
}

std::size_t AcidSystem::ph_of_many(std::span<const AcidMix> mixes, std::span<double> ph, Lanes lanes) const {
    // In blocks that stay in the nearest cache, turned from rows to columns.
    constexpr std::size_t k_block = 128;
    constexpr std::size_t k_columns = k_totals + 3;
    std::array<std::array<double, k_block>, k_columns> columns;
    AmountColumns view;
    for (std::size_t p = 0; p < k_totals; ++p) view.totals[p] = columns[p].data();
    view.strong_ions = columns[k_totals].data();
    view.inert_salt = columns[k_totals + 1].data();
    view.pk_shift = columns[k_totals + 2].data();
    std::size_t failed = 0;
    const std::size_t count = std::min(mixes.size(), ph.size());
    for (std::size_t begin = 0; begin < count; begin += k_block) {
        view.count = std::min(k_block, count - begin);
        for (std::size_t i = 0; i < view.count; ++i) {
            const AcidMix& mix = mixes[begin + i];
            const Totals totals = totals_of(mix);
            for (std::size_t p = 0; p < k_totals; ++p) columns[p][i] = totals[p];
            // A liquid outside the range must fail here as it does alone.
            columns[k_totals][i] = check_range(m_conditions, mix) ? mix.strong_ions : std::nan("");
            columns[k_totals + 1][i] = mix.inert_salt;
            columns[k_totals + 2][i] = k_pk_per_abv * mix.abv;
        }
        failed += m_balance.solve_many(view, ph.data() + begin, lanes);
    }
    return failed;
}

double AcidSystem::charge(const AcidMix& mix, const BlendPoint& at) const {
    const Totals totals = totals_of(mix);
    Amounts amounts = amounts_of(mix, totals);
    amounts.pk_shift = k_pk_per_abv * at.abv;
    return mix.strong_ions + m_balance.weak_charge(amounts, at.ph, at.ionic_strength);
}

Result<AcidMix> blend(std::span<const BlendPart> parts) {
    double litres = 0.0;
    for (const BlendPart& part : parts) {
        if (!(part.litres >= 0.0 && std::isfinite(part.litres)))
            return fail(ErrorKind::bad_input, "volume", number_text(part.litres, 2) + " L cannot be poured.");
        litres += part.litres;
    }
    if (!(litres > 0.0)) return fail(ErrorKind::bad_input, "volume", "Nothing is poured, so there is no blend.");
    AcidMix whole;
    for (const BlendPart& part : parts) {
        const double share = part.litres / litres;
        for (std::size_t i = 0; i < k_acids; ++i) whole.acids[i] += share * part.mix.acids[i];
        whole.buffer.low += share * part.mix.buffer.low;
        whole.buffer.high += share * part.mix.buffer.high;
        whole.strong_ions += share * part.mix.strong_ions;
        whole.inert_salt += share * part.mix.inert_salt;
        whole.abv += share * part.mix.abv;
    }
    return whole;
}

AcidMix mix_of(const FruitAcids& fruit, double litres) {
    constexpr double k_potassium_g_per_mol = 39.098;
    AcidMix mix;
    mix.set_g_per_l(Acid::citric, fruit.citric_g / litres);
    mix.set_g_per_l(Acid::malic, fruit.malic_g / litres);
    mix.set_g_per_l(Acid::tartaric, fruit.tartaric_g / litres);
    mix.strong_ions = fruit.potassium_g / k_potassium_g_per_mol / litres;
    return mix;
}

}  // namespace undercroft::chem

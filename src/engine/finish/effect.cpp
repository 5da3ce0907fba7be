#include "engine/finish/effect.hpp"

#include <cmath>

namespace undercroft::engine::finish {

namespace {

const double k_ln10 = std::log(10.0);

double come_by(double t90, double days) {
    return 1.0 - std::exp(-k_ln10 * days / t90);
}

bool is_time(const tables::Technique& technique) {
    return technique.kind == tables::TechniqueKind::time || technique.kind == tables::TechniqueKind::rest;
}

}  // namespace

bool applies(const tables::Effect& effect, bool sour) {
    return effect.applies_to == tables::AppliesTo::both ||
           effect.applies_to == (sour ? tables::AppliesTo::sour : tables::AppliesTo::clean);
}

double days_of(const tables::Technique& technique, double amount) {
    using U = tables::TechniqueDose;
    constexpr double k_days_in_month = 365.25 / 12.0;
    switch (technique.dose_unit) {
        case U::days:
            return amount;
        case U::weeks:
            return 7.0 * amount;
        case U::months:
            return k_days_in_month * amount;
        case U::none:
        case U::g_per_l:
        case U::percent:
        case U::volumes:
            return technique.days_typical;
    }
    return technique.days_typical;
}

double dose_factor(const tables::Effect& effect, double amount) {
    switch (effect.dose_form) {
        case tables::DoseForm::none:
            return 1.0;
        case tables::DoseForm::linear:
            return amount / effect.dose_mid;
        case tables::DoseForm::saturating:
            return (amount / (amount + effect.half_dose)) / (effect.dose_mid / (effect.dose_mid + effect.half_dose));
    }
    return 1.0;
}

double time_factor(const tables::Effect& effect, const tables::Technique& technique, double days) {
    if (effect.time_form != tables::TimeForm::first_order) return 1.0;
    const double whole = is_time(technique) ? come_by(effect.t90_days, days_of(technique, effect.dose_mid)) : 1.0;
    return come_by(effect.t90_days, days) / whole;
}

bool has_chemistry(const tables::Effect& effect) {
    return std::abs(effect.mean_total - effect.mean_beyond) > 1e-9;
}

Figure change_of(const tables::Effect& effect, const tables::Technique& technique, const Dose& dose,
                 const Quantities& beer, const ByChemistry* chemistry) {
    const double factor = dose_factor(effect, dose.amount) * time_factor(effect, technique, dose.days);
    if (chemistry != nullptr && has_chemistry(effect))
        return {effect.mean_beyond * factor + chemistry->points, std::hypot(effect.sd_beyond * factor, chemistry->sd)};
    double mean = effect.mean_total;
    if (const auto on = beer.find(effect.depends_on); on != beer.end())
        mean += effect.depends_slope * (on->second - effect.depends_ref);
    return {mean * factor, effect.sd_total * factor};
}

std::map<std::string, Figure> changes_of(const std::vector<tables::Effect>& effects, const tables::Technique& technique,
                                         const Dose& dose, bool sour, const Quantities& beer,
                                         const std::map<std::string, ByChemistry>& chemistry) {
    std::map<std::string, Figure> changes;
    for (const auto& [attribute, by] : chemistry) changes[attribute] = {by.points, std::hypot(by.sd, k_tasting_noise)};
    for (const tables::Effect& effect : effects) {
        if (effect.technique != technique.id || effect.way != technique.way || !applies(effect, sour)) continue;
        const auto by = chemistry.find(effect.attribute);
        changes[effect.attribute] =
            change_of(effect, technique, dose, beer, by == chemistry.end() ? nullptr : &by->second);
    }
    return changes;
}

}  // namespace undercroft::engine::finish

#include "engine/finish/chemistry.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "chem/acid_dose.hpp"
#include "chem/bitterness.hpp"
#include "engine/fruit/plan.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::finish {

namespace {

using tables::TechniqueKind;

constexpr double k_lactic_g_per_mol = 90.078;
constexpr double k_fruit_acid_sd = 0.25;           // of it: cultivars, ripeness (data/README.md: 20 to 30 %)
constexpr double k_creep_abv_per_g_per_l = 0.13;   // near 10 g/L, from memory; at most 1.3 % vol
constexpr double k_most_creep_abv = 1.3;           // Kirkpatrick & Shellhammer 2018, quoted in public
constexpr double k_most_creep_volumes = 4.75;      // from memory of the same
constexpr double k_gravity_per_abv = 0.0077;       // of creep: 1.18 % vol are 1.9 P of real extract (derived)
constexpr double k_volumes_per_g_sucrose = 0.260;  // derived: 0.5143 g CO2 a gram
constexpr double k_sg_per_g_per_l = 0.000386;      // of sucrose, near water

class Worked {
public:
    Worked(const tables::Tables& tables, const Portion& portion) : m_tables(tables), m_portion(portion) {
        m_out.litres = portion.beer.litres;
        m_out.least_vessel_litres = portion.beer.litres;
        for (const auto& [figure, value] : portion.beer.figures)
            if (!tables.find_attribute(figure)) m_out.figures[figure] = value;
        if (portion.beer.acids) {
            const auto ph = m_system.ph(*portion.beer.acids);
            if (ph) m_out.figures[blend::k_ph] = {*ph, portion.beer.ph_sd};
        }
    }

    Result<Chemistry> by(const tables::Technique& technique, const Dose& dose) {
        switch (technique.kind) {
            case TechniqueKind::fruit:
                TRY_VOID(fruit(technique, dose));
                break;
            case TechniqueKind::acid:
                TRY_VOID(doser(chem::Doser::lactic_acid, dose.amount));
                break;
            case TechniqueKind::base:
                TRY_VOID(doser(chem::Doser::potassium_bicarbonate, dose.amount));
                break;
            case TechniqueKind::dry_hop:
                TRY_VOID(hops(dose.amount));
                break;
            case TechniqueKind::dilute:
                TRY_VOID(water(dose.amount));
                break;
            case TechniqueKind::sweeten:
                if (technique.dose_unit == tables::TechniqueDose::g_per_l) sugar(dose.amount);
                break;
            case TechniqueKind::carbonate:
                m_out.points["fizz"] = by_slope("fizz", dose.amount, 0.1);
                m_out.gas_expected = m_out.gas_worst = dose.amount;
                break;
            case TechniqueKind::time:
                fade(days_of(technique, dose.amount));
                break;
            case TechniqueKind::blend:
                // Whatever it meets is not known here.
                widen("ta", 1.0);
                widen(blend::k_ph, 0.15);
                widen("alcohol", 0.5);
                break;
            case TechniqueKind::leave:
            case TechniqueKind::rest:
            case TechniqueKind::spice:
            case TechniqueKind::oak:
            case TechniqueKind::rescue:
                break;
        }
        return std::move(m_out);
    }

private:
    [[nodiscard]] std::optional<Figure> before(const char* figure) const {
        const auto found = m_portion.beer.figures.find(figure);
        if (found == m_portion.beer.figures.end()) return std::nullopt;
        return found->second;
    }

    [[nodiscard]] ByChemistry by_slope(const char* attribute, double change, double sd) const {
        const auto row = m_tables.find_attribute(attribute);
        const double slope = row ? (*row)->chem_slope.value_or(0.0) : 0.0;
        return {slope * change, std::abs(slope) * sd};
    }

    void widen(const char* figure, double sd) {
        if (const auto found = m_out.figures.find(figure); found != m_out.figures.end())
            found->second.sd = std::hypot(found->second.sd, sd);
    }

    // The acids as they are now; what the readings were off by stays.
    Result<void> tell_acids(const chem::AcidMix& mix, double ta_change_sd) {
        TRY(const double ta_before, m_system.titratable(*m_portion.beer.acids));
        TRY(const double ta_after, m_system.titratable(mix));
        TRY(const double ph, m_system.ph(mix));
        const double change = (ta_after - ta_before) * k_lactic_g_per_mol;
        const auto ta = before("ta");
        m_out.figures["ta"] = {(ta ? ta->mean : ta_before * k_lactic_g_per_mol) + change,
                               std::hypot(ta ? ta->sd : 1.5, ta_change_sd)};
        m_out.figures[blend::k_ph] = {ph, std::hypot(m_portion.beer.ph_sd, 0.05)};
        m_out.points["sourness"] = by_slope("sourness", change, ta_change_sd);
        m_out.words.push_back("acidity " +
                              (change < 0.0 ? "-" + number_text(-change, 1) : "+" + number_text(change, 1)) +
                              " g/L to " + number_text(m_out.figures["ta"].mean, 1) + " g/L, pH " + number_text(ph, 2));
        return {};
    }

    // Everything that was in the beer, thinned: `share` of the new volume is the old beer.
    void thin(double share) {
        for (const char* figure : {"ibu", "colour", "extract"})
            if (const auto found = m_out.figures.find(figure); found != m_out.figures.end()) {
                found->second.mean *= share;
                found->second.sd *= share;
            }
        if (const auto ibu = before("ibu"))
            m_out.points["bitterness"] = by_slope("bitterness", ibu->mean * (share - 1.0), ibu->sd * (1.0 - share));
    }

    void alcohol_to(double abv, double sd) {
        const auto was = before("alcohol");
        m_out.figures["alcohol"] = {abv, std::hypot(was ? was->sd : 0.3, sd)};
        if (was) m_out.points["warmth"] = by_slope("warmth", abv - was->mean, sd);
    }

    Result<void> fruit(const tables::Technique& technique, const Dose& dose) {
        TRY(const tables::Fruit* row, m_tables.find_fruit(technique.data_row));
        const double litres = m_portion.beer.litres;
        fruit::FruitOptions options;
        if (m_portion.sorbate_in_fruit) options.sorbate = fruit::Sorbate::on_label;
        const Mass bought = Mass::from_grams(dose.amount * litres);
        TRY(const fruit::FruitAddition addition, fruit::resolve(m_tables, *row, bought, options));
        fruit::Beer beer;
        beer.volume = Volume::from_litres(litres);
        const auto gravity = before("gravity");
        const auto alcohol = before("alcohol");
        beer.gravity = gravity ? gravity->mean : m_portion.beer.gravity.value_or(1.006);
        beer.abv = alcohol ? alcohol->mean : 5.0;
        beer.cultures = m_portion.beer.cultures;
        const fruit::Way way =
            technique.way == tables::FruitWay::onto_beer ? fruit::Way::onto_beer : fruit::Way::pre_fermented;
        TRY(const fruit::FruitPlan plan,
            fruit::plan(m_tables, addition, beer, way,
                        Day(std::chrono::year(2000), std::chrono::January, std::chrono::day(1))));
        m_out.litres = plan.final_volume.in_litres();
        m_out.least_vessel_litres = plan.least_vessel.in_litres();
        m_out.gas_expected = plan.gas_if_closed_volumes;
        m_out.gas_worst = plan.gas_worst_volumes;
        m_out.cautions = plan.cautions;
        m_out.cautions.insert(m_out.cautions.end(), addition.cautions.begin(), addition.cautions.end());
        const double mixed = plan.mixed_volume.in_litres();
        thin(litres / mixed);
        alcohol_to(plan.final_abv, 0.2);
        m_out.figures["gravity"] = {plan.final_gravity, std::hypot(gravity ? gravity->sd : 0.002, 0.0005)};
        m_out.words.push_back("alcohol " + number_text(beer.abv, 1) + " to " + number_text(plan.final_abv, 1) +
                              " % vol, " + number_text(m_out.litres, 1) + " L of " + number_text(litres, 1) + " L");
        if (!m_portion.beer.acids) return {};
        chem::FruitAcids brought{addition.contents.citric.value_or(0.0), addition.contents.malic.value_or(0.0),
                                 addition.contents.tartaric.value_or(0.0), addition.contents.potassium.value_or(0.0)};
        const double water = std::max(mixed - litres, 1e-3);
        chem::AcidMix fruit_mix = chem::mix_of(brought, water);
        const bool bacteria = has_bacteria(m_portion);
        const double taken = bacteria                           ? k_malic_taken_by_bacteria
                             : way == fruit::Way::pre_fermented ? k_malic_taken_by_yeast
                                                                : 0.0;
        const double gone = taken * fruit_mix[chem::Acid::malic];
        fruit_mix[chem::Acid::malic] -= gone;
        if (bacteria) fruit_mix[chem::Acid::lactic] += gone;  // mol for mol, and CO2
        const std::array<chem::BlendPart, 2> parts{chem::BlendPart{*m_portion.beer.acids, litres},
                                                   chem::BlendPart{fruit_mix, water}};
        TRY(chem::AcidMix after, chem::blend(parts));
        after.abv = std::clamp(plan.final_abv, 0.0, 15.0);
        const double acid_g_per_l = addition.acid_meq * 1e-3 * k_lactic_g_per_mol / mixed;
        return tell_acids(after, k_fruit_acid_sd * acid_g_per_l);
    }

    Result<void> doser(chem::Doser what, double g_per_l) {
        if (!m_portion.beer.acids) return {};
        return tell_acids(chem::dosed(*m_portion.beer.acids, what, 1.0, g_per_l), 0.05 * g_per_l);
    }

    Result<void> hops(double g_per_l) {
        const double creep = std::min(k_creep_abv_per_g_per_l * g_per_l, k_most_creep_abv);
        m_out.gas_expected = k_most_creep_volumes * creep / k_most_creep_abv;
        m_out.gas_worst = k_most_creep_volumes;
        if (const auto alcohol = before("alcohol")) alcohol_to(alcohol->mean + creep / 2.0, creep / 2.0);
        if (const auto gravity = before("gravity"))
            m_out.figures["gravity"] = {gravity->mean - k_gravity_per_abv * creep / 2.0,
                                        std::hypot(gravity->sd, k_gravity_per_abv * creep / 2.0)};
        m_out.words.push_back("hops may ferment up to " + number_text(creep, 1) + " % vol more");
        if (!m_portion.beer.acids) return {};
        chem::AcidMix mix = *m_portion.beer.acids;
        mix.strong_ions += g_per_l * chem::k_hop_base_per_g;
        return tell_acids(mix, 0.33 * g_per_l * chem::k_hop_base_per_g * k_lactic_g_per_mol);
    }

    Result<void> water(double percent) {
        const double share = 1.0 - percent / 100.0;
        m_out.litres = m_portion.beer.litres / share;
        m_out.least_vessel_litres = m_out.litres;
        thin(share);
        if (const auto alcohol = before("alcohol")) alcohol_to(alcohol->mean * share, 0.0);
        if (const auto gravity = before("gravity"))
            m_out.figures["gravity"] = {1.0 + (gravity->mean - 1.0) * share, gravity->sd * share};
        if (!m_portion.beer.acids) return {};
        const std::array<chem::BlendPart, 2> parts{chem::BlendPart{*m_portion.beer.acids, share},
                                                   chem::BlendPart{chem::AcidMix{}, 1.0 - share}};
        TRY(const chem::AcidMix after, chem::blend(parts));
        return tell_acids(after, 0.0);
    }

    void sugar(double g_per_l) {
        if (const auto gravity = before("gravity"))
            m_out.figures["gravity"] = {gravity->mean + k_sg_per_g_per_l * g_per_l, gravity->sd};
        m_out.points["sweetness"] = by_slope("sweetness", g_per_l, 0.0);
        m_out.gas_expected = m_out.gas_worst = k_volumes_per_g_sucrose * g_per_l;
    }

    void fade(double days) {
        constexpr double k_days_in_year = 365.25;
        const auto ibu = before("ibu");
        if (!ibu) return;
        const auto left = chem::bitterness_left(days / k_days_in_year, Temperature::from_celsius(15.0));
        if (left) m_out.figures["ibu"] = {ibu->mean * left->by_half_lives, std::hypot(ibu->sd, 0.1 * ibu->mean)};
    }

    const tables::Tables& m_tables;
    const Portion& m_portion;
    const chem::AcidSystem m_system;
    Chemistry m_out;
};

}  // namespace

bool has_bacteria(const Portion& portion) {
    return std::any_of(portion.beer.cultures.begin(), portion.beer.cultures.end(), [](const tables::CultureKind* one) {
        return one->group == tables::CultureGroup::bacteria || one->group == tables::CultureGroup::mixed ||
               one->group == tables::CultureGroup::unknown;
    });
}

Result<Chemistry> chemistry_of(const tables::Tables& tables, const Portion& portion, const tables::Technique& technique,
                               const Dose& dose) {
    return Worked(tables, portion).by(technique, dose);
}

}  // namespace undercroft::engine::finish

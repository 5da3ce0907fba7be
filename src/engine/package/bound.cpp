#include "engine/package/bound.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string>
#include <utility>

#include "chem/alcohol.hpp"
#include "chem/ethanol_water.hpp"
#include "chem/extract.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::package {

namespace {

// Taken where nobody said: stronger beer dissolves less, so this is on the safe side of nearly all.
constexpr double k_unsaid_abv = 10.0;
constexpr double k_unsaid_extract_g_per_l = 60.0;
constexpr double k_most_extract_g_per_l = 200.0;  // of the solubility relation
constexpr double k_sds_of_doubt = 2.0;
// Hop creep at any dose: the enzyme is a catalyst. +1.3 % vol by 40 days (Kirkpatrick & Shellhammer 2018, secondary).
constexpr double k_most_creep_abv = 1.3;

bool within(double value, double low, double high) {
    return value >= low && value <= high;
}

Result<void> check_amounts(const GasQuestion& question) {
    for (const auto& [name, value] : std::initializer_list<std::pair<const char*, double>>{
             {"priming", question.priming_g_per_l},
             {"malic acid", question.malic_g_per_l},
             {"citric acid", question.citric_g_per_l},
             {"sorbitol", question.sorbitol_g_per_l},
             {"fruit sugar", question.fruit_sugar_g_per_l},
             {"dissolved CO2", question.measured_co2_g_per_l.value_or(0.0)}}) {
        if (!within(value, 0.0, 1000.0)) {
            return fail(ErrorKind::bad_input, name,
                        number_text(value, 1) + " g/L cannot be; it is zero or more, and below 1000 g/L.");
        }
    }
    return {};
}

Result<void> check_strength(const GasQuestion& question) {
    if (question.gravity &&
        !(within(question.gravity->mean, 0.980, 1.200) && within(question.gravity->sd, 0.0, 0.05))) {
        return fail(ErrorKind::bad_input, "gravity",
                    number_text(question.gravity->mean, 4) + " ± " + number_text(question.gravity->sd, 4) +
                        " cannot be a beer's gravity; it is 0.980 to 1.200, and its doubt at most 0.05.");
    }
    if (question.original_gravity) {
        const double original = *question.original_gravity;
        if (!within(original, 1.0, 1.200)) {
            return fail(ErrorKind::bad_input, "original gravity",
                        number_text(original, 4) + " cannot be; it is 1.000 to 1.200.");
        }
        if (question.gravity && question.gravity->mean > original) {
            return fail(ErrorKind::bad_input, "original gravity",
                        number_text(original, 4) + " is below the gravity now, " +
                            number_text(question.gravity->mean, 4) + "; one of the two is wrong.");
        }
    }
    if (question.gravity && question.evidence && question.evidence->forced) {
        const Gravity& forced = *question.evidence->forced;
        if (forced.mean > question.gravity->mean + k_sds_of_doubt * std::hypot(question.gravity->sd, forced.sd)) {
            return fail(ErrorKind::bad_input, "forced",
                        "The forced test came to rest at " + number_text(forced.mean, 4) + ", above the gravity now, " +
                            number_text(question.gravity->mean, 4) + "; one of the two is wrong.");
        }
    }
    if (question.abv && !within(*question.abv, 0.0, 20.0)) {
        return fail(ErrorKind::outside_model, "alcohol",
                    number_text(*question.abv, 1) + " % vol is outside 0 to 20 % vol, where gas can be worked out.");
    }
    if (question.extract_g_per_l && !within(*question.extract_g_per_l, 0.0, k_most_extract_g_per_l)) {
        return fail(
            ErrorKind::outside_model, "extract",
            number_text(*question.extract_g_per_l, 0) + " g/L is outside 0 to 200 g/L, where gas can be worked out.");
    }
    return {};
}

struct Strength {
    double abv = k_unsaid_abv;
    double extract_g_per_l = k_unsaid_extract_g_per_l;
    double original_gravity = 1.0;
    bool known = true;
};

double upper_gravity(const Gravity& gravity) {
    return gravity.mean + k_sds_of_doubt * gravity.sd;
}

Strength strength_of(const GasQuestion& question) {
    Strength strength;
    if (question.gravity) {
        chem::Composition now;
        if (question.abv || !question.original_gravity) {
            now = chem::composition_from_gravity_and_abv(question.gravity->mean, question.abv.value_or(k_unsaid_abv));
        } else {
            now = chem::composition_of(*question.original_gravity, question.gravity->mean);
        }
        strength.abv =
            question.abv.value_or(question.original_gravity ? std::min(chem::abv_of(now), 20.0) : k_unsaid_abv);
        strength.extract_g_per_l = std::min(now.real_extract_g_per_l, k_most_extract_g_per_l);
        // With neither original gravity nor alcohol it might be wort that has hardly begun.
        const double upper = upper_gravity(*question.gravity);
        strength.known = question.original_gravity || question.abv;
        strength.original_gravity = upper;
        if (question.original_gravity) {
            strength.original_gravity = *question.original_gravity;
        } else if (question.abv) {
            strength.original_gravity = std::max(upper, chem::gravity_of_plato(chem::original_extract_of(now)));
        }
    } else {
        strength.abv = question.abv.value_or(k_unsaid_abv);
    }
    strength.extract_g_per_l = question.extract_g_per_l.value_or(strength.extract_g_per_l);
    return strength;
}

std::string per_point() {
    return number_text(chem::k_volumes_per_gravity_point_safety, 2) + " vol per 0.001";
}

bool is_bacteria(const tables::CultureKind& kind) {
    return kind.group == tables::CultureGroup::bacteria;
}

bool may_hold_bacteria(const tables::CultureKind& kind) {
    return is_bacteria(kind) || kind.group == tables::CultureGroup::mixed ||
           kind.group == tables::CultureGroup::unknown;
}

// Bacteria and Brettanomyces may; an ordinary beer or wine yeast does not.
bool may_take_sorbitol(const tables::CultureKind& kind) {
    return may_hold_bacteria(kind) || kind.diastatic == tables::DiastaticType::dextrins_slowly ||
           kind.diastatic == tables::DiastaticType::unknown;
}

double most_hop_creep_volumes() {
    return chem::co2_volumes_of_g_per_l(k_most_creep_abv / 100.0 * chem::k_ethanol_density_at_20 *
                                        chem::k_co2_per_hexose / chem::k_ethanol_per_hexose);
}

class Counting {
public:
    Counting(const GasQuestion& question, const Strength& strength, const tables::CultureKind& wild, GasBound& bound)
        : m_question(question), m_strength(strength), m_wild(wild), m_bound(bound) {
        for (const tables::CultureKind* kind : bound.cultures) {
            if (kind->makes_gas()) m_live.push_back(kind);
        }
        m_bound.alive = !m_live.empty();
    }

    void count() {
        add_dissolved();
        add_priming();
        add_fermentables();
        add_fruit_sugar();
        add_acid("malic acid", m_question.malic_g_per_l, malic_factor(), malic_how());
        add_acid("citric acid", m_question.citric_g_per_l, any(may_hold_bacteria) ? chem::k_co2_per_citric_worst : 0.0,
                 any(may_hold_bacteria) ? "live bacteria may make two CO2 of it" : "no bacteria possible");
        add_acid("sorbitol", m_question.sorbitol_g_per_l, any(may_take_sorbitol) ? chem::k_co2_per_sorbitol_worst : 0.0,
                 any(may_take_sorbitol) ? "worst case: a mixed culture may take it"
                                        : "none of the cultures possible takes it");
        add_hop_creep();
    }

private:
    template <class Predicate>
    [[nodiscard]] bool any(Predicate predicate) const {
        return std::any_of(m_live.begin(), m_live.end(), [&](const auto* kind) { return predicate(*kind); });
    }

    void add(const char* name, double volumes, std::string how, const char* source) {
        m_bound.terms.push_back({name, volumes, "vol", std::move(how), source});
        m_bound.volumes += volumes;
        m_bound.to_come += volumes;
    }

    void add_dissolved() {
        double g_per_l = 0.0;
        std::string how;
        if (m_question.measured_co2_g_per_l) {
            g_per_l = *m_question.measured_co2_g_per_l;
            how = "measured: " + number_text(g_per_l, 2) + " g/L / 1.9768 g/L";
        } else {
            const Temperature warmest = m_question.warmest_since_finished;
            g_per_l = chem::co2_left_after_fermentation(warmest, m_question.ambient);
            how = "what stays at " + text_of(warmest) + ", the warmest since it finished";
            if (m_question.coolest_while_working) {
                const Temperature coolest = *m_question.coolest_while_working;
                const double working = chem::co2_left_after_fermentation(coolest, m_question.ambient);
                if (working > g_per_l) {
                    g_per_l = working;
                    how = "what stays at " + text_of(coolest) + ", the coolest while it worked: more than at " +
                          text_of(warmest);
                }
            }
            how += ", air pressure " + number_text(m_question.ambient.in_bar(), 3) + " bar; not measured";
        }
        add("dissolved already", chem::co2_volumes_of_g_per_l(g_per_l), std::move(how),
            "fit common in the trade, no single source");
        m_bound.to_come = 0.0;
    }

    void add_priming() {
        const double factor = chem::co2_in_theory(m_question.priming_sugar);
        std::string how = number_text(m_question.priming_g_per_l, 2) + " g/L x " + number_text(factor, 4) +
                          " g CO2 per g / 1.9768 g/L";
        if (!m_bound.alive && m_question.priming_g_per_l > 0.0) how += "; counted though nothing alive is known";
        add("priming sugar", chem::co2_volumes_of_g_per_l(m_question.priming_g_per_l * factor), std::move(how),
            "stoichiometry, nothing lost to growth");
    }

    void add_fermentables() {
        static constexpr const char* k_source =
            "long dextrins fermented without growth (derived); lowest gravities: data/cultures.csv";
        if (!m_question.gravity) {
            m_bound.complete = false;
            add("fermentables left", 0.0, "gravity not read: NOT counted, so the total is too low", k_source);
            return;
        }
        const double upper = upper_gravity(*m_question.gravity);
        const tables::CultureKind* strongest = nullptr;
        double lowest = upper;
        for (const tables::CultureKind* kind : m_live) {
            const double reaches = lowest_gravity_of(*kind, m_strength.original_gravity);
            if (reaches >= lowest) continue;
            lowest = reaches;
            strongest = kind;
        }
        m_bound.lowest_gravity = lowest;
        m_bound.fermentables = (upper - lowest) * 1000.0 * chem::k_volumes_per_gravity_point_safety;
        const std::string reading =
            number_text(m_question.gravity->mean, 4) + " + 2 x " + number_text(m_question.gravity->sd, 4);
        std::string how = reading + ": none of the cultures possible takes it lower";
        if (strongest != nullptr) {
            how = "(" + reading + " - " + number_text(lowest, 4) + ", the lowest " + strongest->name +
                  " may reach from " + number_text(m_strength.original_gravity, 3) + ") x " + per_point();
            if (!m_strength.known) how += "; original gravity not known, so it is taken as hardly fermented";
        }
        add("fermentables left", m_bound.fermentables, std::move(how), k_source);
    }

    void add_fruit_sugar() {
        add("fruit sugar not shown fermented",
            chem::co2_volumes_of_g_per_l(m_question.fruit_sugar_g_per_l * chem::k_co2_per_hexose),
            number_text(m_question.fruit_sugar_g_per_l, 2) +
                " g/L hexose x 0.4885 / 1.9768 g/L; fruit brings yeast of its own",
            "stoichiometry");
    }

    [[nodiscard]] double malic_factor() const {
        if (m_live.empty()) return 0.0;
        return any(may_take_malic_whole) ? chem::k_co2_per_malic_worst : chem::k_co2_per_malic_by_bacteria;
    }
    [[nodiscard]] std::string malic_how() const {
        if (m_live.empty()) return "nothing alive to take it";
        return any(may_take_malic_whole)
                   ? "worst case: a yeast takes it whole (bacteria make half of that), and no hydrometer shows it"
                   : "bacteria turn it to lactic, and no hydrometer shows it";
    }

    void add_acid(const char* name, double g_per_l, double factor, const std::string& why) {
        add(name, chem::co2_volumes_of_g_per_l(g_per_l * factor),
            number_text(g_per_l, 2) + " g/L x " + number_text(factor, 3) + " / 1.9768 g/L: " + why, "stoichiometry");
    }

    void add_hop_creep() {
        if (m_question.hops == Hops::none_dry) {
            add("hop creep", 0.0, "not dry hopped", "as asked");
            return;
        }
        const double most = most_hop_creep_volumes();
        const double floor = lowest_gravity_of(m_wild, m_strength.original_gravity);
        const double below =
            std::max(0.0, m_bound.lowest_gravity - floor) * 1000.0 * chem::k_volumes_per_gravity_point_safety;
        const bool bounded_by_dextrins = m_bound.complete && below < most;
        const double creep = !m_bound.alive ? 0.0 : bounded_by_dextrins ? below : most;
        std::string how = "1.3 % vol at any dose = " + number_text(most, 2) + " vol";
        if (bounded_by_dextrins) {
            how = "all dextrins from " + number_text(m_bound.lowest_gravity, 4) + " down to " + number_text(floor, 4) +
                  " x " + per_point() + ", which is less than 1.3 % vol would give";
        }
        if (!m_bound.alive) how = "no live yeast to use what the hops' enzyme frees";
        add("hop creep", creep, std::move(how),
            "Kirkpatrick & Shellhammer 2018 J. Agric. Food Chem. (secondary): +1.3 % vol by 40 days");
    }

    const GasQuestion& m_question;
    const Strength& m_strength;
    const tables::CultureKind& m_wild;
    GasBound& m_bound;
    std::vector<const tables::CultureKind*> m_live;
};

}  // namespace

double lowest_gravity_of(const tables::CultureKind& kind, double original_gravity) {
    const double above_water = original_gravity - 1.0;
    const double by_attenuation = 1.0 + above_water * (1.0 - kind.attenuation_high);
    if (!kind.lowest_gravity_from_1_048) return by_attenuation;
    return std::min(by_attenuation, 1.0 + (*kind.lowest_gravity_from_1_048 - 1.0) * above_water / 0.048);
}

bool may_take_malic_whole(const tables::CultureKind& kind) {
    return !is_bacteria(kind);
}

Result<GasBound> bound_of(const GasQuestion& question, const tables::Tables& tables) {
    TRY_VOID(check_amounts(question));
    TRY_VOID(check_strength(question));
    TRY(const tables::CultureKind* wild, tables.find_culture("wild_unknown"));
    GasBound bound;
    bound.cultures = question.cultures;
    bound.culture_known = !question.cultures.empty();
    if (!bound.culture_known) bound.cultures.push_back(wild);
    const Strength strength = strength_of(question);
    bound.strength_known = strength.known;
    bound.original_gravity = strength.original_gravity;
    bound.abv = strength.abv;
    bound.extract_g_per_l = strength.extract_g_per_l;
    Counting(question, strength, *wild, bound).count();
    return bound;
}

}  // namespace undercroft::engine::package

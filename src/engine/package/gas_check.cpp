#include "engine/package/gas_check.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "engine/package/bound.hpp"
#include "engine/package/closed.hpp"
#include "engine/package/watch.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::package {

namespace {

constexpr double k_rounding = 1e-9;

constexpr double k_worth_saying = 0.05;  // volumes
constexpr double k_bar_worth_saying = 0.2;

// What the weakest part must bear: what 95 in 100 stay within, or the bound of what is known.
std::optional<GaugePressure> pressure_to_bear(const GasCheck& check) {
    if (check.drawn) return GaugePressure::from_bar(check.drawn->high);
    return check.none_above ? check.none_above : check.total;
}

std::string bar(GaugePressure pressure) {
    return text_of(pressure);
}

// A limit to ask for, rounded up to what a maker would state.
std::string rated(GaugePressure needed) {
    return number_text(std::ceil(needed.in_bar() * 10.0 - k_rounding) / 10.0, 1) + " bar";
}

Result<chem::ContainerPressure> pressure_at(const GasQuestion& question, const GasBound& bound, const Closed& vessel,
                                            Temperature temperature) {
    chem::ClosedContainer closed;
    closed.co2_g_per_l = chem::co2_g_per_l_of_volumes(bound.volumes);
    closed.head_space = vessel.head_space;
    closed.air = vessel.air;
    closed.abv = bound.abv;
    closed.extract_g_per_l = bound.extract_g_per_l;
    closed.filled_at = question.filled_at;
    closed.ambient = question.ambient;
    return chem::pressure_in(closed, temperature);
}

std::vector<Term> pressure_terms(const chem::ContainerPressure& pressure, const GasQuestion& question,
                                 const GasBound& bound, const Closed& vessel, Temperature store) {
    const std::string at = " at " + text_of(store);
    const std::string head = percent_text(vessel.head_space, 1) + " head space";
    const bool trapped = vessel.air == chem::AirInHeadSpace::trapped;
    return {
        {"CO2", pressure.co2.in_bar(), "bar",
         number_text(bound.volumes, 2) + " vol = " + number_text(chem::co2_g_per_l_of_volumes(bound.volumes), 2) +
             " g/L shared by beer and " + head + at + ", with " + number_text(bound.abv, 1) + " % vol and " +
             number_text(bound.extract_g_per_l, 0) + " g/L extract",
         "the lower of two solubilities: Weiss 1974 with Reg. (EEC) 2676/90 ch. 37, and the beer chart"},
        {"air", pressure.air.in_bar(), "bar",
         trapped ? "trapped with the beer, its oxygen left in, squeezed as the beer grows" + at
                 : "purged before closing",
         "ideal gas"},
        {"vapour", pressure.vapour.in_bar(), "bar", "water" + at, "Buck 1981/1996"},
        {"air outside", -question.ambient.in_bar(), "bar", "taken off: the wall bears the difference",
         "International Standard Atmosphere"},
        {"total gauge", pressure.total.in_bar(), "bar", "the sum: what the wall bears" + at, "the rows above"},
    };
}

// --- verdict -----------------------------------------------------------------------------------

class Judging {
public:
    Judging(const GasQuestion& question, const GasBound& bound, const Closed& vessel, const GasCheck& check)
        : m_question(question), m_bound(bound), m_vessel(vessel), m_check(check) {}

    void judge() {
        judge_head_space();
        judge_limit();
        judge_canary();
        judge_refermentation();
        judge_knowledge();
        judge_evidence();
        say_what_lowers_it();
    }
    [[nodiscard]] Verdict verdict() const { return m_verdict; }
    std::vector<std::string> take_reasons() { return std::move(m_reasons); }

private:
    void refuse(std::string why) {
        m_verdict = Verdict::do_not;
        m_reasons.push_back(std::move(why));
    }
    void wait(std::string why) {
        if (m_verdict == Verdict::ready) m_verdict = Verdict::wait;
        m_reasons.push_back(std::move(why));
    }

    void judge_head_space() {
        if (m_check.total) return;
        refuse("Head space of " + percent_text(m_vessel.head_space, 1) + " is too small for " + text_of(m_check.store) +
               ": the beer grows as it warms and would press on the wall itself. Leave at least 2 %, or 3 % where it "
               "may pass 35 °C; 4 to 5 % is usual.");
    }

    void judge_limit() {
        if (!m_vessel.made_for_pressure) {
            const bool some = m_bound.to_come > 0.0 || (m_check.total && m_check.total->in_bar() > 0.0);
            if (some) {
                refuse(m_vessel.name +
                       " is not made for pressure, and gas can come. Only a container made for pressure "
                       "would change this.");
            }
            return;
        }
        if (!m_check.limit) {
            std::string ask = "The maker's pressure limit of " + m_vessel.name + " is not known";
            if (m_check.limit_needed) {
                ask += ": ask for one of at least " + rated(*m_check.limit_needed) + " (" + bar(*most()) + " / 0.8)" +
                       (m_bound.complete ? "" : ", and more once the gravity is read");
            }
            wait(ask + ". A burst or test figure is not a limit.");
            return;
        }
        if (most() && *most() > *m_check.allowed) {
            refuse((m_check.drawn ? "95 in 100 come to " + bar(*most()) + " or less at "
                                  : "At least " + bar(*most()) + " could come at ") +
                   text_of(m_check.store) + ": more than " + bar(*m_check.allowed) + ", which is 0.8 of the limit of " +
                   bar(*m_check.limit) + ". Less sugar, a lower gravity, a cooler store or a container for at least " +
                   bar(*m_check.limit_needed) + " would change this.");
        }
    }

    void judge_canary() {
        if (m_check.canary == CanaryVerdict::shows_more)
            refuse(
                "The canary shows more than this beer can explain: something else works in it, or it was read wrong. "
                "Read it again with another gauge, and leave the run cold until then.");
        if (m_check.canary == CanaryVerdict::leaks)
            m_reasons.push_back(
                "The canary shows less than any of ten thousand bottles would: its closure leaks, so it counts for "
                "nothing.");
    }

    // What the verdict rests on: what 95 in 100 stay within, or the bound of what is known.
    [[nodiscard]] std::optional<GaugePressure> most() const { return pressure_to_bear(m_check); }

    void judge_refermentation() {
        if (!m_vessel.made_for_pressure || m_bound.to_come <= 0.0) return;
        if (!m_bound.alive && m_question.priming_g_per_l <= 0.0) return;
        if (m_vessel.refermentation == tables::Refermentation::no) {
            refuse(m_vessel.name +
                   " must not hold beer that may ferment again: it gives no warning. A verified kill, or a container "
                   "made for refermentation, would change this.");
        } else if (m_vessel.refermentation == tables::Refermentation::ask_maker) {
            wait("Ask the maker whether beer may ferment again in " + m_vessel.name + ".");
        }
    }

    void judge_knowledge() {
        if (!m_bound.complete) {
            wait("The gravity has not been read, so the sugar left is not counted: take a reading.");
        }
        if (!m_bound.culture_known) {
            wait("Nobody has said what lives in it, so it counts as wild: name the cultures that may be there.");
        }
    }

    void judge_evidence() {
        const EvidenceNeeded need = evidence_needed(m_bound.cultures);
        if (need.readings == 0 && need.days <= 0.0) return;
        const std::string wanted = std::to_string(need.readings) + " readings over " + number_text(need.days, 0) +
                                   " days at 15 °C or warmer (" + number_text(need.days_below_15_c, 0) +
                                   " days when cooler), with no change beyond " + number_text(need.resolution_sg, 4);
        if (!m_question.evidence || m_question.evidence->readings == 0) {
            wait("No watch is booked. The cultures possible need " + wanted + ".");
            return;
        }
        const Evidence& seen = *m_question.evidence;
        if (!(seen.change_sg <= need.resolution_sg + k_rounding)) {
            wait("The gravity still moved by " + number_text(seen.change_sg, 4) + " while it was watched. It needs " +
                 wanted + ".");
            return;
        }
        if (seen.coolest && *seen.coolest < need.nothing_below) {
            wait("Readings at " + text_of(*seen.coolest) + " prove nothing: below " + text_of(need.nothing_below) +
                 " the culture sleeps. It needs " + wanted + ".");
            return;
        }
        const bool warm = seen.coolest && *seen.coolest >= k_watch_warm;
        const double days = warm ? need.days : need.days_below_15_c;
        if (seen.readings < need.readings || !(seen.days >= days)) {
            wait("Watched too little: " + std::to_string(seen.readings) + " readings over " +
                 number_text(seen.days, 0) + " days" + (seen.coolest ? " at " + text_of(*seen.coolest) : "") +
                 ". The cultures possible need " + wanted + (seen.coolest ? "." : "; say how warm it stood."));
        }
    }

    void say_what_lowers_it() {
        if (m_verdict == Verdict::ready) return;
        if (!m_bound.strength_known) {
            m_reasons.push_back(
                "Neither original gravity nor alcohol is known, so it counts as hardly fermented: either figure lowers "
                "the pressure.");
        }
        // With the limit not known, or the pressure above it, less doubt about the gas can change the verdict.
        if (m_check.limit && most() && *most() <= *m_check.allowed) return;
        say_what_bounds_fermentables();
        if (volumes_of("malic acid") >= k_worth_saying) {
            m_reasons.push_back("Malic acid counts with up to " + number_text(volumes_of("malic acid"), 2) +
                                " vol: a reading that shows it gone takes that off.");
        }
        if (!m_question.measured_co2_g_per_l && volumes_of("dissolved already") >= 1.0) {
            m_reasons.push_back("The " + number_text(volumes_of("dissolved already"), 2) +
                                " vol in it already are by rule: a measured figure may be lower.");
        }
        for (const Term& part : m_check.pressure) {
            if (part.name != "air" || part.value < k_bar_worth_saying) continue;
            m_reasons.push_back("Trapped air presses with " + number_text(part.value, 1) +
                                " bar of it: purging the head space takes that off.");
        }
    }

    void say_what_bounds_fermentables() {
        if (m_bound.fermentables < k_worth_saying) return;
        const std::string much = number_text(m_bound.fermentables, 2) + " vol";
        const bool ordinary_only = std::all_of(m_bound.cultures.begin(), m_bound.cultures.end(), [](const auto* kind) {
            return !kind->makes_gas() || forced_test_counts(*kind);
        });
        if (ordinary_only && (!m_question.evidence || !m_question.evidence->forced)) {
            m_reasons.push_back("No forced test counts in this bound: " + much +
                                " stand for gravity that may never fall. A part kept warm with more of its yeast "
                                "shows how much of it does.");
            return;
        }
        if (ordinary_only) return;
        const double wakes = days_to_wake(m_bound.cultures);
        const double still =
            m_question.evidence ? m_question.evidence->days_undisturbed.value_or(m_question.evidence->days) : 0.0;
        if (still >= wakes) return;
        m_reasons.push_back("Up to " + much + " are for organisms that wake late: no change in the gravity until " +
                            number_text(wakes, 0) + " days undisturbed would bound them; it is " +
                            number_text(still, 0) + " so far.");
    }

    [[nodiscard]] double volumes_of(const char* name) const {
        for (const Term& term : m_check.gas)
            if (term.name == name) return term.value;
        return 0.0;
    }

    const GasQuestion& m_question;
    const GasBound& m_bound;
    const Closed& m_vessel;
    const GasCheck& m_check;
    Verdict m_verdict = Verdict::ready;
    std::vector<std::string> m_reasons;
};

std::string words_of(const GasCheck& check, Stage stage, int months) {
    const std::string where =
        " in " + check.container + " for " + std::to_string(months) + " months at up to " + text_of(check.store);
    std::string most = "a pressure that cannot be worked out could come";
    if (const auto bear = pressure_to_bear(check))
        most = check.drawn        ? "95 in 100 come to " + bar(*bear) + " or less"
               : check.none_above ? "none comes to more than " + bar(*bear)
                                  : "at least " + bar(*bear) + " could come";
    const std::string allowed = check.allowed ? ", where " + bar(*check.allowed) + " is allowed." : ".";
    const bool kept = stage == Stage::on_the_shelf;
    switch (check.verdict) {
        case Verdict::do_not:
            return (kept ? "Not safe" : "Do not package it") + where + ": " + most + allowed;
        case Verdict::wait:
            return (kept ? "Not known to be safe" : "Wait before packaging it") + where + ": " + most +
                   ", and evidence is missing.";
        case Verdict::ready:
            return (kept ? "Ready to be kept" : "Ready to package") + where + ": " + most + allowed;
    }
    return {};
}

std::vector<Caution> cautions_of(const GasQuestion& question, const GasCheck& check, const GasBound& bound) {
    std::vector<Caution> cautions;
    if (question.stage == Stage::on_the_shelf && check.verdict != Verdict::ready) {
        cautions.push_back({std::string("gas.") + word(check.verdict),
                            "Leave it cold, or do not touch it warm, until this is settled."});
    } else if (check.verdict == Verdict::do_not) {
        cautions.push_back({"gas.do_not", "This can burst. Do not package it so."});
    } else if (check.verdict == Verdict::wait) {
        cautions.push_back({"gas.wait", "Nobody knows yet that this holds. Keep it under an air lock."});
    }
    cautions.push_back({"gas.glass",
                        "Glass under gas can burst without warning and cuts deep: closed boxes, away from people, no "
                        "scratched or chipped bottle."});
    cautions.push_back({"gas.chill",
                        "A run you doubt: do not touch it warm. Face shield and gloves, chill it to 2 °C for a day in "
                        "a closed box, then open or dump it outdoors."});
    cautions.push_back({"gas.posted",
                        "In the post or in a car it reaches 45 to 50 °C: bottles given away are checked for that, not "
                        "for your cellar."});
    cautions.push_back({"gas.room",
                        "CO2 gathers low in a closed room, and you do not smell it: air the room where beer works or a "
                        "run has burst."});
    cautions.push_back({"gas.local_rules",
                        "Selling or giving away beer, and pressure containers, are regulated: follow your local rules, "
                        "and ask licensed practice where they say so."});
    if (!bound.alive) {
        cautions.push_back({"gas.kill",
                            "This counts the beer as dead, as booked. One living cell is enough: prove the kill with a "
                            "sample kept two weeks at 25 °C without change."});
    }
    if (question.container != nullptr && !question.container->caution.empty()) {
        cautions.push_back({"gas.container", question.container->name + ": " + question.container->caution + "."});
    }
    return cautions;
}

}  // namespace

const char* word(Verdict verdict) {
    switch (verdict) {
        case Verdict::ready:
            return "ready";
        case Verdict::wait:
            return "wait";
        case Verdict::do_not:
            return "do_not";
    }
    return "";
}

Result<GasCheck> gas_check(const GasQuestion& question, const tables::Tables& tables, Draws draws) {
    TRY(const GasBound bound, bound_of(question, tables));
    TRY(const Closed vessel, closed_of(question));
    if (question.horizon_months < 1 || question.horizon_months > 600) {
        return fail(ErrorKind::bad_input, "horizon",
                    std::to_string(question.horizon_months) + " months is no life of a bottle; it is 1 to 600.");
    }
    GasCheck check;
    check.container = vessel.name;
    check.gas = bound.terms;
    check.total_volumes = bound.volumes;
    check.total_g_per_l = chem::co2_g_per_l_of_volumes(bound.volumes);
    check.complete = bound.complete;
    check.lowest_gravity = bound.lowest_gravity;
    check.head_space = vessel.head_space;
    TRY(check.store, warmest_of(question));

    check.limit = vessel.limit;
    if (check.limit) check.allowed = GaugePressure::from_bar(k_share_of_limit * check.limit->in_bar());
    if (!head_space_refused(vessel.head_space, check.store)) {
        TRY(const chem::ContainerPressure pressure, pressure_at(question, bound, vessel, check.store));
        check.total = pressure.total;
        if (check.complete && draws == Draws::where_they_decide && question.canary.empty()) {
            TRY(check.none_above, no_draw_above(question, tables));
            if (check.limit && *check.none_above > *check.allowed) check.none_above.reset();
        }
        if (check.complete && !check.none_above) {
            TRY(const DrawnAtStore drawn, drawn_at_store(question, tables));
            if (drawn.band) check.drawn = drawn.band->bar;
            check.canary = drawn.canary;
        }
        check.limit_needed =
            GaugePressure::from_bar(std::max(pressure_to_bear(check)->in_bar(), 0.0) / k_share_of_limit);
        check.pressure = pressure_terms(pressure, question, bound, vessel, check.store);
    }
    for (int celsius = 0; celsius <= 50; celsius += 5) {
        const Temperature at = Temperature::from_celsius(celsius);
        if (head_space_refused(vessel.head_space, at)) continue;
        TRY(const chem::ContainerPressure pressure, pressure_at(question, bound, vessel, at));
        check.by_temperature.emplace_back(at, pressure.total);
    }

    Judging judging(question, bound, vessel, check);
    judging.judge();
    check.verdict = judging.verdict();
    check.reasons = judging.take_reasons();
    check.words = words_of(check, question.stage, question.horizon_months);
    check.cautions = cautions_of(question, check, bound);
    return check;
}

}  // namespace undercroft::engine::package

#include "app/finish.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "app/blend_stocks.hpp"
#include "app/blending.hpp"
#include "app/fruit_label.hpp"
#include "base/letters.hpp"
#include "engine/finish/blended.hpp"
#include "engine/fruit/plan.hpp"

namespace undercroft::app {
namespace {

namespace finish = engine::finish;
using tables::TechniqueKind;

int places_for(const std::string& figure) {
    return figure == "gravity" ? 4 : figure == "ph" ? 2 : 1;
}

std::string band_of(const engine::blend::Wish& wish) {
    const auto text = [&](double value) { return number_text(value, places_for(wish.figure)); };
    if (wish.range.low && wish.range.high) return text(*wish.range.low) + " to " + text(*wish.range.high);
    return wish.range.low ? "at least " + text(*wish.range.low) : "at most " + text(wish.range.high.value_or(0.0));
}

const char* way_word(tables::FruitWay way) {
    return way == tables::FruitWay::onto_beer       ? "onto_beer"
           : way == tables::FruitWay::pre_fermented ? "pre_fermented"
                                                    : "";
}

// What the table says of where its figures come from, each once.
std::string sources_of(const finish::Option& option, const std::vector<tables::Effect>& effects) {
    std::vector<std::string> all{std::string(1, option.technique.mark) + ": " + option.technique.source};
    for (const tables::Effect& effect : effects) {
        if (effect.technique != option.technique.id || effect.way != option.technique.way) continue;
        const std::string one = std::string(1, effect.mark) + ": " + effect.source;
        if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
    }
    if (option.technique.source.empty()) all.erase(all.begin());
    return joined(all, "; ");
}

class Finishing {
public:
    Finishing(FinishBasis basis, const FinishRequest& request, const tables::Tables& tables, Gallons gallons)
        : m_basis(std::move(basis)), m_request(request), m_tables(tables), m_gallons(gallons) {}

    Result<FinishView> look() {
        TRY_VOID(read());
        m_view.subject = m_basis.subject;
        m_view.on = iso_text(m_basis.today);
        m_view.litres = m_wish.portion.beer.litres;
        m_view.sour = m_wish.portion.sour;
        m_view.all = m_request.all;
        for (const auto& wish : m_wish.target)
            m_view.target.push_back(wish.figure + " " + band_of(wish) +
                                    (wish.weight == 1.0 ? "" : " weight " + number_text(wish.weight, 1)));
        if (!m_request.technique.empty()) {
            TRY_VOID(one_technique());
        } else {
            TRY_VOID(all_techniques());
        }
        common_cautions();
        return std::move(m_view);
    }

private:
    Result<void> read() {
        m_wish.portion = m_basis.portion;
        m_wish.target = m_basis.target;
        if (!m_request.wants.empty()) m_wish.target.clear();
        for (const std::string& text : m_request.wants) {
            TRY(const engine::blend::Wish wish, read_wish(text, false, m_tables));
            if (std::any_of(m_wish.target.begin(), m_wish.target.end(),
                            [&](const auto& one) { return one.figure == wish.figure; }))
                return fail(ErrorKind::bad_input, "want", wish.figure + " is said twice.");
            m_wish.target.push_back(wish);
        }
        m_wish.portion.sorbate_in_fruit = m_request.sorbate;
        m_wish.portion.yeast_is_neutral = m_request.neutral_yeast;
        if (!m_request.vessel.empty()) {
            TRY(const Volume brimful, parse_volume("vessel", m_request.vessel, m_gallons));
            m_wish.portion.vessel_litres = brimful.in_litres();
            if (*m_wish.portion.vessel_litres < m_wish.portion.beer.litres)
                return fail(ErrorKind::bad_input, "vessel",
                            "It holds " + text_of(brimful) + " brimful, less than the " +
                                number_text(m_wish.portion.beer.litres, 1) + " L that are to be finished.");
        }
        for (const std::string& kind : m_request.only) {
            static const std::vector<std::string> k_kinds = {"leave",   "age",    "rest",      "blend", "fruit",
                                                             "spice",   "oak",    "dry_hop",   "acid",  "base",
                                                             "sweeten", "dilute", "carbonate", "rescue"};
            if (std::find(k_kinds.begin(), k_kinds.end(), lower(kind)) == k_kinds.end())
                return fail(ErrorKind::bad_input, "only",
                            "\"" + kind.substr(0, 40) + "\" is no kind of finish; say " + joined(k_kinds, ", ") + ".");
            m_wish.only.push_back(lower(kind));
        }
        for (const std::string& text : m_request.fruits)
            TRY_VOID(add_fruit_from_label(text, m_tables, m_basis.effects));
        return read_prices();
    }

    Result<void> read_prices() {
        for (const std::string& text : m_request.prices) {
            const auto blank = text.find_last_of(' ');
            if (blank == std::string::npos)
                return fail(
                    ErrorKind::bad_input, "price",
                    "\"" + text.substr(0, 60) + "\" is no price; say what and how much a kilogram: \"sour cherry 6\".");
            TRY(const Decimal price, parse_number("price", text.substr(blank + 1), 0.0, 1e6));
            const std::string what = trimmed(text.substr(0, blank));
            const bool partner = std::any_of(m_basis.partners.begin(), m_basis.partners.end(),
                                             [&](const auto& one) { return one.name == what; });
            if (partner) {
                m_wish.prices[what] = price.value();
                continue;
            }
            const auto technique = tables::find_technique(m_tables.techniques, what);
            if (!technique)
                return fail(ErrorKind::bad_input, "price", technique.error().what, {}, technique.error().next_step);
            m_wish.prices[(*technique)->id] = price.value();
        }
        return {};
    }

    Result<void> add_blend() {
        if (m_basis.partners.empty()) return {};
        const finish::Draws draws(m_tables, m_wish.portion, m_wish.target, m_wish.seed);
        TRY(auto option,
            finish::blended(m_tables, m_wish.portion, m_wish.target, m_basis.partners, m_wish.prices, draws));
        if (option) m_wish.blends.push_back(std::move(*option));
        return {};
    }

    [[nodiscard]] bool fault_bars() const {
        return std::any_of(m_wish.portion.faults.begin(), m_wish.portion.faults.end(),
                           [](const auto& one) { return one.blocks_packaging || one.unsafe; });
    }

    Result<void> all_techniques() {
        const bool blends =
            m_wish.only.empty() || std::find(m_wish.only.begin(), m_wish.only.end(), "blend") != m_wish.only.end();
        if (blends && !m_wish.target.empty() && !fault_bars()) TRY_VOID(add_blend());
        TRY(const finish::Ranked ranked, finish::ranked(m_tables, m_basis.effects, m_wish));
        const auto alone = std::find_if(ranked.options.begin(), ranked.options.end(),
                                        [](const auto& one) { return one.technique.kind == TechniqueKind::leave; });
        for (const finish::Option& option : ranked.options)
            m_view.options.push_back(shown(option, alone == ranked.options.end() ? option : *alone));
        for (const finish::NotOffered& one : ranked.not_offered) m_view.not_offered.emplace_back(one.name, one.why);
        for (const finish::Split& split : ranked.splits) {
            FinishSplit told{{}, split.one_inside, split.off, split.why};
            for (const auto& part : split.parts) {
                const finish::Option& of = ranked.options[part.option];
                told.parts.push_back({of.name, finish::dose_text(of.technique, of.dose.amount), part.litres});
            }
            m_view.splits.push_back(std::move(told));
        }
        m_view.remarks = ranked.remarks;
        if (m_basis.taught > 0)
            m_view.remarks.push_back(std::to_string(m_basis.taught) +
                                     " effects are those of your own tastings (learned says how).");
        const FinishOption& first = m_view.options.front();
        const std::string best = first.name + (first.dose.empty() ? "" : ", " + first.dose);
        m_view.words = number_text(m_view.litres, 1) + " L: " + std::to_string(m_view.options.size()) +
                       " ways ranked by the chance of ending inside the target. First: " + best + ", " +
                       percent_text(first.inside, 0) + ".";
        return {};
    }

    Result<void> one_technique() {
        TRY(const tables::Technique* found, tables::find_technique(m_tables.techniques, m_request.technique));
        const tables::Technique& technique = *found;
        finish::Dose dose{technique.dose_mid, 0.0};
        if (!m_request.dose.empty()) {
            TRY(dose.amount, read_finish_dose(m_request.dose, technique));
        }
        dose.days = finish::days_of(technique, dose.amount);
        if (!m_request.days.empty()) {
            std::string days = m_request.days;
            if (const auto blank = days.find(' '); blank != std::string::npos) days.resize(blank);
            TRY(const Decimal number, parse_number("days", days, 0.0, 1000.0));
            dose.days = number.value();
        }
        TRY(finish::Option option, finish::at_dose(m_tables, m_basis.effects, m_wish, technique, dose));
        tables::Technique leave;
        leave.id = "leave";
        const finish::Draws draws(m_tables, m_wish.portion, m_wish.target, m_wish.seed);
        TRY(const finish::Option alone,
            finish::option_of(m_tables, m_basis.effects, m_wish.portion, m_wish.target, {}, draws, leave, {}));
        m_view.options.push_back(shown(option, alone));
        const FinishOption& first = m_view.options.front();
        m_view.words = first.name + (first.dose.empty() ? "" : ", " + first.dose) + " in " +
                       number_text(m_view.litres, 1) + " L: inside the target " + percent_text(first.inside, 0) +
                       " of the time, left alone " + percent_text(alone.outcome.inside, 0) + ".";
        TRY_VOID(add_dates(technique, dose));
        m_view.chosen = std::move(option);
        return {};
    }

    Result<void> add_dates(const tables::Technique& technique, const finish::Dose& dose) {
        Day begin = m_basis.today;
        if (!m_request.from.empty()) {
            TRY(begin, parse_day("from", m_request.from, m_basis.today));
        }
        const auto on = [&](double days) { return iso_text(add_days(begin, int(std::lround(days)))); };
        if (technique.kind == TechniqueKind::fruit) {
            TRY(const tables::Fruit* row, m_tables.find_fruit(technique.data_row));
            const Mass mass = Mass::from_grams(dose.amount * m_wish.portion.beer.litres);
            TRY(const auto addition, engine::fruit::resolve(m_tables, *row, mass));
            const auto& figures = m_wish.portion.beer.figures;
            engine::fruit::Beer beer{Volume::from_litres(m_wish.portion.beer.litres), 1.006, 5.0,
                                     m_wish.portion.beer.cultures};
            if (const auto gravity = figures.find("gravity"); gravity != figures.end())
                beer.gravity = gravity->second.mean;
            if (const auto alcohol = figures.find("alcohol"); alcohol != figures.end()) beer.abv = alcohol->second.mean;
            TRY(const auto plan,
                engine::fruit::plan(m_tables, addition, beer,
                                    technique.way == tables::FruitWay::onto_beer ? engine::fruit::Way::onto_beer
                                                                                 : engine::fruit::Way::pre_fermented,
                                    begin));
            for (const auto& task : plan.dates)
                m_view.dates.push_back({iso_text(task.day),
                                        task.name + (task.lasts.empty() ? "" : ", " + task.lasts) +
                                            (task.done_when.empty() ? "" : "; done when " + task.done_when),
                                        task.caution});
            return {};
        }
        if (technique.first_taste_days && technique.latest_out_days) {
            const bool whole = !(dose.amount > 0.0);
            const std::string half = whole ? "" : finish::dose_text(technique, dose.amount / 2.0) + ", half of it, ";
            m_view.dates.push_back(
                {on(0.0),
                 half + "in a bag, weighed: " + number_text(dose.amount / 2.0 * m_wish.portion.beer.litres, 1) + " g",
                 "what is in cannot be taken back"});
            m_view.dates.push_back({on(*technique.first_taste_days),
                                    "first taste, a third of the time to nine tenths; "
                                    "add the other half once if it wants more",
                                    ""});
            m_view.dates.push_back({on(dose.days), "usually enough", ""});
            m_view.dates.push_back({on(*technique.latest_out_days), "latest day to lift it out", ""});
        } else if (dose.days > 0.0) {
            m_view.dates.push_back({on(0.0), "begins", ""});
            m_view.dates.push_back({on(dose.days / 2.0), "taste on the way", ""});
            m_view.dates.push_back({on(dose.days), "over: taste and read it", ""});
        }
        return {};
    }

    FinishOption shown(const finish::Option& from, const finish::Option& alone) const {
        FinishOption it;
        it.technique = from.technique.id;
        it.way = way_word(from.technique.way);
        it.kind = tables::word(from.technique.kind);
        it.name = from.name;
        it.dose = finish::dose_text(from.technique, from.dose.amount);
        it.amount = from.dose.amount;
        it.days = from.days;
        it.ready_days = from.days + from.watch_days;
        it.inside = from.outcome.inside;
        it.off = from.outcome.off;
        it.worst = from.outcome.worst;
        it.gain = from.gain;
        it.gain_sd = from.gain_sd;
        it.clear = from.clear;
        for (const auto& wish : m_wish.target) {
            const auto chance = from.outcome.by_wish.find(wish.figure);
            if (chance == from.outcome.by_wish.end()) continue;
            FinishFigure figure{wish.figure, band_of(wish), 0.0, 0.0, 0.0, chance->second, 0.0};
            if (const auto was = alone.outcome.by_wish.find(wish.figure); was != alone.outcome.by_wish.end())
                figure.inside_alone = was->second;
            if (const auto tasted = from.outcome.tasted.find(wish.figure); tasted != from.outcome.tasted.end()) {
                const auto now = m_wish.portion.beer.figures.find(wish.figure);
                const double left = alone.outcome.tasted.at(wish.figure).mean;
                figure.before = now == m_wish.portion.beer.figures.end() ? left : now->second.mean;
                figure.after = figure.before + tasted->second.mean - left;
                figure.sd = tasted->second.sd;
            } else if (const auto measured = from.chemistry.figures.find(wish.figure);
                       measured != from.chemistry.figures.end()) {
                figure.after = measured->second.mean;
                figure.sd = measured->second.sd;
                const auto was = alone.chemistry.figures.find(wish.figure);
                figure.before = was == alone.chemistry.figures.end() ? figure.after : was->second.mean;
            }
            it.figures.push_back(figure);
        }
        for (const auto& [attribute, change] : from.points) {
            constexpr double k_worth_saying = 0.1;
            if (std::abs(change.mean) >= k_worth_saying) it.moves.push_back({attribute, change.mean, change.sd});
        }
        std::stable_sort(it.moves.begin(), it.moves.end(), [](const FinishMove& a, const FinishMove& b) {
            return std::abs(a.points) > std::abs(b.points);
        });
        it.reasons = from.reasons;
        it.litres = from.chemistry.litres;
        it.gas_expected = from.chemistry.gas_expected;
        it.gas_worst = from.chemistry.gas_worst;
        it.least_vessel_litres = from.chemistry.least_vessel_litres;
        it.hands_on_minutes = from.hands_on_minutes;
        it.cost = from.cost;
        it.culture = from.culture;
        it.back = from.back;
        it.sources = sources_of(from, m_basis.effects);
        it.cautions = from.cautions;
        return it;
    }

    void common_cautions() {
        for (const tables::Fault& fault : m_wish.portion.faults)
            m_view.cautions.push_back({"finish.fault_stands", fault.name + " stands: " + fault.action + "."});
        m_view.cautions.push_back(
            {"finish.practice",
             "Most sizes of these effects are common practice, with wide spreads; your own tastings "
             "before and after replace them. Nothing here promises a taste."});
        m_view.cautions.push_back({"finish.gas_check",
                                   "Whatever is added: the watch before packaging begins anew where it says so, and "
                                   "nothing is packaged before the gas check agrees."});
    }

    FinishBasis m_basis;
    const FinishRequest& m_request;
    tables::Tables m_tables;  // with fruit from labels
    Gallons m_gallons;
    finish::RankWish m_wish;
    FinishView m_view;
};

}  // namespace

Result<double> read_finish_dose(const std::string& text, const tables::Technique& technique) {
    using U = tables::TechniqueDose;
    const std::string usual = finish::dose_text(technique, technique.dose_mid);
    if (technique.dose_unit == U::none)
        return fail(ErrorKind::bad_input, "dose", technique.name + " has no dose; leave it out.");
    std::string number = trimmed(text);
    std::string unit;
    const auto end = number.find_first_not_of("0123456789.,");
    if (end != std::string::npos) {
        unit = lower(trimmed(number.substr(end)));
        number = trimmed(number.substr(0, end));
    }
    const auto fits = [&](std::initializer_list<const char*> words) {
        return unit.empty() || std::any_of(words.begin(), words.end(), [&](const char* one) { return unit == one; });
    };
    const bool right = technique.dose_unit == U::g_per_l   ? fits({"g/l", "g"})
                       : technique.dose_unit == U::percent ? fits({"%", "percent", "per cent"})
                       : technique.dose_unit == U::volumes ? fits({"volumes", "volume", "vol"})
                       : technique.dose_unit == U::days    ? fits({"days", "day", "d"})
                       : technique.dose_unit == U::weeks   ? fits({"weeks", "week", "w"})
                                                           : fits({"months", "month"});
    const auto amount = parse_number("dose", number, 0.0, 1000.0);
    if (!right || !amount)
        return fail(ErrorKind::bad_input, "dose",
                    "\"" + text.substr(0, 40) + "\" is no dose of " + technique.name + "; say it like " + usual + ".");
    return amount->value();
}

Result<FinishView> finish_view(FinishBasis basis, const FinishRequest& request, const tables::Tables& tables,
                               Gallons gallons) {
    return Finishing(std::move(basis), request, tables, gallons).look();
}

Result<FinishView> finish_sum(const FinishRequest& request, const tables::Tables& tables, Gallons gallons, Day today) {
    if (request.beer.empty())
        return fail(
            ErrorKind::bad_input, "beer",
            "What is to be finished? Say --beer \"Pull, 20 L, ph 3.4, ta 7.1, alcohol 6, gravity 1.004, culture "
            "mixed_sour, sour 7\".");
    FinishBasis basis;
    TRY(KnownStock known, read_stock(request.beer, tables, gallons));
    basis.portion.beer = std::move(known.stock);
    basis.portion.sour = !request.clean;
    basis.subject = basis.portion.beer.name;
    for (const std::string& name : request.faults) {
        TRY(const tables::Fault* fault, tables.find_fault(name));
        basis.portion.faults.push_back(*fault);
    }
    for (const std::string& text : request.with) {
        TRY(KnownStock partner, read_stock(text, tables, gallons));
        basis.partners.push_back(std::move(partner.stock));
    }
    basis.effects = tables.effects;
    basis.today = today;
    return finish_view(std::move(basis), request, tables, gallons);
}

Result<void> read_finish_lines(const std::string& text, FinishRequest& request) {
    std::istringstream in(text);
    int number = 0;
    for (std::string line; std::getline(in, line);) {
        ++number;
        line = trimmed(line);
        if (line.empty() || line[0] == '#') continue;
        const auto blank = line.find_first_of(" \t");
        const std::string word = lower(line.substr(0, blank));
        const std::string rest = blank == std::string::npos ? "" : trimmed(line.substr(blank));
        std::string* one = word == "beer"        ? &request.beer
                           : word == "vessel"    ? &request.vessel
                           : word == "technique" ? &request.technique
                           : word == "dose"      ? &request.dose
                           : word == "days"      ? &request.days
                                                 : nullptr;
        std::vector<std::string>* many = word == "want"    ? &request.wants
                                         : word == "with"  ? &request.with
                                         : word == "fault" ? &request.faults
                                         : word == "price" ? &request.prices
                                         : word == "only"  ? &request.only
                                         : word == "fruit" ? &request.fruits
                                                           : nullptr;
        bool* flag = word == "clean"           ? &request.clean
                     : word == "sorbate"       ? &request.sorbate
                     : word == "neutral-yeast" ? &request.neutral_yeast
                                               : nullptr;
        if (one != nullptr && !rest.empty()) {
            if (one->empty()) *one = rest;
        } else if (many != nullptr && !rest.empty()) {
            many->push_back(rest);
        } else if (flag != nullptr && rest.empty()) {
            *flag = true;
        } else {
            return fail(
                ErrorKind::bad_input, "line " + std::to_string(number),
                "\"" + line.substr(0, 60) +
                    "\" is not understood; a line is beer, want, with, fault, price, only, fruit, vessel, technique, "
                    "dose or days and what it is, or clean, sorbate or neutral-yeast alone.");
        }
    }
    return {};
}

}  // namespace undercroft::app

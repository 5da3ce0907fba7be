#include "app/gap.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "app/blend_stocks.hpp"
#include "app/bodies.hpp"
#include "app/panel.hpp"
#include "base/line_fit.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

struct Course {
    std::vector<FitPoint> points;  // years, value
};

// The chance that a normal variable lies in the band.
double chance_inside(double mean, double sd, const std::optional<double>& low, const std::optional<double>& high) {
    const auto below = [&](double x) {
        if (sd <= 0.0) return x >= mean ? 1.0 : 0.0;
        return 0.5 * std::erfc(-(x - mean) / (sd * std::sqrt(2.0)));
    };
    return (high ? below(*high) : 1.0) - (low ? below(*low) : 0.0);
}

int places_of(const std::string& figure) {
    return figure == "gravity" ? 4 : figure == "ph" ? 2 : 1;
}

std::string band_words(const GapFigure& it) {
    const auto text = [&](double value) { return number_text(value, places_of(it.figure)); };
    if (it.low && it.high) return text(*it.low) + " to " + text(*it.high);
    return it.low ? "at least " + text(*it.low) : it.high ? "at most " + text(*it.high) : "anything";
}

double years_of(Instant at) {
    constexpr double k_ms_in_year = 365.25 * 86'400'000.0;
    return double(at.ms) / k_ms_in_year;
}

class Gap {
public:
    Gap(const Seen& seen, engine::HolderRef holder) : m_seen(seen), m_holder(holder) {}

    Result<void> know() {
        TRY(const PanelView panel, panel_view(m_seen, m_holder));
        for (const TastedFigure& one : panel.now) {
            m_tasted[one.attribute] = {one.mean, one.sd};
            m_tasters[one.attribute] = one.tasters;
        }
        TRY(const KnownStock known, stock_of(m_seen, m_holder, {}));
        m_stock = known.stock.figures;
        const engine::LiquidState& state = m_holder.run >= 0 ? m_seen.states.runs[at_index(m_holder.run)]
                                                             : m_seen.states.vessels[at_index(m_holder.vessel)];
        if (const auto ph = state.ph_estimate()) m_stock["ph"] = {ph->mean, ph->sd};
        read_courses();
        return {};
    }

    GapFigure of(const ledger::TargetFigure& wanted) const {
        GapFigure it;
        it.figure = wanted.figure;
        if (wanted.low) it.low = wanted.low->value();
        if (wanted.high) it.high = wanted.high->value();
        it.weight = wanted.weight.value();
        it.unit = unit_of(it.figure);
        if (const auto found = m_tasted.find(it.figure); found != m_tasted.end()) {
            it.mean = found->second.mean;
            it.sd = found->second.sd;
        } else if (const auto held = m_stock.find(it.figure); held != m_stock.end() && !is_attribute(it.figure)) {
            it.mean = held->second.mean;
            it.sd = held->second.sd;
        }
        if (!it.mean) {
            it.standing = "not known";
            it.words = it.figure + ": not known; " +
                       (is_attribute(it.figure) ? "taste it and score it" : "read it, or let the book know it") + ".";
            return it;
        }
        if (it.low && *it.mean < *it.low) it.off = *it.mean - *it.low;
        if (it.high && *it.mean > *it.high) it.off = *it.mean - *it.high;
        it.chance = chance_inside(*it.mean, it.sd, it.low, it.high);
        constexpr double k_beyond_doubt = 2.0;
        it.standing = it.off == 0.0                               ? "inside"
                      : std::abs(it.off) < k_beyond_doubt * it.sd ? "perhaps outside"
                                                                  : "outside";
        const auto text = [&](double value) { return number_text(value, places_of(it.figure)); };
        it.words = it.figure + " " + text(*it.mean) + " ± " + text(it.sd) + (it.unit.empty() ? "" : " " + it.unit) +
                   ", wanted " + band_words(it) + ": " +
                   (it.off == 0.0 ? "inside"
                                  : text(std::abs(it.off)) + (it.off > 0.0 ? " too much" : " too little") +
                                        (it.standing == "outside" ? "" : ", less than the doubt")) +
                   " (" + percent_text(it.chance, 0) + " sure to be inside).";
        if (const auto tasters = m_tasters.find(it.figure);
            it.standing == "perhaps outside" && tasters != m_tasters.end() && tasters->second < 3)
            it.words += tasters->second == 1 ? " One palate: let two more taste it." : " Let one more taste it.";
        add_drift(it);
        return it;
    }

private:
    bool is_attribute(const std::string& figure) const {
        const auto& others = target_figures();
        return std::find(others.begin(), others.end(), figure) == others.end();
    }
    std::string unit_of(const std::string& figure) const {
        static const std::map<std::string, std::string> k_units = {{"ta", "g/L"},      {"alcohol", "% vol"},
                                                                   {"extract", "g/L"}, {"ibu", "IBU"},
                                                                   {"colour", "EBC"},  {"age", "years"}};
        const auto unit = k_units.find(figure);
        return unit == k_units.end() ? "" : unit->second;
    }

    void read_courses() {
        const std::string subject = key_of(m_seen.cellar, m_holder).text();
        for (const ledger::Entry* entry : m_seen.cellar.entries) {
            if (entry->at() > m_seen.when) break;
            const double years = years_of(entry->at());
            if (const auto* tasting = std::get_if<ledger::Tasting>(&entry->body);
                tasting != nullptr && tasting->subject.text() == subject)
                for (const auto& [attribute, score] : tasting->scores)
                    m_courses[m_seen.tables.attribute_id(attribute)].points.push_back({years, score.value()});
            if (const auto* reading = std::get_if<ledger::Reading>(&entry->body);
                reading != nullptr && reading->subject.text() == subject)
                for (const ledger::Measured& one : reading->values) {
                    if (one.quantity == ledger::Quantity::ph)
                        m_courses["ph"].points.push_back({years, one.value.value()});
                    if (one.quantity == ledger::Quantity::ta)
                        m_courses["ta"].points.push_back({years, one.value.value()});
                }
        }
    }

    // Over the years: at least four points over at least one, and a slope that is no accident.
    void add_drift(GapFigure& it) const {
        const auto course = m_courses.find(it.figure);
        constexpr std::size_t k_least_points = 4;
        if (course == m_courses.end() || course->second.points.size() < k_least_points) return;
        const auto& points = course->second.points;
        if (points.back().x - points.front().x < 1.0) return;
        const auto line = line_through(points);
        if (!line || std::abs(line->slope) <= 2.0 * line->slope_sd) return;
        it.drift = line->slope;
        it.drift_sd = line->slope_sd;
        it.words += std::string(" It ") + (line->slope > 0.0 ? "rises" : "falls") + " by " +
                    number_text(std::abs(line->slope), 2) + " ± " + number_text(line->slope_sd, 2) + " a year over " +
                    std::to_string(points.size()) + " entries.";
    }

    const Seen& m_seen;
    engine::HolderRef m_holder;
    std::map<std::string, engine::blend::Figure> m_tasted;
    std::map<std::string, int> m_tasters;
    std::map<std::string, engine::blend::Figure> m_stock;
    std::map<std::string, Course> m_courses;
};

}  // namespace

const std::vector<std::string>& target_figures() {
    static const std::vector<std::string> k_figures = {"ph",      "ta",  "alcohol", "gravity",
                                                       "extract", "ibu", "colour",  "age"};
    return k_figures;
}

Result<GapView> gap_view(const Seen& seen, engine::HolderRef holder) {
    GapView view;
    view.on = seen.telling.day_text(seen.when);
    view.subject = holder.run >= 0 ? seen.cellar.runs[at_index(holder.run)].as.run
                                   : seen.cellar.vessels[at_index(holder.vessel)].as.name;
    const std::string key = key_of(seen.cellar, holder).text();
    const ledger::Target* target = nullptr;
    for (const ledger::Entry* entry : seen.cellar.entries) {
        if (entry->at() > seen.when) break;
        const auto* one = std::get_if<ledger::Target>(&entry->body);
        if (one == nullptr || one->subject.text() != key) continue;
        target = one;
        view.set_on = seen.telling.day_text(entry->at());
    }
    if (target == nullptr) {
        view.words = "Nobody has said what " + view.subject + " shall be like.";
        return view;
    }
    view.target = target->words;
    Gap gap(seen, holder);
    TRY_VOID(gap.know());
    for (const ledger::TargetFigure& wanted : target->figures) view.figures.push_back(gap.of(wanted));
    std::stable_sort(view.figures.begin(), view.figures.end(), [](const GapFigure& a, const GapFigure& b) {
        return a.weight * (1.0 - a.chance) > b.weight * (1.0 - b.chance);
    });
    int inside = 0;
    int outside = 0;
    int unknown = 0;
    for (const GapFigure& one : view.figures) {
        inside += one.standing == "inside" ? 1 : 0;
        outside += one.standing == "outside" ? 1 : 0;
        unknown += one.standing == "not known" ? 1 : 0;
    }
    view.words = view.subject + ": " + std::to_string(inside) + " of " + std::to_string(view.figures.size()) +
                 " figures lie inside the target" +
                 (outside > 0 ? ", " + std::to_string(outside) + " outside beyond doubt" : "") +
                 (unknown > 0 ? ", " + std::to_string(unknown) + " nobody knows" : "") + ".";
    view.cautions.push_back(
        {"gap.beer_moves_on",
         "What was tasted is what was in it that day: a refill, fruit or time may have changed it."});
    return view;
}

}  // namespace undercroft::app

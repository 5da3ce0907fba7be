#include "engine/finish/learning.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "units/amount.hpp"

namespace undercroft::engine::finish {

namespace {

struct Point {
    double change = 0.0;  // less what the effect's dependence on the beer gives
    double factor = 0.0;
    double variance = 0.0;  // of the two tastings, and of the lot at that factor
};

const tables::Technique* technique_of(const tables::Tables& tables, const std::string& id, tables::FruitWay way) {
    for (const tables::Technique& one : tables.techniques)
        if (one.id == id && one.way == way) return &one;
    return nullptr;
}

std::string points_text(const Figure& figure) {
    return (figure.mean < 0.0 ? "-" : "+") + number_text(std::abs(figure.mean), 2) + " ± " + number_text(figure.sd, 2);
}

// An attribute that the table has no row for: nothing expected, of either sign.
tables::Effect without_row(const tables::Technique& technique, const std::string& attribute) {
    tables::Effect it;
    it.technique = technique.id;
    it.way = technique.way;
    it.attribute = attribute;
    it.dose_mid = technique.dose_mid;
    it.sd_total = it.sd_beyond = k_tasting_noise;
    it.dose_form = technique.dose_unit == tables::TechniqueDose::none || !(technique.dose_mid > 0.0)
                       ? tables::DoseForm::none
                       : tables::DoseForm::linear;
    it.time_form = tables::TimeForm::immediate;
    it.words = "no row of the table; from own tastings";
    it.source = "this book";
    return it;
}

}  // namespace

std::vector<Learned> learned_from(const tables::Tables& tables, const std::vector<Observed>& observed) {
    std::vector<Learned> all;
    std::vector<tables::Effect> rows = tables.effects;
    for (const Observed& one : observed) {
        const tables::Technique* technique = technique_of(tables, one.technique, one.way);
        if (technique == nullptr) continue;
        if (std::none_of(rows.begin(), rows.end(), [&](const tables::Effect& row) {
                return row.technique == one.technique && row.way == one.way && row.attribute == one.attribute;
            }))
            rows.push_back(without_row(*technique, one.attribute));
    }
    for (const tables::Effect& row : rows) {
        const tables::Technique* technique = technique_of(tables, row.technique, row.way);
        if (technique == nullptr) continue;
        std::vector<Point> points;
        double surprises = 0.0;
        int forecasts = 0;
        const double lot = k_lot_share * row.sd_total * row.sd_total;
        for (const Observed& one : observed) {
            if (one.technique != row.technique || one.way != row.way || one.attribute != row.attribute) continue;
            if (!applies(row, one.sour)) continue;
            const double factor = dose_factor(row, one.dose.amount) * time_factor(row, *technique, one.dose.days);
            double depends = 0.0;
            if (const auto on = one.beer.find(row.depends_on); on != one.beer.end())
                depends = row.depends_slope * (on->second - row.depends_ref);
            const double variance = one.before.sd * one.before.sd + one.after.sd * one.after.sd;
            points.push_back({one.after.mean - one.before.mean - depends * factor, factor,
                              std::max(variance, 1e-4) + lot * factor * factor});
            if (one.forecast) {
                const double spread = std::hypot(one.forecast->sd, one.after.sd);
                surprises += (one.after.mean - one.forecast->mean) / std::max(spread, 1e-3);
                ++forecasts;
            }
        }
        if (points.empty()) continue;
        // Sums in one order, so that the order of entries does not matter to the last bit.
        std::sort(points.begin(), points.end(), [](const Point& a, const Point& b) {
            return std::tie(a.change, a.factor, a.variance) < std::tie(b.change, b.factor, b.variance);
        });
        Learned it;
        it.technique = row.technique;
        it.way = row.way;
        it.attribute = row.attribute;
        it.applies_to = row.applies_to;
        it.prior = {row.mean_total, row.sd_total};
        it.tastings = static_cast<int>(points.size());
        const double keeper = (1.0 - k_lot_share) * row.sd_total * row.sd_total;
        double precision = 0.0;
        double pull = 0.0;
        for (const Point& point : points) {
            precision += point.factor * point.factor / point.variance;
            pull += point.factor * point.change / point.variance;
        }
        if (precision > 0.0) it.data = {pull / precision, std::sqrt(1.0 / precision)};
        const double with_prior = precision + 1.0 / keeper;
        it.posterior = {(pull + row.mean_total / keeper) / with_prior, std::sqrt(1.0 / with_prior)};
        it.next = {it.posterior.mean, std::sqrt(1.0 / with_prior + lot)};
        constexpr int k_often = 3;
        constexpr double k_beyond_chance = 1.96;
        if (forecasts > 0) it.surprise = surprises / forecasts;
        it.wrong = forecasts >= k_often && std::abs(it.surprise) * std::sqrt(double(forecasts)) > k_beyond_chance;
        it.words = "the table has " + points_text(it.prior) + "; " + std::to_string(it.tastings) +
                   (it.tastings == 1 ? " portion says " : " portions say ") + points_text(it.data) +
                   "; together, for the next one, " + points_text(it.next);
        if (it.wrong)
            it.words += ". The forecast was wrong the same way " + std::to_string(forecasts) +
                        " times: do not go by the table here";
        all.push_back(std::move(it));
    }
    return all;
}

std::vector<tables::Effect> effects_with(const std::vector<tables::Effect>& effects,
                                         const std::vector<Learned>& learned) {
    std::vector<tables::Effect> all = effects;
    for (const Learned& one : learned) {
        bool taught = false;
        for (tables::Effect& row : all) {
            if (row.technique != one.technique || row.way != one.way || row.attribute != one.attribute ||
                row.applies_to != one.applies_to)
                continue;
            const double shift = one.next.mean - row.mean_total;
            const double narrower = row.sd_total > 0.0 ? one.next.sd / row.sd_total : 1.0;
            row.mean_total = one.next.mean;
            row.sd_total = one.next.sd;
            row.mean_beyond += shift;
            row.sd_beyond *= narrower;
            taught = true;
        }
        if (taught) continue;
        tables::Effect row;
        row.technique = one.technique;
        row.way = one.way;
        row.attribute = one.attribute;
        row.applies_to = one.applies_to;
        row.mean_total = row.mean_beyond = one.next.mean;
        row.sd_total = row.sd_beyond = one.next.sd;
        row.words = "no row of the table; from own tastings";
        row.source = "this book";
        all.push_back(std::move(row));
    }
    return all;
}

}  // namespace undercroft::engine::finish

#include "engine/age/age.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace undercroft::engine {
namespace {

// Ages of one lot at `when`: at the young end, the middle and the old end of the range it lies in.
struct LotAge {
    double low = 0.0;
    double middle = 0.0;
    double high = 0.0;
};

constexpr double k_days_per_year = 365.25;

LotAge age_of_lot(const ledger::LotState& lot, Instant when, const Zone& zone, AgeFrom from) {
    const double since_entry = std::max(0.0, years_between(lot.entered, when));
    // A refill of young beer counts from its entry only where its brew day does not matter; liquid whose age
    // is a remembered range was old when it entered, whatever the convention.
    const bool ranged = lot.brewed_from && lot.brewed_to && *lot.brewed_from != *lot.brewed_to;
    if (!lot.brewed_from || (from == AgeFrom::entry && !ranged)) return {since_entry, since_entry, since_entry};
    const Day today = day_of(when, zone);
    const double old_end = std::max(0.0, days_between(*lot.brewed_from, today) / k_days_per_year);
    const double young_end =
        std::max(0.0, days_between(lot.brewed_to.value_or(*lot.brewed_from), today) / k_days_per_year);
    return {young_end, (young_end + old_end) / 2.0, old_end};
}

// Found liquid stands for the vessel's own make-up at that moment: its share is spread over the lots of it.
// Lots are numbered in the order of the book, so a found lot only ever points at earlier ones.
std::vector<double> with_found_spread(const ledger::Cellar& cellar, std::vector<double> shares) {
    for (std::size_t i = shares.size(); i-- > 0;) {
        const ledger::LotState& lot = cellar.lots[i];
        if (lot.like == ledger::k_no_node || shares[i] == 0.0) continue;
        const std::vector<double> like = cellar.graph.shares(lot.like, i);
        for (std::size_t k = 0; k < like.size(); ++k) shares[k] += shares[i] * like[k];
        shares[i] = 0.0;
    }
    return shares;
}

}  // namespace

const char* word(AgeFrom value) {
    return value == AgeFrom::brew_day ? "brew day" : "entry";
}

std::optional<Age> age_of(const ledger::Cellar& cellar, const ledger::Liquid& liquid, Instant when, const Zone& zone,
                          AgeFrom from) {
    if (liquid.node == ledger::k_no_node) return std::nullopt;
    const std::vector<double> shares = with_found_spread(cellar, cellar.shares(liquid));
    Age age;
    age.from = from;
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (shares[i] > 0.0 && cellar.lots[i].kind == ledger::LotKind::beer) age.beer_share += shares[i];
    if (age.beer_share <= 0.0) return std::nullopt;

    constexpr double k_counts_as_youngest = 0.001;
    constexpr double k_assumed_matters = 0.01;
    double squares = 0.0;
    double assumed_share = 0.0;
    bool have_youngest = false;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (shares[i] <= 0.0) continue;
        const ledger::LotState& lot = cellar.lots[i];
        if (lot.kind != ledger::LotKind::beer) {
            age.others.push_back({lot.name, lot.kind, shares[i]});
            continue;
        }
        const double share = shares[i] / age.beer_share;
        const LotAge own = age_of_lot(lot, when, zone, from);
        age.parts.push_back(
            {static_cast<int>(i), lot.name, share, own.middle, (own.high - own.low) / 2.0, lot.age_assumed});
        age.mean_years += share * own.middle;
        age.low_years += share * own.low;
        age.high_years += share * own.high;
        squares += share * share;
        if (lot.age_assumed) assumed_share += share;
        if (share >= k_counts_as_youngest && (!have_youngest || own.middle < age.youngest_years)) {
            have_youngest = true;
            age.youngest_years = own.middle;
            age.youngest_name = lot.name;
            age.youngest_share = share;
        }
    }
    double variance = 0.0;
    for (const VintagePart& part : age.parts)
        variance += part.share * (part.age_years - age.mean_years) * (part.age_years - age.mean_years);
    age.sd_years = std::sqrt(variance);
    age.effective_vintages = 1.0 / squares;
    age.assumed = assumed_share >= k_assumed_matters;
    const auto larger = [](const auto& a, const auto& b) { return a.share > b.share; };
    std::stable_sort(age.parts.begin(), age.parts.end(), larger);
    std::stable_sort(age.others.begin(), age.others.end(), larger);
    return age;
}

double years_of_lot(const ledger::LotState& lot, Instant when, const Zone& zone, AgeFrom from) {
    return age_of_lot(lot, when, zone, from).middle;
}

double share_older_than(const Age& age, double years) {
    return std::accumulate(age.parts.begin(), age.parts.end(), 0.0, [years](double sum, const VintagePart& part) {
        return part.age_years >= years - k_birthday_years ? sum + part.share : sum;
    });
}

}  // namespace undercroft::engine

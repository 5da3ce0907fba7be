#include "engine/age/remembered.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <string>

#include "units/amount.hpp"

namespace undercroft::engine {
namespace {

constexpr double k_small_lot = 0.01;  // older refills below it become one lot

int refills_between(double last_years_ago, double founded_years_ago, double interval) {
    if (last_years_ago >= founded_years_ago) return 0;
    return static_cast<int>(std::ceil((founded_years_ago - last_years_ago) / interval - 1e-9));
}

std::string refills_text(int least, int most) {
    return least == most ? std::to_string(least) : std::to_string(least) + " to " + std::to_string(most);
}

// "0.1 %", and more digits where it takes them to be more than nothing.
std::string small_percent(double share) {
    if (share < 1e-6) return "less than 0.0001 %";
    return percent_text(share, share < 0.0005 ? 4 : share < 0.0995 ? 1 : 0);
}

Failure contradiction(const SoleraMemory& memory, const RememberedSolera& so_far, double least_left, double most_left) {
    const double left = *memory.original_share;
    const double turns = so_far.refills;
    const double fitting_share = 1.0 - std::pow(left, 1.0 / turns);
    const double fitting_turns = std::log(left) / std::log(1.0 - memory.share);
    return fail(
        ErrorKind::impossible, "original",
        "These answers cannot all be true: " + std::to_string(so_far.refills) + " refills of " +
            percent_text(memory.share, 0) + " leave " + small_percent(so_far.original_share) +
            " of the first fill, not " + small_percent(left) + ".",
        {{"founded", duration_text(memory.founded.least) + " to " + duration_text(memory.founded.most) + " ago"},
         {"refills since", refills_text(so_far.least_refills, so_far.most_refills)},
         {"left by memory's slack", small_percent(least_left) + " to " + small_percent(most_left)},
         {"would fit", "a share of " + percent_text(fitting_share, 1) + " a turn"},
         {"or", number_text(fitting_turns, 1) + " refills: one every " +
                    duration_text(memory.founded.middle() / std::max(fitting_turns, 1e-9))}},
        "Leave out the answer you trust least, or give it as a range.");
}

}  // namespace

std::vector<Volume> shared_out(Volume total, const std::vector<double>& shares) {
    const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
    std::vector<Volume> parts;
    std::int64_t given = 0;
    double reached = 0.0;
    for (const double share : shares) {
        reached += share;
        const auto until =
            static_cast<std::int64_t>(std::llround(static_cast<double>(total.ul()) * std::min(1.0, reached / sum)));
        parts.push_back(Volume::from_ul(until - given));
        given = until;
    }
    if (!parts.empty()) parts.back() += Volume::from_ul(total.ul() - given);
    return parts;
}

Result<RememberedSolera> remembered_solera(const SoleraMemory& memory) {
    const double interval = memory.interval_years;
    const YearsAgo last = memory.last_refill.value_or(YearsAgo{0.0, std::min(interval, memory.founded.most)});
    if (memory.share <= 0.0 || memory.share >= 1.0)
        return fail(ErrorKind::bad_input, "share",
                    percent_text(memory.share, 0) + " a turn is no solera: a share between nothing and all is pulled.");
    if (last.least > memory.founded.most)
        return fail(ErrorKind::impossible, "founded", "It was last refilled before it was founded.",
                    {{"founded at most", duration_text(memory.founded.most) + " ago"},
                     {"last refilled at least", duration_text(last.least) + " ago"}},
                    "Check the two days.");
    RememberedSolera result;
    result.share = memory.share;
    result.refills = refills_between(last.middle(), memory.founded.middle(), interval);
    result.least_refills = refills_between(last.most, memory.founded.least, interval * (1.0 + k_memory_slack));
    result.most_refills = refills_between(last.least, memory.founded.most, interval * (1.0 - k_memory_slack));
    result.original_share = std::pow(1.0 - memory.share, result.refills);
    if (memory.original_share) {
        const double most_share = std::min(0.999, memory.share * (1.0 + k_memory_slack));
        const double least_left = std::pow(1.0 - most_share, result.most_refills);
        const double most_left = std::pow(1.0 - memory.share * (1.0 - k_memory_slack), result.least_refills);
        if (*memory.original_share < least_left || *memory.original_share > most_left)
            return contradiction(memory, result, least_left, most_left);
        if (result.refills > 0 && *memory.original_share < 1.0) {
            result.share = 1.0 - std::pow(*memory.original_share, 1.0 / result.refills);
            result.original_share = *memory.original_share;
        }
    }

    const double f = result.share;
    const auto refill_years = [&](int k) {  // of the k-th refill back, 1 the last
        const double back = (k - 1) * interval;
        YearsAgo brewed{last.least + back * (1.0 - k_remembered_spread),
                        last.most + back * (1.0 + k_remembered_spread)};
        brewed.most = std::min(brewed.most, memory.founded.most);
        brewed.least = std::min(brewed.least, brewed.most);
        return brewed;
    };
    double left = 1.0;
    for (int k = 1; k <= result.refills; ++k) {
        const double share = f * left;
        left *= 1.0 - f;
        if (!result.lots.empty() && share < k_small_lot) {
            // From here on every refill is smaller still: one lot, from this one to the oldest.
            RememberedLot rest;
            rest.from_refill = k;
            rest.to_refill = result.refills;
            rest.share = share / f * (1.0 - std::pow(1.0 - f, result.refills - k + 1));
            rest.brewed = {refill_years(k).least, refill_years(result.refills).most};
            left = result.original_share;
            result.lots.push_back(rest);
            break;
        }
        result.lots.push_back({k, k, false, share, refill_years(k)});
    }
    if (!result.lots.empty() && left < k_small_lot) {
        RememberedLot& oldest = result.lots.back();
        oldest.first_fill = true;
        oldest.share += left;
        oldest.brewed.most = memory.founded.most;
    } else {
        result.lots.push_back({0, 0, true, left, memory.founded});
    }
    double mean = 0.0;
    for (const RememberedLot& lot : result.lots) mean += lot.share * lot.brewed.middle();
    result.mean_years = mean;
    return result;
}

Result<NarrowedLots> narrowed(const std::vector<DatedVolume>& lots, const Find& find) {
    NarrowedLots result;
    result.lots = lots;
    Volume then;  // of what is there now, this much was there on that day
    std::optional<std::size_t> found;
    std::string ranges;
    for (std::size_t i = 0; i < lots.size(); ++i) {
        const YearsAgo& brewed = lots[i].brewed;
        if (brewed.middle() >= find.seen_years_ago) then += lots[i].volume;
        const bool meets = brewed.least <= find.brewed.most && brewed.most >= find.brewed.least;
        if (!meets || brewed.middle() < find.seen_years_ago) continue;
        const auto distance = [&](std::size_t k) { return std::fabs(lots[k].brewed.middle() - find.brewed.middle()); };
        if (!found || distance(i) < distance(*found)) found = i;
    }
    const auto ago = [](const YearsAgo& years) {
        return duration_text(years.least) + " to " + duration_text(years.most) + " ago";
    };
    if (!found) {
        std::vector<Fact> facts{{"the find was brewed", ago(find.brewed)},
                                {"and seen", duration_text(find.seen_years_ago) + " ago"}};
        for (const DatedVolume& lot : lots)
            facts.push_back({"remembered", text_of(lot.volume) + " brewed " + ago(lot.brewed)});
        return fail(ErrorKind::impossible, "known", "No remembered beer of that vessel can be that brew.",
                    std::move(facts), "Check the days; or void the remembered lots and remember it anew.");
    }
    const Volume others = then - lots[*found].volume;
    if (others == Volume{}) {
        const std::vector<Volume> halves = shared_out(then, {find.share, 1.0 - find.share});
        if (halves[1] > Volume{}) result.rest = DatedVolume{lots[*found].brewed, halves[1]};
        result.lots[*found] = {find.brewed, halves[0]};
        result.found = *found;
        return result;
    }
    std::vector<double> shares;
    std::vector<std::size_t> which;
    for (std::size_t i = 0; i < lots.size(); ++i) {
        if (lots[i].brewed.middle() < find.seen_years_ago) continue;
        which.push_back(i);
        shares.push_back(i == *found ? find.share
                                     : (1.0 - find.share) * lots[i].volume.in_litres() / others.in_litres());
    }
    const std::vector<Volume> parts = shared_out(then, shares);
    for (std::size_t k = 0; k < which.size(); ++k) result.lots[which[k]].volume = parts[k];
    result.lots[*found].brewed = find.brewed;
    result.found = *found;
    return result;
}

}  // namespace undercroft::engine

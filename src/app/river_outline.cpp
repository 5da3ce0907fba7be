#include "app/river_outline.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace undercroft::app {
namespace {

// ISO days compare as they follow; a lot nobody knows the day of stands where it came in.
const std::string& day_brewed(const RiverLot& lot) {
    return lot.brewed_to.empty() ? lot.brewed_from : lot.brewed_to;
}

void keep_steps(std::vector<RiverStep>& steps, std::size_t most) {
    const std::size_t entries = steps.size() / 2;  // right before, and right after
    const std::size_t kept = std::max<std::size_t>(2, most / 2);
    if (entries <= kept) return;
    std::vector<RiverStep> few;
    for (std::size_t i = 0; i < kept; ++i) {
        const std::size_t entry = i * (entries - 1) / (kept - 1);
        few.push_back(std::move(steps[2 * entry]));
        few.push_back(std::move(steps[2 * entry + 1]));
    }
    steps = std::move(few);
}

void join_lots(RiverView& river, std::size_t most) {
    std::vector<std::size_t> order(river.lots.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const RiverLot& one = river.lots[a];
        const RiverLot& other = river.lots[b];
        if (one.kind != other.kind) return one.kind < other.kind;
        if (one.assumed != other.assumed) return one.assumed > other.assumed;
        const std::string& day = day_brewed(one);
        const std::string& its_day = day_brewed(other);
        return !day.empty() && !its_day.empty() && day < its_day;
    });
    const std::size_t together = (river.lots.size() + most - 1) / most;
    std::vector<RiverLot> joined;
    std::vector<int> serials(river.lots.size() + 1, 0);
    std::size_t in_last = 0;
    for (const std::size_t i : order) {
        RiverLot& lot = river.lots[i];
        const bool goes_on =
            in_last > 0 && in_last < together && joined.back().kind == lot.kind && joined.back().assumed == lot.assumed;
        const int serial = lot.serial;
        if (goes_on) {
            RiverLot& last = joined.back();
            last.name = last.name.substr(0, last.name.find(" to ")) + " to " + lot.name;
            if (!lot.brewed_to.empty()) last.brewed_to = std::max(last.brewed_to, lot.brewed_to);
            if (!lot.brewed_from.empty() && (last.brewed_from.empty() || lot.brewed_from < last.brewed_from))
                last.brewed_from = lot.brewed_from;
            ++in_last;
        } else {
            joined.push_back(std::move(lot));
            joined.back().serial = static_cast<int>(joined.size());
            in_last = 1;
        }
        serials[static_cast<std::size_t>(serial)] = joined.back().serial;
    }
    river.lots = std::move(joined);
    std::vector<Volume> volumes(river.lots.size() + 1);
    for (RiverStep& step : river.steps) {
        std::fill(volumes.begin(), volumes.end(), Volume{});
        for (const RiverPart& part : step.parts)
            volumes[static_cast<std::size_t>(serials[static_cast<std::size_t>(part.serial)])] += part.volume;
        step.parts.clear();
        for (std::size_t serial = 1; serial < volumes.size(); ++serial)
            if (volumes[serial] > Volume{}) step.parts.push_back({static_cast<int>(serial), volumes[serial]});
    }
}

}  // namespace

RiverView outline_of(RiverView river, std::size_t most_lots, std::size_t most_steps) {
    if (most_steps > 0) keep_steps(river.steps, most_steps);
    if (most_lots > 0 && river.lots.size() > most_lots) join_lots(river, most_lots);
    return river;
}

}  // namespace undercroft::app

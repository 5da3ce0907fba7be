// The dates of a fruited pull: worked back from the pull to the order, and on from it to the gas check.
//
// Holds: durations, lags and words come from data/tasks.csv; only the order of the tasks is known here, and a test
// holds it against the table's prerequisites. Every task before the pull is over when the beer is pulled.
// Leaves out: hands, vessels and other soleras in the way; a date says when to look, and the reading decides.
#pragma once

#include <string>
#include <vector>

#include "base/instant.hpp"
#include "base/result.hpp"
#include "engine/fruit/plan.hpp"
#include "tables/tables.hpp"

namespace undercroft::engine::fruit {

// Ids of data/tasks.csv, in order of starting.
struct TaskChain {
    std::vector<std::string> before;  // each done before the next starts, the last before the pull
    std::vector<std::string> on_pull_day;
    std::vector<std::string> after;
};
[[nodiscard]] TaskChain chain_for(tables::FruitForm form, Way way, const std::string& watch);

// Fails: not_found when data/tasks.csv lacks one of them.
[[nodiscard]] Result<std::vector<PlannedTask>> dates_for(const tables::Tables& tables, const TaskChain& chain,
                                                         Day pull);

}  // namespace undercroft::engine::fruit

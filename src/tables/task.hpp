// The tasks of a turn, how long they take and what comes before them (data/tasks.csv).
//
// Holds: min <= typical <= max; every prerequisite names a task of the table, and none leads back to itself.
// Leaves out: dates. A schedule is worked out elsewhere.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

enum class TaskUnit { hours, days };
enum class TaskScope { clean, sour, both };

struct Task {
    std::string id;
    std::string name;
    std::string phase;
    TaskUnit unit = TaskUnit::hours;
    double duration_min = 0.0;  // in `unit`
    double duration_typical = 0.0;
    double duration_max = 0.0;
    double hands_on_min_per_20_l = 0.0;  // minutes per 20 L
    double hands_on_fixed_min = 0.0;     // minutes
    std::string vessel_need;
    bool holds_vessel = false;
    // All of the outer list must be done, each by any one of its inner list.
    std::vector<std::vector<std::string>> prerequisites;
    std::optional<double> lag_min_days;  // after the prerequisite
    std::optional<double> lag_max_days;
    std::string done_when;
    std::string if_not_done;
    TaskScope scope = TaskScope::both;
    std::string cautions;
    char mark = 'P';
    std::string source;
};

[[nodiscard]] Result<const Task*> find_task(const std::vector<Task>& all, std::string_view wanted);
[[nodiscard]] Result<std::vector<Task>> parse_tasks(std::string_view csv, std::string file);

}  // namespace undercroft::tables

#include "tables/task.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

// "a;b|c": a, and one of b and c.
Result<std::vector<std::vector<std::string>>> read_prerequisites(const CsvRow& row) {
    std::vector<std::vector<std::string>> all;
    TRY(const std::vector<std::string> terms, row.list("prerequisites", ';'));
    for (const std::string& term : terms) {
        std::vector<std::string> any(1);
        for (const char c : term) {
            if (c == '|') {
                any.emplace_back();
            } else {
                any.back().push_back(c);
            }
        }
        all.push_back(std::move(any));
    }
    return all;
}

Result<Task> read_task(const CsvRow& row) {
    constexpr Range k_duration_range{0.0, 1000.0};
    constexpr Range k_lag_range{0.0, 1000.0};
    constexpr Range k_minutes_range{0.0, 1440.0};
    Task task;
    TRY(task.id, row.id("id"));
    TRY(task.name, row.text("name"));
    TRY(task.phase, row.text("phase"));
    TRY(task.unit, row.word<TaskUnit>("unit", {{"h", TaskUnit::hours}, {"d", TaskUnit::days}}));
    TRY(task.duration_min, row.number("duration_min", k_duration_range));
    TRY(task.duration_typical, row.number("duration_typical", k_duration_range));
    TRY(task.duration_max, row.number("duration_max", k_duration_range));
    if (task.duration_min > task.duration_typical || task.duration_typical > task.duration_max) {
        return row.refuse("duration_typical", "a duration between duration_min and duration_max");
    }
    TRY(task.hands_on_min_per_20_l, row.number("hands_on_min_per_20L", k_minutes_range));
    TRY(task.hands_on_fixed_min, row.number("hands_on_fixed_min", k_minutes_range));
    TRY(task.vessel_need, row.text("vessel_need"));
    TRY(task.holds_vessel, row.word<bool>("holds_vessel_for_duration", {{"yes", true}, {"no", false}}));
    TRY(task.prerequisites, read_prerequisites(row));
    TRY(task.lag_min_days, row.number_or_empty("lag_after_prerequisite_min_d", k_lag_range));
    TRY(task.lag_max_days, row.number_or_empty("lag_after_prerequisite_max_d", k_lag_range));
    if (task.lag_min_days.value_or(0.0) > task.lag_max_days.value_or(1000.0)) {
        return row.refuse("lag_after_prerequisite_min_d", "no more than lag_after_prerequisite_max_d");
    }
    TRY(task.done_when, row.text("done_when"));
    TRY(task.if_not_done, row.text_or_empty("if_not_done"));
    TRY(task.scope,
        row.word<TaskScope>("applies_to",
                            {{"both", TaskScope::both}, {"sour", TaskScope::sour}, {"clean", TaskScope::clean}}));
    TRY(task.cautions, row.text_or_empty("cautions"));
    TRY(task.mark, read_mark(row));
    TRY(task.source, row.text("source"));
    return task;
}

// Ticks off tasks whose prerequisites are all ticked off; what stays waits for itself.
Result<void> check_order(const std::vector<Task>& tasks, const std::string& file) {
    std::set<std::string> known;
    for (const Task& task : tasks) known.insert(task.id);
    for (const Task& task : tasks) {
        for (const auto& any : task.prerequisites) {
            for (const std::string& id : any) {
                if (!known.contains(id)) {
                    return fail(ErrorKind::bad_input, file + ", column prerequisites of \"" + task.id + "\"",
                                "\"" + id + "\": expected the id of a task.");
                }
            }
        }
    }
    std::set<std::string> done;
    const auto ready = [&](const Task& task) {
        return std::all_of(task.prerequisites.begin(), task.prerequisites.end(), [&](const auto& any) {
            return std::any_of(any.begin(), any.end(), [&](const std::string& id) { return done.contains(id); });
        });
    };
    for (std::size_t before = tasks.size() + 1; before != done.size();) {
        before = done.size();
        for (const Task& task : tasks) {
            if (ready(task)) done.insert(task.id);
        }
    }
    for (const Task& task : tasks) {
        if (!done.contains(task.id)) {
            return fail(ErrorKind::bad_input, file + ", column prerequisites of \"" + task.id + "\"",
                        "The task can never start: expected prerequisites that do not lead back to it.");
        }
    }
    return {};
}

}  // namespace

Result<const Task*> find_task(const std::vector<Task>& all, std::string_view wanted) {
    return look_up_by_name(all, wanted, "task");
}

Result<std::vector<Task>> parse_tasks(std::string_view csv, std::string file) {
    TRY(std::vector<Task> all, read_rows<Task>(csv, file, read_task));
    TRY_VOID(require_unique(all, file, [](const Task& task) { return task.id; }));
    TRY_VOID(check_order(all, file));
    return all;
}

}  // namespace undercroft::tables

#include "engine/fruit/dates.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>

#include "units/amount.hpp"

namespace undercroft::engine::fruit {

namespace {

constexpr std::int64_t k_minutes_a_day = 24 * 60;
// The beer is pulled in the evening, so that the eight hours of the enzyme before a pitch fall into one day.
constexpr std::int64_t k_pull_minute = 18 * 60;

// What the fruit changes about a task, beside the table's own caution.
const std::map<std::string, std::string>& added_words() {
    static const std::map<std::string, std::string> k_words = {
        {"pull", "pull on the day the fruit is still, not before"},
        {"pitch_fruit_yeast", "a killer wine yeast never goes back into a solera"},
        {"fruit_ferment", "never seal it"},
        {"age_on_fruit", "air lock on: the fruit's sugar or acid may still make gas"},
    };
    return k_words;
}

std::int64_t minutes_of(const tables::Task& task) {
    const double minutes = task.duration_typical * (task.unit == tables::TaskUnit::hours ? 60.0 : 24.0 * 60.0);
    return std::llround(minutes);
}

std::int64_t lag_of(const tables::Task& task) {
    return std::llround(task.lag_min_days.value_or(0.0) * 24.0 * 60.0);
}

std::string lasts_of(const tables::Task& task) {
    const auto whole = [](double value) { return number_text(value, value == std::floor(value) ? 0 : 1); };
    if (task.unit == tables::TaskUnit::days) {
        return whole(task.duration_typical) + (task.duration_typical == 1.0 ? " day" : " days");
    }
    return task.duration_typical < 1.5 ? "" : whole(task.duration_typical) + " h";
}

// `start` counts minutes from midnight of the pull day.
PlannedTask planned(const tables::Task& task, std::int64_t start, Day pull) {
    std::int64_t day = start / k_minutes_a_day;
    if (start % k_minutes_a_day < 0) --day;
    PlannedTask one;
    one.day = add_days(pull, static_cast<int>(day));
    one.task = task.id;
    one.name = task.name;
    one.lasts = lasts_of(task);
    one.done_when = task.done_when;
    one.caution = task.cautions;
    if (const auto added = added_words().find(task.id); added != added_words().end()) {
        one.caution += (one.caution.empty() ? "" : "; ") + added->second;
    }
    return one;
}

Result<std::vector<const tables::Task*>> tasks_of(const tables::Tables& tables, const std::vector<std::string>& ids) {
    std::vector<const tables::Task*> tasks;
    for (const std::string& id : ids) {
        TRY(const tables::Task* task, tables.find_task(id));
        tasks.push_back(task);
    }
    return tasks;
}

}  // namespace

TaskChain chain_for(tables::FruitForm form, Way way, const std::string& watch) {
    TaskChain chain;
    chain.before = {"order_fruit"};
    // Fresh fruit is frozen, which breaks its cells; dried, canned and juice have nothing to thaw.
    if (form == tables::FruitForm::fresh) chain.before.push_back("freeze_fruit");
    if (form == tables::FruitForm::fresh || form == tables::FruitForm::frozen) chain.before.push_back("thaw_fruit");
    chain.before.push_back("enzyme");
    if (way == Way::pre_fermented) {
        for (const char* id : {"pitch_fruit_yeast", "fruit_ferment", "fruit_check"}) chain.before.push_back(id);
    }
    chain.on_pull_day = {"clean_sanitise", "pull", "portion_split",
                         way == Way::pre_fermented ? "rack_onto_fruit" : "fruit_into_beer"};
    chain.after = {"age_on_fruit", "rack_off_fruit", watch, "forced_test", "package_check"};
    return chain;
}

Result<std::vector<PlannedTask>> dates_for(const tables::Tables& tables, const TaskChain& chain, Day pull) {
    TRY(const auto before, tasks_of(tables, chain.before));
    TRY(const auto on_pull_day, tasks_of(tables, chain.on_pull_day));
    TRY(const auto after, tasks_of(tables, chain.after));

    std::vector<PlannedTask> dates;
    std::int64_t until = k_pull_minute;  // by when the task in hand must be over
    for (auto task = before.rbegin(); task != before.rend(); ++task) {
        const std::int64_t start = until - minutes_of(**task);
        dates.push_back(planned(**task, start, pull));
        until = start - lag_of(**task);
    }
    std::reverse(dates.begin(), dates.end());

    for (const tables::Task* task : on_pull_day) dates.push_back(planned(*task, k_pull_minute, pull));

    // A task of hours is over the same evening; the forced test runs beside the stability watch.
    std::int64_t start = k_pull_minute;
    std::int64_t still_to_run = 0;
    for (const tables::Task* task : after) {
        if (task->id != "forced_test") {
            start += still_to_run + lag_of(*task);
            still_to_run = task->unit == tables::TaskUnit::days ? minutes_of(*task) : 0;
        }
        dates.push_back(planned(*task, start, pull));
    }
    return dates;
}

}  // namespace undercroft::engine::fruit

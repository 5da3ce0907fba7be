// Prints, after the runs, how many times faster each row was than the baseline of its group: by the least CPU time of
// all repetitions, since the machine may be busy with other things.
#pragma once

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdio>
#include <map>
#include <string>
#include <vector>

namespace undercroft::bench {

struct Row {
    std::string group;
    std::string name;
    bool is_baseline = false;
    double target = 0.0;  // times the baseline; 0 when none is set
};

class RatioReporter : public benchmark::ConsoleReporter {
public:
    explicit RatioReporter(std::vector<Row> rows) : benchmark::ConsoleReporter(OO_None), m_rows(std::move(rows)) {}

    void ReportRuns(const std::vector<Run>& runs) override {
        for (const Run& run : runs) {
            if (run.run_type != Run::RT_Iteration || run.error_occurred) continue;
            const double seconds = run.cpu_accumulated_time / static_cast<double>(run.iterations);
            const auto [known, is_new] = m_least.emplace(run.run_name.function_name, seconds);
            known->second = std::min(known->second, seconds);
            for (const auto& [name, counter] : run.counters) m_counters[run.run_name.function_name][name] = counter;
        }
        benchmark::ConsoleReporter::ReportRuns(runs);
    }

    void print_table() const {
        std::printf("\n%-44s %-28s %12s %9s %8s  %s\n", "work", "by", "least CPU", "ratio", "target", "");
        for (const Row& row : m_rows) {
            const auto found = m_least.find(row.group + "/" + row.name);
            if (found == m_least.end()) continue;
            const double baseline = baseline_of(row.group);
            std::printf("%-44s %-28s %9.3f ms", row.group.c_str(), row.name.c_str(), found->second * 1e3);
            if (baseline > 0.0)
                std::printf(" %9.3g", baseline / found->second);
            else
                std::printf(" %9s", "");
            if (row.target > 0.0)
                std::printf(" %8g", row.target);
            else
                std::printf(" %8s", "");
            if (const auto counters = m_counters.find(found->first); counters != m_counters.end())
                for (const auto& [name, value] : counters->second) std::printf("  %s %.4g", name.c_str(), value);
            std::printf("\n");
        }
    }

private:
    [[nodiscard]] double baseline_of(const std::string& group) const {
        for (const Row& row : m_rows)
            if (row.group == group && row.is_baseline)
                if (const auto found = m_least.find(group + "/" + row.name); found != m_least.end())
                    return found->second;
        return 0.0;
    }

    std::vector<Row> m_rows;
    std::map<std::string, double> m_least;
    std::map<std::string, std::map<std::string, double>> m_counters;
};

}  // namespace undercroft::bench

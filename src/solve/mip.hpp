// Linear programmes, some of whose columns are whole numbers: the least cost under rows of limits, proven or with the
// true gap to what could still be better.
//
// Holds: the same programme with time enough gives the same answer. The vendor (Cbc, with Clp below it) stays in the
// .cpp.
#pragma once

#include <functional>
#include <limits>
#include <utility>
#include <vector>

namespace undercroft::solve {

inline constexpr double k_no_limit = std::numeric_limits<double>::infinity();

struct Column {
    double low = 0.0;
    double high = k_no_limit;
    double cost = 0.0;  // of one of it; the sum is made least
    bool whole = false;
};

struct Row {
    double low = -k_no_limit;
    double high = k_no_limit;
    std::vector<std::pair<int, double>> terms;  // column, factor
};

struct Program {
    std::vector<Column> columns;
    std::vector<Row> rows;

    int add(const Column& column) {
        columns.push_back(column);
        return static_cast<int>(columns.size()) - 1;
    }
    int add(Row row) {
        rows.push_back(std::move(row));
        return static_cast<int>(rows.size()) - 1;
    }
};

enum class Standing {
    proven,      // no other is better, but for rounding
    found,       // the best so far when the time was over or somebody gave up
    infeasible,  // the rows contradict each other
    unbounded,   // the cost falls for ever
    nothing,     // no answer yet when the time was over
};

struct Answer {
    Standing standing = Standing::nothing;
    double cost = 0.0;           // of `values`
    double bound = -k_no_limit;  // none is below it
    std::vector<double> values;  // one a column; empty without an answer
    [[nodiscard]] bool has_values() const { return standing == Standing::proven || standing == Standing::found; }
};

struct Effort {
    double seconds = 10.0;  // by the clock on the wall
    std::function<bool()> given_up = {};
};

// Terms name columns that are there, and limits are no NaN: else std::invalid_argument, a bug of whoever asks.
[[nodiscard]] Answer least_cost(const Program& program, const Effort& effort = {});

}  // namespace undercroft::solve

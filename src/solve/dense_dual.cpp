#include "solve/dense_dual.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/index.hpp"

namespace undercroft::solve {

namespace {
constexpr double k_off = 1e-9;    // a value outside its limits
constexpr double k_pivot = 1e-9;  // smallest element to turn on
constexpr int k_most_pivots = 2000;
}  // namespace

DenseDual::DenseDual(int rows, std::vector<Boxed> variables, std::vector<double> matrix, std::vector<double> right)
    : m_rows(rows),
      m_count(static_cast<int>(variables.size())),
      m_width(m_count + rows),
      m_variables(std::move(variables)),
      m_given(std::move(matrix)),
      m_right(std::move(right)) {
    m_variables.resize(at(m_width));  // slacks are fixed at zero
    m_table.assign(at(m_rows) * at(m_width), 0.0);
    m_reduced.assign(at(m_width), 0.0);
    m_at.assign(at(m_width), 0.0);
    m_basic.assign(at(m_width), 0);
    for (int j = 0; j < m_count; ++j) {
        m_reduced[at(j)] = m_variables[at(j)].cost;
        m_at[at(j)] = m_variables[at(j)].low;
    }
    for (int r = 0; r < m_rows; ++r) {
        const double* given = m_given.data() + static_cast<long>(r) * m_count;
        double* row = row_of(r);
        double rest = m_right[at(r)];
        for (int j = 0; j < m_count; ++j) {
            row[j] = given[j];
            rest -= given[j] * m_at[at(j)];
        }
        row[m_count + r] = 1.0;
        m_basis.push_back(m_count + r);
        m_basic[at(m_count + r)] = 1;
        m_at[at(m_count + r)] = rest;
    }
}

DenseDual::End DenseDual::run(double cutoff) {
    for (int turn = 0; turn < k_most_pivots; ++turn) {
        if (turn % 4 == 3 && bound() >= cutoff) return End::above_cutoff;
        int leaving = -1;
        double worst = k_off;
        for (int r = 0; r < m_rows; ++r) {
            const int b = m_basis[at(r)];
            const double off = std::max(m_variables[at(b)].low - m_at[at(b)], m_at[at(b)] - m_variables[at(b)].high);
            if (off > worst) {
                worst = off;
                leaving = r;
            }
        }
        if (leaving < 0) return End::optimal;
        const int out = m_basis[at(leaving)];
        const bool rises = m_at[at(out)] < m_variables[at(out)].low;
        const double* row = row_of(leaving);
        int entering = -1;
        double least = 0.0;
        for (int j = 0; j < m_count; ++j) {
            const Boxed& box = m_variables[at(j)];
            if (m_basic[at(j)] != 0 || box.high <= box.low || std::abs(row[j]) < k_pivot) continue;
            const bool at_low = m_at[at(j)] <= box.low;
            if (at_low != (rises == (row[j] < 0.0))) continue;
            const double ratio = std::abs(m_reduced[at(j)]) / std::abs(row[j]);
            if (entering < 0 || ratio < least - 1e-12 ||
                (ratio < least + 1e-12 && std::abs(row[j]) > std::abs(row[entering]))) {
                entering = j;
                least = ratio;
            }
        }
        if (entering < 0) return contradicts(leaving) ? End::infeasible : End::tired;
        const double goal = rises ? m_variables[at(out)].low : m_variables[at(out)].high;
        const double step = (m_at[at(out)] - goal) / row[entering];
        for (int r = 0; r < m_rows; ++r) m_at[at(m_basis[at(r)])] -= row_of(r)[entering] * step;
        m_at[at(entering)] += step;
        m_at[at(out)] = goal;
        pivot(leaving, entering);
    }
    return End::tired;
}

// Whether the rows, summed up as the tableau's row says, cannot hold within the limits: worked out of the matrix as
// given.
bool DenseDual::contradicts(int row) const {
    const double* factors = m_table.data() + static_cast<long>(row) * m_width + m_count;
    double right = 0.0;
    std::vector<double> sums(at(m_count), 0.0);
    for (int r = 0; r < m_rows; ++r) {
        right += factors[r] * m_right[at(r)];
        const double* given = m_given.data() + static_cast<long>(r) * m_count;
        for (int j = 0; j < m_count; ++j) sums[at(j)] += factors[r] * given[j];
    }
    double least = 0.0;
    double most = 0.0;
    double size = std::abs(right);
    for (int j = 0; j < m_count; ++j) {
        const double low = sums[at(j)] * m_variables[at(j)].low;
        const double high = sums[at(j)] * m_variables[at(j)].high;
        least += std::min(low, high);
        most += std::max(low, high);
        size += std::max(std::abs(low), std::abs(high));
    }
    const double hair = 1e-13 * size;
    return right < least - hair || right > most + hair;
}

void DenseDual::pivot(int row, int column) {
    double* turned = row_of(row);
    const double by = 1.0 / turned[column];
    for (int j = 0; j < m_width; ++j) turned[j] *= by;
    for (int r = 0; r < m_rows; ++r) {
        double* other = row_of(r);
        const double factor = other[column];
        if (r == row || factor == 0.0) continue;
        for (int j = 0; j < m_width; ++j) other[j] -= factor * turned[j];
        other[column] = 0.0;
    }
    const double factor = m_reduced[at(column)];
    for (int j = 0; j < m_width; ++j) m_reduced[at(j)] -= factor * turned[j];
    m_reduced[at(column)] = 0.0;
    m_basic[at(m_basis[at(row)])] = 0;
    m_basic[at(column)] = 1;
    m_basis[at(row)] = column;
}

std::vector<double> DenseDual::values() const {
    return {m_at.begin(), m_at.begin() + m_count};
}

double DenseDual::bound() const {
    double sum = 0.0;
    std::vector<double> reduced(at(m_count));
    for (int j = 0; j < m_count; ++j) reduced[at(j)] = m_variables[at(j)].cost;
    for (int r = 0; r < m_rows; ++r) {
        const double multiplier = -m_reduced[at(m_count + r)];
        if (multiplier == 0.0) continue;
        sum += multiplier * m_right[at(r)];
        const double* given = m_given.data() + static_cast<long>(r) * m_count;
        for (int j = 0; j < m_count; ++j) reduced[at(j)] -= multiplier * given[j];
    }
    for (int j = 0; j < m_count; ++j)
        sum += reduced[at(j)] * (reduced[at(j)] > 0.0 ? m_variables[at(j)].low : m_variables[at(j)].high);
    return sum;
}

}  // namespace undercroft::solve

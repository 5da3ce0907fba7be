// A dense dual simplex for programmes of some dozen rows. For the .cpp files of this folder.
//
// Rows are equalities; every variable has finite limits and a cost of zero or more, and stands at its lower limit at
// first, so that the start is dual feasible and one phase is enough.
#pragma once

#include <vector>

namespace undercroft::solve {

struct Boxed {
    double low = 0.0;
    double high = 0.0;
    double cost = 0.0;
};

class DenseDual {
public:
    // `matrix` by rows; variables of the slacks (fixed at zero) are added inside.
    DenseDual(int rows, std::vector<Boxed> variables, std::vector<double> matrix, std::vector<double> right);

    enum class End { optimal, infeasible, above_cutoff, tired };
    End run(double cutoff);

    [[nodiscard]] std::vector<double> values() const;
    // No choice of the variables within their limits costs less: from the multipliers and the matrix as given.
    [[nodiscard]] double bound() const;

private:
    void pivot(int row, int column);
    [[nodiscard]] bool contradicts(int row) const;
    [[nodiscard]] double* row_of(int row) { return m_table.data() + static_cast<long>(row) * m_width; }

    int m_rows;
    int m_count;  // without slacks
    int m_width;
    std::vector<Boxed> m_variables;  // with slacks
    std::vector<double> m_given;     // rows * m_count
    std::vector<double> m_right;
    std::vector<double> m_table;    // rows * m_width
    std::vector<double> m_reduced;  // m_width
    std::vector<double> m_at;       // value of every variable
    std::vector<int> m_basis;       // by row
    std::vector<char> m_basic;
};

}  // namespace undercroft::solve

#include "solve/mip.hpp"

#include <CbcEventHandler.hpp>
#include <CbcModel.hpp>
#include <CoinPackedMatrix.hpp>
#include <OsiClpSolverInterface.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace undercroft::solve {

namespace {

// Ends the search when somebody gives up.
class GivenUp : public CbcEventHandler {
public:
    explicit GivenUp(std::function<bool()> asked) : m_asked(std::move(asked)) {}
    CbcAction event(CbcEvent what) override {
        return what == CbcEventHandler::node && m_asked && m_asked() ? CbcEventHandler::stop
                                                                     : CbcEventHandler::noAction;
    }
    [[nodiscard]] CbcEventHandler* clone() const override { return new GivenUp(*this); }

private:
    std::function<bool()> m_asked;
};

double limit_of(double value) {
    if (std::isnan(value)) throw std::invalid_argument("a limit that is no number");
    return std::clamp(value, -COIN_DBL_MAX, COIN_DBL_MAX);
}

void load(OsiClpSolverInterface& solver, const Program& program) {
    CoinPackedMatrix matrix(false, 0.0, 0.0);
    matrix.setDimensions(0, static_cast<int>(program.columns.size()));
    std::vector<double> row_low;
    std::vector<double> row_high;
    for (const Row& row : program.rows) {
        std::vector<int> columns;
        std::vector<double> factors;
        for (const auto& [column, factor] : row.terms) {
            if (column < 0 || column >= static_cast<int>(program.columns.size()) || !std::isfinite(factor))
                throw std::invalid_argument("a term of no column");
            columns.push_back(column);
            factors.push_back(factor);
        }
        matrix.appendRow(static_cast<int>(columns.size()), columns.data(), factors.data());
        row_low.push_back(limit_of(row.low));
        row_high.push_back(limit_of(row.high));
    }
    std::vector<double> low;
    std::vector<double> high;
    std::vector<double> cost;
    for (const Column& column : program.columns) {
        low.push_back(limit_of(column.low));
        high.push_back(limit_of(column.high));
        cost.push_back(limit_of(column.cost));
    }
    solver.loadProblem(matrix, low.data(), high.data(), cost.data(), row_low.data(), row_high.data());
    for (std::size_t i = 0; i < program.columns.size(); ++i)
        if (program.columns[i].whole) solver.setInteger(static_cast<int>(i));
}

bool all_continuous(const Program& program) {
    return std::none_of(program.columns.begin(), program.columns.end(), [](const Column& one) { return one.whole; });
}

Answer linear(OsiClpSolverInterface& solver, std::size_t columns) {
    solver.initialSolve();
    Answer answer;
    if (solver.isProvenOptimal()) {
        answer.standing = Standing::proven;
        answer.cost = solver.getObjValue();
        answer.bound = answer.cost;
        answer.values.assign(solver.getColSolution(), solver.getColSolution() + columns);
    } else if (solver.isProvenPrimalInfeasible()) {
        answer.standing = Standing::infeasible;
    } else if (solver.isProvenDualInfeasible()) {
        answer.standing = Standing::unbounded;
    }
    return answer;
}

}  // namespace

Answer least_cost(const Program& program, const Effort& effort) {
    // Without rows or columns the vendor has nothing to stand on.
    if (program.columns.empty()) throw std::invalid_argument("a programme without columns");
    OsiClpSolverInterface solver;
    solver.messageHandler()->setLogLevel(0);
    solver.getModelPtr()->setLogLevel(0);
    load(solver, program);
    if (all_continuous(program)) return linear(solver, program.columns.size());

    CbcModel model(solver);
    model.setLogLevel(0);
    model.messageHandler()->setLogLevel(0);
    model.solver()->messageHandler()->setLogLevel(0);
    model.setUseElapsedTime(true);
    model.setMaximumSeconds(std::max(effort.seconds, 0.001));
    model.setAllowableGap(1e-9);
    model.setAllowableFractionGap(0.0);
    GivenUp given_up(effort.given_up);
    model.passInEventHandler(&given_up);
    model.branchAndBound();

    Answer answer;
    if (model.isProvenInfeasible()) {
        answer.standing = model.isContinuousUnbounded() ? Standing::unbounded : Standing::infeasible;
        return answer;
    }
    if (model.isContinuousUnbounded()) {
        answer.standing = Standing::unbounded;
        return answer;
    }
    const double* values = model.bestSolution();
    answer.bound = model.getBestPossibleObjValue();
    if (values == nullptr) return answer;
    answer.values.assign(values, values + program.columns.size());
    for (std::size_t i = 0; i < program.columns.size(); ++i)
        if (program.columns[i].whole) answer.values[i] = std::round(answer.values[i]);
    answer.cost = model.getObjValue();
    answer.standing = model.isProvenOptimal() ? Standing::proven : Standing::found;
    if (answer.standing == Standing::proven) answer.bound = answer.cost;
    return answer;
}

}  // namespace undercroft::solve

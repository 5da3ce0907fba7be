#define UNDERCROFT_LANES 1
#include "chem/charge_balance_kernel.hpp"

namespace undercroft::chem {

void solve_columns_by_one(const BalanceTask& task) {
    solve_columns(task);
}

}  // namespace undercroft::chem

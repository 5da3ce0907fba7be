#if defined(__x86_64__)
#define UNDERCROFT_LANES 4
#include "chem/charge_balance_kernel.hpp"

namespace undercroft::chem {

void solve_columns_by_four(const BalanceTask& task) {
    solve_columns(task);
}

}  // namespace undercroft::chem
#endif

#if defined(__x86_64__)
#define UNDERCROFT_LANES 8
#include "chem/charge_balance_kernel.hpp"

namespace undercroft::chem {

void solve_columns_by_eight(const BalanceTask& task) {
    solve_columns(task);
}

}  // namespace undercroft::chem
#endif

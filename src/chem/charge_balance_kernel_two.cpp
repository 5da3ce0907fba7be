#if defined(__x86_64__)
#define UNDERCROFT_LANES 2
#include "chem/charge_balance_kernel.hpp"

namespace undercroft::chem {

void solve_columns_by_two(const BalanceTask& task) {
    solve_columns(task);
}

}  // namespace undercroft::chem
#endif

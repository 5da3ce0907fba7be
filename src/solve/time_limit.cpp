#include "solve/time_limit.hpp"

#include <CoinTime.hpp>

namespace undercroft::solve {

TimeLimit::TimeLimit(const Effort& effort) : m_effort(effort), m_end(CoinGetTimeOfDay() + effort.seconds) {}

bool TimeLimit::over() const {
    return CoinGetTimeOfDay() >= m_end || (m_effort.given_up && m_effort.given_up());
}

}  // namespace undercroft::solve

// The canary bottle: one bottle of the run kept warm, whose pressure is looked at on a few dates. It shows early what
// the others will come to.
//
// Holds: of the draws of the gas check those stay that the canary's readings fit, the more often the better they fit;
// how full the other bottles are it does not tell. Priming and fruit sugar come in the first weeks, 10 to 28 days at
// 20 °C (common practice, no source); what cultures still ferment comes by the slowest of them and wakes late, or, in
// half of the draws, as fast as priming: so an early low reading rules hardly anything out, and a high one counts at
// once. One in twenty draws has cultures that take only a part of it, or nothing: too few to lower the band by
// themselves, and all that is left when the canary lies still for long. Twice as fast for ten degrees. A canary that
// shows more than the draws can explain speaks against the run; one that shows less leaks, and tells nothing. It takes
// the place of no watch over the gravity.
#pragma once

#include <span>
#include <vector>

#include "base/result.hpp"
#include "engine/package/gas_question.hpp"

namespace undercroft::engine::package {

struct Asked;
class Drawing;
struct Luck;

enum class CanaryVerdict { none, narrows, shows_more, leaks };

// The draws as the canary leaves them, as many as before. Move only: `luck` may look into `own`.
struct CanaryTold {
    CanaryVerdict verdict = CanaryVerdict::none;
    std::span<const Luck> luck;
    std::vector<Luck> own;

    CanaryTold() = default;
    CanaryTold(CanaryTold&&) = default;
    CanaryTold& operator=(CanaryTold&&) = default;
    CanaryTold(const CanaryTold&) = delete;
    CanaryTold& operator=(const CanaryTold&) = delete;
    ~CanaryTold() = default;
};
// `luck` must outlive the answer.
[[nodiscard]] CanaryTold told_by_canary(const GasQuestion& question, const Asked& asked, const Drawing& drawing,
                                        const std::vector<Luck>& luck);

// Fails: bad_input for days, warmth, pressure or a squeeze that cannot be.
[[nodiscard]] Result<void> canary_said_well(const std::vector<CanaryReading>& readings);

// How many times as fast a canary at `kept` runs as the bottles in `store`.
[[nodiscard]] double canary_speed(Temperature kept, Temperature store);
// Days to look at a canary at 30 °C, three of them, the last when what still ferments has nearly all come; empty:
// nothing alive, or nothing to come.
[[nodiscard]] std::vector<int> canary_days(const Asked& asked);

}  // namespace undercroft::engine::package

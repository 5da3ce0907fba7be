// How much stands in a vessel by a dip, a head space, a weight or the word "full", each with its spread.
//
// Holds: volumes rise with depth, are nothing at none and the brimful capacity at the inner height; lengths are
// measured inside, at the deepest place. What takes room in the vessel beside the liquid is the caller's to take off.
// The spreads are one standard deviation, common practice, no source; a keeper who knows better says so.
#pragma once

#include "base/result.hpp"
#include "ledger/entry.hpp"
#include "units/length.hpp"
#include "units/mass.hpp"
#include "units/volume.hpp"

namespace undercroft::engine {

inline constexpr Length k_dip_sd = Length::from_um(5'000);  // where the wet ends on a stick, and where the bottom is
inline constexpr Mass k_scale_sd = Mass::from_mg(200'000);  // each of two weighings on a platform scale
inline constexpr double k_shape_sd = 0.01;                  // of the volume: capacity and form are never quite as said
inline constexpr double k_marks_sd = 0.005;                 // likewise, by the marks of the vessel's own stick
inline constexpr double k_stated_sd = 0.01;                 // of a volume that was read off or measured out
inline constexpr double k_full_sd = 0.005;                  // of the volume at which a vessel is called full

struct Gauged {
    Volume volume;
    Volume sd;
};

// Share of the room of a barrel or cylinder on its side that lies below `depth`, as measured at the bung; all three in
// one unit. Staves bend as a parabola, r(x) = R - (R - r) x^2 over half its length, whose whole volume is the usual
// pi L (2 D^2 + D d + 3/4 d^2) / 15; each slice is a circular segment, and the slices are summed by Simpson's rule in
// 1000 steps, good to 1e-6 of the whole.
[[nodiscard]] double lying_share(double depth, double bilge_diameter, double head_diameter);

// Litres below a depth. Errors: bad_input, where "dip", for a vessel without a shape, or a depth it does not have.
[[nodiscard]] Result<double> litres_at_depth(const ledger::VesselJoins& vessel, Length depth);
// The same with the spread of the dip and of the shape.
[[nodiscard]] Result<Gauged> gauged_by_dip(const ledger::VesselJoins& vessel, Length depth, Length depth_sd);
// `net` above zero: what the scale showed less the vessel. Two weighings of `scale_sd` each; water of gravity 1 weighs
// 0.9982 kg/L at 20 C, and a cellar at 10 C makes 0.2 % of that.
[[nodiscard]] Gauged gauged_by_weight(Mass net, Mass scale_sd, double gravity, double gravity_sd);

}  // namespace undercroft::engine

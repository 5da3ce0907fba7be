#include "engine/state/gauging.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "chem/extract.hpp"
#include "units/amount.hpp"

namespace undercroft::engine {
namespace {

// Of a circle of radius `r`, the area below a line `y` above its centre.
double segment_below(double r, double y) {
    if (y <= -r) return 0.0;
    if (y >= r) return std::numbers::pi * r * r;
    return r * r * std::acos(-y / r) + y * std::sqrt(r * r - y * y);
}

Result<double> by_marks(const ledger::VesselJoins& vessel, double cm) {
    std::vector<ledger::DipMark> marks = vessel.gauge.dips;
    if (vessel.gauge.inner_height > Length{} && !marks.empty() && vessel.gauge.inner_height > marks.back().depth)
        marks.push_back({vessel.gauge.inner_height, vessel.capacity});
    ledger::DipMark below{};  // nothing stands at no depth
    for (const ledger::DipMark& mark : marks) {
        if (cm <= mark.depth.in_centimetres()) {
            const double room = mark.depth.in_centimetres() - below.depth.in_centimetres();
            const double part = (cm - below.depth.in_centimetres()) / room;
            return below.volume.in_litres() + part * (mark.volume.in_litres() - below.volume.in_litres());
        }
        below = mark;
    }
    return fail(
        ErrorKind::bad_input, "dip",
        number_text(cm, 1) + " cm is beyond the last mark of " + vessel.name + ", " + text_of(below.depth) + ".", {},
        "Dip again, or give the vessel a mark for what it holds when brimful.");
}

}  // namespace

double lying_share(double depth, double bilge_diameter, double head_diameter) {
    const double large = bilge_diameter / 2.0;
    const double narrows = large - head_diameter / 2.0;
    const double y = depth - large;
    constexpr int k_steps = 1000;
    double sum = 0.0;
    for (int i = 0; i <= k_steps; ++i) {
        const double x = static_cast<double>(i) / k_steps;
        const double weight = i == 0 || i == k_steps ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
        sum += weight * segment_below(large - narrows * x * x, y);
    }
    const double below = sum / (3.0 * k_steps);
    const double whole = std::numbers::pi * (large * large - 2.0 * large * narrows / 3.0 + narrows * narrows / 5.0);
    return std::clamp(below / whole, 0.0, 1.0);
}

Result<double> litres_at_depth(const ledger::VesselJoins& vessel, Length depth) {
    const ledger::Gauge& gauge = vessel.gauge;
    if (!gauge.shape)
        return fail(ErrorKind::bad_input, "dip", "Nobody has said how " + vessel.name + " is shaped inside.", {},
                    "Correct the vessel with --shape upright --inner-height 40 cm, --shape lying --inner-height 69 cm "
                    "--head-diameter 56 cm, or --dip-mark \"10 cm=8 L\" for each mark of its stick.");
    const double cm = depth.in_centimetres();
    if (cm < 0.0 || (gauge.inner_height > Length{} && depth > gauge.inner_height))
        return fail(ErrorKind::bad_input, "dip",
                    text_of(depth) + " is no depth in " + vessel.name + ", which is " + text_of(gauge.inner_height) +
                        " high inside.");
    const double height = gauge.inner_height.in_centimetres();
    switch (*gauge.shape) {
        case ledger::VesselShape::upright:
            return vessel.capacity.in_litres() * cm / height;
        case ledger::VesselShape::lying:
            return vessel.capacity.in_litres() * lying_share(cm, height, gauge.head_diameter.in_centimetres());
        case ledger::VesselShape::table:
            break;
    }
    return by_marks(vessel, cm);
}

Result<Gauged> gauged_by_dip(const ledger::VesselJoins& vessel, Length depth, Length depth_sd) {
    TRY(const double litres, litres_at_depth(vessel, depth));
    // The slope over the spread itself, as far as the vessel goes: at the edge of a lying barrel it is steep.
    const Length low = std::max(Length{}, depth - depth_sd);
    const auto higher = litres_at_depth(vessel, depth + depth_sd);
    const Length high = higher ? depth + depth_sd : depth;
    TRY(const double below, litres_at_depth(vessel, low));
    const double above = higher ? *higher : litres;
    const double slope = high > low ? (above - below) / (high.in_centimetres() - low.in_centimetres()) : 0.0;
    const double of_shape = vessel.gauge.shape == ledger::VesselShape::table ? k_marks_sd : k_shape_sd;
    const double sd = std::hypot(slope * depth_sd.in_centimetres(), of_shape * litres);
    return Gauged{Volume::from_litres(litres), Volume::from_litres(sd)};
}

Gauged gauged_by_weight(Mass net, Mass scale_sd, double gravity, double gravity_sd) {
    const double kg_per_litre = gravity * chem::k_water_density_at_20 / 1000.0;
    const double litres = net.in_kilograms() / kg_per_litre;
    const double of_scale = std::sqrt(2.0) * scale_sd.in_kilograms() / kg_per_litre;
    return {Volume::from_litres(litres), Volume::from_litres(std::hypot(of_scale, litres * gravity_sd / gravity))};
}

}  // namespace undercroft::engine

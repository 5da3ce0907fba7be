#include "engine/blend/refermentation.hpp"

#include <algorithm>

#include "chem/gas.hpp"
#include "engine/package/bound.hpp"

namespace undercroft::engine::blend {

namespace {

// % vol for 0.001 of gravity; common practice, no source.
constexpr double k_abv_per_point = 0.131;

double falls(const tables::CultureKind& kind, double gravity, double original_gravity) {
    return 1000.0 * std::max(0.0, gravity - package::lowest_gravity_of(kind, original_gravity));
}

}  // namespace

std::vector<double> points_left(const std::vector<Stock>& stocks) {
    std::vector<const tables::CultureKind*> kinds;
    for (const Stock& stock : stocks) kinds.insert(kinds.end(), stock.cultures.begin(), stock.cultures.end());
    std::vector<double> points;
    for (const Stock& stock : stocks) {
        double most = 0.0;
        if (stock.gravity && stock.original_gravity)
            for (const tables::CultureKind* kind : kinds)
                if (kind->makes_gas()) most = std::max(most, falls(*kind, *stock.gravity, *stock.original_gravity));
        points.push_back(most);
    }
    return points;
}

Refermentation refermentation_of(const std::vector<Stock>& stocks, const Made& made) {
    Refermentation found;
    std::vector<const tables::CultureKind*> kinds;
    for (const Part& part : made.parts)
        for (const tables::CultureKind* kind : stocks[part.stock].cultures)
            if (kind->makes_gas() && std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.push_back(kind);
    const tables::CultureKind* strongest = nullptr;
    for (const tables::CultureKind* kind : kinds) {
        double points = 0.0;
        for (const Part& part : made.parts) {
            const Stock& stock = stocks[part.stock];
            if (stock.gravity && stock.original_gravity)
                points += falls(*kind, *stock.gravity, *stock.original_gravity) * part.litres / made.litres;
        }
        if (points <= found.points) continue;
        found.points = points;
        strongest = kind;
    }
    for (const Part& part : made.parts)
        found.known = found.known && stocks[part.stock].gravity && stocks[part.stock].original_gravity;
    if (strongest == nullptr) return found;
    found.culture = strongest->name;
    found.volumes = found.points * chem::k_volumes_per_gravity_point_safety;
    found.abv = found.points * k_abv_per_point;
    found.from_days = strongest->days_to_stable_low;
    found.until_days = strongest->days_to_stable_high;
    return found;
}

}  // namespace undercroft::engine::blend

// The units this program reads, each with its kind, so that a mass typed where a volume is wanted
// is told from a word that is no unit at all. Only the read_*.cpp files of this folder include this.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "units/read_text.hpp"

namespace undercroft::reading {

enum class Kind { volume, mass, length, temperature, pressure, gravity, gas, percent, alcohol, per_litre };
enum class Gallon { none, by_book, us, imperial };

struct Unit {
    std::string_view name;  // how the program itself writes it: "L", "us gal", "\u00B0C"
    Kind kind = Kind::volume;
    // Volume: in units of 1e-13 L, which holds every factor exactly. Mass: in nanograms. Length: in micrometres. Else
    // 0.
    std::int64_t factor = 0;
    // For gal, qt, pt and fl oz: `factor` is then that of the US one, `imperial_factor` of the other.
    Gallon gallon = Gallon::none;
    std::int64_t imperial_factor = 0;
};

inline constexpr std::int64_t k_volume_steps_per_ul = 10'000'000;
inline constexpr std::int64_t k_mass_steps_per_mg = 1'000'000;

// Nothing when `unit` (as typed) is no unit.
std::optional<Unit> find_unit(std::string_view unit);

// The unit of `written`, which must be of `kind`. `wanted` is "a volume such as 54 L", `units` the list
// offered when there is none: "L, mL, hL, us gal or imp gal". A missing unit is refused: `18 of what?`.
Result<Unit> unit_of_kind(std::string_view field, const Written& written, Kind kind, std::string_view wanted,
                          std::string_view units);
// Why `written` with its unit is not what the field wants.
Failure refuse_unit(std::string_view field, const Written& written, std::string_view wanted, std::string_view units);

}  // namespace undercroft::reading

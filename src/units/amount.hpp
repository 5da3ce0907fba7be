// Amounts as people write them, and back.
//
// Holds: what can mean two things is refused with both readings, never guessed:
// gallons of a book that has not said which, "03/04", "3.4" with no unit, a
// separator before exactly three digits ("1,012 L" and "1.012 L": one litre or a
// thousand?). The last is taken when only one reading can be: "0,330 L", since nobody
// groups thousands behind a zero, "1234.567 L", "18.250 C", a gravity, a pH.
// A decimal comma is as good as a point; thousands signs and exponents are refused.
// Upper and lower case units are alike where that is safe ("MG" is not). Any UTF-8
// space, minus or degree sign will do. Errors are ErrorKind::bad_input with `where` the
// field; `what` holds the value, the rule and what would be accepted. No input crashes.
//
// Leaves out: whether an amount makes sense where it is used (a negative capacity).
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/decimal.hpp"
#include "base/instant.hpp"
#include "base/result.hpp"
#include "units/length.hpp"
#include "units/mass.hpp"
#include "units/pressure.hpp"
#include "units/temperature.hpp"
#include "units/volume.hpp"

namespace undercroft {

// Exact by definition: 231 cubic inches (NIST SP 811, appendix B.8).
inline constexpr double k_litres_per_us_gallon = 3.785411784;
// Exact by definition (Units of Measurement Regulations 1995, UK).
inline constexpr double k_litres_per_imperial_gallon = 4.54609;

// Which gallon a bare "gal" means in this book; `unset` refuses it.
enum class Gallons { unset, us, imperial };

// --- reading -----------------------------------------------------------------------------------
// Every reader takes the field's name first ("capacity"), used in the error.

// L, litre(s), liter(s), hL, dL, cL, mL, uL, m3; gal, qt, pt and fl oz by the book, or with "us" or
// "imp" before them. "1/2 gal" and "1 1/2 gal" are read too. Signed; callers refuse what must not be
// negative. Within 1e6 L either way, rounded to the nearest microlitre; what would round to nothing is refused.
Result<Volume> parse_volume(std::string_view field, std::string_view text, Gallons gallons);
// kg, g, mg, lb, oz (avoirdupois: 1 lb = 453.59237 g exactly); t is refused. Fractions, sign and limits
// (1e6 kg, one milligram) as for volumes.
Result<Mass> parse_mass(std::string_view field, std::string_view text);
// cm, mm, in (inch, inches: 25.4 mm exactly). Fractions, sign and grouped thousands as for volumes; within 100 m
// either way, to the nearest micrometre.
Result<Length> parse_length(std::string_view field, std::string_view text);
// C, F, K, with or without degree sign; absolute zero to 500 C. A bare number is refused (18 or 64?).
Result<Temperature> parse_temperature(std::string_view field, std::string_view text);
// bar, mbar, psi, kPa, MPa; always read as gauge ("bara" is refused), -1.1 to 500 bar. A bare number is refused.
Result<GaugePressure> parse_gauge_pressure(std::string_view field, std::string_view text);

// A gravity: "1.012", "1,012", "1.012 SG", "3.1 P", "3.1 °P", "3,1 Plato", "3.1 Brix".
// Keeps the raw digits. A bare number is an SG only with three decimals or more: "1.05" may be °P, so it,
// "3.4" and "1012" are refused with both readings. Accepts 0.980 to 1.200 SG, -5 to 45 °P; anything
// else "cannot be".
struct GravityText {
    Decimal value;     // as written
    std::string unit;  // "SG", "P" or "Brix"
};
Result<GravityText> parse_gravity(std::string_view field, std::string_view text);

// "2.4 vol" (0 to 10), "4.7 g/L" (0 to 20). The result keeps which was meant; a bare number is refused.
struct CarbonationText {
    Decimal value;
    std::string unit;  // "vol" or "g/L"
};
Result<CarbonationText> parse_carbonation(std::string_view field, std::string_view text);

// "5.9 %", "5.9", "5.9 % vol", "5.9 abv": alcohol by volume in percent. 0 to 75.
Result<Decimal> parse_alcohol(std::string_view field, std::string_view text);
// "33 %", "1/3", "0.33", "a third", "a quarter", "half", "two thirds": 0 < share <= 1.
Result<double> parse_share(std::string_view field, std::string_view text);
// "7 g/L", "7.2", "700 mg/L": grams per litre, 0 to 1500. "0.8 %" is refused (of mass or volume?).
Result<Decimal> parse_grams_per_litre(std::string_view field, std::string_view text);
// A number with a decimal comma or point inside [low, high], bare or followed by the field's own name
// ("3.4 pH" for the field pH).
Result<Decimal> parse_number(std::string_view field, std::string_view text, double low, double high);
// Whole number inside [low, high].
Result<int> parse_count(std::string_view field, std::string_view text, int low, int high);

// A day: "2026-03-14", "14 Mar 2026", "March 14, 2026", "14.3.2026" (dotted: the day first), "today",
// "yesterday", "tomorrow"; years 1000 to 9999. "03/04" and "03/04/2026" are refused with both readings,
// the latter only if both are days ("14/03/2026" has one). "2026-03" and "2026" only by parse_day_range.
Result<Day> parse_day(std::string_view field, std::string_view text, Day today);
// "2019", "2019-03", "Mar 2019", "2019..2021", "2019-03-01..2020-06-30", or a single day.
struct DayRange {
    Day from{};
    Day to{};  // included; not before `from`
    friend bool operator==(const DayRange&, const DayRange&) = default;
};
Result<DayRange> parse_day_range(std::string_view field, std::string_view text, Day today);
// A day with an optional time to the minute: "2026-03-14 18:30", "today 9:15", "2026-03-14T18:30",
// "today 6:30 pm". In the cellar's own time: a "Z" or an offset is refused.
struct DayAndTime {
    Day day{};
    std::optional<int> minute_of_day;  // 0 to 1439
};
Result<DayAndTime> parse_day_and_time(std::string_view field, std::string_view text, Day today);

// True when `word` alone is a unit this module knows ("L", "kg", "%", "vol") or begins one ("us", "imp",
// "fl"): lets a command line join "18 L" typed as two words. Not for "in", which is mostly a word of its own.
[[nodiscard]] bool is_unit_word(std::string_view word);
// True for "18", "1.5", "1,5", "-3", "1/2".
[[nodiscard]] bool is_number_word(std::string_view word);

// --- writing -----------------------------------------------------------------------------------
// Every text of an amount written here is one the readers above take (a gauge pressure, a temperature
// and a share included). What is not finite is written "?".

enum class VolumeUnit { litres, us_gallons, imperial_gallons };

// "18 L", "17.95 L", "0.333 L", "80 mL" below 0.1 L; trailing zeros dropped. Two decimals from 1 L up, since
// "1.234 L" could not be read back; gallons alike, with fluid ounces below a tenth: "4.75 US gal".
[[nodiscard]] std::string text_of(Volume volume, VolumeUnit unit = VolumeUnit::litres);
// "52.4 ± 0.6 L": one decimal where the spread shows in it, else two or four, none from ten on; never in millilitres.
[[nodiscard]] std::string text_with_spread(Volume volume, Volume sd, VolumeUnit unit = VolumeUnit::litres);
// The spread alone: "0.6 L".
[[nodiscard]] std::string spread_text(Volume sd, VolumeUnit unit = VolumeUnit::litres);
// Exact to the microlitre, as few decimals as it takes: "17.950001 L". Never exactly three of them ("1.2340 L"),
// so within 1e6 L parse_volume gives back the same volume.
[[nodiscard]] std::string exact_text_of(Volume volume);
// "3 kg", "2.25 kg", "250 g", "4.75 g", "80 mg": two decimals at most.
[[nodiscard]] std::string text_of(Mass mass);
[[nodiscard]] std::string text_of(Length length);            // "31.5 cm", two decimals at most
[[nodiscard]] std::string text_of(Temperature temperature);  // "18 °C", one decimal at most
[[nodiscard]] std::string text_of(GaugePressure pressure);   // "3.75 bar", two at most
// Fixed decimals (0 to 20): number_text(3.14159, 2) is "3.14"; never "-0.00".
[[nodiscard]] std::string number_text(double value, int decimals);
[[nodiscard]] std::string percent_text(double share, int decimals);  // 0.333 -> "33.3 %"
// A span of time in the keeper's words: "12 days" below two months, "7 months" below two years, "2.4 years".
[[nodiscard]] std::string duration_text(double years);

}  // namespace undercroft

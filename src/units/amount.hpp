// Amounts as people write them, and back.
//
// Holds: what can mean two things is refused with both readings, never guessed:
// gallons of a book that has not said which, "03/04", "3.4" with no unit, a
// separator before exactly three digits ("1,012 L": one litre or a thousand?).
// A decimal comma is as good as a point. Upper and lower case units are alike
// where that is safe. Errors are ErrorKind::bad_input and name the field.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/decimal.hpp"
#include "base/instant.hpp"
#include "base/result.hpp"
#include "units/mass.hpp"
#include "units/pressure.hpp"
#include "units/temperature.hpp"
#include "units/volume.hpp"

namespace undercroft {

// Which gallon a bare "gal" means in this book; `unset` refuses it.
enum class Gallons { unset, us, imperial };

// --- reading -----------------------------------------------------------------------------------
// Every reader takes the field's name first ("capacity"), used in the error.

// L, l, litre(s), liter(s), mL, ml, cL, hL, uL, gal (by the book), us gal, imp gal, us qt, imp qt?,
// us fl oz, imp fl oz, us pt, imp pt, m3. Signed; callers refuse what must not be negative.
Result<Volume> parse_volume(std::string_view field, std::string_view text, Gallons gallons);
// kg, g, mg, lb, oz (avoirdupois), t refused.
Result<Mass> parse_mass(std::string_view field, std::string_view text);
// C, F, K, with or without degree sign. A bare number is refused (18 or 64?).
Result<Temperature> parse_temperature(std::string_view field, std::string_view text);
// bar, psi, kPa, MPa; always read as gauge. A bare number is refused.
Result<GaugePressure> parse_gauge_pressure(std::string_view field, std::string_view text);

// A gravity: "1.012", "1,012", "1.012 SG", "3.1 P", "3.1 °P", "3,1 Plato", "3.1 Brix".
// Keeps the raw digits. "3.4" alone and "1012" alone are refused with both readings.
// Accepts 0.980 to 1.200 SG, -5 to 45 °P; anything else "cannot be".
struct GravityText {
    Decimal value;     // as written
    std::string unit;  // "SG", "P" or "Brix"
};
Result<GravityText> parse_gravity(std::string_view field, std::string_view text);

// "2.4 vol", "4.7 g/L". The result keeps which was meant.
struct CarbonationText {
    Decimal value;
    std::string unit;  // "vol" or "g/L"
};
Result<CarbonationText> parse_carbonation(std::string_view field, std::string_view text);

// "5.9 %", "5.9", "5.9 % vol", "5.9 abv": alcohol by volume in percent. 0 to 75.
Result<Decimal> parse_alcohol(std::string_view field, std::string_view text);
// "33 %", "1/3", "0.33", "a third", "a quarter", "a half": 0 < share <= 1.
Result<double> parse_share(std::string_view field, std::string_view text);
// "7 g/L", "7.2", or "0.8 %" refused (mass or volume?): grams per litre.
Result<Decimal> parse_grams_per_litre(std::string_view field, std::string_view text);
// A bare number with a decimal comma or point, no unit, inside [low, high].
Result<Decimal> parse_number(std::string_view field, std::string_view text, double low, double high);
// Whole number inside [low, high].
Result<int> parse_count(std::string_view field, std::string_view text, int low, int high);

// A day: "2026-03-14", "14 Mar 2026", "today", "yesterday", "14.3.2026"; "2026-03" and "2026" only by
// parse_day_range. "03/04" and "03/04/2026" are refused with both readings unless one is impossible.
Result<Day> parse_day(std::string_view field, std::string_view text, Day today);
// "2019", "2019-03", "2019..2021", "2019-03-01..2020-06-30", or a single day.
struct DayRange {
    Day from{};
    Day to{};
    friend bool operator==(const DayRange&, const DayRange&) = default;
};
Result<DayRange> parse_day_range(std::string_view field, std::string_view text, Day today);
// A day with an optional time: "2026-03-14 18:30", "today 9:15", "2026-03-14T18:30".
struct DayAndTime {
    Day day{};
    std::optional<int> minute_of_day;
};
Result<DayAndTime> parse_day_and_time(std::string_view field, std::string_view text, Day today);

// True when `word` alone is a unit this module knows ("L", "kg", "%", "vol"): lets a command line
// join "18 L" typed as two words.
[[nodiscard]] bool is_unit_word(std::string_view word);
// True for "18", "1.5", "1,5", "-3".
[[nodiscard]] bool is_number_word(std::string_view word);

// --- writing -----------------------------------------------------------------------------------

enum class VolumeUnit { litres, us_gallons, imperial_gallons };

// "18 L", "17.95 L", "0.33 L", "350 mL" below 0.1 L; trailing zeros dropped, at most 3 decimals of a litre.
[[nodiscard]] std::string text_of(Volume volume, VolumeUnit unit = VolumeUnit::litres);
// Exact to the microlitre: "17.950001 L".
[[nodiscard]] std::string exact_text_of(Volume volume);
// "3 kg", "250 g", "80 mg".
[[nodiscard]] std::string text_of(Mass mass);
[[nodiscard]] std::string text_of(Temperature temperature);  // "18 °C", one decimal at most
[[nodiscard]] std::string text_of(GaugePressure pressure);   // "3.75 bar"
// Fixed decimals: number_text(3.14159, 2) is "3.14"; never "-0.00".
[[nodiscard]] std::string number_text(double value, int decimals);
[[nodiscard]] std::string percent_text(double share, int decimals);  // 0.333 -> "33.3 %"
// A span of time in the keeper's words: "12 days", "7 months", "2.4 years".
[[nodiscard]] std::string duration_text(double years);

}  // namespace undercroft

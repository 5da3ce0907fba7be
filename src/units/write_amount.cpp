#include "units/amount.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace undercroft {
namespace {

void drop_trailing_zeros(std::string& number) {
    if (number.find('.') == std::string::npos) return;
    while (number.back() == '0') number.pop_back();
    if (number.back() == '.') number.pop_back();
}

std::string short_number(double value, int decimals) {
    std::string number = number_text(value, decimals);
    drop_trailing_zeros(number);
    return number;
}

// `large` from a tenth of it up, else `small`. Three decimals only behind a zero: "1.234 L" is a text
// the readers refuse, and what is printed shall be fit to be typed.
std::string large_or_small(double in_large, std::string_view large, double in_small, std::string_view small) {
    const double size = std::fabs(in_large);
    if (size >= 0.9995) return short_number(in_large, 2) + " " + std::string(large);
    if (size >= 0.1 || size == 0) return short_number(in_large, 3) + " " + std::string(large);
    if (std::fabs(in_small) >= 0.9995) return short_number(in_small, 1) + " " + std::string(small);
    return short_number(in_small, 3) + " " + std::string(small);
}

// A spread in the unit it is shown in, and how many decimals show it.
struct Spread {
    double litres_each = 1.0;
    double value = 0.0;
    int decimals = 1;
    std::string unit;
};
Spread spread_of(Volume sd, VolumeUnit unit) {
    Spread spread{1.0, 0.0, 1, "L"};
    if (unit == VolumeUnit::us_gallons) spread = {k_litres_per_us_gallon, 0.0, 1, "US gal"};
    if (unit == VolumeUnit::imperial_gallons) spread = {k_litres_per_imperial_gallon, 0.0, 1, "imp gal"};
    spread.value = sd.in_litres() / spread.litres_each;
    spread.decimals = spread.value >= 9.5 ? 0 : spread.value >= 0.095 ? 1 : spread.value >= 0.0095 ? 2 : 4;
    return spread;
}

std::string count_of(long long count, std::string_view noun) {
    return std::to_string(count) + " " + std::string(noun) + (count == 1 || count == -1 ? "" : "s");
}

}  // namespace

std::string text_of(Volume volume, VolumeUnit unit) {
    const double litres = volume.in_litres();
    switch (unit) {
        case VolumeUnit::us_gallons:
            return large_or_small(litres / k_litres_per_us_gallon, "US gal", litres / k_litres_per_us_gallon * 128,
                                  "US fl oz");
        case VolumeUnit::imperial_gallons:
            return large_or_small(litres / k_litres_per_imperial_gallon, "imp gal",
                                  litres / k_litres_per_imperial_gallon * 160, "imp fl oz");
        case VolumeUnit::litres:
            break;
    }
    return large_or_small(litres, "L", litres * 1000, "mL");
}

std::string spread_text(Volume sd, VolumeUnit unit) {
    const Spread spread = spread_of(sd, unit);
    return number_text(spread.value, spread.decimals) + " " + spread.unit;
}

std::string text_with_spread(Volume volume, Volume sd, VolumeUnit unit) {
    if (sd == Volume{}) return text_of(volume, unit);
    const Spread spread = spread_of(sd, unit);
    return number_text(volume.in_litres() / spread.litres_each, spread.decimals) + " ± " + spread_text(sd, unit);
}

std::string exact_text_of(Volume volume) {
    const std::int64_t ul = volume.ul();
    const auto magnitude = ul < 0 ? std::uint64_t{0} - static_cast<std::uint64_t>(ul) : static_cast<std::uint64_t>(ul);
    std::string decimals = std::to_string(1'000'000 + magnitude % 1'000'000).substr(1);
    while (!decimals.empty() && decimals.back() == '0') decimals.pop_back();
    if (decimals.size() == 3) decimals += '0';
    return (ul < 0 ? "-" : "") + std::to_string(magnitude / 1'000'000) + (decimals.empty() ? "" : "." + decimals) +
           " L";
}

std::string text_of(Mass mass) {
    const double grams = mass.in_grams();
    const double size = std::fabs(grams);
    if (size >= 999.995) return short_number(grams / 1000, 2) + " kg";
    if (size >= 1 || size == 0) return short_number(grams, 2) + " g";
    return std::to_string(mass.mg()) + " mg";
}

std::string text_of(Length length) {
    return short_number(length.in_centimetres(), 2) + " cm";
}

std::string text_of(Temperature temperature) {
    return short_number(temperature.in_celsius(), 1) + " \u00B0C";
}

std::string text_of(GaugePressure pressure) {
    return short_number(pressure.in_bar(), 2) + " bar";
}

std::string number_text(double value, int decimals) {
    if (!std::isfinite(value)) return "?";
    std::array<char, 400> buffer;  // 309 digits of the largest double, sign, point and decimals
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed,
                                   std::min(std::max(decimals, 0), 20));
    std::string number(buffer.data(), end.ptr);
    if (number.front() == '-' && number.find_first_of("123456789") == std::string::npos) number.erase(0, 1);
    return number;
}

std::string percent_text(double share, int decimals) {
    return number_text(share * 100, decimals) + " %";
}

std::string duration_text(double years) {
    if (!std::isfinite(years)) return "?";
    const double days = years * 365.25;
    const double months = years * 12;
    if (std::fabs(days) < 59.5) return count_of(std::llround(days), "day");
    if (std::fabs(months) < 23.5) return count_of(std::llround(months), "month");
    const std::string number = short_number(years, 1);
    return number + " years";
}

}  // namespace undercroft

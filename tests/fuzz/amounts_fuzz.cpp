// Throws any bytes at every reader of amounts (libFuzzer; tools/fuzz builds and runs it). What must hold: no crash, no
// sanitizer report, an Error with words in it, and what was read can be written and read again.
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "units/amount.hpp"
#include "units/span.hpp"

namespace {

using undercroft::Day;
using undercroft::Gallons;

void require(bool holds) {
    if (!holds) std::abort();
}

template <class T>
void told(const undercroft::Result<T>& result) {
    if (!result) require(!result.error().what.empty());
}

void read_all(std::string_view text) {
    for (const Gallons gallons : {Gallons::unset, Gallons::us, Gallons::imperial}) {
        const auto volume = undercroft::parse_volume("volume", text, gallons);
        told(volume);
        if (volume) {
            const auto again = undercroft::parse_volume("volume", undercroft::exact_text_of(*volume), gallons);
            require(again && *again == *volume);
        }
    }
    told(undercroft::parse_mass("mass", text));
    told(undercroft::parse_length("length", text));
    const auto temperature = undercroft::parse_temperature("temperature", text);
    told(temperature);
    if (temperature) require(undercroft::parse_temperature("again", undercroft::text_of(*temperature)).has_value());
    const auto pressure = undercroft::parse_gauge_pressure("pressure", text);
    told(pressure);
    if (pressure) require(std::isfinite(pressure->in_bar()));
    told(undercroft::parse_gravity("gravity", text));
    told(undercroft::parse_carbonation("CO2", text));
    told(undercroft::parse_alcohol("alcohol", text));
    const auto share = undercroft::parse_share("share", text);
    told(share);
    if (share) require(*share > 0.0 && *share <= 1.0);
    told(undercroft::parse_grams_per_litre("acid", text));
    const auto ph = undercroft::parse_number("pH", text, 0.0, 14.0);
    told(ph);
    told(undercroft::parse_count("count", text, 0, 1000));
    const Day today{std::chrono::sys_days{std::chrono::days{20'000}}};
    told(undercroft::parse_day("day", text, today));
    told(undercroft::parse_day_range("days", text, today));
    told(undercroft::parse_day_and_time("when", text, today));
    static_cast<void>(undercroft::is_unit_word(text));
    static_cast<void>(undercroft::is_number_word(text));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): bytes are characters here
    read_all({reinterpret_cast<const char*>(data), size});
    return 0;
}

#include "base/instant.hpp"

#include <cstdio>

namespace undercroft {
namespace {

// Books write these by the thousand: faster than a format.
void put_digits(std::string& text, std::size_t at, std::size_t count, unsigned number) {
    for (std::size_t i = count; i-- > 0; number /= 10) text[at + i] = static_cast<char>('0' + number % 10);
}

constexpr std::int64_t k_ms_per_day = 86'400'000;

std::int64_t days_since_epoch(Day day) {
    return std::chrono::sys_days{day}.time_since_epoch().count();
}

Day day_from_epoch(std::int64_t days) {
    return Day{std::chrono::sys_days{std::chrono::days{days}}};
}

// Reads exactly `count` digits at `at`.
bool read_digits(std::string_view text, std::size_t at, std::size_t count, int& out) {
    if (at + count > text.size()) return false;
    out = 0;
    for (std::size_t i = at; i < at + count; ++i) {
        if (text[i] < '0' || text[i] > '9') return false;
        out = out * 10 + (text[i] - '0');
    }
    return true;
}

}  // namespace

Instant UtcZone::instant_of(const LocalTime& local) const {
    return Instant{days_since_epoch(local.day) * k_ms_per_day + (local.minute_of_day * 60LL + local.second) * 1000};
}

LocalTime UtcZone::local_of(Instant instant) const {
    std::int64_t days = instant.ms / k_ms_per_day;
    std::int64_t rest = instant.ms % k_ms_per_day;
    if (rest < 0) {
        rest += k_ms_per_day;
        --days;
    }
    const auto seconds = static_cast<int>(rest / 1000);
    return LocalTime{day_from_epoch(days), seconds / 60, seconds % 60};
}

Instant end_of_day(Day day, const Zone& zone) {
    return Instant{zone.instant_of(LocalTime{add_days(day, 1), 0, 0}).ms - 1};
}

Instant noon_of(Day day, const Zone& zone) {
    return zone.instant_of(LocalTime{day, 12 * 60, 0});
}

Day day_of(Instant instant, const Zone& zone) {
    return zone.local_of(instant).day;
}

Day add_days(Day day, int days) {
    return day_from_epoch(days_since_epoch(day) + days);
}

int days_between(Day from, Day to) {
    return static_cast<int>(days_since_epoch(to) - days_since_epoch(from));
}

double years_between(Instant from, Instant to) {
    return static_cast<double>(to.ms - from.ms) / (365.25 * static_cast<double>(k_ms_per_day));
}

std::string iso_text(Day day) {
    const int year = static_cast<int>(day.year());
    const unsigned month = static_cast<unsigned>(day.month());
    const unsigned of_month = static_cast<unsigned>(day.day());
    if (year >= 0 && year <= 9999 && month <= 99 && of_month <= 99) {
        std::string text = "0000-00-00";
        put_digits(text, 0, 4, static_cast<unsigned>(year));
        put_digits(text, 5, 2, month);
        put_digits(text, 8, 2, of_month);
        return text;
    }
    char buffer[32];
    std::snprintf(buffer, sizeof buffer, "%04d-%02u-%02u", year, month, of_month);
    return buffer;
}

std::string iso_text(Instant instant) {
    const LocalTime local = UtcZone{}.local_of(instant);
    const auto ms = static_cast<int>(((instant.ms % 1000) + 1000) % 1000);
    std::string time = "T00:00:00.000Z";
    put_digits(time, 1, 2, static_cast<unsigned>(local.minute_of_day / 60));
    put_digits(time, 4, 2, static_cast<unsigned>(local.minute_of_day % 60));
    put_digits(time, 7, 2, static_cast<unsigned>(local.second));
    put_digits(time, 10, 3, static_cast<unsigned>(ms));
    return iso_text(local.day) + time;
}

Result<Day> parse_iso_day(std::string_view text) {
    int year = 0;
    int month = 0;
    int day = 0;
    if (text.size() == 10 && text[4] == '-' && text[7] == '-' && read_digits(text, 0, 4, year) &&
        read_digits(text, 5, 2, month) && read_digits(text, 8, 2, day)) {
        const Day result{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
                         std::chrono::day{static_cast<unsigned>(day)}};
        if (result.ok()) return result;
    }
    return fail(ErrorKind::bad_input, "date",
                "\"" + std::string(text) + "\" is not a day of the calendar written like 2026-03-14.");
}

Result<Instant> parse_iso_instant(std::string_view text) {
    int hour = 0;
    int minute = 0;
    int second = 0;
    int ms = 0;
    if (text.size() == 24 && text[10] == 'T' && text[13] == ':' && text[16] == ':' && text[19] == '.' &&
        text[23] == 'Z' && read_digits(text, 11, 2, hour) && read_digits(text, 14, 2, minute) &&
        read_digits(text, 17, 2, second) && read_digits(text, 20, 3, ms) && hour < 24 && minute < 60 && second < 60) {
        TRY(const Day day, parse_iso_day(text.substr(0, 10)));
        const Instant whole = UtcZone{}.instant_of(LocalTime{day, hour * 60 + minute, second});
        return Instant{whole.ms + ms};
    }
    return fail(ErrorKind::bad_input, "instant",
                "\"" + std::string(text) + "\" is not an instant written like 2026-03-14T12:00:00.000Z.");
}

}  // namespace undercroft

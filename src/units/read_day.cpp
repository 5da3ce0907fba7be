// Days, spans of days, and a day with a time.
#include "units/amount.hpp"

#include <array>
#include <vector>

#include "base/letters.hpp"
#include "units/read_text.hpp"

namespace undercroft {
namespace {

using reading::quoted;
using reading::refuse;
using reading::tidy;

constexpr std::string_view k_wants_day = "a day such as 2026-03-14, 14 Mar 2026 or today";
constexpr auto k_months =
    std::to_array<std::string_view>({"january", "february", "march", "april", "may", "june", "july", "august",
                                     "september", "october", "november", "december"});

bool is_letter(char c) {
    return c >= 'a' && c <= 'z';
}

// "14. Mar 2026" is 14, ". ", mar, " ", 2026: runs of digits or letters (in lower case), and what stands
// between them.
struct Piece {
    std::string text;
    std::string separator;  // before it
    bool digits = false;
    [[nodiscard]] int number() const { return std::stoi(text); }
    [[nodiscard]] bool is_year() const { return digits && text.size() == 4; }
    [[nodiscard]] bool is_short() const { return digits && text.size() <= 2; }
};

Failure refuse_day(std::string_view field, std::string_view tidied) {
    return refuse(field,
                  quoted(tidied) + " is no day; " + std::string(field) + " wants " + std::string(k_wants_day) + ".");
}

// 1 to 12; "mar", "sept" and "march" alike.
std::optional<int> month_named(std::string_view word) {
    for (std::size_t i = 0; i < k_months.size(); ++i)
        if (word.size() >= 3 && word.size() <= k_months[i].size() && k_months[i].starts_with(word))
            return static_cast<int>(i) + 1;
    return std::nullopt;
}

std::string month_text(int month) {
    std::string name{k_months[static_cast<std::size_t>(month - 1)].substr(0, 3)};
    name[0] = static_cast<char>(name[0] - 'a' + 'A');
    return name;
}

// Nothing when a run is too long to be part of a date or a strange character stands in it.
std::optional<std::vector<Piece>> take_apart(std::string_view typed) {
    const std::string tidied = lower(typed);
    std::vector<Piece> pieces;
    std::string separator;
    for (std::size_t i = 0; i < tidied.size();) {
        const char c = tidied[i];
        if (!is_digit(c) && !is_letter(c)) {
            if (std::string_view(" -/.,").find(c) == std::string_view::npos) return std::nullopt;
            if (!separator.empty() && (separator.size() > 1 || c != ' ')) return std::nullopt;
            separator += c;
            ++i;
            continue;
        }
        const std::size_t begin = i;
        while (i < tidied.size() && (is_digit(c) ? is_digit(tidied[i]) : is_letter(tidied[i]))) ++i;
        std::string run = tidied.substr(begin, i - begin);
        const bool ordinal = run == "st" || run == "nd" || run == "rd" || run == "th";
        if (ordinal && separator.empty() && !pieces.empty() && pieces.back().is_short()) continue;
        if (run.size() > (is_digit(c) ? 4U : 9U)) return std::nullopt;
        pieces.push_back(Piece{std::move(run), std::move(separator), is_digit(c)});
        separator.clear();
    }
    if (!separator.empty()) return std::nullopt;
    return pieces;
}

std::optional<Day> calendar_day(int year, int month, int day) {
    const Day result{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
                     std::chrono::day{static_cast<unsigned>(day)}};
    if (year < 1000 || !result.ok()) return std::nullopt;
    return result;
}

std::string spoken(Day day) {
    return std::to_string(static_cast<unsigned>(day.day())) + " " +
           month_text(static_cast<int>(static_cast<unsigned>(day.month()))) + " " +
           std::to_string(static_cast<int>(day.year()));
}

Result<Day> only_day(std::string_view field, std::string_view tidied, int year, int month, int day) {
    if (const auto result = calendar_day(year, month, day)) return *result;
    return refuse(field, quoted(tidied) + " is not in the calendar; " + std::string(field) + " wants " +
                             std::string(k_wants_day) + ".");
}

// Two numbers that may be day and month in either order. In dotted dates the day stands first wherever
// dots are the custom (Unicode CLDR date patterns), so those have one reading.
Result<Day> either_order(std::string_view field, std::string_view tidied, int first, int second, int year,
                         bool dotted) {
    const auto day_first = calendar_day(year, second, first);
    const auto month_first = calendar_day(year, first, second);
    if (dotted && !day_first && month_first)
        return refuse(field, std::string(tidied) + " has no such month: a dotted date is read day first; say " +
                                 iso_text(*month_first) + " if that is meant.");
    if (dotted) return only_day(field, tidied, year, second, first);
    if (day_first && month_first && *day_first != *month_first)
        return refuse(field, std::string(tidied) + " could be " + spoken(*day_first) + " or " + spoken(*month_first) +
                                 "; say " + iso_text(*day_first) + " or " + iso_text(*month_first) + ".");
    if (day_first) return *day_first;
    if (month_first) return *month_first;
    return only_day(field, tidied, year, second, first);
}

Failure refuse_no_year(std::string_view field, std::string_view tidied, int first, int second, int year) {
    const auto day_first = calendar_day(year, second, first);
    const auto month_first = calendar_day(year, first, second);
    if (!day_first && !month_first) return refuse_day(field, tidied);
    std::string readings = spoken(day_first ? *day_first : *month_first);
    std::string advice = iso_text(day_first ? *day_first : *month_first);
    if (day_first && month_first && *day_first != *month_first) {
        readings += " or " + spoken(*month_first);
        advice += " or " + iso_text(*month_first);
    }
    return refuse(field, std::string(tidied) + " names no year and could be " + readings + "; say " + advice + ".");
}

Result<Day> numeric_day(std::string_view field, std::string_view tidied, const std::vector<Piece>& pieces, Day today) {
    const auto dotted = [](const Piece& piece) { return piece.separator.starts_with('.'); };
    const int this_year = static_cast<int>(today.year());
    if (pieces.size() == 1 && pieces[0].is_year())
        return refuse(field, std::string(tidied) + " is a whole year; " + std::string(field) + " wants " +
                                 std::string(k_wants_day) + ".");
    if (pieces.size() == 2 && pieces[0].is_year() && pieces[1].is_short())
        return refuse(field, std::string(tidied) + " is a whole month; " + std::string(field) + " wants " +
                                 std::string(k_wants_day) + ".");
    if (pieces.size() == 2 && pieces[0].is_short() && pieces[1].is_short())
        return refuse_no_year(field, tidied, pieces[0].number(), pieces[1].number(), this_year);
    if (pieces.size() != 3 || pieces[1].separator != pieces[2].separator) return refuse_day(field, tidied);
    if (pieces[0].is_year() && pieces[1].is_short() && pieces[2].is_short())
        return only_day(field, tidied, pieces[0].number(), pieces[1].number(), pieces[2].number());
    if (!pieces[0].is_short() || !pieces[1].is_short()) return refuse_day(field, tidied);
    if (pieces[2].is_short())
        return refuse(field, quoted(tidied) + " has a year of two digits; write all four, such as 2026-03-14.");
    if (!pieces[2].is_year()) return refuse_day(field, tidied);
    return either_order(field, tidied, pieces[0].number(), pieces[1].number(), pieces[2].number(), dotted(pieces[1]));
}

// "14 mar 2026", "mar 14, 2026", "2026 mar 14": the size of the numbers tells day and year.
Result<Day> named_month_day(std::string_view field, std::string_view tidied, const std::vector<Piece>& pieces) {
    std::optional<int> month;
    std::optional<int> day;
    std::optional<int> year;
    bool strange = false;
    for (const Piece& piece : pieces) {
        std::optional<int>& part = !piece.digits ? month : piece.is_year() ? year : day;
        const std::optional<int> value = piece.digits ? piece.number() : month_named(piece.text);
        strange = strange || part || !value || (piece.digits && !piece.is_year() && !piece.is_short());
        part = value;
    }
    if (strange || !month) return refuse_day(field, tidied);
    if (!year)
        return refuse(field, quoted(tidied) + " names no year of four digits; " + std::string(field) + " wants " +
                                 std::string(k_wants_day) + ".");
    if (!day)
        return refuse(field, quoted(tidied) + " is a whole month; " + std::string(field) + " wants " +
                                 std::string(k_wants_day) + ".");
    return only_day(field, tidied, *year, *month, *day);
}

// A year, a month or a day.
Result<DayRange> read_span(std::string_view field, std::string_view tidied, Day today) {
    using std::chrono::last;
    const auto pieces = take_apart(tidied);
    if (pieces && pieces->size() == 1 && pieces->front().is_year()) {
        const int year = pieces->front().number();
        TRY(const Day from, only_day(field, tidied, year, 1, 1));
        TRY(const Day to, only_day(field, tidied, year, 12, 31));
        return DayRange{from, to};
    }
    if (pieces && pieces->size() == 2) {
        const Piece& first = pieces->front();
        const Piece& second = pieces->back();
        const Piece& year = first.is_year() ? first : second;
        const Piece& other = first.is_year() ? second : first;
        int month = -1;
        if (!other.digits) month = month_named(other.text).value_or(-1);
        if (other.is_short()) month = other.number();
        if (year.is_year() && month >= 0) {
            TRY(const Day from, only_day(field, tidied, year.number(), month, 1));
            return DayRange{from, Day{from.year() / from.month() / last}};
        }
    }
    TRY(const Day day, parse_day(field, tidied, today));
    return DayRange{day, day};
}

// Where a span is cut in two: "..", an ellipsis, an en dash, "to", or the dash of "2019-2021".
struct Halves {
    std::string from;
    std::string to;
};
std::optional<Halves> cut_span(std::string_view text) {
    for (const std::string_view mark : {"...", "..", "\u2026", "\u2013", " to "}) {
        const std::size_t at = text.find(mark);
        if (at != std::string_view::npos) return Halves{tidy(text.substr(0, at)), tidy(text.substr(at + mark.size()))};
    }
    const auto pieces = take_apart(tidy(text));
    if (pieces && pieces->size() == 2 && pieces->front().is_year() && pieces->back().is_year() &&
        pieces->back().separator.find('-') != std::string::npos)
        return Halves{pieces->front().text, pieces->back().text};
    return std::nullopt;
}

// "9:15", "18:30", "6:30 pm", in lower case.
std::optional<int> minute_named(std::string_view text) {
    const auto pieces_at = text.find(':');
    const std::string_view hours = text.substr(0, pieces_at);
    const std::string_view minutes = text.substr(pieces_at + 1, 2);
    std::string_view half = text.substr(std::min(pieces_at + 3, text.size()));
    if (half.starts_with(' ')) half.remove_prefix(1);
    if (hours.empty() || hours.size() > 2 || minutes.size() != 2 || !is_digit(minutes[0]) || !is_digit(minutes[1]))
        return std::nullopt;
    int hour = 0;
    for (const char c : hours) hour = hour * 10 + (c - '0');
    const int minute = (minutes[0] - '0') * 10 + (minutes[1] - '0');
    if (half == "am" || half == "pm") {
        if (hour < 1 || hour > 12) return std::nullopt;
        hour = hour % 12 + (half == "pm" ? 12 : 0);
    } else if (!half.empty()) {
        return std::nullopt;
    }
    if (hour > 23 || minute > 59) return std::nullopt;
    return hour * 60 + minute;
}

}  // namespace

Result<Day> parse_day(std::string_view field, std::string_view text, Day today) {
    const std::string tidied = tidy(text);
    const std::string word = lower(tidied);
    if (word == "today") return today;
    if (word == "yesterday") return add_days(today, -1);
    if (word == "tomorrow") return add_days(today, 1);
    if (word.empty())
        return refuse(field,
                      "nothing is written here; " + std::string(field) + " wants " + std::string(k_wants_day) + ".");
    const auto pieces = take_apart(tidied);
    if (!pieces || pieces->empty() || pieces->size() > 3 || !pieces->front().separator.empty())
        return refuse_day(field, tidied);
    for (const Piece& piece : *pieces)
        if (!piece.digits) return named_month_day(field, tidied, *pieces);
    return numeric_day(field, tidied, *pieces, today);
}

Result<DayRange> parse_day_range(std::string_view field, std::string_view text, Day today) {
    const auto halves = cut_span(text);
    if (!halves) return read_span(field, tidy(text), today);
    if (halves->from.empty() || halves->to.empty())
        return refuse(field, quoted(tidy(text)) + " is open at one end; write both, such as 2019..2021.");
    TRY(const DayRange from, read_span(field, halves->from, today));
    TRY(const DayRange to, read_span(field, halves->to, today));
    if (to.to < from.from)
        return refuse(field, quoted(tidy(text)) +
                                 " ends before it begins; write the earlier day first, such as "
                                 "2019..2021.");
    return DayRange{from.from, to.to};
}

Result<DayAndTime> parse_day_and_time(std::string_view field, std::string_view text, Day today) {
    const std::string tidied = tidy(text);
    const std::size_t colon = tidied.find(':');
    if (colon == std::string::npos) {
        TRY(const Day day, parse_day(field, tidied, today));
        return DayAndTime{day, std::nullopt};
    }
    std::size_t begin = colon;
    while (begin > 0 && is_digit(tidied[begin - 1])) --begin;
    const auto minute = minute_named(lower(std::string_view(tidied).substr(begin)));
    if (!minute)
        return refuse(field, quoted(tidied) +
                                 " has no time of day behind the day; write it to the minute in the "
                                 "cellar's own time, such as 2026-03-14 18:30.");
    std::string_view front = std::string_view(tidied).substr(0, begin);
    if (front.size() >= 2 && (front.back() == 'T' || front.back() == 't') && is_digit(front[front.size() - 2]))
        front.remove_suffix(1);
    while (!front.empty() && (front.back() == ' ' || front.back() == ',')) front.remove_suffix(1);
    if (front.empty())
        return refuse(field, quoted(tidied) + " is a time on no day; say it with one, such as today " + tidied + ".");
    TRY(const Day day, parse_day(field, front, today));
    return DayAndTime{day, *minute};
}

}  // namespace undercroft

#include "app/logger.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "app/sheet.hpp"
#include "base/letters.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

constexpr std::size_t k_most_rows = 200'000;
constexpr std::size_t k_most_troubles_told = 20;
constexpr double k_coldest = -10.0;
constexpr double k_warmest = 60.0;

bool holds_any(const std::string& text, std::initializer_list<const char*> words) {
    return std::any_of(words.begin(), words.end(),
                       [&text](const char* word) { return text.find(word) != std::string::npos; });
}

std::string unit_in(const std::string& heading) {
    const std::string text = lower(heading);
    if (holds_any(text, {"fahrenheit", "°f", "(f)", "[f]", "deg f", "_f"})) return "F";
    if (holds_any(text, {"celsius", "°c", "(c)", "[c]", "deg c", "_c"})) return "C";
    return {};
}

// A piece of a map: in double quotes, since a heading may hold a comma.
std::string piece(const std::string& heading, const std::string& field) {
    std::string text = "\"";
    for (const char c : heading) text += c == '"' ? std::string("\"\"") : std::string(1, c);
    return text + "=" + field + "\"";
}

Failure cannot_tell(const std::string& file, const std::string& what, const std::vector<std::string>& headings,
                    const std::string& example) {
    std::string all;
    for (const std::string& heading : headings) all += (all.empty() ? "" : ", ") + heading;
    return fail(ErrorKind::bad_input, file + " line 1", what, {{"columns there", all}},
                "Say which is which: --map \"" + example + "\".");
}

// Which column is which by their headings.
Result<std::vector<std::string>> maps_of(const std::vector<std::string>& headings, const std::string& file) {
    std::vector<std::string> warm;
    std::vector<std::string> days;
    std::vector<std::string> times;
    for (const std::string& heading : headings) {
        const std::string text = lower(heading);
        const bool day = holds_any(text, {"date", "datum", "timestamp"});
        const bool time = holds_any(text, {"time", "zeit"});
        if (holds_any(text, {"temp", "celsius", "fahrenheit", "°c", "°f"}))
            warm.push_back(heading);
        else if (day)
            days.push_back(heading);
        else if (time)
            times.push_back(heading);
    }
    if (warm.size() != 1)
        return cannot_tell(file,
                           warm.empty() ? "No heading tells which column is the temperature."
                                        : "More than one column could be the temperature.",
                           headings, "Time=date,Probe 1=temperature C");
    if (days.size() > 1 || times.size() > 1 || (days.empty() && times.empty()))
        return cannot_tell(file,
                           days.empty() && times.empty() ? "No heading tells which column is the time."
                                                         : "More than one column could be the time.",
                           headings, "Time=date,Probe 1=temperature C");
    const std::string unit = unit_in(warm.front());
    std::vector<std::string> maps{piece(warm.front(), "temperature" + (unit.empty() ? "" : " " + unit))};
    // One column of days, one of times of day; or both in one, whatever it is called.
    maps.push_back(piece(days.empty() ? times.front() : days.front(), "date"));
    if (!days.empty() && !times.empty()) maps.push_back(piece(times.front(), "time"));
    return maps;
}

// Takes "Z", "+01:00", "-0530" off the end of a time; minutes east of UTC.
std::optional<int> take_offset(std::string& text) {
    if (!text.empty() && (text.back() == 'Z' || text.back() == 'z')) {
        text.pop_back();
        return 0;
    }
    const auto colon = text.find(':');
    const auto sign = text.find_last_of("+-");
    if (colon == std::string::npos || sign == std::string::npos || sign < colon) return std::nullopt;
    std::string digits;
    for (const char c : text.substr(sign + 1))
        if (is_digit(c)) digits += c;
    if (digits.size() == 2) digits += "00";
    if (digits.size() != 4) return std::nullopt;
    const int minutes = std::stoi(digits.substr(0, 2)) * 60 + std::stoi(digits.substr(2));
    const bool west = text[sign] == '-';
    text.erase(sign);
    while (!text.empty() && text.back() == ' ') text.pop_back();
    return west ? -minutes : minutes;
}

// Takes ":15" or ":15.250" behind the minutes out of a time.
int take_seconds(std::string& text) {
    const auto first = text.find(':');
    if (first == std::string::npos) return 0;
    const auto second = text.find(':', first + 1);
    if (second == std::string::npos || second + 2 >= text.size() || !is_digit(text[second + 1]) ||
        !is_digit(text[second + 2]))
        return 0;
    const int seconds = std::stoi(text.substr(second + 1, 2));
    if (seconds > 59) return 0;
    auto end = second + 3;
    if (end < text.size() && (text[end] == '.' || text[end] == ','))
        for (++end; end < text.size() && is_digit(text[end]);) ++end;
    text.erase(second, end - second);
    return seconds;
}

struct Trouble {
    int line = 0;
    std::string column;
    std::string what;
};

class LoggerReader {
public:
    LoggerReader(const Sheet& sheet, const Zone& zone, Instant now)
        : m_date(*sheet.column(SheetField::date)),
          m_time(sheet.column(SheetField::time)),
          m_warm(*sheet.column(SheetField::temperature)),
          m_zone(zone),
          m_now(now),
          m_today(day_of(now, zone)) {}

    // The column an error is about stands in its `where`.
    [[nodiscard]] Result<LoggedRow> row(const SheetRow& row) const {
        LoggedRow logged;
        std::string when = in_order(row.cell(m_date), m_date.detail);
        if (m_time != nullptr) when += " " + row.cell(*m_time);
        TRY(logged.at, instant(when));
        if (logged.at > m_now)
            return fail(ErrorKind::bad_input, m_date.name,
                        "expected a time that has been: \"" + when + "\" is in the future.");
        const std::string text = row.cell(m_warm);
        const auto temperature = parse_temperature(m_warm.name, with_unit(text, m_warm.detail));
        if (!temperature)
            return fail(ErrorKind::bad_input, m_warm.name,
                        "expected a temperature such as 18.5; found \"" + text + "\".");
        logged.celsius = temperature->in_celsius();
        if (logged.celsius < k_coldest || logged.celsius > k_warmest)
            return fail(ErrorKind::bad_input, m_warm.name,
                        "expected a temperature of a cellar, -10 C to 60 C; found \"" + text + "\".");
        return logged;
    }

private:
    [[nodiscard]] Result<Instant> instant(std::string when) const {
        const std::string typed = when;
        const auto offset = take_offset(when);
        const int seconds = take_seconds(when);
        const auto read = parse_day_and_time(m_date.name, when, m_today);
        if (!read || !read->minute_of_day)
            return fail(ErrorKind::bad_input, m_date.name,
                        "expected a day and time such as 2026-03-14 18:30; found \"" + typed + "\"." +
                            (read ? "" : " " + read.error().what));
        const LocalTime local{read->day, *read->minute_of_day, seconds};
        if (!offset) return m_zone.instant_of(local);
        return Instant{UtcZone{}.instant_of(local).ms - std::int64_t{60'000} * *offset};
    }

    const SheetColumn& m_date;
    const SheetColumn* m_time;
    const SheetColumn& m_warm;
    const Zone& m_zone;
    Instant m_now;
    Day m_today;
};

int decimals_of(const std::string& cell) {
    const auto point = cell.find_first_of(".,");
    if (point == std::string::npos) return 0;
    int decimals = 0;
    for (auto i = point + 1; i < cell.size() && is_digit(cell[i]); ++i) ++decimals;
    return decimals;
}

Failure refused(const std::string& file, const std::vector<Trouble>& troubles, std::size_t rows) {
    std::vector<Fact> facts;
    for (const Trouble& trouble : troubles) {
        if (facts.size() == k_most_troubles_told) {
            facts.push_back({"and", std::to_string(troubles.size() - facts.size()) + " more"});
            break;
        }
        facts.push_back({"line " + std::to_string(trouble.line) + ", column " + trouble.column, trouble.what});
    }
    return fail(
        ErrorKind::bad_input, file,
        std::to_string(troubles.size()) + " of " + std::to_string(rows) +
            (troubles.size() == 1 ? " rows does" : " rows do") + " not read, so nothing of the file was booked.",
        std::move(facts),
        "Put them right or take them out; --map \"Time=date dmy,Probe 1=temperature F\" says what columns mean.");
}

// Indices of the points that stay: a point ends its line as soon as no straight line passes all rows since within
// `tolerance`.
std::vector<std::size_t> points_within(const std::vector<LoggedRow>& rows, double tolerance, std::size_t coldest,
                                       std::size_t warmest) {
    std::vector<std::size_t> kept{0};
    double lowest = -std::numeric_limits<double>::infinity();
    double highest = std::numeric_limits<double>::infinity();
    const auto since = [&](std::size_t i) { return static_cast<double>(rows[i].at.ms - rows[kept.back()].at.ms); };
    const auto begin_at = [&](std::size_t i) {
        if (kept.back() != i) kept.push_back(i);
        lowest = -std::numeric_limits<double>::infinity();
        highest = std::numeric_limits<double>::infinity();
    };
    for (std::size_t i = 1; i < rows.size(); ++i) {
        double rise = rows[i].celsius - rows[kept.back()].celsius;
        double slope = since(i) > 0.0 ? rise / since(i) : 0.0;
        if (since(i) <= 0.0 || slope < lowest || slope > highest) {
            begin_at(i - 1);
            rise = rows[i].celsius - rows[kept.back()].celsius;
            if (since(i) <= 0.0) {
                begin_at(i);
                continue;
            }
        }
        if (i == coldest || i == warmest) {
            begin_at(i);
            continue;
        }
        lowest = std::max(lowest, (rise - tolerance) / since(i));
        highest = std::min(highest, (rise + tolerance) / since(i));
    }
    begin_at(rows.size() - 1);
    return kept;
}

}  // namespace

Result<Logged> read_logger(const std::string& bytes, const std::string& file, const std::vector<std::string>& maps,
                           const Zone& zone, Instant now) {
    if (bytes.empty())
        return fail(ErrorKind::bad_input, file, "The file is empty: expected a line of headings and readings below.");
    const std::vector<std::string> headings = headings_of(bytes, file);
    std::vector<std::string> meant = maps;
    if (meant.empty() && !headings.empty()) {
        TRY(meant, maps_of(headings, file));
    }
    TRY(Sheet sheet, read_sheet(bytes, file, meant));
    if (sheet.column(SheetField::temperature) == nullptr)
        return cannot_tell(file, "No column is mapped to temperature.", headings, "Time=date,Probe 1=temperature C");
    if (sheet.rows.empty())
        return fail(ErrorKind::bad_input, file,
                    "The file has no rows: expected a line of headings and readings below.");
    if (sheet.rows.size() > k_most_rows)
        return fail(ErrorKind::bad_input, file,
                    "The file has more than " + std::to_string(k_most_rows) + " rows; split it.");
    for (SheetColumn& column : sheet.columns) {
        if (column.field != SheetField::temperature) continue;
        if (column.detail.empty()) column.detail = unit_in(column.name);
        if (column.detail.empty() && is_number_word(sheet.rows.front().cell(column)))
            return cannot_tell(file, "The column \"" + column.name + "\" does not say whether it is in C or F.",
                               headings, "Time=date," + column.name + "=temperature C");
    }
    Logged logged;
    std::vector<Trouble> troubles;
    const LoggerReader reader{sheet, zone, now};
    for (const SheetRow& row : sheet.rows) {
        if (auto read = reader.row(row)) {
            logged.rows.push_back(*read);
            logged.decimals =
                std::clamp(decimals_of(row.cell(*sheet.column(SheetField::temperature))), logged.decimals, 2);
        } else {
            troubles.push_back({row.line, read.error().where, read.error().what});
        }
    }
    if (!troubles.empty()) return refused(file, troubles, sheet.rows.size());
    std::stable_sort(logged.rows.begin(), logged.rows.end(),
                     [](const LoggedRow& a, const LoggedRow& b) { return a.at < b.at; });
    return logged;
}

Thinned thinned(const std::vector<LoggedRow>& rows, std::size_t most) {
    const auto by_warmth = [](const LoggedRow& a, const LoggedRow& b) { return a.celsius < b.celsius; };
    const auto coldest = static_cast<std::size_t>(std::min_element(rows.begin(), rows.end(), by_warmth) - rows.begin());
    const auto warmest = static_cast<std::size_t>(std::max_element(rows.begin(), rows.end(), by_warmth) - rows.begin());
    double tolerance = 0.05;
    std::vector<std::size_t> kept = points_within(rows, tolerance, coldest, warmest);
    // Four points are always enough: first, last, coldest, warmest; rows of one instant may ask for more.
    while (kept.size() > std::max<std::size_t>(most, 4) && tolerance < 128.0) {
        tolerance *= 2.0;
        kept = points_within(rows, tolerance, coldest, warmest);
    }
    Thinned result;
    for (const std::size_t i : kept) result.points.push_back(rows[i]);
    if (kept.size() < rows.size()) result.thinned_to = tolerance;
    return result;
}

}  // namespace undercroft::app

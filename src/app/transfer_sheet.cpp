// A keeper's spreadsheet of past readings and tastings becomes sittings.
#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <unordered_map>

#include "app/bodies.hpp"
#include "app/book_line.hpp"
#include "app/course.hpp"
#include "app/describe.hpp"
#include "app/incoming.hpp"
#include "app/names.hpp"
#include "app/sheet.hpp"
#include "app/sitting_key.hpp"
#include "app/transfer.hpp"
#include "ledger/references.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

constexpr std::size_t k_most_sheet_rows = 100'000;

// What one row says, before the book is asked.
struct Wish {
    int line = 0;
    Instant at;
    Day day{};
    std::string subject;
    std::optional<TakeReading> reading;
    std::optional<TasteIt> tasting;
    std::optional<WriteNote> note;
};

// What a row becomes.
struct Draft {
    int line = 0;
    Instant at;
    Day day{};
    EntryKey subject;
    std::string name;  // of the subject
    Body body;
};

struct RowTrouble {
    int line = 0;
    std::string column;
    std::string what;
};

std::string* reading_slot(SheetField field, TakeReading& act) {
    switch (field) {
        case SheetField::gravity:
            return &act.gravity;
        case SheetField::ph:
            return &act.ph;
        case SheetField::ta:
            return &act.ta;
        case SheetField::temperature:
            return &act.temperature;
        case SheetField::co2:
            return &act.dissolved_co2;
        case SheetField::weight:
            return &act.weight;
        default:
            return nullptr;
    }
}

class SheetReader {
public:
    SheetReader(const Sheet& sheet, const SheetRequest& request, const Zone& zone, Instant now)
        : m_sheet(sheet), m_request(request), m_zone(zone), m_now(now), m_today(day_of(now, zone)) {}

    // Nothing when the row has nothing to book.
    [[nodiscard]] Result<std::optional<Wish>> wish_of(const SheetRow& row) const {
        if (row.cells.size() > m_sheet.width)
            return fail(ErrorKind::bad_input, std::to_string(m_sheet.width + 1),
                        "expected at most " + std::to_string(m_sheet.width) +
                            " cells, as many as the header has; found " + std::to_string(row.cells.size()) + ".");
        Wish wish;
        wish.line = row.line;
        fill_acts(row, wish);
        if (!wish.reading && !wish.tasting && !wish.note) return std::optional<Wish>{};
        TRY_VOID(place(row, wish));
        wish.subject = cell(row, SheetField::vessel);
        if (wish.subject.empty()) wish.subject = m_request.vessel;
        if (wish.subject.empty())
            return fail(ErrorKind::bad_input, "vessel",
                        "expected the name of a vessel, here or with --vessel for all rows without one.");
        if (wish.reading) wish.reading->subject = wish.subject;
        if (wish.tasting) wish.tasting->subject = wish.subject;
        if (wish.note) wish.note->subject = wish.subject;
        return std::optional(wish);
    }

private:
    [[nodiscard]] std::string cell(const SheetRow& row, SheetField field) const {
        const SheetColumn* column = m_sheet.column(field);
        return column == nullptr ? std::string{} : row.cell(*column);
    }

    void fill_acts(const SheetRow& row, Wish& wish) const {
        TakeReading reading;
        TasteIt tasting;
        bool read = false;
        bool tasted = false;
        for (const SheetColumn& column : m_sheet.columns) {
            const std::string text = row.cell(column);
            if (text.empty()) continue;
            const std::string amount = with_unit(text, column.detail);
            if (std::string* slot = reading_slot(column.field, reading)) {
                *slot = amount;
                read = true;
            } else if (column.field == SheetField::read_at) {
                reading.read_at = amount;
            } else if (column.field == SheetField::instrument) {
                reading.instrument = text;
            } else if (column.field == SheetField::taster) {
                tasting.taster = text;
            } else if (column.field == SheetField::words) {
                tasting.words = text;
                tasted = true;
            } else if (column.field == SheetField::liking) {
                tasting.liking = text;
                tasted = true;
            } else if (column.field == SheetField::fault) {
                tasting.faults.push_back(text);
                tasted = true;
            } else if (column.field == SheetField::score) {
                tasting.scores.push_back(column.detail + "=" + text);
                tasted = true;
            } else if (column.field == SheetField::note) {
                wish.note = WriteNote{"", text};
            } else if (column.field == SheetField::sample) {
                // The sample went into the jar, or into the glass when nothing was read.
                reading.sample = amount;
            }
        }
        if (tasting.taster.empty()) tasting.taster = m_request.taster;
        if (!read) tasting.sample = std::exchange(reading.sample, {});
        if (read) wish.reading = reading;
        if (tasted) wish.tasting = tasting;
    }

    [[nodiscard]] Result<void> place(const SheetRow& row, Wish& wish) const {
        const SheetColumn& date = *m_sheet.column(SheetField::date);
        std::string text = in_order(row.cell(date), date.detail);
        if (text.empty()) return fail(ErrorKind::bad_input, "date", "expected a day such as 2026-03-14.");
        if (const std::string time = cell(row, SheetField::time); !time.empty()) {
            // A day that reads by itself leaves the time to be said wrong.
            TRY([[maybe_unused]] const Day day, parse_day("date", text, m_today));
            const auto both = parse_day_and_time("time", text + " " + time, m_today);
            if (!both) return tl::unexpected(both.error());
            text += " " + time;
        }
        TRY(const DayAndTime when, parse_day_and_time("date", text, m_today));
        if (when.day > m_today)
            return fail(ErrorKind::bad_input, "date",
                        "expected a day that has been: " + iso_text(when.day) + " is in the future, today is " +
                            iso_text(m_today) + ".");
        wish.day = when.day;
        wish.at = when.minute_of_day    ? m_zone.instant_of(LocalTime{when.day, *when.minute_of_day, 0})
                  : when.day == m_today ? m_now
                                        : noon_of(when.day, m_zone);
        return {};
    }

    const Sheet& m_sheet;
    const SheetRequest& m_request;
    const Zone& m_zone;
    Instant m_now;
    Day m_today;
};

// Drafts rows against the book as it stood at their own moments. Rows in order of time share a cellar until the next
// entry of the book.
class RowDrafter {
public:
    RowDrafter(const BookCopy& here, const Zone& zone, const tables::Tables& tables, Day today, People& people)
        : m_here(here), m_zone(zone), m_tables(tables), m_today(today), m_people(people), m_course(here.entries) {}

    [[nodiscard]] Result<void> draft(const Wish& wish, std::vector<Draft>& drafts, std::vector<std::string>& remarks) {
        auto standing = m_course.at(Scope{wish.at, std::nullopt, std::nullopt});
        if (!standing) return broken(standing.error());
        const Cellar& cellar = (*standing)->cellar;
        std::vector<std::string> said;
        std::vector<Caution> cautions;
        Here here{cellar,
                  (*standing)->states,
                  m_tables,
                  m_zone,
                  m_here.facts.gallons,
                  unit_of(m_here.facts),
                  wish.at,
                  m_today,
                  said,
                  cautions,
                  m_people,
                  m_course.chains()};
        TRY_VOID(check_there(cellar, wish));
        if (wish.reading) {
            TRY(Reading body, body_of(*wish.reading, here));
            add(cellar, wish, body.subject, Body{body}, drafts);
        }
        if (wish.tasting) {
            TRY(Tasting body, body_of(*wish.tasting, here));
            add(cellar, wish, body.subject, Body{body}, drafts);
        }
        if (wish.note) {
            TRY(Note body, body_of(*wish.note, here));
            add(cellar, wish, body.subject, Body{body}, drafts);
        }
        for (const std::string& remark : said) remarks.push_back("line " + std::to_string(wish.line) + ": " + remark);
        return {};
    }

private:
    // A vessel that joined after the row's day is the mistake one makes; say so.
    [[nodiscard]] Result<void> check_there(const Cellar& then, const Wish& wish) {
        if (find_holder(then, "vessel", wish.subject)) return {};
        auto standing = m_course.at({});
        if (!standing) return broken(standing.error());
        const Cellar& now = (*standing)->cellar;
        TRY(const engine::HolderRef holder, find_holder(now, "vessel", wish.subject));
        const bool run = holder.run >= 0;
        const Instant since =
            run ? now.runs[at_index(holder.run)].packaged : now.vessels[at_index(holder.vessel)].joined;
        return fail(ErrorKind::impossible, "vessel",
                    "expected a vessel that was there: " +
                        (run ? now.runs[at_index(holder.run)].as.run : now.vessels[at_index(holder.vessel)].as.name) +
                        " is in the book only from " + iso_text(day_of(since, m_zone)) + " on.");
    }

    static void add(const Cellar& cellar, const Wish& wish, const EntryKey& subject, Body body,
                    std::vector<Draft>& drafts) {
        const int vessel = cellar.vessel_of(subject);
        const std::string& name = vessel >= 0 ? cellar.vessels[at_index(vessel)].as.name
                                              : cellar.runs[at_index(cellar.run_of(subject))].as.run;
        drafts.push_back({wish.line, wish.at, wish.day, subject, name, std::move(body)});
    }

    [[nodiscard]] Failure broken(const ReplayFault& fault) const {
        return Failure{
            Telling{m_course.chains(), m_here.persons, m_zone, unit_of(m_here.facts)}.error_of(fault, false)};
    }

    const BookCopy& m_here;
    const Zone& m_zone;
    const tables::Tables& m_tables;
    Day m_today;
    People& m_people;
    Course m_course;
};

// The column an error is about: readers name the field, keepers the column.
std::string column_of(const Error& error, const Sheet& sheet, const std::string& vessel) {
    std::string field = error.where;
    if (field == "subject") field = "vessel";
    for (const SheetColumn& column : sheet.columns) {
        const std::string name(word(column.field));
        if (field == name || field == name + " " + column.detail) return column.name;
    }
    return field == "vessel" && !vessel.empty() ? "--vessel" : field;
}

Failure sheet_refused(const std::string& file, std::vector<RowTrouble> troubles, std::size_t rows) {
    std::sort(troubles.begin(), troubles.end(),
              [](const RowTrouble& a, const RowTrouble& b) { return a.line < b.line; });
    std::vector<Fact> facts;
    for (const RowTrouble& trouble : troubles)
        facts.push_back({"line " + std::to_string(trouble.line) +
                             (trouble.column.starts_with("--") ? ", " : ", column ") + trouble.column,
                         trouble.what});
    return fail(ErrorKind::bad_input, file,
                std::to_string(troubles.size()) + " of " + std::to_string(rows) +
                    " rows cannot be booked, so nothing of the sheet was.",
                std::move(facts),
                "Put them right in the sheet, or map the column with its unit: \"Temp=temperature C\".");
}

// Removes what the book holds already, and what an earlier row said.
int leave_out_known(std::vector<Draft>& drafts, const BookCopy& here) {
    std::multimap<Instant, Body> known;
    for (const Entry& entry : here.entries) known.emplace(entry.at(), entry.body);
    std::vector<Draft> fresh;
    for (Draft& draft : drafts) {
        const auto [first, last] = known.equal_range(draft.at);
        if (std::any_of(first, last, [&draft](const auto& one) { return one.second == draft.body; })) continue;
        known.emplace(draft.at, draft.body);
        fresh.push_back(std::move(draft));
    }
    const int left_out = static_cast<int>(drafts.size() - fresh.size());
    drafts = std::move(fresh);
    return left_out;
}

}  // namespace

Result<SheetView> Transfer::import_sheet(const SheetRequest& request, Booking booking) {
    TRY_VOID(check_writable(booking));
    TRY(const Sheet sheet, read_sheet(request.bytes, request.file, request.maps));
    if (sheet.rows.size() > k_most_sheet_rows)
        return fail(ErrorKind::bad_input, request.file,
                    "The sheet has more than " + std::to_string(k_most_sheet_rows) + " rows; split it.");
    TRY(const BookCopy here, m_bulk.whole_copy());
    const Instant now = m_surroundings.now();
    SheetView view;
    view.book = line_of(m_journal, here.entries, m_zone);
    view.file = request.file;
    view.rows = static_cast<int>(sheet.rows.size());

    std::vector<RowTrouble> troubles;
    const auto note_trouble = [&](int line, const Error& error) {
        std::string what = error.what;
        if (!error.next_step.empty() && error.kind == ErrorKind::not_found) what += " " + error.next_step;
        troubles.push_back({line, column_of(error, sheet, request.vessel), what});
    };
    const SheetReader reader{sheet, request, m_zone, now};
    std::vector<Wish> wishes;
    for (const SheetRow& row : sheet.rows) {
        auto wish = reader.wish_of(row);
        if (!wish)
            note_trouble(row.line, wish.error());
        else if (!*wish)
            ++view.passed_over;
        else
            wishes.push_back(**std::move(wish));
    }
    std::stable_sort(wishes.begin(), wishes.end(), [](const Wish& a, const Wish& b) { return a.at < b.at; });
    People people{here.persons, m_surroundings};
    RowDrafter drafter{here, m_zone, m_tables, day_of(now, m_zone), people};
    std::vector<Draft> drafts;
    for (const Wish& wish : wishes)
        if (const auto drafted = drafter.draft(wish, drafts, view.remarks); !drafted)
            note_trouble(wish.line, drafted.error());
    if (!troubles.empty()) return sheet_refused(request.file, std::move(troubles), sheet.rows.size());
    view.already = leave_out_known(drafts, here);

    // One sitting a day and vessel, in order of time.
    std::map<std::pair<Day, EntryKey>, std::vector<const Draft*>> groups;
    std::vector<std::pair<Day, EntryKey>> order;
    for (const Draft& draft : drafts) {
        auto& group = groups[{draft.day, draft.subject}];
        if (group.empty()) order.emplace_back(draft.day, draft.subject);
        group.push_back(&draft);
    }
    std::string newest;
    for (const Entry& entry : here.entries) newest = std::max(newest, entry.key.sitting);
    const std::string by = people.commitment_of(request.by);
    std::vector<Entry> entries;
    std::unordered_map<std::string, int> line_of_entry;
    for (const auto& which : order) {
        newest = new_sitting_key(now, m_surroundings.random16(), newest);
        const auto& group = groups.at(which);
        for (std::size_t i = 0; i < group.size(); ++i) {
            Entry entry;
            entry.key = {newest, static_cast<int>(i)};
            entry.sitting_size = static_cast<int>(group.size());
            entry.place = place_at(group[i]->at, entry.key);
            entry.by = by;
            entry.body = group[i]->body;
            entry.recorded = now;
            line_of_entry.emplace(entry.key.text(), group[i]->line);
            entries.push_back(std::move(entry));
        }
    }
    std::vector<Entry> all = here.entries;
    all.insert(all.end(), entries.begin(), entries.end());
    if (const auto cellar = replay(all, {}); !cellar) {
        const auto found = line_of_entry.find(cellar.error().entry.text());
        const bool of_sheet = found != line_of_entry.end();
        const Chains chains = chains_of(all);
        Error error = Telling{chains, people.all(), m_zone, unit_of(here.facts)}.error_of(cellar.error(), of_sheet);
        if (of_sheet) error.where = request.file + " line " + std::to_string(found->second);
        if (of_sheet) error.facts.insert(error.facts.begin(), {"line of the sheet", std::to_string(found->second)});
        return Failure{std::move(error)};
    }

    std::map<std::string, int> subjects;
    for (const Draft& draft : drafts) {
        ++subjects[draft.name];
        if (std::holds_alternative<Reading>(draft.body)) ++view.readings;
        if (std::holds_alternative<Tasting>(draft.body)) ++view.tastings;
        if (std::holds_alternative<Note>(draft.body)) ++view.notes;
    }
    view.subjects = {subjects.begin(), subjects.end()};
    view.sittings = static_cast<int>(order.size());
    if (!drafts.empty()) {
        view.first_day = iso_text(drafts.front().day);
        view.last_day = iso_text(drafts.back().day);
    }
    if (booking == Booking::what_if || entries.empty()) return view;
    TRY(const std::vector<Entry> booked,
        m_bulk.append_all(sittings_of(entries, people.added(), {}), static_cast<std::int64_t>(here.entries.size())));
    view.booked = true;
    view.first_number = booked.front().sequence;
    view.last_number = booked.back().sequence;
    view.book.sequence = view.last_number;
    return view;
}

}  // namespace undercroft::app

#include "app/due.hpp"

#include <algorithm>
#include <tuple>

#include "app/bodies.hpp"
#include "app/due_parts.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;
using engine::HolderRef;

// More than this share of a vessel that keeps no air: an empty space feeds vinegar.
constexpr double k_room_worth_filling = 0.05;

void look_at(const Entry& entry, const Cellar& cellar, HolderRef holder, Day day, DueHistory& history) {
    const auto own = [&](const EntryKey& key) {
        return holder.run >= 0 ? cellar.run_of(key) == holder.run : cellar.vessel_of(key) == holder.vessel;
    };
    if (const auto* reading = std::get_if<Reading>(&entry.body)) {
        for (const Measured& one : reading->values)
            if (one.quantity == Quantity::gravity || one.quantity == Quantity::ph) {
                history.readings.push_back(day);
                return;
            }
    } else if (std::holds_alternative<Tasting>(entry.body)) {
        history.tastings.push_back(day);
    } else if (const auto* take = std::get_if<Take>(&entry.body)) {
        if (take->cause == TakeCause::opened) history.opened.push_back(day);
    } else if (const auto* lot = std::get_if<LotEnters>(&entry.body)) {
        if (!history.filled) history.filled = day;
        if (lot->reason == Reason::top_up) history.top_ups.push_back(day);
        if (lot->reason != Reason::refill) return;
        history.refills.push_back(day);
        history.refill_volumes.push_back(lot->volume);
        history.fed_by = -1;
        if (lot->brewed_to && !lot->age_assumed) history.brewing_leads.push_back(days_between(*lot->brewed_to, day));
    } else if (const auto* move = std::get_if<Move>(&entry.body)) {
        if (own(move->from)) {
            const bool onward = move->reason == Reason::refill || move->reason == Reason::top_up;
            if (move->reason == Reason::pull)
                history.pulls.push_back(day);
            else if (onward)
                history.drawn.push_back(day);
            return;
        }
        if (!history.filled) history.filled = day;
        for (const Destination& to : move->to) {
            if (!own(to.vessel)) continue;
            if (move->reason == Reason::top_up) history.top_ups.push_back(day);
            if (move->reason != Reason::refill) continue;
            history.refills.push_back(day);
            history.refill_volumes.push_back(to.volume);
            history.fed_by = cellar.vessel_of(move->from);
        }
    }
}

}  // namespace

DueBook::DueBook(const Seen& seen_, const tables::Tables& tables_)
    : seen(seen_), tables(tables_), today(undercroft::day_of(seen_.when, seen_.telling.zone)) {
    for (const Entry* entry : seen.cellar.entries) {
        const auto* interval = std::get_if<Interval>(&entry->body);
        if (interval == nullptr) continue;
        if (interval->role)
            m_by_role[*interval->role][interval->what] = interval->days;
        else
            m_own[{seen.cellar.vessel_of(interval->subject), seen.cellar.run_of(interval->subject)}][interval->what] =
                interval->days;
    }
}

std::optional<int> DueBook::interval(HolderRef holder, Recurring what) const {
    if (const auto own = m_own.find({holder.vessel, holder.run}); own != m_own.end())
        if (const auto found = own->second.find(what); found != own->second.end()) return found->second;
    if (holder.run >= 0) return std::nullopt;
    if (const auto role = m_by_role.find(seen.cellar.vessels[at_index(holder.vessel)].as.role); role != m_by_role.end())
        if (const auto found = role->second.find(what); found != role->second.end()) return found->second;
    return std::nullopt;
}

DueHistory DueBook::history(HolderRef holder) const {
    DueHistory history;
    const Cellar& cellar = seen.cellar;
    const auto& entries =
        holder.run >= 0 ? cellar.runs[at_index(holder.run)].entries : cellar.vessels[at_index(holder.vessel)].entries;
    const std::optional<Instant> since =
        holder.run >= 0 ? std::nullopt : cellar.vessels[at_index(holder.vessel)].filled_since;
    for (const int index : entries) {
        const Entry& entry = *cellar.entries[at_index(index)];
        if (since && entry.at() < *since) continue;
        look_at(entry, cellar, holder, day_of(entry.at()), history);
    }
    return history;
}

const tables::Task* DueBook::task(std::string_view id) const {
    const auto found = tables.find_task(id);
    return found ? *found : nullptr;
}

void DueBook::add(std::vector<DueLine>& lines, DueLine line, Day from, Day due, std::optional<Day> until) const {
    line.from = iso_text(from);
    line.day = iso_text(due);
    if (until) line.until = iso_text(*until);
    line.days = days_between(today, due);
    lines.push_back(std::move(line));
}

const std::string& DueBook::name_of(HolderRef holder) const {
    return holder.run >= 0 ? seen.cellar.runs[at_index(holder.run)].as.run
                           : seen.cellar.vessels[at_index(holder.vessel)].as.name;
}

std::string DueBook::typed(HolderRef holder) const {
    const std::string& name = name_of(holder);
    return name.find_first_of(" \"'#;&|()<>$`\\*?!") == std::string::npos ? name : "\"" + name + "\"";
}

DueLine due_line(std::string subject, std::string what, std::string title, std::string why, std::string command) {
    DueLine line;
    line.subject = std::move(subject);
    line.what = std::move(what);
    line.title = std::move(title);
    line.why = std::move(why);
    line.command = std::move(command);
    return line;
}

DueLine urgent_line(std::string subject, std::string what, std::string title, std::string why, std::string command) {
    DueLine line = due_line(std::move(subject), std::move(what), std::move(title), std::move(why), std::move(command));
    line.urgent = true;
    return line;
}

std::string days_text(int days) {
    return std::to_string(days) + (days == 1 ? " day" : " days");
}

void add_readings(const DueBook& book, int vessel, std::vector<DueLine>& lines) {
    const HolderRef holder{vessel, -1};
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    const DueHistory history = book.history(holder);
    const std::string command = "undercroft read " + book.typed(holder) + " GRAVITY --ph PH --sample 100 mL";
    std::optional<int> days = book.interval(holder, Recurring::reading);
    std::string rule = days ? "asked for every " + span_text(std::max(*days, 1)) : std::string{};
    if (!days && state.as.role == VesselRole::solera) {
        days = k_solera_reading_days;
        rule = "a solera is read every " + span_text(*days);
    }
    if (!days && state.as.role == VesselRole::finishing) {
        const auto watch = watch_of(book, vessel);
        if (watch && !watch->complete) {
            days = k_watched_reading_days;
            rule = "while a gravity is watched it is read every " + span_text(*days);
        }
    }
    // After a refill the layers mix first; then a reading says where the new turn begins.
    const tables::Task* check = book.task("after_refill_check");
    const bool refilled = !history.refills.empty() &&
                          (history.readings.empty() || history.readings.back() <= history.refills.back()) &&
                          check != nullptr && days != 0;
    if (refilled) {
        const Day refill = history.refills.back();
        const Day from = add_days(refill, static_cast<int>(check->lag_min_days.value_or(7.0)));
        const Day until = add_days(refill, static_cast<int>(check->lag_max_days.value_or(14.0)));
        book.add(
            lines,
            due_line(state.as.name, "check", "first reading after the refill",
                     "refilled " + iso_text(refill) + " and not read since; earlier than a week shows layers", command),
            from, until, until);
        return;
    }
    if (days && *days > 0) {
        const bool read = !history.readings.empty();
        const Day last = read ? history.readings.back() : history.filled.value_or(book.today);
        const Day due = add_days(last, *days);
        book.add(
            lines,
            due_line(state.as.name, "reading", "read it",
                     (read ? "last read " + iso_text(last) : "filled " + iso_text(last) + ", never read") + "; " + rule,
                     command),
            due, due, std::nullopt);
    }
    if (const auto every = book.interval(holder, Recurring::tasting); every && *every > 0) {
        const bool tasted = !history.tastings.empty();
        const Day last = tasted ? history.tastings.back() : history.filled.value_or(book.today);
        const Day due = add_days(last, *every);
        book.add(lines,
                 due_line(state.as.name, "tasting", "taste it",
                          (tasted ? "last tasted " : "never tasted, filled ") + iso_text(last) + "; asked for every " +
                              span_text(*every),
                          "undercroft taste " + book.typed(holder) + " ATTRIBUTE=N WORDS --taster NAME"),
                 due, due, std::nullopt);
    }
}

void add_filling(const DueBook& book, int vessel, std::vector<DueLine>& lines) {
    const HolderRef holder{vessel, -1};
    const VesselState& state = book.seen.cellar.vessels[at_index(vessel)];
    if (state.as.role != VesselRole::solera) return;
    const DueHistory history = book.history(holder);
    Volume room = state.full() - state.liquid.volume;
    for (const int index : state.additions_inside) room -= book.seen.cellar.additions[at_index(index)].as.solids;
    const bool has_room = room.in_litres() > k_room_worth_filling * state.full().in_litres();
    std::optional<Day> drawn;
    for (const auto* days : {&history.pulls, &history.drawn})
        if (!days->empty() && (!drawn || days->back() > *drawn)) drawn = days->back();
    const bool refilled = drawn && !history.refills.empty() && history.refills.back() >= *drawn;
    if (drawn && !refilled && has_room) {
        book.add(lines,
                 urgent_line(state.as.name, "refill", "refill it",
                             "drawn " + iso_text(*drawn) + " and " + book.seen.telling.volume(room) +
                                 " of air stand over it; refill on the day of the pull",
                             "undercroft refill " + book.typed(holder) + " VOLUME --lot NAME --og GRAVITY"),
                 *drawn, *drawn, std::nullopt);
        return;
    }
    const std::string command = "undercroft top-up " + book.typed(holder) + " VOLUME --to-full --from VESSEL";
    std::optional<int> days = book.interval(holder, Recurring::top_up);
    if (days == 0) return;
    if (has_room) {
        book.add(lines,
                 due_line(state.as.name, "top_up", "top it up",
                          book.seen.telling.volume(room) + " of room over it by the book", command),
                 book.today, book.today, std::nullopt);
        return;
    }
    const bool own = days.has_value();
    if (!own && (state.as.material == "oak" || state.as.material == "wood")) days = k_wood_top_up_days;
    if (!days) return;
    Day last = history.filled.value_or(book.today);
    for (const auto* list : {&history.refills, &history.top_ups})
        if (!list->empty()) last = std::max(last, list->back());
    const Day due = add_days(last, *days);
    book.add(lines,
             due_line(state.as.name, "top_up", "top it up",
                      "last filled up " + iso_text(last) + "; " +
                          (own ? "asked for every " : "wood loses some: looked at every ") + span_text(*days),
                      command),
             due, due, std::nullopt);
}

std::vector<DueLine> due_lines(const Seen& seen, const tables::Tables& tables) {
    const DueBook book(seen, tables);
    std::vector<DueLine> lines;
    for (std::size_t i = 0; i < seen.cellar.vessels.size(); ++i) {
        const VesselState& state = seen.cellar.vessels[i];
        if (state.retired || state.liquid.volume == Volume{}) continue;
        const auto vessel = static_cast<int>(i);
        add_readings(book, vessel, lines);
        add_finishing(book, vessel, lines);
        add_turn(book, vessel, lines);
        add_filling(book, vessel, lines);
    }
    for (std::size_t i = 0; i < seen.cellar.runs.size(); ++i)
        if (seen.cellar.runs[i].left > 0) add_run(book, static_cast<int>(i), lines);
    std::stable_sort(lines.begin(), lines.end(), [](const DueLine& a, const DueLine& b) {
        return std::tuple(!a.urgent, a.days) < std::tuple(!b.urgent, b.days);
    });
    return lines;
}

}  // namespace undercroft::app

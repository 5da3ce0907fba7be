// The parts of due.hpp: one function a topic. For the due*.cpp files.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "app/due.hpp"
#include "engine/package/watch.hpp"

namespace undercroft::app {

// What has happened to one vessel since it was last empty, or to one run.
struct DueHistory {
    std::optional<Day> filled;
    std::vector<Day> pulls;    // drawn for use
    std::vector<Day> drawn;    // drawn to refill or top up another vessel
    std::vector<Day> refills;  // and the brewing lead of each, where it was brewed for it
    std::vector<int> brewing_leads;
    std::vector<Volume> refill_volumes;
    int fed_by = -1;  // vessel its last refill came from; -1: a brew
    std::vector<Day> top_ups;
    std::vector<Day> readings;  // of gravity or pH
    std::vector<Day> tastings;
    std::vector<Day> opened;  // bottles of a run
};

class DueBook {
public:
    DueBook(const Seen& seen, const tables::Tables& tables);

    const Seen& seen;
    const tables::Tables& tables;
    Day today;

    [[nodiscard]] DueHistory history(engine::HolderRef holder) const;
    // What the keeper set: 0 is never; nothing when nobody said.
    [[nodiscard]] std::optional<int> interval(engine::HolderRef holder, ledger::Recurring what) const;
    [[nodiscard]] Day day_of(Instant instant) const { return undercroft::day_of(instant, seen.telling.zone); }
    [[nodiscard]] const tables::Task* task(std::string_view id) const;
    // Fills day, days and the rest from the day it is due.
    void add(std::vector<DueLine>& lines, DueLine line, Day from, Day due, std::optional<Day> until) const;
    [[nodiscard]] const std::string& name_of(engine::HolderRef holder) const;
    // As typed: in quotes where it needs them.
    [[nodiscard]] std::string typed(engine::HolderRef holder) const;

private:
    std::map<std::pair<int, int>, std::map<ledger::Recurring, int>> m_own;  // by vessel and run
    std::map<ledger::VesselRole, std::map<ledger::Recurring, int>> m_by_role;
};

// The watch of a gravity before packaging, as far as it has come.
struct DueWatch {
    engine::package::EvidenceNeeded needed;
    double days_needed = 0.0;  // as cold as it was
    int readings = 0;          // that agree, up to the newest
    std::optional<Day> since;  // of the first of them
    Day newest{};
    std::string gravity;
    bool complete = false;
};
// Nothing where nothing is watched: no beer, or nothing alive in it.
[[nodiscard]] std::optional<DueWatch> watch_of(const DueBook& book, int vessel);

void add_readings(const DueBook& book, int vessel, std::vector<DueLine>& lines);
void add_finishing(const DueBook& book, int vessel, std::vector<DueLine>& lines);
void add_turn(const DueBook& book, int vessel, std::vector<DueLine>& lines);
void add_filling(const DueBook& book, int vessel, std::vector<DueLine>& lines);
void add_run(const DueBook& book, int run, std::vector<DueLine>& lines);

[[nodiscard]] DueLine due_line(std::string subject, std::string what, std::string title, std::string why,
                               std::string command);
[[nodiscard]] DueLine urgent_line(std::string subject, std::string what, std::string title, std::string why,
                                  std::string command);
[[nodiscard]] std::string days_text(int days);  // "1 day", "12 days"

}  // namespace undercroft::app

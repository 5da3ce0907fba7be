#include "store/entry_row.hpp"

#include <utility>

#include "store/canonical_json.hpp"
#include "store/digest.hpp"
#include "store/entry_codec.hpp"

namespace undercroft::store {
namespace {

using ledger::EntryKey;

std::optional<std::string> unless_empty(const std::string& text) {
    return text.empty() ? std::nullopt : std::optional(text);
}

std::optional<std::string> unless_empty(const EntryKey& key) {
    return key.empty() ? std::nullopt : std::optional(key.text());
}

// Everything that leaves the vessel. Each part is within 2^53 once encoded, so the sum is watched here.
std::optional<std::int64_t> all_that_leaves(const ledger::Move& move) {
    std::int64_t sum = move.loss.ul();
    for (const ledger::Destination& to : move.to) {
        sum += to.volume.ul();
        if (sum > k_largest_whole_number || sum < -k_largest_whole_number) return std::nullopt;
    }
    return sum;
}

struct ColumnsOf {
    BodyColumns operator()(const ledger::VesselJoins& it) const { return {.volume_ul = it.capacity.ul()}; }
    BodyColumns operator()(const ledger::VesselLeaves& it) const { return {.subject = unless_empty(it.vessel)}; }
    BodyColumns operator()(const ledger::LotEnters& it) const {
        return {.subject = unless_empty(it.vessel), .volume_ul = it.volume.ul()};
    }
    BodyColumns operator()(const ledger::Move& it) const {
        return {.subject = unless_empty(it.from), .volume_ul = all_that_leaves(it)};
    }
    BodyColumns operator()(const ledger::Loss& it) const {
        return {.subject = unless_empty(it.vessel), .volume_ul = it.volume.ul()};
    }
    BodyColumns operator()(const ledger::Addition& it) const {
        return {.subject = unless_empty(it.vessel), .volume_ul = it.brings.ul(), .mass_mg = it.mass.mg()};
    }
    BodyColumns operator()(const ledger::Lift& it) const { return {.subject = unless_empty(it.addition)}; }
    BodyColumns operator()(const ledger::Pitch& it) const { return {.subject = unless_empty(it.vessel)}; }
    BodyColumns operator()(const ledger::Reading& it) const {
        return {.subject = unless_empty(it.subject), .volume_ul = it.sample.ul()};
    }
    BodyColumns operator()(const ledger::Tasting& it) const {
        return {.person = unless_empty(it.taster), .subject = unless_empty(it.subject), .volume_ul = it.sample.ul()};
    }
    BodyColumns operator()(const ledger::Package& it) const {
        return {.subject = unless_empty(it.from),
                .volume_ul = it.fill.ul(),
                .mass_mg = it.priming_sugar.mg(),
                .count = it.count};
    }
    BodyColumns operator()(const ledger::Take& it) const {
        return {.person = unless_empty(it.person), .subject = unless_empty(it.run), .count = it.count};
    }
    BodyColumns operator()(const ledger::Care& it) const { return {.subject = unless_empty(it.vessel)}; }
    BodyColumns operator()(const ledger::Note& it) const { return {.subject = unless_empty(it.subject)}; }
    BodyColumns operator()(const ledger::Snapshot& it) const { return {.subject = unless_empty(it.subject)}; }
    BodyColumns operator()(const ledger::Acknowledge& it) const { return {.subject = unless_empty(it.subject)}; }
    BodyColumns operator()(const ledger::Target& it) const { return {.subject = unless_empty(it.subject)}; }
    BodyColumns operator()(const ledger::Decide& it) const {
        return {.subject = unless_empty(it.subject), .volume_ul = it.volume.ul()};
    }
    BodyColumns operator()(const ledger::Interval& it) const {
        return {.subject = unless_empty(it.subject), .count = it.days};
    }
    BodyColumns operator()(const ledger::Settle& it) const {
        return {.subject = unless_empty(it.subject), .volume_ul = it.found.ul(), .count = it.count};
    }
    BodyColumns operator()(const ledger::Calibrate&) const { return {}; }
    BodyColumns operator()(const ledger::LoggerFile& it) const {
        return {.subject = unless_empty(it.subject), .count = it.rows};
    }
    BodyColumns operator()(const ledger::Treat& it) const { return {.subject = unless_empty(it.subject)}; }
    BodyColumns operator()(const ledger::Confirm& it) const { return {.subject = unless_empty(it.subject)}; }
    BodyColumns operator()(const ledger::Void&) const { return {}; }
    BodyColumns operator()(const ledger::Unknown&) const { return {}; }
};

// All columns but the link.
EntryRow columns_of(const ledger::Entry& entry, std::string canonical) {
    EntryRow row;
    row.sequence = entry.sequence;
    row.sitting = entry.key.sitting;
    row.idx = entry.key.index;
    row.sitting_size = entry.sitting_size;
    row.format = std::holds_alternative<ledger::Unknown>(entry.body) ? format_of(canonical) : format_needed(entry);
    row.kind = ledger::kind_word(entry.body);
    row.at_ms = entry.place.at.ms;
    row.path = entry.place.path;
    if (entry.supersedes) row.supersedes = entry.supersedes->text();
    row.recorded_ms = entry.recorded.ms;
    row.by_person = unless_empty(entry.by);
    row.body = std::visit(ColumnsOf{}, entry.body);
    row.canonical = std::move(canonical);
    return row;
}

}  // namespace

Result<EntryRow> row_of(const ledger::Entry& entry, std::string_view previous_link) {
    TRY(std::string canonical, encode(entry));
    if (const auto* move = std::get_if<ledger::Move>(&entry.body); move != nullptr && !all_that_leaves(*move))
        return fail(ErrorKind::bad_input, "to", "the volumes of this move add up to more than a book can count.");
    EntryRow row = columns_of(entry, std::move(canonical));
    row.link = link_of_entry(previous_link, row.canonical);
    return row;
}

Result<ledger::Entry> entry_in(std::int64_t sequence, std::string_view canonical) {
    auto entry = decode_entry(canonical);
    if (!entry) {
        Error error = std::move(entry).error();
        error.where = "entry " + std::to_string(sequence);
        error.next_step = "Go on with the latest backup that checks out, and keep this file.";
        return Failure{error};
    }
    entry->sequence = sequence;
    return entry;
}

Result<std::string> wrong_column(const EntryRow& row) {
    TRY(const ledger::Entry entry, entry_in(row.sequence, row.canonical));
    EntryRow due = columns_of(entry, row.canonical);
    if (std::holds_alternative<ledger::Unknown>(entry.body)) due.body = row.body;
    const std::pair<const char*, bool> columns[] = {
        {"sitting", row.sitting == due.sitting},
        {"idx", row.idx == due.idx},
        {"sitting_size", row.sitting_size == due.sitting_size},
        {"format", row.format == due.format},
        {"kind", row.kind == due.kind},
        {"at_ms", row.at_ms == due.at_ms},
        {"path", row.path == due.path},
        {"supersedes", row.supersedes == due.supersedes},
        {"recorded_ms", row.recorded_ms == due.recorded_ms},
        {"by_person", row.by_person == due.by_person},
        {"person", row.body.person == due.body.person},
        {"subject", row.body.subject == due.body.subject},
        {"volume_ul", row.body.volume_ul == due.body.volume_ul},
        {"mass_mg", row.body.mass_mg == due.body.mass_mg},
        {"count", row.body.count == due.body.count},
    };
    for (const auto& [name, same] : columns)
        if (!same) return std::string(name);
    return std::string{};
}

EntryRow read_row(const Statement& statement) {
    EntryRow row;
    row.sequence = statement.integer(0);
    row.sitting = statement.text(1);
    row.idx = statement.integer(2);
    row.sitting_size = statement.integer(3);
    row.format = statement.integer(4);
    row.kind = statement.text(5);
    row.at_ms = statement.integer(6);
    row.path = statement.text(7);
    row.supersedes = statement.maybe_text(8);
    row.recorded_ms = statement.integer(9);
    row.by_person = statement.maybe_text(10);
    row.body.person = statement.maybe_text(11);
    row.body.subject = statement.maybe_text(12);
    row.body.volume_ul = statement.maybe_integer(13);
    row.body.mass_mg = statement.maybe_integer(14);
    row.body.count = statement.maybe_integer(15);
    row.canonical = statement.text(16);
    row.link = statement.text(17);
    return row;
}

Result<void> insert_row(Database& database, const EntryRow& row) {
    TRY(auto insert,
        database.prepare("INSERT INTO entry (sequence, sitting, idx, sitting_size, format, kind, at_ms, path,"
                         " supersedes, recorded_ms, by_person, person, subject, volume_ul, mass_mg, count, canonical,"
                         " link) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17,"
                         " ?18)"));
    insert.bind(1, row.sequence)
        .bind(2, row.sitting)
        .bind(3, row.idx)
        .bind(4, row.sitting_size)
        .bind(5, row.format)
        .bind(6, row.kind)
        .bind(7, row.at_ms)
        .bind(8, row.path)
        .bind_maybe(9, row.supersedes)
        .bind(10, row.recorded_ms)
        .bind_maybe(11, row.by_person)
        .bind_maybe(12, row.body.person)
        .bind_maybe(13, row.body.subject)
        .bind_maybe(14, row.body.volume_ul)
        .bind_maybe(15, row.body.mass_mg)
        .bind_maybe(16, row.body.count)
        .bind(17, row.canonical)
        .bind_blob(18, row.link);
    return insert.run();
}

}  // namespace undercroft::store

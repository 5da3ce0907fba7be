// One row of the table `entry`: an entry's canonical bytes, its link, and the columns repeated from them.
//
// Holds: every column but sequence and link follows from the canonical bytes, so a row can be proved.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "ledger/entry.hpp"
#include "store/sqlite.hpp"

namespace undercroft::store {

// What the entry is about, where its kind has such a figure.
struct BodyColumns {
    std::optional<std::string> person = std::nullopt;  // taster, or receiver of bottles
    std::optional<std::string> subject =
        std::nullopt;  // key of the vessel, run or addition; of a move the vessel it leaves
    std::optional<std::int64_t> volume_ul =
        std::nullopt;  // capacity, volume, all that leaves by a move, brings, sample, fill
    std::optional<std::int64_t> mass_mg = std::nullopt;  // as weighed; of a run the priming sugar
    std::optional<std::int64_t> count = std::nullopt;    // bottles
    friend bool operator==(const BodyColumns&, const BodyColumns&) = default;
};

struct EntryRow {
    std::int64_t sequence = 0;
    std::string sitting;
    std::int64_t idx = 0;
    std::int64_t sitting_size = 0;
    std::int64_t format = 0;
    std::string kind;
    std::int64_t at_ms = 0;
    std::string path;
    std::optional<std::string> supersedes;
    std::int64_t recorded_ms = 0;
    std::optional<std::string> by_person;
    BodyColumns body;
    std::string canonical;
    std::string link;  // 32 raw bytes
    friend bool operator==(const EntryRow&, const EntryRow&) = default;
};

// Bad_input as encode() says, or when the volumes of a move add up beyond 2^53 - 1.
[[nodiscard]] Result<EntryRow> row_of(const ledger::Entry& entry, std::string_view previous_link);
// The entry in a row, with its sequence. Storage, naming the entry, when it does not decode.
[[nodiscard]] Result<ledger::Entry> entry_in(std::int64_t sequence, std::string_view canonical);

// Name of the first column that does not follow from the canonical bytes; empty when all do. For a kind
// this program does not know, the columns of the body are taken as they are.
[[nodiscard]] Result<std::string> wrong_column(const EntryRow& row);

// All columns, in the order read_row() wants.
inline constexpr std::string_view k_select_rows =
    "SELECT sequence, sitting, idx, sitting_size, format, kind, at_ms, path, supersedes, recorded_ms, by_person,"
    " person, subject, volume_ul, mass_mg, count, canonical, link FROM entry";
[[nodiscard]] EntryRow read_row(const Statement& statement);
[[nodiscard]] Result<void> insert_row(Database& database, const EntryRow& row);

}  // namespace undercroft::store

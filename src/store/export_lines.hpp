// The lines of an export, written (docs/book-format.md, "The export"). export_reader.hpp reads them.
//
// Holds: every line is one object in the form of RFC 8785 and ends with a line break. `canonical` stands in it byte
// for byte.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "ledger/exporter.hpp"
#include "ledger/journal.hpp"

namespace undercroft::store {

inline constexpr int k_export_format = 1;
inline constexpr std::size_t k_longest_line = std::size_t{64} * 1024 * 1024;  // bytes

// Links are raw bytes.
[[nodiscard]] std::string line_of_facts(std::string_view canonical, std::string_view link);
[[nodiscard]] std::string line_of_person(const ledger::Person& person);
[[nodiscard]] std::string line_of_picture(const ledger::Picture& picture);
[[nodiscard]] std::string line_of_entry(std::int64_t sequence, std::string_view canonical, std::string_view link);
[[nodiscard]] std::string line_of_end(const ledger::ExportTotals& totals);

}  // namespace undercroft::store

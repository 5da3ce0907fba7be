// From a liquid of the book, or from figures alone, to the gas check and its view.
#pragma once

#include "app/book.hpp"
#include "engine/package/gas_check.hpp"
#include "engine/package/gas_spread.hpp"
#include "engine/state/state.hpp"
#include "engine/trace/trace.hpp"
#include "ledger/replay.hpp"

namespace undercroft::app {

// What the book knows of a vessel or run, as a question: gravity and strength, every culture possible in it, acids
// and sugar its fruit brought, hops, temperatures read, and how long its gravity was watched.
[[nodiscard]] engine::package::GasQuestion gas_question_of(const ledger::Cellar& cellar,
                                                           const engine::StateBook& states,
                                                           const tables::Tables& tables, engine::HolderRef holder);

// Fills in what a keeper stated; texts that are empty change nothing.
[[nodiscard]] Result<void> state_figures(engine::package::GasQuestion& question, const GasRequest& request,
                                         const tables::Tables& tables, Gallons gallons);

// "25 C", or one of cellar, flat, attic, post, car at its warmest.
[[nodiscard]] Result<Temperature> parse_store(std::string_view field, const std::string& text);

// Of a verdict as it is kept in the book; "no objection" for those kept before the distribution decided them.
[[nodiscard]] std::string verdict_in_words(const std::string& verdict);

// The check with its distribution.
[[nodiscard]] Result<GasCheckView> full_gas_view(const engine::package::GasQuestion& question,
                                                 const tables::Tables& tables, const std::string& subject);
[[nodiscard]] Result<GasCheckView> full_gas_view(const engine::package::GasCheck& check,
                                                 const engine::package::GasQuestion& question,
                                                 const tables::Tables& tables, const std::string& subject);

}  // namespace undercroft::app

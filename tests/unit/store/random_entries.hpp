// Random entries of every kind for the property tests, and the plain material the others are built of.
#pragma once

#include <rapidcheck.h>

#include <string>
#include <vector>

#include "ledger/entry.hpp"
#include "ledger/journal.hpp"

namespace undercroft::store::testing {

// A UUID of version 7 made of a number, so that tests can be read.
std::string sitting_key(unsigned number);
// A book with fixed facts: "Kiln Lane", marked invented.
ledger::BookFacts facts();
// A person whose salt is made of `salt_digit`.
ledger::Person person(const std::string& name, char salt_digit = 'a');

// One entry of every kind this program knows, with every field at something other than empty.
std::vector<ledger::Entry> full_entry_of_every_kind();
// How many those are.
[[nodiscard]] int kinds_of_entries();

// Makes a sitting of these bodies, at `at_ms` each.
ledger::Sitting sitting_of(const std::string& key, std::vector<ledger::Body> bodies, std::int64_t at_ms = 1000);
// `count` vessels with a lot each: a sitting that depends on its number alone.
ledger::Sitting numbered_sitting(unsigned number, int count);

// What an Entry is, member by member; the sequence is left out.
bool same_entry(const ledger::Entry& a, const ledger::Entry& b);

rc::Gen<ledger::Body> random_body();
rc::Gen<ledger::Entry> random_entry();

}  // namespace undercroft::store::testing

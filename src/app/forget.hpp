// What forgetting a person comes to: where the name stands in the book, and which words repeat it.
//
// Holds: looks, and changes nothing.
#pragma once

#include <string>
#include <vector>

#include "app/describe.hpp"
#include "app/views.hpp"
#include "ledger/journal.hpp"
#include "ledger/replay.hpp"

namespace undercroft::app {

// A person by the whole name, letter by letter; a near miss is refused with the names that are near.
[[nodiscard]] Result<ledger::Person> find_person(const std::vector<ledger::Person>& persons, const std::string& name);

// Fills everything but the head.
[[nodiscard]] ForgetView look_for_person(const Telling& telling, const ledger::Person& person);

// True when `words` hold `name` as whole words, upper and lower case of ASCII alike.
[[nodiscard]] bool holds_name(const std::string& words, const std::string& name);

}  // namespace undercroft::app

// Which other entries and which people an entry names, each once: `for_each_reference(body, visit)` calls
// visit(key, what) for every key that is not empty, `for_each_person(entry, visit)` visit(commitment) likewise.
//
// Leaves out: what an entry supersedes and the path it stands at, which lie outside its body.
#pragma once

#include <concepts>
#include <string>
#include <type_traits>
#include <variant>

#include "ledger/entry.hpp"

namespace undercroft::ledger {

enum class RefersTo { vessel, run, addition, vessel_or_run };

template <class SomeBody, class Visit>
requires std::same_as<std::remove_const_t<SomeBody>, Body>
void for_each_reference(SomeBody& body, Visit visit) {
    const auto offer = [&visit](auto& key, RefersTo what) {
        if (!key.empty()) visit(key, what);
    };
    std::visit(
        [&offer](auto& it) {
            using One = std::remove_cvref_t<decltype(it)>;
            if constexpr (std::is_same_v<One, Move>) {
                offer(it.from, RefersTo::vessel);
                for (auto& to : it.to) offer(to.vessel, RefersTo::vessel);
            } else if constexpr (std::is_same_v<One, Take>) {
                offer(it.run, RefersTo::run);
                offer(it.vessel, RefersTo::vessel);
            } else if constexpr (std::is_same_v<One, Package>) {
                offer(it.from, RefersTo::vessel);
            } else if constexpr (std::is_same_v<One, Lift>) {
                offer(it.addition, RefersTo::addition);
            } else if constexpr (requires { it.vessel; }) {
                offer(it.vessel, RefersTo::vessel);
            } else if constexpr (requires { it.subject; }) {
                offer(it.subject, RefersTo::vessel_or_run);
            } else {
                static_assert(std::is_same_v<One, VesselJoins> || std::is_same_v<One, Calibrate> ||
                              std::is_same_v<One, Void> || std::is_same_v<One, Unknown>);  // these name nothing
            }
        },
        body);
}

template <class SomeEntry, class Visit>
requires std::same_as<std::remove_const_t<SomeEntry>, Entry>
void for_each_person(SomeEntry& entry, Visit visit) {
    if (!entry.by.empty()) visit(entry.by);
    if (auto* tasting = std::get_if<Tasting>(&entry.body); tasting != nullptr && !tasting->taster.empty())
        visit(tasting->taster);
    if (auto* take = std::get_if<Take>(&entry.body); take != nullptr && !take->person.empty()) visit(take->person);
}

}  // namespace undercroft::ledger

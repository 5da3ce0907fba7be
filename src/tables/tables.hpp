// The reference tables of data/, parsed and checked: the engines take them as values.
//
// Holds: load() succeeds in every release, since a bad row fails the build's tests.
#pragma once

#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "tables/allergen.hpp"
#include "tables/attribute.hpp"
#include "tables/container.hpp"
#include "tables/culture.hpp"
#include "tables/fault.hpp"
#include "tables/flavouring.hpp"
#include "tables/fruit.hpp"
#include "tables/task.hpp"
#include "tables/technique.hpp"

namespace undercroft::tables {

// Pointers handed out by the lookups live as long as this value and are not moved by reading.
struct Tables {
    std::vector<Fruit> fruits;
    std::vector<Flavouring> flavourings;
    std::vector<CultureKind> cultures;
    std::vector<ContainerKind> containers;
    std::vector<Task> tasks;
    std::vector<Allergen> allergens;
    std::vector<Attribute> attributes;
    std::vector<Fault> faults;
    std::vector<Technique> techniques;
    std::vector<Effect> effects;
    std::vector<Interaction> interactions;

    // Exact id, then name, then name and form; not_found names the nearest few.
    [[nodiscard]] Result<const Fruit*> find_fruit(std::string_view wanted) const;
    [[nodiscard]] Result<const Flavouring*> find_flavouring(std::string_view wanted) const;
    [[nodiscard]] Result<const CultureKind*> find_culture(std::string_view wanted) const;
    // By its id alone; nullptr when there is none.
    [[nodiscard]] const CultureKind* culture_row(std::string_view id) const;
    [[nodiscard]] Result<const ContainerKind*> find_container(std::string_view wanted) const;
    [[nodiscard]] Result<const Task*> find_task(std::string_view wanted) const;
    [[nodiscard]] Result<const Allergen*> find_allergen(std::string_view wanted) const;
    [[nodiscard]] Result<const Attribute*> find_attribute(std::string_view wanted) const;
    [[nodiscard]] Result<const Fault*> find_fault(std::string_view wanted) const;
    // What a keeper's word for an attribute or fault is booked as: the id of its row, else the word itself.
    [[nodiscard]] std::string attribute_id(const std::string& word) const;
    [[nodiscard]] std::string fault_id(const std::string& word) const;

    // Gaps filled from the fresh row of the same fruit.
    [[nodiscard]] FruitComposition composition_of(const Fruit& fruit) const;
};

// From the bytes compiled in.
[[nodiscard]] Result<Tables> load();

}  // namespace undercroft::tables

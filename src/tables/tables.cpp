#include "tables/tables.hpp"

#include <algorithm>

#include "tables/embedded.hpp"

namespace undercroft::tables {

Result<const Fruit*> Tables::find_fruit(std::string_view wanted) const {
    return tables::find_fruit(fruits, wanted);
}

Result<const Flavouring*> Tables::find_flavouring(std::string_view wanted) const {
    return tables::find_flavouring(flavourings, wanted);
}

Result<const CultureKind*> Tables::find_culture(std::string_view wanted) const {
    return tables::find_culture(cultures, wanted);
}

const CultureKind* Tables::culture_row(std::string_view id) const {
    const auto row =
        std::find_if(cultures.begin(), cultures.end(), [id](const CultureKind& one) { return one.id == id; });
    return row == cultures.end() ? nullptr : &*row;
}

Result<const ContainerKind*> Tables::find_container(std::string_view wanted) const {
    return tables::find_container(containers, wanted);
}

Result<const Task*> Tables::find_task(std::string_view wanted) const {
    return tables::find_task(tasks, wanted);
}

Result<const Allergen*> Tables::find_allergen(std::string_view wanted) const {
    return tables::find_allergen(allergens, wanted);
}

Result<const Attribute*> Tables::find_attribute(std::string_view wanted) const {
    return tables::find_attribute(attributes, wanted);
}

Result<const Fault*> Tables::find_fault(std::string_view wanted) const {
    return tables::find_fault(faults, wanted);
}

std::string Tables::attribute_id(const std::string& word) const {
    const auto row = find_attribute(word);
    return row ? (*row)->id : word;
}

std::string Tables::fault_id(const std::string& word) const {
    const auto row = find_fault(word);
    return row ? (*row)->id : word;
}

FruitComposition Tables::composition_of(const Fruit& fruit) const {
    return tables::composition_of(fruit, fresh_row_of(fruits, fruit));
}

Result<Tables> load() {
    Tables tables;
    TRY(tables.fruits, parse_fruits(embedded("fruit.csv"), "fruit.csv"));
    TRY(tables.flavourings, parse_flavourings(embedded("flavourings.csv"), "flavourings.csv"));
    TRY(tables.cultures, parse_cultures(embedded("cultures.csv"), "cultures.csv"));
    TRY(tables.containers, parse_containers(embedded("containers.csv"), "containers.csv"));
    TRY(tables.tasks, parse_tasks(embedded("tasks.csv"), "tasks.csv"));
    TRY(tables.allergens, parse_allergens(embedded("allergens.csv"), "allergens.csv"));
    TRY(tables.attributes, parse_attributes(embedded("attributes.csv"), "attributes.csv"));
    TRY(tables.faults, parse_faults(embedded("faults.csv"), "faults.csv"));
    TRY(tables.techniques, parse_techniques(embedded("techniques.csv"), "techniques.csv"));
    TRY(tables.effects, parse_effects(embedded("effects.csv"), "effects.csv", tables.techniques));
    TRY(tables.interactions, parse_interactions(embedded("interactions.csv"), "interactions.csv"));
    return tables;
}

}  // namespace undercroft::tables

// Bottles, cans, kegs and jars, and what pressure each is made for (data/containers.csv).
//
// Holds: working_limit is a limit somebody stands for, never a test or burst figure; nullopt means
// "ask the maker", and 0 means not made for pressure. Pressures are bar gauge at 20 C.
// Leaves out: the keeper's own containers, which come from the book with the maker's figure.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace undercroft::tables {

enum class Refermentation { yes, no, ask_maker };
enum class HeadSpaceGas { air_trapped, purged };

struct ContainerKind {
    std::string id;
    std::string name;
    std::string material;
    double volume_ml = 0.0;
    bool pressure_container = false;
    Refermentation refermentation = Refermentation::ask_maker;

    std::optional<double> working_limit_bar;
    std::string working_limit_basis;
    std::optional<double> test_or_burst_bar;  // new glass, short test: must never be used as a limit
    std::string test_or_burst_basis;
    std::optional<double> closure_limit_bar;  // nullopt: as far as the maker's figure for the whole goes
    std::string closure_basis;

    // Planning ceiling from practice: never turns an unknown limit into a known one. Volumes of CO2.
    double plan_max_volumes = 0.0;
    std::string plan_max_basis;
    std::optional<HeadSpaceGas> head_space_gas;  // assumed for the totals below; nullopt where nothing is planned
    std::optional<double> total_bar_at_plan_max_20_c;
    std::optional<double> total_bar_at_plan_max_30_c;
    std::optional<double> total_bar_at_plan_max_40_c;
    std::optional<double> limit_needed_bar_if_30_c;  // what to ask the maker for
    std::optional<double> limit_needed_bar_if_40_c;

    double head_space_percent = 0.0;
    std::optional<double> warm_store_max_c;
    std::string warm_store_rule;
    std::string reuse;
    std::string light_protection;
    std::string oxygen;
    std::string caution;
    char mark = 'P';
    std::string source;
};

[[nodiscard]] Result<const ContainerKind*> find_container(const std::vector<ContainerKind>& all,
                                                          std::string_view wanted);
[[nodiscard]] Result<std::vector<ContainerKind>> parse_containers(std::string_view csv, std::string file);

}  // namespace undercroft::tables

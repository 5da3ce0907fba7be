#include "tables/container.hpp"

#include <cmath>
#include <utility>

#include "tables/csv.hpp"
#include "tables/lookup.hpp"
#include "tables/mark.hpp"

namespace undercroft::tables {

namespace {

constexpr double k_share_of_limit = 0.8;  // a verdict uses this much of a limit
constexpr double k_bar_rounding = 0.06;   // the needed limits are printed to 0.1 bar

Result<void> read_strength(const CsvRow& row, ContainerKind& container) {
    constexpr Range k_bar_range{0.0, 40.0};
    TRY(container.pressure_container, row.word<bool>("pressure_container", {{"yes", true}, {"no", false}}));
    TRY(container.refermentation,
        row.word<Refermentation>(
            "refermentation_allowed",
            {{"yes", Refermentation::yes}, {"no", Refermentation::no}, {"ask", Refermentation::ask_maker}}));
    TRY(container.working_limit_bar, row.number_or_empty("working_limit_bar_gauge_20C", k_bar_range));
    TRY(container.working_limit_basis, row.text("working_limit_basis"));
    TRY(container.test_or_burst_bar, row.number_or_empty("test_or_burst_bar", k_bar_range));
    TRY(container.test_or_burst_basis, row.text_or_empty("test_or_burst_basis"));
    TRY(container.closure_limit_bar, row.number_or_empty("closure_limit_bar", k_bar_range));
    TRY(container.closure_basis, row.text("closure_basis"));
    if (container.pressure_container && container.working_limit_bar == 0.0) {
        return row.refuse("working_limit_bar_gauge_20C", "no limit of 0 for a pressure container; leave it empty");
    }
    if (container.working_limit_bar.value_or(0.0) > 0.0 && container.test_or_burst_bar &&
        *container.working_limit_bar >= *container.test_or_burst_bar) {
        return row.refuse("working_limit_bar_gauge_20C", "a working limit below the test or burst figure");
    }
    return {};
}

Result<void> read_plan(const CsvRow& row, ContainerKind& container) {
    constexpr Range k_bar_range{0.0, 40.0};
    TRY(container.plan_max_volumes, row.number("plan_max_volumes", {0.0, 8.0}));
    TRY(container.plan_max_basis, row.text("plan_max_basis"));
    TRY(const std::string gas, row.text_or_empty("head_space_assumed"));
    if (!gas.empty()) {
        TRY(container.head_space_gas,
            row.word<HeadSpaceGas>("head_space_assumed",
                                   {{"air trapped", HeadSpaceGas::air_trapped}, {"purged", HeadSpaceGas::purged}}));
    }
    TRY(container.total_bar_at_plan_max_20_c, row.number_or_empty("total_bar_20C_at_plan_max", k_bar_range));
    TRY(container.total_bar_at_plan_max_30_c, row.number_or_empty("total_bar_30C_at_plan_max", k_bar_range));
    TRY(container.total_bar_at_plan_max_40_c, row.number_or_empty("total_bar_40C_at_plan_max", k_bar_range));
    TRY(container.limit_needed_bar_if_30_c, row.number_or_empty("limit_needed_bar_if_30C", k_bar_range));
    TRY(container.limit_needed_bar_if_40_c, row.number_or_empty("limit_needed_bar_if_40C", k_bar_range));
    if (container.plan_max_volumes == 0.0) return {};
    if (!container.head_space_gas || !container.total_bar_at_plan_max_20_c || !container.total_bar_at_plan_max_30_c ||
        !container.total_bar_at_plan_max_40_c || !container.limit_needed_bar_if_30_c ||
        !container.limit_needed_bar_if_40_c) {
        return row.refuse("plan_max_volumes", "head space and pressures beside a planning ceiling");
    }
    const auto needs = [](double total, double limit) {
        return std::abs(total / k_share_of_limit - limit) <= k_bar_rounding;
    };
    if (!needs(*container.total_bar_at_plan_max_30_c, *container.limit_needed_bar_if_30_c)) {
        return row.refuse("limit_needed_bar_if_30C", "the total at 30 C over 0.8");
    }
    if (!needs(*container.total_bar_at_plan_max_40_c, *container.limit_needed_bar_if_40_c)) {
        return row.refuse("limit_needed_bar_if_40C", "the total at 40 C over 0.8");
    }
    if (container.working_limit_bar &&
        *container.total_bar_at_plan_max_30_c > k_share_of_limit * *container.working_limit_bar) {
        return row.refuse("plan_max_volumes", "a ceiling whose total at 30 C stays within 0.8 of the limit");
    }
    return {};
}

Result<ContainerKind> read_container(const CsvRow& row) {
    ContainerKind container;
    TRY(container.id, row.id("id"));
    TRY(container.name, row.text("name"));
    TRY(container.material, row.text("material"));
    TRY(container.volume_ml, row.number("volume_mL", {100.0, 100000.0}));
    TRY_VOID(read_strength(row, container));
    TRY_VOID(read_plan(row, container));
    TRY(container.head_space_percent, row.number("headspace_percent", {0.0, 20.0}));
    TRY(container.warm_store_max_c, row.number_or_empty("warm_store_max_C", {0.0, 50.0}));
    TRY(container.warm_store_rule, row.text("warm_store_rule"));
    TRY(container.reuse, row.text("reuse"));
    TRY(container.light_protection, row.text("light_protection"));
    TRY(container.oxygen, row.text("oxygen"));
    TRY(container.caution, row.text("caution"));
    TRY(container.mark, read_mark(row));
    TRY(container.source, row.text("source"));
    return container;
}

}  // namespace

Result<const ContainerKind*> find_container(const std::vector<ContainerKind>& all, std::string_view wanted) {
    return look_up_by_name(all, wanted, "container");
}

Result<std::vector<ContainerKind>> parse_containers(std::string_view csv, std::string file) {
    TRY(std::vector<ContainerKind> all, read_rows<ContainerKind>(csv, file, read_container));
    TRY_VOID(require_unique(all, file, [](const ContainerKind& container) { return container.id; }));
    return all;
}

}  // namespace undercroft::tables

// The fields of every sum of chemistry: the options of the command line with _ for -.
#pragma once

#include <span>
#include <string_view>

#include "app/calc.hpp"
#include "base/result.hpp"

namespace undercroft::api {

enum class Holds { text, texts, flag };

struct CalcField {
    std::string_view name;  // "ta_end"
    Holds holds = Holds::text;
};

struct CalcSum {
    std::string_view name;       // "ph" of /calc/ph
    std::string_view word = {};  // a field of its own for what the command line has as a word; empty: none
    Result<app::CalcView> (*work_out)(const app::CalcRequest&);
    std::span<const CalcField> fields;
};

[[nodiscard]] std::span<const CalcSum> calc_sums();

}  // namespace undercroft::api

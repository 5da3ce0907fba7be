#include "api/calc_fields.hpp"

#include <array>

namespace undercroft::api {
namespace {

constexpr auto k_ph = std::to_array<CalcField>({{"lactic"},
                                                {"acetic"},
                                                {"malic"},
                                                {"citric"},
                                                {"tartaric"},
                                                {"succinic"},
                                                {"phosphoric"},
                                                {"co2"},
                                                {"so2"},
                                                {"buffer"},
                                                {"wort_ph"},
                                                {"potassium"},
                                                {"hops"},
                                                {"salt"},
                                                {"alcohol"},
                                                {"temperature"},
                                                {"ta_end"},
                                                {"strong_ions"},
                                                {"no_activity", Holds::flag}});
constexpr auto k_acids = std::to_array<CalcField>(
    {{"ph"}, {"ta"}, {"ta_end"}, {"acetic"}, {"alcohol"}, {"buffer"}, {"temperature"}, {"no_activity", Holds::flag}});
constexpr auto k_dose = std::to_array<CalcField>({{"volume"},
                                                  {"to_ph"},
                                                  {"to_ta"},
                                                  {"strength"},
                                                  {"ph"},
                                                  {"ta"},
                                                  {"ta_end"},
                                                  {"acetic"},
                                                  {"alcohol"},
                                                  {"buffer"},
                                                  {"temperature"},
                                                  {"gallons"}});
constexpr auto k_blend = std::to_array<CalcField>({{"part", Holds::texts}, {"ta_end"}, {"temperature"}, {"gallons"}});
constexpr auto k_carbonation =
    std::to_array<CalcField>({{"co2"}, {"pressure"}, {"temperature"}, {"alcohol"}, {"gravity"}, {"altitude"}});
constexpr auto k_pressure = std::to_array<CalcField>(
    {{"co2"}, {"head_space"}, {"temperature"}, {"filled_at"}, {"air"}, {"alcohol"}, {"gravity"}, {"altitude"}});
constexpr auto k_dissolved = std::to_array<CalcField>({{"warmest"}, {"coolest"}, {"malic"}, {"altitude"}});
constexpr auto k_priming = std::to_array<CalcField>({{"co2"},
                                                     {"volume"},
                                                     {"warmest"},
                                                     {"measured"},
                                                     {"wort"},
                                                     {"wort_ends"},
                                                     {"young"},
                                                     {"young_ends"},
                                                     {"fill"},
                                                     {"ph"},
                                                     {"alcohol"},
                                                     {"altitude"},
                                                     {"gallons"}});
constexpr auto k_tasting_test = std::to_array<CalcField>({{"tasters"},
                                                          {"correct"},
                                                          {"preferred"},
                                                          {"two_sided", Holds::flag},
                                                          {"ranks", Holds::texts},
                                                          {"alpha"},
                                                          {"noticing"}});
constexpr auto k_threshold = std::to_array<CalcField>({{"of", Holds::texts}});
constexpr auto k_extraction = std::to_array<CalcField>({{"dose"}, {"wanted"}, {"tasted", Holds::texts}, {"attribute"}});
constexpr auto k_trial = std::to_array<CalcField>(
    {{"glass"}, {"added"}, {"strength"}, {"volume"}, {"alcohol"}, {"pipette"}, {"liked", Holds::texts}, {"gallons"}});
constexpr auto k_alcohol = std::to_array<CalcField>({{"og"}, {"gravity"}, {"alcohol"}, {"brix"}, {"attenuation"}});
constexpr auto k_gravity = std::to_array<CalcField>({{"read_at"}, {"marked_at"}});
constexpr auto k_mix = std::to_array<CalcField>({{"part", Holds::texts}, {"gallons"}});
constexpr auto k_colour = std::to_array<CalcField>(
    {{"malt", Holds::texts}, {"volume"}, {"part", Holds::texts}, {"ebc"}, {"srm"}, {"gallons"}});
constexpr auto k_bitterness =
    std::to_array<CalcField>({{"hop", Holds::texts}, {"volume"}, {"ibu"}, {"years"}, {"temperature"}, {"gallons"}});

constexpr auto k_sums = std::to_array<CalcSum>({{"ph", "", app::calc_ph, k_ph},
                                                {"acids", "", app::calc_acids, k_acids},
                                                {"dose", "acid", app::calc_dose, k_dose},
                                                {"blend", "", app::calc_acid_blend, k_blend},
                                                {"carbonation", "", app::calc_carbonation, k_carbonation},
                                                {"pressure", "", app::calc_pressure, k_pressure},
                                                {"dissolved", "", app::calc_dissolved, k_dissolved},
                                                {"priming", "", app::calc_priming, k_priming},
                                                {"tasting-test", "kind", app::calc_tasting_test, k_tasting_test},
                                                {"threshold", "", app::calc_threshold, k_threshold},
                                                {"extraction", "what", app::calc_extraction, k_extraction},
                                                {"trial", "", app::calc_trial, k_trial},
                                                {"alcohol", "", app::calc_alcohol, k_alcohol},
                                                {"gravity", "gravity", app::calc_gravity, k_gravity},
                                                {"mix", "", app::calc_mix, k_mix},
                                                {"colour", "", app::calc_colour, k_colour},
                                                {"bitterness", "", app::calc_bitterness, k_bitterness}});

}  // namespace

std::span<const CalcSum> calc_sums() {
    return k_sums;
}

}  // namespace undercroft::api

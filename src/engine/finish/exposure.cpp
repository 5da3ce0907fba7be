#include "engine/finish/exposure.hpp"

#include <array>
#include <string_view>

#include "units/amount.hpp"

namespace undercroft::engine::finish {

namespace {

constexpr double k_adult_kg = 60.0;
constexpr double k_coumarin_mg_per_kg = 0.1;  // a day, all life long
constexpr double k_cyanide_ug_per_kg = 20.0;  // at once

struct Carried {
    std::string_view technique;
    const char* of;
    double mg_per_g;  // of what is dosed, the upper end
    double limit_mg;  // for 60 kg
    const char* what_limit;
    const char* source;
};

constexpr double k_kernels_in_cherries = 0.02;  // of the mass bought
constexpr std::array<Carried, 10> k_carried{{
    {"spice_cinnamon_cassia", "coumarin", 10.0, k_coumarin_mg_per_kg* k_adult_kg, "a day for life",
     "EFSA 2008 (TDI 0.1 mg/kg); 2 to 10 g/kg in cassia, taken as 10"},
    {"spice_cinnamon_ceylon", "coumarin", 0.1, k_coumarin_mg_per_kg* k_adult_kg, "a day for life",
     "EFSA 2008; 0.01 to 0.1 g/kg from memory of BfR"},
    {"spice_tonka", "coumarin", 30.0, k_coumarin_mg_per_kg* k_adult_kg, "a day for life",
     "EFSA 2008; 10 to 30 g/kg or more; forbidden in food in the USA, 21 CFR 189.130"},
    {"spice_woodruff", "coumarin", 10.0, k_coumarin_mg_per_kg* k_adult_kg, "a day for life",
     "EFSA 2008; about 10 g/kg in the dried herb, from memory"},
    {"spice_nutmeg", "nutmeg", 1000.0, 5000.0, "at once can poison", "Rahman 2015; Stein 2001 (about 5 g)"},
    {"fruit_sour_cherry", "cyanide of the pits", k_kernels_in_cherries * 3.9 * 0.0591,
     k_cyanide_ug_per_kg * 1e-3 * k_adult_kg, "at once",
     "EFSA 2016 (20 ug/kg); amygdalin 3.9 mg/g from memory of Bolarinwa 2014, all of it extracted"},
    {"fruit_sweet_cherry", "cyanide of the pits", k_kernels_in_cherries * 3.9 * 0.0591,
     k_cyanide_ug_per_kg * 1e-3 * k_adult_kg, "at once",
     "EFSA 2016 (20 ug/kg); amygdalin 3.9 mg/g from memory of Bolarinwa 2014, all of it extracted"},
    {"fruit_plum", "cyanide of the pits", 0.01 * 17.5 * 0.0591, k_cyanide_ug_per_kg * 1e-3 * k_adult_kg, "at once",
     "EFSA 2016 (20 ug/kg); amygdalin to 17.5 mg/g from memory of Bolarinwa 2014; 1 % kernel, common practice, no "
     "source"},
    {"spice_coffee", "caffeine", 20.0, 400.0, "a day",
     "EFSA 2015, from memory (400 mg a day for adults); 10 to 20 mg per g of bean"},
    {"fruit_fig", "sulphite, if it was sulphured", 2.0, 0.7 * k_adult_kg, "a day",
     "EU maximum 2000 mg/kg in dried fig, from memory; ADI 0.7 mg/kg from memory of EFSA 2016"},
}};

}  // namespace

std::optional<Exposure> exposure_of(const tables::Technique& technique, double g_per_l) {
    for (const Carried& one : k_carried) {
        if (one.technique != technique.id) continue;
        Exposure it;
        it.of = one.of;
        it.per_glass_mg = one.mg_per_g * g_per_l * k_glass_litres;
        it.limit_mg = one.limit_mg;
        it.glasses = it.per_glass_mg > 0.0 ? it.limit_mg / it.per_glass_mg : 0.0;
        constexpr double k_few_glasses = 10.0;
        it.beyond = it.glasses < k_few_glasses;
        const auto amount = [](double mg) {
            return mg >= 1000.0 ? number_text(mg / 1000.0, 1) + " g"
                                : number_text(mg, mg >= 10.0  ? 0
                                                  : mg >= 0.1 ? 2
                                                              : 4) +
                                      " mg";
        };
        it.words = "a glass of 0.33 L would carry at most " + amount(it.per_glass_mg) + " of " + it.of + "; " +
                   amount(it.limit_mg) + " " + one.what_limit + " is the limit for an adult of 60 kg, which " +
                   number_text(it.glasses, it.glasses < 10.0 ? 1 : 0) + " glasses reach";
        it.source = one.source;
        return it;
    }
    return std::nullopt;
}

}  // namespace undercroft::engine::finish

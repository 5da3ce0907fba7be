// CO2 in kegs and bottles.
#include <algorithm>

#include "app/calc_read.hpp"
#include "chem/alcohol.hpp"
#include "chem/gas.hpp"
#include "chem/sugar.hpp"

namespace undercroft::app {
namespace {

using chem::co2_volumes_of_g_per_l;

constexpr const char* k_chart = "printed chart of beer, constants from memory";
constexpr const char* k_composition = "Weiss 1974 x Commission Reg. (EEC) 2676/90 ch. 37 (20 °C version)";

// Strength and extract of the beer, for what they take off solubility.
struct BeerInGlass {
    double abv = 5.0;
    double extract = 40.0;
};

Result<BeerInGlass> beer_in_glass(const CalcRequest& request, CalcView& view) {
    BeerInGlass beer;
    TRY(beer.abv, calc::alcohol(request, beer.abv));
    std::string how = "taken, since no --gravity was given";
    if (request.has("--gravity")) {
        TRY(const double gravity, calc::sg(request, "--gravity"));
        beer.extract = chem::composition_from_gravity_and_abv(gravity, beer.abv).real_extract_g_per_l;
        how = "from gravity and alcohol";
    }
    view.asked.push_back(
        {"alcohol", beer.abv, "% vol", request.has("--alcohol") ? "" : "taken, since it was not said", ""});
    view.asked.push_back({"real extract", beer.extract, "g/L", how, ""});
    return beer;
}

Result<void> inside_composition(const BeerInGlass& beer, Temperature at) {
    if (at.in_celsius() < 0.0 || at.in_celsius() > 50.0)
        return fail(ErrorKind::outside_model, "--temperature",
                    text_of(at) + " is outside 0 to 50 °C, where CO2 in beer is known.");
    if (beer.abv > 20.0 || beer.extract > 200.0)
        return fail(ErrorKind::outside_model, "--alcohol", "CO2 in beer is known to 20 % vol and 200 g/L of extract.");
    return {};
}

}  // namespace

Result<CalcView> calc_carbonation(const CalcRequest& request) {
    CalcView view;
    if (request.has("--co2") == request.has("--pressure"))
        return fail(ErrorKind::bad_input, "--co2",
                    "Say --co2 \"2.4 vol\" to be told the pressure, or --pressure \"0.8 bar\" to be told the CO2.");
    if (!request.has("--temperature")) return calc::wants("--temperature", "8 C");
    TRY(const Temperature at, calc::temperature(request, "--temperature", 8.0));
    TRY(const AbsolutePressure ambient, calc::ambient(request));
    TRY(const BeerInGlass beer, beer_in_glass(request, view));
    TRY_VOID(inside_composition(beer, at));
    const double by_composition = chem::co2_in_beer_by_composition(beer.abv, beer.extract, at);
    if (request.has("--co2")) {
        TRY(const double co2, calc::co2_g_per_l(request, "--co2"));
        view.about =
            "pressure that holds " + number_text(co2_volumes_of_g_per_l(co2), 2) + " volumes at " + text_of(at);
        TRY(const GaugePressure chart, chem::pressure_for_carbonation(co2, at, ambient));
        const AbsolutePressure other = AbsolutePressure::from_bar(co2 / by_composition);
        view.terms.push_back({"gauge pressure, by the chart", chart.in_bar(), "bar",
                              "set the regulator to this; " + number_text(chart.in_psi(), 1) + " psi", k_chart});
        view.terms.push_back(
            {"absolute, by the chart", chart.above(ambient).in_bar(), "bar", "gauge + ambient", k_chart});
        view.terms.push_back({"gauge pressure, by this beer's strength", gauge(other, ambient).in_bar(), "bar",
                              "g/L over " + number_text(by_composition, 3) + " g/L per bar", k_composition});
        view.terms.push_back(
            {"CO2", co2, "g/L", number_text(co2_volumes_of_g_per_l(co2), 3) + " volumes of 1.9768 g/L", ""});
    } else {
        TRY(const GaugePressure pressure, parse_gauge_pressure("--pressure", request.one("--pressure")));
        view.about = "CO2 in beer under " + text_of(pressure) + " at " + text_of(at);
        TRY(const double chart, chem::carbonation_under(pressure, at, ambient));
        const double absolute = pressure.above(ambient).in_bar();
        const double composed = absolute * by_composition;
        view.terms.push_back(
            {"CO2, by the chart", chart, "g/L", number_text(co2_volumes_of_g_per_l(chart), 2) + " volumes", k_chart});
        view.terms.push_back({"CO2, by this beer's strength", composed, "g/L",
                              number_text(co2_volumes_of_g_per_l(composed), 2) + " volumes", k_composition});
        view.terms.push_back({"absolute pressure", absolute, "bar", "gauge + ambient", ""});
        view.terms.push_back({"real gas", chem::co2_fugacity_coefficient(AbsolutePressure::from_bar(absolute), at), "",
                              "fugacity over pressure: so much less dissolves than the laws say",
                              "Weiss 1974, virial"});
    }
    view.asked.push_back({"ambient", ambient.in_bar(), "bar", "International Standard Atmosphere", ""});
    view.ranges = {"0 to 30 °C for the chart, to 50 °C by strength", "to 20 % vol and 200 g/L of extract"};
    view.left_out = {"the real gas (see docs/chemistry.md, 3)", "that it takes days to get there"};
    view.cautions.push_back({"keg.rating", "Never above the pressure stamped on the keg, and never a bottle on gas."});
    return view;
}

Result<CalcView> calc_pressure(const CalcRequest& request) {
    CalcView view;
    TRY(const double co2, calc::co2_g_per_l(request, "--co2"));
    if (!request.has("--head-space")) return calc::wants("--head-space", "4 %");
    chem::ClosedContainer container;
    container.co2_g_per_l = co2;
    TRY(container.head_space, calc::share(request, "--head-space", 0.04));
    TRY(const Temperature at, calc::temperature(request, "--temperature", 20.0));
    TRY(container.filled_at, calc::temperature(request, "--filled-at", 20.0));
    TRY(container.ambient, calc::ambient(request));
    const std::string air = request.has("--air") ? request.one("--air") : "trapped";
    if (air == "purged")
        container.air = chem::AirInHeadSpace::purged;
    else if (air == "eaten")
        container.air = chem::AirInHeadSpace::without_oxygen;
    else if (air != "trapped")
        return fail(ErrorKind::bad_input, "--air",
                    "\"" + air.substr(0, 20) + "\" is not known; say trapped, purged, or eaten (its oxygen by yeast).");
    TRY(const BeerInGlass beer, beer_in_glass(request, view));
    container.abv = beer.abv;
    container.extract_g_per_l = beer.extract;
    TRY(const chem::ContainerPressure pressure, pressure_in(container, at));
    view.about = "pressure in a closed container at " + text_of(at);
    view.asked.push_back({"CO2", co2, "g/L",
                          number_text(co2_volumes_of_g_per_l(co2), 2) + " volumes, dissolved and in the gas together",
                          ""});
    view.asked.push_back(
        {"head space", 100.0 * container.head_space, "%", "filled at " + text_of(container.filled_at), ""});
    view.terms.push_back(
        {"CO2, absolute", pressure.co2.in_bar(), "bar", "by the lower of two solubilities", k_composition});
    view.terms.push_back(
        {"air, absolute", pressure.air.in_bar(), "bar", air + "; squeezed as the liquid grows", "derived"});
    view.terms.push_back({"vapour, absolute", pressure.vapour.in_bar(), "bar", "of water", "Buck 1981/1996"});
    view.terms.push_back(
        {"total, gauge", pressure.total.in_bar(), "bar",
         "what the wall bears: the sum less ambient; " + number_text(pressure.total.in_psi(), 0) + " psi",
         "docs/chemistry.md, 3"});
    view.ranges = {"0 to 50 °C", "head space from 2 % (3 % above 35 °C)", "to 20 % vol and 200 g/L of extract"};
    view.left_out = {"gas that may still come from sugar, malic acid or a wild culture: see calc gas",
                     "the real gas, 1 to 3.5 % more between 1 and 6 bar", "gas lost through the closure"};
    view.cautions.push_back({"bottle.limit",
                             "At most 0.8 of what the maker of the weakest of glass, closure and seal states; a "
                             "container nobody rated is never safe."});
    if (container.air == chem::AirInHeadSpace::without_oxygen)
        view.cautions.push_back(
            {"bottle.oxygen",
             "That yeast ate the oxygen is not proven by anything: for safety count it in (--air trapped)."});
    return view;
}

Result<CalcView> calc_dissolved(const CalcRequest& request) {
    CalcView view;
    view.about = "CO2 left in beer that nobody measured";
    if (!request.has("--warmest")) return calc::wants("--warmest", "20 C");
    TRY(const Temperature warmest, calc::temperature(request, "--warmest", 20.0));
    TRY(const Temperature coolest, calc::temperature(request, "--coolest", warmest.in_celsius()));
    TRY(const AbsolutePressure ambient, calc::ambient(request));
    TRY(const double malic, calc::grams_per_litre(request, "--malic", 0.0));
    for (const Temperature t : {warmest, coolest})
        if (t.in_celsius() < 0.0 || t.in_celsius() > 34.0)
            return fail(ErrorKind::outside_model, "temperature",
                        text_of(t) + " is outside 0 to 34 °C, where the rule holds.");
    const auto add = [&](const char* name, double g_per_l, const std::string& how) {
        view.terms.push_back({name, g_per_l, "g/L",
                              number_text(co2_volumes_of_g_per_l(g_per_l), 2) + " volumes; " + how,
                              "trade rule (secondary); docs/chemistry.md, 3"});
    };
    add("open to an air lock since it finished", chem::co2_left_after_fermentation(warmest, ambient),
        "by the warmest since, " + text_of(warmest));
    if (request.has("--coolest"))
        add("still working, or under CO2", chem::co2_left_after_fermentation(coolest, ambient),
            "by the coolest of late, " + text_of(coolest));
    const double safe = chem::co2_left_for_safety(warmest, coolest, ambient);
    add("for safety", safe, "the larger");
    if (malic > 0.0) {
        view.terms.push_back({"still to come from malic acid", chem::co2_of_malolactic(malic), "g/L",
                              number_text(co2_volumes_of_g_per_l(chem::co2_of_malolactic(malic)), 2) +
                                  " volumes; 0.328 g a gram, and hardly any fall of gravity shows it",
                              "stoichiometry"});
        add("for safety, with it", safe + chem::co2_of_malolactic(malic), "both");
    }
    view.ranges = {"0 to 34 °C"};
    view.left_out = {"a measured CO2 is better than either rule"};
    return view;
}

}  // namespace undercroft::app

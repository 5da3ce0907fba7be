// Prints the curves of docs/chemistry.md as lines of "plot,curve,x,y", for tools/plot_chemistry to draw.
#include <array>
#include <cstdio>
#include <string>

#include "chem/acid_mix.hpp"
#include "chem/alcohol.hpp"
#include "chem/bitterness.hpp"
#include "chem/colour.hpp"
#include "chem/ethanol_water.hpp"
#include "chem/extract.hpp"
#include "chem/gas.hpp"
#include "chem/refraction.hpp"

namespace undercroft::chem {
namespace {

void point(const char* plot, const std::string& curve, double x, double y) {
    std::printf("%s,%s,%.10g,%.10g\n", plot, curve.c_str(), x, y);
}

Temperature celsius(double t) {
    return Temperature::from_celsius(t);
}

// Steps of a whole range, both ends in.
template <class F>
void over(double low, double high, double step, F f) {
    const int count = static_cast<int>((high - low) / step + 0.5);
    for (int i = 0; i <= count; ++i) f(low + i * step);
}

void draw_acids() {
    over(0, 40, 1, [](double t) {
        const AcidSystem system({celsius(t)});
        AcidMix phosphate;
        phosphate[Acid::phosphoric] = 0.05;
        phosphate.strong_ions = 0.075;
        point("buffers", "phosphate 0.025 + 0.025", t, system.ph(phosphate).value());
        AcidMix citrate;
        citrate[Acid::citric] = 0.05;
        citrate.strong_ions = 0.05;
        point("buffers", "dihydrogen citrate 0.05", t, system.ph(citrate).value());
        AcidMix tartrate;
        tartrate[Acid::tartaric] = 0.0341;
        tartrate.strong_ions = 0.0341;
        point("buffers", "hydrogen tartrate saturated", t, system.ph(tartrate).value());
        for (const Acid acid : {Acid::lactic, Acid::acetic, Acid::citric, Acid::succinic})
            point("pk", std::string(constants_of(acid).name), t, pk_of(acid, 1, celsius(t)));
    });
    over(0, 15, 0.5, [](double abv) {
        const double gamma = davies_log10_gamma(water_at(celsius(25)).davies_a, 0.05);
        point("alcohol", "lactic", abv, pk_of(Acid::lactic, 1, celsius(25)) + k_pk_per_abv * abv + 2 * gamma);
        point("alcohol", "succinic 1", abv, pk_of(Acid::succinic, 1, celsius(25)) + k_pk_per_abv * abv + 2 * gamma);
        point("alcohol", "succinic 2", abv, pk_of(Acid::succinic, 2, celsius(25)) + k_pk_per_abv * abv + 4 * gamma);
    });
    AcidMix sour;
    sour[Acid::lactic] = 0.065;
    sour[Acid::acetic] = 0.012;
    sour[Acid::phosphoric] = 0.006;
    sour.strong_ions = 0.024;
    AcidMix mild;
    mild[Acid::lactic] = 0.004;
    mild[Acid::acetic] = 0.002;
    mild[Acid::phosphoric] = 0.006;
    mild.strong_ions = 0.0105;
    const AcidSystem at_25({celsius(25)});
    over(0, 100, 2, [&](double percent) {
        const AcidMix whole = blend(std::array{BlendPart{sour, percent}, BlendPart{mild, 100.0 - percent}}).value();
        point("blend", "charge balance", percent, at_25.ph(whole).value());
        point("blend", "mean of two pH (wrong)", percent,
              0.01 * (percent * at_25.ph(sour).value() + (100.0 - percent) * at_25.ph(mild).value()));
    });
    AcidMix wort;
    wort.buffer = k_wort_buffer;
    const AcidSystem at_20;
    wort = at_20.with_ph(wort, 5.2).value();
    over(0, 8, 0.1, [&](double grams) {
        AcidMix soured = wort;
        soured.set_g_per_l(Acid::lactic, grams);
        point("souring", "all-malt wort of SG 1.0484", grams, at_20.ph(soured).value());
    });
}

void draw_gas() {
    over(0, 40, 1, [](double t) {
        point("co2_water", "Weiss 1974", t, co2_in_water_weiss(celsius(t)));
        point("co2_water", "Carroll et al. 1991", t, co2_in_water_carroll(celsius(t)));
    });
    over(0, 30, 1, [](double t) {
        point("co2_beer", "chart at 1 bar gauge", t, carbonation_under(GaugePressure::from_bar(1), celsius(t)).value());
        point("co2_beer", "chart at 0 bar gauge", t, carbonation_under(GaugePressure::from_bar(0), celsius(t)).value());
        point("co2_beer", "by composition at 1 bar gauge (5 % vol; 40 g/L)", t,
              2.01325 * co2_in_beer_by_composition(5, 40, celsius(t)));
    });
    ClosedContainer champagne;
    champagne.co2_g_per_l = 11.5;
    champagne.head_space = 25.0 / 775.0;
    champagne.air = AirInHeadSpace::purged;
    champagne.abv = 12.5;
    over(0, 35, 1, [&](double t) {
        point("bottle", "champagne: CO2 absolute", t, pressure_in(champagne, celsius(t)).value().co2.in_bar());
    });
    ClosedContainer beer;
    beer.head_space = 0.04;
    beer.abv = 5;
    beer.extract_g_per_l = 40;
    beer.co2_g_per_l = co2_g_per_l_of_volumes(3.0);
    over(0, 50, 1, [&](double t) {
        beer.air = AirInHeadSpace::trapped;
        point("bottle", "beer of 3 volumes: total gauge with air", t,
              pressure_in(beer, celsius(t)).value().total.in_bar());
        beer.air = AirInHeadSpace::purged;
        point("bottle", "the same purged", t, pressure_in(beer, celsius(t)).value().total.in_bar());
    });
}

void draw_extract() {
    over(0, 25, 0.5, [](double percent) {
        point("extract", "this program", percent, gravity_of_plato(percent));
        point("refraction", "this program", percent, index_of_brix(percent));
    });
    over(0, 12, 0.25, [](double percent) {
        point("ethanol", "OIML R22", percent, ethanol_water_density(percent / 100, celsius(20)));
    });
}

void draw_bitterness_and_colour() {
    over(0, 120, 2, [](double minutes) {
        for (const double t : {90.0, 95.0, 100.0, 105.0})
            point("isomerisation", std::to_string(static_cast<int>(t)) + " C", minutes,
                  100 * isomerised_share(celsius(t), minutes).value());
    });
    over(0, 3, 0.02, [](double years) {
        const Fading left = bitterness_left(years, celsius(20)).value();
        point("fading", "by half-lives", years, 100 * left.by_half_lives);
        point("fading", "by days measured", years, 100 * left.by_days);
    });
    over(1, 60, 1, [](double units) { point("colour", "power law", units, srm_of_malt_colour_units(units)); });
}

}  // namespace
}  // namespace undercroft::chem

int main() {
    undercroft::chem::draw_acids();
    undercroft::chem::draw_gas();
    undercroft::chem::draw_extract();
    undercroft::chem::draw_bitterness_and_colour();
    return 0;
}

// Gravity, extract, alcohol, and what mixing does to them.
#include <algorithm>

#include "app/calc_read.hpp"
#include "chem/alcohol.hpp"
#include "chem/ethanol_water.hpp"
#include "chem/extract.hpp"
#include "chem/mixing.hpp"
#include "chem/refraction.hpp"

namespace undercroft::app {
namespace {

constexpr const char* k_balling = "Balling; analysts' relation of real and apparent extract";

void add_attenuation(CalcView& view, const chem::Attenuation& beer, double gravity) {
    view.terms.push_back({"alcohol", beer.alcohol_by_volume, "% vol", "% mass x SG x 1.2648", k_balling});
    view.terms.push_back(
        {"alcohol by mass", beer.alcohol_by_mass, "% mass", "from original and apparent extract", k_balling});
    view.terms.push_back({"original extract", beer.original_extract, "°P",
                          "SG " + number_text(chem::gravity_of_plato(beer.original_extract), 4), "ASBC, NBS C440"});
    view.terms.push_back(
        {"apparent extract", beer.apparent_extract, "°P", "of SG " + number_text(gravity, 4), "ASBC, NBS C440"});
    view.terms.push_back(
        {"real extract", beer.real_extract, "% mass", "(AE + 0.4654 A - 0.003615 A²)/0.9962", k_balling});
    view.terms.push_back({"real attenuation", beer.real_degree, "%", "of the extract, by mass", "ASBC Beer-6"});
    view.terms.push_back({"apparent attenuation", beer.apparent_degree, "%", "100 (OE - AE)/OE", ""});
}

}  // namespace

Result<CalcView> calc_alcohol(const CalcRequest& request) {
    CalcView view;
    view.ranges = {"beer to 12 % by mass", "original extract within 0.25 °P of measured beers"};
    view.left_out = {"alcohol from anything but the wort", "acids, which count as extract"};
    if (request.has("--og") && request.has("--attenuation")) {
        TRY(const double og, calc::sg(request, "--og"));
        TRY(const double percent, calc::number(request, "--attenuation", 0.0, 130.0, 0.0));
        TRY(const chem::Attenuation beer, chem::at_attenuation(og, percent));
        const double gravity = chem::gravity_of_plato(beer.apparent_extract);
        view.about = "wort of " + number_text(og, 4) + " at " + number_text(percent, 1) + " % apparent attenuation";
        view.terms.push_back({"gravity there", gravity, "SG", "", "ASBC, NBS C440"});
        add_attenuation(view, beer, gravity);
        TRY(const chem::Attenuation dry, chem::at_the_limit(og));
        view.terms.push_back({"lowest any culture could reach", chem::gravity_of_plato(dry.apparent_extract), "SG",
                              "every gram of extract gone; " + number_text(dry.alcohol_by_volume, 2) + " % vol",
                              k_balling});
        return view;
    }
    TRY(const double gravity, calc::sg(request, "--gravity"));
    if (request.has("--og")) {
        TRY(const double og, calc::sg(request, "--og"));
        TRY(const chem::Attenuation beer, chem::attenuation_of(og, gravity));
        view.about = "beer of " + number_text(og, 4) + " at " + number_text(gravity, 4);
        add_attenuation(view, beer, gravity);
        return view;
    }
    if (request.has("--brix")) {
        TRY(const double brix, calc::number(request, "--brix", -1.0, 60.0, 0.0));
        TRY(const chem::FromBothInstruments beer, chem::strength_from(gravity, brix));
        view.about = "beer by hydrometer and refractometer";
        const char* source = "ICUMSA; CRC Handbook for ethanol, from memory";
        view.asked.push_back({"refractometer", brix, "°Bx", "read in the beer, at 20 °C or corrected by itself", ""});
        view.terms.push_back(
            {"alcohol", beer.alcohol_by_volume, "% vol", "where both readings are met, ± 0.3", source});
        view.terms.push_back({"alcohol by mass", beer.alcohol_by_mass, "% mass", "", source});
        view.terms.push_back({"real extract", beer.real_extract, "% mass", "", k_balling});
        view.terms.push_back({"original extract", beer.original_extract, "°P",
                              "SG " + number_text(chem::gravity_of_plato(std::max(0.0, beer.original_extract)), 4),
                              k_balling});
        view.left_out.push_back("0.1 °Bx is worth 0.15 % vol, 0.001 SG 0.2 % vol");
        return view;
    }
    if (!request.has("--alcohol"))
        return fail(ErrorKind::bad_input, "--og",
                    "A gravity alone says no strength; add --og 1.048, or --alcohol \"5 %\", or --brix 6.1.");
    TRY(const double abv, calc::alcohol(request));
    const chem::Composition beer = chem::composition_from_gravity_and_abv(gravity, abv);
    const double by_mass = 100.0 * beer.ethanol_g_per_l / (gravity * chem::k_water_density_at_20);
    const double extract = 100.0 * beer.real_extract_g_per_l / (gravity * chem::k_water_density_at_20);
    if (by_mass > 12.0)
        return fail(ErrorKind::outside_model, "--alcohol",
                    number_text(by_mass, 1) + " % by mass is above 12, where the relations of beer end.");
    view.about = "beer of " + number_text(gravity, 4) + " with " + number_text(abv, 1) + " % vol";
    view.terms.push_back({"alcohol by mass", by_mass, "% mass", "% vol/(SG x 1.2648)", k_balling});
    view.terms.push_back(
        {"real extract", extract, "% mass", number_text(beer.real_extract_g_per_l, 1) + " g/L", k_balling});
    view.terms.push_back({"original extract", chem::original_extract_of(by_mass, extract), "°P",
                          "100 (2.0665 A + RE)/(100 + 1.0665 A)", "Balling"});
    return view;
}

Result<CalcView> calc_gravity(const CalcRequest& request) {
    CalcView view;
    if (request.words.empty()) return calc::wants("GRAVITY", "1.048");
    std::string text;
    for (const std::string& word : request.words) text += (text.empty() ? "" : " ") + word;
    TRY(double gravity, calc::sg_of("gravity", text));
    view.about = text;
    view.ranges = {"0 to 40 °P; below 1.000 the extract is negative", "hydrometers: 0 to 40 °C"};
    if (request.has("--read-at")) {
        TRY(const Temperature at, calc::temperature(request, "--read-at", 20.0));
        TRY(const Temperature marked, calc::temperature(request, "--marked-at", 20.0));
        TRY(const double true_gravity, chem::gravity_at_20(gravity, at, marked));
        view.asked.push_back(
            {"hydrometer", gravity, "SG", "read at " + text_of(at) + ", marked at " + text_of(marked), ""});
        view.terms.push_back({"correction", true_gravity - gravity, "SG",
                              "sucrose solution of that density; glass 25e-6 per kelvin",
                              "ICUMSA SPS-4; BS 718, from memory"});
        gravity = true_gravity;
        view.left_out.push_back("beer of 5 % vol grows a little more than sugar solution: up to 0.0002 at 30 °C");
    }
    const double plato = chem::plato_of_gravity(gravity);
    view.terms.push_back({"gravity", gravity, "SG", "20/20 °C", ""});
    view.terms.push_back(
        {"extract", plato, "°P", "% by mass, Brix is the same scale", "ASBC cubic to 1.083, NBS C440 from 1.087"});
    view.terms.push_back(
        {"extract by volume", plato / 100.0 * gravity * chem::k_water_density_at_20, "g/L", "% x density", ""});
    if (plato >= 0.0 && plato <= 60.0)
        view.terms.push_back(
            {"refractive index", chem::index_of_brix(plato), "",
             number_text(chem::index_of_brix(plato), 5) + " of sucrose at 589 nm and 20 °C; not once alcohol is in it",
             "ICUMSA, secondary"});
    return view;
}

Result<CalcView> calc_mix(const CalcRequest& request) {
    CalcView view;
    const std::vector<std::string> texts = request.all("--part");
    if (texts.size() < 2) return calc::wants("--part", "\"20 L, gravity 1.010, alcohol 6\" --part \"5 L\"");
    std::vector<chem::Poured> beers;
    std::vector<chem::PouredSpirit> spirits;
    bool only_spirit = true;
    for (const std::string& text : texts) {
        TRY(const calc::Part part, calc::part_of("--part", text, {"gravity", "alcohol"}));
        TRY(const double litres, calc::litres_of("--part", part.first, request.gallons));
        CalcRequest of_part;
        if (!part.one("alcohol").empty()) of_part.options["--alcohol"] = {part.one("alcohol")};
        TRY(const double abv, calc::alcohol(of_part));
        spirits.push_back({abv, litres});
        chem::Poured beer{{}, litres};
        if (!part.one("gravity").empty()) {
            only_spirit = false;
            TRY(const double gravity, calc::sg_of("--part", part.one("gravity")));
            beer.composition = chem::composition_from_gravity_and_abv(gravity, abv);
        } else if (abv > 0.0) {
            beer.composition = {abv / 100.0 * chem::k_ethanol_density_at_20, 0.0};
        }
        beers.push_back(beer);
        view.asked.push_back(
            {part.one("gravity").empty() && abv == 0.0 ? "water" : "part", litres, "L", text.substr(0, 60), ""});
    }
    view.about = "poured together, at 20 °C";
    if (only_spirit) {
        TRY(const chem::MixedSpirit mix, chem::mixed_spirit(spirits));
        view.terms.push_back({"volume", mix.litres, "L", "masses over the density of the mix", "OIML R22 (1975)"});
        view.terms.push_back({"alcohol", mix.abv, "% vol", "", "OIML R22 (1975)"});
        view.terms.push_back(
            {"shrinks by", 100.0 * mix.shrinks, "%", "ethanol and water take less room together", "OIML R22 (1975)"});
        view.ranges = {"0 to 100 % vol, ethanol and water alone"};
        return view;
    }
    TRY(const chem::Mixed mix, chem::mixed(beers));
    const double gravity = chem::gravity_of(mix.composition);
    view.terms.push_back(
        {"volume", mix.litres, "L", "masses over the density of the mix", "derived (chem/mixing.hpp)"});
    view.terms.push_back(
        {"shrinks by", 100.0 * mix.shrinks, "%", "the book adds volumes; a dip stick does not show this", ""});
    view.terms.push_back({"gravity", gravity, "SG", "", k_balling});
    view.terms.push_back({"alcohol", chem::abv_of(mix.composition), "% vol", "", k_balling});
    view.terms.push_back({"real extract", mix.composition.real_extract_g_per_l, "g/L", "", k_balling});
    view.terms.push_back({"original extract", chem::original_extract_of(mix.composition), "°P",
                          "of the wort that would have given it", "Balling"});
    view.ranges = {"to 15 % vol"};
    view.left_out = {"sugar of a part that goes on to ferment"};
    return view;
}

}  // namespace undercroft::app

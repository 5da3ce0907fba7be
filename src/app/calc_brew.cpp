// Colour and bitterness.
#include "app/calc_read.hpp"
#include "chem/bitterness.hpp"
#include "chem/colour.hpp"

namespace undercroft::app {
namespace {

Result<double> kilograms_of(std::string_view field, const std::string& text) {
    TRY(const Mass mass, parse_mass(field, text));
    return mass.in_kilograms();
}

Result<double> number_of(std::string_view field, const calc::Part& part, std::string_view word, double low,
                         double high) {
    const std::string text = part.one(word);
    if (text.empty())
        return fail(ErrorKind::bad_input, std::string(field),
                    std::string(field) + " wants its " + std::string(word) + ".");
    TRY(const Decimal value, parse_number(word, text, low, high));
    return value.value();
}

void add_colour(CalcView& view, double ebc, const std::string& how, const char* source) {
    view.terms.push_back({"colour", ebc, "EBC", how, source});
    view.terms.push_back({"the same", chem::srm_of_ebc(ebc), "SRM", "EBC/1.9685", "EBC Analytica 8.5, ASBC Beer-10"});
    view.left_out = {"hue: fruit breaks the average spectrum of malt"};
}

}  // namespace

Result<CalcView> calc_colour(const CalcRequest& request) {
    CalcView view;
    if (request.has("--malt")) {
        TRY(const double litres, calc::litres(request, "--volume"));
        std::vector<chem::MaltPart> malts;
        for (const std::string& text : request.all("--malt")) {
            TRY(const calc::Part part, calc::part_of("--malt", text, {"ebc"}));
            TRY(const double kilograms, kilograms_of("--malt", part.first));
            TRY(const double ebc, number_of("--malt", part, "ebc", 0.0, 2000.0));
            malts.push_back({kilograms, ebc});
            view.asked.push_back({"malt", kilograms, "kg", "of " + number_text(ebc, 1) + " EBC", ""});
        }
        TRY(const double srm, chem::srm_of_malt(malts, litres));
        view.about = "colour of " + number_text(litres, 1) + " L of wort";
        add_colour(view, chem::ebc_of_srm(srm), "SRM = 1.4922 m^0.6859, m in lb °L/US gal",
                   "trade journal of the 1990s, secondary");
        view.ranges = {"to 50 SRM, 98 EBC"};
        return view;
    }
    if (request.has("--part")) {
        std::vector<chem::ColourPart> parts;
        for (const std::string& text : request.all("--part")) {
            TRY(const calc::Part part, calc::part_of("--part", text, {"ebc"}));
            TRY(const double litres, calc::litres_of("--part", part.first, request.gallons));
            TRY(const double ebc, number_of("--part", part, "ebc", 0.0, 1000.0));
            parts.push_back({ebc, litres});
        }
        TRY(const double ebc, chem::ebc_of_blend(parts));
        view.about = "colour of a blend";
        add_colour(view, ebc, "mean by volume: absorbances add", "Lambert and Beer");
        return view;
    }
    if (request.has("--ebc") == request.has("--srm"))
        return fail(ErrorKind::bad_input, "--ebc",
                    "Say --ebc 12 or --srm 6 to change scales, --malt \"4 kg, ebc 8\" --volume 20 L, or --part \"10 L, "
                    "ebc 20\" twice.");
    TRY(const double ebc, calc::number(request, "--ebc", 0.0, 1000.0, 0.0));
    TRY(const double srm, calc::number(request, "--srm", 0.0, 500.0, 0.0));
    view.about = "colour on both scales";
    add_colour(view, request.has("--ebc") ? ebc : chem::ebc_of_srm(srm), "25 x absorbance at 430 nm through 1 cm",
               "EBC Analytica 8.5, ASBC Beer-10");
    return view;
}

Result<CalcView> calc_bitterness(const CalcRequest& request) {
    CalcView view;
    if (request.has("--ibu")) {
        TRY(const double ibu, calc::number(request, "--ibu", 0.0, 200.0, 0.0));
        TRY(const double years, calc::number(request, "--years", 0.0, 100.0, 1.0));
        TRY(const Temperature at, calc::temperature(request, "--temperature", 20.0));
        TRY(const chem::Fading left, chem::bitterness_left(years, at));
        view.about = "bitterness after " + number_text(years, 2) + " years at " + text_of(at);
        view.terms.push_back({"left, by half-lives", ibu * left.by_half_lives, "IBU",
                              percent_text(left.by_half_lives, 0) + ": cis 5 years, trans 1 year",
                              "De Keukeleire 2000; De Cooman et al. 2000, J. Inst. Brew. 106:169"});
        view.terms.push_back({"left, by days measured", ibu * left.by_days, "IBU",
                              percent_text(left.by_days, 0) + ": trans by measured losses",
                              "Araki et al. 2002, J. ASBC 60:26, secondary"});
        view.ranges = {"0 to 40 °C, to 30 years"};
        view.left_out = {"the two sources do not agree; both are given", "what tastes bitter and is no iso-alpha acid"};
        return view;
    }
    if (!request.has("--hop"))
        return calc::wants("--hop", "\"30 g, alpha 5, minutes 60\" --volume 20 L (or --ibu 20 --years 2)");
    TRY(const double litres, calc::litres(request, "--volume"));
    std::vector<chem::HopDose> hops;
    for (const std::string& text : request.all("--hop")) {
        TRY(const calc::Part part, calc::part_of("--hop", text, {"alpha", "minutes", "at"}));
        TRY(const double kilograms, kilograms_of("--hop", part.first));
        TRY(const double alpha, number_of("--hop", part, "alpha", 0.0, 30.0));
        TRY(const double minutes, number_of("--hop", part, "minutes", 0.0, 600.0));
        chem::HopDose hop{1000.0 * kilograms, alpha, minutes, Temperature::from_celsius(100.0)};
        if (!part.one("at").empty()) {
            TRY(hop.temperature, parse_temperature("at", part.one("at")));
        }
        TRY(const double share, chem::isomerised_share(hop.temperature, minutes));
        view.asked.push_back({"hops", hop.grams, "g",
                              number_text(alpha, 1) + " % alpha acid, " + number_text(minutes, 0) + " minutes at " +
                                  text_of(hop.temperature) + ": " + percent_text(share, 1) + " isomerised",
                              "Malowicki & Shellhammer 2005"});
        hops.push_back(hop);
    }
    const chem::KettleRecovery recovery;
    TRY(const chem::Bitterness bitterness, chem::bitterness_of(hops, litres, recovery));
    view.about = "bitterness of " + number_text(litres, 1) + " L";
    const auto add = [&](const char* name, double value, double part) {
        view.terms.push_back({name, value, "IBU", percent_text(part, 0) + " of the iso-alpha acids reach the beer",
                              "recovery from memory"});
    };
    add("usual", bitterness.usual, recovery.usual);
    add("at least", bitterness.low, recovery.low);
    add("at most", bitterness.high, recovery.high);
    view.ranges = {"90 to 130 °C, wort of pH 5.2"};
    view.left_out = {"strong wort keeps less", "aged hops, dry hops"};
    return view;
}

}  // namespace undercroft::app

// What to put into beer so that it carbonates in its container: sugar, honey, wort or young beer, and fresh yeast where
// the old is likely dead.
#include <algorithm>
#include <cmath>
#include <vector>

#include "app/calc_read.hpp"
#include "chem/gas.hpp"
#include "chem/sugar.hpp"

namespace undercroft::app {
namespace {

using chem::co2_volumes_of_g_per_l;

// g of hexose in 100 g of honey: 36 glucose, 41 fructose and 2.3 of maltose and sucrose (food composition tables, from
// memory). Honeys differ by 5 % either way.
constexpr double k_hexose_in_honey = 0.79;
// Common practice, no source; dry yeast from 5 to 20.
constexpr double k_billion_cells_a_gram = 10.0;
constexpr double k_acid_ph = 3.4;
constexpr double k_strong_abv = 8.0;
constexpr const char* k_growth = "Balling's yield: what goes into new yeast makes no gas";

// What a litre of something that still ferments gives, g of CO2.
struct Feed {
    const char* name;
    double falls;      // SG
    double dissolved;  // g/L of CO2 that it brings
};

Result<Feed> feed_of(const CalcRequest& request, const char* name, std::string_view option, std::string_view ends,
                     double dissolved) {
    TRY(const double now, calc::sg(request, option));
    if (!request.has(ends)) return calc::wants(ends, option == "--wort" ? "1.010" : "1.006");
    TRY(const double end, calc::sg(request, ends));
    if (end >= now)
        return fail(ErrorKind::bad_input, std::string(ends),
                    number_text(end, 4) + " is not below " + number_text(now, 4) +
                        ", where it begins: nothing of it would ferment.");
    return Feed{name, now - end, dissolved};
}

Result<std::vector<Feed>> feeds_of(const CalcRequest& request, double here) {
    std::vector<Feed> feeds;
    if (request.has("--wort")) {
        TRY(const Feed wort, feed_of(request, "wort", "--wort", "--wort-ends", 0.0));
        feeds.push_back(wort);
    }
    if (request.has("--young")) {
        TRY(const Feed young, feed_of(request, "young beer", "--young", "--young-ends", here));
        feeds.push_back(young);
    }
    return feeds;
}

// Litres of it to a litre of beer: what both hold and make, spread over both, is the target.
Result<double> litres_to_a_litre(const Feed& feed, double target, double here) {
    const double gives =
        feed.dissolved + chem::co2_g_per_l_of_volumes(feed.falls * 1000.0 * chem::k_volumes_per_gravity_point_display);
    if (gives <= target)
        return fail(ErrorKind::impossible, feed.name,
                    std::string("All of it, and nothing else, would come to ") +
                        number_text(co2_volumes_of_g_per_l(gives), 2) + " volumes: too little for " +
                        number_text(co2_volumes_of_g_per_l(target), 2) + ".");
    return (target - here) / (gives - target);
}

struct InIt {
    double co2 = 0.0;  // g/L
    std::string how;
};

Result<InIt> co2_in(const CalcRequest& request) {
    if (request.has("--measured")) {
        TRY(const double measured, calc::co2_g_per_l(request, "--measured"));
        return InIt{measured, "as measured"};
    }
    if (!request.has("--warmest")) return calc::wants("--warmest", "20 C");
    TRY(const AbsolutePressure ambient, calc::ambient(request));
    TRY(const Temperature warmest, calc::temperature(request, "--warmest", 20.0));
    if (warmest.in_celsius() < 0.0 || warmest.in_celsius() > 34.0)
        return fail(ErrorKind::outside_model, "--warmest",
                    text_of(warmest) + " is outside 0 to 34 °C, where the rule for what stays holds.");
    return InIt{chem::co2_left_after_fermentation(warmest, ambient),
                "what stays at " + text_of(warmest) + ", the warmest since it finished"};
}

void add_sugars(CalcView& view, double missing, double litres) {
    const auto row = [&](const char* name, double co2_a_gram, const std::string& how, const char* source) {
        const double grams = missing / co2_a_gram;
        view.terms.push_back({name, grams, "g/L",
                              number_text(grams * litres, grams * litres < 100.0 ? 1 : 0) + " g for " +
                                  number_text(litres, 2) + " L; " + how,
                              source});
    };
    const auto of = [](chem::Sugar sugar) { return number_text(chem::co2_with_growth(sugar), 3) + " g CO2 a gram"; };
    row("table sugar", chem::co2_with_growth(chem::Sugar::sucrose), of(chem::Sugar::sucrose), k_growth);
    row("dextrose as sold", chem::co2_with_growth(chem::Sugar::dextrose_monohydrate),
        of(chem::Sugar::dextrose_monohydrate), k_growth);
    row("honey", k_hexose_in_honey * chem::co2_with_growth(chem::Sugar::glucose),
        "79 % of it ferments, honeys differ by 5 %; it brings yeast of its own unless it was heated",
        "food composition tables, from memory");
}

void add_yeast(CalcView& view, double litres, bool hard, const std::string& why) {
    const double low = hard ? 1.0 : 0.5;
    const double high = hard ? 5.0 : 2.0;
    const auto grams = [&](double million) { return million * litres / k_billion_cells_a_gram; };
    view.terms.push_back({"fresh yeast, at least", grams(low), "g dry",
                          number_text(low, 1) + " million live cells a mL, " + why, "common practice, no source"});
    view.terms.push_back(
        {"fresh yeast, at most", grams(high), "g dry",
         number_text(high, 0) + " million live cells a mL; 10 billion in a gram, dry yeast differs by half either way",
         "common practice, no source"});
    if (hard) {
        view.cautions.push_back({"yeast.acclimatise",
                                 "Let the yeast foam first in beer and sugar water, half and half, and add beer over a "
                                 "day: thrown straight "
                                 "into acid or strong beer most of it dies."});
    }
    view.cautions.push_back({"yeast.killer",
                             "A killer yeast does the work, but marks the beer: its dregs must not go back into a "
                             "solera that lives on other yeast, and it must not be pitched beside a sensitive one."});
}

}  // namespace

Result<CalcView> calc_priming(const CalcRequest& request) {
    CalcView view;
    TRY(const double target, calc::co2_g_per_l(request, "--co2"));
    TRY(const double litres, calc::litres(request, "--volume"));
    if (!(litres > 0.0)) return fail(ErrorKind::bad_input, "--volume", "It must be more than nothing.");
    TRY(const InIt in_it, co2_in(request));
    const double here = in_it.co2;
    view.about = "from " + number_text(co2_volumes_of_g_per_l(here), 2) + " to " +
                 number_text(co2_volumes_of_g_per_l(target), 2) + " volumes of CO2";
    view.asked.push_back({"CO2 in it already", here, "g/L", in_it.how, "trade rule (secondary); docs/chemistry.md, 3"});
    view.asked.push_back(
        {"CO2 wanted", target, "g/L", number_text(co2_volumes_of_g_per_l(target), 2) + " volumes", ""});
    const double missing = target - here;
    if (missing <= 0.0)
        return fail(ErrorKind::impossible, "--co2",
                    number_text(co2_volumes_of_g_per_l(here), 2) +
                        " volumes are in it already: no sugar brings it down to " +
                        number_text(co2_volumes_of_g_per_l(target), 2) + ". Warm it under an air lock, or accept it.");
    view.terms.push_back({"CO2 to be made", missing, "g/L",
                          number_text(co2_volumes_of_g_per_l(missing), 2) + " volumes", "the difference"});
    add_sugars(view, missing, litres);
    TRY(const std::vector<Feed> feeds, feeds_of(request, here));
    double filled = litres;
    for (const Feed& feed : feeds) {
        TRY(const double share, litres_to_a_litre(feed, target, here));
        view.terms.push_back({feed.name, share * litres, "L",
                              number_text(1000.0 * share, 0) + " mL to a litre; falls by " +
                                  number_text(feed.falls, 4) + ", half a volume for 0.001",
                              "half a volume for 0.001: common practice, no source"});
        if (feeds.size() == 1) filled += share * litres;  // of two only one will be taken
    }
    if (request.has("--fill")) {
        TRY(const double fill, calc::litres(request, "--fill"));
        if (!(fill > 0.0)) return fail(ErrorKind::bad_input, "--fill", "It must be more than nothing.");
        const double count = std::floor(filled / fill + 1e-9);
        view.terms.push_back(
            {"containers", count, "", "of " + number_text(1000.0 * fill, 0) + " mL, filled whole", ""});
        view.terms.push_back({"left over", std::max(0.0, filled - count * fill), "L",
                              "less what hoses and the last litre keep back", ""});
    }
    if (request.has("--ph") || request.has("--alcohol")) {
        TRY(const double ph, calc::number(request, "--ph", 2.5, 7.0, 4.0));
        TRY(const double abv, calc::alcohol(request));
        const bool hard = ph < k_acid_ph || abv > k_strong_abv;
        add_yeast(view, litres, hard, hard ? "below pH 3.4 or above 8 % vol" : "for beer of no great acid or strength");
    }
    view.ranges = {"0 to 34 °C for what stays in the beer"};
    view.left_out = {
        "what any culture still makes of sugar, dextrins or malic acid left in the beer: it comes on top, see calc "
        "gas"};
    view.cautions.push_back({"priming.check",
                             "This is for beer that is finished. Run the gas check with this priming before you fill: "
                             "it counts what else may come, and what the weakest part bears."});
    view.cautions.push_back({"priming.even",
                             "Weigh twice, dissolve it, and stir it in without splashing: sugar that "
                             "lies below makes some bottles flat and some too strong."});
    view.cautions.push_back({"priming.oxygen",
                             "Fill quietly from below into purged or foaming containers and close on "
                             "foam: oxygen at filling is staleness later, yeast takes up only some."});
    return view;
}

}  // namespace undercroft::app

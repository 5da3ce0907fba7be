// pH from acids, acids from pH, doses and blends.
#include <algorithm>

#include "app/calc_read.hpp"
#include "chem/acid_dose.hpp"
#include "chem/acid_inverse.hpp"

namespace undercroft::app {
namespace {

using chem::Acid;
using chem::AcidMix;
using chem::AcidState;
using chem::AcidSystem;
using chem::InferredAcids;

constexpr double k_lactic = 90.078;  // g/mol: TA is told as lactic acid
constexpr const char* k_balance = "Davies; Goldberg et al. 2002, Martin & Tartar 1937 (docs/chemistry.md, 1)";
constexpr const char* k_inverse = "derived (docs/chemistry.md, 2)";

constexpr const char* k_sourness = "[H+] + molecules of organic acid with a proton left; beside pH and TA, not instead";
constexpr const char* k_sourness_source = "after Da Conceicao Neta et al. 2007, J. Food Sci. 72:S352";

struct OptionOfAcid {
    const char* option;
    Acid acid;
};
constexpr OptionOfAcid k_options[] = {
    {"--lactic", Acid::lactic},         {"--acetic", Acid::acetic},     {"--malic", Acid::malic},
    {"--citric", Acid::citric},         {"--tartaric", Acid::tartaric}, {"--succinic", Acid::succinic},
    {"--phosphoric", Acid::phosphoric}, {"--co2", Acid::carbonic},      {"--so2", Acid::sulphurous}};

void say_ranges(CalcView& view) {
    view.ranges = {"0 to 40 °C", "to 15 % vol", "ionic strength to 0.5 mol/L (Davies)", "pH 0 to 14"};
    view.left_out = {"ion pairs, such as calcium with citrate", "what settles as tartrate or oxalate",
                     "how malic acid changes with temperature"};
}

Result<AcidSystem> system_of(const CalcRequest& request, CalcView& view) {
    TRY(const Temperature at, calc::temperature(request, "--temperature", 20.0));
    chem::AcidConditions conditions{at, chem::Activity::davies};
    if (request.has("--no-activity")) conditions.activity = chem::Activity::none;
    view.basis = chem::basis_text(conditions);
    say_ranges(view);
    return AcidSystem(conditions);
}

// Buffer as a multiple of all-malt wort's of SG 1.0484.
Result<chem::LumpedBuffer> buffer_of(const CalcRequest& request, double otherwise, CalcView& view) {
    TRY(const double share, calc::number(request, "--buffer", 0.0, 5.0, otherwise));
    const chem::LumpedBuffer buffer{chem::k_wort_buffer.low * share, chem::k_wort_buffer.high * share};
    if (share > 0.0)
        view.asked.push_back({"buffer", share, "x wort",
                              number_text(1e3 * capacities_of(buffer).from_3_to_5, 1) +
                                  " mEq/L for a pH from 3 to 5; 1 is all-malt wort of SG 1.0484, good to 25 %",
                              "adjusted to soured worts (docs/chemistry.md, 1)"});
    return buffer;
}

Result<double> ta_end_of(const CalcRequest& request) {
    return calc::number(request, "--ta-end", 6.0, 9.0, chem::k_ta_end_beer);
}

// The one acid here that is smelt. `acetic` in mol/L; nothing of none.
void add_acetic_noticed(CalcView& view, double acetic) {
    if (!(acetic > 0.0)) return;
    const tables::Threshold* row = tables::find_threshold(tables::shipped_thresholds(), "acetic_acid").value();
    engine::Term term = noticed_term(*row, 1000.0 * acetic * chem::constants_of(Acid::acetic).g_per_mol);
    term.name = "acetic acid smelt";
    view.terms.push_back(std::move(term));
}

// `extra_end`: a third end point of titration, 0 for none.
Result<void> add_state(CalcView& view, const AcidSystem& system, const AcidMix& mix, double extra_end = 0.0) {
    TRY(const AcidState state, system.state(mix));
    view.terms.push_back({"pH", state.ph, "pH", "charges add up to nothing; " + view.basis, k_balance});
    for (const double end : {chem::k_ta_end_beer, chem::k_ta_end_wine, extra_end}) {
        if (end == 0.0) continue;
        TRY(const double ta, system.titratable(mix, end));
        view.terms.push_back({"titratable acidity to pH " + number_text(end, 1), ta * k_lactic, "g/L as lactic",
                              number_text(1e3 * ta, 1) + " mEq/L of base, CO2 driven off first",
                              end == chem::k_ta_end_beer   ? "AOAC 950.07, ASBC Beer-8"
                              : end == chem::k_ta_end_wine ? "wine practice, from memory"
                                                           : ""});
    }
    view.terms.push_back({"buffering", 1e3 * state.capacity, "mEq/L a pH", "base that raises it by 1, at this pH", ""});
    view.terms.push_back({"sourness index", 1e3 * state.sourness, "mmol/L", k_sourness, k_sourness_source});
    view.terms.push_back({"ionic strength", 1e3 * state.ionic_strength, "mmol/L", "half the sum of c z²", ""});
    for (std::size_t i = 0; i < chem::k_acids; ++i) {
        if (!(mix.acids[i] > 0.0)) continue;
        const chem::AcidConstants& constants = chem::constants_of(chem::k_all_acids[i]);
        view.terms.push_back({"undissociated " + std::string(constants.name), 100.0 * state.undissociated[i], "%",
                              number_text(1e3 * mix.acids[i] * state.undissociated[i], 1) + " of " +
                                  number_text(1e3 * mix.acids[i], 1) + " mmol/L",
                              std::string(constants.source)});
    }
    add_acetic_noticed(view, mix.acids[static_cast<std::size_t>(Acid::acetic)]);
    return {};
}

// Readings as options or as the words of a part.
Result<chem::AcidReadings> readings_of(const std::string& ph, const std::string& ta, const std::string& acetic,
                                       double ta_end) {
    chem::AcidReadings readings;
    readings.ta_end = ta_end;
    if (!ph.empty()) {
        TRY(const Decimal value, parse_number("pH", ph, 0.0, 14.0));
        readings.ph = {value.value(), chem::k_ph_reading_sd};
    }
    if (!ta.empty()) {
        TRY(const Decimal value, parse_grams_per_litre("TA", ta));
        readings.ta = {value.value() / k_lactic, chem::k_ta_reading_sd};
    }
    if (!acetic.empty()) {
        TRY(const Decimal value, parse_grams_per_litre("acetic acid", acetic));
        const double mol = value.value() / chem::constants_of(Acid::acetic).g_per_mol;
        readings.acetic = {mol, std::max(1e-4, 0.1 * mol)};
    }
    return readings;
}

void add_inferred(CalcView& view, const InferredAcids& found, const chem::AcidReadings& readings,
                  const std::string& of = "") {
    const auto add = [&](const char* name, InferredAcids::Unknown which, double factor, const char* unit, int places) {
        const chem::Uncertain& value = found.unknown[which];
        if (found.fit == InferredAcids::Fit::impossible) {
            view.terms.push_back(
                {name + of, value.value * factor, unit, "of the nearest pair, not of the readings", k_inverse});
            return;
        }
        view.terms.push_back({name + of, value.value * factor, unit,
                              "± " + number_text(value.sd * factor, places) + " (one spread)", k_inverse});
    };
    add("lactic acid", InferredAcids::lactic, k_lactic, "g/L", 2);
    add("acetic acid", InferredAcids::acetic, chem::constants_of(Acid::acetic).g_per_mol, "g/L", 2);
    if (readings.acetic && of.empty()) add_acetic_noticed(view, readings.acetic->value);
    add("buffer", InferredAcids::buffer, 1.0, "x wort", 2);
    add("strong ions", InferredAcids::strong_ions, 1e3, "mEq/L", 1);
    if (!readings.ta)
        view.cautions.push_back(
            {"acids.no_ta", "Without a titratable acidity the acids are wide open; titrate a sample."});
    if (found.fit == InferredAcids::Fit::unusual)
        view.cautions.push_back(
            {"acids.unusual", "These readings are possible, but far from any usual beer: read both again."});
    if (found.fit == InferredAcids::Fit::impossible)
        view.cautions.push_back(
            {"acids.impossible",
             "No mixture of acids and buffer gives both readings. The nearest that one gives is pH " +
                 number_text(found.ph, 2) + " with " + number_text(found.ta * k_lactic, 2) +
                 " g/L: the pH would be off by " + number_text(found.ph_off, 2) + " and the TA by " +
                 number_text(found.ta_off * k_lactic, 2) + " g/L. Read both again."});
}

struct Beer {
    AcidMix mix;
    chem::AcidReadings readings;
    InferredAcids found;
};

Result<Beer> beer_of(const AcidSystem& system, const chem::AcidReadings& readings, double abv,
                     const chem::LumpedBuffer& buffer) {
    chem::AcidPrior prior = chem::usual_prior(abv);
    prior.known.buffer = buffer;
    TRY(InferredAcids found, infer_acids(system, readings, prior));
    return Beer{found.mix, readings, found};
}

std::string doser_key(std::string_view name) {
    std::string key(name);
    std::replace(key.begin(), key.end(), '_', ' ');
    return key;
}

Result<chem::Doser> doser_of(const std::string& words) {
    const std::string key = doser_key(words);
    std::string all;
    for (std::size_t i = 0; i < chem::k_dosers; ++i) {
        const auto doser = static_cast<chem::Doser>(i);
        const std::string name(chem::facts_of(doser).name);
        if (key == name || key + " acid" == name) return doser;
        all += (all.empty() ? "" : ", ") + name;
    }
    return fail(ErrorKind::bad_input, "acid or carbonate",
                "\"" + words.substr(0, 40) + "\" is none known here: " + all + ".");
}

}  // namespace

Result<CalcView> calc_ph(const CalcRequest& request) {
    CalcView view;
    view.about = "pH of a mixture";
    TRY(const AcidSystem system, system_of(request, view));
    AcidMix mix;
    TRY(mix.abv, calc::alcohol(request));
    for (const OptionOfAcid& one : k_options) {
        TRY(const double grams, calc::grams_per_litre(request, one.option, 0.0));
        mix.set_g_per_l(one.acid, grams);
        if (grams > 0.0)
            view.asked.push_back({std::string(chem::constants_of(one.acid).name) + " acid", grams, "g/L",
                                  number_text(1e3 * mix[one.acid], 2) + " mmol/L", ""});
    }
    TRY(mix.buffer, buffer_of(request, 0.0, view));
    TRY(const double strong, calc::number(request, "--strong-ions", -500.0, 500.0, 0.0));
    TRY(const double salt, calc::number(request, "--salt", 0.0, 500.0, 0.0));
    mix.strong_ions = 1e-3 * strong;
    mix.inert_salt = 1e-3 * salt;
    if (request.has("--wort-ph")) {
        if (request.has("--strong-ions"))
            return fail(ErrorKind::bad_input, "--wort-ph",
                        "Either --wort-ph or --strong-ions says what holds the acids up.");
        TRY(const double before, calc::number(request, "--wort-ph", 3.0, 8.0, 5.2));
        AcidMix wort;
        wort.buffer = mix.buffer;
        wort.abv = mix.abv;
        TRY(wort, system.with_ph(wort, before));
        mix.strong_ions = wort.strong_ions;
    }
    // Fruit brings its potassium with its acids; hop leaf takes up acid.
    TRY(const double potassium, calc::grams_per_litre(request, "--potassium", 0.0));
    TRY(const double hops, calc::grams_per_litre(request, "--hops", 0.0));
    mix.strong_ions += chem::mix_of(chem::FruitAcids{0.0, 0.0, 0.0, potassium}, 1.0).strong_ions;
    mix.strong_ions += chem::k_hop_base_per_g * hops;
    if (hops > 0.0)
        view.asked.push_back({"dry hops", hops, "g/L", "taken as 0.52 mEq of base a gram; later work found two thirds",
                              "Maye, Smith & Leker 2016, MBAA Tech. Q."});
    view.asked.push_back({"strong ions", 1e3 * mix.strong_ions, "mEq/L",
                          request.has("--wort-ph")
                              ? "such as give the liquid that pH without the acids, and what is added"
                              : "K+, Na+, 2 Ca++ ... less Cl-, 2 SO4-- ...",
                          ""});
    TRY(const double end, ta_end_of(request));
    TRY_VOID(add_state(view, system, mix, request.has("--ta-end") ? end : 0.0));
    return view;
}

Result<CalcView> calc_acids(const CalcRequest& request) {
    CalcView view;
    view.about = "what a pH and a titratable acidity say";
    TRY(const AcidSystem system, system_of(request, view));
    TRY(const double end, ta_end_of(request));
    TRY(const double abv, calc::alcohol(request, 5.0));
    TRY(chem::AcidReadings readings,
        readings_of(request.one("--ph"), request.one("--ta"), request.one("--acetic"), end));
    if (!readings.ph && !readings.ta) return calc::wants("--ph", "3.4 --ta \"6 g/L\"");
    TRY(const chem::LumpedBuffer buffer, buffer_of(request, 1.0, view));
    TRY(const Beer beer, beer_of(system, readings, abv, buffer));
    if (readings.ph) view.asked.push_back({"pH", readings.ph->value, "pH", "± " + number_text(readings.ph->sd, 2), ""});
    if (readings.ta)
        view.asked.push_back({"titratable acidity", readings.ta->value * k_lactic, "g/L as lactic",
                              "to pH " + number_text(end, 1) + ", ± " + number_text(readings.ta->sd * k_lactic, 1),
                              ""});
    view.asked.push_back({"alcohol", abv, "% vol", request.has("--alcohol") ? "" : "taken, since it was not said", ""});
    add_inferred(view, beer.found, readings);
    view.terms.push_back({"that mix reads", beer.found.ph, "pH", "the likeliest mix, solved again", k_balance});
    view.terms.push_back(
        {"and titrates", beer.found.ta * k_lactic, "g/L as lactic", "to pH " + number_text(end, 1), ""});
    TRY(const AcidState state, system.state(beer.mix));
    view.terms.push_back({"sourness index", 1e3 * state.sourness, "mmol/L", k_sourness, k_sourness_source});
    view.terms.push_back({"undissociated lactic", 100.0 * state.undissociated[0], "%", "of the likeliest mix", ""});
    view.left_out.push_back("other acids than lactic and acetic (phosphate and the like count as buffer)");
    view.ranges.push_back("readings are taken as ± 0.05 pH and ± 0.2 g/L; priors are for beer");
    return view;
}

Result<CalcView> calc_dose(const CalcRequest& request) {
    CalcView view;
    if (request.words.empty()) return calc::wants("ACID", "lactic");
    std::string words;
    for (const std::string& word : request.words) words += (words.empty() ? "" : " ") + word;
    TRY(const chem::Doser doser, doser_of(words));
    const chem::DoserFacts& facts = chem::facts_of(doser);
    TRY(const AcidSystem system, system_of(request, view));
    TRY(const double end, ta_end_of(request));
    TRY(const double abv, calc::alcohol(request, 5.0));
    TRY(const double litres, calc::litres(request, "--volume"));
    TRY(const double purity, calc::share(request, "--strength", facts.usual_purity));
    TRY(const chem::AcidReadings readings,
        readings_of(request.one("--ph"), request.one("--ta"), request.one("--acetic"), end));
    if (!readings.ph) return calc::wants("--ph", "3.6");
    if (request.has("--to-ph") == request.has("--to-ta"))
        return fail(ErrorKind::bad_input, "--to-ph", "Say where to: --to-ph 3.4 or --to-ta \"6 g/L\".");
    TRY(const chem::LumpedBuffer buffer, buffer_of(request, 1.0, view));
    TRY(const Beer beer, beer_of(system, readings, abv, buffer));
    chem::DoseTarget target;
    target.ta_end = end;
    if (request.has("--to-ph")) {
        TRY(target.value, calc::number(request, "--to-ph", 1.0, 9.0, 0.0));
    } else {
        target.of = chem::DoseTarget::Of::ta;
        TRY(const double ta, calc::grams_per_litre(request, "--to-ta", 0.0));
        target.value = ta / k_lactic;
    }
    TRY(const chem::Dose dose, dose_for(system, beer.mix, litres, doser, purity, target));
    view.about = std::string(facts.name) + " for " + number_text(litres, 1) + " L";
    view.asked.push_back({"alcohol", abv, "% vol", request.has("--alcohol") ? "" : "taken, since it was not said", ""});
    view.asked.push_back(
        {"strength", 100.0 * purity, "% by mass", request.has("--strength") ? "" : "as usually sold", ""});
    view.terms.push_back({std::string(facts.name), dose.grams, "g",
                          number_text(dose.g_per_l, 3) + " g/L, checked by solving the dosed liquid again", k_balance});
    view.terms.push_back({"pH before", dose.ph_before, "pH", "of the likeliest mix", ""});
    view.terms.push_back({"pH after", dose.ph_after, "pH", view.basis, ""});
    view.terms.push_back({"titratable acidity before", dose.ta_before * k_lactic, "g/L as lactic", "", ""});
    view.terms.push_back(
        {"titratable acidity after", dose.ta_after * k_lactic, "g/L as lactic", "to pH " + number_text(end, 1), ""});
    if (dose.co2_g_per_l > 0.0) {
        view.terms.push_back(
            {"CO2 that leaves", dose.co2_g_per_l * litres, "g", "all of the carbonate's", "stoichiometry"});
        view.cautions.push_back({"dose.foam", "A carbonate foams: add it in parts, into a vessel with room."});
    }
    view.cautions.push_back(
        {"dose.trial",
         "Try it in a glass first, and add half before reading again: the buffer is inferred, not measured."});
    add_inferred(view, beer.found, readings, " inferred");
    view.ranges.push_back("doses to 50 g/L");
    view.left_out.push_back("the litre grows by the dose");
    return view;
}

Result<CalcView> calc_acid_blend(const CalcRequest& request) {
    CalcView view;
    view.about = "acids of a blend";
    TRY(const AcidSystem system, system_of(request, view));
    TRY(const double end, ta_end_of(request));
    const std::vector<std::string> texts = request.all("--part");
    if (texts.size() < 2) return calc::wants("--part", "\"20 L, ph 3.4, ta 6\" --part \"10 L, ph 4.2, ta 2\"");
    std::vector<chem::BlendPart> parts;
    double litres = 0.0;
    double mean = 0.0;
    for (const std::string& text : texts) {
        TRY(const calc::Part part, calc::part_of("--part", text, {"ph", "ta", "acetic", "alcohol", "buffer"}));
        TRY(const double volume, calc::litres_of("--part", part.first, request.gallons));
        TRY(const chem::AcidReadings readings, readings_of(part.one("ph"), part.one("ta"), part.one("acetic"), end));
        if (!readings.ph) return calc::wants("--part", "\"20 L, ph 3.4, ta 6\"");
        CalcRequest of_part;
        CalcView aside;  // what a part's buffer is told as, once for all parts below
        if (!part.one("alcohol").empty()) of_part.options["--alcohol"] = {part.one("alcohol")};
        if (!part.one("buffer").empty()) of_part.options["--buffer"] = {part.one("buffer")};
        TRY(const double abv, calc::alcohol(of_part, 5.0));
        TRY(const chem::LumpedBuffer buffer, buffer_of(of_part, 1.0, part.one("buffer").empty() ? aside : view));
        TRY(const Beer beer, beer_of(system, readings, abv, buffer));
        view.asked.push_back({number_text(volume, 2) + " L", readings.ph->value, "pH",
                              "lactic " + number_text(beer.mix.g_per_l(Acid::lactic), 2) + ", acetic " +
                                  number_text(beer.mix.g_per_l(Acid::acetic), 2) + " g/L inferred" +
                                  (readings.ta ? "" : " from the pH alone"),
                              ""});
        if (beer.found.fit == InferredAcids::Fit::impossible)
            view.cautions.push_back(
                {"acids.impossible", "No mixture gives the pH and TA of \"" + text.substr(0, 60) + "\"."});
        parts.push_back({beer.mix, volume});
        litres += volume;
        mean += volume * readings.ph->value;
    }
    view.left_out.push_back("parts without an alcohol are taken as 5 % vol, without a buffer as that of all-malt wort");
    TRY(const AcidMix whole, chem::blend(parts));
    TRY_VOID(add_state(view, system, whole));
    view.terms.push_back({"mean of the pH", mean / litres, "pH", "what it is not: pH does not mix by volume", ""});
    TRY(const AcidState state, system.state(whole));
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double charge =
            system.charge(parts[i].mix, {state.ph, state.ionic_strength, whole.abv}) * parts[i].litres;
        view.terms.push_back({"charge of part " + std::to_string(i + 1), 1e3 * charge, "mEq",
                              "at the pH of the blend; they add up to nothing", "docs/chemistry.md, 1"});
    }
    return view;
}

}  // namespace undercroft::app

#include "cli/calc_commands.hpp"

#include "app/calc.hpp"
#include "cli/command_rows.hpp"
#include "cli/questions.hpp"
#include "render/calc.hpp"

namespace undercroft::cli {
namespace {

struct Sum {
    std::string_view name;
    Result<app::CalcView> (*work_out)(const app::CalcRequest&);
};
constexpr Sum k_sums[] = {{"calc ph", app::calc_ph},
                          {"calc acids", app::calc_acids},
                          {"calc dose", app::calc_dose},
                          {"calc blend", app::calc_acid_blend},
                          {"calc carbonation", app::calc_carbonation},
                          {"calc pressure", app::calc_pressure},
                          {"calc dissolved", app::calc_dissolved},
                          {"calc priming", app::calc_priming},
                          {"calc tasting-test", app::calc_tasting_test},
                          {"calc threshold", app::calc_threshold},
                          {"calc extraction", app::calc_extraction},
                          {"calc trial", app::calc_trial},
                          {"calc alcohol", app::calc_alcohol},
                          {"calc gravity", app::calc_gravity},
                          {"calc mix", app::calc_mix},
                          {"calc colour", app::calc_colour},
                          {"calc bitterness", app::calc_bitterness}};

const Option k_gallons_of_sum{"--gallons", Takes::one, "us|imperial", "which gallon a bare gal is", false};
const Option k_temperature{"--temperature", Takes::one, "TEMPERATURE", "left out: 20 C", false};
const Option k_alcohol{"--alcohol", Takes::one, "PERCENT", "by volume; left out: 5", false};
const Option k_altitude{"--altitude", Takes::one, "METRES", "left out: 0", false};
const Option k_gravity{"--gravity", Takes::one, "GRAVITY", "of the beer; with the alcohol it says the extract", false};
const Option k_ph{"--ph", Takes::one, "NUMBER", "read", false};
const Option k_ta{"--ta", Takes::one, "AMOUNT", "titratable acidity read, g/L as lactic acid", false};
const Option k_ta_end{"--ta-end", Takes::one, "NUMBER", "pH it was titrated to; left out: 8.2", false};
const Option k_acetic{"--acetic", Takes::one, "AMOUNT", "measured, g/L", false};
const Option k_buffer{"--buffer", Takes::one, "NUMBER", "as a multiple of all-malt wort of SG 1.0484; left out: 1",
                      false};

Command sum(std::string_view name, std::string_view words, std::string_view about, std::string_view example,
            std::vector<Option> options) {
    return {name, Group::sums, Role::program, words, about, example, std::move(options)};
}

}  // namespace

std::vector<Command> calc_commands() {
    std::vector<Command> rows;
    rows.push_back(
        sum("calc ph", "", "pH, titratable acidity and sourness of a mixture of acids",
            "calc ph --lactic 5 g/L --acetic 0.4 g/L --buffer 1 --wort-ph 4.4 --alcohol 6 %",
            {{"--lactic", Takes::one, "AMOUNT", "lactic acid, g/L"},
             {"--acetic", Takes::one, "AMOUNT", "acetic acid, g/L"},
             {"--malic", Takes::one, "AMOUNT", "malic acid, g/L"},
             {"--citric", Takes::one, "AMOUNT", "citric acid, g/L"},
             {"--tartaric", Takes::one, "AMOUNT", "tartaric acid, g/L"},
             {"--succinic", Takes::one, "AMOUNT", "succinic acid, g/L"},
             {"--phosphoric", Takes::one, "AMOUNT", "phosphoric acid, g/L"},
             {"--co2", Takes::one, "AMOUNT", "dissolved"},
             {"--so2", Takes::one, "AMOUNT", "free"},
             {"--buffer", Takes::one, "NUMBER", "as a multiple of all-malt wort of SG 1.0484; left out: 0"},
             {"--strong-ions", Takes::one, "NUMBER", "mEq/L: K+, Na+, 2 Ca++ ... less Cl-, 2 SO4--; left out: 0"},
             {"--wort-ph", Takes::one, "NUMBER", "instead: pH of the liquid before its acids came"},
             {"--potassium", Takes::one, "AMOUNT", "of fruit, added to the strong ions: \"300 mg/L\""},
             {"--hops", Takes::one, "AMOUNT", "dry hops, g/L: they take up acid"},
             {"--salt", Takes::one, "NUMBER", "mmol/L of salt that only adds ions; left out: 0"},
             {"--alcohol", Takes::one, "PERCENT", "by volume; left out: 0"},
             k_temperature,
             {"--ta-end", Takes::one, "NUMBER", "pH of a third end point of titration; 8.2 and 7.0 are always told"},
             {"--no-activity", Takes::nothing, "", "concentration of H+ instead of its activity"}}));
    rows.push_back(sum("calc acids", "", "what is in a liquid of that pH and titratable acidity",
                       "calc acids --ph 3.4 --ta 6.2 g/L --alcohol 6 %",
                       {k_ph,
                        k_ta,
                        k_ta_end,
                        k_acetic,
                        k_alcohol,
                        k_buffer,
                        k_temperature,
                        {"--no-activity", Takes::nothing, "", "concentration of H+ instead of its activity"}}));
    rows.push_back(sum("calc dose", "ACID|CARBONATE", "grams of an acid or a carbonate to reach a pH or an acidity",
                       "calc dose lactic --volume 20 L --ph 3.7 --ta 4.5 g/L --to-ta 6 g/L",
                       {{"--volume", Takes::one, "VOLUME", "to be dosed"},
                        {"--to-ph", Takes::one, "NUMBER", "wanted"},
                        {"--to-ta", Takes::one, "AMOUNT", "wanted, g/L as lactic acid"},
                        {"--strength", Takes::one, "SHARE", "of the product, by mass; left out: as usually sold"},
                        k_ph,
                        k_ta,
                        k_ta_end,
                        k_acetic,
                        k_alcohol,
                        k_buffer,
                        k_temperature,
                        k_gallons_of_sum}));
    rows.push_back(sum("calc blend", "", "pH, acidity and sourness of a blend, by charge",
                       "calc blend --part \"20 L, ph 3.3, ta 7\" --part \"10 L, ph 4.2, ta 2.1, alcohol 6\"",
                       {{"--part", Takes::one, "PART", "\"20 L, ph 3.3, ta 7\", and acetic, alcohol, buffer", true},
                        k_ta_end,
                        k_temperature,
                        k_gallons_of_sum}));
    rows.push_back(sum("calc carbonation", "", "pressure for a carbonation, or the carbonation under a pressure",
                       "calc carbonation --co2 2.4 vol --temperature 6 C",
                       {{"--co2", Takes::one, "AMOUNT", "wanted: 2.4 vol or 4.7 g/L"},
                        {"--pressure", Takes::one, "PRESSURE", "gauge, instead"},
                        {"--temperature", Takes::one, "TEMPERATURE", "of the beer"},
                        k_alcohol,
                        k_gravity,
                        k_altitude}));
    rows.push_back(sum("calc pressure", "", "pressure in a closed bottle or keg: CO2, air, vapour",
                       "calc pressure --co2 3 vol --head-space 4 % --temperature 30 C --gravity 1.006",
                       {{"--co2", Takes::one, "AMOUNT", "all of it, per litre of beer: 3 vol or 6 g/L"},
                        {"--head-space", Takes::one, "SHARE", "of the container, at filling"},
                        k_temperature,
                        {"--filled-at", Takes::one, "TEMPERATURE", "left out: 20 C"},
                        {"--air", Takes::one, "STATE", "trapped (default), purged, or eaten (its oxygen)"},
                        k_alcohol,
                        k_gravity,
                        k_altitude}));
    rows.push_back(sum("calc dissolved", "", "CO2 left in beer that nobody measured, and what malic acid may add",
                       "calc dissolved --warmest 20 C --coolest 8 C --malic 1.2 g/L",
                       {{"--warmest", Takes::one, "TEMPERATURE", "since it finished"},
                        {"--coolest", Takes::one, "TEMPERATURE", "of late, while it still worked"},
                        {"--malic", Takes::one, "AMOUNT", "that bacteria may still turn"},
                        k_altitude}));
    rows.push_back(sum("calc priming", "", "sugar, honey, wort or young beer to carbonate with, and fresh yeast",
                       "calc priming --co2 2.6 vol --volume 18 L --warmest 20 C --fill 330 mL",
                       {{"--co2", Takes::one, "AMOUNT", "wanted"},
                        {"--volume", Takes::one, "VOLUME", "of beer"},
                        {"--warmest", Takes::one, "TEMPERATURE", "since it finished: what stayed in it"},
                        {"--measured", Takes::one, "AMOUNT", "instead: the CO2 in it, measured"},
                        {"--wort", Takes::one, "GRAVITY", "of wort to prime with"},
                        {"--wort-ends", Takes::one, "GRAVITY", "where it ends"},
                        {"--young", Takes::one, "GRAVITY", "of young beer to prime with"},
                        {"--young-ends", Takes::one, "GRAVITY", "where it ends"},
                        {"--fill", Takes::one, "VOLUME", "of a container: how many, and what is left over"},
                        {"--ph", Takes::one, "NUMBER", "of the beer, for fresh yeast"},
                        {"--alcohol", Takes::one, "PERCENT", "of the beer, for fresh yeast"},
                        k_altitude,
                        k_gallons_of_sum}));
    rows.push_back(sum("calc tasting-test", "KIND", "is there a difference, and could the test have shown it? exact",
                       "calc tasting-test triangle --tasters 24 --correct 15",
                       {{"--tasters", Takes::one, "COUNT", "answers given"},
                        {"--correct", Takes::one, "COUNT", "right ones, of a triangle or duo-trio"},
                        {"--preferred", Takes::one, "COUNT", "for one of the two, of a paired test"},
                        {"--two-sided", Takes::nothing, "", "either might have been preferred"},
                        {"--ranks", Takes::one, "ORDER", "of a ranking, one a taster: \"Ines: A 1, B 3, C 2\"", true},
                        {"--alpha", Takes::one, "SHARE", "chance of a false difference; left out: 5 %"},
                        {"--noticing", Takes::one, "SHARE", "of tasters, that it should show; left out: 30 %"}}));
    rows.push_back(sum("calc threshold", "", "is so much of it noticed, and by how many?",
                       "calc threshold --of \"acetic acid, 0.7 g/L\"",
                       {{"--of", Takes::one, "AMOUNT", "of a compound: \"ethyl acetate, 40 mg/L\"", true}}));
    rows.push_back(
        sum("calc extraction", "WHAT", "how strong a spice or wood has become, and when to lift it out",
            "calc extraction vanilla --dose \"0.8 g/L\" --wanted 3 --tasted \"5 days, 2\"",
            {{"--dose", Takes::one, "DOSE", "left out: the middle of the table"},
             {"--wanted", Takes::one, "POINTS", "of its own note, that are to be reached"},
             {"--tasted", Takes::one, "DAYS, POINTS", "on the way, above what was there: \"5 days, 2\"", true},
             {"--attribute", Takes::one, "NAME", "left out: what it moves most"}}));
    rows.push_back(
        sum("calc trial", "", "from a measured glass to the batch, and the next glass",
            "calc trial --glass \"100 mL\" --added \"0.4 mL\" --strength \"50 g/L\" --volume \"20 L\"",
            {{"--glass", Takes::one, "VOLUME", "of beer in it; left out: 100 mL"},
             {"--added", Takes::one, "VOLUME", "stirred in, by pipette or syringe"},
             {"--strength", Takes::one, "AMOUNT", "of what was added: spice steeped in a litre, acid, sugar"},
             {"--volume", Takes::one, "VOLUME", "of the portion"},
             {"--alcohol", Takes::one, "PERCENT", "of a tincture, by volume"},
             {"--pipette", Takes::one, "VOLUME", "it may be off by; left out: 0.02 mL"},
             {"--liked", Takes::one, "DOSE, LIKING", "glasses so far: \"0.2 g/L, 7\"", true},
             k_gallons_of_sum}));
    rows.push_back(
        sum("calc alcohol", "", "alcohol, extracts and attenuation", "calc alcohol --og 1.052 --gravity 1.008",
            {{"--og", Takes::one, "GRAVITY", "of the wort"},
             {"--gravity", Takes::one, "GRAVITY", "now"},
             {"--alcohol", Takes::one, "PERCENT", "instead of --og: original extract follows"},
             {"--brix", Takes::one, "NUMBER", "instead of --og: refractometer read in the beer"},
             {"--attenuation", Takes::one, "PERCENT", "apparent, with --og: where that leads, and the limit"}}));
    rows.push_back(sum("calc gravity", "GRAVITY", "gravity, extract and index; a hydrometer's reading corrected",
                       "calc gravity 1.046 --read-at 28 C",
                       {{"--read-at", Takes::one, "TEMPERATURE", "of the sample"},
                        {"--marked-at", Takes::one, "TEMPERATURE", "on the hydrometer; left out: 20 C"}}));
    rows.push_back(
        sum("calc mix", "", "gravity, alcohol and volume of liquids poured together",
            "calc mix --part \"20 L, gravity 1.006, alcohol 6\" --part \"4 L\"",
            {{"--part", Takes::one, "PART", "\"20 L, gravity 1.006, alcohol 6\"; a volume alone is water", true},
             k_gallons_of_sum}));
    rows.push_back(sum("calc colour", "", "colour of malt, of a blend, on both scales",
                       "calc colour --malt \"4 kg, ebc 6\" --malt \"0.3 kg, ebc 150\" --volume 22 L",
                       {{"--malt", Takes::one, "PART", "\"4 kg, ebc 6\"", true},
                        {"--volume", Takes::one, "VOLUME", "of wort"},
                        {"--part", Takes::one, "PART", "of a blend: \"10 L, ebc 20\"", true},
                        {"--ebc", Takes::one, "NUMBER", "to be told in SRM"},
                        {"--srm", Takes::one, "NUMBER", "to be told in EBC"},
                        k_gallons_of_sum}));
    rows.push_back(sum("calc bitterness", "", "bitterness from the kettle, or what years leave of it",
                       "calc bitterness --hop \"30 g, alpha 5, minutes 60\" --volume 20 L",
                       {{"--hop", Takes::one, "PART", "\"30 g, alpha 5, minutes 60, at 100 C\"", true},
                        {"--volume", Takes::one, "VOLUME", "of wort"},
                        {"--ibu", Takes::one, "NUMBER", "instead: of a beer to be kept"},
                        {"--years", Takes::one, "NUMBER", "kept"},
                        k_temperature,
                        k_gallons_of_sum}));
    return rows;
}

std::optional<int> calculate_chemistry(Session& session, const Command& command, const Typed& t) {
    for (const Sum& one : k_sums) {
        if (one.name != command.name) continue;
        const auto gallons = gallons_of(t);
        if (!gallons) return session.refuse(gallons.error());
        app::CalcRequest request;
        request.words = t.words;
        request.gallons = *gallons;
        request.tables = &session.host.tables;
        for (const auto& [name, given] : t.options) {
            std::vector<std::string>& values = request.options[name];
            for (const std::vector<std::string>& words : given)
                if (!words.empty()) values.push_back(words.front());  // none: the option takes no value
        }
        if (command.words.empty() && !t.words.empty())
            return session.refuse(wants_words(command.name, "\"" + t.rest(0) + "\" stands alone.").value());
        const auto view = one.work_out(request);
        if (!view) {
            const int code = session.refuse(view.error());
            // A sum asked outside its range was asked wrongly; there is no book that could be at fault.
            return view.error().kind == ErrorKind::outside_model ? k_bad_input : code;
        }
        session.host.out << (session.form == Form::json ? render::json_of(*view) : render::text_of(*view))
                         << std::flush;
        return k_ok;
    }
    return std::nullopt;
}

}  // namespace undercroft::cli

#include "app/fruit_label.hpp"

#include <algorithm>
#include <cctype>
#include <sstream>

#include "base/letters.hpp"
#include "units/amount.hpp"

namespace undercroft::app {

Result<void> add_fruit_from_label(const std::string& text, tables::Tables& tables,
                                  std::vector<tables::Effect>& effects) {
    const auto no = [&](const std::string& why) {
        return fail(
            ErrorKind::bad_input, "fruit",
            "\"" + text.substr(0, 60) + "\" " + why +
                "; say its name and what its label has in 100 g: \"cloudberry, sugar 6, acid 1.2, form fresh\".");
    };
    std::istringstream cut(text);
    std::vector<std::string> parts;
    for (std::string part; std::getline(cut, part, ',');) parts.push_back(trimmed(part));
    if (parts.size() < 2 || parts[0].empty()) return no("is no fruit from a label");
    tables::Fruit row;
    row.name = lower(parts[0]);
    row.form = tables::FruitForm::fresh;
    row.form_text = "fresh";
    std::optional<double> sugar;
    std::optional<double> acid;
    for (std::size_t i = 1; i < parts.size(); ++i) {
        const auto blank = parts[i].find(' ');
        const std::string word = lower(parts[i].substr(0, blank));
        const std::string value = blank == std::string::npos ? "" : trimmed(parts[i].substr(blank));
        if (word == "form") {
            using F = tables::FruitForm;
            row.form_text = lower(value);
            if (row.form_text == "fresh")
                row.form = F::fresh;
            else if (row.form_text == "frozen")
                row.form = F::frozen;
            else if (row.form_text == "dried")
                row.form = F::dried;
            else if (row.form_text == "canned")
                row.form = F::canned;
            else if (row.form_text == "juice")
                row.form = F::juice;
            else
                return no("has no form that is known (fresh, frozen, dried, canned or juice)");
            continue;
        }
        const auto number = parse_number(word, value.substr(0, value.find(' ')), 0.0, 100.0);
        if (!number) return no("has a figure that cannot be read");
        if (word == "sugar")
            sugar = number->value();
        else if (word == "acid")
            acid = number->value();
        else
            return no("says \"" + word + "\", which is not sugar, acid or form");
    }
    if (!sugar || !acid) return no("lacks its sugar or its acid");
    constexpr double k_solids_beside = 3.0;  // fibre and the like, g per 100 g (own choice)
    if (*sugar + *acid + k_solids_beside >= 100.0) return no("has more sugar and acid than there is room for");
    row.id = "label_" + std::to_string(tables.fruits.size());
    row.total_sugars = sugar;
    row.citric = acid;
    row.malic = 0.0;
    row.tartaric = 0.0;
    row.sorbitol = 0.0;
    row.water = 100.0 - *sugar - *acid - k_solids_beside;
    row.source = "its label";
    const bool dried = row.form == tables::FruitForm::dried;
    tables.fruits.push_back(row);
    const double mid = dried ? 50.0 : 150.0;
    for (const tables::FruitWay way : {tables::FruitWay::onto_beer, tables::FruitWay::pre_fermented}) {
        const auto like = std::find_if(tables.techniques.begin(), tables.techniques.end(), [&](const auto& one) {
            return one.id == (dried ? "fruit_fig" : "fruit_raspberry") && one.way == way;
        });
        tables::Technique technique = *like;
        technique.id = "fruit_" + row.id;
        std::string name = row.name;
        name[0] = char(std::toupper(static_cast<unsigned char>(name[0])));
        technique.name = name + like->name.substr(like->name.find(','));
        if (dried)
            technique.name = name + (way == tables::FruitWay::onto_beer ? ", straight onto the beer"
                                                                        : ", fermented on its own first");
        technique.data_row = row.id;
        technique.dose_low = mid / 2.0;
        technique.dose_mid = mid;
        technique.dose_high = 2.0 * mid;
        technique.caution =
            "from its label alone: its pectin, skins and aroma are not known; check the label for sorbate "
            "and sulphite; ferment open to an air lock until two equal gravities";
        technique.source = "its label";
        technique.mark = 'P';
        tables.techniques.push_back(technique);
        tables::Effect effect;
        effect.technique = technique.id;
        effect.way = way;
        effect.attribute = "fruit";
        effect.dose_mid = mid;
        effect.mean_total = effect.mean_beyond = 3.0;
        effect.sd_total = effect.sd_beyond = 2.0;
        effect.dose_form = tables::DoseForm::saturating;
        effect.half_dose = mid;
        effect.time_form = tables::TimeForm::first_order;
        effect.t90_days = 21.0;
        effect.source = "own choice: like soft fruit, widely";
        effects.push_back(effect);
        // By the acid balance alone.
        effect.attribute = "sourness";
        effect.dose_form = tables::DoseForm::linear;
        effect.half_dose = 0.0;
        effect.mean_total = 0.5;
        effect.sd_total = 1.0;
        effect.mean_beyond = -0.25;
        effect.sd_beyond = 0.5;
        effects.push_back(effect);
    }
    return {};
}

}  // namespace undercroft::app

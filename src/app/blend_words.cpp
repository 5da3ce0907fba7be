// Wishes and stocks of a blend, as they are typed.
#include <algorithm>
#include <sstream>

#include "app/blend_stocks.hpp"
#include "app/blending.hpp"
#include "app/bodies.hpp"
#include "base/letters.hpp"

namespace undercroft::app {
namespace {

namespace blend = engine::blend;

// How far one step off is of each figure (own choice: about what a taster or an instrument tells apart).
double step_of(const std::string& figure) {
    static const std::map<std::string, double> k_steps = {{blend::k_ph, 0.1}, {blend::k_undissociated, 5.0},
                                                          {"ta", 0.5},        {"alcohol", 0.5},
                                                          {"extract", 5.0},   {"gravity", 0.002},
                                                          {"ibu", 5.0},       {"colour", 5.0},
                                                          {"age", 0.5},       {"cost", 1.0}};
    const auto step = k_steps.find(figure);
    if (step != k_steps.end()) return step->second;
    return figure.starts_with("share of ") ? 10.0 : 1.0;  // per cent; points of taste
}

std::vector<std::string> words_in(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> words;
    for (std::string word; in >> word;) words.push_back(word);
    return words;
}

bool begins_a_range(const std::string& word) {
    return is_digit(word.front()) || word == "at" || word == "above" || word == "below";
}

auto no_wish(const std::string& text) {
    return fail(
        ErrorKind::bad_input, "want",
        "\"" + text.substr(0, 60) +
            "\" is no wish; say a figure and what it shall be: \"ph 3.4 to 3.5\", \"ta at most 7\", \"sour 6 weight "
            "2\", \"share of Spring wort at least 20 %\".");
}

Result<double> figure_of(const std::string& text, const std::string& word) {
    const auto value = parse_number("want", word, -100.0, 100'000.0);
    if (!value) return no_wish(text);
    return value->value();
}

// Units that say nothing new after a figure's number.
bool is_unit(const std::string& word) {
    static const std::vector<std::string> k_units = {"g/l",   "%",    "vol", "ebc", "ibu",    "ph",
                                                     "years", "year", "y",   "sg",  "mmol/l", "l"};
    return std::find(k_units.begin(), k_units.end(), lower(word)) != k_units.end();
}

std::string plain_figure(const std::string& words) {
    const std::string name = lower(words);
    if (name == "acidity" || name == "titratable acidity") return "ta";
    if (name == "mean age") return "age";
    if (name == "color") return "colour";
    if (name == "bitterness") return "ibu";
    return name.starts_with("share of ") ? "share of " + words.substr(9) : name;
}

}  // namespace

Result<blend::Wish> read_wish(const std::string& text, bool must, const tables::Tables& tables) {
    std::vector<std::string> words = words_in(text);
    blend::Wish wish;
    wish.must = must;
    if (words.size() >= 2 && lower(words[words.size() - 2]) == "weight") {
        TRY(wish.weight, figure_of(text, words.back()));
        words.resize(words.size() - 2);
    }
    const auto range = std::find_if(words.begin(), words.end(), begins_a_range);
    if (range == words.begin() || range == words.end()) return no_wish(text);
    std::string name;
    for (auto word = words.begin(); word != range; ++word) name += (name.empty() ? "" : " ") + *word;
    wish.figure = tables.attribute_id(plain_figure(name));
    wish.unit = step_of(wish.figure);
    std::vector<std::string> rest;
    std::copy_if(range, words.end(), std::back_inserter(rest), [](const std::string& word) { return !is_unit(word); });
    if (rest.empty()) return no_wish(text);
    const std::string first = lower(rest[0]);
    const bool at = first == "at" && rest.size() == 3;
    if ((at && lower(rest[1]) == "most") || (first == "below" && rest.size() == 2)) {
        TRY(wish.range.high, figure_of(text, rest.back()));
    } else if ((at && lower(rest[1]) == "least") || (first == "above" && rest.size() == 2)) {
        TRY(wish.range.low, figure_of(text, rest.back()));
    } else if (rest.size() == 3 && lower(rest[1]) == "to") {
        TRY(wish.range.low, figure_of(text, rest[0]));
        TRY(wish.range.high, figure_of(text, rest[2]));
    } else if (rest.size() == 1) {
        // One figure means about that: half a step to either side.
        TRY(const double about, figure_of(text, rest[0]));
        wish.range = {about - wish.unit / 2.0, about + wish.unit / 2.0};
    } else {
        return no_wish(text);
    }
    return wish;
}

Result<KnownStock> read_stock(const std::string& text, const tables::Tables& tables, Gallons gallons) {
    std::vector<std::string> parts;
    std::istringstream cut(text);
    for (std::string part; std::getline(cut, part, ',');) parts.push_back(trimmed(part));
    if (parts.size() < 2 || parts[0].empty())
        return fail(ErrorKind::bad_input, "stock",
                    "\"" + text.substr(0, 60) +
                        "\" is no stock; say its name, its volume, and what is known: \"Amber, 20 L, ph 3.3, ta 7\".");
    KnownStock known;
    blend::Stock& stock = known.stock;
    stock.name = parts[0];
    TRY(const Volume volume, parse_volume("stock", parts[1], gallons));
    stock.litres = volume.in_litres();
    Acidity acidity;
    for (std::size_t i = 2; i < parts.size(); ++i) {
        std::vector<std::string> words = words_in(parts[i]);
        while (words.size() > 2 && is_unit(words.back())) words.pop_back();
        if (words.size() < 2)
            return fail(
                ErrorKind::bad_input, "stock",
                "\"" + parts[i].substr(0, 40) + "\" says nothing of " + stock.name + "; say a word and a figure.");
        const std::string value = words.back();
        words.pop_back();
        std::string word;
        for (const std::string& one : words) word += (word.empty() ? "" : " ") + one;
        word = tables.attribute_id(plain_figure(word));
        if (word == "culture") {
            TRY(const tables::CultureKind* kind, tables.find_culture(value));
            stock.cultures.push_back(kind);
            continue;
        }
        if (word == "allergen") {
            stock.allergens.push_back(value);
            continue;
        }
        if (word == "og") {
            TRY(const Decimal original, gravity_as_sg("og", value));
            stock.original_gravity = original.value();
            continue;
        }
        if (word == "gravity") {
            TRY(const Decimal gravity, gravity_as_sg("gravity", value));
            stock.gravity = gravity.value();
            stock.figures["gravity"] = {gravity.value(), 0.0005};
            continue;
        }
        TRY(const Decimal number, parse_number(word, value, -10.0, 100'000.0));
        if (word == "ph") {
            acidity.ph = blend::Figure{number.value(), chem::k_ph_reading_sd};
        } else {
            stock.figures[word] = {number.value(), usual_sd(word, number.value())};
            if (word == "ta") acidity.ta = stock.figures[word];
        }
    }
    TRY_VOID(give_acids(stock, acidity));
    return known;
}

}  // namespace undercroft::app

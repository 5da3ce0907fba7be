// Whether an amount is noticed, beside published thresholds. Without a book.
#include <map>

#include "app/calc_read.hpp"
#include "base/letters.hpp"
#include "engine/taste/noticing.hpp"
#include "tables/threshold.hpp"

namespace undercroft::app {
namespace {

namespace taste = engine::taste;

constexpr const char* k_spread_source = "Meilgaard 1982, J. Agric. Food Chem. 30:1009; spread derived";

struct Amount {
    const tables::Threshold* row = nullptr;
    double mg_per_l = 0.0;
};

// "acetic acid, 0.7 g/L"
Result<Amount> amount_of(const std::string& text) {
    const auto comma = text.rfind(',');
    if (comma == std::string::npos || trimmed(text.substr(0, comma)).empty())
        return fail(
            ErrorKind::bad_input, "--of",
            "\"" + text.substr(0, 60) + "\" wants a compound, a comma, and how much: \"acetic acid, 0.7 g/L\".");
    Amount it;
    const auto row = tables::find_threshold(tables::shipped_thresholds(), trimmed(text.substr(0, comma)));
    if (!row) return fail(ErrorKind::bad_input, "--of", row.error().what, {}, row.error().next_step);
    it.row = *row;
    TRY(const Decimal grams, parse_grams_per_litre(it.row->name, trimmed(text.substr(comma + 1))));
    it.mg_per_l = 1000.0 * grams.value();
    return it;
}

std::string milligrams(double value) {
    return number_text(value, value >= 10.0 ? 0 : value >= 0.1 ? 2 : 6) + " mg/L";
}

const char* weight_words(taste::Weight weight) {
    switch (weight) {
        case taste::Weight::none:
            return "far below what is noticed";
        case taste::Weight::slight:
            return "in the background at most";
        case taste::Weight::second:
            return "at the edge: some notice it";
        case taste::Weight::main:
            return "a main note";
    }
    return "";
}

}  // namespace

engine::Term noticed_term(const tables::Threshold& row, double mg_per_l) {
    const taste::Noticed it = taste::noticed({{mg_per_l, row.low, row.high}});
    const std::string range = row.low == row.high ? milligrams(row.low)
                                                  : number_text(row.low, row.low >= 10.0  ? 0
                                                                         : row.low >= 0.1 ? 2
                                                                                          : 6) +
                                                        " to " + milligrams(row.high);
    return {row.name, it.units, "thresholds",
            std::string(weight_words(taste::weight_of(it.units))) + " (" + row.descriptor + "): about " +
                percent_text(it.share, 0) + " of tasters notice " + milligrams(mg_per_l) + "; for single tasters " +
                number_text(it.units_low, 1) + " to " + number_text(it.units_high, 1) + ". Noticed from " + range +
                " in " + row.matrix,
            std::string(1, row.mark) + ": " + row.source};
}

Result<CalcView> calc_threshold(const CalcRequest& request) {
    const std::vector<std::string> texts = request.all("--of");
    if (texts.empty()) return calc::wants("--of", "\"acetic acid, 0.7 g/L\"");
    CalcView view;
    std::map<std::string, std::vector<taste::AmountOver>> classes;
    std::string names;
    for (const std::string& text : texts) {
        TRY(const Amount one, amount_of(text));
        view.terms.push_back(noticed_term(*one.row, one.mg_per_l));
        classes[one.row->flavour].push_back({one.mg_per_l, one.row->low, one.row->high});
        names += (names.empty() ? "" : ", ") + one.row->name;
    }
    for (const auto& [flavour, parts] : classes) {
        if (parts.size() < 2) continue;
        const taste::Noticed it = taste::noticed(parts);
        view.terms.push_back({"all that is " + flavour, it.units, "thresholds",
                              std::string(weight_words(taste::weight_of(it.units))) + ": like adds to like; about " +
                                  percent_text(it.share, 0) + " of tasters notice it",
                              k_spread_source});
    }
    view.about = "is it noticed: " + names;
    view.ranges = {
        "thresholds of single compounds; the least sensitive tenth of tasters needs 20 times what the most "
        "sensitive tenth needs (Meilgaard 1982)"};
    view.left_out = {"what else in the glass covers or lifts it",
                     "a low pH, which makes volatile acids smell stronger"};
    view.cautions.push_back(
        {"threshold.no_verdict",
         "A threshold is no verdict: taste it. What is not smelt can still be unsafe, and the other way round."});
    return view;
}

}  // namespace undercroft::app

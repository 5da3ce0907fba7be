// Extraction of spice and wood, and bench trials to the batch. Without a book.
#include <algorithm>
#include <cctype>
#include <cmath>

#include "app/calc_read.hpp"
#include "app/finish.hpp"
#include "base/letters.hpp"
#include "engine/finish/extraction.hpp"
#include "engine/finish/trial.hpp"

namespace undercroft::app {
namespace {

namespace finish = engine::finish;

// "5 days, 2": the two halves of a pair.
Result<std::pair<std::string, std::string>> halves_of(const char* option, const std::string& text,
                                                      const char* example) {
    const auto comma = text.rfind(',');
    if (comma == std::string::npos)
        return fail(ErrorKind::bad_input, option,
                    "\"" + text.substr(0, 60) + "\" wants two figures with a comma between: " + example + ".");
    return std::pair{trimmed(text.substr(0, comma)), trimmed(text.substr(comma + 1))};
}

// Without the unit behind a number: "5 days".
std::string number_of(const std::string& text) {
    return trimmed(text.substr(0, text.find(' ')));
}

Result<double> millilitres(const CalcRequest& request, const char* option, double otherwise) {
    if (!request.has(option)) return otherwise;
    TRY(const double litres, calc::litres_of(option, request.one(option), request.gallons));
    constexpr double k_ml = 1000.0;
    return litres * k_ml;
}

// What a technique moves most, of the rows that come with time.
const tables::Effect* main_effect(const tables::Tables& tables, const tables::Technique& technique,
                                  const std::string& attribute) {
    const tables::Effect* found = nullptr;
    for (const tables::Effect& row : tables.effects) {
        if (row.technique != technique.id || row.way != technique.way) continue;
        if (row.time_form != tables::TimeForm::first_order) continue;
        if (!attribute.empty() && row.attribute != attribute) continue;
        if (found == nullptr || std::abs(row.mean_total) > std::abs(found->mean_total)) found = &row;
    }
    return found;
}

}  // namespace

Result<CalcView> calc_extraction(const CalcRequest& request) {
    if (request.words.empty())
        return fail(ErrorKind::bad_input, "what", "Which spice or wood? Say vanilla, oak cubes.");
    const auto technique_found = tables::find_technique(request.tables->techniques, joined(request.words, " "));
    if (!technique_found)
        return fail(ErrorKind::bad_input, "what", technique_found.error().what, technique_found.error().facts,
                    technique_found.error().next_step);
    const tables::Technique& technique = **technique_found;
    std::string attribute;
    if (request.has("--attribute")) {
        const auto row = request.tables->find_attribute(request.one("--attribute"));
        if (!row) return fail(ErrorKind::bad_input, "--attribute", row.error().what, {}, row.error().next_step);
        attribute = (*row)->id;
    }
    const tables::Effect* effect = main_effect(*request.tables, technique, attribute);
    if (effect == nullptr)
        return fail(ErrorKind::bad_input, "what",
                    technique.name + " moves nothing" + (attribute.empty() ? "" : " of " + attribute) +
                        " that comes over days.");
    double dose = technique.dose_mid;
    if (request.has("--dose")) {
        TRY(dose, read_finish_dose(request.one("--dose"), technique));
    }
    constexpr double k_beyond = 1.5;
    if (!(dose > 0.0 && dose <= k_beyond * technique.dose_high))
        return fail(ErrorKind::bad_input, "--dose",
                    finish::dose_text(technique, dose) + " is beyond every range of " + technique.name + "; it is " +
                        finish::dose_text(technique, technique.dose_low) + " to " +
                        finish::dose_text(technique, technique.dose_high) + ".");
    const double factor = finish::dose_factor(*effect, dose);
    const finish::Figure full{effect->mean_total * factor, effect->sd_total * std::max(factor, 1e-3)};
    double wanted = 0.0;
    if (request.has("--wanted")) {
        TRY(wanted, calc::number(request, "--wanted", 0.1, 10.0, 0.0));
    }
    std::vector<finish::TastedOnTheWay> tastings;
    for (const std::string& text : request.all("--tasted")) {
        TRY(const auto halves, halves_of("--tasted", text, "\"5 days, 2\""));
        TRY(const Decimal days, parse_number("days", number_of(halves.first), 0.0, 1000.0));
        TRY(const Decimal points, parse_number("points", number_of(halves.second), -10.0, 10.0));
        tastings.push_back({days.value(), points.value(), 0.7});
    }
    TRY(const finish::Extraction found, finish::extraction_of(full, effect->t90_days, tastings, wanted));
    CalcView view;
    view.about = technique.name + ", " + finish::dose_text(technique, dose) + ": " + effect->attribute + " over days";
    view.asked.push_back({"dose", dose, "g/L",
                          "of " + finish::dose_text(technique, technique.dose_low) + " to " +
                              finish::dose_text(technique, technique.dose_high),
                          std::string(1, technique.mark) + ": " + technique.source});
    const std::string source = std::string(1, effect->mark) + ": " + effect->source;
    view.terms.push_back({"all of it", found.full.mean, "points",
                          "± " + number_text(found.full.sd, 1) +
                              (tastings.empty() ? ", by the table" : ", with what was tasted on the way"),
                          source});
    view.terms.push_back({"nine tenths after", found.t90_days.mean, "days",
                          "± " + number_text(found.t90_days.sd, 1) + "; strength = full (1 - exp(-ln 10 t/t90))",
                          source});
    for (const double share : {1.0 / 3.0, 1.0, 2.0}) {
        const double days = share * found.t90_days.mean;
        view.terms.push_back({"after " + number_text(days, days < 10.0 ? 1 : 0) + " days",
                              found.full.mean * found.share_at(days), "points",
                              share < 1.0   ? "first taste: a third of the time to nine tenths"
                              : share < 1.5 ? "usually enough"
                                            : "latest day to lift it out",
                              source});
    }
    if (wanted > 0.0) {
        if (found.lift_days)
            view.terms.push_back({"lift it after", *found.lift_days, "days",
                                  number_text(wanted, 1) + " points are as likely there as not; taste daily from day " +
                                      number_text(found.lift_early_days.value_or(0.0), 1) + " (one in ten)",
                                  source});
        else
            view.cautions.push_back(
                {"extraction.never", "Most likely it never reaches " + number_text(wanted, 1) +
                                         " points at this dose: " + percent_text(found.chance_never, 0) +
                                         ". Add more once, by a bench trial."});
    }
    view.ranges = {"0 to 1.5 of the highest dose of the table", "12 to 20 °C: half the speed for 10 °C less"};
    view.left_out = {
        "that compounds of one wood or spice come at different speeds: no published single constant fits "
        "them all; tasting corrects"};
    view.cautions.push_back({"extraction.half_first",
                             "It cannot be taken back: half of it first, taste at a third of the "
                             "time, then add once."});
    if (const auto exposure = finish::exposure_of(technique, dose))
        view.cautions.push_back({"finish.one_glass", "All of it extracted, " + exposure->words + " (" +
                                                         exposure->source + "). Local rules come first."});
    if (!technique.caution.empty()) {
        std::string words = technique.caution;
        words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
        view.cautions.push_back({"finish." + technique.id, words + "."});
    }
    return view;
}

Result<CalcView> calc_trial(const CalcRequest& request) {
    CalcView view;
    view.about = "from a measured glass to the batch";
    view.ranges = {"an addition of at most a quarter of the glass"};
    view.left_out = {"that a tincture in spirit takes more out of a spice than beer does: half of it first",
                     "that the same dose tastes otherwise with gas and cold"};
    std::vector<finish::LikedDose> liked;
    for (const std::string& text : request.all("--liked")) {
        TRY(const auto halves, halves_of("--liked", text, "\"0.2 g/L, 7\""));
        TRY(const Decimal dose, parse_grams_per_litre("dose", halves.first));
        TRY(const Decimal liking, parse_number("liking", halves.second, 0.0, 10.0));
        liked.push_back({dose.value(), liking.value()});
    }
    if (!request.has("--added") && liked.empty()) return calc::wants("--added", "\"0.4 mL\"");
    if (request.has("--added")) {
        finish::GlassTrial trial;
        TRY(trial.glass_ml, millilitres(request, "--glass", 100.0));
        TRY(trial.added_ml, millilitres(request, "--added", 0.0));
        TRY(trial.pipette_sd_ml, millilitres(request, "--pipette", 0.02));
        TRY(trial.alcohol_percent, calc::number(request, "--alcohol", 0.0, 97.0, 0.0));
        if (!request.has("--strength")) return calc::wants("--strength", "\"50 g/L\"");
        TRY(trial.strength_g_per_l, calc::grams_per_litre(request, "--strength", 0.0));
        TRY(const double litres, calc::litres(request, "--volume"));
        TRY(const finish::Batch batch, finish::batch_of(trial, litres));
        constexpr const char* k_source = "derived: the ratio of the volumes; errors in quadrature";
        const auto spread = [](const finish::Figure& it, int places) { return "± " + number_text(it.sd, places); };
        view.terms.push_back(
            {"dose", batch.g_per_l.mean, "g/L",
             spread(batch.g_per_l, 3) + ", " + percent_text(batch.relative_sd, 0) + " by pipette and glass", k_source});
        view.terms.push_back({"for the portion", batch.grams.mean, "g", spread(batch.grams, 2), k_source});
        view.terms.push_back({"of the same", batch.ml.mean, "mL", spread(batch.ml, 1), k_source});
        if (trial.alcohol_percent > 0.0)
            view.terms.push_back({"alcohol", batch.alcohol_change, "% vol more", "of the tincture, at most", k_source});
        constexpr double k_rough = 0.1;
        if (batch.relative_sd > k_rough)
            view.cautions.push_back({"trial.rough",
                                     "So small a measure is off by more than a tenth: thin what you add "
                                     "tenfold, or fill a larger glass."});
    }
    if (!liked.empty()) {
        TRY(const finish::NextDose next, finish::next_dose(liked));
        view.terms.push_back({"next glass", next.g_per_l, "g/L", next.why, "own choice: the least-squares parabola"});
        if (next.enough)
            view.cautions.push_back({"trial.enough", "Another glass would hardly say more: take the best liked one."});
    }
    view.cautions.push_back({"trial.half_first",
                             "What cannot be taken back goes in by halves: half the dose, taste, the "
                             "rest. Strong acid burns: goggles and gloves."});
    return view;
}

}  // namespace undercroft::app

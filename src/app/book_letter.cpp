// Book's answer for the keeper's letter.
#include <algorithm>
#include <set>

#include "app/book_look.hpp"
#include "app/label.hpp"
#include "app/letter.hpp"
#include "app/shelf_views.hpp"

namespace undercroft::app {
namespace {

constexpr int k_whole_book = 1'000'000'000;
constexpr std::size_t k_parts_told = 6;
constexpr std::size_t k_due_told = 12;

std::vector<std::string> figures_of(const HoldingView& holding, VolumeUnit unit) {
    std::vector<std::string> lines;
    lines.push_back("holds " + text_of(holding.vessel->volume, unit) + " of " + text_of(holding.vessel->full, unit));
    if (const auto& age = holding.from_brew_day)
        lines.push_back("mean age " + duration_text(age->mean_years) + " from brew day, youngest part " +
                        duration_text(age->youngest_years) + (age->assumed ? ", in part assumed" : ""));
    for (const NamedEstimate& one : holding.estimates)
        lines.push_back(one.quantity + " " + number_text(one.estimate.mean, one.decimals) + " ± " +
                        number_text(one.estimate.sd, one.decimals) + " " + one.unit);
    return lines;
}

std::vector<std::string> make_up_of(const HoldingView& holding) {
    std::vector<std::string> lines;
    if (!holding.from_brew_day) return lines;
    const std::vector<engine::VintagePart>& parts = holding.from_brew_day->parts;
    double told = 0.0;
    for (std::size_t i = 0; i < std::min(parts.size(), k_parts_told); ++i) {
        told += parts[i].share;
        lines.push_back(percent_text(parts[i].share, parts[i].share < 0.1 ? 1 : 0) + " " + parts[i].name + ", " +
                        duration_text(parts[i].age_years));
    }
    if (parts.size() > k_parts_told)
        lines.push_back(percent_text(1.0 - told, 0) + " of " + std::to_string(parts.size() - k_parts_told) + " more");
    return lines;
}

std::vector<std::string> passport_of(const HoldingView& holding) {
    std::vector<std::string> lines;
    for (const CultureLine& culture : holding.cultures) {
        std::string line = culture.name + ": " + ledger::word(culture.certainty) + " since " + culture.since;
        if (!culture.came_from.empty() && culture.came_from != holding.vessel->name)
            line += ", from " + culture.came_from;
        if (!culture.through.empty()) line += ", through " + culture.through;
        if (culture.killer == ledger::KillerPhenotype::killer)
            line += std::string("; killer ") + ledger::word(culture.toxin);
        if (culture.diastatic == ledger::Diastatic::yes) line += "; diastatic";
        if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(std::move(line));
    }
    return lines;
}

bool in_year(const std::string& day, int year) {
    return day.substr(0, 4) == std::to_string(year);
}

void tell_bottles(LetterView& letter, const CellarView& cellar) {
    for (const RunSummary& run : cellar.runs) {
        if (run.left == 0 && !in_year(run.packaged, letter.year)) continue;
        letter.bottles.push_back(run.run + ", " + run.source + ", packaged " + run.packaged + ": " +
                                 std::to_string(run.left) + " of " + std::to_string(run.count) + " left" +
                                 (run.location.empty() ? "" : ", " + run.location));
    }
}

void tell_learned(LetterView& letter, const ShelfView& shelf) {
    for (const ShelfTrend& trend : shelf.trends) letter.learned.push_back(trend.of + ": " + trend.words);
    for (const ShelfPlace& place : shelf.places)
        for (const ShelfRun& run : place.runs)
            for (const ShelfTasting& tasting : run.opened)
                if (in_year(tasting.day, letter.year) && (tasting.liking || !tasting.words.empty()))
                    letter.learned.push_back(run.run.run + ", opened " + tasting.day + ", " +
                                             duration_text(tasting.years) + " in the bottle" +
                                             (tasting.liking ? ": liking " + number_text(*tasting.liking, 1) : "") +
                                             (tasting.words.empty() ? "" : "; " + tasting.words));
}

std::string counted(std::size_t count, const char* one, const char* many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

// The year by its entries, each told once.
void tell_year(LetterView& letter) {
    std::set<std::string> seen;
    std::size_t pulls = 0;
    std::size_t lots = 0;
    std::size_t runs = 0;
    std::size_t tastings = 0;
    for (const LetterVessel& vessel : letter.vessels)
        for (const EntryLine& entry : vessel.story) {
            if (!seen.insert(entry.key).second) continue;
            pulls += entry.kind == "move" && entry.text.starts_with("pulls ") ? 1U : 0U;
            lots += entry.kind == "lot" ? 1U : 0U;
            runs += entry.kind == "package" ? 1U : 0U;
            tastings += entry.kind == "tasting" ? 1U : 0U;
        }
    letter.words = counted(seen.size(), "entry", "entries") + " in " +
                   counted(letter.vessels.size(), "vessel", "vessels") + ": " + counted(pulls, "pull", "pulls") + ", " +
                   counted(lots, "lot", "lots") + " came in, " + counted(runs, "run", "runs") + " packaged, " +
                   counted(tastings, "tasting", "tastings") + ".";
}

}  // namespace

Result<LetterView> Book::letter(int year) {
    TRY(const AboutView told, about());
    const int this_year = std::stoi(told.today.substr(0, 4));
    if (year > this_year || year < 1800)
        return fail(ErrorKind::bad_input, "year",
                    std::to_string(year) + " is no year that a letter can be about; it is " +
                        std::to_string(this_year) + " now.");
    Moment moment;
    if (year < this_year) moment.on = std::to_string(year) + "-12-31";
    LetterView letter;
    letter.book = told.book;
    letter.year = year;
    letter.on = moment.on.empty() ? told.today : moment.on;
    TRY(const CellarView cellar, this->cellar(moment));
    const VolumeUnit unit = told.book.unit;
    for (const VesselSummary& vessel : cellar.vessels) {
        const std::string name = "#" + std::to_string(vessel.number);
        TRY(const EntriesView entries, this->entries({.subject = name, .most = k_whole_book}));
        LetterVessel one;
        for (const EntryLine& entry : entries.entries)
            if (entry.live && in_year(entry.day, year)) one.story.push_back(entry);
        std::reverse(one.story.begin(), one.story.end());
        if (one.story.empty() && vessel.volume == Volume{}) continue;
        TRY(const HoldingView holding, show(name, moment));
        one.name = vessel.name;
        one.about = described(vessel, unit);
        one.strata = strata_of(holding.from_brew_day);
        one.now = figures_of(holding, unit);
        one.made = make_up_of(holding);
        one.lives = passport_of(holding);
        letter.vessels.push_back(std::move(one));
    }
    tell_year(letter);
    tell_bottles(letter, cellar);
    TRY(const ShelfView shelf, this->shelf(moment));
    tell_learned(letter, shelf);
    if (moment.on.empty()) {
        for (const FindingView& finding : cellar.findings) letter.open.push_back(finding.words);
        TRY(const DueView next, due("60 days"));
        for (std::size_t i = 0; i < std::min(next.lines.size(), k_due_told); ++i)
            letter.open.push_back(next.lines[i].subject + ": " + next.lines[i].title + ", " + next.lines[i].day + "; " +
                                  next.lines[i].why);
    }
    letter.cautions = {{"letter.gas",
                        "Bottles under gas can burst. One that is in doubt is not touched warm: face shield and "
                        "gloves, chill it to 2 °C "
                        "for a day in a closed box, then open or dump it outdoors."},
                       {"letter.room", "CO2 gathers low in closed rooms: air the cellar before you work in it."},
                       {"letter.names",
                        "This letter and its pages hold all that the book does, names of people too: keep it as you "
                        "keep the book."}};
    return letter;
}

}  // namespace undercroft::app

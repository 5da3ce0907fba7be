// Runs of bottles, and what becomes of them.
#include <algorithm>
#include <set>

#include "app/bodies.hpp"
#include "app/names.hpp"
#include "chem/sugar.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// "AMB-26-1": letters of the vessel, year, and the first number that is free.
std::string new_run_code(const Chains& chains, const std::string& vessel, Day day) {
    std::string letters;
    std::string name = vessel;
    if (name.starts_with("The ")) name = name.substr(4);
    for (const char c : name) {
        if (c >= 'a' && c <= 'z') letters += static_cast<char>(c - 'a' + 'A');
        if ((c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')) letters += c;
        if (letters.size() == 5) break;
    }
    if (letters.empty()) letters = "RUN";
    const std::string year = std::to_string(static_cast<int>(day.year()) % 100 + 100).substr(1);
    // A run that was booked for a later day has its code already.
    std::set<std::string> taken;
    for (int number = 0; number < static_cast<int>(chains.size()); ++number)
        if (const auto* run = std::get_if<Package>(&chains.entry(number).body)) taken.insert(run->run);
    for (int number = 1;; ++number) {
        const std::string code = letters + "-" + year + "-" + std::to_string(number);
        if (!taken.contains(code)) return code;
    }
}

bool is_keg(const tables::ContainerKind& kind) {
    return kind.id.starts_with("keg") || kind.id.starts_with("mini_keg") || kind.id.starts_with("cask") ||
           kind.id.starts_with("pressure_barrel");
}

// "5 g/L" of the beer, or "90 g" for the run.
Result<Mass> priming_from(const std::string& text, Volume filled) {
    if (text.empty()) return Mass{};
    if (text.find("/L") != std::string::npos || text.find("/l") != std::string::npos) {
        TRY(const Decimal rate, parse_grams_per_litre("priming", text));
        if (rate.value() < 0 || rate.value() > 30)
            return fail(ErrorKind::bad_input, "priming",
                        text + " is outside 0 to 30 g/L: about 4 g/L of sugar make one volume of gas.");
        return Mass::from_grams(rate.value() * filled.in_litres());
    }
    TRY(const Mass mass, parse_mass("priming", text));
    if (mass < Mass{} || mass.in_grams() > 30 * filled.in_litres())
        return fail(ErrorKind::bad_input, "priming",
                    text + " is outside 0 to 30 g/L of the run: about 4 g/L of sugar make one volume of gas.");
    return mass;
}

}  // namespace

Result<Package> body_of(const PackageRun& act, Here& here) {
    Package body;
    TRY(const int from, find_vessel(here.cellar, "from", act.from));
    const VesselState& source = here.cellar.vessels[at_index(from)];
    body.from = source.key;
    if (source.liquid.volume == Volume{})
        return fail(ErrorKind::impossible, source.as.name, source.as.name + " is empty.");
    TRY(const tables::ContainerKind* kind, here.tables.find_container(act.container));
    if (is_keg(*kind))
        return fail(
            ErrorKind::bad_input, "container",
            kind->name + " is a vessel, not a run of bottles: register it (vessel … --role serving) and rack into it.");
    body.container = kind->id;
    body.container_name = kind->name;
    if (act.fill.empty()) {
        body.fill = Volume::from_litres(kind->volume_ml / 1000.0);
    } else {
        TRY(body.fill, positive_volume("fill", act.fill, here.gallons));
    }
    const double inside = kind->volume_ml / 1000.0 / (1.0 - kind->head_space_percent / 100.0);
    if (body.fill.in_litres() > inside)
        return fail(ErrorKind::bad_input, "fill",
                    text_of(body.fill, here.unit) + " does not go into " + kind->name + ", which holds " +
                        text_of(Volume::from_litres(inside), here.unit) + " brimful.");
    if (act.head_space.empty()) {
        body.head_space = Decimal::from_double(1.0 - body.fill.in_litres() / inside, 4);
    } else {
        TRY(const double share, parse_share("head-space", act.head_space));
        body.head_space = Decimal::from_double(share, 4);
    }
    if (!act.loss.empty()) {
        TRY(body.loss, parse_volume("loss", act.loss, here.gallons));
        if (body.loss < Volume{}) return fail(ErrorKind::bad_input, "loss", act.loss + " is below zero.");
    }
    const Volume available = source.liquid.volume - body.loss;
    const auto beer_in = [&](int count) -> Result<Volume> {
        TRY(body.priming_sugar, priming_from(act.priming, body.fill * count));
        body.priming_volume = Volume::from_litres(body.priming_sugar.in_grams() * chem::k_litres_per_gram_sugar);
        return body.fill * count - body.priming_volume;
    };
    if (act.count == "all") {
        body.count = static_cast<int>(std::min<std::int64_t>(available.ul() / body.fill.ul(), 100000));
        if (body.count <= 0)
            return fail(ErrorKind::impossible, source.as.name,
                        source.as.name + " does not fill one " + kind->name + ".",
                        {{"to fill one", text_of(body.fill, here.unit)}, {"there is", text_of(available, here.unit)}});
        // The priming takes room too, so one more may fit.
        TRY(const Volume for_one_more, beer_in(body.count + 1));
        if (for_one_more <= available) ++body.count;
        TRY(const Volume drawn, beer_in(body.count));
        if (const Volume remainder = available - drawn; remainder > Volume{})
            here.remarks.push_back(text_of(remainder, here.unit) + " stays in " + source.as.name +
                                   ": too little for another.");
    } else {
        if (act.count.empty()) return fail(ErrorKind::bad_input, "count", "How many? Write a number, or \"all\".");
        TRY(body.count, parse_count("count", act.count, 1, 100000));
    }
    TRY_VOID(beer_in(body.count));
    body.purged = act.purged;
    body.run = act.run.empty() ? new_run_code(here.chains, source.as.name, day_of(here.at, here.zone)) : act.run;
    body.location = act.location;
    TRY(body.gear, gear_from(act.gear, here));
    return body;
}

Result<Take> body_of(const TakeBottles& act, Here& here) {
    Take body;
    TRY(const int run, find_run(here.cellar, "run", act.run));
    body.run = here.cellar.runs[at_index(run)].key;
    if (act.count == "all") {
        body.count = here.cellar.runs[at_index(run)].left;
        if (body.count == 0) return fail(ErrorKind::impossible, act.run, act.run + " has none left.");
    } else {
        TRY(body.count, parse_count("count", act.count.empty() ? "1" : act.count, 1, 100000));
    }
    TRY(body.cause, one_word<TakeCause>("cause", act.cause.empty() ? "opened" : act.cause,
                                        "opened, given, sold, broken, returned"));
    body.person = here.people.commitment_of(act.person);
    if (body.cause == TakeCause::returned) {
        if (act.vessel.empty())
            return fail(ErrorKind::bad_input, "into", "Returned into which vessel? Write --into VESSEL.");
        TRY(const int vessel, find_vessel(here.cellar, "into", act.vessel));
        body.vessel = here.cellar.vessels[at_index(vessel)].key;
    } else if (!act.vessel.empty()) {
        return fail(ErrorKind::bad_input, "into", "Only bottles that are returned go into a vessel; say \"returned\".");
    }
    body.words = act.words;
    if (body.cause == TakeCause::broken)
        here.cautions.push_back(
            {"gas.burst",
             "If one burst by itself, do not touch the others warm: face shield and gloves, chill them to 2 °C for a "
             "day in a "
             "closed box, then open or dump them outdoors. Trace the run and tell whoever has bottles of it."});
    if (body.cause == TakeCause::given || body.cause == TakeCause::sold)
        here.cautions.push_back(
            {"gas.away",
             "Bottles that leave may stand at 45 to 50 °C in a car or the post: say so, and hand over the label."});
    return body;
}

}  // namespace undercroft::app

// Old soleras: what a keeper remembers becomes lots, and what is found later narrows them.
#include <algorithm>
#include <cmath>

#include "app/ages.hpp"
#include "app/bodies.hpp"
#include "app/book.hpp"
#include "app/names.hpp"
#include "engine/age/remembered.hpp"
#include "units/duration.hpp"

namespace undercroft::app {
namespace {

using engine::YearsAgo;

constexpr const char* k_model = "geometric lots (docs/models/age.md)";

YearsAgo years_ago(const DayRange& range, Day today) {
    return {std::max(0.0, days_between(range.to, today) / k_days_per_year),
            days_between(range.from, today) / k_days_per_year};
}

std::string day_ago(double years, Day today) {
    return iso_text(add_days(today, -static_cast<int>(std::lround(years * k_days_per_year))));
}

std::string range_text(const YearsAgo& brewed, Day today) {
    const std::string from = day_ago(brewed.most, today);
    const std::string to = day_ago(brewed.least, today);
    return from == to ? from : from + ".." + to;
}

std::string name_of(const engine::RememberedLot& lot) {
    if (lot.from_refill == 0) return "Remembered first fill";
    std::string name = "Remembered refill " + std::to_string(lot.from_refill);
    if (lot.to_refill > lot.from_refill)
        name = "Remembered refills " + std::to_string(lot.from_refill) + " to " + std::to_string(lot.to_refill);
    return name + " back" + (lot.first_fill ? ", and the first fill" : "");
}

// What stands in the place of an entry keeps everything but volume and days.
EnterLot said_again(const ledger::LotEnters& old, const std::string& vessel) {
    const auto text = [](const std::optional<Decimal>& value) { return value ? value->text() : std::string{}; };
    EnterLot act;
    act.vessel = vessel;
    act.name = old.name;
    act.kind = ledger::word(old.kind);
    act.reason = old.reason;
    act.age_assumed = true;
    act.original_gravity = text(old.original_gravity);
    act.gravity = text(old.gravity);
    act.alcohol = text(old.alcohol);
    act.ibu = text(old.ibu);
    act.colour = text(old.colour_ebc);
    act.ph = text(old.ph);
    if (old.ta_g_per_litre) act.ta = old.ta_g_per_litre->text() + " g/L";
    for (const ledger::Allergen& allergen : old.allergens)
        act.allergens.push_back(allergen.mg_per_litre ? allergen.group + " " + allergen.mg_per_litre->text() + " mg/L"
                                                      : allergen.group);
    if (act.allergens.empty()) act.allergens.emplace_back("none");
    for (const ledger::Culture& culture : old.cultures) act.cultures.push_back(culture.name);
    return act;
}

struct Memory {
    engine::SoleraMemory answers;
    Volume held;
};

Result<Memory> memory_from(const RememberRequest& request, Volume full, Day today, Gallons gallons) {
    Memory memory;
    memory.held = full;
    if (!request.holds.empty()) {
        TRY(memory.held, positive_volume("holds", request.holds, gallons));
    }
    if (request.founded.empty())
        return fail(ErrorKind::bad_input, "founded", "Founded about when? Write --founded 2014, or 2012..2015.");
    TRY(const DayRange founded, parse_day_range("founded", request.founded, today));
    if (founded.from > today) return fail(ErrorKind::bad_input, "founded", request.founded + " is not in the past.");
    memory.answers.founded = years_ago({founded.from, std::min(founded.to, today)}, today);
    if (request.every.empty())
        return fail(ErrorKind::bad_input, "every", "How often was it refilled? Write --every 8 months.");
    TRY(const Duration interval, parse_duration("every", request.every));
    memory.answers.interval_years = interval.in_years();
    if (request.share.empty() && request.refill.empty())
        return fail(ErrorKind::bad_input, "share",
                    "How much was pulled? Write the usual --share \"a third\", or the usual --refill 20 L.");
    if (!request.share.empty()) {
        TRY(memory.answers.share, parse_share("share", request.share));
    }
    if (!request.refill.empty()) {
        TRY(const Volume refill, positive_volume("refill", request.refill, gallons));
        const double of_held = refill.in_litres() / memory.held.in_litres();
        if (request.share.empty()) memory.answers.share = of_held;
        if (std::fabs(of_held - memory.answers.share) > 2.0 * engine::k_memory_slack * memory.answers.share)
            return fail(
                ErrorKind::impossible, "refill",
                "The usual share and the usual refill do not go together: " + text_of(refill) + " is " +
                    percent_text(of_held, 0) + " of " + text_of(memory.held) + ", not " +
                    percent_text(memory.answers.share, 0) + ".",
                {{"that share would be", text_of(Volume::from_litres(memory.answers.share * memory.held.in_litres()))}},
                "Leave out the one you trust less.");
    }
    if (!request.last_refill.empty()) {
        TRY(const DayRange last, parse_day_range("last-refill", request.last_refill, today));
        memory.answers.last_refill = years_ago({last.from, std::min(last.to, today)}, today);
    }
    if (!request.original.empty()) {
        TRY(memory.answers.original_share, parse_share("original", request.original));
    }
    return memory;
}

// "2019 = half": the brew's days, and its share.
struct Known {
    DayRange brewed;
    double share = 0.0;
};
Result<Known> known_from(const std::string& text, Day today) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos)
        return fail(ErrorKind::bad_input, "known",
                    "\"" + text + "\" wants a brew and its share, such as --known \"2019=half\" --seen 2021-06-01.");
    Known known;
    TRY(known.brewed, parse_day_range("known", text.substr(0, equals), today));
    TRY(known.share, parse_share("known", text.substr(equals + 1)));
    return known;
}

}  // namespace

Result<RememberView> Book::remember(const RememberRequest& request) {
    TRY_VOID(load());
    Instant now;
    TRY(const auto standing, standing_at({}, now));
    const ledger::Cellar& cellar = standing->cellar;
    TRY(const int index, find_vessel(cellar, "vessel", request.vessel));
    const ledger::VesselState& vessel = cellar.vessels[at_index(index)];
    RememberView view;
    view.vessel = vessel.as.name;
    SittingRequest sitting;
    sitting.when = request.when;
    sitting.by = request.by;
    Day day = today();
    if (!request.when.empty()) {
        TRY(const DayAndTime when, parse_day_and_time("when", request.when, day));
        day = when.day;
    }
    const auto term = [&](std::string name, double value, std::string unit, std::string how) {
        view.terms.push_back({std::move(name), value, std::move(unit), std::move(how), k_model});
    };

    if (request.known.empty()) {
        TRY(const Memory memory, memory_from(request, vessel.full(), day, gallons()));
        if (memory.held > vessel.as.capacity)
            return fail(ErrorKind::impossible, "holds",
                        vessel.as.name + " holds no more than " + text_of(vessel.as.capacity) + ".");
        if (vessel.liquid.volume > Volume{})
            return fail(ErrorKind::impossible, vessel.as.name,
                        vessel.as.name + " holds " + text_of(vessel.liquid.volume) + " by the book already.", {},
                        "Void the lot that stands for the old beer, or narrow what was remembered with --known.");
        TRY(const engine::RememberedSolera past, engine::remembered_solera(memory.answers));
        term("share pulled at a turn", 100.0 * past.share, "%",
             memory.answers.original_share ? "fitted to what is left of the first fill" : "as answered");
        term("refills since it was founded", past.refills, "",
             std::to_string(past.least_refills) + " to " + std::to_string(past.most_refills) +
                 " by what is uncertain in the answers");
        term("left of the first fill", 100.0 * past.original_share, "%", "(1 - share) to the number of refills");
        term("mean age from brew day", past.mean_years, "years", "sum of share x middle of each lot's range");
        std::vector<double> shares;
        for (const engine::RememberedLot& lot : past.lots) shares.push_back(lot.share);
        const std::vector<Volume> volumes = engine::shared_out(memory.held, shares);
        for (std::size_t i = past.lots.size(); i-- > 0;) {  // oldest first, as it was filled
            if (volumes[i] <= Volume{}) continue;
            EnterLot act;
            act.vessel = vessel.as.name;
            act.name = name_of(past.lots[i]);
            act.volume = exact_text_of(volumes[i]);
            act.brewed = range_text(past.lots[i].brewed, day);
            act.age_assumed = true;
            act.original_gravity = request.original_gravity;
            act.gravity = request.gravity;
            act.alcohol = request.alcohol;
            act.ibu = request.ibu;
            act.colour = request.colour;
            act.ph = request.ph;
            act.ta = request.ta;
            view.lots.push_back({act.name, volumes[i], past.lots[i].share, day_ago(past.lots[i].brewed.most, day),
                                 day_ago(past.lots[i].brewed.least, day), ""});
            sitting.acts.emplace_back(std::move(act));
        }
    } else {
        TRY(const Known known, known_from(request.known, today()));
        if (request.seen.empty())
            return fail(ErrorKind::bad_input, "seen",
                        "When was it still so much? Write --seen with a day, such as --seen 2021-06-01.");
        TRY(const Day seen, parse_day("seen", request.seen, today()));
        if (known.brewed.from > seen)
            return fail(ErrorKind::impossible, "known",
                        "A brew of " + iso_text(known.brewed.from) + " was not in it on " + iso_text(seen) + ".");
        // The lots remembered of this vessel, as they count now, counted back from the day they were entered for.
        std::vector<const ledger::Entry*> entries;
        std::vector<engine::DatedVolume> lots;
        for (const ledger::Entry* entry : cellar.entries) {
            const auto* lot = std::get_if<ledger::LotEnters>(&entry->body);
            if (lot == nullptr || !lot->age_assumed || !lot->brewed_from || !lot->brewed_to ||
                cellar.vessel_of(lot->vessel) != index)
                continue;
            if (entries.empty()) day = day_of(entry->at(), m_zone);
            entries.push_back(entry);
            lots.push_back({years_ago({*lot->brewed_from, *lot->brewed_to}, day), lot->volume});
        }
        if (entries.empty())
            return fail(ErrorKind::not_found, "known", "No beer of " + vessel.as.name + " is remembered in this book.",
                        {}, "Remember it first: --founded, --share and --every.");
        if (seen > day)
            return fail(ErrorKind::impossible, "seen",
                        iso_text(seen) + " is after " + iso_text(day) + ", the day it was remembered on.");
        const DayRange brewed{known.brewed.from, std::min(known.brewed.to, seen)};
        const engine::Find find{years_ago(brewed, day), days_between(seen, day) / k_days_per_year, known.share};
        TRY(const engine::NarrowedLots found, engine::narrowed(lots, find));
        Volume total = found.rest ? found.rest->volume : Volume{};
        for (const engine::DatedVolume& lot : found.lots) total += lot.volume;
        const auto share_of = [&](Volume part) { return part.in_litres() / total.in_litres(); };
        const std::string reason = "found: " + request.known + " on " + iso_text(seen);
        std::vector<Act> shrinking;
        std::vector<Act> growing;
        for (std::size_t i = 0; i < lots.size(); ++i) {
            const auto& old = std::get<ledger::LotEnters>(entries[i]->body);
            const Volume now_holds = found.lots[i].volume;
            RememberedLine line{old.name,
                                now_holds,
                                share_of(now_holds),
                                iso_text(*old.brewed_from),
                                iso_text(*old.brewed_to),
                                now_holds == old.volume ? std::string{} : text_of(old.volume, this->line().unit)};
            if (i == found.found) {
                line.was = text_of(old.volume, this->line().unit) + " of " + old.name;
                line.name = "Brew of " + request.known.substr(0, request.known.find_first_of(" ="));
                line.from = iso_text(brewed.from);
                line.to = iso_text(brewed.to);
            }
            view.lots.push_back(line);
            if (now_holds == old.volume && i != found.found) continue;
            const std::string number = "#" + std::to_string(entries[i]->sequence);
            if (now_holds <= Volume{}) {
                shrinking.emplace_back(VoidEntry{number, reason});
                continue;
            }
            EnterLot act = said_again(old, vessel.as.name);
            act.name = line.name;
            act.volume = exact_text_of(now_holds);
            act.brewed = line.from + ".." + line.to;
            (now_holds < old.volume ? shrinking : growing)
                .emplace_back(Correct{number, reason, std::make_shared<const Act>(std::move(act))});
        }
        if (found.rest) {
            const auto& old = std::get<ledger::LotEnters>(entries[found.found]->body);
            EnterLot act = said_again(old, vessel.as.name);
            act.volume = exact_text_of(found.rest->volume);
            act.brewed = iso_text(*old.brewed_from) + ".." + iso_text(*old.brewed_to);
            view.lots.push_back({act.name, found.rest->volume, share_of(found.rest->volume), iso_text(*old.brewed_from),
                                 iso_text(*old.brewed_to), ""});
            growing.emplace_back(std::move(act));
            // A new lot has to stand where the old ones stand; so do the others then.
            sitting.after = "#" + std::to_string(entries.back()->sequence);
        }
        // What gets smaller first, so that the vessel never holds too much in between.
        sitting.acts = std::move(shrinking);
        sitting.acts.insert(sitting.acts.end(), growing.begin(), growing.end());
        term("share of the find, of what is remembered", 100.0 * share_of(found.lots[found.found].volume), "%",
             percent_text(known.share, 0) + " of what was in it on " + iso_text(seen) + ", less what was pulled since");
    }
    view.drafted = sitting;
    TRY(view.sitting, request.keep ? book(sitting) : preview(sitting));
    view.book = line();
    return view;
}

}  // namespace undercroft::app

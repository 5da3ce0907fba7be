// Vessels, lots, moves and losses.
#include <algorithm>
#include <cmath>

#include "app/bodies.hpp"
#include "app/names.hpp"
#include "chem/extract.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// Above it expect culture lag (common practice, no source).
constexpr double k_largest_pull = 0.5;

bool is_all_text(const std::string& text) {
    return text == "all" || text == "rest" || text == "the rest" || text == "everything";
}

bool is_share_text(const std::string& text) {
    return text.find('/') != std::string::npos || text.find('%') != std::string::npos ||
           text.find("third") != std::string::npos || text.find("quarter") != std::string::npos ||
           text.find("half") != std::string::npos;
}

// Room to "full" in a vessel: capacity less ullage, less its fruit, less what it holds.
Volume gap_to_full(const Here& here, int vessel) {
    const VesselState& state = here.cellar.vessels[at_index(vessel)];
    Volume gap = state.full() - state.liquid.volume;
    for (const int index : state.additions_inside) gap -= here.cellar.additions[at_index(index)].as.solids;
    return gap;
}

// Filling "to full": more than the book's gap means that so much had evaporated, less that so much was found.
Result<FullSettlement> settle_to_full(Here& here, int vessel, Volume& amount, bool amount_given) {
    const VesselState& state = here.cellar.vessels[at_index(vessel)];
    const Volume gap = gap_to_full(here, vessel);
    if (!amount_given) {
        if (gap <= Volume{})
            return fail(
                ErrorKind::impossible, state.as.name, state.as.name + " is full by the book.",
                {{"holds", text_of(state.liquid.volume, here.unit)}, {"full at", text_of(state.full(), here.unit)}},
                "Say how much went in; what the book had too much is then booked as evaporated.");
        amount = gap;
        return FullSettlement{};
    }
    FullSettlement settlement;
    if (amount > gap) {
        settlement.evaporation = amount - gap;
        if (settlement.evaporation > state.liquid.volume)
            return fail(ErrorKind::impossible, state.as.name,
                        "That is more than " + state.as.name + " takes, empty as it may have been.",
                        {{"poured in", text_of(amount, here.unit)}, {"full at", text_of(state.full(), here.unit)}});
        here.remarks.push_back(text_of(settlement.evaporation, here.unit) + " had evaporated from " + state.as.name +
                               " unseen: booked with this filling.");
    } else if (amount < gap) {
        settlement.found = gap - amount;
        here.remarks.push_back(text_of(settlement.found, here.unit) + " more was in " + state.as.name +
                               " than the book knew: booked as found with this filling.");
    }
    return settlement;
}

constexpr const char* k_gluten = "gluten";  // data/allergens.csv

// Beer is made of grain: milk that is named comes beside its gluten, never instead of it. Only who says so has none.
Result<std::vector<Allergen>> lot_allergens_from(std::vector<std::string> texts, LotKind kind, const Here& here) {
    const bool none = texts == std::vector<std::string>{"none"};
    const bool without_gluten = std::erase(texts, "no gluten") > 0;
    TRY(std::vector<Allergen> allergens, allergens_from(texts, here));
    const bool named = std::any_of(allergens.begin(), allergens.end(),
                                   [](const Allergen& allergen) { return allergen.group == k_gluten; });
    if (named && without_gluten)
        return fail(ErrorKind::bad_input, "allergen", "\"no gluten\" beside gluten: say one or the other.");
    if (kind == LotKind::beer && !none && !without_gluten && !named)
        allergens.insert(allergens.begin(), Allergen{k_gluten, std::nullopt});
    return allergens;
}

}  // namespace

Result<Volume> positive_volume(std::string_view field, const std::string& text, Gallons gallons) {
    TRY(const Volume volume, parse_volume(field, text, gallons));
    if (volume <= Volume{})
        return fail(ErrorKind::bad_input, std::string(field),
                    text + " is not above zero. Write how much there is, such as 18 L.");
    return volume;
}

Result<Volume> volume_from(std::string_view field, const std::string& text, Volume held, Volume rest, Gallons gallons) {
    if (is_all_text(text)) {
        if (rest <= Volume{})
            return fail(ErrorKind::impossible, std::string(field), "Nothing is left to take \"" + text + "\" of.");
        return rest;
    }
    if (is_share_text(text)) {
        const auto share = parse_share(field, text);
        // "1/2 gal" looks like a share and is a volume.
        if (!share) {
            const auto volume = parse_volume(field, text, gallons);
            return volume ? positive_volume(field, text, gallons) : tl::unexpected(share.error());
        }
        // Rounded down, so that three thirds of a vessel are never more than all of it.
        constexpr double k_rounding_ul = 1e-3;
        return Volume::from_ul(
            static_cast<std::int64_t>(std::floor(static_cast<double>(held.ul()) * *share + k_rounding_ul)));
    }
    return positive_volume(field, text, gallons);
}

Result<Decimal> gravity_as_sg(std::string_view field, const std::string& text) {
    TRY(const GravityText written, parse_gravity(field, text));
    if (written.unit == "SG") return written.value;
    return Decimal::from_double(chem::gravity_of_plato(written.value.value()), 4);
}

Result<VesselJoins> body_of(const RegisterVessel& act, Here& here) {
    VesselJoins body;
    if (act.name.empty()) return fail(ErrorKind::bad_input, "name", "A vessel needs a name.");
    if (act.name.front() == '#' || act.name == "last" || act.name == "all")
        return fail(ErrorKind::bad_input, "name",
                    "\"" + act.name + "\" would be taken for something else. Choose a name such as \"Jar 12\".");
    body.name = act.name;
    body.tag = act.tag;
    if (act.capacity.empty())
        return fail(ErrorKind::bad_input, "capacity", "A vessel needs its brimful capacity, such as --capacity 60 L.");
    TRY(body.capacity, positive_volume("capacity", act.capacity, here.gallons));
    if (!act.ullage.empty()) {
        TRY(body.ullage, parse_volume("ullage", act.ullage, here.gallons));
        if (body.ullage < Volume{} || body.ullage >= body.capacity)
            return fail(
                ErrorKind::bad_input, "ullage",
                act.ullage + " is not between nothing and the capacity of " + text_of(body.capacity, here.unit) + ".");
    }
    TRY(body.role,
        one_word<VesselRole>("role", act.role.empty() ? "finishing" : act.role, "solera, finishing, serving"));
    body.material = act.material;
    body.location = act.location;
    TRY(body.gauge, gauge_from(act, body, here.gallons));
    return body;
}

Result<VesselLeaves> body_of(const RetireVessel& act, Here& here) {
    TRY(const int vessel, find_vessel(here.cellar, "vessel", act.vessel));
    return VesselLeaves{here.cellar.vessels[at_index(vessel)].key};
}

Result<LotEnters> body_of(const EnterLot& act, Here& here) {
    LotEnters body;
    TRY(const int vessel, find_vessel(here.cellar, "into", act.vessel));
    body.vessel = here.cellar.vessels[at_index(vessel)].key;
    if (act.name.empty()) return fail(ErrorKind::bad_input, "name", "A lot needs a name, such as \"Spring wort\".");
    body.name = act.name;
    TRY(body.kind,
        one_word<LotKind>("kind", act.kind.empty() ? "beer" : act.kind, "beer, fruit, water, syrup, spirit, unknown"));
    body.reason = act.reason;
    if (act.volume.empty() && !act.to_full)
        return fail(ErrorKind::bad_input, "volume",
                    "How much of " + act.name + " goes in? Write a volume such as 18 L, or --to-full.");
    if (!act.volume.empty()) {
        TRY(body.volume, positive_volume("volume", act.volume, here.gallons));
    }
    if (act.to_full) {
        TRY(body.settlement, settle_to_full(here, vessel, body.volume, !act.volume.empty()));
    }

    const Day entered = day_of(here.at, here.zone);
    if (!act.brewed.empty()) {
        TRY(const DayRange brewed, parse_day_range("brewed", act.brewed, here.today));
        if (brewed.from > entered)
            return fail(ErrorKind::bad_input, "brewed",
                        act.name + " enters on " + iso_text(entered) + " and cannot have been brewed later, on " +
                            iso_text(brewed.from) + ".");
        body.brewed_from = brewed.from;
        body.brewed_to = std::min(brewed.to, entered);
    } else if (body.kind == LotKind::beer) {
        body.brewed_from = body.brewed_to = entered;
    }
    body.age_assumed = act.age_assumed;
    if (!act.original_gravity.empty()) {
        TRY(body.original_gravity, gravity_as_sg("og", act.original_gravity));
    }
    if (!act.gravity.empty()) {
        TRY(body.gravity, gravity_as_sg("gravity", act.gravity));
    }
    if (body.original_gravity && body.gravity && body.gravity->value() > body.original_gravity->value())
        return fail(ErrorKind::bad_input, "gravity",
                    "The gravity " + body.gravity->text() + " is above the original gravity " +
                        body.original_gravity->text() + "; beer only falls.");
    if (!act.alcohol.empty()) {
        TRY(body.alcohol, parse_alcohol("alcohol", act.alcohol));
    }
    if (!act.ibu.empty()) {
        TRY(body.ibu, parse_number("ibu", act.ibu, 0, 300));
    }
    if (!act.colour.empty()) {
        TRY(body.colour_ebc, parse_number("colour", act.colour, 0, 500));
    }
    if (!act.ph.empty()) {
        TRY(body.ph, parse_number("ph", act.ph, 2, 9));
    }
    if (!act.ta.empty()) {
        TRY(body.ta_g_per_litre, parse_grams_per_litre("ta", act.ta));
    }
    TRY(body.gear, gear_from(act.gear, here));
    TRY(body.allergens, lot_allergens_from(act.allergens, body.kind, here));
    for (const std::string& text : act.cultures) {
        TRY(Culture culture, culture_from(text, here));
        body.cultures.push_back(std::move(culture));
    }
    if (body.kind == LotKind::beer && !body.gravity && !body.original_gravity)
        here.remarks.push_back("No gravity was given for " + act.name +
                               ": a usual one is assumed, with a wide spread, until it is read.");
    return body;
}

Result<Move> body_of(const MoveLiquid& act, Here& here) {
    Move body;
    TRY(const int from, find_vessel(here.cellar, "from", act.from));
    const VesselState& source = here.cellar.vessels[at_index(from)];
    body.from = source.key;
    body.reason = act.reason;
    if (act.to.empty()) return fail(ErrorKind::bad_input, "to", "Say into which vessel.");
    if (source.liquid.volume == Volume{})
        return fail(ErrorKind::impossible, source.as.name, source.as.name + " is empty.");
    Volume held_up;
    for (const int index : source.additions_inside) held_up += here.cellar.additions[at_index(index)].as.hold_up;
    bool takes_all = false;
    for (const auto& to : act.to) takes_all = takes_all || to.volume.empty() || is_all_text(to.volume);
    if (!act.loss.empty()) {
        TRY(body.loss, volume_from("loss", act.loss, source.liquid.volume, source.liquid.volume, here.gallons));
    } else if (takes_all && held_up > Volume{} && !act.to_full) {
        body.loss = std::min(held_up, source.liquid.volume);
        here.remarks.push_back(text_of(body.loss, here.unit) + " is counted as held up in the fruit of " +
                               source.as.name + " and stays behind; state --loss when you know better.");
    }
    // What is left over is known when everything else is.
    Volume rest = source.liquid.volume - body.loss;
    int takers_of_rest = 0;
    for (const auto& to : act.to) {
        const bool of_rest = is_all_text(to.volume) || (to.volume.empty() && !act.to_full);
        takers_of_rest += of_rest ? 1 : 0;
        if (of_rest || to.volume.empty()) continue;
        TRY(const Volume volume, volume_from("volume", to.volume, source.liquid.volume, rest, here.gallons));
        rest -= volume;
    }
    if (takers_of_rest > 1)
        return fail(
            ErrorKind::bad_input, "volume",
            "Two vessels cannot both take the rest of " + source.as.name + ". Say how much goes into all but one.");
    for (const auto& to : act.to) {
        TRY(const int into, find_vessel(here.cellar, "to", to.vessel));
        Destination destination;
        destination.vessel = here.cellar.vessels[at_index(into)].key;
        if (act.to_full && act.to.size() != 1)
            return fail(ErrorKind::bad_input, "to-full", "Only one vessel at a time can be filled to full.");
        if (!to.volume.empty() || !act.to_full) {
            TRY(destination.volume,
                volume_from("volume", to.volume.empty() ? "all" : to.volume, source.liquid.volume, rest, here.gallons));
        }
        if (act.to_full) {
            TRY(body.settlement, settle_to_full(here, into, destination.volume, !to.volume.empty()));
        }
        body.to.push_back(destination);
    }
    TRY(body.gear, gear_from(act.gear, here));
    Volume leaves = body.loss;
    for (const Destination& destination : body.to) leaves += destination.volume;
    if (body.reason == Reason::pull && source.as.role == VesselRole::solera &&
        leaves.in_litres() > k_largest_pull * source.liquid.volume.in_litres())
        here.remarks.push_back(
            "More than half of " + source.as.name +
            " leaves: expect the culture to lag, and the next turn to take longer to sour and clear.");
    if (body.reason == Reason::split && leaves >= source.liquid.volume)
        return fail(ErrorKind::bad_input, "volume", "A split leaves something in both; to move all of it, rack it.");
    return body;
}

Result<Loss> body_of(const LoseLiquid& act, Here& here) {
    Loss body;
    TRY(const int vessel, find_vessel(here.cellar, "vessel", act.vessel));
    const VesselState& state = here.cellar.vessels[at_index(vessel)];
    body.vessel = state.key;
    TRY(body.volume, volume_from("volume", act.volume, state.liquid.volume, state.liquid.volume, here.gallons));
    TRY(body.cause, one_word<LossCause>("cause", act.cause.empty() ? "unknown" : act.cause,
                                        "sample, evaporation, served, spill, dump, lees, unknown"));
    return body;
}

}  // namespace undercroft::app

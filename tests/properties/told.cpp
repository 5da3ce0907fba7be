#include "tests/properties/told.hpp"

#include <cstdio>

namespace undercroft::testing {
namespace {

using namespace ledger;

std::string bits(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%a", value);
    return text;
}

void tell(std::string& text, const Cellar& cellar, const Liquid& liquid) {
    text += std::to_string(liquid.volume.ul()) + "[";
    for (const double share : cellar.shares(liquid)) text += bits(share) + " ";
    text += "]";
    for (const CultureHere& here : liquid.cultures)
        text += std::to_string(here.culture) + word(here.certainty) + std::to_string(here.since.ms) + "~" +
                std::to_string(here.brought.ms) + "~" + std::to_string(here.gear) + "," +
                std::to_string(here.gear_was_in) + " ";
    for (const AllergenHere& here : liquid.allergens)
        text += here.group + (here.mg_per_litre ? bits(*here.mg_per_litre) : "?") + " ";
    for (const int index : liquid.additions) text += std::to_string(index) + ",";
    text += "\n";
}

}  // namespace

std::string told(const Cellar& cellar) {
    std::string text;
    for (const Flow& flow : cellar.flows)
        text += std::to_string(flow.entry) + ":" + std::to_string(flow.from_vessel) + "/" +
                std::to_string(flow.from_run) + ">" + std::to_string(flow.to_vessel) + "/" +
                std::to_string(flow.to_run) + "=" + std::to_string(flow.volume.ul()) + "\n";
    for (const LotState& lot : cellar.lots)
        text +=
            lot.key.text() + lot.name + std::to_string(lot.volume.ul()) + "@" + std::to_string(lot.entered.ms) + "\n";
    for (const GearState& gear : cellar.gear) {
        text += gear.name + "@" + std::to_string(gear.last_vessel) + std::to_string(gear.last_used.ms);
        for (const OnGear& one : gear.cultures)
            text += " " + std::to_string(one.culture) + ":" + std::to_string(one.since.ms) + ":" +
                    std::to_string(one.vessel);
        text += "\n";
    }
    for (const CultureState& culture : cellar.cultures) text += culture.key.text() + culture.as.name + "\n";
    for (const AdditionState& addition : cellar.additions)
        text +=
            addition.key.text() + addition.as.name + (addition.until ? std::to_string(addition.until->ms) : "") + "\n";
    for (const VesselState& vessel : cellar.vessels) {
        text += vessel.key.text() + vessel.as.name + (vessel.retired ? " gone " : " ");
        for (const int index : vessel.additions_inside) text += std::to_string(index) + ";";
        for (const int index : vessel.entries) text += std::to_string(index) + ":";
        tell(text, cellar, vessel.liquid);
    }
    for (const RunState& run : cellar.runs) {
        text += run.key.text() + run.as.run + std::to_string(run.left) + "-" + std::to_string(run.missing) + "+" +
                std::to_string(run.found) + " ";
        tell(text, cellar, run.liquid);
    }
    return text;
}

std::string told(const engine::StateBook& states) {
    std::string text;
    const auto say = [&text](const std::optional<engine::Estimate>& estimate) {
        text += estimate ? bits(estimate->mean) + " " + bits(estimate->sd) + engine::word(estimate->provenance) +
                               (estimate->read_at ? std::to_string(estimate->read_at->ms) : "") + estimate->why + ";"
                         : "unknown;";
    };
    const auto tell_state = [&](const engine::LiquidState& state) {
        text += std::to_string(state.volume.ul()) + " ";
        say(state.gravity());
        say(state.alcohol());
        say(state.ph_estimate());
        say(state.ta);
        say(state.ibu);
        say(state.colour_ebc);
        for (const double figure : {state.original_gravity, state.malic_g_per_l, state.citric_g_per_l,
                                    state.sorbitol_g_per_l, state.fruit_sugar_g_per_l})
            text += bits(figure) + " ";
        text += state.acid_since ? std::to_string(state.acid_since->ms) + " " : "- ";
        for (const auto& one : state.starved)
            text += std::to_string(one.from.ms) + "-" + std::to_string(one.to.ms) + bits(one.attenuation) + " ";
        for (const auto& reading : state.watch) text += std::to_string(reading.at.ms) + bits(reading.gravity) + " ";
        for (const double celsius : state.temperatures_c) text += bits(celsius) + "C ";
        text += state.here_since ? std::to_string(state.here_since->ms) : "never";
        text += "\n";
    };
    for (const auto& state : states.vessels) tell_state(state);
    for (const auto& state : states.runs) tell_state(state);
    for (const engine::Stock& stock : states.stock) {
        text += std::to_string(stock.volume.ul()) + bits(stock.sd_litres) +
                (stock.reckoned ? std::to_string(stock.reckoned->ms) : "-");
        if (stock.last) text += std::to_string(stock.last->found.ul()) + "/" + std::to_string(stock.last->booked.ul());
        text += "\n";
    }
    for (const bool unclean : states.unclean) text += unclean ? "u" : "-";
    return text;
}

}  // namespace undercroft::testing

// The fields of requests that are no acts; named as the members of app/ages.hpp and app/book.hpp.
#pragma once

#include "api/fields.hpp"
#include "app/book.hpp"

namespace undercroft::api {

inline void fields_of(Fields& a, app::FruitRequest& request) {
    a.text("fruit", request.fruit, Need::must);
    a.text("mass", request.mass, Need::must);
    a.text("beer", request.beer);
    a.text("volume", request.volume);
    a.text("gravity", request.gravity);
    a.text("alcohol", request.alcohol);
    a.text("fruit_gravity", request.fruit_gravity);
    a.text("pull", request.pull);
    a.text("enzyme_dose", request.enzyme_dose);
    a.text("nutrient_dose", request.nutrient_dose);
    a.text("hold_up", request.hold_up);
}

inline void fields_of(Fields& a, app::GasRequest& request) {
    a.text("beer", request.beer);
    a.text("container", request.container);
    a.text("gravity", request.gravity);
    a.text("original_gravity", request.original_gravity);
    a.text("alcohol", request.alcohol);
    a.text("priming", request.priming);
    a.text("fill", request.fill);
    a.text("head_space", request.head_space);
    a.text("store", request.store);
    a.texts("cultures", request.cultures);
    a.text("malic", request.malic);
    a.text("citric", request.citric);
    a.text("sorbitol", request.sorbitol);
    a.text("fermentation_temperature", request.fermentation_temperature);
    a.text("limit", request.limit);
    a.text("altitude", request.altitude);
    a.flag("purged", request.purged);
    a.text("horizon", request.horizon);
    a.text("forced", request.forced);
    a.texts("canary", request.canary);
    a.flag("given_away", request.given_away);
    a.flag("stable", request.stable);
}

inline void fields_of(Fields& a, app::BlindRequest& request) {
    a.texts("subjects", request.subjects);
    a.texts("tasters", request.tasters);
    a.texts("twice", request.twice);
    a.text("set", request.set);
    a.flag("full", request.full);
    a.texts("found", request.found);
}

inline void fields_of(Fields& a, app::QuarterRequest& request) {
    a.texts("products", request.products);
    a.texts("refills", request.refills);
    a.texts("feeds", request.feeds);
    a.texts("stocks", request.stocks);
    a.texts("keep", request.keep);
    a.text("most_share", request.most_share);
    a.text("step", request.step);
    a.text("seconds", request.seconds);
}

inline void fields_of(Fields& a, app::FinishRequest& request) {
    a.texts("wants", request.wants);
    a.texts("with", request.with);
    a.texts("prices", request.prices);
    a.texts("only", request.only);
    a.texts("fruits", request.fruits);
    a.text("vessel", request.vessel);
    a.text("technique", request.technique);
    a.text("dose", request.dose);
    a.text("days", request.days);
    a.text("from", request.from);
    a.flag("sorbate", request.sorbate);
    a.flag("neutral_yeast", request.neutral_yeast);
}

inline void fields_of(Fields& a, app::BlendRequest& request) {
    a.texts("stocks", request.stocks);
    a.text("volume", request.volume);
    a.texts("wants", request.wants);
    a.texts("musts", request.musts);
    a.text("aim", request.aim);
    a.text("most_stocks", request.most_stocks);
    a.text("least_draw", request.least_draw);
    a.text("step", request.step);
    a.texts("keep", request.keep);
    a.texts("use", request.use);
    a.texts("whole", request.whole);
    a.texts("without", request.without);
    a.texts("prices", request.prices);
    a.text("without_culture", request.without_culture);
    a.text("without_allergen", request.without_allergen);
    a.text("older_than", request.older_than);
    a.flag("wide", request.wide);
    a.text("recipes", request.recipes);
    a.text("differ", request.differ);
    a.flag("surest", request.surest);
    a.text("glass", request.glass);
    a.text("neighbours", request.neighbours);
    a.text("seed", request.seed);
    a.text("seconds", request.seconds);
}

inline void fields_of(Fields& a, app::TrialsRequest& request) {
    a.texts("stocks", request.stocks);
    a.texts("liked", request.liked);
    a.texts("least", request.least);
    a.texts("most", request.most);
    a.texts("keep", request.keep);
    a.text("doubt", request.doubt);
    a.text("step", request.step);
    a.text("next", request.next);
    a.text("apart", request.apart);
    a.text("glass", request.glass);
    a.text("seed", request.seed);
    a.text("volume", request.volume);
    a.text("choose", request.choose);
    a.text("into", request.into);
}

inline void fields_of(Fields& a, app::SoleraRequest& request) {
    a.texts("vessels", request.vessels);
    a.text("pull", request.pull);
    a.text("every", request.every);
    a.texts("first_pulls", request.first_pulls);
    a.text("turns", request.turns);
    a.text("new_beer_age", request.new_beer_age);
    a.text("start_age", request.start_age);
    a.text("evaporation", request.evaporation);
    a.text("mixing", request.mixing);
    a.text("drawn", request.drawn);
    a.text("within", request.within);
    a.texts("older_than", request.older_than);
}

// `keep` is no field: what is drafted is booked as a sitting, with its key.
inline void fields_of(Fields& a, app::RememberRequest& request) {
    a.text("vessel", request.vessel, Need::must);
    a.text("founded", request.founded);
    a.text("share", request.share);
    a.text("every", request.every);
    a.text("refill", request.refill);
    a.text("original_gravity", request.original_gravity);
    a.text("gravity", request.gravity);
    a.text("alcohol", request.alcohol);
    a.text("ibu", request.ibu);
    a.text("colour", request.colour);
    a.text("ph", request.ph);
    a.text("ta", request.ta);
    a.text("holds", request.holds);
    a.text("last_refill", request.last_refill);
    a.text("original", request.original);
    a.text("known", request.known);
    a.text("seen", request.seen);
    a.text("when", request.when);
    a.text("by", request.by);
}

inline void fields_of(Fields& a, app::DesignRequest& request) {
    a.text("demand", request.demand, Need::must);
    a.text("age", request.age);
    a.texts("older", request.older);
    a.texts("vessels", request.vessels);
    a.text("ullage", request.ullage);
    a.text("wait", request.wait);
    a.text("new_beer_age", request.new_beer_age);
    a.text("stages", request.stages);
    a.text("every", request.every);
    a.text("day_worth", request.day_worth);
    a.text("show", request.show);
}

// Of the design that is drafted.
inline void draft_fields_of(Fields& a, app::DesignRequest& request) {
    a.text("draft", request.draft, Need::must);
    a.text("name", request.name);
    a.text("original_gravity", request.original_gravity);
    a.text("gravity", request.gravity);
    a.text("by", request.by);
}

inline void fields_of(Fields& a, app::ChangeRequest& request) {
    a.text("vessel", request.vessel, Need::must);
    a.text("share", request.share);
    a.text("every", request.every);
    a.texts("add_stages", request.add_stages);
    a.text("usual_share", request.usual_share);
    a.text("usual_every", request.usual_every);
    a.text("turns", request.turns);
}

}  // namespace undercroft::api

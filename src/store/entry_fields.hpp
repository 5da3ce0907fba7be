// Names every field of every entry once, for writing and for reading: `fields(visit, body)` calls
// visit(name, member) for each. What stands here is frozen with the book format (docs/book-format.md):
// a new field or word needs a higher k_entry_format for the entries that use it.
#pragma once

#include <concepts>
#include <type_traits>

#include "ledger/entry.hpp"
#include "ledger/journal.hpp"

namespace undercroft::store {

template <class T>
concept Word = std::is_enum_v<T>;

template <class T, class U>
concept Is = std::same_as<std::remove_const_t<T>, U>;

void fields(auto& visit, Is<ledger::Culture> auto& it) {
    visit("name", it.name);
    visit("kind", it.kind);
    visit("killer", it.killer);
    visit("toxin", it.toxin);
    visit("diastatic", it.diastatic);
}

void fields(auto& visit, Is<ledger::Allergen> auto& it) {
    visit("group", it.group);
    visit("mg_per_litre", it.mg_per_litre);
}

void fields(auto& visit, Is<ledger::FullSettlement> auto& it) {
    visit("evaporation_ul", it.evaporation);
    visit("found_ul", it.found);
}

void fields(auto& visit, Is<ledger::Destination> auto& it) {
    visit("vessel", it.vessel);
    visit("volume_ul", it.volume);
}

void fields(auto& visit, Is<ledger::AdditionContents> auto& it) {
    visit("glucose_mg", it.glucose);
    visit("fructose_mg", it.fructose);
    visit("sucrose_mg", it.sucrose);
    visit("maltose_mg", it.maltose);
    visit("sorbitol_mg", it.sorbitol);
    visit("citric_acid_mg", it.citric_acid);
    visit("malic_acid_mg", it.malic_acid);
    visit("tartaric_acid_mg", it.tartaric_acid);
    visit("lactic_acid_mg", it.lactic_acid);
    visit("potassium_mg", it.potassium);
    visit("ethanol_mg", it.ethanol);
    visit("sulphite_mg", it.sulphite);
}

void fields(auto& visit, Is<ledger::Measured> auto& it) {
    visit("quantity", it.quantity);
    visit("value", it.value);
    visit("unit", it.unit);
}

void fields(auto& visit, Is<ledger::TargetFigure> auto& it) {
    visit("figure", it.figure);
    visit("low", it.low);
    visit("high", it.high);
    visit("weight", it.weight);
}

void fields(auto& visit, Is<ledger::ForecastFigure> auto& it) {
    visit("figure", it.figure);
    visit("before", it.before);
    visit("before_sd", it.before_sd);
    visit("after", it.after);
    visit("after_sd", it.after_sd);
}

void fields(auto& visit, Is<ledger::Alternative> auto& it) {
    visit("name", it.name);
    visit("inside", it.inside);
}

void fields(auto& visit, Is<ledger::DipMark> auto& it) {
    visit("depth_um", it.depth);
    visit("volume_ul", it.volume);
}

void fields(auto& visit, Is<ledger::Gauge> auto& it) {
    visit("tare_mg", it.tare);
    visit("shape", it.shape);
    visit("inner_height_um", it.inner_height);
    visit("head_diameter_um", it.head_diameter);
    visit("dips", it.dips);
}

void fields(auto& visit, Is<ledger::LoggedPoint> auto& it) {
    visit("after_s", it.after_s);
    visit("celsius", it.celsius);
}

void fields(auto& visit, Is<ledger::VesselJoins> auto& it) {
    visit("name", it.name);
    visit("tag", it.tag);
    visit("capacity_ul", it.capacity);
    visit("ullage_ul", it.ullage);
    visit("role", it.role);
    visit("material", it.material);
    visit("location", it.location);
    visit("gauge", it.gauge);  // format 3
}

void fields(auto& visit, Is<ledger::VesselLeaves> auto& it) {
    visit("vessel", it.vessel);
}

void fields(auto& visit, Is<ledger::LotEnters> auto& it) {
    visit("vessel", it.vessel);
    visit("name", it.name);
    visit("kind", it.kind);
    visit("volume_ul", it.volume);
    visit("reason", it.reason);
    visit("brewed_from", it.brewed_from);
    visit("brewed_to", it.brewed_to);
    visit("age_assumed", it.age_assumed);
    visit("original_gravity_sg", it.original_gravity);
    visit("gravity_sg", it.gravity);
    visit("alcohol_percent", it.alcohol);
    visit("ibu", it.ibu);
    visit("colour_ebc", it.colour_ebc);
    visit("ph", it.ph);
    visit("ta_g_per_litre", it.ta_g_per_litre);
    visit("allergens", it.allergens);
    visit("cultures", it.cultures);
    visit("settlement", it.settlement);
    visit("gear", it.gear);  // format 3
}

void fields(auto& visit, Is<ledger::Move> auto& it) {
    visit("from", it.from);
    visit("to", it.to);
    visit("loss_ul", it.loss);
    visit("reason", it.reason);
    visit("settlement", it.settlement);
    visit("gear", it.gear);  // format 3
}

void fields(auto& visit, Is<ledger::Loss> auto& it) {
    visit("vessel", it.vessel);
    visit("volume_ul", it.volume);
    visit("cause", it.cause);
}

void fields(auto& visit, Is<ledger::Addition> auto& it) {
    visit("vessel", it.vessel);
    visit("kind", it.kind);
    visit("item", it.item);
    visit("name", it.name);
    visit("mass_mg", it.mass);
    visit("dose_ul", it.dose);
    visit("contained", it.contained);
    visit("source_kind", it.source_kind);
    visit("brings_ul", it.brings);
    visit("solids_ul", it.solids);
    visit("hold_up_ul", it.hold_up);
    visit("contents", it.contents);
    visit("allergens", it.allergens);
    visit("cultures", it.cultures);
}

void fields(auto& visit, Is<ledger::Lift> auto& it) {
    visit("addition", it.addition);
}

void fields(auto& visit, Is<ledger::Pitch> auto& it) {
    visit("vessel", it.vessel);
    visit("culture", it.culture);
    visit("suspected", it.suspected);
    visit("origin", it.origin);
}

void fields(auto& visit, Is<ledger::Reading> auto& it) {
    visit("subject", it.subject);
    visit("values", it.values);
    visit("read_at_c", it.read_at_c);
    visit("instrument", it.instrument);
    visit("sample_ul", it.sample);
    visit("gear", it.gear);  // format 3
}

void fields(auto& visit, Is<ledger::Tasting> auto& it) {
    visit("subject", it.subject);
    visit("taster", it.taster);
    visit("scores", it.scores);
    visit("faults", it.faults);
    visit("words", it.words);
    visit("liking", it.liking);
    visit("sample_ul", it.sample);
    visit("gear", it.gear);        // format 3
    visit("defines", it.defines);  // format 4
}

void fields(auto& visit, Is<ledger::Package> auto& it) {
    visit("from", it.from);
    visit("run", it.run);
    visit("container", it.container);
    visit("container_name", it.container_name);
    visit("count", it.count);
    visit("fill_ul", it.fill);
    visit("head_space_share", it.head_space);
    visit("purged", it.purged);
    visit("priming_sugar_mg", it.priming_sugar);
    visit("priming_volume_ul", it.priming_volume);
    visit("loss_ul", it.loss);
    visit("location", it.location);
    visit("gear", it.gear);  // format 3
}

void fields(auto& visit, Is<ledger::Take> auto& it) {
    visit("run", it.run);
    visit("count", it.count);
    visit("cause", it.cause);
    visit("person", it.person);
    visit("vessel", it.vessel);
    visit("words", it.words);
}

void fields(auto& visit, Is<ledger::Care> auto& it) {
    visit("vessel", it.vessel);
    visit("words", it.words);
    // Format 3.
    visit("method", it.method);
    visit("kill", it.kill);
    visit("agent", it.agent);
    visit("in_pores", it.in_pores);
    visit("gear", it.gear);
}

void fields(auto& visit, Is<ledger::Note> auto& it) {
    visit("subject", it.subject);
    visit("words", it.words);
    visit("picture", it.picture);  // format 2
}

void fields(auto& visit, Is<ledger::Snapshot> auto& it) {
    visit("kind", it.kind);
    visit("subject", it.subject);
    visit("text", it.text);
    visit("facts", it.facts);
}

void fields(auto& visit, Is<ledger::Acknowledge> auto& it) {
    visit("caution", it.caution);
    visit("subject", it.subject);
    visit("words", it.words);
}

void fields(auto& visit, Is<ledger::Interval> auto& it) {
    visit("subject", it.subject);
    visit("role", it.role);
    visit("what", it.what);
    visit("days", it.days);
}

void fields(auto& visit, Is<ledger::Target> auto& it) {
    visit("subject", it.subject);
    visit("figures", it.figures);
    visit("words", it.words);
}

void fields(auto& visit, Is<ledger::Decide> auto& it) {
    visit("subject", it.subject);
    visit("volume_ul", it.volume);
    visit("technique", it.technique);
    visit("way", it.way);
    visit("dose", it.dose);
    visit("unit", it.unit);
    visit("days", it.days);
    visit("sour", it.sour);
    visit("inside", it.inside);
    visit("forecast", it.forecast);
    visit("alternatives", it.alternatives);
    visit("words", it.words);
}

void fields(auto& visit, Is<ledger::Settle> auto& it) {
    visit("subject", it.subject);
    visit("found_by", it.found_by);
    visit("depth_um", it.depth);
    visit("weight_mg", it.weight);
    visit("found_ul", it.found);
    visit("found_sd_ul", it.found_sd);
    visit("missing_ul", it.missing);
    visit("surplus_ul", it.surplus);
    visit("cause", it.cause);
    visit("count", it.count);
    visit("missing_count", it.missing_count);
    visit("surplus_count", it.surplus_count);
}

void fields(auto& visit, Is<ledger::Calibrate> auto& it) {
    visit("instrument", it.instrument);
    visit("quantity", it.quantity);
    visit("offset", it.offset);
    visit("unit", it.unit);
}

void fields(auto& visit, Is<ledger::LoggerFile> auto& it) {
    visit("subject", it.subject);
    visit("file", it.file);
    visit("instrument", it.instrument);
    visit("rows", it.rows);
    visit("begun_ms", it.begun);
    visit("thinned_to_c", it.thinned_to_c);
    visit("points", it.points);
}

void fields(auto& visit, Is<ledger::Treat> auto& it) {
    visit("subject", it.subject);
    visit("method", it.method);
    visit("celsius", it.celsius);
    visit("minutes", it.minutes);
    visit("pore_um", it.pore_um);
    visit("gone", it.gone);
    visit("gone_unless_diastatic", it.gone_unless_diastatic);
    visit("perhaps", it.perhaps);
    visit("allergens", it.allergens);
    visit("words", it.words);
}

void fields(auto& visit, Is<ledger::Confirm> auto& it) {
    visit("subject", it.subject);
    visit("culture", it.culture);
    visit("how", it.how);
}

void fields(auto&, Is<ledger::Void> auto&) {}

// Around every body, in every format to come: what an older program reads of an entry it does not know.
// Beside these stand "format", "kind" and "body".
void envelope_fields(auto& visit, Is<ledger::Entry> auto& it) {
    visit("key", it.key);
    visit("sitting_size", it.sitting_size);
    visit("at_ms", it.place.at);
    visit("path", it.place.path);
    visit("supersedes", it.supersedes);
    visit("reason", it.reason);
    visit("by", it.by);
    visit("recorded_ms", it.recorded);
    visit("origin_book", it.origin_book);
    visit("origin_hash", it.origin_hash);
}

void fields(auto& visit, Is<ledger::BookFacts> auto& it) {
    visit("id", it.id);
    visit("name", it.name);
    visit("zone", it.zone);
    visit("gallons", it.gallons);
    visit("invented", it.invented);
    visit("begun_ms", it.begun);
    visit("format", it.format);
}

}  // namespace undercroft::store

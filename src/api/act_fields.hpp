// The fields of every act and request, once: read from JSON and written to it by the same list.
//
// Holds: a field is named as its member of app/act.hpp. `A` is a reading (fields.hpp) or a writing (acts.cpp); both
// have text, texts, flag and word.
#pragma once

#include "api/fields.hpp"
#include "app/act.hpp"

namespace undercroft::api {

inline std::vector<std::string> reasons_of_lots() {
    return {"fill", "refill", "top-up"};
}
inline std::vector<std::string> reasons_of_moves() {
    return {"pull", "refill", "rack", "blend", "top-up", "serve"};
}

// A reason as its word; `otherwise` is the struct's own.
template <class A>
void reason_field(A& a, ledger::Reason& reason, const std::vector<std::string>& words) {
    std::string word = ledger::word(reason);
    a.word("reason", word, words);
    if (const auto read = ledger::from_word<ledger::Reason>(word)) reason = *read;
}

template <class A>
void fields_of(A& a, app::RegisterVessel& act) {
    a.text("name", act.name, Need::must);
    a.text("tag", act.tag);
    a.text("capacity", act.capacity, Need::must);
    a.text("ullage", act.ullage);
    a.word("role", act.role, ledger::all_words<ledger::VesselRole>());
    a.text("material", act.material);
    a.text("location", act.location);
    a.text("tare", act.tare);
    a.word("shape", act.shape, ledger::all_words<ledger::VesselShape>());
    a.text("inner_height", act.inner_height);
    a.text("head_diameter", act.head_diameter);
    a.texts("dip_marks", act.dip_marks);
}

template <class A>
void fields_of(A& a, app::RetireVessel& act) {
    a.text("vessel", act.vessel, Need::must);
}

template <class A>
void fields_of(A& a, app::EnterLot& act) {
    a.text("vessel", act.vessel, Need::must);
    a.text("name", act.name, Need::must);
    a.text("volume", act.volume);
    a.word("kind", act.kind, ledger::all_words<ledger::LotKind>());
    reason_field(a, act.reason, reasons_of_lots());
    a.flag("to_full", act.to_full);
    a.text("brewed", act.brewed);
    a.flag("age_assumed", act.age_assumed);
    a.text("original_gravity", act.original_gravity);
    a.text("gravity", act.gravity);
    a.text("alcohol", act.alcohol);
    a.text("ibu", act.ibu);
    a.text("colour", act.colour);
    a.text("ph", act.ph);
    a.text("ta", act.ta);
    a.texts("allergens", act.allergens);
    a.texts("cultures", act.cultures);
    a.texts("gear", act.gear);
}

template <class A>
void fields_of(A& a, app::MoveLiquid::To& to) {
    a.text("vessel", to.vessel, Need::must);
    a.text("volume", to.volume);
}

template <class A>
void fields_of(A& a, app::MoveLiquid& act) {
    reason_field(a, act.reason, reasons_of_moves());
    a.text("from", act.from, Need::must);
    a.objects("to", act.to);
    a.text("loss", act.loss);
    a.flag("to_full", act.to_full);
    a.texts("gear", act.gear);
    a.text("acknowledge", act.acknowledge);
}

template <class A>
void fields_of(A& a, app::LoseLiquid& act) {
    a.text("vessel", act.vessel, Need::must);
    a.text("volume", act.volume, Need::must);
    a.word("cause", act.cause, ledger::all_words<ledger::LossCause>(), Need::must);
}

template <class A>
void fields_of(A& a, app::AddAddition& act) {
    a.text("vessel", act.vessel, Need::must);
    a.word("kind", act.kind, ledger::all_words<ledger::AdditionKind>());
    a.text("item", act.item, Need::must);
    a.text("amount", act.amount, Need::must);
    a.flag("contained", act.contained);
    a.flag("live", act.live);
    a.texts("cultures", act.cultures);
    a.texts("allergens", act.allergens);
    a.text("hold_up", act.hold_up);
}

template <class A>
void fields_of(A& a, app::LiftAddition& act) {
    a.text("vessel", act.vessel, Need::must);
    a.text("item", act.item, Need::must);
}

template <class A>
void fields_of(A& a, app::PitchCulture& act) {
    a.text("vessel", act.vessel, Need::must);
    a.text("kind", act.kind, Need::must);
    a.text("name", act.name);
    a.word("killer", act.killer, ledger::all_words<ledger::KillerPhenotype>());
    a.word("toxin", act.toxin, ledger::all_words<ledger::ToxinType>());
    a.word("diastatic", act.diastatic, ledger::all_words<ledger::Diastatic>());
    a.flag("suspected", act.suspected);
    a.text("origin", act.origin);
}

template <class A>
void fields_of(A& a, app::TakeReading& act) {
    a.text("subject", act.subject, Need::must);
    a.text("gravity", act.gravity);
    a.text("ph", act.ph);
    a.text("ta", act.ta);
    a.text("temperature", act.temperature);
    a.text("dissolved_co2", act.dissolved_co2);
    a.text("weight", act.weight);
    a.text("read_at", act.read_at);
    a.text("instrument", act.instrument);
    a.text("sample", act.sample);
    a.texts("gear", act.gear);
}

template <class A>
void fields_of(A& a, app::TasteIt& act) {
    a.text("subject", act.subject, Need::must);
    a.text("taster", act.taster);
    a.texts("scores", act.scores);
    a.texts("faults", act.faults);
    a.text("words", act.words);
    a.text("liking", act.liking);
    a.text("sample", act.sample);
    a.texts("gear", act.gear);
    a.texts("defines", act.defines);
}

template <class A>
void fields_of(A& a, app::PackageRun& act) {
    a.text("from", act.from, Need::must);
    a.text("run", act.run);
    a.text("container", act.container, Need::must);
    a.text("count", act.count, Need::must);
    a.text("fill", act.fill);
    a.text("head_space", act.head_space);
    a.flag("purged", act.purged);
    a.text("priming", act.priming);
    a.text("loss", act.loss);
    a.text("location", act.location);
    a.text("store", act.store);
    a.flag("given_away", act.given_away);
    a.text("limit", act.limit);
    a.text("acknowledge", act.acknowledge);
    a.texts("gear", act.gear);
}

template <class A>
void fields_of(A& a, app::TakeBottles& act) {
    a.text("run", act.run, Need::must);
    a.text("count", act.count);
    a.word("cause", act.cause, ledger::all_words<ledger::TakeCause>(), Need::must);
    a.text("person", act.person);
    a.text("vessel", act.vessel);
    a.text("words", act.words);
}

template <class A>
void fields_of(A& a, app::CleanVessel& act) {
    a.text("vessel", act.vessel);
    a.text("words", act.words);
    a.word("method", act.method, ledger::all_words<ledger::CareMethod>());
    a.flag("kill", act.kill);
    a.word("agent", act.agent, ledger::all_words<ledger::KillAgent>());
    a.texts("gear", act.gear);
}

template <class A>
void fields_of(A& a, app::TreatLiquid& act) {
    a.text("subject", act.subject, Need::must);
    a.word("method", act.method, ledger::all_words<ledger::Treatment>(), Need::must);
    a.text("temperature", act.temperature);
    a.text("minutes", act.minutes);
    a.text("pore", act.pore);
    a.text("so2", act.so2);
    a.texts("allergens", act.allergens);
    a.text("words", act.words);
}

template <class A>
void fields_of(A& a, app::ConfirmCulture& act) {
    a.text("subject", act.subject, Need::must);
    a.text("culture", act.culture, Need::must);
    a.text("how", act.how);
}

template <class A>
void fields_of(A& a, app::EndVessel& act) {
    a.text("vessel", act.vessel, Need::must);
    a.objects("to", act.to, Need::may);
    a.flag("dump", act.dump);
    a.text("words", act.words);
    a.text("acknowledge", act.acknowledge);
}

template <class A>
void fields_of(A& a, app::SplitVessel& act) {
    a.text("vessel", act.vessel, Need::must);
    a.text("into", act.into, Need::must);
    a.text("volume", act.volume, Need::must);
    a.text("tag", act.fresh.tag);
    a.text("capacity", act.fresh.capacity);
    a.text("ullage", act.fresh.ullage);
    a.text("material", act.fresh.material);
    a.text("location", act.fresh.location);
    a.text("acknowledge", act.acknowledge);
}

template <class A>
void fields_of(A& a, app::WriteNote& act) {
    a.text("subject", act.subject);
    a.text("words", act.words);
    a.bytes("picture", act.picture);
}

template <class A>
void fields_of(A& a, app::SetInterval& act) {
    a.text("subject", act.subject, Need::must);
    a.word("what", act.what, ledger::all_words<ledger::Recurring>(), Need::must);
    a.text("every", act.every, Need::must);
}

template <class A>
void fields_of(A& a, app::SetTarget& act) {
    a.text("subject", act.subject, Need::must);
    a.texts("wants", act.wants);
    a.text("like", act.like);
    a.text("words", act.words);
}

template <class A>
void fields_of(A& a, app::DecideFinish& act) {
    a.text("vessel", act.vessel, Need::must);
    a.text("technique", act.technique, Need::must);
    a.text("dose", act.dose);
    a.text("days", act.days);
    a.text("volume", act.volume);
    a.texts("wants", act.wants);
    a.text("words", act.words);
}

template <class A>
void fields_of(A& a, app::PrintLabel& act) {
    a.text("run", act.run, Need::must);
    a.text("name", act.name);
}

template <class A>
void fields_of(A& a, app::AcknowledgeFinding& act) {
    a.text("run", act.run, Need::must);
    a.text("words", act.words, Need::must);
}

template <class A>
void fields_of(A& a, app::TakeStock& act) {
    a.text("subject", act.subject, Need::must);
    a.text("dip", act.dip);
    a.text("ullage", act.ullage);
    a.text("weight", act.weight);
    a.text("volume", act.volume);
    a.flag("full", act.full);
    a.text("count", act.count);
    a.word("cause", act.cause, {"evaporation", "unknown"});
    a.text("within", act.within);
}

template <class A>
void fields_of(A& a, app::CalibrateInstrument& act) {
    a.text("instrument", act.instrument, Need::must);
    a.text("quantity", act.quantity, Need::must);
    a.text("offset", act.offset);
    a.text("reads", act.reads);
    a.text("truth", act.truth);
    a.text("since", act.since);
}

template <class A>
void fields_of(A& a, app::ReadLogger& act) {
    a.text("subject", act.subject, Need::must);
    a.text("file", act.file, Need::must);
    a.bytes("bytes", act.bytes);
    a.texts("maps", act.maps);
    a.text("instrument", act.instrument);
}

template <class A>
void fields_of(A& a, app::VoidEntry& act) {
    a.text("entry", act.entry, Need::must);
    a.text("reason", act.reason);
}

}  // namespace undercroft::api

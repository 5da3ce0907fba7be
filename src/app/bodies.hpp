// Acts as typed -> bodies of entries with resolved amounts.
//
// Holds: what is drafted depends only on the act and on the cellar as it stands right before the entry's place
// in the order; nothing is booked here. Every refusal names the field, the value and what would be accepted.
#pragma once

#include <string>
#include <vector>

#include "app/act.hpp"
#include "app/book.hpp"
#include "app/describe.hpp"
#include "engine/state/state.hpp"
#include "engine/trace/trace.hpp"
#include "ledger/journal.hpp"
#include "ledger/replay.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// People of the book, and those a draft adds.
class People {
public:
    People(const std::vector<ledger::Person>& known, const Surroundings& surroundings)
        : m_all(known), m_first_new(known.size()), m_surroundings(surroundings) {}
    // Commitment for a name; a new person is added when the book does not know the name. "" for "".
    [[nodiscard]] std::string commitment_of(const std::string& name);
    [[nodiscard]] const std::vector<ledger::Person>& all() const { return m_all; }
    [[nodiscard]] std::vector<ledger::Person> added() const {
        return {m_all.begin() + static_cast<std::ptrdiff_t>(m_first_new), m_all.end()};
    }

private:
    std::vector<ledger::Person> m_all;
    std::size_t m_first_new;
    const Surroundings& m_surroundings;
};

// Pictures that a draft adds.
class Pictures {
public:
    explicit Pictures(const Surroundings& surroundings) : m_surroundings(surroundings) {}
    // Of a sitting that was booked before: the same bytes keep the salt, and so the commitment, they were booked with.
    void know(ledger::Picture booked) { m_booked.push_back(std::move(booked)); }
    // Bad_input for bytes that are no picture, with the name of their file.
    [[nodiscard]] Result<std::string> commitment_of(const std::string& bytes, const std::string& file);
    [[nodiscard]] const std::vector<ledger::Picture>& added() const { return m_added; }

private:
    std::vector<ledger::Picture> m_booked;
    std::vector<ledger::Picture> m_added;
    const Surroundings& m_surroundings;
};

// Where an act is drafted: the cellar right before it.
struct Here {
    const ledger::Cellar& cellar;
    const engine::StateBook& states;
    const tables::Tables& tables;
    const Zone& zone;
    Gallons gallons;
    VolumeUnit unit;
    Instant at;
    Day today;                          // of the clock, for "today" and "yesterday" in dates
    std::vector<std::string>& remarks;  // said beside the preview
    std::vector<Caution>& cautions;
    People& people;
    const ledger::Chains& chains;  // of the whole book, later entries too
    Pictures* pictures = nullptr;  // absent where no picture can come from
};

[[nodiscard]] Result<ledger::VesselJoins> body_of(const RegisterVessel& act, Here& here);
[[nodiscard]] Result<ledger::VesselLeaves> body_of(const RetireVessel& act, Here& here);
[[nodiscard]] Result<ledger::LotEnters> body_of(const EnterLot& act, Here& here);
[[nodiscard]] Result<ledger::Move> body_of(const MoveLiquid& act, Here& here);
[[nodiscard]] Result<ledger::Loss> body_of(const LoseLiquid& act, Here& here);
[[nodiscard]] Result<ledger::Addition> body_of(const AddAddition& act, Here& here);
[[nodiscard]] Result<ledger::Lift> body_of(const LiftAddition& act, Here& here);
[[nodiscard]] Result<ledger::Pitch> body_of(const PitchCulture& act, Here& here);
[[nodiscard]] Result<ledger::Reading> body_of(const TakeReading& act, Here& here);
[[nodiscard]] Result<ledger::Tasting> body_of(const TasteIt& act, Here& here);
[[nodiscard]] Result<ledger::Package> body_of(const PackageRun& act, Here& here);
[[nodiscard]] Result<ledger::Take> body_of(const TakeBottles& act, Here& here);
[[nodiscard]] Result<ledger::Care> body_of(const CleanVessel& act, Here& here);
[[nodiscard]] Result<ledger::Treat> body_of(const TreatLiquid& act, Here& here);
[[nodiscard]] Result<ledger::Confirm> body_of(const ConfirmCulture& act, Here& here);
[[nodiscard]] Result<ledger::Note> body_of(const WriteNote& act, Here& here);
[[nodiscard]] Result<ledger::Interval> body_of(const SetInterval& act, Here& here);
[[nodiscard]] Result<ledger::Target> body_of(const SetTarget& act, Here& here);
[[nodiscard]] Result<ledger::Decide> body_of(const DecideFinish& act, Here& here);
[[nodiscard]] Result<ledger::Settle> body_of(const TakeStock& act, Here& here);
[[nodiscard]] Result<ledger::Calibrate> body_of(const CalibrateInstrument& act, Here& here);
[[nodiscard]] Result<ledger::LoggerFile> body_of(const ReadLogger& act, Here& here);

// Where an act says itself when it was: a calibration since a day, a logger by its last row. Refuses the future.
[[nodiscard]] Result<std::optional<Instant>> own_time_of(const Act& act, const Zone& zone, Instant now);

// --- shared readings ---------------------------------------------------------------------------

// An amount above zero.
[[nodiscard]] Result<Volume> positive_volume(std::string_view field, const std::string& text, Gallons gallons);
// "18 L", "a third" of `held`, "all" or "rest" (of `rest`).
[[nodiscard]] Result<Volume> volume_from(std::string_view field, const std::string& text, Volume held, Volume rest,
                                         Gallons gallons);
// What a vessel is like inside, of a vessel whose name and capacity are known.
[[nodiscard]] Result<ledger::Gauge> gauge_from(const RegisterVessel& act, const ledger::VesselJoins& vessel,
                                               Gallons gallons);
// A gravity as SG, with the digits it was written with where it was SG.
[[nodiscard]] Result<Decimal> gravity_as_sg(std::string_view field, const std::string& text);
// Gear as the book spells it; new names are told of.
[[nodiscard]] Result<ledger::GearNames> gear_from(const std::vector<std::string>& names, Here& here);
[[nodiscard]] Result<ledger::Culture> culture_from(const std::string& text, const Here& here);
[[nodiscard]] Result<std::vector<ledger::Allergen>> allergens_from(const std::vector<std::string>& texts,
                                                                   const Here& here);

template <class E>
[[nodiscard]] Result<E> one_word(std::string_view field, const std::string& text, const std::string& choices) {
    if (const auto value = ledger::from_word<E>(text)) return *value;
    return fail(ErrorKind::bad_input, std::string(field), "\"" + text + "\" is none of: " + choices + ".");
}

[[nodiscard]] inline ledger::EntryKey key_of(const ledger::Cellar& cellar, engine::HolderRef holder) {
    const auto index = static_cast<std::size_t>(holder.run >= 0 ? holder.run : holder.vessel);
    return holder.run >= 0 ? cellar.runs[index].key : cellar.vessels[index].key;
}

[[nodiscard]] inline std::size_t at_index(int index) {
    return static_cast<std::size_t>(index);
}

}  // namespace undercroft::app

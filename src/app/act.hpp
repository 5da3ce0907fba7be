// What a keeper asks to have booked, as typed: one struct an act, amounts and names still as text.
//
// Holds: a face (command line, later the page) only fills these in; `Book` reads the amounts, finds the
// vessels, works out what is left open ("all", "a third", "to full") and turns them into entries.
// Vessels, runs and lots are named by name, by a vessel's tag, or by a word that fits only one of them;
// entries by their number, "#12".
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "ledger/entry.hpp"

namespace undercroft::app {

struct RegisterVessel {
    std::string name;
    std::string tag;
    std::string capacity;  // brimful
    std::string ullage;    // empty: none
    std::string role;      // "solera", "finishing" (default), "serving"
    std::string material;
    std::string location;
    // What turns a dip or a weight into a volume, measured inside; empty where nobody measured it.
    std::string tare = {};
    std::string shape = {};                   // "upright", "lying", "table"; empty: by what else is said
    std::string inner_height = {};            // of a lying barrel its bilge diameter
    std::string head_diameter = {};           // of a lying barrel
    std::vector<std::string> dip_marks = {};  // "10 cm=8 L"
};

struct RetireVessel {
    std::string vessel;
};

struct EnterLot {
    std::string vessel;
    std::string name;
    std::string volume;  // may be empty with to_full
    std::string kind;    // word of LotKind; empty: beer
    ledger::Reason reason = ledger::Reason::fill;
    bool to_full = false;
    std::string brewed;  // day or range; empty: the day it enters
    bool age_assumed = false;
    std::string original_gravity, gravity, alcohol, ibu, colour, ph, ta;
    std::vector<std::string> allergens;  // "gluten", "sulphite 12 mg/L"; beer brings gluten too unless told not to
    std::vector<std::string> cultures;   // ids or names of culture kinds, or names of cultures already in the book
    std::vector<std::string> gear = {};  // hoses, pumps, canes it was done with
};

struct MoveLiquid {
    ledger::Reason reason = ledger::Reason::rack;
    std::string from;
    struct To {
        std::string vessel;
        std::string volume;  // "18 L", "a third" (of what `from` holds), "all", "rest"
    };
    std::vector<To> to;
    std::string loss;                    // empty: none, or the fruit's hold-up when all is racked off fruit
    bool to_full = false;                // the only destination ends full
    std::vector<std::string> gear = {};  // hoses, pumps, canes it was done with
    std::string acknowledge = {};        // why it moves although a fault stands against it
};

struct LoseLiquid {
    std::string vessel;
    std::string volume;  // or "all"
    std::string cause;   // word of LossCause
};

struct AddAddition {
    std::string vessel;
    std::string kind;        // word of AdditionKind; empty: by the table the item is in
    std::string item;        // "plum", "sour cherry frozen", "oak cubes", "pectinase", own words
    std::string amount;      // mass or volume
    bool contained = false;  // in a bag
    bool live = false;       // carries live cultures, named in `cultures`
    std::vector<std::string> cultures;
    std::vector<std::string> allergens;
    std::string hold_up;  // share of the fruit's mass; empty: 10 %
};

struct LiftAddition {
    std::string vessel;
    std::string item;
};

struct PitchCulture {
    std::string vessel;
    std::string kind;                      // id or name of a culture kind
    std::string name;                      // own name for it; empty: the kind's
    std::string killer, toxin, diastatic;  // words; empty: the kind's
    bool suspected = false;
    std::string origin;
};

struct TakeReading {
    std::string subject;  // vessel or run
    std::string gravity, ph, ta, temperature, dissolved_co2, weight;
    std::string read_at;  // temperature of the hydrometer sample
    std::string instrument;
    std::string sample;                  // what it cost; empty: nothing
    std::vector<std::string> gear = {};  // hoses, pumps, canes it was done with
};

struct TasteIt {
    std::string subject;
    std::string taster;
    std::vector<std::string> scores;  // "sour=6"
    std::vector<std::string> faults;
    std::string words;
    std::string liking;
    std::string sample;
    std::vector<std::string> gear = {};     // hoses, pumps, canes it was done with
    std::vector<std::string> defines = {};  // "salty: like sea water": an own word for an attribute or fault
};

struct PackageRun {
    std::string from;
    std::string run;         // code; empty: made from vessel, year and number
    std::string container;   // id or name of a container kind
    std::string count;       // or "all": as many as the beer fills
    std::string fill;        // empty: the container's nominal volume
    std::string head_space;  // empty: the container kind's
    bool purged = false;
    std::string priming;  // sugar: "5 g/L" or "90 g"; empty: none
    std::string loss;
    std::string location;
    std::string store;                   // warmest temperature of the store; empty: 25 C
    bool given_away = false;             // bottles leave: reckon with 50 C
    std::string limit;                   // the maker's figure for container and closure, "10 bar"
    std::string acknowledge;             // why it is packaged although the gas check or a fault objects
    std::vector<std::string> gear = {};  // hoses, pumps, canes it was done with
};

struct TakeBottles {
    std::string run;
    std::string count;  // empty: 1
    std::string cause;  // word of TakeCause
    std::string person;
    std::string vessel;  // cause returned
    std::string words;
};

struct CleanVessel {
    std::string vessel;  // may be empty when only gear was cleaned
    std::string words;
    std::string method = {};  // word of CareMethod; empty: cleaned
    bool kill = false;        // it was a kill step
    std::string agent = {};   // word of KillAgent: what it was done with
    std::vector<std::string> gear = {};
};

// Something done to the beer itself.
struct TreatLiquid {
    std::string subject;                         // vessel or run
    std::string method;                          // word of Treatment
    std::string temperature = {}, minutes = {};  // of heat: "62 C", "20"
    std::string pore = {};                       // of a filter, micrometres: "0.45"
    std::string so2 = {};                        // of sulphite: total SO2 it adds, "30 mg/L"
    std::vector<std::string> allergens = {};
    std::string words = {};
};

// A culture of the book was found alive.
struct ConfirmCulture {
    std::string subject;  // vessel or run
    std::string culture;
    std::string how = {};  // "plate", "microscope"
};

// A vessel ends: what it holds goes to other vessels or is dumped, and it leaves. Becomes several entries.
struct EndVessel {
    std::string vessel;
    std::vector<MoveLiquid::To> to = {};  // the last pull; a volume left out: the rest
    bool dump = false;                    // what is then left
    std::string words = {};               // why
    std::string acknowledge = {};         // why it moves although a fault stands against it
};

// A solera becomes two. Becomes one entry, or two where the other is new.
struct SplitVessel {
    std::string vessel;
    std::string into;      // name of a new vessel, or of an empty solera
    std::string volume;    // that goes into it
    RegisterVessel fresh;  // of a new one: everything but name and role; no capacity: it is there already
    std::string acknowledge = {};
};

struct WriteNote {
    std::string subject;            // may be empty
    std::string words;              // may be empty beside a picture
    std::string picture_file = {};  // name of the file it came from, for errors
    std::string picture = {};       // bytes of a PNG or JPEG; empty: none
};

// How often something is to be done from now on.
struct SetInterval {
    std::string subject;  // vessel or run, or "solera", "finishing", "serving": every vessel of that role
    std::string what;     // word of Recurring: "reading", "tasting", "pull", "top-up"
    std::string every;    // "6 weeks"; "never"
};

// What a solera or run shall be like from now on.
struct SetTarget {
    std::string subject;
    std::vector<std::string> wants;  // "sourness 5 to 7 weight 2", "ta at most 7"
    std::string like = {};           // a day, "turn 4", or a run: as it was found then, for all that `wants` leaves out
    std::string words = {};
};

// How a beer is to be finished: booked with what is expected of it and what else there was.
struct DecideFinish {
    std::string vessel;
    std::string technique;                // "sour cherry", "vanilla", "leave"
    std::string dose = {};                // "160 g/L"; empty: the middle of the table
    std::string days = {};                // of contact; empty: as usual
    std::string volume = {};              // of it; empty: all
    std::vector<std::string> wants = {};  // instead of the booked target
    std::string words = {};               // why
};

// What is really there, by one of the ways; what the book had otherwise is booked as the difference.
struct TakeStock {
    std::string subject;  // vessel, or run
    std::string dip;      // depth of the liquid
    std::string ullage;   // height of the head space
    std::string weight;   // of the vessel as it stands
    std::string volume;
    bool full = false;
    std::string count;   // bottles of a run
    std::string cause;   // of what is missing: "evaporation" (default) or "unknown"
    std::string within;  // one standard deviation of the dip, weight or volume; empty: a usual one
};

// By how much an instrument is off, from now or a day on.
struct CalibrateInstrument {
    std::string instrument;
    std::string quantity;  // word of Quantity; "co2" too
    std::string offset;    // true less read; or the two
    std::string reads, truth;
    std::string since;  // day; empty: the time of the sitting
};

// The file of a temperature logger that hung in a vessel.
struct ReadLogger {
    std::string subject;
    std::string file;               // name, for errors
    std::string bytes;              // as they are in it
    std::vector<std::string> maps;  // "When=date,Probe 1=temperature C"; empty: by the headings
    std::string instrument;
};

// Prints a label and keeps it with what it was computed from.
struct PrintLabel {
    std::string run;
    std::string name;  // what the beer is called; empty: the source vessel's name
};

// Standing findings about a run were read, and what was to be done is done.
struct AcknowledgeFinding {
    std::string run;
    std::string words;  // what was done
};

struct VoidEntry {
    std::string entry;  // "#12", "12", or "last" (of the newest sitting)
    std::string reason;
};

struct Correct;

using Act =
    std::variant<RegisterVessel, RetireVessel, EnterLot, MoveLiquid, LoseLiquid, AddAddition, LiftAddition,
                 PitchCulture, TakeReading, TasteIt, PackageRun, TakeBottles, CleanVessel, TreatLiquid, ConfirmCulture,
                 EndVessel, SplitVessel, WriteNote, SetInterval, SetTarget, DecideFinish, PrintLabel,
                 AcknowledgeFinding, TakeStock, CalibrateInstrument, ReadLogger, VoidEntry, Correct>;

// Replaces an entry by what this act says; keeps its place unless the sitting states a time.
struct Correct {
    std::string entry;
    std::string reason;
    std::shared_ptr<const Act> instead;  // one that becomes a single entry, and no VoidEntry
};

// What is booked together.
struct SittingRequest {
    std::string when;   // day, or day and time; empty: now
    std::string after;  // "#12": right after that entry, instead of `when`
    std::string by;     // who booked it; may be empty
    std::string key;    // sitting key made earlier; empty: a new one
    std::vector<Act> acts;
};

}  // namespace undercroft::app

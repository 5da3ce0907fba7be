// What can be written in the book: one Entry per thing that happened in the cellar.
//
// Holds: an Entry carries resolved amounts only (whole microlitres, whole milligrams,
// decimals as written), computed when it was drafted; later changes of data files
// never alter history. Entries name each other by key, people by commitment.
// Leaves out: what the entries add up to (replay.hpp) and how they are stored (store/).
#pragma once

#include <compare>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/decimal.hpp"
#include "base/instant.hpp"
#include "units/length.hpp"
#include "units/mass.hpp"
#include "units/volume.hpp"

namespace undercroft::ledger {

// Identity of an entry: (sitting key, index in the sitting). The sitting key is a UUID of version 7
// (RFC 9562) in lower-case text: time-ordered, made once where the sitting is drafted.
struct EntryKey {
    std::string sitting;
    int index = 0;  // 0 to 999999

    [[nodiscard]] bool empty() const { return sitting.empty(); }
    [[nodiscard]] std::string text() const;  // "0190f3c8-…:000003"
    static std::optional<EntryKey> from_text(const std::string& text);
    friend auto operator<=>(const EntryKey&, const EntryKey&) = default;
};

// Where an entry stands in the total order of the book: (instant, sitting key, index).
// An entry placed "after entry N" stands at N's instant with N's path in front of its own, so it comes
// right after N and before whatever followed N. Arrival in the journal is no part of the order.
struct Place {
    Instant at;
    std::string path;  // EntryKey::text() of the entry, or "<path of N>/<own text>"
    friend auto operator<=>(const Place&, const Place&) = default;
};

// --- words shared by several bodies -----------------------------------------------------------

enum class VesselRole { solera, finishing, serving };
enum class LotKind { beer, fruit, water, syrup, spirit, unknown };
enum class Reason { fill, pull, refill, top_up, rack, blend, serve, split };
enum class LossCause { sample, evaporation, served, spill, dump, lees, unknown };
enum class AdditionKind { fruit, spice, oak, hops, sugar, acid, enzyme, nutrient, other };
enum class KillerPhenotype { sensitive, neutral, killer, unknown, not_applicable };
enum class ToxinType { none, k1, k2, k28, klus, unknown };
enum class Diastatic { no, yes, unknown };
enum class TakeCause { opened, given, sold, broken, returned };
enum class SnapshotKind { label, verdict };
enum class Recurring { reading, tasting, pull, top_up };
enum class VesselShape { upright, lying, table };
enum class FoundBy { dip, ullage, weight, volume, full, count };
enum class CareMethod { emptied, rinsed, cleaned, sanitised };
enum class KillAgent { heat, caustic, acid, peracetic, chlorine, iodine, alcohol, other };
enum class Treatment { heat, filter, sulphite, sorbate };

// One spelling of each word for JSON, command line and docs.
[[nodiscard]] const char* word(VesselRole value);
[[nodiscard]] const char* word(LotKind value);
[[nodiscard]] const char* word(Reason value);
[[nodiscard]] const char* word(LossCause value);
[[nodiscard]] const char* word(AdditionKind value);
[[nodiscard]] const char* word(KillerPhenotype value);
[[nodiscard]] const char* word(ToxinType value);
[[nodiscard]] const char* word(Diastatic value);
[[nodiscard]] const char* word(TakeCause value);
[[nodiscard]] const char* word(SnapshotKind value);
[[nodiscard]] const char* word(Recurring value);
[[nodiscard]] const char* word(VesselShape value);
[[nodiscard]] const char* word(FoundBy value);
[[nodiscard]] const char* word(CareMethod value);
[[nodiscard]] const char* word(KillAgent value);
[[nodiscard]] const char* word(Treatment value);
template <class E>
[[nodiscard]] std::optional<E> from_word(const std::string& text);  // defined for each enum above
template <class E>
[[nodiscard]] std::vector<std::string> all_words();  // likewise, in the order of the enum

struct Culture {
    std::string name;  // "House sour culture"
    std::string kind;  // id of a row of data/cultures.csv
    KillerPhenotype killer = KillerPhenotype::unknown;
    ToxinType toxin = ToxinType::unknown;
    Diastatic diastatic = Diastatic::unknown;
    friend bool operator==(const Culture&, const Culture&) = default;
};

struct Allergen {
    std::string group;                    // "gluten", "sulphite", ...
    std::optional<Decimal> mg_per_litre;  // absent: amount unknown, which is never none
    friend bool operator==(const Allergen&, const Allergen&) = default;
};

// Names of the hoses, pumps, canes, ... that an act was done with, as the keeper calls them: what they touched may
// live on in them (gear.hpp).
using GearNames = std::vector<std::string>;

// What filling "to full" found: the vessel had lost more (evaporation) or less (found) than the book
// knew. At most one of the two is above zero.
struct FullSettlement {
    Volume evaporation;
    Volume found;
    friend bool operator==(const FullSettlement&, const FullSettlement&) = default;
};

// One mark of a keeper's dip stick.
struct DipMark {
    Length depth;
    Volume volume;
    friend bool operator==(const DipMark&, const DipMark&) = default;
};

// What turns a dip or a weight into a volume, measured inside. Left out where nobody measured it.
struct Gauge {
    Mass tare;  // the vessel empty, with what always hangs on it
    std::optional<VesselShape> shape;
    Length inner_height;        // the deepest liquid can stand; of a lying barrel its bilge diameter
    Length head_diameter;       // of a lying barrel; the bilge's own for a lying cylinder
    std::vector<DipMark> dips;  // of shape `table`: each deeper and fuller than the one before
    friend bool operator==(const Gauge&, const Gauge&) = default;
};

// --- bodies ------------------------------------------------------------------------------------

struct VesselJoins {
    std::string name;
    std::string tag;  // short mark on the vessel, may be empty
    Volume capacity;  // brimful
    Volume ullage;    // full = capacity - ullage
    VesselRole role = VesselRole::solera;
    std::string material;  // "steel", "glass", "oak", "plastic", or the keeper's word
    std::string location;  // where it stands
    Gauge gauge = {};
    friend bool operator==(const VesselJoins&, const VesselJoins&) = default;
};

struct VesselLeaves {
    EntryKey vessel;
    friend bool operator==(const VesselLeaves&, const VesselLeaves&) = default;
};

struct LotEnters {
    EntryKey vessel;
    std::string name;
    LotKind kind = LotKind::beer;
    Volume volume;
    Reason reason = Reason::fill;
    // Day brewed, or the range it lies in; for an old solera the range of its liquid's age.
    std::optional<Day> brewed_from;
    std::optional<Day> brewed_to;
    bool age_assumed = false;                 // remembered, not written down
    std::optional<Decimal> original_gravity;  // SG
    std::optional<Decimal> gravity;           // SG now
    std::optional<Decimal> alcohol;           // % vol
    std::optional<Decimal> ibu;
    std::optional<Decimal> colour_ebc;
    std::optional<Decimal> ph;
    std::optional<Decimal> ta_g_per_litre;  // as lactic acid, to pH 8.2
    std::vector<Allergen> allergens;
    std::vector<Culture> cultures;  // live ones it brings
    FullSettlement settlement;
    GearNames gear = {};
    friend bool operator==(const LotEnters&, const LotEnters&) = default;
};

struct Destination {
    EntryKey vessel;
    Volume volume;
    friend bool operator==(const Destination&, const Destination&) = default;
};

struct Move {
    EntryKey from;
    std::vector<Destination> to;  // at least one
    Volume loss;                  // left behind, spilt or held up in fruit
    Reason reason = Reason::rack;
    FullSettlement settlement;  // of the only destination, when filled "to full"
    GearNames gear = {};
    friend bool operator==(const Move&, const Move&) = default;
};

struct Loss {
    EntryKey vessel;
    Volume volume;
    LossCause cause = LossCause::unknown;
    friend bool operator==(const Loss&, const Loss&) = default;
};

// Composition of an addition, resolved when drafted; all zero for what brings nothing to count.
struct AdditionContents {
    Mass glucose;
    Mass fructose;
    Mass sucrose;
    Mass maltose;
    Mass sorbitol;
    Mass citric_acid;
    Mass malic_acid;
    Mass tartaric_acid;
    Mass lactic_acid;
    Mass potassium;
    Mass ethanol;
    Mass sulphite;  // total SO2
    friend bool operator==(const AdditionContents&, const AdditionContents&) = default;
};

struct Addition {
    EntryKey vessel;
    AdditionKind kind = AdditionKind::other;
    std::string item;                      // row id of data/fruit.csv or data/flavourings.csv, or the keeper's words
    std::string name;                      // what it was called then: "plum, fresh"
    Mass mass;                             // as weighed, 0 when dosed by volume
    Volume dose;                           // of a liquid dose (enzyme, acid), 0 when weighed
    bool contained = false;                // in a bag: can be lifted out again
    LotKind source_kind = LotKind::fruit;  // kind of source that `brings` is
    Volume brings;                         // liquid it brings: water + 0.62 mL per g of sugar; counts as a source
    Volume solids;                         // room its solids take while it is loose or contained in the vessel
    Volume hold_up;                        // liquid that stays behind in the pulp when the vessel is racked
    AdditionContents contents;
    std::vector<Allergen> allergens;
    std::vector<Culture> cultures;  // when marked live
    friend bool operator==(const Addition&, const Addition&) = default;
};

struct Lift {
    EntryKey addition;
    friend bool operator==(const Lift&, const Lift&) = default;
};

struct Pitch {
    EntryKey vessel;
    Culture culture;
    bool suspected = false;  // "possible" only, e.g. through shared gear
    std::string origin;      // packet, dregs, another vessel: the keeper's words
    friend bool operator==(const Pitch&, const Pitch&) = default;
};

// A stock-take: what was found in a vessel, or of a run, beside what the book had. Of a vessel at most one of
// `missing` and `surplus` is above zero, of a run at most one of the two counts; both none: the book was right.
struct Settle {
    EntryKey subject;  // vessel, or run
    FoundBy found_by = FoundBy::volume;
    Length depth;     // dip: of the liquid; ullage: of the head space
    Mass weight;      // of the vessel as it stood on the scale
    Volume found;     // liquid in the vessel
    Volume found_sd;  // one standard deviation of `found`
    Volume missing;   // less than the book had: leaves as `cause`
    Volume surplus;   // more: a lot of kind unknown, as old as what the vessel holds
    LossCause cause = LossCause::evaporation;
    int count = 0;  // bottles of a run that are there
    int missing_count = 0;
    int surplus_count = 0;
    friend bool operator==(const Settle&, const Settle&) = default;
};

enum class Quantity { gravity, ph, ta, temperature, dissolved_co2, weight };
[[nodiscard]] const char* word(Quantity value);

// Raw value as written; calibration and temperature correction are applied at replay.
struct Measured {
    Quantity quantity = Quantity::gravity;
    Decimal value;
    std::string unit;  // gravity "SG", "P", "Brix"; ph "pH"; ta "g/L"; temperature "C", "F"; dissolved_co2 "vol",
                       // "g/L"; weight "g"
    friend bool operator==(const Measured&, const Measured&) = default;
};

struct Reading {
    EntryKey subject;                  // vessel, or run (package entry)
    std::vector<Measured> values;      // at least one
    std::optional<Decimal> read_at_c;  // temperature of the sample in the hydrometer jar, when not 20 °C
    std::string instrument;
    Volume sample;  // what it cost; 0 for a run
    GearNames gear = {};
    friend bool operator==(const Reading&, const Reading&) = default;
};

// What an instrument is off by, from this entry's instant until the next calibration of it. Readings keep what was
// read; `offset` is added wherever they are used.
struct Calibrate {
    std::string instrument;  // as readings name it
    Quantity quantity = Quantity::gravity;
    Decimal offset;    // true less read; 0: it reads true
    std::string unit;  // as of Measured
    friend bool operator==(const Calibrate&, const Calibrate&) = default;
};

struct LoggedPoint {
    int after_s = 0;  // seconds since the first row
    Decimal celsius;
    friend bool operator==(const LoggedPoint&, const LoggedPoint&) = default;
};

// A temperature logger read out: its whole file as one entry, which stands at the last row.
struct LoggerFile {
    EntryKey subject;        // vessel, or run
    std::string file;        // name it had
    std::string instrument;  // which logger
    int rows = 0;            // of the file
    Instant begun;           // of its first row
    // Every row that was left out lies within so many kelvins of the straight line between the points beside it.
    std::optional<Decimal> thinned_to_c;
    std::vector<LoggedPoint> points;  // in order of time; the coldest and the warmest row are always among them
    friend bool operator==(const LoggerFile&, const LoggerFile&) = default;
};

struct Tasting {
    EntryKey subject;
    std::string taster;                     // person commitment, or empty
    std::map<std::string, Decimal> scores;  // attribute id -> 0 to 10
    std::vector<std::string> faults;
    std::string words;
    std::optional<Decimal> liking;  // 0 to 10
    Volume sample;
    GearNames gear = {};
    std::map<std::string, std::string> defines = {};  // own attribute or fault -> what it is like
    friend bool operator==(const Tasting&, const Tasting&) = default;
};

struct Package {
    EntryKey from;
    std::string run;             // run code on the label, unique in the book
    std::string container;       // row id of data/containers.csv
    std::string container_name;  // as it was then
    int count = 0;
    Volume fill;            // per container
    Decimal head_space;     // share of the brimful container, 0.04 is 4 %
    bool purged = false;    // head space purged of air
    Mass priming_sugar;     // sucrose, whole run
    Volume priming_volume;  // 0.62 mL per g; a source of kind syrup
    Volume loss;            // hoses, foam, half bottle at the end
    std::string location;
    GearNames gear = {};
    friend bool operator==(const Package&, const Package&) = default;
};

struct Take {
    EntryKey run;
    int count = 0;
    TakeCause cause = TakeCause::opened;
    std::string person;  // commitment of the receiver, or empty
    EntryKey vessel;     // where it went, cause `returned` only
    std::string words;
    friend bool operator==(const Take&, const Take&) = default;
};

// A vessel that stands empty was looked after, or gear was, or both together. Without a method (as first written): it
// was cleaned and what lived in it is gone. With one, only a kill step ends what may live there.
struct Care {
    EntryKey vessel;  // empty: only gear
    std::string words;
    std::optional<CareMethod> method = {};
    bool kill = false;  // a kill step: of the gear too
    std::optional<KillAgent> agent = {};
    bool in_pores = false;  // the kill step does not reach what lives in the vessel's wood or plastic
    GearNames gear = {};    // cleaned with it by a kill step; else used on it

    [[nodiscard]] bool kills() const { return !method || kill; }
    friend bool operator==(const Care&, const Care&) = default;
};

struct Note {
    EntryKey subject;  // may be empty
    std::string words;
    std::string picture = {};  // commitment of its bytes, or empty
    friend bool operator==(const Note&, const Note&) = default;
};

// Something was done to the beer itself, in a vessel or in all bottles of a run that are on hand. What it does to
// which kinds of culture was looked up when it was drafted.
struct Treat {
    EntryKey subject;
    Treatment method = Treatment::heat;
    std::optional<Decimal> celsius;  // of heat
    std::optional<Decimal> minutes;  // of heat, at that temperature
    std::optional<Decimal> pore_um;  // of a filter, micrometres
    // Kinds of culture, by what becomes of them. The enzyme of a diastatic yeast outlives the cell and works for
    // whatever yeast comes after it.
    std::vector<std::string> gone;
    std::vector<std::string> gone_unless_diastatic;  // as the culture is, not its kind
    std::vector<std::string> perhaps;                // possible from then on
    std::vector<Allergen> allergens;                 // what it brings, mg per litre of the beer
    std::string words;
    friend bool operator==(const Treat&, const Treat&) = default;
};

// A plate, a microscope or a laboratory found a culture alive that the book knows in that liquid.
struct Confirm {
    EntryKey subject;
    std::string culture;  // its name
    std::string how;      // "plate", "microscope": the keeper's words
    friend bool operator==(const Confirm&, const Confirm&) = default;
};

// Paper that was handed out, kept with what it was computed from.
struct Snapshot {
    SnapshotKind kind = SnapshotKind::label;
    EntryKey subject;
    std::string text;
    std::map<std::string, std::string> facts;
    friend bool operator==(const Snapshot&, const Snapshot&) = default;
};

struct Acknowledge {
    std::string caution;  // id of the caution, e.g. "gas.do_not"
    EntryKey subject;
    std::string words;
    friend bool operator==(const Acknowledge&, const Acknowledge&) = default;
};

// How often something is to be done, from this entry on: to one vessel or run, or to every vessel of a role that
// has no interval of its own. The newest one counts.
struct Interval {
    EntryKey subject;                // vessel or run; empty: `role` is set
    std::optional<VesselRole> role;  // without a subject
    Recurring what = Recurring::reading;
    int days = 0;  // 0: not asked for any more
    friend bool operator==(const Interval&, const Interval&) = default;
};

// A figure that a beer shall have: from `low` to `high`, either may be missing.
struct TargetFigure {
    std::string figure;  // "sourness", "ta", "ph", ...
    std::optional<Decimal> low;
    std::optional<Decimal> high;
    Decimal weight;  // beside the others; above 0
    friend bool operator==(const TargetFigure&, const TargetFigure&) = default;
};

// What a solera, or what comes out of it, shall be like, from this entry on: the newest one counts.
struct Target {
    EntryKey subject;  // vessel or run
    std::vector<TargetFigure> figures;
    std::string words;  // "as turn 4"
    friend bool operator==(const Target&, const Target&) = default;
};

// A figure of a beer before it is finished, and as it was expected to be afterwards; spreads are one standard
// deviation.
struct ForecastFigure {
    std::string figure;  // attribute, or "ta", "ph", "alcohol", "gravity", ...
    Decimal before;
    Decimal before_sd;
    Decimal after;
    Decimal after_sd;
    friend bool operator==(const ForecastFigure&, const ForecastFigure&) = default;
};

struct Alternative {
    std::string name;  // "Leave it alone and package as it is"
    Decimal inside;    // chance of ending inside the target, 0 to 1
    friend bool operator==(const Alternative&, const Alternative&) = default;
};

// How a beer is to be finished, what was expected of it, and what else there was to choose from. Nothing is added by
// it.
struct Decide {
    EntryKey subject;       // vessel
    Volume volume;          // of it
    std::string technique;  // id of a row of data/techniques.csv
    std::string way;        // of fruit: "onto_beer", "pre_fermented"; else empty
    Decimal dose;           // in the technique's unit; 0 without a dose
    std::string unit;       // "g/L", "percent", "months", ...; empty without a dose
    Decimal days;           // of contact
    bool sour = false;      // a sour beer, not a clean one
    Decimal inside;         // chance of ending inside the target, 0 to 1
    std::vector<ForecastFigure> forecast;
    std::vector<Alternative> alternatives;
    std::string words;  // why
    friend bool operator==(const Decide&, const Decide&) = default;
};

// Takes the entry it supersedes out of the book.
struct Void {
    friend bool operator==(const Void&, const Void&) = default;
};

// An entry of a kind a newer program wrote: kept byte for byte, and the book opens read-only.
struct Unknown {
    std::string kind;
    std::string canonical;  // the whole entry's canonical bytes
    friend bool operator==(const Unknown&, const Unknown&) = default;
};

using Body = std::variant<VesselJoins, VesselLeaves, LotEnters, Move, Loss, Addition, Lift, Pitch, Reading, Tasting,
                          Package, Take, Care, Note, Snapshot, Acknowledge, Interval, Settle, Calibrate, LoggerFile,
                          Treat, Confirm, Target, Decide, Void, Unknown>;

// The word of a body's kind: "vessel", "retire", "lot", "move", "loss", "add", "lift", "pitch", "reading",
// "tasting", "package", "take", "care", "note", "snapshot", "acknowledge", "interval", "settle", "calibrate", "logger",
// "treat", "confirm", "target", "decide", "void", or the newer kind's own.
[[nodiscard]] std::string kind_word(const Body& body);
[[nodiscard]] std::vector<std::string> kind_words();  // of every kind this program knows

struct Entry {
    EntryKey key;
    int sitting_size = 1;  // entries booked together in this sitting
    Place place;
    std::optional<EntryKey> supersedes;  // head of the chain it replaces
    std::string reason;                  // why it supersedes
    std::string by;                      // person commitment of who booked it, or empty
    // Of an entry that came from another book: that book's id, and the hash of the entry as it stood there.
    // Both or neither. What came from a third book keeps the first one's name.
    std::string origin_book;
    std::string origin_hash;
    Body body;
    // Given by the journal when booked; 0 while drafted.
    std::int64_t sequence = 0;  // 1, 2, 3, … in order of arrival: the short number keepers see
    Instant recorded;

    [[nodiscard]] Instant at() const { return place.at; }
};

}  // namespace undercroft::ledger

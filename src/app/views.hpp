// What the book answers: plain values, ready to be shown by `render` as text or JSON.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/act.hpp"
#include "base/instant.hpp"
#include "base/result.hpp"
#include "engine/age/age.hpp"
#include "engine/state/estimate.hpp"
#include "engine/state/term.hpp"
#include "ledger/entry.hpp"
#include "ledger/journal.hpp"
#include "ledger/replay.hpp"
#include "units/amount.hpp"
#include "units/volume.hpp"

namespace undercroft::app {

using engine::Caution;
using engine::Term;

// Common head of every answer.
struct BookLine {
    std::string name;
    std::string zone;
    bool invented = false;
    bool read_only = false;
    std::int64_t sequence = 0;  // of the last entry: two answers with the same number saw the same book
    VolumeUnit unit = VolumeUnit::litres;
    // Of a newer book: entries of kinds this program does not know. Answers leave them out.
    int skipped = 0;
    std::string skipped_since = {};  // ISO day of the earliest; empty: none
    // ISO day up to which the rest still fits together without them; empty: all of it does. Later entries are left out.
    std::string answers_until = {};
};

struct EntryLine {
    std::int64_t number = 0;  // journal sequence; 0 for a draft
    std::string key;          // "sitting:index"
    std::string kind;
    std::string day;            // ISO day in the cellar's zone
    std::string time;           // "18:30" in the cellar's zone
    std::string text;           // one sentence
    std::string by;             // name, or empty
    bool live = true;           // false: superseded or voided
    std::string superseded_by;  // "#17" when not live
    std::string reason;         // why it supersedes
};

struct LastReading {
    std::string quantity;  // word of Quantity
    std::string value;     // as written, "1.0080"
    std::string unit;
    std::string day;
    int days_ago = 0;
    std::string calibrated = {};  // the same with what the instrument is off by, "3.46"; empty: not calibrated
    std::string offset = {};      // "-0.06 pH"
};

// The newest stock-take of a vessel.
struct StockLine {
    std::int64_t number = 0;  // of the entry
    std::string found_by;     // word of FoundBy
    std::string day;
    int days_ago = 0;
    Volume found;
    Volume found_sd;
    Volume booked;  // in the vessel after it by all that is booked now; not `found` after late entries
};

// What has likely evaporated and is not booked.
struct EvaporationLine {
    Volume likely;
    Volume low;
    Volume high;
    double share_a_year = 0.0;
    std::string since;  // ISO day
};

struct NamedEstimate {
    std::string quantity;  // "gravity", "alcohol", "ph", "ta", "ibu", "colour"
    std::string unit;      // "SG", "% vol", "pH", "g/L as lactic, to pH 8.2", "IBU", "EBC"
    int decimals = 2;      // worth showing
    engine::Estimate estimate;
};

struct CultureLine {
    std::string name;
    std::string kind;  // id of the culture kind
    ledger::KillerPhenotype killer = ledger::KillerPhenotype::unknown;
    ledger::ToxinType toxin = ledger::ToxinType::unknown;
    ledger::Diastatic diastatic = ledger::Diastatic::unknown;
    ledger::Certainty certainty = ledger::Certainty::possible;
    std::string since;      // ISO day it came into this vessel or run
    std::string came_from;  // where it entered the cellar: vessel name
    std::string through;    // gear it is suspected through; empty: none
    std::string last_in;    // vessel where that gear met it most surely
};

struct AllergenLine {
    std::string group;
    std::optional<double> mg_per_litre;  // absent: amount unknown
};

struct VesselSummary {
    std::int64_t number = 0;  // of the entry that registered it
    std::string name;
    std::string tag;
    ledger::VesselRole role = ledger::VesselRole::solera;
    std::string material;
    std::string location;
    Volume capacity;                 // brimful
    Volume full;                     // capacity less ullage
    Volume volume;                   // liquid
    Volume solids;                   // room its fruit takes
    double fill = 0.0;               // volume / full
    std::optional<engine::Age> age;  // nothing when empty or without beer
    std::vector<LastReading> last;   // newest first, one per quantity
    Volume volume_sd = {};           // of `volume`: one standard deviation
    std::string gauge = {};          // what is known of its inside: "upright, 42 cm high inside; tare 12 kg"
    std::optional<StockLine> stock_take = {};
    std::optional<EvaporationLine> evaporation = {};
};

struct RunSummary {
    std::int64_t number = 0;
    std::string run;
    std::string source;  // vessel it was packaged from
    std::string container;
    Volume fill;
    int count = 0;
    int left = 0;
    std::vector<std::pair<std::string, int>> taken;  // cause, containers; "missing" of those a count did not find
    int found_again = 0;                             // counted although the book had them gone
    std::string packaged;                            // ISO day
    std::string location;
    std::optional<engine::Age> age_when_packaged;
    double years_in_container = 0.0;
};

// Something to be done, and when.
struct DueLine {
    std::string subject;  // vessel or run
    std::string what;     // "gas", "refill", "reading", "check", "tasting", "lift", "rack", "watch", "taste", "brew",
                          // "pull", "top_up", "open", "recheck", "add"
    std::string title;    // "read it", "lift the coriander seed"
    std::string from;     // ISO day from which it makes sense
    std::string day;      // ISO day it is due
    std::string until;    // last day of a window; empty: as soon as it is due
    int days = 0;         // from today until `day`; below zero: overdue
    bool urgent = false;  // waiting does harm
    std::string why;
    std::string command;  // what would settle it, capitals to be filled in
};

// Most urgent first.
struct DueView {
    BookLine book;
    std::string on;
    int within_days = 0;
    std::vector<DueLine> lines;
};

struct FindingDifference {
    std::string what;  // "allergens", "culture", "alcohol", "verdict", "total pressure"
    std::string said;
    std::string now;
};

struct Receiver {
    std::string who;  // may be empty
    int count = 0;
    std::string cause;  // word of TakeCause
    std::string day;    // ISO
};

// Something handed out or accepted that later entries made untrue (findings.hpp).
struct FindingView {
    std::string kind;  // "label", "verdict", or "caution": a verdict that was accepted
    std::string run;
    std::int64_t number = 0;  // of the entry that keeps what was said
    std::string key;          // the same as a key
    std::string day;          // ISO day it was said
    std::int64_t since = 0;   // number of the entry that made it untrue; 0: of the sitting that is drafted
    std::vector<FindingDifference> differences;
    int on_hand = 0;  // containers that carry it
    int given = 0;
    int sold = 0;
    std::vector<Receiver> receivers;
    std::string words;  // what is untrue, one sentence
    std::string where;  // where the containers are, one sentence
    std::string next_step;
};

// Something that may ride on a piece of gear.
struct RiderLine {
    std::string culture;
    std::string since;   // ISO day
    std::string was_in;  // vessel where the gear met it most surely
};
struct GearLine {
    std::string name;
    std::string last_in;  // vessel it touched last; empty: none
    std::string last_used;
    std::vector<RiderLine> riders;  // none: nothing since its last kill step
};
struct GearView {
    BookLine book;
    std::string on;
    std::vector<GearLine> gear;  // in the order the book came to know it
};

struct FindingsView {
    BookLine book;
    std::vector<FindingView> findings;  // what was said first comes first
};

struct CellarView {
    BookLine book;
    std::string on;                      // ISO day
    std::vector<VesselSummary> vessels;  // not retired, soleras first, in order of joining
    std::vector<RunSummary> runs;
    Volume in, out, on_hand;
    std::vector<DueLine> today;         // today and next, at most five; nothing about a past day
    std::vector<FindingView> findings;  // of today; none when asked about another day
};

// Everything about one vessel or one run.
struct HoldingView {
    BookLine book;
    std::string on;
    std::optional<VesselSummary> vessel;  // one of the two
    std::optional<RunSummary> run;
    std::optional<engine::Age> from_brew_day;
    std::optional<engine::Age> from_entry;
    std::vector<NamedEstimate> estimates;
    std::vector<CultureLine> cultures;
    std::vector<AllergenLine> allergens;
    std::vector<std::string> inside;     // loose fruit and bags: "3 kg plum (loose) since 2026-02-01"
    std::vector<std::string> took_from;  // additions whose taste it carries
    std::vector<EntryLine> entries;      // newest first
    std::vector<Caution> cautions;
    std::vector<FindingView> findings;  // about this run, today
};

struct EntriesView {
    BookLine book;
    std::vector<EntryLine> entries;  // newest first
    std::int64_t more = 0;           // number to ask `before` for the next; 0: these were the last
};

// One entry, with all that it replaced and that replaced it.
struct EntryView {
    BookLine book;
    EntryLine entry;
    std::vector<EntryLine> chain;  // newest first
    std::optional<Act> act;        // what it could be corrected with; nothing where no act says such an entry
};

// The book as a whole.
struct AboutView {
    BookLine book;
    Gallons gallons = Gallons::unset;
    Instant now;
    std::string today;  // ISO day in the cellar's zone
    bool empty = false;
};

// One line of before and after.
struct Change {
    std::string subject;  // vessel or run
    std::string what;     // "volume", "mean age", "gravity", …
    std::string before;   // "" when it was not there
    std::string after;
};

// The middle, and what nine of ten bottles lie between.
struct BandLine {
    double low = 0.0;
    double mid = 0.0;
    double high = 0.0;
};

// The gas check as a distribution over single bottles (engine/package/gas_spread.hpp).
struct GasSpreadView {
    BandLine volumes;                                         // of CO2, all that will be in it
    std::vector<std::pair<std::string, BandLine>> causes;     // volumes, named as in GasCheckView::gas
    std::vector<double> shares;                               // of the causes, in the same order; sum to 1
    std::vector<std::pair<double, BandLine>> by_temperature;  // °C, total gauge bar
    std::optional<BandLine> at_store;                         // bar; absent: too little head space for that store
    double over_limit = 1.0;                                  // chance of passing the limit; 1 when unrated
    std::optional<double> warmest_safe_c;                     // 95 of 100 within what is allowed; absent: nowhere
    std::optional<double> carbonated_from_days, carbonated_until_days;
    std::string words;  // all that in a few sentences
};

struct GasCheckView {
    BookLine book;
    std::string subject;  // vessel, or empty for a sum without a book
    std::string container;
    std::string verdict;               // "ready", "wait", "do_not"
    std::string verdict_words;         // one sentence, names horizon and store
    std::vector<std::string> reasons;  // why not better; each names the evidence that would change it
    std::vector<Term> gas;             // volumes of CO2, upper bounds
    double total_volumes = 0.0;
    double total_g_per_l = 0.0;
    std::vector<Term> pressure;  // bar at the warmest store: CO2, air, vapour, total gauge
    double total_gauge_bar = 0.0;
    double store_c = 25.0;
    std::optional<double> limit_bar;                        // weakest of container and closure; absent: unrated
    double allowed_bar = 0.0;                               // 0.8 of the limit, 0 when unrated
    double limit_needed_bar = 0.0;                          // what to ask the maker for
    std::vector<std::pair<double, double>> by_temperature;  // °C, total gauge bar
    std::optional<GasSpreadView> spread;                    // absent with the gravity not read
    std::vector<Caution> cautions;
};

// One band of a make-up.
struct Stratum {
    double share = 0.0;  // of the liquid
    double age_years = 0.0;
    friend bool operator==(const Stratum&, const Stratum&) = default;
};

struct LabelView {
    BookLine book;
    std::string run;
    std::string text;  // what is printed
    std::vector<std::pair<std::string, std::string>> facts;
    bool kept = false;                 // booked as a snapshot
    std::vector<Stratum> strata = {};  // when packaged, oldest first
};

// What was put on paper.
struct PrintedView {
    BookLine book;
    std::string what;     // "labels", "tags", …
    std::string subject;  // the run, the lot recalled, the year; may be empty
    std::string file;     // where it was written; empty: nowhere yet
    int pages = 0;        // 0: not counted
    std::string words;    // what it is, a sentence or two
    bool kept = false;    // what a label says is kept in the book
    std::vector<Caution> cautions;
};

// What a sitting leaves a vessel or run with, as far as it decides whether the same acts still do what was shown.
struct TouchedCulture {
    std::string name;
    std::string certainty;  // word of Certainty
    friend auto operator<=>(const TouchedCulture&, const TouchedCulture&) = default;
};

struct Touched {
    std::int64_t number = 0;               // 0: of an entry of this very sitting, and then the name tells which
    std::string name;                      // vessel or run
    Volume held;                           // before
    Volume volume;                         // after
    std::vector<TouchedCulture> cultures;  // after, by name
    friend bool operator==(const Touched&, const Touched&) = default;
};

// What a sitting does, or would do.
struct SittingView {
    BookLine book;
    bool booked = false;   // false: what-if
    bool already = false;  // the same sitting was booked before
    std::string key;       // sitting key
    std::string when;      // ISO day and time
    std::vector<EntryLine> entries;
    std::vector<HoldingView> before;  // what the sitting touches, as it was …
    std::vector<HoldingView> after;   // … and is, in the same order
    std::vector<Touched> touched;     // the same in short, to be sent back when it is booked
    std::vector<Change> changes;      // the same, row by row
    std::vector<Change> moved;        // what else is different today because of it, when it comes late or corrects
    std::vector<FindingView> findings_opened;
    std::vector<FindingView> findings_closed;
    std::vector<GasCheckView> gas_checks;
    std::vector<LabelView> labels;
    std::vector<Caution> cautions;
    std::vector<std::string> remarks;  // "0.4 L had evaporated unseen: booked with the top-up"
    std::optional<Error> objection;    // of a what-if: why it would not be booked as it is
};

// Jotted lines as they were understood, each in the spelling of a typed act, and what they do.
struct JottedView {
    std::vector<std::string> acts;
    SittingView sitting;
};

// What a keeper takes along: vessels that hold something, in the order they stand.
struct RoundView {
    BookLine book;
    std::string on;
    std::vector<VesselSummary> vessels;  // by location, then tag, then name; numbers count as numbers
};

struct TraceStep {
    std::string what;  // lot, addition, culture, vessel or run
    std::string name;
    std::string detail;  // "brewed 2025-04-02, entered The Amber 2025-04-16"
    double share = 0.0;  // of the liquid asked about (back) or of the lot (forward)
    Volume volume;       // that share as volume
    std::string when;
    std::string certainty;  // of a culture
};

struct TraceView {
    BookLine book;
    std::string direction;  // "back" or "forward"
    std::string subject;
    std::string on;
    std::vector<TraceStep> sources;  // back: lots; forward: vessels, runs, and what left
    std::vector<TraceStep> additions;
    std::vector<TraceStep> cultures;
    std::vector<TraceStep> path;  // vessels the liquid passed through
    double share_sum = 0.0;
};

struct FruitDate {
    std::string day;
    std::string task;
    std::string done_when;
    std::string caution;
};

// One way of meeting fruit: fermented first on its own yeast, or straight onto the beer.
struct FruitWay {
    std::string way;  // "pre_fermented" or "onto_beer"
    std::string title;
    std::vector<Term> terms;  // every figure with how it was got
    Volume least_vessel;
    Volume final_volume;
    double final_alcohol = 0.0;  // % vol
    double final_gravity = 0.0;
    double gas_if_closed_volumes = 0.0;  // closed too early: on top of what is dissolved
    std::vector<FruitDate> dates;
};

struct FruitView {
    BookLine book;
    std::string fruit;
    std::string mass;
    std::vector<Term> fruit_terms;  // edible mass, sugars, water, acids, enzyme, nutrient, hold-up
    std::vector<FruitWay> ways;     // side by side
    std::vector<Caution> cautions;
};

struct PictureView {
    BookLine book;
    std::int64_t number = 0;  // of the entry
    std::string media_type;
    std::string bytes;
};

// A person or picture that was forgotten, or would be.
struct ForgetView {
    BookLine book;
    std::string what;        // "person" or "picture"
    std::string name;        // of the person, as it was; "#12" of the picture's entry
    bool forgotten = false;  // false: what-if
    int entries = 0;         // entries it stood in
    int booked = 0;          // of these: booked by, tasted by, given to
    int tasted = 0;
    int received = 0;
    std::vector<EntryLine> mentions;  // entries whose own words hold the name, oldest first; these keep it
};

struct CheckView {
    BookLine book;
    std::vector<ledger::CheckFinding> findings;
    std::string head;  // last link of the chain, 64 hex digits; empty for a book kept in memory
    [[nodiscard]] bool ok() const {
        for (const auto& finding : findings)
            if (!finding.ok) return false;
        return true;
    }
};

struct BackupView {
    BookLine book;
    std::string path;
    std::int64_t entries = 0;
    std::string head;  // last link of the chain, 64 hex digits
};

}  // namespace undercroft::app

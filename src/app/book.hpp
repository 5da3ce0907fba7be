// The use cases, once for every face: ask the book, preview a sitting, book it.
//
// Holds: a preview runs the same drafting and the same replay as the booking, so what-if then book gives
// what the what-if showed. Nothing is half-applied: a sitting is booked whole or not at all.
// This is the only place where engines and journal meet.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/act.hpp"
#include "app/ages.hpp"
#include "app/blend_trials.hpp"
#include "app/blending.hpp"
#include "app/blind.hpp"
#include "app/course.hpp"
#include "app/describe.hpp"
#include "app/finish.hpp"
#include "app/finish_book.hpp"
#include "app/gap.hpp"
#include "app/letter.hpp"
#include "app/names.hpp"
#include "app/over_time.hpp"
#include "app/panel.hpp"
#include "app/quarter.hpp"
#include "app/shelf_views.hpp"
#include "app/tasting_words.hpp"
#include "app/views.hpp"
#include "app/weighing.hpp"
#include "base/result.hpp"
#include "engine/trace/trace.hpp"
#include "ledger/journal.hpp"
#include "tables/tables.hpp"

namespace undercroft::app {

// What changes from call to call comes in from the edge.
struct Surroundings {
    std::function<Instant()> now;
    // 16 random bytes as hex: salts and sitting keys are made from these.
    std::function<std::string()> random16;
    // BLAKE2b-256(salt || name), both as the store checks them.
    std::function<std::string(const std::string& salt_hex, const std::string& name)> commitment;
};

// Which state of the book a question is about.
struct Moment {
    std::string on;        // day; empty: now
    std::string known_on;  // day; empty: all we know now
    [[nodiscard]] bool is_now() const { return on.empty() && known_on.empty(); }
};

// Fruit addition as asked; with a book the beer may be a vessel's.
struct FruitRequest {
    std::string fruit;
    std::string mass;
    std::string beer;    // vessel of the book; empty: the figures below
    std::string volume;  // of beer; empty: all the vessel holds
    std::string gravity, alcohol;
    std::string fruit_gravity;  // measured juice, "12 Brix"; empty: the table's
    std::string pull;           // day the beer is pulled; empty: today + what the earliest task needs
    std::string enzyme_dose;    // mL per kg or g per kg, by the packet; empty: the table's middle
    std::string nutrient_dose;  // g per L of juice, by the packet; empty: named, not counted
    std::string hold_up;        // share of the fruit's mass; empty: 10 %
};

// Gas check as asked; with a book the beer is a vessel's.
struct GasRequest {
    std::string beer;  // vessel or run of the book; empty: the figures below
    std::string container;
    std::string gravity, original_gravity, alcohol, priming, fill, head_space, store;
    std::vector<std::string> cultures;
    std::string malic, citric, sorbitol;   // g/L
    std::string fermentation_temperature;  // warmest since finished; empty: from readings, else 20 C
    std::string limit;                     // the maker's figure, "6 bar"
    std::string altitude;                  // m; empty: sea level
    std::string horizon = {};              // how long it will stand, "2 years"; empty: 12 months
    std::string forced;                    // gravity where a forced test came to rest; empty: none was made
    std::vector<std::string> canary;       // each "14 days, 2.1 bar" or "14 days, squeeze 3", at 30 C or ", 28 C"
    bool purged = false;
    bool given_away = false;
    bool stable = false;  // gravity read equal over the days the culture needs
};

// What to prove.
struct CheckRequest {
    std::vector<std::string> checks;  // their names; empty: all
    std::string head;                 // a head of the chain written down elsewhere; empty: nothing to compare with
};

// Entries as asked for, newest first.
struct EntriesRequest {
    std::string subject = {};  // vessel or run; empty: the whole book
    std::string kind = {};     // word of a kind; empty: all
    std::string words = {};    // all of them stand in what is shown of the entry; empty: whatever it says
    std::int64_t before = 0;   // number of an entry: only what comes after it in this list; 0: from the newest on
    int most = 40;
};

// What a keeper was shown when agreeing to a sitting.
struct Expected {
    std::int64_t sequence = 0;     // of the book that was looked at
    std::vector<Touched> touched;  // SittingView::touched of then
};

// A sitting that was booked, or that would do something else than was shown: then nothing is booked.
struct AsShown {
    SittingView sitting;  // booked; or what it would do now
    std::optional<Error> stale;
};

// Sums without a book. `unit` and gallons come from the caller.
[[nodiscard]] Result<FruitView> fruit_sum(const FruitRequest& request, const tables::Tables& tables, Gallons gallons,
                                          Day today);
[[nodiscard]] Result<GasCheckView> gas_sum(const GasRequest& request, const tables::Tables& tables, Gallons gallons);

struct WeighRequest {
    std::string vessel;
    std::string twin;   // the evaporation twin; empty: none
    std::string scale;  // what the scale shows apart; empty: 1 g
};

struct DraftInputs;
class Drafter;

class Book {
public:
    // Everything given must outlive the Book.
    Book(ledger::Journal& journal, ledger::Keepsafe* keepsafe, const Zone& zone, const tables::Tables& tables,
         Surroundings surroundings);

    // --- questions ---------------------------------------------------------------------------
    [[nodiscard]] Result<CellarView> cellar(const Moment& moment);
    [[nodiscard]] Result<HoldingView> show(const std::string& name, const Moment& moment);  // vessel or run
    [[nodiscard]] Result<AboutView> about();
    // The subject may also be the number of an entry, which is then shown with all it replaced.
    [[nodiscard]] Result<EntriesView> entries(const EntriesRequest& request);
    [[nodiscard]] Result<EntryView> entry(std::int64_t number);
    [[nodiscard]] Result<RiverView> river(const std::string& name, const Moment& moment);
    [[nodiscard]] Result<ReadingsView> readings(const std::string& name, const Moment& moment);
    [[nodiscard]] Result<FlowView> flow(const std::string& name, const Moment& moment);
    [[nodiscard]] Result<TraceView> trace_back(const std::string& name, const Moment& moment);
    [[nodiscard]] Result<TraceView> trace_forward(const std::string& name, const Moment& moment);  // lot or culture
    [[nodiscard]] Result<FruitView> fruit(const FruitRequest& request);
    [[nodiscard]] Result<GasCheckView> gas(const GasRequest& request);
    // What is due within a span such as "14 days"; overdue things always.
    [[nodiscard]] Result<DueView> due(const std::string& within);
    [[nodiscard]] Result<RoundView> round();
    [[nodiscard]] Result<Names> names();  // of all vessels and runs now
    [[nodiscard]] Result<AgeView> age(const AgeRequest& request);
    [[nodiscard]] Result<LabelView> label(const std::string& run, const std::string& beer_name);

    [[nodiscard]] Result<ShelfView> shelf(const Moment& moment);
    [[nodiscard]] Result<RecallView> recall(const std::string& name, const Moment& moment);  // lot, addition, culture
    [[nodiscard]] Result<DregsView> dregs(const std::string& name, const Moment& moment);    // of a run or vessel
    [[nodiscard]] Result<BlindView> plan_tasting(const BlindRequest& request);
    [[nodiscard]] Result<TastingWordsView> tasting_words(const std::string& word, const Moment& moment);
    [[nodiscard]] Result<GapView> gap(const std::string& name, const Moment& moment);      // of a vessel or run
    [[nodiscard]] Result<PanelView> panel(const std::string& name, const Moment& moment);  // of a vessel or run
    [[nodiscard]] Result<WeighingView> weigh(const WeighRequest& request, const Moment& moment);
    [[nodiscard]] Result<BlendView> plan_blend(const BlendRequest& request);
    [[nodiscard]] Result<QuarterView> plan_quarter(const QuarterRequest& request);
    [[nodiscard]] Result<FinishView> plan_finish(const FinishRequest& request);
    [[nodiscard]] Result<LearnedView> learned(const Moment& moment);  // of finished portions
    [[nodiscard]] Result<TrialsView> plan_trials(const TrialsRequest& request);
    [[nodiscard]] Result<LetterView> letter(int year);  // fails: bad_input for a year to come
    [[nodiscard]] Result<FindingsView> findings();
    // Hoses, pumps, canes, and what may ride on them.
    [[nodiscard]] Result<GearView> gear(const Moment& moment);

    // --- sittings ----------------------------------------------------------------------------
    [[nodiscard]] Result<SittingView> preview(const SittingRequest& request);
    [[nodiscard]] Result<SittingView> book(const SittingRequest& request);
    // Books what was shown: on a book that has moved on since, only when the same acts still leave every vessel and run
    // they touch with the volumes and certainties of `expected`. A sitting booked before is answered as booked.
    [[nodiscard]] Result<AsShown> book_as_shown(const SittingRequest& request, const Expected& expected);
    [[nodiscard]] Result<RememberView> remember(const RememberRequest& request);
    // With a draft of one.
    [[nodiscard]] Result<DesignView> design(const DesignRequest& request, const Patience& patience = {});
    [[nodiscard]] Result<ChangeView> change(const ChangeRequest& request);  // never booked

    // --- forgetting --------------------------------------------------------------------------
    [[nodiscard]] Result<PictureView> picture(const std::string& entry);
    // What is forgotten is gone for good; the chain and every entry stay. `name` is the exact one.
    [[nodiscard]] Result<ForgetView> forget_person(const std::string& name, bool what_if);
    [[nodiscard]] Result<ForgetView> forget_picture(const std::string& entry, bool what_if);

    // --- safety ------------------------------------------------------------------------------
    // Errors: bad_input for a check nobody knows, or a head that is none.
    [[nodiscard]] Result<CheckView> check(const CheckRequest& request = {});
    [[nodiscard]] Result<BackupView> backup(const std::string& path);

private:
    struct Look;
    [[nodiscard]] DraftInputs draft_inputs();
    [[nodiscard]] Result<Look> look(const Moment& moment);
    // Entries and people, read again when the book has moved on.
    [[nodiscard]] Result<void> load();
    [[nodiscard]] tl::expected<std::shared_ptr<const Standing>, ledger::ReplayFault> standing(
        const ledger::Scope& scope);
    [[nodiscard]] Result<std::shared_ptr<const Standing>> standing_at(const Moment& moment, Instant& when);
    [[nodiscard]] Telling telling() const;
    // What was just booked, without reading the book again.
    [[nodiscard]] Result<void> take_in(std::vector<ledger::Entry> booked);
    [[nodiscard]] BookLine line() const;
    // The picture a note holds.
    [[nodiscard]] Result<ledger::Picture> picture_of(const std::string& entry, std::int64_t& number);
    [[nodiscard]] std::vector<FindingView> findings_at(const Look& here) const;
    // Books a drafted sitting and finishes its view.
    [[nodiscard]] Result<void> append(Drafter& drafter, SittingView& view);
    [[nodiscard]] Result<void> check_writable() const;
    // A vessel or run; of what comes only later the error says when.
    [[nodiscard]] Result<engine::HolderRef> holder_named(const Look& here, std::string_view field,
                                                         const std::string& name);
    [[nodiscard]] Gallons gallons() const { return m_journal.facts().gallons; }
    [[nodiscard]] Day today() const { return day_of(m_surroundings.now(), m_zone); }

    ledger::Journal& m_journal;
    ledger::Keepsafe* m_keepsafe;
    const Zone& m_zone;
    const tables::Tables& m_tables;
    Surroundings m_surroundings;
    std::vector<ledger::Entry> m_entries;  // its entries stay where they are: m_course points at them
    Course m_course;
    std::vector<ledger::Person> m_persons;
    std::int64_t m_sequence = 0;
    std::optional<Instant> m_whole_until;  // see BookLine::answers_until; of the newest answer
};

}  // namespace undercroft::app

// A sitting while it is drafted: acts become entries one after the other, each seeing what the ones before it did.
//
// Holds: nothing is booked here. The entries it ends with are exactly what a booking appends, and the cellar after
// them is exactly what a preview shows.
#pragma once

#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "app/bodies.hpp"
#include "app/course.hpp"
#include "app/views.hpp"
#include "ledger/journal.hpp"

namespace undercroft::app {

// What drafting needs to know of the book.
struct DraftInputs {
    const ledger::BookFacts& facts;
    const std::vector<ledger::Entry>& booked;
    Course& course;  // of the booked entries; replays made while drafting are kept there
    const std::vector<ledger::Person>& persons;
    const Zone& zone;
    const tables::Tables& tables;
    const Surroundings& surroundings;
    VolumeUnit unit = VolumeUnit::litres;
    // The picture of a commitment in the book; left out by who drafts sittings that are never booked.
    std::function<Result<std::optional<ledger::Picture>>(const std::string&)> picture = nullptr;
};

class Drafter {
public:
    explicit Drafter(const DraftInputs& inputs);

    // Drafts the whole sitting and replays the book with it. On an error nothing of it remains.
    [[nodiscard]] Result<void> draft(const SittingRequest& request);

    [[nodiscard]] ledger::Sitting sitting() const;
    [[nodiscard]] Instant at() const { return m_at; }
    // True when the sitting's key is in the book and says the same; its entries are then those booked.
    [[nodiscard]] bool already() const { return m_already; }
    // Why it must not be booked without an acknowledgement.
    [[nodiscard]] const std::optional<Error>& objection() const { return m_objection; }

    // Fills everything but the head of the view.
    [[nodiscard]] Result<void> show(SittingView& view);

private:
    [[nodiscard]] Result<void> place_sitting(const SittingRequest& request);
    [[nodiscard]] Result<void> draft_act(const Act& act, const std::string& by);
    // Acts that become several entries, each drafted on what the ones before it did (drafter_parts.cpp).
    [[nodiscard]] Result<void> draft_end(const EndVessel& act, const std::string& by);
    [[nodiscard]] Result<void> draft_split(const SplitVessel& act, const std::string& by);
    // The cellar that the next draft comes upon.
    [[nodiscard]] Result<std::shared_ptr<const Standing>> standing_next();
    [[nodiscard]] Result<void> draft_correction(const Correct& act, const std::string& by);
    [[nodiscard]] Result<void> draft_void(const VoidEntry& act, const std::string& by);
    [[nodiscard]] Result<ledger::Body> body_for(const Act& act, Course& course, const ledger::Place& before);
    [[nodiscard]] Result<ledger::Body> acknowledge(const AcknowledgeFinding& act, const ledger::EntryKey& run,
                                                   Course& course) const;
    void append(ledger::Entry entry);
    [[nodiscard]] Result<void> check_faults(const Act& act, const std::string& by);
    [[nodiscard]] Result<void> check_gas(const PackageRun& act, const std::string& by);
    [[nodiscard]] Result<void> same_as_booked();
    [[nodiscard]] ledger::Entry new_entry(const std::string& by) const;
    [[nodiscard]] Result<std::shared_ptr<const Standing>> standing_or_say(Course& course,
                                                                          const ledger::Scope& scope) const;
    // What a correction would break, all of it, in the place of the first that breaks.
    void name_needs(Error& error, const Course& course) const;
    // Replays what stands before `place`, so that the book with and without a draft go on from there.
    [[nodiscard]] Result<void> replay_before(const ledger::Place& place);
    [[nodiscard]] Course& base() { return m_earlier ? *m_earlier : m_in.course; }
    [[nodiscard]] Course& course() { return m_drafts.empty() ? base() : m_with_drafts; }
    [[nodiscard]] Telling telling() { return words_of(course()); }
    [[nodiscard]] Telling words_of(const Course& course) const {
        return {course.chains(), m_people.all(), m_in.zone, m_in.unit};
    }
    [[nodiscard]] bool is_draft(const ledger::EntryKey& key) const { return key.sitting == m_key; }

    DraftInputs m_in;
    std::span<const ledger::Entry> m_booked;  // what the drafts come after
    std::optional<Course> m_earlier;          // of them, when they are not the whole book
    std::deque<ledger::Entry> m_drafts;       // where they are, they stay
    Course m_with_drafts;                     // of both, once there are drafts
    std::string m_key;
    Instant m_at;
    bool m_when_stated = false;
    std::optional<ledger::Place> m_after;
    People m_people;
    Pictures m_pictures;
    bool m_already = false;
    bool m_corrects = false;
    std::vector<ledger::Entry> m_booked_same;  // entries in the book under this sitting's key
    std::vector<ledger::EntryKey> m_superseded;
    std::vector<std::string> m_remarks;
    std::vector<Caution> m_cautions;
    std::vector<GasCheckView> m_gas_checks;
    std::vector<LabelView> m_labels;
    std::optional<Error> m_objection;
};

}  // namespace undercroft::app

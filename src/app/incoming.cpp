#include "app/incoming.hpp"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

#include "app/book_line.hpp"
#include "app/describe.hpp"
#include "ledger/references.hpp"
#include "ledger/replay.hpp"

namespace undercroft::app {

using namespace ledger;

void Incoming::take(const Entry& original, Entry as) {
    m_numbers.push_back(original.sequence);
    as.sequence = 0;
    m_entries.push_back(std::move(as));
}

Result<void> Incoming::fit_into(const BookCopy& here, const BookCopy& other, const Zone& zone, ImportView& view) const {
    std::vector<Entry> all = here.entries;
    all.insert(all.end(), m_entries.begin(), m_entries.end());
    std::vector<Person> people = here.persons;
    people.insert(people.end(), other.persons.begin(), other.persons.end());
    std::unordered_map<std::string, std::int64_t> number_there;
    for (std::size_t i = 0; i < m_entries.size(); ++i) number_there.emplace(m_entries[i].key.text(), m_numbers[i]);

    const auto cellar = replay(all, {});
    if (!cellar) {
        const auto found = number_there.find(cellar.error().entry.text());
        const bool incoming = found != number_there.end();
        const Chains chains = chains_of(all);
        const Telling telling{chains, people, zone, unit_of(here.facts)};
        Error error = telling.error_of(cellar.error(), incoming);
        if (incoming)
            for (const Entry& entry : m_entries)
                if (entry.key == cellar.error().entry) {
                    error.where = "entry #" + std::to_string(found->second) + " there";
                    error.facts.insert(error.facts.begin(),
                                       {error.where, telling.day_text(entry.at()) + ": " + telling.sentence(entry)});
                    error.next_step = "Nothing was booked. Correct that entry there, or what it meets here.";
                }
        // What breaks may be a clash of two corrections: that is no damage of this book.
        if (error.kind == ErrorKind::storage) error.kind = ErrorKind::impossible;
        return Failure{std::move(error)};
    }

    view.entries = static_cast<std::int64_t>(m_entries.size());
    view.sittings = static_cast<std::int64_t>(sittings(BookCopy{}).size());
    view.already = m_entries.empty();
    for (const VesselState& vessel : cellar->vessels)
        if (number_there.contains(vessel.key.text()))
            view.came_in.push_back({"vessel", vessel.as.name, vessel.liquid.volume});
    for (const RunState& run : cellar->runs)
        if (number_there.contains(run.key.text())) view.came_in.push_back({"run", run.as.run, run.liquid.volume});
    return {};
}

std::vector<Sitting> Incoming::sittings(const BookCopy& from) const {
    return sittings_of(m_entries, from.persons, from.pictures);
}

std::vector<Sitting> sittings_of(const std::vector<Entry>& entries, const std::vector<Person>& persons,
                                 const std::vector<Picture>& pictures) {
    std::vector<Sitting> sittings;
    for (const Entry& entry : entries) {
        if (sittings.empty() || sittings.back().key != entry.key.sitting)
            sittings.push_back({entry.key.sitting, {}, {}});
        sittings.back().entries.push_back(entry);
    }
    for (Sitting& sitting : sittings) {
        std::unordered_set<std::string> named;
        for (const Entry& entry : sitting.entries)
            for_each_person(entry, [&named](const std::string& commitment) { named.insert(commitment); });
        for (const Person& person : persons)
            if (named.contains(person.commitment)) sitting.persons.push_back(person);
        std::unordered_set<std::string> shown;
        for (const Entry& entry : sitting.entries)
            if (const auto* note = std::get_if<Note>(&entry.body)) shown.insert(note->picture);
        for (const Picture& picture : pictures)
            if (shown.contains(picture.commitment)) sitting.pictures.push_back(picture);
    }
    return sittings;
}

void mark_booked(ImportView& view, const std::vector<Entry>& booked) {
    view.booked = true;
    if (booked.empty()) return;
    view.first_number = booked.front().sequence;
    view.last_number = booked.back().sequence;
    view.book.sequence = view.last_number;
}

}  // namespace undercroft::app

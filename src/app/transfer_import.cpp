// Entries of another book become entries of this one.
#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>

#include "app/book_line.hpp"
#include "app/describe.hpp"
#include "app/incoming.hpp"
#include "app/sitting_key.hpp"
#include "app/transfer.hpp"
#include "base/letters.hpp"
#include "base/nearest.hpp"
#include "ledger/references.hpp"
#include "ledger/replay.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

using CameFrom = std::pair<std::string, std::string>;  // book, hash
using Keys = std::unordered_map<std::string, EntryKey>;

CameFrom origin_of(const BookCopy& copy, std::size_t i) {
    const Entry& entry = copy.entries[i];
    return entry.origin_book.empty() ? CameFrom{copy.facts.id, copy.hashes[i]}
                                     : CameFrom{entry.origin_book, entry.origin_hash};
}

// Where every entry that is here came from, this book's own included.
std::map<CameFrom, EntryKey> origins_in(const BookCopy& copy) {
    std::map<CameFrom, EntryKey> origins;
    for (std::size_t i = 0; i < copy.entries.size(); ++i) {
        origins.emplace(CameFrom{copy.facts.id, copy.hashes[i]}, copy.entries[i].key);
        origins.emplace(origin_of(copy, i), copy.entries[i].key);
    }
    return origins;
}

// Draws a key for each of their sittings. Theirs and ours stand in the same order, so entries of one instant do too.
std::unordered_map<std::string, std::string> new_keys_for(const std::set<std::string>& theirs, const BookCopy& here,
                                                          const Surroundings& surroundings) {
    std::string newest;
    for (const Entry& entry : here.entries) newest = std::max(newest, entry.key.sitting);
    std::unordered_map<std::string, std::string> keys;
    for (const std::string& sitting : theirs) {
        newest = new_sitting_key(surroundings.now(), surroundings.random16(), newest);
        keys.emplace(sitting, newest);
    }
    return keys;
}

Failure dangling(const Entry& entry) {
    return fail(ErrorKind::storage, "entry #" + std::to_string(entry.sequence) + " there",
                "It names an entry that its book does not hold.", {},
                "Run `undercroft check references` on that book.");
}

Result<EntryKey> mapped(const EntryKey& key, const Keys& keys, const Entry& entry) {
    const auto found = keys.find(key.text());
    if (found == keys.end()) return dangling(entry);
    return found->second;
}

// Key by key: a path is made of the keys of entries.
Result<std::string> mapped_path(std::string_view path, const Keys& keys, const Entry& entry) {
    std::string result;
    while (true) {
        const auto slash = path.find('/');
        const auto key = EntryKey::from_text(std::string(path.substr(0, slash)));
        if (!key) return dangling(entry);
        TRY(const EntryKey ours, mapped(*key, keys, entry));
        result += ours.text();
        if (slash == std::string_view::npos) return result;
        result += '/';
        path.remove_prefix(slash + 1);
    }
}

Result<Entry> as_ours(const BookCopy& other, std::size_t i, const Keys& keys, Instant now) {
    const Entry& original = other.entries[i];
    Entry entry = original;
    TRY(entry.key, mapped(original.key, keys, original));
    TRY(entry.place.path, mapped_path(original.place.path, keys, original));
    if (original.supersedes) {
        TRY(entry.supersedes, mapped(*original.supersedes, keys, original));
    }
    std::tie(entry.origin_book, entry.origin_hash) = origin_of(other, i);
    entry.recorded = now;
    Result<void> outcome;
    for_each_reference(entry.body, [&](EntryKey& key, RefersTo) {
        const auto ours = mapped(key, keys, original);
        if (ours)
            key = *ours;
        else if (outcome)
            outcome = tl::unexpected(ours.error());
    });
    TRY_VOID(outcome);
    return entry;
}

struct TakenNames {
    std::set<std::string> vessels;  // lower case
    std::set<std::string> runs;
    std::set<std::string> tags;  // of vessels that have not left
};

// All that were ever here: history is read by name too.
Result<TakenNames> names_in(const BookCopy& copy, const Zone& zone) {
    const auto cellar = replay(copy.entries, {});
    if (!cellar) {
        const Chains chains = chains_of(copy.entries);
        return tl::unexpected(Telling{chains, copy.persons, zone, unit_of(copy.facts)}.error_of(cellar.error(), false));
    }
    TakenNames names;
    for (const VesselState& vessel : cellar->vessels) {
        names.vessels.insert(lower(vessel.as.name));
        if (!vessel.retired && !vessel.as.tag.empty()) names.tags.insert(lower(vessel.as.tag));
    }
    for (const RunState& run : cellar->runs) names.runs.insert(lower(run.as.run));
    return names;
}

class Renames {
public:
    static Result<Renames> read(const std::vector<std::string>& texts) {
        Renames renames;
        for (const std::string& text : texts) {
            const auto equals = text.find('=');
            if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
                return fail(ErrorKind::bad_input, "rename",
                            "\"" + text + "\" is no new name. Write theirs=ours, such as \"The Amber=Their Amber\".");
            const std::string ours = text.substr(equals + 1);
            if (ours.front() == '#' || ours == "last" || ours == "all")
                return fail(ErrorKind::bad_input, "rename",
                            "\"" + ours + "\" would be taken for something else. Choose another name.");
            if (!renames.m_names.emplace(text.substr(0, equals), ours).second)
                return fail(ErrorKind::bad_input, "rename",
                            "\"" + text.substr(0, equals) + "\" is given two new names.");
        }
        return renames;
    }

    void apply(std::string& name, ImportView& view) {
        const auto found = m_names.find(name);
        if (found == m_names.end()) return;
        if (m_used.insert(name).second) view.renamed.emplace_back(name, found->second);
        name = found->second;
    }

    // What came in earlier under another name keeps it.
    void learn(const std::string& theirs, const std::string& ours) {
        if (theirs != ours) m_names.emplace(theirs, ours);
        m_used.insert(theirs);
    }

    // A name that nothing there has.
    Result<void> check_used(const std::vector<std::string>& theirs) const {
        for (const auto& [name, ours] : m_names) {
            if (m_used.contains(name)) continue;
            std::vector<Fact> facts;
            for (const std::string& near : nearest_names(name, theirs, 3)) facts.push_back({"perhaps", near});
            return fail(ErrorKind::not_found, "rename", "There is no vessel or run \"" + name + "\" to come in.", facts,
                        "Write the name exactly as it stands there.");
        }
        return {};
    }

private:
    std::map<std::string, std::string> m_names;
    std::set<std::string> m_used;
};

// Of a vessel or run.
const std::string& name_in(const Entry& entry) {
    static const std::string k_none;
    if (const auto* vessel = std::get_if<VesselJoins>(&entry.body)) return vessel->name;
    if (const auto* run = std::get_if<Package>(&entry.body)) return run->run;
    return k_none;
}

// Tells the vessels and runs that are new here from those that a later entry of theirs replaced, and from corrections
// of what came in before: the names of these do not count.
class Newcomers {
public:
    Newcomers(const BookCopy& other, const std::set<std::string>& fresh_sittings) : m_fresh(fresh_sittings) {
        for (const Entry& entry : other.entries) {
            if (!entry.supersedes) continue;
            m_before.emplace(entry.key, *entry.supersedes);
            m_replaced.insert(*entry.supersedes);
        }
    }

    [[nodiscard]] bool is_one(const Entry& entry) const {
        if (m_replaced.contains(entry.key)) return false;
        EntryKey first = entry.key;
        for (std::size_t steps = 0; steps <= m_before.size(); ++steps) {
            const auto before = m_before.find(first);
            if (before == m_before.end()) break;
            first = before->second;
        }
        return m_fresh.contains(first.sitting);
    }

private:
    const std::set<std::string>& m_fresh;
    std::map<EntryKey, EntryKey> m_before;
    std::set<EntryKey> m_replaced;
};

Failure names_taken(const std::set<std::string>& taken) {
    std::vector<Fact> facts;
    for (const std::string& name : taken) facts.push_back({"here already", name});
    return fail(ErrorKind::impossible, "names",
                taken.size() == 1 ? "A vessel or run of that name is in this book."
                                  : "Vessels or runs of these names are in this book.",
                facts, "Give each a new name: --rename \"" + *taken.begin() + "=Their " + *taken.begin() + "\".");
}

}  // namespace

Result<ImportView> Transfer::import_book(const BookCopy& other, const std::vector<std::string>& renames,
                                         Booking booking) {
    TRY_VOID(check_writable(booking));
    TRY(const BookCopy here, m_bulk.whole_copy());
    if (here.facts.id == other.facts.id)
        return fail(ErrorKind::bad_input, "book", "That is a copy of this very book.", {},
                    "Look at both with `undercroft compare`; `undercroft import --from-copy` brings over what is only "
                    "there.");
    if (other.facts.invented && !here.facts.invented)
        return fail(ErrorKind::impossible, "book",
                    "That cellar is invented, and this one is not: its entries would pass for real ones.", {},
                    "Import it into an invented book, or into one of its own with `undercroft restore`.");
    TRY(Renames new_names, Renames::read(renames));
    TRY(const TakenNames names, names_in(here, m_zone));

    ImportView view;
    view.book = line_of(m_journal, here.entries, m_zone);
    view.from = other.facts.name;
    view.from_id = other.facts.id;

    const std::map<CameFrom, EntryKey> known = origins_in(here);
    const Instant now = m_surroundings.now();
    const Day today = day_of(now, m_zone);
    Keys keys;
    std::vector<std::size_t> fresh;
    std::set<std::string> their_sittings;
    std::vector<std::string> their_names;
    std::map<EntryKey, const Entry*> ours_by_key;
    for (const Entry& entry : here.entries) ours_by_key.emplace(entry.key, &entry);
    for (std::size_t i = 0; i < other.entries.size(); ++i) {
        const Entry& entry = other.entries[i];
        if (const auto found = known.find(origin_of(other, i)); found != known.end()) {
            keys.emplace(entry.key.text(), found->second);
            ++view.already_here;
            if (const std::string& theirs = name_in(entry); !theirs.empty()) {
                their_names.push_back(theirs);
                new_names.learn(theirs, name_in(*ours_by_key.at(found->second)));
            }
            continue;
        }
        if (day_of(entry.at(), m_zone) > today)
            return fail(ErrorKind::bad_input, "entry #" + std::to_string(entry.sequence) + " there",
                        "It lies in the future, on " + iso_text(day_of(entry.at(), m_zone)) + "; today is " +
                            iso_text(today) + ".",
                        {}, "Set the clock of this machine, or correct that entry there.");
        fresh.push_back(i);
        their_sittings.insert(entry.key.sitting);
    }
    const auto sitting_keys = new_keys_for(their_sittings, here, m_surroundings);
    std::unordered_map<std::string, int> sizes;
    for (const std::size_t i : fresh) {
        const EntryKey& theirs = other.entries[i].key;
        keys.emplace(theirs.text(), EntryKey{sitting_keys.at(theirs.sitting), sizes[theirs.sitting]++});
    }

    Incoming incoming;
    const Newcomers newcomers{other, their_sittings};
    std::set<std::string> taken;
    std::set<std::string> calibrated;
    for (const std::size_t i : fresh) {
        const Entry& original = other.entries[i];
        TRY(Entry entry, as_ours(other, i, keys, now));
        entry.sitting_size = sizes.at(original.key.sitting);
        const bool new_here = newcomers.is_one(original);
        if (auto* vessel = std::get_if<VesselJoins>(&entry.body)) {
            their_names.push_back(vessel->name);
            new_names.apply(vessel->name, view);
            if (new_here && names.vessels.contains(lower(vessel->name))) taken.insert(vessel->name);
            if (new_here && !vessel->tag.empty() && names.tags.contains(lower(vessel->tag))) {
                view.remarks.push_back("The tag " + vessel->tag + " is taken here: " + vessel->name +
                                       " comes in without one.");
                vessel->tag.clear();
            }
        }
        if (auto* run = std::get_if<Package>(&entry.body)) {
            their_names.push_back(run->run);
            new_names.apply(run->run, view);
            if (new_here && names.runs.contains(lower(run->run))) taken.insert(run->run);
        }
        if (const auto* interval = std::get_if<Interval>(&entry.body);
            interval != nullptr && interval->subject.empty() && interval->role)
            view.remarks.push_back(std::string("Theirs says how often every ") + word(*interval->role) +
                                   " vessel is due: where it is the newest to say so, it counts for yours too.");
        if (const auto* calibrate = std::get_if<Calibrate>(&entry.body)) calibrated.insert(calibrate->instrument);
        incoming.take(original, std::move(entry));
    }
    for (const std::string& instrument : calibrated)
        view.remarks.push_back("Theirs calibrates \"" + instrument +
                               "\": your own readings that name it so are taken to be of the same instrument.");
    TRY_VOID(new_names.check_used(their_names));
    if (!taken.empty()) return names_taken(taken);
    TRY_VOID(incoming.fit_into(here, other, m_zone, view));
    if (booking == Booking::what_if || view.already) return view;
    TRY(const std::vector<Entry> booked,
        m_bulk.append_all(incoming.sittings(other), static_cast<std::int64_t>(here.entries.size())));
    mark_booked(view, booked);
    return view;
}

}  // namespace undercroft::app

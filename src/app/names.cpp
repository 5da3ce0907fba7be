#include "app/names.hpp"

#include <algorithm>

#include "base/index.hpp"
#include "base/letters.hpp"
#include "base/nearest.hpp"

namespace undercroft::app {
namespace {

std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : text + " ") {
        // Punctuation parts words; bytes of other alphabets do not.
        const auto byte = static_cast<unsigned char>(c);
        if (byte >= 0x80 || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) {
            word += c;
        } else if (!word.empty()) {
            words.push_back(word);
            word.clear();
        }
    }
    return words;
}

constexpr std::string_view k_no_such = "There is no ";

using Name = Names::Name;

std::string quoted_list_of(const std::vector<std::string>& names) {
    std::string list;
    for (const std::string& name : names) list += (list.empty() ? "\"" : ", \"") + name + "\"";
    return list;
}

// `noun`: "vessel", "run", …
Result<int> match(const std::vector<Name>& names, std::string_view noun, std::string_view field,
                  const std::string& text) {
    const std::string wanted = lower(text);
    std::vector<const Name*> found;
    const auto collect = [&](auto fits) {
        if (!found.empty()) return;
        for (const Name& name : names)
            if (fits(name)) found.push_back(&name);
    };
    collect([&](const Name& name) { return lower(name.text) == wanted; });
    collect([&](const Name& name) { return !name.tag.empty() && lower(name.tag) == wanted; });
    collect([&](const Name& name) {
        const std::vector<std::string> have = words_of(lower(name.text));
        const std::vector<std::string> want = words_of(wanted);
        return !want.empty() && std::all_of(want.begin(), want.end(), [&](const std::string& word) {
            return std::find(have.begin(), have.end(), word) != have.end();
        });
    });
    if (found.size() == 1) return found.front()->index;
    std::vector<std::string> all;
    if (found.size() > 1) {
        for (const Name* name : found) all.push_back(name->text);
        return fail(ErrorKind::bad_input, std::string(field),
                    "\"" + text + "\" can mean " + quoted_list_of(all) + ". Write the whole name.");
    }
    for (const Name& name : names) all.push_back(name.text);
    // "Ambr" is near "The Amber" by one of its words.
    std::vector<std::string> near = nearest_names(text, all, 3);
    for (const std::string& name : all) {
        const bool by_word = text.size() > 2 && !nearest_names(text, words_of(name), 1).empty();
        if (by_word && near.size() < 3 && std::find(near.begin(), near.end(), name) == near.end()) near.push_back(name);
    }
    std::string next;
    if (!near.empty())
        next = "Did you mean " + quoted_list_of(near) + "?";
    else if (all.empty())
        next = "The book has no " + std::string(noun) + " yet.";
    else if (all.size() <= 8)
        next = "The book knows " + quoted_list_of(all) + ".";
    return fail(ErrorKind::not_found, std::string(field),
                std::string(k_no_such) + std::string(noun) + " \"" + text + "\".", {}, next);
}

std::vector<Name> vessel_names(const ledger::Cellar& cellar) {
    std::vector<Name> names;
    for (std::size_t i = 0; i < cellar.vessels.size(); ++i)
        if (!cellar.vessels[i].retired)
            names.push_back({cellar.vessels[i].as.name, cellar.vessels[i].as.tag, static_cast<int>(i)});
    return names;
}

std::vector<Name> run_names(const ledger::Cellar& cellar) {
    std::vector<Name> names;
    for (std::size_t i = 0; i < cellar.runs.size(); ++i)
        names.push_back({cellar.runs[i].as.run, "", static_cast<int>(i)});
    return names;
}

// The number in "#12"; 0 for anything else.
std::int64_t number_in(const std::string& text) {
    if (text.size() < 2 || text.size() > 13 || text.front() != '#') return 0;
    std::int64_t number = 0;
    for (const char c : std::string_view(text).substr(1)) {
        if (c < '0' || c > '9') return 0;
        number = number * 10 + (c - '0');
    }
    return number;
}

std::int64_t first_number(const ledger::Cellar& cellar, const ledger::EntryKey& key) {
    const ledger::Entry* entry = cellar.chains->find(key);
    return entry == nullptr ? 0 : entry->sequence;
}

// Index of the vessel or run with that number, -1 when none has it.
template <class State>
int numbered(const ledger::Cellar& cellar, const std::vector<State>& list, std::int64_t number) {
    for (std::size_t i = 0; i < list.size(); ++i)
        if (number > 0 && first_number(cellar, list[i].key) == number) return static_cast<int>(i);
    return -1;
}

// Nothing when only the number, or neither, names one; an error when a name says another one.
Result<void> refuse_two_meanings(const std::vector<Name>& names, int index, const std::string& name,
                                 std::string_view field, const std::string& text) {
    for (const Name& one : names)
        if (one.index != index && (lower(one.text) == lower(text) || lower(one.tag) == lower(text)))
            return fail(ErrorKind::bad_input, std::string(field),
                        "\"" + text + "\" can mean " + quoted_list_of({name, one.text}) +
                            ": the first has that number, the second is called so. Write the whole name.");
    return {};
}

constexpr std::size_t k_longest_name_in_words = 8;

}  // namespace

Names::Names(const ledger::Cellar& cellar) : m_vessels(vessel_names(cellar)), m_runs(run_names(cellar)) {}

Result<std::optional<Names::Found>> Names::at_front(std::span<const std::string> words) const {
    std::vector<Name> all = m_vessels;
    all.insert(all.end(), m_runs.begin(), m_runs.end());
    const auto joined = [&](std::size_t count) {
        std::string text = words[0];
        for (std::size_t i = 1; i < count; ++i) text += " " + words[i];
        return text;
    };
    const auto found_as = [&](const Name& name, std::size_t count) {
        const auto same = [&](const Name& run) { return run.text == name.text; };
        return Found{name.text, std::any_of(m_runs.begin(), m_runs.end(), same), count};
    };
    const std::size_t longest = std::min(words.size(), k_longest_name_in_words);
    for (std::size_t count = longest; count > 0; --count) {
        const std::string text = lower(joined(count));
        for (const Name& name : all)
            if (lower(name.text) == text) return found_as(name, count);
        for (const Name& name : all)
            if (!name.tag.empty() && lower(name.tag) == text) return found_as(name, count);
    }
    for (std::size_t count = longest; count > 0; --count) {
        const auto index = match(all, "vessel or run", "subject", joined(count));
        if (!index && index.error().kind == ErrorKind::bad_input) return tl::unexpected(index.error());
        if (!index) continue;
        for (const Name& name : all)
            if (match({name}, "vessel or run", "subject", joined(count))) return found_as(name, count);
    }
    return std::nullopt;
}

Result<std::string> Names::vessel(std::string_view field, const std::string& text) const {
    TRY(const int index, match(m_vessels, "vessel", field, text));
    for (const Name& name : m_vessels)
        if (name.index == index) return name.text;
    return text;
}

Error unless_later(Error error, const ledger::Cellar& today, Instant moment, const Telling& telling) {
    const auto begin = error.what.find('"');
    const auto end = error.what.rfind('"');
    if (error.kind != ErrorKind::not_found || !error.what.starts_with(k_no_such) || begin >= end) return error;
    const std::string asked = error.what.substr(begin + 1, end - begin - 1);
    std::vector<Name> later;
    for (std::size_t i = 0; i < today.vessels.size(); ++i)
        if (today.vessels[i].joined > moment)
            later.push_back({today.vessels[i].as.name, today.vessels[i].as.tag, static_cast<int>(i)});
    const auto found = match(later, "vessel", error.where, asked);
    if (!found) return error;
    const ledger::VesselState& vessel = today.vessels[at(*found)];
    const std::string day = telling.day_text(vessel.joined);
    error.what = vessel.as.name + " joins the cellar only on " + day + " at " + telling.time_text(vessel.joined) + ".";
    error.facts = {{"asked about", telling.day_text(moment) + " " + telling.time_text(moment)}};
    error.next_step = "If it was there before, correct #" + std::to_string(telling.number_of(vessel.key)) +
                      ", the entry with which it joins.";
    return error;
}

Result<int> find_vessel(const ledger::Cellar& cellar, std::string_view field, const std::string& text) {
    const std::vector<Name> names = vessel_names(cellar);
    const int index = numbered(cellar, cellar.vessels, number_in(text));
    if (index < 0) return match(names, "vessel", field, text);
    const ledger::VesselState& vessel = cellar.vessels[at(index)];
    if (vessel.retired)
        return fail(ErrorKind::impossible, std::string(field), vessel.as.name + " (" + text + ") has left the cellar.");
    TRY_VOID(refuse_two_meanings(names, index, vessel.as.name, field, text));
    return index;
}

Result<int> find_run(const ledger::Cellar& cellar, std::string_view field, const std::string& text) {
    const std::vector<Name> names = run_names(cellar);
    const int index = numbered(cellar, cellar.runs, number_in(text));
    if (index < 0) return match(names, "run", field, text);
    TRY_VOID(refuse_two_meanings(names, index, cellar.runs[at(index)].as.run, field, text));
    return index;
}

Result<engine::HolderRef> find_holder(const ledger::Cellar& cellar, std::string_view field, const std::string& text) {
    std::vector<Name> names = vessel_names(cellar);
    const auto vessels = static_cast<int>(cellar.vessels.size());
    for (Name& name : run_names(cellar)) {
        name.index += vessels;
        names.push_back(std::move(name));
    }
    int index = numbered(cellar, cellar.vessels, number_in(text));
    if (index < 0)
        if (const int run = numbered(cellar, cellar.runs, number_in(text)); run >= 0) index = vessels + run;
    if (index < 0) {
        TRY(index, match(names, "vessel or run", field, text));
    } else {
        const std::string& name =
            index < vessels ? cellar.vessels[at(index)].as.name : cellar.runs[at(index - vessels)].as.run;
        TRY_VOID(refuse_two_meanings(names, index, name, field, text));
    }
    return index < vessels ? engine::HolderRef{index, -1} : engine::HolderRef{-1, index - vessels};
}

Result<Origin> find_origin(const ledger::Cellar& cellar, const std::string& text) {
    // Lots of one name are one origin; so are cultures and additions.
    std::vector<Name> names;
    const auto add_once = [&names](const std::string& name, int group) {
        const bool known = std::any_of(names.begin(), names.end(), [&](const Name& one) {
            return one.index == group && lower(one.text) == lower(name);
        });
        if (!known) names.push_back({name, "", group});
    };
    for (const auto& lot : cellar.lots)
        if (lot.addition < 0 && !lot.priming) add_once(lot.name, 0);
    for (const auto& addition : cellar.additions) add_once(addition.as.name, 1);
    for (const auto& culture : cellar.cultures) add_once(culture.as.name, 2);
    std::vector<Name> numbered = names;
    for (std::size_t i = 0; i < numbered.size(); ++i) numbered[i].index = static_cast<int>(i);
    TRY(const int index, match(numbered, "lot, addition or culture", "origin", text));
    const Name& meant = names[at(index)];
    Origin origin;
    const auto gather = [&](const auto& list, auto name_of, std::vector<int>& into) {
        for (std::size_t i = 0; i < list.size(); ++i)
            if (lower(name_of(list[i])) == lower(meant.text)) into.push_back(static_cast<int>(i));
    };
    if (meant.index == 0)
        gather(
            cellar.lots, [](const auto& lot) { return lot.name; }, origin.lots);
    if (meant.index == 1)
        gather(
            cellar.additions, [](const auto& one) { return one.as.name; }, origin.additions);
    if (meant.index == 2)
        gather(
            cellar.cultures, [](const auto& one) { return one.as.name; }, origin.cultures);
    return origin;
}

Result<int> find_inside(const ledger::Cellar& cellar, int vessel, const std::string& text) {
    std::vector<Name> names;
    for (const int index : cellar.vessels[at(vessel)].additions_inside)
        names.push_back({cellar.additions[at(index)].as.name, "", index});
    return match(names, "addition inside " + cellar.vessels[at(vessel)].as.name, "item", text);
}

Result<const ledger::Entry*> find_entry(std::span<const ledger::Entry> entries, const ledger::Chains& chains,
                                        const std::string& text) {
    if (lower(text) == "last") {
        for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry)
            if (entry->sequence > 0 && !std::holds_alternative<ledger::Void>(entry->body) &&
                chains.superseding(entry->key) == nullptr)
                return &*entry;
        return fail(ErrorKind::not_found, "entry", "The book holds no entry that still counts.");
    }
    std::string_view digits = text;
    if (!digits.empty() && digits.front() == '#') digits.remove_prefix(1);
    std::int64_t number = 0;
    bool plain = !digits.empty() && digits.size() <= 12;
    for (const char c : digits) {
        plain = plain && c >= '0' && c <= '9';
        number = number * 10 + (c - '0');
    }
    if (!plain)
        return fail(ErrorKind::bad_input, "entry",
                    "\"" + text + "\" is not an entry. Write its number, such as #12, or \"last\".");
    // Drafts have no number yet. A book counts 1, 2, 3, …
    const auto found = std::lower_bound(entries.begin(), entries.end(), number,
                                        [](const auto& entry, std::int64_t wanted) { return entry.sequence < wanted; });
    if (number > 0 && found != entries.end() && found->sequence == number) return &*found;
    return fail(ErrorKind::not_found, "entry", "There is no entry #" + std::to_string(number) + ".",
                {{"entries in the book", std::to_string(entries.size())}});
}

Result<void> require_newest(const ledger::Chains& chains, const ledger::Entry& entry) {
    const ledger::Entry* newest = nullptr;
    for (const auto* by = chains.superseding(entry.key); by != nullptr; by = chains.superseding(by->key)) newest = by;
    if (newest == nullptr) return {};
    const std::string number = "#" + std::to_string(newest->sequence);
    const bool voided = std::holds_alternative<ledger::Void>(newest->body);
    return fail(ErrorKind::stale, "entry",
                "#" + std::to_string(entry.sequence) +
                    (voided ? " was taken out of the book by " : " was replaced by ") + number + ".",
                {{"newest of its chain", number}}, "Name " + number + " instead.");
}

std::string person_name(const std::vector<ledger::Person>& persons, const std::string& commitment) {
    if (commitment.empty()) return {};
    for (const ledger::Person& person : persons)
        if (person.commitment == commitment) return person.name.empty() ? "a forgotten person" : person.name;
    return "a forgotten person";
}

}  // namespace undercroft::app

#include "app/forget.hpp"

#include <algorithm>
#include <type_traits>

#include "base/letters.hpp"
#include "base/nearest.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

// Letters of other alphabets are bytes above 0x7F.
bool is_of_word(char c) {
    return static_cast<unsigned char>(c) >= 0x80 || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') ||
           (c >= 'A' && c <= 'Z');
}

// Words of an entry that its sentence leaves out.
std::string words_beside(const Entry& entry) {
    return entry.reason + "\n" +
           std::visit(
               [](const auto& body) -> std::string {
                   using One = std::decay_t<decltype(body)>;
                   if constexpr (std::is_same_v<One, Pitch>) return body.origin;
                   if constexpr (std::is_same_v<One, Reading>) return body.instrument;
                   if constexpr (std::is_same_v<One, Package>) return body.location;
                   if constexpr (std::is_same_v<One, Snapshot>) return body.text;
                   return {};
               },
               entry.body);
}

}  // namespace

bool holds_name(const std::string& words, const std::string& name) {
    const std::string text = lower(words);
    const std::string wanted = lower(name);
    if (wanted.empty()) return false;
    for (auto at = text.find(wanted); at != std::string::npos; at = text.find(wanted, at + 1)) {
        const bool begins = at == 0 || !is_of_word(text[at - 1]);
        const auto end = at + wanted.size();
        if (begins && (end == text.size() || !is_of_word(text[end]))) return true;
    }
    return false;
}

Result<Person> find_person(const std::vector<Person>& persons, const std::string& name) {
    std::vector<std::string> names;
    for (const Person& person : persons) {
        if (!person.name.empty() && person.name == name) return person;
        if (!person.name.empty()) names.push_back(person.name);
    }
    std::string next = "Write the name exactly as the book has it; what is forgotten cannot be brought back.";
    std::vector<Fact> facts;
    for (const std::string& near : nearest_names(name, names, 3)) facts.push_back({"perhaps", near});
    return fail(ErrorKind::not_found, "person", "The book knows nobody called \"" + name + "\".", std::move(facts),
                next);
}

ForgetView look_for_person(const Telling& telling, const Person& person) {
    ForgetView view;
    view.what = "person";
    view.name = person.name;
    // Told as it will be afterwards: what still holds the name then, holds it in words.
    std::vector<Person> others = telling.persons;
    for (Person& one : others)
        if (one.commitment == person.commitment) one.name.clear();
    const Telling afterwards{telling.chains, others, telling.zone, telling.unit};
    std::vector<const Entry*> mentions;
    for (std::size_t i = 0; i < telling.chains.size(); ++i) {
        const Entry& entry = telling.chains.entry(static_cast<int>(i));
        const auto* tasting = std::get_if<Tasting>(&entry.body);
        const auto* take = std::get_if<Take>(&entry.body);
        const bool booked = entry.by == person.commitment;
        const bool tasted = tasting != nullptr && tasting->taster == person.commitment;
        const bool received = take != nullptr && take->person == person.commitment;
        view.booked += booked ? 1 : 0;
        view.tasted += tasted ? 1 : 0;
        view.received += received ? 1 : 0;
        view.entries += booked || tasted || received ? 1 : 0;
        if (holds_name(afterwards.sentence(entry) + "\n" + words_beside(entry), person.name))
            mentions.push_back(&entry);
    }
    std::sort(mentions.begin(), mentions.end(), [](const Entry* a, const Entry* b) { return a->place < b->place; });
    for (const Entry* entry : mentions) view.mentions.push_back(afterwards.line(*entry));
    return view;
}

}  // namespace undercroft::app

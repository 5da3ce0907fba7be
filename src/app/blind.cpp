#include "app/blind.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "app/bodies.hpp"
#include "app/names.hpp"
#include "base/letters.hpp"
#include "engine/taste/blind.hpp"

namespace undercroft::app {
namespace {

namespace taste = engine::taste;

constexpr std::size_t k_quick_attributes = 3;
constexpr std::size_t k_many_glasses = 6;

struct BlindGlass {
    std::string subject;
    bool again = false;
};

// FNV-1a: the same on every machine.
std::uint64_t seed_of(const std::string& set) {
    std::uint64_t seed = 14695981039346656037ULL;
    for (const char c : set) {
        seed ^= static_cast<unsigned char>(c);
        seed *= 1099511628211ULL;
    }
    return seed;
}

Result<void> check_names(const BlindRequest& request) {
    std::set<std::string> known;
    if (request.tasters.empty())
        return fail(ErrorKind::bad_input, "tasters", "Who tastes? Name each, --taster Ines --taster Marit.");
    if (request.tasters.size() > std::size_t{taste::k_most_tasters})
        return fail(ErrorKind::bad_input, "tasters",
                    std::to_string(request.tasters.size()) + " tasters are too many; at most " +
                        std::to_string(taste::k_most_tasters) + ".");
    for (const std::string& taster : request.tasters) {
        if (trimmed(taster).empty()) return fail(ErrorKind::bad_input, "tasters", "A taster has no name.");
        if (!known.insert(lower(taster)).second)
            return fail(ErrorKind::bad_input, "tasters", taster + " stands twice: a taster tastes a set once.");
    }
    for (const char c : request.set)
        if (!((c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z')))
            return fail(ErrorKind::bad_input, "set",
                        "\"" + request.set + "\" is no name of a set: letters and digits.");
    if (request.set.size() > k_longest_set_name)
        return fail(ErrorKind::bad_input, "set", "The name of a set has at most 24 letters and digits.");
    return {};
}

// Three that were scored most often of these beers, then the usual ones.
std::vector<BlindAttribute> attributes_of(const Seen& seen, const std::set<std::string>& keys, bool full) {
    std::vector<BlindAttribute> all;
    std::map<std::string, int> times;
    for (const ledger::Entry* entry : seen.cellar.entries)
        if (const auto* tasting = std::get_if<ledger::Tasting>(&entry->body);
            tasting != nullptr && keys.contains(tasting->subject.text()))
            for (const auto& [attribute, score] : tasting->scores) ++times[seen.tables.attribute_id(attribute)];
    std::vector<std::string> wanted;
    if (full) {
        for (const tables::Attribute& row : seen.tables.attributes) wanted.push_back(row.id);
    } else {
        std::vector<std::pair<std::string, int>> order(times.begin(), times.end());
        std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
        for (const auto& [id, count] : order) wanted.push_back(id);
        for (const char* usual : {"sourness", "farmyard", "body"}) wanted.emplace_back(usual);
    }
    for (const std::string& id : wanted) {
        if (!full && all.size() == k_quick_attributes) break;
        const bool known = std::any_of(all.begin(), all.end(), [&](const BlindAttribute& one) { return one.id == id; });
        if (const auto row = seen.tables.find_attribute(id); row && !known)
            all.push_back({(*row)->id, (*row)->name, (*row)->explanation});
    }
    return all;
}

// What one taster found in one glass.
Result<TasteIt> found_of(const std::string& text, const BlindRequest& request, std::string& code) {
    TasteIt act;
    std::vector<std::string> words;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        if (end > begin) words.push_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    // The longest name first: "Ines Maria" before "Ines".
    for (std::size_t count = words.size(); count > 0 && act.taster.empty(); --count) {
        std::string name = words[0];
        for (std::size_t i = 1; i < count; ++i) name += " " + words[i];
        for (const std::string& taster : request.tasters)
            if (lower(taster) == lower(name)) {
                act.taster = taster;
                words.erase(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(count));
                break;
            }
    }
    if (act.taster.empty() || words.empty())
        return fail(ErrorKind::bad_input, "found",
                    "\"" + text.substr(0, 60) +
                        "\" is not what a taster of the set found. Write the taster, the code and the scores: \"Ines "
                        "417 sour=6\".");
    code = words[0];
    for (std::size_t i = 1; i < words.size(); ++i) {
        std::string word = words[i];
        if (word.ends_with(',') && word.find('=') != std::string::npos) word.pop_back();
        const auto equals = word.find('=');
        const std::string name = word.substr(0, equals);
        if (equals == std::string::npos)
            act.words += (act.words.empty() ? "" : " ") + words[i];
        else if (name == "fault")
            act.faults.push_back(word.substr(equals + 1));
        else if (name == "liking")
            act.liking = word.substr(equals + 1);
        else
            act.scores.push_back(word);
    }
    return act;
}

std::string command_of(const TasteIt& act) {
    std::string text = "taste \"" + act.subject + "\"";
    for (const std::string& score : act.scores) text += " \"" + score + "\"";
    for (const std::string& fault : act.faults) text += " --fault \"" + fault + "\"";
    if (!act.liking.empty()) text += " --liking " + act.liking;
    return text + " --taster \"" + act.taster + "\" \"" + act.words + "\"";
}

Result<void> uncover(const BlindRequest& request, const std::map<std::string, BlindGlass>& glasses, BlindView& view) {
    std::map<std::string, std::set<std::string>> scored;  // by taster
    for (const std::string& text : request.found) {
        std::string code;
        TRY(TasteIt act, found_of(text, request, code));
        const auto glass = glasses.find(code);
        if (glass == glasses.end())
            return fail(ErrorKind::bad_input, "found", "No glass of set " + view.set + " has the code " + code + ".");
        if (!scored[act.taster].insert(code).second)
            return fail(ErrorKind::bad_input, "found", act.taster + " scored " + code + " twice.");
        act.subject = glass->second.subject;
        act.words += (act.words.empty() ? "" : ", ") + std::string("blind, set ") + view.set + ", glass " + code;
        view.command += (view.command.empty() ? "undercroft " : " --then ") + command_of(act);
        view.drafted.acts.emplace_back(std::move(act));
    }
    std::vector<std::string> missing;
    for (const std::string& taster : request.tasters)
        for (const auto& [code, glass] : glasses)
            if (!scored[taster].contains(code)) missing.push_back(taster + " " + code);
    if (!missing.empty())
        return fail(ErrorKind::bad_input, "found",
                    "The sets are unequal: not scored are " + joined(missing, ", ") + ".", {},
                    "Score them all, or leave out the taster who did not taste.");
    return {};
}

}  // namespace

Result<BlindView> blind_view(const Seen& seen, const std::vector<engine::HolderRef>& subjects,
                             const std::vector<engine::HolderRef>& twice, const BlindRequest& request,
                             const std::string& made) {
    TRY_VOID(check_names(request));
    const auto name_of = [&](engine::HolderRef holder) {
        return holder.run >= 0 ? seen.cellar.runs[at_index(holder.run)].as.run
                               : seen.cellar.vessels[at_index(holder.vessel)].as.name;
    };
    std::vector<BlindGlass> poured;
    std::set<std::string> keys;
    if (subjects.empty()) return fail(ErrorKind::bad_input, "subjects", "What is tasted? Name vessels or runs.");
    for (const engine::HolderRef holder : subjects) {
        if (!keys.insert(key_of(seen.cellar, holder).text()).second)
            return fail(ErrorKind::bad_input, "subjects",
                        name_of(holder) + " stands twice; --twice pours a second glass of it.");
        poured.push_back({name_of(holder), false});
    }
    for (const engine::HolderRef holder : twice) {
        if (!keys.contains(key_of(seen.cellar, holder).text()))
            return fail(ErrorKind::bad_input, "twice", name_of(holder) + " is not among what is tasted.");
        poured.push_back({name_of(holder), true});
    }
    if (poured.size() > std::size_t{taste::k_most_glasses})
        return fail(ErrorKind::bad_input, "subjects",
                    std::to_string(poured.size()) + " glasses are too many for a sitting; at most " +
                        std::to_string(taste::k_most_glasses) + ", and better six.");
    BlindView view;
    view.set = request.set.empty() ? made : request.set;
    const taste::BlindSet set = taste::blind_set(int(poured.size()), int(request.tasters.size()), seed_of(view.set));
    std::map<std::string, BlindGlass> glasses;
    for (std::size_t i = 0; i < poured.size(); ++i) glasses[set.codes[i]] = poured[i];
    for (std::size_t i = 0; i < request.tasters.size(); ++i) {
        BlindSheet sheet{request.tasters[i], {}};
        for (const int glass : set.orders[i]) sheet.codes.push_back(set.codes[at_index(glass)]);
        view.sheets.push_back(std::move(sheet));
    }
    for (const auto& [code, glass] : glasses) view.key.push_back({code, glass.subject, glass.again});
    view.attributes = attributes_of(seen, keys, request.full);
    view.key_shown = request.show_key || !request.found.empty();
    if (!request.found.empty()) TRY_VOID(uncover(request, glasses, view));
    view.words = std::to_string(poured.size()) + (poured.size() == 1 ? " glass" : " glasses") + " for " +
                 joined(request.tasters, ", ") + ". Whoever pours keeps the key; the name of the set, " + view.set +
                 ", brings all of it back.";
    view.cautions.push_back(
        {"tasting.blind",
         "Pour out of sight, equal amounts at one temperature; water, and a minute between sour samples. "
         "Whoever knows what is in a glass does not count."});
    if (poured.size() > k_many_glasses)
        view.cautions.push_back(
            {"tasting.many", "More than six sour samples tire the palate: part them over two days."});
    if (poured.size() == 1)
        view.cautions.push_back({"tasting.one", "One glass alone is not blind: add another beer, or pour it twice."});
    view.cautions.push_back({"tasting.spit", "Many samples are much alcohol: spit, and let nobody drive on a panel."});
    view.cautions.push_back(
        {"tasting.unsafe", "Mould, metal, cleaner or a smell of drains: stop, do not taste, see tasting-words."});
    return view;
}

}  // namespace undercroft::app

// Proofs of a book: what the store finds, what the entries must add up to, and whether it is still the book that
// somebody wrote the head of down.
#include <algorithm>

#include "app/book.hpp"
#include "app/book_line.hpp"
#include "app/describe.hpp"
#include "app/findings.hpp"
#include "base/nearest.hpp"
#include "ledger/chains.hpp"
#include "ledger/references.hpp"
#include "units/amount.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

const std::vector<std::string>& check_names() {
    static const std::vector<std::string> k_names = {"integrity",  "format",  "chain",    "columns",
                                                     "sittings",   "persons", "pictures", "caches",
                                                     "references", "volumes", "findings"};
    return k_names;
}

Result<void> check_known(const std::vector<std::string>& asked) {
    for (const std::string& name : asked) {
        if (std::find(check_names().begin(), check_names().end(), name) != check_names().end()) continue;
        std::string all;
        for (const std::string& one : check_names()) all += (all.empty() ? "" : ", ") + one;
        std::vector<Fact> facts{{"checks", all}};
        for (const std::string& near : nearest_names(name, check_names(), 3)) facts.push_back({"perhaps", near});
        return fail(ErrorKind::bad_input, name, "There is no check \"" + name + "\".", std::move(facts));
    }
    return {};
}

bool is_of(const Entry& entry, RefersTo wanted) {
    const bool vessel = std::holds_alternative<VesselJoins>(entry.body);
    const bool run = std::holds_alternative<Package>(entry.body);
    switch (wanted) {
        case RefersTo::vessel:
            return vessel;
        case RefersTo::run:
            return run;
        case RefersTo::addition:
            return std::holds_alternative<Addition>(entry.body);
        case RefersTo::vessel_or_run:
            break;
    }
    return vessel || run;
}

// An entry names a chain: a reading that was corrected to an addition can be lifted by its first number.
bool is_of(const Chains& chains, int named, RefersTo wanted) {
    for (int number = chains.first_of(named); number != Chains::k_none; number = chains.next_of(number))
        if (is_of(chains.entry(number), wanted)) return true;
    return false;
}

// Whatever an entry names is in the book, and of the right kind.
CheckFinding check_references(const std::vector<Entry>& entries) {
    const Chains chains = chains_of(entries);
    std::int64_t counted = 0;
    std::string first_wrong;
    const auto look = [&](const Entry& from, const EntryKey& key, const std::optional<RefersTo>& wanted) {
        ++counted;
        const int found = chains.number_of(key);
        if (!first_wrong.empty()) return;
        const std::string who = "entry " + std::to_string(from.sequence) + " names ";
        if (found == Chains::k_none)
            first_wrong = who + key.text() + ", which is not in the book";
        else if (wanted && !is_of(chains, found, *wanted))
            first_wrong = who + "entry " + std::to_string(chains.entry(found).sequence) + ", which is of kind " +
                          kind_word(chains.entry(found).body);
    };
    for (const Entry& entry : entries) {
        if (entry.supersedes) look(entry, *entry.supersedes, std::nullopt);
        for (std::string_view path = entry.place.path; !path.empty();) {
            const auto slash = path.find('/');
            const std::string part{path.substr(0, slash)};
            const auto key = EntryKey::from_text(part);
            if (!key && first_wrong.empty())
                first_wrong = "entry " + std::to_string(entry.sequence) + " stands after " + part + ", which is no key";
            if (key && *key != entry.key) look(entry, *key, std::nullopt);
            path = slash == std::string_view::npos ? std::string_view{} : path.substr(slash + 1);
        }
        for_each_reference(entry.body, [&](const EntryKey& key, RefersTo wanted) { look(entry, key, wanted); });
    }
    if (!first_wrong.empty()) return {"references", false, first_wrong};
    return {"references", true, std::to_string(counted) + " names of other entries, all there"};
}

CheckFinding check_volumes(const std::vector<Entry>& entries, const Telling& telling) {
    const auto cellar = replay(entries, {});
    if (!cellar && holds_unknown(entries))
        return {"volumes", true, "not proved: they do not fit together without the entries this program does not know"};
    if (!cellar) return {"volumes", false, telling.error_of(cellar.error(), false).what};
    const Totals totals = cellar->totals();
    const bool balanced = totals.in == totals.out + totals.on_hand;
    return {"volumes", balanced,
            exact_text_of(totals.in) + " in = " + exact_text_of(totals.out) + " out + " +
                exact_text_of(totals.on_hand) + " on hand" +
                (balanced ? "" : ": off by " + exact_text_of(totals.in - totals.out - totals.on_hand))};
}

// What was said and is no longer true is no damage: the book is whole, and says so.
CheckFinding check_findings(Course& course, const Telling& telling, const tables::Tables& tables, Gallons gallons) {
    const auto now = course.at({});
    if (!now) return {"findings", true, "not looked for: the volumes do not fit together"};
    const std::size_t standing = findings_of(telling, tables, gallons, (*now)->cellar, (*now)->states).size();
    return {"findings", true,
            standing == 0   ? "nothing that was said has become untrue"
            : standing == 1 ? "1 stands: undercroft findings"
                            : std::to_string(standing) + " stand: undercroft findings"};
}

// A head written down earlier is a link in the middle: all up to there is unchanged.
Result<CheckFinding> check_head(Keepsafe& keepsafe, const std::string& written, std::int64_t last) {
    std::string hex;
    for (const char c : written)
        if (c != ' ') hex += c >= 'A' && c <= 'F' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool is_hex =
        std::all_of(hex.begin(), hex.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
    if (hex.size() != 64 || !is_hex)
        return fail(ErrorKind::bad_input, "head", "\"" + written + "\" is no head of a chain; it has 64 hex digits.");
    TRY(const std::int64_t entry, keepsafe.entry_of_link(hex));
    if (entry < 0)
        return CheckFinding{"head", false,
                            "no entry of this book has that link: what it stood for was changed, cut off, or is "
                            "another book's"};
    if (entry == last) return CheckFinding{"head", true, "it is the head of this book"};
    return CheckFinding{"head", true,
                        "it is the link of entry " + std::to_string(entry) + ": all up to there is as it was, and " +
                            std::to_string(last - entry) + (last - entry == 1 ? " entry has" : " entries have") +
                            " come since"};
}

}  // namespace

Result<CheckView> Book::check(const CheckRequest& request) {
    TRY_VOID(check_known(request.checks));
    if (!request.head.empty() && m_keepsafe == nullptr)
        return fail(ErrorKind::bad_input, "head", "A book kept in memory only has no chain.");
    TRY_VOID(load());
    const auto wanted = [&request](const std::string& name) {
        // A head says nothing where the links before it do not hold.
        if (name == "chain" && !request.head.empty()) return true;
        return request.checks.empty() ||
               std::find(request.checks.begin(), request.checks.end(), name) != request.checks.end();
    };
    CheckView view;
    view.book = line();
    if (m_keepsafe != nullptr) {
        TRY(view.head, m_keepsafe->chain_head());
        TRY(std::vector<CheckFinding> found, m_keepsafe->check_store());
        for (CheckFinding& finding : found)
            if (wanted(finding.check)) view.findings.push_back(std::move(finding));
    }
    if (wanted("references")) view.findings.push_back(check_references(m_entries));
    if (wanted("volumes")) view.findings.push_back(check_volumes(m_entries, telling()));
    if (wanted("findings")) view.findings.push_back(check_findings(m_course, telling(), m_tables, gallons()));
    if (!request.head.empty()) {
        TRY(CheckFinding finding, check_head(*m_keepsafe, request.head, m_sequence));
        view.findings.push_back(std::move(finding));
    }
    return view;
}

}  // namespace undercroft::app

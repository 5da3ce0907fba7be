#include "app/dregs.hpp"

#include <algorithm>

#include "base/index.hpp"
#include "units/span.hpp"

namespace undercroft::app {
namespace {

using ledger::Certainty;

constexpr double k_months_a_year = 12.0;
constexpr std::string_view k_hardly = "hardly alive";
constexpr std::string_view k_likely = "likely alive";

enum class Answer { yes, care, no };

const char* word_of(Answer answer) {
    return answer == Answer::yes ? "yes" : answer == Answer::care ? "care" : "no";
}

// What lives in one liquid, with its row and how long it was shut in.
struct Member {
    const ledger::Culture* culture = nullptr;
    const tables::CultureKind* kind = nullptr;  // nullptr: of a later table
    Certainty certainty = Certainty::possible;
    Instant since;

    [[nodiscard]] bool killer() const { return culture->killer == ledger::KillerPhenotype::killer; }
    // Of a mixed culture only its beer yeast.
    [[nodiscard]] bool killed_by_others() const {
        return kind != nullptr && (kind->is_saccharomyces() || kind->group == tables::CultureGroup::mixed) &&
               !killer() && culture->killer != ledger::KillerPhenotype::neutral;
    }
    [[nodiscard]] std::string what_dies() const {
        return (kind->group == tables::CultureGroup::mixed ? "the beer yeast of " : "") + culture->name;
    }
    [[nodiscard]] bool diastatic() const { return culture->diastatic == ledger::Diastatic::yes; }
    [[nodiscard]] bool sour() const {
        return kind == nullptr || kind->group == tables::CultureGroup::bacteria ||
               kind->group == tables::CultureGroup::mixed || kind->group == tables::CultureGroup::unknown;
    }
    [[nodiscard]] bool lives() const { return kind == nullptr || kind->is_alive(); }
};

const ledger::Liquid& liquid_in(const ledger::Cellar& cellar, engine::HolderRef holder) {
    return holder.run >= 0 ? cellar.runs[at(holder.run)].liquid : cellar.vessels[at(holder.vessel)].liquid;
}

std::vector<Member> members_of(const Seen& seen, engine::HolderRef holder) {
    std::vector<Member> members;
    for (const ledger::CultureHere& here : liquid_in(seen.cellar, holder).cultures) {
        const ledger::Culture& culture = seen.cellar.cultures[at(here.culture)].as;
        const Member member{&culture, seen.tables.culture_row(culture.kind), certainty_of(seen, holder, here),
                            here.since};
        if (member.lives()) members.push_back(member);
    }
    std::stable_sort(members.begin(), members.end(),
                     [](const Member& a, const Member& b) { return a.certainty > b.certainty; });
    return members;
}

// By its time in the bottle; in a vessel it has fresh beer to live on.
std::string_view alive_after(const Member& member, double years, bool bottled) {
    if (!bottled || member.kind == nullptr) return member.certainty == Certainty::possible ? "may be alive" : k_likely;
    const double months = years * k_months_a_year;
    if (months > member.kind->alive_in_bottle_months_high) return k_hardly;
    if (months > member.kind->alive_in_bottle_months_low || member.certainty == Certainty::possible)
        return "may be alive";
    return k_likely;
}

std::string about(const Member& member) {
    std::string text;
    const auto add = [&text](const std::string& words) { text += (text.empty() ? "" : "; ") + words; };
    if (member.killer()) add(std::string("killer ") + ledger::word(member.culture->toxin) + ": kills sensitive yeast");
    if (member.diastatic()) add("diastatic: ferments what others leave, and over-carbonates other bottles");
    if (member.kind != nullptr && member.kind->group == tables::CultureGroup::bacteria)
        add("bacteria: they stay in wood and hoses");
    if (member.kind == nullptr || member.kind->group == tables::CultureGroup::unknown) add("nobody knows what it is");
    return text;
}

// A cell of data/cultures.csv as an answer; what follows the first word is the reason.
Answer answer_of(std::string_view cell) {
    if (cell == "yes") return Answer::yes;
    if (cell == "no" || cell == "nothing to share") return Answer::no;
    return Answer::care;  // "tell", "warn", "yes with label", "only ..."
}

// Worst first: what is only possible is told, and decides nothing.
struct Judged {
    Answer answer = Answer::yes;
    std::string why;
    void take(Answer given, Certainty certainty, const std::string& reason) {
        if (certainty == Certainty::possible && given != Answer::yes) given = Answer::care;
        if (given == Answer::yes) return;
        if (given > answer) {
            answer = given;
            why = reason;
        } else if (given == answer && why.find(reason) == std::string::npos) {
            why += (why.empty() ? "" : "; ") + reason;
        }
    }
};

std::string named(const Member& member) {
    return member.culture->name +
           (member.certainty == Certainty::certain ? "" : std::string(" (") + ledger::word(member.certainty) + ")");
}

// Nobody booked a culture: it counts as wild, as in the gas check.
bool is_wild(const ledger::Cellar& cellar, engine::HolderRef holder) {
    return liquid_in(cellar, holder).cultures.empty();
}
constexpr std::string_view k_wild = "Nobody has said what lives in it, so it counts as wild";

DregsUse share_of(const std::vector<Member>& members, bool wild, double years, bool bottled) {
    if (wild) return {"share", "care", std::string(k_wild) + ": say so to whoever takes it."};
    if (members.empty()) return {"share", "no", "Nothing is known to live in it."};
    if (std::all_of(members.begin(), members.end(),
                    [&](const Member& one) { return alive_after(one, years, bottled) == k_hardly; }))
        return {"share", "no", "Hardly anything in it is still alive."};
    Judged judged;
    for (const Member& member : members) {
        const std::string notice = about(member);
        judged.take(member.kind == nullptr ? Answer::no : answer_of(member.kind->fit_to_share), member.certainty,
                    named(member) + (notice.empty() ? "" : ": " + notice));
        if (member.killer() || member.diastatic())
            judged.take(Answer::care, member.certainty, named(member) + ": " + notice);
    }
    if (judged.answer == Answer::yes) judged.why = "All that is known to live in it does no harm elsewhere.";
    if (judged.answer == Answer::care) judged.why = "Say so to whoever takes it. " + judged.why + ".";
    if (judged.answer == Answer::no) judged.why += ".";
    return {"share", word_of(judged.answer), judged.why};
}

DregsUse pitch_of(const std::vector<Member>& members, double years, bool bottled) {
    const Member* best = nullptr;  // that ferments a wort, most likely alive first
    for (const Member& member : members)
        if (member.kind != nullptr && member.kind->attenuation_typical >= 0.5 && best == nullptr &&
            alive_after(member, years, bottled) != k_hardly)
            best = &member;
    if (best == nullptr)
        return {"pitch", "no",
                "Nothing that ferments a wort by itself is likely alive in it: pitch fresh yeast beside it."};
    const std::string reach = best->culture->name + " takes about " + percent_text(best->kind->attenuation_typical, 0) +
                              " of a wort's gravity";
    if (alive_after(*best, years, bottled) == k_likely)
        return {"pitch", "yes", reach + "; build it up in a little wort first all the same, and taste that."};
    return {"pitch", "care",
            reach +
                ", if it is still alive: build it up in a little wort of 1.030, and pitch only what works and smells "
                "clean."};
}

// What the dregs would bring into a solera that is not there already.
DregsUse put_back(const Seen& seen, const std::vector<Member>& members, bool wild, int vessel) {
    const std::vector<Member> there = members_of(seen, {vessel, -1});
    const bool sour = std::any_of(there.begin(), there.end(),
                                  [](const Member& one) { return one.sour() && one.certainty != Certainty::possible; });
    if (wild)
        return {
            seen.cellar.vessels[at(vessel)].as.name, sour ? "care" : "no",
            std::string(k_wild) + (sour ? ": try it in a spare jar first." : " and must not enter a clean solera.")};
    Judged judged;
    for (const Member& member : members) {
        const bool known = std::any_of(there.begin(), there.end(), [&](const Member& one) {
            return one.culture->name == member.culture->name && one.certainty != Certainty::possible;
        });
        if (known) continue;
        const std::string cell = member.kind == nullptr ? "no"
                                 : sour                 ? member.kind->may_enter_sour_solera
                                                        : member.kind->may_enter_clean_solera;
        const Answer given = answer_of(cell);
        std::string reason = named(member) + " is not there yet";
        if (given == Answer::care && cell != "warn") reason += ", " + cell;
        if (cell == "warn" && sour) reason += "; Brettanomyces and bacteria it leaves alone";
        if (given == Answer::no) reason += " and must not enter a " + std::string(sour ? "sour" : "clean") + " solera";
        judged.take(given, member.certainty, reason);
        if (member.killer())
            for (const Member& one : there)
                if (one.killed_by_others())
                    judged.take(sour ? Answer::care : Answer::no, member.certainty, "it would kill " + one.what_dies());
        if (member.diastatic() && !sour && given != Answer::no)
            judged.take(Answer::no, member.certainty,
                        named(member) + " would ferment on what that solera leaves, for ever");
    }
    if (judged.answer == Answer::yes)
        judged.why = members.empty() ? "Nothing is known to live in it." : "Nothing in it does harm there.";
    else
        judged.why += ".";
    return {seen.cellar.vessels[at(vessel)].as.name, word_of(judged.answer), judged.why};
}

std::vector<std::string> displaced_in(const Seen& seen, const std::vector<Member>& members) {
    std::vector<std::string> sentences;
    for (const Member& killer : members) {
        if (!killer.killer() || killer.certainty == Certainty::possible) continue;
        for (const Member& one : members) {
            if (&one == &killer || !one.killed_by_others()) continue;
            const Instant both = std::max(killer.since, one.since);
            sentences.push_back(killer.culture->name + " (" + ledger::word(killer.culture->toxin) +
                                ") has likely displaced " + one.what_dies() + " since " + seen.telling.day_text(both) +
                                ", where both grew. Brettanomyces and bacteria it leaves alone.");
        }
    }
    for (const Member& one : members)
        if (one.kind != nullptr && one.kind->is_saccharomyces() && one.certainty == Certainty::possible)
            sentences.push_back(one.culture->name + ", there since " + seen.telling.day_text(one.since) +
                                ", is only possible: acid and hunger, or only gear, speak for it.");
    return sentences;
}

}  // namespace

DregsView dregs_of(const Seen& seen, engine::HolderRef holder) {
    const bool bottled = holder.run >= 0;
    DregsView view;
    view.on = seen.telling.day_text(seen.when);
    view.subject = bottled ? seen.cellar.runs[at(holder.run)].as.run : seen.cellar.vessels[at(holder.vessel)].as.name;
    if (bottled) view.years_in_container = years_between(seen.cellar.runs[at(holder.run)].packaged, seen.when);
    const std::vector<Member> members = members_of(seen, holder);
    for (const Member& member : members)
        view.cultures.push_back({member.culture->name,
                                 member.kind != nullptr ? member.kind->name : member.culture->kind,
                                 ledger::word(member.certainty), seen.telling.day_text(member.since),
                                 std::string(alive_after(member, view.years_in_container, bottled)), about(member)});
    view.displaced = displaced_in(seen, members);
    const bool wild = is_wild(seen.cellar, holder);
    view.share = share_of(members, wild, view.years_in_container, bottled);
    view.pitch = pitch_of(members, view.years_in_container, bottled);
    for (std::size_t i = 0; i < seen.cellar.vessels.size(); ++i) {
        const ledger::VesselState& vessel = seen.cellar.vessels[i];
        if (vessel.retired || vessel.as.role != ledger::VesselRole::solera || vessel.liquid.volume == Volume{})
            continue;
        if (holder.vessel == static_cast<int>(i)) continue;
        view.put_back.push_back(put_back(seen, members, wild, static_cast<int>(i)));
    }
    view.cautions.push_back({"dregs.what_is_known",
                             "This is what the book knows. What came in unseen is not in it: try dregs in a spare jar "
                             "before they meet a solera."});
    view.cautions.push_back({"dregs.gas",
                             "Dregs that ferment what another beer left over-carbonate its bottles: check the gas of "
                             "whatever they went into, and open the bottle they come from cold and pointed away."});
    return view;
}

}  // namespace undercroft::app

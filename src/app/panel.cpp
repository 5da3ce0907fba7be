#include "app/panel.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "app/bodies.hpp"
#include "app/names.hpp"
#include "engine/taste/panel.hpp"

namespace undercroft::app {
namespace {

namespace taste = engine::taste;

// One glass: what was tasted of one subject on one day.
struct Glass {
    std::string subject;  // key
    std::string day;
    friend auto operator<=>(const Glass&, const Glass&) = default;
    [[nodiscard]] std::string id() const { return subject + " " + day; }
};

struct Scored {
    Glass glass;
    std::string taster;
    std::int64_t number = 0;
    std::map<std::string, double> scores;
    std::vector<std::string> faults;
};

std::vector<Scored> all_tastings(const Seen& seen) {
    std::vector<Scored> all;
    for (const ledger::Entry* entry : seen.cellar.entries) {
        const auto* tasting = std::get_if<ledger::Tasting>(&entry->body);
        if (tasting == nullptr || entry->at() > seen.when) continue;
        Scored one;
        one.glass = {tasting->subject.text(), seen.telling.day_text(entry->at())};
        one.taster = person_name(seen.telling.persons, tasting->taster);
        if (one.taster.empty()) one.taster = "somebody";
        one.number = seen.telling.number_of(entry->key);
        for (const auto& [attribute, score] : tasting->scores)
            one.scores[seen.tables.attribute_id(attribute)] = score.value();
        for (const std::string& fault : tasting->faults) one.faults.push_back(seen.tables.fault_id(fault));
        all.push_back(std::move(one));
    }
    return all;
}

std::string numbers_text(const std::vector<std::int64_t>& numbers) {
    constexpr std::size_t k_most = 6;
    std::string text;
    for (std::size_t i = 0; i < std::min(numbers.size(), k_most); ++i)
        text += (i == 0 ? "#" : ", #") + std::to_string(numbers[i]);
    return numbers.size() > k_most ? text + " and " + std::to_string(numbers.size() - k_most) + " more" : text;
}

class Putting {
public:
    Putting(const Seen& seen, std::string subject) : m_subject(std::move(subject)), m_all(all_tastings(seen)) {}

    Result<void> put(PanelView& view) {
        std::set<std::string> attributes;
        for (const Scored& one : m_all)
            if (one.glass.subject == m_subject)
                for (const auto& [attribute, score] : one.scores) attributes.insert(attribute);
        for (const std::string& attribute : attributes) TRY_VOID(put_attribute(view, attribute));
        put_faults(view);
        put_tasters(view);
        return {};
    }

private:
    Result<void> put_attribute(PanelView& view, const std::string& attribute) {
        std::vector<taste::Score> scores;
        std::map<std::string, std::vector<std::int64_t>> entries;  // by day
        std::map<std::string, std::string> day_of;                 // by glass
        for (const Scored& one : m_all) {
            const auto score = one.scores.find(attribute);
            if (score == one.scores.end()) continue;
            scores.push_back({one.taster, one.glass.id(), score->second});
            if (one.glass.subject != m_subject) continue;
            day_of[one.glass.id()] = one.glass.day;
            entries[one.glass.day].push_back(one.number);
        }
        TRY(const taste::Panel panel, taste::panel_of(scores));
        std::vector<TastedFigure> days;
        for (const auto& [glass, day] : day_of) {
            const taste::PanelFigure& figure = panel.samples.at(glass);
            TastedFigure shown{attribute, day, figure.mean, figure.sd, figure.tasters, figure.scores, {}};
            shown.why = "by " + std::to_string(figure.tasters) + (figure.tasters == 1 ? " taster" : " tasters") +
                        " in " + numbers_text(entries[day]) + "; each taster's habit is known from " +
                        std::to_string(scores.size()) + " scores of " + attribute + " in the book";
            days.push_back(std::move(shown));
        }
        std::stable_sort(days.begin(), days.end(),
                         [](const TastedFigure& a, const TastedFigure& b) { return a.day < b.day; });
        view.now.push_back(days.back());
        view.course.insert(view.course.end(), days.begin(), days.end());
        for (const auto& [taster, habits] : panel.tasters) {
            TasterLine& line = m_tasters[taster];
            line.taster = taster;
            line.offset += habits.offset * habits.scores;
            line.scores += habits.scores;
            line.repeats += habits.repeats * habits.repeats * habits.duplicates;
            line.duplicates += habits.duplicates;
        }
        find_blind(attribute, scores);
        return {};
    }

    // Who gives next to nothing where the others find much, and keeps doing so.
    void find_blind(const std::string& attribute, const std::vector<taste::Score>& scores) {
        constexpr double k_clearly_there = 3.5;
        constexpr double k_next_to_nothing = 1.0;
        constexpr int k_often = 2;
        std::map<std::string, std::map<std::string, std::pair<double, int>>> by_glass;  // glass, taster
        for (const taste::Score& one : scores) {
            auto& sum = by_glass[one.sample][one.taster];
            sum.first += one.value;
            ++sum.second;
        }
        struct Misses {
            int missed = 0;
            int there = 0;
            double own = 0.0;
            double others = 0.0;
        };
        std::map<std::string, Misses> misses;
        for (const auto& [glass, tasters] : by_glass)
            for (const auto& [taster, own] : tasters) {
                double others = 0.0;
                int count = 0;
                for (const auto& [other, sum] : tasters)
                    if (other != taster) {
                        others += sum.first / sum.second;
                        ++count;
                    }
                if (count < 2 || others / count < k_clearly_there) continue;
                Misses& of = misses[taster];
                ++of.there;
                if (own.first / own.second > k_next_to_nothing) continue;
                ++of.missed;
                of.own += own.first / own.second;
                of.others += others / count;
            }
        for (const auto& [taster, of] : misses) {
            if (of.missed < k_often || 2 * of.missed <= of.there) continue;
            m_tasters[taster].taster = taster;
            m_tasters[taster].blind.push_back("misses " + attribute + ": gave " + number_text(of.own / of.missed, 1) +
                                              " where others found " + number_text(of.others / of.missed, 1) + ", " +
                                              std::to_string(of.missed) + " times of " + std::to_string(of.there));
        }
    }

    void put_faults(PanelView& view) const {
        std::map<std::string, NamedFault> newest;
        std::map<std::string, int> tastings;
        for (const Scored& one : m_all)
            if (one.glass.subject == m_subject) ++tastings[one.glass.day];
        for (const Scored& one : m_all) {
            if (one.glass.subject != m_subject) continue;
            for (const std::string& fault : one.faults) {
                NamedFault& named = newest[fault];
                if (named.day < one.glass.day) named = {fault, one.glass.day, 0, tastings[one.glass.day], {}};
                if (named.day != one.glass.day) continue;
                ++named.times;
                named.by.push_back(one.taster);
            }
        }
        for (auto& [fault, named] : newest) view.faults.push_back(std::move(named));
        std::stable_sort(view.faults.begin(), view.faults.end(),
                         [](const NamedFault& a, const NamedFault& b) { return a.day > b.day; });
    }

    void put_tasters(PanelView& view) {
        std::set<std::string> own;
        for (const Scored& one : m_all)
            if (one.glass.subject == m_subject && !one.scores.empty()) own.insert(one.taster);
        for (auto& [taster, line] : m_tasters) {
            if (!own.contains(taster)) continue;
            line.offset /= std::max(line.scores, 1);
            if (line.duplicates > 0) line.repeats = std::sqrt(line.repeats / line.duplicates);
            view.tasters.push_back(std::move(line));
        }
    }

    std::string m_subject;
    std::vector<Scored> m_all;
    std::map<std::string, TasterLine> m_tasters;
};

}  // namespace

Result<PanelView> panel_view(const Seen& seen, engine::HolderRef holder) {
    const bool bottled = holder.run >= 0;
    PanelView view;
    view.on = seen.telling.day_text(seen.when);
    view.subject =
        bottled ? seen.cellar.runs[at_index(holder.run)].as.run : seen.cellar.vessels[at_index(holder.vessel)].as.name;
    TRY_VOID(Putting(seen, key_of(seen.cellar, holder).text()).put(view));
    view.standing = faults_of(seen.cellar, seen.tables, seen.telling, key_of(seen.cellar, holder), seen.when);
    if (view.now.empty() && view.faults.empty()) {
        view.words = "Nobody has scored " + view.subject + " yet.";
    } else {
        std::string newest;
        for (const TastedFigure& figure : view.now) newest = std::max(newest, figure.day);
        int most = 0;
        for (const TastedFigure& figure : view.now)
            if (figure.day == newest) most = std::max(most, figure.tasters);
        view.words = view.subject + " was last scored on " + newest + " by " + std::to_string(most) +
                     (most == 1 ? " taster: one palate misleads, and the spread says so." : " tasters.");
        if (newest.empty()) view.words = view.subject + " was never scored; faults were named.";
    }
    view.cautions.push_back(
        {"panel.beer_moves_on",
         "What was tasted is what was in it that day: a refill, fruit or time may have changed it."});
    return view;
}

}  // namespace undercroft::app

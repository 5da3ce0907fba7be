#include "tests/properties/all_ways.hpp"

#include <algorithm>
#include <set>

namespace undercroft::testing {
namespace {

using namespace ledger;

// What can happen to something that is in a place. A place is a vessel, a run, or gear.
enum class Turn {
    brought,         // to `place`: `what`, with `level`
    poured,          // from `place` to `to`, as `place` was before step `as_of`
    touched,         // gear `place` and vessel `to`
    touched_bottle,  // gear `place` and run `to`
    emptied,         // the last of the liquid left
    looked_after,    // a vessel, by `care`
    gear_killed,
    treated,    // by `treat`
    confirmed,  // the culture of that name
};

struct Step {
    Turn turn = Turn::brought;
    std::string place;
    std::string to = {};
    std::size_t as_of = 0;
    std::string what = {};
    int level = 0;
    const Care* care = nullptr;
    const Treat* treat = nullptr;
    const Culture* culture = nullptr;  // of one that is brought; no culture: an allergen
};

std::string gear_place(const std::string& name) {
    return "gear " + name;
}

// The book as a list of such steps. Volumes are followed only to see when something stands empty.
class Steps {
public:
    explicit Steps(const std::vector<Entry>& entries) {
        std::map<std::string, const Entry*> by_key;
        std::set<std::string> replaced;
        for (const Entry& entry : entries) {
            by_key[entry.key.text()] = &entry;
            if (entry.supersedes) replaced.insert(entry.supersedes->text());
        }
        std::vector<const Entry*> order;
        for (const Entry& entry : entries) {
            const Entry* first = &entry;
            while (first->supersedes) first = by_key.at(first->supersedes->text());
            m_first[entry.key.text()] = first->key.text();
            if (!replaced.contains(entry.key.text())) order.push_back(&entry);
        }
        std::sort(order.begin(), order.end(), [](const Entry* a, const Entry* b) {
            return std::pair{a->place.at.ms, a->place.path} < std::pair{b->place.at.ms, b->place.path};
        });
        for (const Entry* entry : order) {
            m_own = m_first.at(entry->key.text());
            std::visit([this](const auto& body) { happen(body); }, entry->body);
        }
    }

    std::vector<Step> steps;

private:
    std::string place(const EntryKey& key) const { return m_first.at(key.text()); }

    void take(const std::string& from, std::int64_t ul) {
        if (ul == 0) return;
        m_ul[from] -= ul;
        if (m_ul[from] == 0 && !m_runs.contains(from)) steps.push_back({.turn = Turn::emptied, .place = from});
    }
    void bring(const std::string& into, const std::vector<Culture>& cultures) {
        for (std::size_t i = 0; i < cultures.size(); ++i)
            steps.push_back({.turn = Turn::brought,
                             .place = into,
                             .what = m_own + "/" + std::to_string(i),
                             .level = static_cast<int>(Certainty::certain),
                             .culture = &cultures[i]});
    }
    void bring(const std::string& into, const std::vector<Allergen>& allergens, bool of_no_amount = false) {
        for (const Allergen& one : allergens)
            steps.push_back(
                {.turn = Turn::brought,
                 .place = into,
                 .what = one.group,
                 .level = static_cast<int>(one.mg_per_litre && !of_no_amount ? Amount::known : Amount::unknown)});
    }
    void touch(const std::string& vessel, const GearNames& gear) {
        for (const std::string& name : gear)
            steps.push_back({.turn = Turn::touched, .place = gear_place(name), .to = vessel});
    }
    void settle(const std::string& into, const FullSettlement& settlement) {
        take(into, settlement.evaporation.ul());
        m_ul[into] += settlement.found.ul();
    }

    void happen(const LotEnters& body) {
        const std::string into = place(body.vessel);
        settle(into, body.settlement);
        bring(into, body.allergens);
        m_ul[into] += body.volume.ul();
        bring(into, body.cultures);
        touch(into, body.gear);
    }
    void happen(const Move& body) {
        const std::string from = place(body.from);
        const std::size_t began = steps.size();
        touch(from, body.gear);
        std::int64_t leaves = body.loss.ul();
        for (const Destination& to : body.to) {
            settle(place(to.vessel), body.settlement);
            steps.push_back({.turn = Turn::poured, .place = from, .to = place(to.vessel), .as_of = began});
            m_ul[place(to.vessel)] += to.volume.ul();
            leaves += to.volume.ul();
            touch(place(to.vessel), body.gear);
        }
        take(from, leaves);
    }
    void happen(const Settle& body) {
        const std::string at = place(body.subject);
        if (!m_runs.contains(at)) settle(at, {body.missing, body.surplus});
    }
    void happen(const Loss& body) { take(place(body.vessel), body.volume.ul()); }
    void happen(const Addition& body) {
        const std::string into = place(body.vessel);
        // Without liquid, into an empty vessel: nobody knows what a litre of what follows will hold of it.
        bring(into, body.allergens, body.brings == Volume{} && m_ul[into] == 0);
        m_ul[into] += body.brings.ul();
        bring(into, body.cultures);
    }
    void happen(const Pitch& body) {
        steps.push_back({.turn = Turn::brought,
                         .place = place(body.vessel),
                         .what = m_own + "/0",
                         .level = static_cast<int>(body.suspected ? Certainty::possible : Certainty::certain),
                         .culture = &body.culture});
    }
    void look(const EntryKey& subject, Volume sample, const GearNames& gear) {
        const std::string at = place(subject);
        if (m_runs.contains(at)) return;
        touch(at, gear);
        take(at, sample.ul());
    }
    void happen(const Reading& body) { look(body.subject, body.sample, body.gear); }
    void happen(const Tasting& body) { look(body.subject, body.sample, body.gear); }
    void happen(const Package& body) {
        const std::string from = place(body.from);
        m_runs[m_own] = body.fill.ul();
        const std::size_t began = steps.size();
        touch(from, body.gear);
        steps.push_back({.turn = Turn::poured, .place = from, .to = m_own, .as_of = began});
        for (const std::string& name : body.gear)
            steps.push_back({.turn = Turn::touched_bottle, .place = gear_place(name), .to = m_own});
        take(from, body.fill.ul() * body.count - body.priming_volume.ul() + body.loss.ul());
    }
    void happen(const Take& body) {
        if (body.cause != TakeCause::returned) return;
        const std::string run = place(body.run);
        steps.push_back({.turn = Turn::poured, .place = run, .to = place(body.vessel), .as_of = steps.size()});
        m_ul[place(body.vessel)] += m_runs.at(run) * body.count;
    }
    void happen(const Care& body) {
        if (!body.vessel.empty())
            steps.push_back({.turn = Turn::looked_after, .place = place(body.vessel), .care = &body});
        for (const std::string& name : body.gear) {
            if (!body.method || body.kill)
                steps.push_back({.turn = Turn::gear_killed, .place = gear_place(name)});
            else if (!body.vessel.empty())
                touch(place(body.vessel), {name});
        }
    }
    void happen(const Treat& body) {
        steps.push_back({.turn = Turn::treated, .place = place(body.subject), .treat = &body});
        bring(place(body.subject), body.allergens);
    }
    void happen(const Confirm& body) {
        steps.push_back({.turn = Turn::confirmed, .place = place(body.subject), .what = body.culture});
    }
    template <class Body>
    void happen(const Body&) {}

    std::map<std::string, std::string> m_first;
    std::map<std::string, std::int64_t> m_ul;
    std::map<std::string, std::int64_t> m_runs;  // fill of each
    std::string m_own;
};

bool among(const std::vector<std::string>& kinds, const std::string& kind) {
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

constexpr int k_possible = static_cast<int>(Certainty::possible);
constexpr int k_likely = static_cast<int>(Certainty::likely);
constexpr int k_certain = static_cast<int>(Certainty::certain);
constexpr int k_unknown = static_cast<int>(Amount::unknown);

// Follows one thing that was brought.
class Search {
public:
    Search(const std::vector<Step>& steps, const Step& source) : m_steps(steps), m_source(source) {}

    // Where it ends, with the highest level of any way that leads there.
    std::map<std::string, int> run(std::size_t from) {
        go(m_source.place, from, m_source.level);
        return std::move(m_ends);
    }

private:
    [[nodiscard]] bool is_culture() const { return m_source.culture != nullptr; }

    // It came into `place` with step `came`.
    void go(const std::string& place, std::size_t came, int level) {
        const auto [seen, is_first] = m_seen.try_emplace({place, came}, level);
        if (!is_first && seen->second >= level) return;
        seen->second = level;
        for (std::size_t i = came + 1; i < m_steps.size(); ++i) {
            const Step& step = m_steps[i];
            if (step.place != place && step.to != place) continue;
            if (!survives(step, place, came, i, level)) return;
        }
        const auto [end, is_new] = m_ends.try_emplace(place, level);
        end->second = std::max(end->second, level);
    }

    // What one step does to it, and where else it goes by that step.
    bool survives(const Step& step, const std::string& place, std::size_t came, std::size_t i, int& level) {
        const bool here = step.place == place;
        switch (step.turn) {
            case Turn::brought:
                return true;
            case Turn::poured:
                if (here && came < step.as_of) go(step.to, i, is_culture() ? std::min(level, k_likely) : level);
                return true;
            case Turn::touched:
                if (!is_culture()) return true;
                if (here)
                    go(step.to, i, k_possible);
                else if (level >= k_likely)
                    go(step.place, i, level);
                return true;
            case Turn::touched_bottle:
                if (here && is_culture()) go(step.to, i, k_possible);
                return true;
            case Turn::emptied:
                level = is_culture() ? k_possible : k_unknown;
                return true;
            case Turn::looked_after:
                return is_culture() ? lives_through(*step.care, level) : stays_behind(*step.care, level);
            case Turn::gear_killed:
                return false;
            case Turn::treated:
                return !is_culture() || lives_through(*step.treat, level);
            case Turn::confirmed:
                if (is_culture() && m_source.culture->name == step.what) level = k_certain;
                return true;
        }
        return true;
    }

    static bool lives_through(const Care& care, int& level) {
        level = k_possible;
        const bool kill_step = !care.method || care.kill;
        return !kill_step || care.in_pores;
    }
    static bool stays_behind(const Care& care, int& level) {
        level = k_unknown;
        return care.method == CareMethod::emptied || care.method == CareMethod::rinsed;
    }
    bool lives_through(const Treat& treat, int& level) const {
        const Culture& culture = *m_source.culture;
        const bool weak = among(treat.gone_unless_diastatic, culture.kind);
        if (among(treat.gone, culture.kind) || (weak && culture.diastatic != Diastatic::yes)) return false;
        if (weak || among(treat.perhaps, culture.kind)) level = k_possible;
        return true;
    }

    const std::vector<Step>& m_steps;
    const Step& m_source;
    std::map<std::pair<std::string, std::size_t>, int> m_seen;  // by place, and the step it came there with
    std::map<std::string, int> m_ends;
};

}  // namespace

std::map<std::string, Reached> all_ways(const std::vector<Entry>& entries) {
    const Steps book{entries};
    std::map<std::string, Reached> reached;
    for (std::size_t i = 0; i < book.steps.size(); ++i) {
        const Step& source = book.steps[i];
        if (source.turn != Turn::brought) continue;
        for (const auto& [place, level] : Search{book.steps, source}.run(i)) {
            if (source.culture != nullptr) {
                const auto certainty = static_cast<Certainty>(level);
                const auto [spot, is_new] = reached[place].cultures.try_emplace(source.what, certainty);
                spot->second = std::max(spot->second, certainty);
            } else {
                const auto amount = static_cast<Amount>(level);
                const auto [spot, is_new] = reached[place].allergens.try_emplace(source.what, amount);
                spot->second = std::max(spot->second, amount);
            }
        }
    }
    return reached;
}

}  // namespace undercroft::testing

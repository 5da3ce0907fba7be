#include "app/news.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "app/bodies.hpp"
#include "app/findings.hpp"
#include "ledger/alike.hpp"

namespace undercroft::app {
namespace {

using namespace ledger;

constexpr double k_least_point = 0.001;  // a tenth of a percentage point
constexpr std::size_t k_lots_named = 4;

struct Holder {
    EntryKey key;
    engine::HolderRef before;
    engine::HolderRef after;
};

bool is_there(engine::HolderRef holder) {
    return holder.vessel >= 0 || holder.run >= 0;
}

// Everything that is there before or after, in order of joining.
std::vector<Holder> holders_of(const Cellar& before, const Cellar& after) {
    std::vector<Holder> all;
    for (const VesselState& vessel : after.vessels)
        all.push_back({vessel.key, {before.vessel_of(vessel.key), -1}, {after.vessel_of(vessel.key), -1}});
    for (const RunState& run : after.runs)
        all.push_back({run.key, {-1, before.run_of(run.key)}, {-1, after.run_of(run.key)}});
    for (const VesselState& vessel : before.vessels)
        if (after.vessel_of(vessel.key) < 0) all.push_back({vessel.key, {before.vessel_of(vessel.key), -1}, {}});
    for (const RunState& run : before.runs)
        if (after.run_of(run.key) < 0) all.push_back({run.key, {-1, before.run_of(run.key)}, {}});
    return all;
}

// Name of each lot and its share, by the key of the entry that brought it: numbers of lots differ between replays. As
// the liquid is shown: what was found in a vessel counts by what lay there.
std::map<std::string, std::pair<std::string, double>> make_up_of(const Cellar& cellar, engine::HolderRef holder,
                                                                 const HoldingView& view) {
    std::map<std::string, std::pair<std::string, double>> parts;
    if (!is_there(holder)) return parts;
    const auto add = [&parts](const std::string& key, const std::string& name, double share) {
        auto& part = parts[key + name];
        part.first = name;
        part.second += share;
    };
    if (view.from_brew_day) {
        for (const engine::VintagePart& part : view.from_brew_day->parts)
            add(cellar.lots[at_index(part.lot)].key.text(), part.name, part.share * view.from_brew_day->beer_share);
        for (const engine::OtherSource& other : view.from_brew_day->others) add("", other.name, other.share);
        return parts;
    }
    const Liquid& liquid =
        holder.run >= 0 ? cellar.runs[at_index(holder.run)].liquid : cellar.vessels[at_index(holder.vessel)].liquid;
    if (liquid.node == k_no_node) return parts;
    const std::vector<double> shares = cellar.shares(liquid);
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (shares[i] > 0.0) add("", cellar.lots[i].name, shares[i]);
    return parts;
}

void add_make_up(std::vector<Change>& rows, const std::string& subject,
                 const std::map<std::string, std::pair<std::string, double>>& before,
                 const std::map<std::string, std::pair<std::string, double>>& after) {
    struct Part {
        std::string name;
        double was = 0.0;
        double is = 0.0;
        [[nodiscard]] double moved() const { return std::abs(is - was); }
    };
    std::map<std::string, Part> parts;
    for (const auto& [key, part] : before) parts[key] = {part.first, part.second, 0.0};
    for (const auto& [key, part] : after) {
        parts[key].name = part.first;
        parts[key].is = part.second;
    }
    std::vector<Part> moved;
    for (auto& [key, part] : parts)
        if (part.moved() > k_least_point) moved.push_back(std::move(part));
    if (moved.empty()) return;
    std::stable_sort(moved.begin(), moved.end(), [](const Part& a, const Part& b) { return a.moved() > b.moved(); });
    Change row{subject, "make-up", "", ""};
    for (std::size_t i = 0; i < std::min(moved.size(), k_lots_named); ++i) {
        row.before += (i > 0 ? ", " : "") + percent_text(moved[i].was, 1) + " " + moved[i].name;
        row.after += (i > 0 ? ", " : "") + percent_text(moved[i].is, 1) + " " + moved[i].name;
    }
    if (moved.size() > k_lots_named) row.after += ", and others";
    rows.push_back(std::move(row));
}

// What is the same before and after needs no second look: of a book of years, a late entry moves little.
class Unmoved {
public:
    Unmoved(const Seen& before, const Seen& after)
        : m_before(before), m_after(after), m_alike(before.cellar, after.cellar) {}

    [[nodiscard]] bool operator()(engine::HolderRef was, engine::HolderRef is) const {
        if (was.vessel >= 0 && is.vessel >= 0)
            return m_alike.vessels(was.vessel, is.vessel) &&
                   m_before.states.vessels[at_index(was.vessel)] == m_after.states.vessels[at_index(is.vessel)] &&
                   m_before.states.stock[at_index(was.vessel)] == m_after.states.stock[at_index(is.vessel)];
        if (was.run >= 0 && is.run >= 0)
            return m_alike.runs(was.run, is.run) &&
                   m_before.states.runs[at_index(was.run)] == m_after.states.runs[at_index(is.run)];
        return false;
    }
    // The same entries speak of it.
    [[nodiscard]] bool said_of_run(int was, int is) const {
        const auto& one = m_before.cellar.runs[at_index(was)].entries;
        const auto& other = m_after.cellar.runs[at_index(is)].entries;
        return std::equal(one.begin(), one.end(), other.begin(), other.end(), [this](int a, int b) {
            return m_before.cellar.entries[at_index(a)] == m_after.cellar.entries[at_index(b)];
        });
    }

private:
    const Seen& m_before;
    const Seen& m_after;
    Alike m_alike;
};

}  // namespace

std::vector<Change> moved_between(const Seen& before, const Seen& after,
                                  const std::function<bool(const EntryKey&)>& is_told) {
    const Unmoved unmoved{before, after};
    std::vector<Change> rows;
    for (const Holder& holder : holders_of(before.cellar, after.cellar)) {
        if (is_told(holder.key) || unmoved(holder.before, holder.after)) continue;
        const HoldingView was = is_there(holder.before) ? holding_view(before, holder.before, 0) : HoldingView{};
        const HoldingView is = is_there(holder.after) ? holding_view(after, holder.after, 0) : HoldingView{};
        const HoldingView& named = is.vessel || is.run ? is : was;
        for (Change& change : changes_between(was, is, after.telling.unit)) rows.push_back(std::move(change));
        add_make_up(rows, named.vessel ? named.vessel->name : named.run->run,
                    make_up_of(before.cellar, holder.before, was), make_up_of(after.cellar, holder.after, is));
    }
    return rows;
}

FindingNews finding_news(const Seen& before, const Seen& after, const tables::Tables& tables, Gallons gallons) {
    // What neither moved nor is spoken of otherwise is found, or not, on both sides alike.
    const Unmoved unmoved{before, after};
    std::set<EntryKey> passed_over;
    for (std::size_t i = 0; i < after.cellar.runs.size(); ++i) {
        const auto is = static_cast<int>(i);
        const int was = before.cellar.run_of(after.cellar.runs[i].key);
        if (was >= 0 && unmoved({-1, was}, {-1, is}) && unmoved.said_of_run(was, is))
            passed_over.insert(after.cellar.runs[i].key);
    }
    const auto was = findings_of(before.telling, tables, gallons, before.cellar, before.states, passed_over);
    const auto is = findings_of(after.telling, tables, gallons, after.cellar, after.states, passed_over);
    const auto not_among = [](const std::vector<FindingView>& others) {
        return [&others](const FindingView& one) {
            return std::none_of(others.begin(), others.end(),
                                [&](const FindingView& other) { return other.key == one.key; });
        };
    };
    FindingNews news;
    std::copy_if(is.begin(), is.end(), std::back_inserter(news.opened), not_among(was));
    std::copy_if(was.begin(), was.end(), std::back_inserter(news.closed), not_among(is));
    return news;
}

}  // namespace undercroft::app

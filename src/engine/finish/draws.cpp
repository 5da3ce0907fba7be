#include "engine/finish/draws.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace undercroft::engine::finish {

namespace {

// SplitMix64 (Steele, Lea & Flood 2014), and normal numbers by Box and Muller 1958.
class Normals {
public:
    explicit Normals(std::uint64_t seed) : m_state(seed) {}
    double next() {
        if (m_kept) {
            m_kept = false;
            return m_other;
        }
        const double radius = std::sqrt(-2.0 * std::log(uniform()));
        const double angle = 2.0 * std::numbers::pi * uniform();
        m_other = radius * std::sin(angle);
        m_kept = true;
        return radius * std::cos(angle);
    }

private:
    // Above 0, at most 1.
    double uniform() {
        std::uint64_t z = (m_state += 0x9E3779B97F4A7C15ULL);
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
        z ^= z >> 31U;
        return (static_cast<double>(z >> 11U) + 1.0) / 9007199254740992.0;
    }
    std::uint64_t m_state;
    double m_other = 0.0;
    bool m_kept = false;
};

constexpr const char* k_any_aroma = "any_added_aroma";
constexpr const char* k_skins = "skins";
constexpr int k_acidity = -1;  // places of what is no attribute
constexpr int k_aromas = -2;
constexpr int k_with_skins = -2;
constexpr double k_loud = 8.0;  // an aroma above it is not raised further (data/effects.csv)

double steps_off(const blend::Wish& wish, double value) {
    double off = 0.0;
    if (wish.range.low) off = std::max(off, *wish.range.low - value);
    if (wish.range.high) off = std::max(off, value - *wish.range.high);
    return off / wish.unit;
}

double beyond(const tables::Interaction& rule, double value) {
    return rule.above ? std::max(0.0, value - rule.threshold) : std::min(0.0, value - rule.threshold);
}

}  // namespace

Draws::Draws(const tables::Tables& tables, const Portion& portion, const Target& target, std::uint64_t seed)
    : m_tables(tables), m_target(target) {
    for (const tables::Attribute& row : tables.attributes) {
        Attribute one{row.id, row.group == "aroma", {}};
        const auto known = portion.beer.figures.find(row.id);
        const bool wanted =
            std::any_of(target.begin(), target.end(), [&](const blend::Wish& wish) { return wish.figure == row.id; });
        if (known != portion.beer.figures.end()) {
            one.before = known->second;
        } else {
            // Own choice: the usual span holds nine of ten.
            const double low = (portion.sour ? row.usual_sour_low : row.usual_clean_low).value_or(0.0);
            const double high = (portion.sour ? row.usual_sour_high : row.usual_clean_high).value_or(4.0);
            one.before = {(low + high) / 2.0, std::max(0.5, (high - low) / 3.29)};
            if (wanted) m_taken.insert(row.id);
        }
        m_index[row.id] = static_cast<int>(m_attributes.size());
        m_attributes.push_back(std::move(one));
    }
    if (const auto ta = portion.beer.figures.find("ta"); ta != portion.beer.figures.end())
        m_ta_before = ta->second.mean;
    for (const blend::Wish& wish : target)
        if (!m_index.contains(wish.figure) && !portion.beer.figures.contains(wish.figure) &&
            !(wish.figure == blend::k_ph && portion.beer.acids))
            m_unknown.insert(wish.figure);
    std::set<int> active;
    const auto use = [&](const std::string& id) {
        const int at = index_of(id);
        return at >= 0 && active.insert(at).second;
    };
    for (const blend::Wish& wish : target) use(wish.figure);
    for (const auto& [figure, value] : portion.beer.figures) use(figure);
    for (bool more = true; more;) {
        more = false;
        for (const tables::Interaction& rule : tables.interactions) {
            if (std::none_of(rule.changes.begin(), rule.changes.end(), [&](const std::string& changed) {
                    const int at = index_of(changed);
                    return at >= 0 && active.contains(at);
                }))
                continue;
            more = use(rule.when) || more;
            more = use(rule.only_when) || more;
            if (rule.when == k_any_aroma)
                for (const Attribute& one : m_attributes)
                    if (one.aroma) more = use(one.id) || more;
        }
    }
    for (const int at : active) m_active.push_back(static_cast<std::size_t>(at));
    for (std::size_t i = 0; i < tables.interactions.size(); ++i) {
        const tables::Interaction& rule = tables.interactions[i];
        Acting acting{&rule, i, index_of(rule.when), index_of(rule.only_when), {}};
        if (rule.when == k_any_aroma) acting.when = k_aromas;
        if (rule.only_when == k_skins) acting.only = k_with_skins;
        for (const std::string& changed : rule.changes)
            if (const int at = index_of(changed); active.contains(at))
                acting.changes.push_back(static_cast<std::size_t>(at));
        const bool known = acting.when != k_acidity || rule.when == k_acidity_row;
        if (known && !acting.changes.empty()) m_acting.push_back(std::move(acting));
    }
    m_width = 2 * m_attributes.size() + tables.interactions.size() + target.size();
    Normals normals(seed);
    m_normal.resize(m_width * k_finish_draws);
    for (double& z : m_normal) z = normals.next();
}

int Draws::index_of(const std::string& attribute) const {
    const auto found = m_index.find(attribute);
    return found == m_index.end() ? -1 : found->second;
}

void Draws::act_on_each_other(const std::vector<double>& before, std::vector<double>& after, double ta_before,
                              double ta_after, bool skins, const double* z) const {
    const std::vector<double> mixed = after;
    for (const Acting& acting : m_acting) {
        const tables::Interaction& rule = *acting.rule;
        double was = 0.0;
        double is = 0.0;
        if (acting.when == k_acidity) {
            was = beyond(rule, ta_before);
            is = beyond(rule, ta_after);
        } else if (acting.when == k_aromas) {
            for (const std::size_t a : m_active)
                if (m_attributes[a].aroma && mixed[a] > before[a]) is = std::max(is, beyond(rule, mixed[a]));
        } else {
            was = beyond(rule, before[static_cast<std::size_t>(acting.when)]);
            is = beyond(rule, mixed[static_cast<std::size_t>(acting.when)]);
        }
        if (is == was || (acting.only == k_with_skins && !skins)) continue;
        if (acting.only >= 0 && mixed[static_cast<std::size_t>(acting.only)] < rule.only_when_at_least) continue;
        const double change = (rule.points_per_unit + rule.sd * z[acting.number]) * (is - was);
        for (const std::size_t at : acting.changes) after[at] += change;
    }
}

Outcome Draws::of(const Moved& moved) const {
    const std::size_t count = m_attributes.size();
    std::vector<Figure> change(count, Figure{0.0, k_tasting_noise});
    for (const auto& [attribute, figure] : moved.points)
        if (const int at = index_of(attribute); at >= 0) change[static_cast<std::size_t>(at)] = figure;
    double ta_after = m_ta_before;
    if (const auto ta = moved.measured.find("ta"); ta != moved.measured.end()) ta_after = ta->second.mean;

    std::vector<double> before(count);
    std::vector<double> after(count);
    std::vector<double> sum(count);
    std::vector<double> squares(count);
    std::vector<int> hits(m_target.size());
    Outcome out;
    out.offs.reserve(k_finish_draws);
    int all_inside = 0;
    for (int draw = 0; draw < k_finish_draws; ++draw) {
        const double* z = m_normal.data() + static_cast<std::size_t>(draw) * m_width;
        for (const std::size_t a : m_active) {
            const Attribute& one = m_attributes[a];
            before[a] = std::clamp(one.before.mean + one.before.sd * z[a], 0.0, 10.0);
            double by = change[a].mean + change[a].sd * z[count + a];
            if (one.aroma && by > 0.0) by = std::min(by, std::max(0.0, k_loud - before[a]));
            after[a] = before[a] + by;
        }
        act_on_each_other(before, after, m_ta_before, ta_after, moved.skins, z + 2 * count);
        for (const std::size_t a : m_active) {
            after[a] = std::clamp(after[a], 0.0, 10.0);
            sum[a] += after[a];
            squares[a] += after[a] * after[a];
        }
        const double* of_target = z + 2 * count + m_tables.interactions.size();
        double off = 0.0;
        bool inside = true;
        for (std::size_t w = 0; w < m_target.size(); ++w) {
            const blend::Wish& wish = m_target[w];
            double steps = 0.0;
            if (const int at = index_of(wish.figure); at >= 0) {
                steps = steps_off(wish, after[static_cast<std::size_t>(at)]);
            } else if (const auto found = moved.measured.find(wish.figure); found != moved.measured.end()) {
                steps = steps_off(wish, found->second.mean + found->second.sd * of_target[w]);
            } else {
                continue;
            }
            if (steps <= 0.0) ++hits[w];
            inside = inside && steps <= 0.0;
            off += wish.weight * steps;
        }
        all_inside += inside ? 1 : 0;
        out.offs.push_back(off);
        out.off += off;
    }
    constexpr double k_draws = k_finish_draws;
    out.inside = all_inside / k_draws;
    out.off /= k_draws;
    std::vector<double> sorted = out.offs;
    constexpr std::size_t k_ninety_fifth = k_finish_draws * 95 / 100;
    std::nth_element(sorted.begin(), sorted.begin() + k_ninety_fifth, sorted.end());
    out.worst = sorted[k_ninety_fifth];
    for (const std::size_t a : m_active) {
        const double mean = sum[a] / k_draws;
        out.tasted[m_attributes[a].id] = {mean, std::sqrt(std::max(0.0, squares[a] / k_draws - mean * mean))};
    }
    for (std::size_t w = 0; w < m_target.size(); ++w)
        if (!m_unknown.contains(m_target[w].figure)) out.by_wish[m_target[w].figure] = hits[w] / k_draws;
    return out;
}

}  // namespace undercroft::engine::finish

#include "solve/few.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <queue>
#include <stdexcept>
#include <utility>

#include "base/index.hpp"
#include "solve/dense_dual.hpp"
#include "solve/time_limit.hpp"

namespace undercroft::solve {

namespace {

constexpr double k_used = 1e-9;       // of the total: less is nothing
constexpr double k_same_cost = 1e-9;  // as the general solver's gap
constexpr int k_most_starts = 12;     // of the search by swaps; few columns are proven as soon as searched
constexpr int k_columns_a_start = 15;
constexpr std::size_t k_most_open = 8'000'000;  // nodes kept

enum class Use : char { open, in, out };

// One stretch of a figure between two points where its cost bends.
struct Stretch {
    double length = 0.0;
    double slope = 0.0;
    bool up = true;
};

// A figure as a row: values * amounts - up + down = base, and what the base costs.
struct Bent {
    double base = 0.0;
    double cost = 0.0;
    std::vector<Stretch> stretches;
    bool possible = true;
};

double cost_at(const Figure& figure, double value) {
    double sum = 0.0;
    for (const Hinge& hinge : figure.hinges)
        sum += hinge.slope * std::max(0.0, hinge.above ? value - hinge.at : hinge.at - value);
    return sum;
}

Bent bent(const Figure& figure, double total) {
    const auto [least, most] = std::minmax_element(figure.values.begin(), figure.values.end());
    // A hair wider than can be reached, so that rounding shuts nothing out.
    const double hair = 1e-9 * (1.0 + total * std::max(std::abs(*least), std::abs(*most)));
    const double low = std::max(figure.low, total * *least - hair);
    const double high = std::min(figure.high, total * *most + hair);
    Bent out;
    if (low > high) {
        out.possible = false;
        return out;
    }
    std::vector<double> points{low, high};
    for (const Hinge& hinge : figure.hinges)
        if (hinge.at > low && hinge.at < high) points.push_back(hinge.at);
    std::sort(points.begin(), points.end());
    points.erase(std::unique(points.begin(), points.end()), points.end());
    const auto slope_of = [&](double left, double right) {
        double slope = 0.0;
        for (const Hinge& hinge : figure.hinges) {
            if (hinge.above && hinge.at <= left) slope += hinge.slope;
            if (!hinge.above && hinge.at >= right) slope -= hinge.slope;
        }
        return slope;
    };
    out.base = points.back();
    std::size_t turn = points.size() - 1;
    for (std::size_t p = 0; p + 1 < points.size(); ++p)
        if (slope_of(points[p], points[p + 1]) >= 0.0) {
            out.base = points[p];
            turn = p;
            break;
        }
    out.cost = cost_at(figure, out.base);
    for (std::size_t p = turn; p + 1 < points.size(); ++p)
        out.stretches.push_back({points[p + 1] - points[p], slope_of(points[p], points[p + 1]), true});
    for (std::size_t p = turn; p > 0; --p)
        out.stretches.push_back({points[p] - points[p - 1], -slope_of(points[p - 1], points[p]), false});
    return out;
}

struct Relaxed {
    bool closed = false;  // nothing better than the cutoff in it
    double bound = 0.0;
    std::vector<double> amounts;  // of all columns
};

struct Node {
    double bound = 0.0;
    std::int32_t parent = -1;
    std::int32_t column = -1;
    Use use = Use::open;
};

class Few {
public:
    Few(const FewProblem& problem, const Effort& effort)
        : m_problem(problem),
          m_columns(problem.columns),
          m_count(problem.columns.size()),
          m_cap(std::min(problem.most_used, static_cast<int>(problem.columns.size()))),
          m_limit(effort) {
        for (FewColumn& column : m_columns) {
            // No more than the mix is big: that makes the count of what is used a sharper row.
            column.most = std::min(column.most, problem.total);
            if (column.least > column.most) column.most = 0.0;
        }
        for (const Figure& figure : problem.figures) {
            m_bent.push_back(bent(figure, problem.total));
            m_constant += m_bent.back().cost;
        }
    }

    Answer answer() {
        Answer answer;
        for (const Bent& one : m_bent)
            if (!one.possible) {
                answer.standing = Standing::infeasible;
                return answer;
            }
        search();
        const bool done = m_open.empty() && (m_doubt == k_no_limit || (!m_best.empty() && m_doubt >= cutoff()));
        answer.values = m_best;
        if (m_best.empty()) {
            answer.standing = done ? Standing::infeasible : Standing::nothing;
            answer.bound = done ? k_no_limit : std::min(m_floor, m_doubt);
            return answer;
        }
        answer.cost = m_best_cost;
        answer.standing = done ? Standing::proven : Standing::found;
        answer.bound = done ? m_best_cost : std::min({m_best_cost, m_floor, m_doubt});
        return answer;
    }

private:
    [[nodiscard]] bool over() const { return m_limit.over(); }
    [[nodiscard]] double cutoff() const {
        return m_best.empty() ? k_no_limit : m_best_cost - k_same_cost * std::max(1.0, std::abs(m_best_cost));
    }

    // The programme in which the columns that are in are at least their least, and of the open ones the shares of their
    // most sum to what is left of the count.
    [[nodiscard]] Relaxed relaxed(const std::vector<Use>& uses, double cutoff) const {
        std::vector<std::size_t> shown;
        int left = m_cap;
        bool any_open = false;
        for (std::size_t i = 0; i < m_count; ++i) {
            if (uses[i] == Use::out) continue;
            shown.push_back(i);
            if (uses[i] == Use::in) --left;
            any_open = any_open || uses[i] == Use::open;
        }
        std::vector<Boxed> boxes;
        for (const std::size_t i : shown)
            boxes.push_back({uses[i] == Use::in ? m_columns[i].least : 0.0, m_columns[i].most, 0.0});
        for (const Bent& one : m_bent)
            for (const Stretch& stretch : one.stretches) boxes.push_back({0.0, stretch.length, stretch.slope});
        if (any_open) boxes.push_back({0.0, static_cast<double>(left), 0.0});
        const std::size_t rows = m_bent.size() + 1 + (any_open ? 1 : 0);
        const std::size_t width = boxes.size();
        std::vector<double> matrix(rows * width, 0.0);
        std::vector<double> right;
        std::size_t next = shown.size();
        for (std::size_t f = 0; f < m_bent.size(); ++f) {
            double* row = matrix.data() + f * width;
            for (std::size_t s = 0; s < shown.size(); ++s) row[s] = m_problem.figures[f].values[shown[s]];
            for (const Stretch& stretch : m_bent[f].stretches) row[next++] = stretch.up ? -1.0 : 1.0;
            right.push_back(m_bent[f].base);
        }
        for (std::size_t s = 0; s < shown.size(); ++s) matrix[m_bent.size() * width + s] = 1.0;
        right.push_back(m_problem.total);
        if (any_open) {
            double* row = matrix.data() + (m_bent.size() + 1) * width;
            for (std::size_t s = 0; s < shown.size(); ++s)
                if (uses[shown[s]] == Use::open) row[s] = 1.0 / m_columns[shown[s]].most;
            row[width - 1] = 1.0;
            right.push_back(static_cast<double>(left));
        }
        DenseDual dual(static_cast<int>(rows), std::move(boxes), std::move(matrix), std::move(right));
        Relaxed out;
        const DenseDual::End end = dual.run(cutoff - m_constant);
        out.bound = dual.bound() + m_constant;
        out.closed = end == DenseDual::End::infeasible || out.bound >= cutoff;
        if (out.closed || end == DenseDual::End::tired) return out;
        out.amounts.assign(m_count, 0.0);
        const std::vector<double> values = dual.values();
        for (std::size_t s = 0; s < shown.size(); ++s) out.amounts[shown[s]] = values[s];
        return out;
    }

    // Takes the amounts for the best so far where they keep every limit and cost less.
    void offer(const std::vector<double>& amounts) {
        std::vector<double> kept = amounts;
        int used = 0;
        double sum = 0.0;
        const double nothing = k_used * m_problem.total;
        for (std::size_t i = 0; i < m_count; ++i) {
            if (kept[i] <= nothing) {
                kept[i] = 0.0;
                continue;
            }
            const FewColumn& column = m_columns[i];
            if (kept[i] < column.least - 10.0 * nothing || kept[i] > column.most + 10.0 * nothing) return;
            sum += kept[i];
            ++used;
        }
        if (used > m_cap || std::abs(sum - m_problem.total) > 100.0 * nothing) return;
        double cost = 0.0;
        for (const Figure& figure : m_problem.figures) {
            double value = 0.0;
            double size = 1.0;
            for (std::size_t i = 0; i < m_count; ++i) {
                value += figure.values[i] * kept[i];
                size += std::abs(figure.values[i]) * kept[i];
            }
            const double hair = 1e-8 * size;
            if (value < figure.low - hair || value > figure.high + hair) return;
            cost += cost_at(figure, value);
        }
        if (m_best.empty() || cost < m_best_cost) {
            m_best = std::move(kept);
            m_best_cost = cost;
        }
    }

    // The best with exactly these columns, each used; offered as well. Cost, or no limit where there is none below
    // that.
    double with_columns(const std::vector<std::size_t>& chosen, double below) {
        std::vector<Use> uses(m_count, Use::out);
        for (const std::size_t i : chosen) uses[i] = Use::in;
        const Relaxed one = relaxed(uses, below);
        if (one.closed || one.amounts.empty()) return k_no_limit;
        offer(one.amounts);
        return one.bound;
    }

    // Swaps one column for another while that helps, from the largest shares of `amounts`.
    void improve(std::vector<std::size_t> chosen) {
        double now = with_columns(chosen, k_no_limit);
        bool better = true;
        while (better && !over()) {
            better = false;
            for (std::size_t place = 0; place < chosen.size() && !better; ++place)
                for (std::size_t i = 0; i < m_count && !better; ++i) {
                    if (std::find(chosen.begin(), chosen.end(), i) != chosen.end()) continue;
                    if (i % 32 == 0 && over()) return;
                    std::vector<std::size_t> other = chosen;
                    other[place] = i;
                    const double cost = with_columns(other, now - k_same_cost);
                    if (cost < now - k_same_cost) {
                        chosen = std::move(other);
                        now = cost;
                        better = true;
                    }
                }
        }
    }

    [[nodiscard]] std::vector<std::size_t> largest(const std::vector<double>& amounts) const {
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < m_count; ++i)
            if (m_columns[i].most > 0.0) order.push_back(i);
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return amounts[a] / m_columns[a].most > amounts[b] / m_columns[b].most;
        });
        order.resize(std::min(order.size(), static_cast<std::size_t>(m_cap)));
        return order;
    }

    [[nodiscard]] std::vector<Use> uses_of(std::int32_t node) const {
        std::vector<Use> uses(m_count, Use::open);
        for (std::size_t i = 0; i < m_count; ++i)
            if (m_columns[i].most <= 0.0) uses[i] = Use::out;
        int in = 0;
        for (; node >= 0; node = m_nodes[at(node)].parent)
            if (m_nodes[at(node)].column >= 0) {
                uses[at(m_nodes[at(node)].column)] = m_nodes[at(node)].use;
                if (m_nodes[at(node)].use == Use::in) ++in;
            }
        if (in >= m_cap)
            for (Use& use : uses)
                if (use == Use::open) use = Use::out;
        return uses;
    }

    // The column whose share of its most is furthest from all and nothing; below zero: none breaks its limits.
    [[nodiscard]] std::int32_t to_decide(const std::vector<double>& amounts, const std::vector<Use>& uses) const {
        std::int32_t best = -1;
        double furthest = 0.0;
        for (std::size_t i = 0; i < m_count; ++i) {
            if (uses[i] != Use::open) continue;
            const double share = amounts[i] / m_columns[i].most;
            const double far = std::min(share, 1.0 - share);
            if (far > furthest && share > k_used) {
                furthest = far;
                best = static_cast<std::int32_t>(i);
            }
        }
        return best;
    }

    void search() {
        m_nodes.push_back({});
        const std::vector<Use> root = uses_of(0);
        if (std::none_of(root.begin(), root.end(), [](Use use) { return use == Use::open; })) return;
        const Relaxed first = relaxed(root, cutoff());
        if (first.closed) return;
        m_floor = first.bound;
        m_nodes[0].bound = first.bound;
        m_open.emplace(first.bound, 0);
        if (first.amounts.empty()) return;
        offer(first.amounts);
        improve(largest(first.amounts));
        const int starts = std::clamp(static_cast<int>(m_count) / k_columns_a_start, 2, k_most_starts);
        std::uint64_t state = 20;  // fixed: the same problem, the same answer
        for (int start = 1; start < starts && !over(); ++start) {
            std::vector<double> shaken = first.amounts;
            for (std::size_t i = 0; i < m_count; ++i) {
                state = state * 6364136223846793005U + 1442695040888963407U;
                shaken[i] += m_columns[i].most * static_cast<double>(state >> 40U) / 16777216.0;
            }
            improve(largest(shaken));
        }
        while (!m_open.empty()) {
            const auto [bound, node] = m_open.top();
            m_floor = std::max(m_floor, bound);
            if (bound >= cutoff()) {
                m_open = {};
                return;
            }
            if (over() || m_nodes.size() > k_most_open) return;
            m_open.pop();
            decide(node);
        }
    }

    void decide(std::int32_t node) {
        const std::vector<Use> uses = uses_of(node);
        const Relaxed here = relaxed(uses, cutoff());
        if (here.closed) return;
        offer(here.amounts.empty() ? std::vector<double>(m_count, 0.0) : here.amounts);
        std::int32_t column = here.amounts.empty() ? -1 : to_decide(here.amounts, uses);
        // Nothing to decide by the amounts, and yet not the best: any open one will do, if there is one.
        if (column < 0 && here.bound < cutoff())
            for (std::size_t i = 0; i < m_count && column < 0; ++i)
                if (uses[i] == Use::open) column = static_cast<std::int32_t>(i);
        if (column < 0) {
            if (here.bound < cutoff()) m_doubt = std::min(m_doubt, here.bound);
            return;
        }
        for (const Use use : {Use::in, Use::out}) {
            m_nodes.push_back({here.bound, node, column, use});
            const auto child = static_cast<std::int32_t>(m_nodes.size() - 1);
            const Relaxed below = relaxed(uses_of(child), cutoff());
            if (below.closed) {
                m_nodes.pop_back();
                continue;
            }
            if (!below.amounts.empty()) offer(below.amounts);
            const double bound = std::max(below.bound, here.bound);
            m_nodes.back().bound = bound;
            if (bound < cutoff()) m_open.emplace(bound, child);
        }
    }

    struct Later {
        bool operator()(const std::pair<double, std::int32_t>& a, const std::pair<double, std::int32_t>& b) const {
            return a.first != b.first ? a.first > b.first : a.second < b.second;
        }
    };

    const FewProblem& m_problem;
    std::vector<FewColumn> m_columns;  // as they can be used in the mix
    std::size_t m_count;
    int m_cap;
    TimeLimit m_limit;
    std::vector<Bent> m_bent;
    double m_constant = 0.0;
    std::vector<Node> m_nodes;
    std::priority_queue<std::pair<double, std::int32_t>, std::vector<std::pair<double, std::int32_t>>, Later> m_open;
    std::vector<double> m_best;
    double m_best_cost = 0.0;
    double m_floor = -k_no_limit;
    double m_doubt = k_no_limit;  // bound of what was left undecided by rounding
};

void check_few(const FewProblem& problem) {
    if (problem.columns.empty() || problem.most_used < 1 || !(problem.total > 0.0))
        throw std::invalid_argument("a mix of nothing");
    for (const FewColumn& column : problem.columns)
        if (!(column.least >= 0.0) || !std::isfinite(column.most) || !(column.most >= 0.0))
            throw std::invalid_argument("limits of a column");
    for (const Figure& figure : problem.figures) {
        if (figure.values.size() != problem.columns.size() || std::isnan(figure.low) || std::isnan(figure.high))
            throw std::invalid_argument("a figure that does not fit");
        for (const double value : figure.values)
            if (!std::isfinite(value)) throw std::invalid_argument("a figure that is no number");
        for (const Hinge& hinge : figure.hinges)
            if (!(hinge.slope >= 0.0) || !std::isfinite(hinge.at)) throw std::invalid_argument("a hinge");
    }
}

}  // namespace

Answer nearest_of_few(const FewProblem& problem, const Effort& effort) {
    check_few(problem);
    return Few(problem, effort).answer();
}

}  // namespace undercroft::solve

#include "engine/blend/quarter.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/index.hpp"
#include "engine/blend/judged.hpp"
#include "engine/blend/program.hpp"
#include "units/amount.hpp"

namespace undercroft::engine::blend {

namespace {

constexpr int k_turns_for_medium = 6;
constexpr double k_short_cost = 1e4;  // of a litre that is missing: only where nothing else is left
constexpr double k_short = 1e-4;      // litres
constexpr double k_feed_cost = 1e-5;  // of a litre moved: no litre goes round in circles
constexpr double k_hard_stop = 0.6;   // of what a solera holds (common practice, no source)

class Planning {
public:
    Planning(const Quarter& quarter, const Asking& asking) : m_quarter(quarter), m_asking(asking) {
        for (std::size_t i = 0; i < quarter.problem.stocks.size(); ++i) m_index[quarter.problem.stocks[i].name] = i;
    }

    Result<QuarterPlan> plan() {
        TRY_VOID(check());
        std::vector<Medium> media(m_quarter.problem.blends.size(), Medium{});
        Exact exact;
        for (int turn = 0; turn < k_turns_for_medium; ++turn) {
            TRY(exact, solved(media, nullptr));
            bool same = true;
            for (std::size_t j = 0; j < media.size(); ++j) {
                TRY(const auto medium, medium_of(m_quarter.problem, exact.litres[j]));
                if (!medium) continue;
                same = same && std::abs(medium->ionic_strength - media[j].ionic_strength) < 2e-4 &&
                       std::abs(medium->abv - media[j].abv) < 0.02;
                media[j] = *medium;
            }
            if (same) break;
        }
        TRY_VOID(say_what_is_short(exact));
        QuarterPlan out;
        out.proven = exact.answer.standing == solve::Standing::proven;
        const std::vector<std::vector<double>> measured = rounded(exact.litres);
        // What the rounded draws leave to be filled.
        auto again = solved(media, &measured);
        const bool fits = again && again->short_refill <= k_short && again->short_product <= k_short;
        const Exact& last = fits ? *again : exact;
        for (std::size_t j = 0; j < media.size(); ++j) {
            TRY(Made one, judged(m_quarter.problem, m_quarter.problem.blends[j], last.litres[j]));
            out.made.push_back(std::move(one));
        }
        out.cost = cost_of(m_quarter.problem, out.made);
        out.bound = std::min(out.cost, std::max(0.0, exact.answer.bound));
        for (std::size_t k = 0; k < m_quarter.feeds.size(); ++k)
            if (last.fed[k] > k_nothing) out.fed.push_back({m_quarter.feeds[k], last.fed[k]});
        return out;
    }

private:
    struct Exact {
        solve::Answer answer;
        std::vector<std::vector<double>> litres;  // by blend and stock
        std::vector<double> fed;                  // by feed
        double short_refill = 0.0;
        double short_product = 0.0;
        std::vector<double> short_by_product;
    };

    [[nodiscard]] bool is_solera(const std::string& name) const {
        return std::find(m_quarter.soleras.begin(), m_quarter.soleras.end(), name) != m_quarter.soleras.end();
    }

    [[nodiscard]] Result<void> check() const {
        if (m_quarter.problem.blends.empty())
            return fail(ErrorKind::bad_input, "product", "Nothing is to be made: name a product.");
        if (!(m_quarter.most_share > 0.0 && m_quarter.most_share <= k_hard_stop))
            return fail(
                ErrorKind::bad_input, "most-share",
                "Of a solera above none and at most 60 % may leave it in a quarter: acid, age and culture lag.");
        for (const Blend& blend : m_quarter.problem.blends) {
            if (!(blend.litres && *blend.litres > 0.0))
                return fail(ErrorKind::bad_input, "product", "How much of " + blend.name + " shall it be?");
            if (blend.aim != Aim::nearest)
                return fail(ErrorKind::bad_input, "product", "A product of a quarter is made nearest to its wishes.");
        }
        std::set<std::string> sources;
        for (const RefillSource& source : m_quarter.sources) {
            if (!(source.litres > 0.0))
                return fail(ErrorKind::bad_input, "refill", "How much of " + source.name + " is there?");
            if (m_index.contains(source.name) || !sources.insert(source.name).second)
                return fail(ErrorKind::bad_input, "refill", source.name + " stands there twice.");
        }
        for (const std::string& name : m_quarter.soleras)
            if (!m_index.contains(name))
                return fail(ErrorKind::bad_input, "solera", "\"" + name + "\" is none of the stocks.");
        for (const Feed& feed : m_quarter.feeds) {
            if (!sources.contains(feed.from) && !m_index.contains(feed.from))
                return fail(ErrorKind::bad_input, "feed",
                            "\"" + feed.from + "\" is neither a refill nor one of the stocks.");
            if (!is_solera(feed.into) || feed.from == feed.into)
                return fail(ErrorKind::bad_input, "feed", "\"" + feed.into + "\" is no solera that it could fill.");
        }
        return {};
    }

    // With `fixed` draws only the feeds are free.
    Result<Exact> solved(const std::vector<Medium>& media, const std::vector<std::vector<double>>* fixed) const {
        TRY(Programmed programmed, blend::programmed(m_quarter.problem, media));
        solve::Program& program = programmed.program;
        const auto& columns = programmed.layout.litres;
        if (fixed != nullptr)
            for (std::size_t j = 0; j < columns.size(); ++j)
                for (std::size_t i = 0; i < columns[j].size(); ++i) {
                    solve::Column& column = program.columns[at(columns[j][i])];
                    column.low = column.high = std::min((*fixed)[j][i], column.high);
                }
        // What is missing of a product stands in its row of litres.
        std::vector<int> missing;
        for (std::size_t limit = 0; limit < programmed.limits.size(); ++limit)
            if (programmed.limits[limit].total) {
                missing.push_back(program.add(solve::Column{0.0, solve::k_no_limit, k_short_cost, false}));
                solve::Row& row = program.rows[at(programmed.rows_of_limit[limit].front())];
                row.terms.emplace_back(missing.back(), 1.0);
                // Rounded draws come to the volume only nearly.
                if (fixed != nullptr) row.low -= 0.5;
                if (fixed != nullptr) row.high += 0.5;
            }
        std::vector<int> feeds;
        for (std::size_t k = 0; k < m_quarter.feeds.size(); ++k)
            feeds.push_back(program.add(solve::Column{0.0, solve::k_no_limit, k_feed_cost, false}));
        std::vector<int> gaps;
        for (const std::string& name : m_quarter.soleras) {
            const std::size_t stock = m_index.at(name);
            const int gap = program.add(solve::Column{0.0, solve::k_no_limit, k_short_cost, false});
            gaps.push_back(gap);
            solve::Row full{0.0, 0.0, {{gap, 1.0}}};
            const double held = m_quarter.problem.stocks[stock].litres;
            const double may_leave =
                std::min(m_quarter.most_share * held, std::max(0.0, held - m_quarter.problem.stocks[stock].keep_back));
            solve::Row leaves{-solve::k_no_limit, may_leave, {}};
            for (const std::vector<int>& of_blend : columns) {
                full.terms.emplace_back(of_blend[stock], -1.0);
                leaves.terms.emplace_back(of_blend[stock], 1.0);
            }
            for (std::size_t k = 0; k < feeds.size(); ++k) {
                if (m_quarter.feeds[k].into == name) full.terms.emplace_back(feeds[k], 1.0);
                if (m_quarter.feeds[k].from == name) {
                    full.terms.emplace_back(feeds[k], -1.0);
                    leaves.terms.emplace_back(feeds[k], 1.0);
                }
            }
            program.add(std::move(full));
            program.add(std::move(leaves));
        }
        for (const RefillSource& source : m_quarter.sources) {
            solve::Row row{-solve::k_no_limit, source.litres, {}};
            for (std::size_t k = 0; k < feeds.size(); ++k)
                if (m_quarter.feeds[k].from == source.name) row.terms.emplace_back(feeds[k], 1.0);
            if (!row.terms.empty()) program.add(std::move(row));
        }
        // Stocks that are no soleras and feed one share what they hold with the products.
        for (const auto& [name, stock] : m_index) {
            if (is_solera(name)) continue;
            solve::Row row{
                -solve::k_no_limit,
                std::max(0.0, m_quarter.problem.stocks[stock].litres - m_quarter.problem.stocks[stock].keep_back),
                {}};
            bool feeds_one = false;
            for (std::size_t k = 0; k < feeds.size(); ++k)
                if (m_quarter.feeds[k].from == name) {
                    row.terms.emplace_back(feeds[k], 1.0);
                    feeds_one = true;
                }
            if (!feeds_one) continue;
            for (const std::vector<int>& of_blend : columns) row.terms.emplace_back(of_blend[stock], 1.0);
            program.add(std::move(row));
        }
        Exact exact;
        exact.answer = solve::least_cost(program, {m_asking.seconds, m_asking.given_up});
        if (!exact.answer.has_values()) {
            if (exact.answer.standing == solve::Standing::nothing)
                return fail(ErrorKind::impossible, "time",
                            "No plan was found in " + number_text(m_asking.seconds, 1) + " s: give it more time.");
            return fail(ErrorKind::impossible, "limits",
                        "These limits cannot all hold: a wish that must be kept, or a "
                        "stock that must be used, contradicts the others.");
        }
        const auto value = [&](int column) { return exact.answer.values[at(column)]; };
        for (const std::vector<int>& of_blend : columns) {
            std::vector<double> litres;
            for (const int column : of_blend) litres.push_back(value(column) > k_nothing ? value(column) : 0.0);
            exact.litres.push_back(std::move(litres));
        }
        for (const int feed : feeds) exact.fed.push_back(value(feed) > k_nothing ? value(feed) : 0.0);
        for (const int gap : gaps) exact.short_refill += value(gap);
        for (const int one : missing) {
            exact.short_by_product.push_back(value(one));
            exact.short_product += value(one);
        }
        return exact;
    }

    [[nodiscard]] Result<void> say_what_is_short(const Exact& exact) const {
        if (exact.short_product <= k_short && exact.short_refill <= k_short) return {};
        Error error{ErrorKind::impossible, "refill", "", {}, ""};
        double drawn = 0.0;
        for (std::size_t j = 0; j < exact.litres.size(); ++j)
            for (const auto& [name, stock] : m_index)
                if (is_solera(name)) drawn += exact.litres[j][stock];
        double there = 0.0;
        for (const RefillSource& source : m_quarter.sources) there += source.litres;
        for (std::size_t j = 0; j < exact.short_by_product.size(); ++j)
            if (exact.short_by_product[j] > k_short)
                error.facts.push_back(
                    {m_quarter.problem.blends[j].name, number_text(exact.short_by_product[j], 1) + " L short of " +
                                                           number_text(*m_quarter.problem.blends[j].litres, 1) + " L"});
        if (exact.short_refill > k_short)
            error.facts.push_back({"refills", number_text(exact.short_refill, 1) + " L short; there are " +
                                                  number_text(there, 1) + " L, and feeds reach not every gap"});
        error.what = exact.short_product > k_short
                         ? "The products cannot all be made: soleras give at most " +
                               percent_text(m_quarter.most_share, 0) + " each, and only what can be refilled."
                         : "A gap stays open: only so much may be pulled as can be replaced.";
        error.next_step = "Make less, have more refill ready, or allow a feed that reaches the gap.";
        return tl::unexpected(std::move(error));
    }

    // Each part to the nearest step, those with the largest remainder up, so that a product keeps its volume.
    [[nodiscard]] std::vector<std::vector<double>> rounded(const std::vector<std::vector<double>>& exact) const {
        const double step = m_quarter.problem.step;
        if (step <= 0.0) return exact;
        std::vector<std::vector<double>> all = exact;
        for (std::vector<double>& litres : all) {
            std::vector<std::pair<double, std::size_t>> rest;
            double total = 0.0;
            double floors = 0.0;
            for (std::size_t i = 0; i < litres.size(); ++i) {
                if (litres[i] <= k_nothing) continue;
                const double down = std::floor(litres[i] / step + 1e-9) * step;
                total += litres[i];
                floors += down;
                rest.emplace_back(litres[i] - down, i);
                litres[i] = down;
            }
            std::stable_sort(rest.begin(), rest.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
            const auto ups = static_cast<std::size_t>(std::max(0L, std::lround((total - floors) / step)));
            for (std::size_t k = 0; k < std::min(ups, rest.size()); ++k) litres[rest[k].second] += step;
        }
        return all;
    }

    const Quarter& m_quarter;
    const Asking& m_asking;
    std::map<std::string, std::size_t> m_index;
};

}  // namespace

Result<QuarterPlan> plan_quarter(const Quarter& quarter, const Asking& asking) {
    return Planning(quarter, asking).plan();
}

}  // namespace undercroft::engine::blend

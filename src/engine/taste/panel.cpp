#include "engine/taste/panel.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

namespace undercroft::engine::taste {

namespace {

// What panels without training show, in points of ten (common practice, no source), each worth so many scores or
// tasters.
constexpr double k_usual_unrepeatable = 1.1;
constexpr double k_usual_offset = 0.9;
constexpr double k_usual_scale = 0.2;
constexpr double k_worth = 4.0;
// Nothing is known of a beer before it is tasted.
constexpr double k_middle = 5.0;
constexpr double k_any_sample_sd = 5.0;
constexpr int k_rounds = 200;
constexpr double k_settled = 1e-7;

struct Numbered {
    std::vector<std::string> samples;
    std::vector<std::string> tasters;
    struct One {
        int sample = 0;
        int taster = 0;
        double value = 0.0;
    };
    std::vector<One> scores;
};

Numbered numbered(const std::vector<Score>& scores) {
    Numbered all;
    std::set<std::string> samples;
    std::set<std::string> tasters;
    for (const Score& score : scores) {
        samples.insert(score.sample);
        tasters.insert(score.taster);
    }
    all.samples.assign(samples.begin(), samples.end());
    all.tasters.assign(tasters.begin(), tasters.end());
    const auto place = [](const std::vector<std::string>& names, const std::string& name) {
        return static_cast<int>(std::lower_bound(names.begin(), names.end(), name) - names.begin());
    };
    for (const Score& score : scores)
        all.scores.push_back({place(all.samples, score.sample), place(all.tasters, score.taster), score.value});
    // In one order, so that sums are the same to the bit whoever spoke first.
    std::sort(all.scores.begin(), all.scores.end(), [](const Numbered::One& a, const Numbered::One& b) {
        return std::tie(a.sample, a.taster, a.value) < std::tie(b.sample, b.taster, b.value);
    });
    return all;
}

// Samples and offsets together by the mixed-model equations (Henderson 1950), variances by expectation and
// maximisation, scales one after another, in turns until nothing moves.
class Fitting {
public:
    explicit Fitting(const Numbered& all)
        : m_all(all),
          m_samples(static_cast<int>(all.samples.size())),
          m_tasters(static_cast<int>(all.tasters.size())),
          m_scales(Eigen::VectorXd::Ones(m_tasters)),
          m_found(Eigen::VectorXd::Zero(m_samples + m_tasters)) {}

    void fit() {
        for (int round = 0; round < k_rounds; ++round) {
            const Eigen::VectorXd before = m_found;
            solve();
            update_variances();
            update_scales();
            if ((m_found - before).cwiseAbs().maxCoeff() < k_settled) break;
        }
        solve();
    }

    [[nodiscard]] double sample(int s) const { return k_middle + m_found(s); }
    [[nodiscard]] double sample_sd(int s) const { return std::sqrt(m_covariance(s, s)); }
    [[nodiscard]] double offset(int t) const { return m_found(m_samples + t); }
    [[nodiscard]] double scale(int t) const { return m_scales(t); }
    [[nodiscard]] double unrepeatable() const { return std::sqrt(m_residual); }
    [[nodiscard]] double offset_sd() const { return std::sqrt(m_offset); }

private:
    void solve() {
        const int size = m_samples + m_tasters;
        Eigen::MatrixXd equations = Eigen::MatrixXd::Zero(size, size);
        Eigen::VectorXd right = Eigen::VectorXd::Zero(size);
        for (const Numbered::One& score : m_all.scores) {
            const int t = m_samples + score.taster;
            const double b = m_scales(score.taster);
            const double y = score.value - k_middle;
            equations(score.sample, score.sample) += b * b;
            equations(score.sample, t) += b;
            equations(t, score.sample) += b;
            equations(t, t) += 1.0;
            right(score.sample) += b * y;
            right(t) += y;
        }
        equations /= m_residual;
        right /= m_residual;
        for (int s = 0; s < m_samples; ++s) equations(s, s) += 1.0 / (k_any_sample_sd * k_any_sample_sd);
        for (int t = 0; t < m_tasters; ++t) equations(m_samples + t, m_samples + t) += 1.0 / m_offset;
        m_covariance = equations.llt().solve(Eigen::MatrixXd::Identity(size, size));
        m_found = m_covariance * right;
    }

    [[nodiscard]] double left_over(const Numbered::One& score) const {
        return score.value - k_middle - m_scales(score.taster) * m_found(score.sample) -
               m_found(m_samples + score.taster);
    }

    void update_variances() {
        double squares = 0.0;
        for (const Numbered::One& score : m_all.scores) {
            const int t = m_samples + score.taster;
            const double b = m_scales(score.taster);
            const double off = left_over(score);
            squares += off * off + b * b * m_covariance(score.sample, score.sample) +
                       2.0 * b * m_covariance(score.sample, t) + m_covariance(t, t);
        }
        m_residual = (k_worth * k_usual_unrepeatable * k_usual_unrepeatable + squares) /
                     (k_worth + static_cast<double>(m_all.scores.size()));
        double offsets = 0.0;
        for (int t = 0; t < m_tasters; ++t)
            offsets += m_found(m_samples + t) * m_found(m_samples + t) + m_covariance(m_samples + t, m_samples + t);
        m_offset = (k_worth * k_usual_offset * k_usual_offset + offsets) / (k_worth + m_tasters);
    }

    // A scale shows only over samples that differ.
    void update_scales() {
        double middle = 0.0;
        for (int s = 0; s < m_samples; ++s) middle += m_found(s) / m_samples;
        for (int t = 0; t < m_tasters; ++t) {
            const double prior = m_residual / (k_usual_scale * k_usual_scale);
            double above = prior;
            double below = prior;
            for (const Numbered::One& score : m_all.scores) {
                if (score.taster != t) continue;
                const double from_middle = m_found(score.sample) - middle;
                const double y = score.value - k_middle - m_found(m_samples + t) - m_scales(t) * middle;
                above += from_middle * y;
                below += from_middle * from_middle + m_covariance(score.sample, score.sample);
            }
            m_scales(t) = std::clamp(above / below, 0.3, 2.0);
        }
        // The common scale is one.
        m_scales /= m_scales.mean();
    }

    const Numbered& m_all;
    int m_samples;
    int m_tasters;
    double m_residual = k_usual_unrepeatable * k_usual_unrepeatable;
    double m_offset = k_usual_offset * k_usual_offset;
    Eigen::VectorXd m_scales;
    Eigen::VectorXd m_found;       // samples less the middle, then offsets
    Eigen::MatrixXd m_covariance;  // of them
};

void add_repeats(const Numbered& all, Panel& panel) {
    std::map<std::pair<int, int>, std::vector<double>> glasses;
    for (const Numbered::One& score : all.scores) glasses[{score.taster, score.sample}].push_back(score.value);
    std::map<int, double> squares;
    for (const auto& [who, values] : glasses)
        for (std::size_t i = 1; i < values.size(); ++i) {
            const double difference = values[i] - values[i - 1];
            squares[who.first] += difference * difference / 2.0;
            ++panel.tasters[all.tasters[static_cast<std::size_t>(who.first)]].duplicates;
        }
    for (const auto& [taster, sum] : squares) {
        TasterHabits& habits = panel.tasters[all.tasters[static_cast<std::size_t>(taster)]];
        habits.repeats = std::sqrt(sum / habits.duplicates);
    }
}

}  // namespace

Result<Panel> panel_of(const std::vector<Score>& scores) {
    if (scores.empty()) return fail(ErrorKind::bad_input, "scores", "Nobody has scored it.");
    for (const Score& score : scores) {
        if (score.taster.empty() || score.sample.empty())
            return fail(ErrorKind::bad_input, "taster", "A score needs the name of who tasted, and of what.");
        if (!(score.value >= 0.0) || score.value > 10.0)
            return fail(ErrorKind::bad_input, "scores", "Scores are 0 to 10.");
    }
    const Numbered all = numbered(scores);
    Fitting fitting(all);
    fitting.fit();
    Panel panel;
    panel.unrepeatable_sd = fitting.unrepeatable();
    panel.offset_sd = fitting.offset_sd();
    for (std::size_t s = 0; s < all.samples.size(); ++s) {
        const int place = static_cast<int>(s);
        panel.samples[all.samples[s]] = {std::clamp(fitting.sample(place), 0.0, 10.0), fitting.sample_sd(place), 0, 0};
    }
    for (std::size_t t = 0; t < all.tasters.size(); ++t) {
        const int place = static_cast<int>(t);
        TasterHabits& habits = panel.tasters[all.tasters[t]];
        habits.offset = fitting.offset(place);
        habits.scale = fitting.scale(place);
    }
    std::set<std::pair<int, int>> tasted;
    for (const Numbered::One& score : all.scores) {
        PanelFigure& figure = panel.samples[all.samples[static_cast<std::size_t>(score.sample)]];
        ++figure.scores;
        if (tasted.emplace(score.sample, score.taster).second) ++figure.tasters;
        ++panel.tasters[all.tasters[static_cast<std::size_t>(score.taster)]].scores;
    }
    add_repeats(all, panel);
    return panel;
}

}  // namespace undercroft::engine::taste

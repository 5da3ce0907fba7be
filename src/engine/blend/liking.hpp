// What was liked feeds back: how a blend of any shares would be liked, by the glasses tasted so far, and which glasses
// to pour next.
//
// The model is the quadratic mixture polynomial of Scheffé (1958, J. Roy. Stat. Soc. B 20:344; from memory):
//   liking(x) = sum_i b_i x_i + sum_(i<j) b_ij x_i x_j,   x_i the shares of the glass, which add up to 1,
// with independent normal priors on its coefficients and a normal error of one glass, so what is known after the
// glasses is normal too, in closed form. The next glasses are those of the greatest expected improvement over the best
// so far (Jones, Schonlau & Welch 1998, J. Global Optim. 13:455; from memory), over a grid of the shares that may be
// poured.
//
// Holds: the same glasses in any order give the same answer, to the last bit; nothing is drawn but by a fixed seed; a
// stock that was never tasted has the spread of the prior and is tried while that spread is worth it. Leaves out: what
// a stock tastes of, several tasters (put their likings in as repeats of a glass), a liking that is not smooth.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/result.hpp"

namespace undercroft::engine::blend {

// The scale: 0 to 10. Own choices: without a glass every blend is liked 5 ± 3 (a stock alone), and half of each of two
// stocks lies ± 1.5 off the line between them (6 times a quarter).
inline constexpr double k_most_liking = 10.0;
inline constexpr double k_middle_liking = 5.0;
inline constexpr double k_stock_liking_sd = 3.0;
inline constexpr double k_pair_liking_sd = 6.0;
// One standard deviation of the liking of one glass when nothing was said (common practice, no source).
inline constexpr double k_usual_liking_doubt = 0.7;
// How many repeats the stated doubt counts as, beside those that were poured (own choice).
inline constexpr double k_doubt_counts_as = 4.0;
// "Taste no more" below this part of the doubt of a glass (own choice: a stock nobody tasted, expected to be as good as
// the best, is worth 0.4 points for each point of its spread, so the whole doubt would stop before it was tried).
inline constexpr double k_worth_a_glass = 0.25;
inline constexpr std::size_t k_most_liked_stocks = 8;
inline constexpr std::size_t k_most_trials = 200;

struct Trial {
    std::vector<double> shares;  // of each stock, 0 to 1; they add up to 1 within 1e-6
    double liking = 0.0;         // 0 to 10
};

struct LikingWish {
    std::size_t stocks = 0;               // 2 to 8
    std::vector<Trial> trials;            // 1 to 200; a glass poured again is a trial again
    std::vector<double> least;            // share of each stock; empty: 0. What was tasted may lie outside
    std::vector<double> most;             // empty: 1
    double doubt = k_usual_liking_doubt;  // 0.1 to 3 points
    std::optional<double> step;  // of the shares, 0.01 to 0.25, a whole number of them a glass; empty: 0.05 or coarser
    std::size_t next = 3;        // glasses, 2 to 4
    double apart = 0.10;         // share of a glass that differs between any two of them, 0.01 to 0.5
};

struct Liked {
    double mean = 0.0;  // points; may lie beyond the scale where nothing was tasted
    double sd = 0.0;
};

// What is known of the surface after the glasses.
class LikingSurface {
public:
    // `trials` as in LikingWish; noise in points. Fails: bad_input for shares or likings that cannot be.
    [[nodiscard]] static Result<LikingSurface> after(std::size_t stocks, const std::vector<Trial>& trials,
                                                     double doubt);
    // Of the blend itself, without the doubt of the glass that would show it. `shares`: as many as stocks.
    [[nodiscard]] Liked at(const std::vector<double>& shares) const;
    // One standard deviation of one glass: the stated doubt and the repeats put together, and how many repeats.
    [[nodiscard]] double noise() const { return m_noise; }
    [[nodiscard]] int repeats() const { return m_repeats; }
    // The same of many blends at once.
    [[nodiscard]] std::vector<Liked> at_all(const std::vector<std::vector<double>>& blends) const;
    // Surfaces as they may be, drawn by a fixed seed: how each likes the best of `blends` and the one `chosen`.
    struct Draws {
        std::vector<double> best;    // points, one a draw; below every number without blends
        std::vector<double> chosen;  // of the same draws
    };
    [[nodiscard]] Draws drawn(const std::vector<std::vector<double>>& blends, const std::vector<double>& chosen,
                              std::size_t draws) const;

private:
    std::size_t m_stocks = 0;
    double m_noise = 0.0;
    int m_repeats = 0;
    std::vector<double> m_mean;    // of the coefficients
    std::vector<double> m_factor;  // lower triangle L of their precision L L', column by column
};

struct BestSoFar {
    std::size_t trial = 0;  // the first with its shares
    Liked liked;
    double chance = 0.0;   // that no blend of the grid at least `apart` from it is liked more
    bool possible = true;  // false: every glass lies outside the bounds, and this is the best of them
};

struct NextGlass {
    std::vector<double> shares;
    Liked expected;
    double gain = 0.0;   // expected improvement over the best so far, points
    bool again = false;  // tasted before
};

struct LikingAnswer {
    LikingSurface surface;
    BestSoFar best;
    std::vector<NextGlass> next;  // the greatest gain first; fewer where the bounds leave no room
    double gain = 0.0;            // of the first
    bool enough = false;          // it is below k_worth_a_glass of the noise
    double step = 0.0;            // of the grid
    std::size_t grid = 0;         // blends in it
};

// Fails: bad_input for likings off the scale, shares that do not add up, lists of unequal lengths, bounds between which
// no blend lies, a step that makes more than 60,000 blends.
[[nodiscard]] Result<LikingAnswer> next_glasses(const LikingWish& wish);

}  // namespace undercroft::engine::blend

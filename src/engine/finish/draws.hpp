// How surely a finished beer ends inside its target: the beer is an estimate and so is every effect, and attributes
// change each other (data/interactions.csv).
//
// Holds: the same numbers are drawn for every option, so two options differ by what they do and not by luck; the same
// seed gives the same answer. Scores stay within 0 to 10. Leaves out: that figures of one beer are off together.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "engine/finish/effect.hpp"
#include "engine/finish/portion.hpp"

namespace undercroft::engine::finish {

inline constexpr int k_finish_draws = 2'000;

struct Outcome {
    std::map<std::string, Figure> tasted;   // afterwards, of attributes in the target or known before
    std::map<std::string, double> by_wish;  // chance of each figure of the target to lie inside
    double inside = 0.0;                    // of all of them at once
    double off = 0.0;                       // mean distance: weight x steps outside, summed over the target
    double worst = 0.0;                     // the same at the 95th of 100
    std::vector<double> offs;               // of each draw
};

// `measured`: figures afterwards; a figure of the target that is nowhere counts neither way.
struct Moved {
    std::map<std::string, Figure> points;    // changes of attributes
    std::map<std::string, Figure> measured;  // afterwards
    bool skins = false;                      // fruit with its skin went in
};

class Draws {
public:
    // `portion` and `target` are only read while this is made.
    Draws(const tables::Tables& tables, const Portion& portion, const Target& target, std::uint64_t seed = 1);

    [[nodiscard]] Outcome of(const Moved& moved) const;
    // What was taken for an attribute of the target that nobody scored: the middle of what is usual, widely.
    [[nodiscard]] const std::set<std::string>& taken_as_usual() const { return m_taken; }
    // Figures of the target that are neither measured nor tasted, and count neither way.
    [[nodiscard]] const std::set<std::string>& unknown() const { return m_unknown; }

private:
    struct Attribute {
        std::string id;
        bool aroma = false;
        Figure before;
    };
    // An interaction by places, so that no name is looked up in a draw.
    struct Acting {
        const tables::Interaction* rule = nullptr;
        std::size_t number = 0;  // of the table: which normal number is its own
        int when = -1;           // -1: acidity, -2: any added aroma
        int only = -1;           // -1: always, -2: only with skins
        std::vector<std::size_t> changes;
    };
    [[nodiscard]] int index_of(const std::string& attribute) const;
    void act_on_each_other(const std::vector<double>& before, std::vector<double>& after, double ta_before,
                           double ta_after, bool skins, const double* z) const;

    const tables::Tables& m_tables;
    Target m_target;
    std::vector<Attribute> m_attributes;
    std::map<std::string, int> m_index;
    std::vector<Acting> m_acting;
    std::vector<std::size_t> m_active;  // in the target, known before, or acting on one that is
    double m_ta_before = 0.0;
    std::set<std::string> m_taken;
    std::set<std::string> m_unknown;
    std::size_t m_width = 0;       // normal numbers for one draw
    std::vector<double> m_normal;  // draws x width
};

}  // namespace undercroft::engine::finish

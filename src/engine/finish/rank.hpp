// Every way to finish a portion, ranked by the chance of ending inside the target, then by the worst case; what is not
// offered and why; and how the pull could be split.
//
// Holds: leaving it alone always stands in the list. While a fault stands that bars packaging, nothing that could cover
// it is offered; isolate and dump stand there when a fault calls for them. Sorbate never meets live bacteria.
#pragma once

#include <string>
#include <vector>

#include "engine/finish/option.hpp"

namespace undercroft::engine::finish {

struct NotOffered {
    std::string name;
    std::string why;
};

// Shares of one pull.
struct Split {
    struct Part {
        std::size_t option = 0;  // place in Ranked::options
        double litres = 0.0;
    };
    std::vector<Part> parts;
    double one_inside = 0.0;  // chance that at least one of them ends inside, taken apart from each other
    double off = 0.0;         // mean steps outside, by litres
    std::string why;
};

struct Ranked {
    std::vector<Option> options;  // best first
    std::vector<NotOffered> not_offered;
    std::vector<Split> splits;
    std::vector<std::string> remarks;  // what was taken, what to measure first
};

struct RankWish {
    Portion portion;
    Target target;  // at least one figure
    Prices prices;
    std::vector<std::string> only;             // kinds of technique, words of TechniqueKind; empty: all
    std::optional<double> least_split_litres;  // what a part must hold; nullopt: ten bottles of 0.75 L
    std::vector<Option> blends;                // worked out by the blend engine, with names of their partners
    std::uint64_t seed = 1;
};

// `effects`: the table's, or what a keeper's own tastings made of them. Fails: bad_input without a target, without any
// figure of it known, or for a portion of nothing, each with what to measure first.
[[nodiscard]] Result<Ranked> ranked(const tables::Tables& tables, const std::vector<tables::Effect>& effects,
                                    const RankWish& wish);

// An option for a dose that the keeper names. Fails: bad_input beyond 1.5 of the highest dose of the table.
[[nodiscard]] Result<Option> at_dose(const tables::Tables& tables, const std::vector<tables::Effect>& effects,
                                     const RankWish& wish, const tables::Technique& technique, const Dose& dose);

}  // namespace undercroft::engine::finish

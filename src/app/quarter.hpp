// The plan of a quarter: several products out of shared stocks at once, and what fills the soleras again.
#pragma once

#include <string>
#include <vector>

#include "app/act.hpp"
#include "app/blending.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

// As typed; empty: as usual.
struct QuarterRequest {
    // "Autumn, 20 L, ph 3.4 to 3.5, sour 4 to 6 weight 2, into Keg 2": a name, a volume, wishes, where it goes.
    std::vector<std::string> products;
    std::vector<std::string> refills;  // "Spring wort, 60 L": lots that will be there, for any solera
    std::vector<std::string> feeds;    // "Stair 3 into Stair 2": a solera that is filled from another, not from a lot
    std::vector<std::string> stocks;   // to choose from; empty: every vessel with beer
    std::vector<std::string> keep;     // "Amber 30 L": stays behind
    std::string most_share;            // of what a solera holds, that may leave it; empty: 50 %
    std::string step;                  // what can be measured out; empty: 0.1 L
    std::string seconds;               // to search at most; empty: 10
};

struct QuarterProduct {
    std::string name;
    std::string into;  // vessel; empty: not said
    double litres = 0.0;
    std::vector<BlendPart> parts;
    std::vector<BlendFigure> figures;
    double inside = 0.0;  // chance of all its wishes
    std::string missed;   // wishes that are missed, in words; empty: none
};

struct QuarterRefill {
    std::string into;
    std::string from;
    bool lot = false;  // from a lot that is still to be brewed or bought
    double litres = 0.0;
};

struct QuarterView {
    BookLine book;
    std::string words;
    bool proven = false;
    double cost = 0.0;
    std::vector<QuarterProduct> products;
    std::vector<QuarterRefill> refills;
    std::vector<std::pair<std::string, double>> drawn;  // of each solera, litres
    std::vector<std::string> left_out;
    std::vector<std::string> commands;  // in order: moves into products, then what fills the soleras
    std::vector<Caution> cautions;
};

// `holders`: stocks to choose from. Without `book`.
[[nodiscard]] Result<QuarterView> quarter_view(const Seen& seen, const std::vector<engine::HolderRef>& holders,
                                               const QuarterRequest& request, Gallons gallons);

}  // namespace undercroft::app

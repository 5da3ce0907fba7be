// The next glasses of a blend, by how those so far were liked, and the litres of the one that is chosen.
#pragma once

#include <string>
#include <vector>

#include "app/blending.hpp"

namespace undercroft::app {

// As typed; empty texts: as usual.
struct TrialsRequest {
    std::vector<std::string> stocks;  // vessels and runs; empty: those named in the glasses
    std::vector<std::string> liked;   // "40 mL Sharp, 60 mL Soft: 6.5", "40 % Sharp, 60 % Soft: 6.5"; a repeat again
    std::vector<std::string> least;   // "10 % Sharp": in every glass to come
    std::vector<std::string> most;    // "50 % Sharp"
    std::vector<std::string> keep;    // "30 L Sharp": stays behind
    std::string doubt;                // points of one liking; empty: 0.7
    std::string step;                 // of the shares; empty: 5 %, coarser of many stocks
    std::string next;                 // how many glasses; empty: 3
    std::string apart;                // by how much of a glass they differ; empty: 10 %
    std::string glass;                // empty: 100 mL
    std::string seed;                 // of the codes; empty: by the number of glasses so far
    std::string volume;               // to be made; empty: no litres are told
    std::string choose;               // number of the glass to be made, as typed; empty: the best so far
    std::string into;                 // vessel of the book; empty: none is drafted
};

// A stock that a glass may hold.
struct TrialStock {
    std::string name;
    double litres = 0.0;  // held
};

// A glass as it was typed, before names mean stocks.
struct TypedPart {
    std::string amount;  // "40 mL", "40 %"
    std::string name;
};
struct TypedGlass {
    std::vector<TypedPart> parts;
    double liking = 0.0;
};
// Amount and name in either order. Fails: bad_input for what has no name, no amount, or no liking of 0 to 10.
[[nodiscard]] Result<TypedPart> read_part(std::string_view field, const std::string& text);
[[nodiscard]] Result<TypedGlass> read_glass(const std::string& text);

struct TrialsShare {
    std::string stock;
    double share = 0.0;
};
struct TriedGlass {
    int number = 0;  // as typed, from 1
    std::vector<TrialsShare> parts;
    double liked = 0.0;
    double mean = 0.0;  // of the blend, by all glasses
    double sd = 0.0;
};
struct NextTrial {
    std::string code;
    std::vector<TrialsShare> parts;
    std::vector<std::pair<std::string, double>> pours;  // stock, mL
    double mean = 0.0;
    double sd = 0.0;
    double gain = 0.0;
    bool again = false;
};

struct TrialsView {
    BookLine book;
    std::string words;
    double noise = 0.0;
    int repeats = 0;
    double step = 0.0;
    double apart = 0.0;
    std::vector<TriedGlass> tried;
    int best = 0;  // number of the glass
    double chance = 0.0;
    double gain = 0.0;
    bool enough = false;
    std::vector<NextTrial> next;  // by their codes, which is the order to taste
    int chosen = 0;               // number of the glass that is made; 0: no volume was said
    std::vector<BlendPart> parts;
    std::vector<Caution> cautions;
    SittingRequest drafted;  // what would book it; no acts: --into was not said
    std::string command;
};

// `glasses`: read from request.liked, each part's `name` that of one of the stocks.
[[nodiscard]] Result<TrialsView> trials_of(const std::vector<TrialStock>& stocks,
                                           const std::vector<TypedGlass>& glasses, const TrialsRequest& request,
                                           Gallons gallons);

}  // namespace undercroft::app

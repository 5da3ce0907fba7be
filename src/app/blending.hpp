// Which stocks blend to what a keeper wants, from a book or from figures alone.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/views.hpp"
#include "engine/blend/chance.hpp"
#include "engine/blend/recipe.hpp"
#include "engine/blend/refermentation.hpp"
#include "engine/blend/trials.hpp"
#include "tables/tables.hpp"
#include "units/amount.hpp"

namespace undercroft::app {

// As typed; empty texts: as usual.
struct BlendRequest {
    // Of a book: vessels and runs to choose from; empty: every vessel with beer. Without one: each "Amber, 20 L,
    // ph 3.3, ta 7, alcohol 6, gravity 1.004, og 1.048, culture mixed_sour, sour 6, cost 3".
    std::vector<std::string> stocks;
    std::string volume;  // to be made; empty: the most there can be
    std::vector<std::string>
        wants;  // "ph 3.4 to 3.5", "ta 6 weight 2", "sour at least 4", "share of Spring wort at most 20 %"
    std::vector<std::string> musts;  // the same, kept at any price
    std::string aim;                 // "nearest", "most", "cheapest", "least-ferment"
    std::string most_stocks;
    std::string least_draw;            // of a stock that is used at all, "1 L"
    std::string step;                  // what can be measured out; empty: 0.1 L
    std::vector<std::string> keep;     // "Amber 30 L": stays behind
    std::vector<std::string> use;      // "Jar 5 2 L": at least so much of it
    std::vector<std::string> whole;    // all of it or nothing
    std::vector<std::string> without;  // none of it
    std::vector<std::string> prices;   // "Amber 3": a litre of it
    std::string without_culture;       // no stock it may live in
    std::string without_allergen;
    std::string older_than;  // mean age of every stock at least, "1 year"
    std::string recipes;     // how many; empty: 3
    std::string differ;      // share of the volume; empty: 20 %
    std::string seconds;     // at most; empty: 10
    bool wide = false;       // a stock without a pH or acidity counts with a wide guess instead of being left out
    bool surest = false;     // also the recipe of the best chance
    std::string glass;       // of the bench sheet, "100 mL"; empty: no sheet
    std::string neighbours;  // share of a glass they differ by; empty: 5 %
    std::string seed;        // of the codes; empty: 1
    std::string into;        // vessel of the book the first recipe would go into; empty: none is drafted
};

struct BlendStock {
    std::string name;
    double available = 0.0;  // litres
    std::string figures;     // in words
    std::string left_out;    // why; empty: it may be used
};

struct BlendFigure {
    std::string figure;
    std::string unit;    // "g/L"; empty for pH and gravity
    std::string wanted;  // "3.40 to 3.50"; empty: nothing was
    double value = 0.0;
    double sd = 0.0;      // by the stocks' own; 0: not worked out
    double inside = 1.0;  // chance; 1 where nothing was wanted
    bool missed = false;
};

struct BlendPart {
    std::string stock;
    double litres = 0.0;
    double share = 0.0;
};

struct BlendRecipe {
    std::string name;  // "best", "another", "surest"
    double litres = 0.0;
    std::vector<BlendPart> parts;
    std::vector<BlendFigure> figures;
    double cost = 0.0;     // steps off, or what the aim counts
    double inside = 0.0;   // chance of all wishes at once
    std::string ferments;  // what may still ferment, a sentence or two
    double points = 0.0;   // of it, 0.001 of gravity
    double co2_volumes = 0.0;
};

struct BlendGlass {
    std::string code;
    std::string what;
    std::vector<std::pair<std::string, double>> pours;  // stock, mL
};

struct BlendView {
    BookLine book;
    std::string words;  // what was found, a sentence or two
    bool proven = false;
    double bound = 0.0;
    double cost = 0.0;
    double rounding = 0.0;
    std::vector<BlendStock> stocks;
    std::vector<BlendRecipe> recipes;  // best first; the surest last
    std::vector<BlendGlass> glasses;   // of the bench sheet, in the order they are tasted
    std::vector<Caution> cautions;
    SittingRequest drafted;  // what would book the best; no acts: --into was not said
    std::string command;     // the same to be typed
};

// The moves that make a blend, and the same to be typed. What already lies in `into` stays there.
struct DraftedBlend {
    SittingRequest sitting;
    std::string command;
};
[[nodiscard]] DraftedBlend drafted_blend(const std::string& into, const std::vector<BlendPart>& parts);

// A stock with where it came from, before limits.
struct KnownStock {
    engine::blend::Stock stock;
    std::string left_out;
};

// What a keeper wants, as the engine takes it: "ph 3.4 to 3.5", "ta at most 7", "sour 6 weight 2". One figure alone
// means about that, half a step to either side.
[[nodiscard]] Result<engine::blend::Wish> read_wish(const std::string& text, bool must, const tables::Tables& tables);

// The answer over stocks that are known. `request.stocks` is not read again.
[[nodiscard]] Result<BlendView> blend_of(std::vector<KnownStock> stocks, const BlendRequest& request,
                                         const tables::Tables& tables, Gallons gallons);
// Without a book.
[[nodiscard]] Result<BlendView> blend_sum(const BlendRequest& request, const tables::Tables& tables, Gallons gallons);

}  // namespace undercroft::app

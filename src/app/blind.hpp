// A tasting under codes: glasses and their order for every taster, the key, and what was found booked to the right
// beer.
//
// Holds: the same set name, beers and tasters give the same codes; what was found is only turned into tastings when
// every taster has scored every glass. Nothing is booked here.
#pragma once

#include <string>
#include <vector>

#include "app/act.hpp"
#include "app/views_of.hpp"

namespace undercroft::app {

struct BlindRequest {
    std::vector<std::string> subjects;  // vessels or runs
    std::vector<std::string> tasters;
    std::vector<std::string> twice;  // of the subjects: poured twice, which shows how well a taster repeats
    std::string set;                 // its name, letters and digits; empty: one is made
    bool full = false;               // the whole sheet instead of three attributes
    bool show_key = false;           // on a screen that tasters may see
    std::vector<std::string> found;  // "Ines 417 sour=6 farmyard=4 fault=mousy lemon, hay"
};

struct BlindSheet {
    std::string taster;
    std::vector<std::string> codes;  // in the order they are met
};

struct BlindKey {
    std::string code;
    std::string subject;
    bool again = false;  // the second glass of it
};

struct BlindAttribute {
    std::string id, name, explanation;
};

struct BlindView {
    BookLine book;
    std::string set;
    std::vector<BlindSheet> sheets;
    std::vector<BlindAttribute> attributes;  // to be scored
    std::vector<BlindKey> key;               // by code: for whoever pours
    bool key_shown = false;                  // asked for, or all is found: a screen hides it before
    std::string words;
    std::string command;  // of what was found; empty before
    SittingRequest drafted;
    std::vector<Caution> cautions;
};

inline constexpr std::size_t k_longest_set_name = 24;

// `made`: the name of a set that has none. Without `book`. Fails: bad_input for subjects or tasters that stand twice,
// too many of them, a glass nobody poured, one that a taster scored twice or not at all.
[[nodiscard]] Result<BlindView> blind_view(const Seen& seen, const std::vector<engine::HolderRef>& subjects,
                                           const std::vector<engine::HolderRef>& twice, const BlindRequest& request,
                                           const std::string& made);

}  // namespace undercroft::app

// What a keeper's letter says of one year: every vessel's story, what lives where, what was learned.
#pragma once

#include <string>
#include <vector>

#include "app/views.hpp"

namespace undercroft::app {

struct LetterVessel {
    std::string name;
    std::string about;               // "solera, oak, 225 L brimful, north wall"
    std::vector<Stratum> strata;     // at the end of the year, oldest first
    std::vector<std::string> now;    // its figures then, each with its spread
    std::vector<std::string> made;   // its make-up in words, largest share first
    std::vector<std::string> lives;  // its culture passport: who, how surely, since when and from where
    std::vector<EntryLine> story;    // of the year, in its order
};

struct LetterView {
    BookLine book;
    int year = 0;
    std::string on;                     // ISO day it tells the state of: the last of the year, or today
    std::string words;                  // the year in a few sentences
    std::vector<LetterVessel> vessels;  // that held something or that something was done to
    std::vector<std::string> bottles;   // runs packaged in the year or on hand
    std::vector<std::string> learned;   // how bottles age, what was liked best
    std::vector<std::string> open;      // what is untrue or due
    std::vector<Caution> cautions;
};

}  // namespace undercroft::app

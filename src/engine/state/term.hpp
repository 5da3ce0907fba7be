// What every engine's answer is told with: figures that say how they were got, and cautions in plain words.
#pragma once

#include <string>

namespace undercroft::engine {

// One figure of a sum, shown as a row.
struct Term {
    std::string name;
    double value = 0.0;
    std::string unit;
    std::string how;  // formula and figures in one line
    std::string source;
};

// Said beside a number where something can hurt.
struct Caution {
    std::string id;  // "fruit.pits", "gas.room", ...: what an acknowledgement names
    std::string words;
};

}  // namespace undercroft::engine

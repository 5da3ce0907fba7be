// Answers about one vessel or run over all its time: what it was made of, and what was read of it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/views.hpp"

namespace undercroft::app {

struct RiverLot {
    int serial = 0;           // its order in this holding, from 1
    std::int64_t number = 0;  // of the entry that brought it
    std::string name;
    std::string kind;                    // word of LotKind
    std::string brewed_from, brewed_to;  // ISO days; empty: nobody knows
    bool assumed = false;                // its age is remembered, not written down
};

struct RiverPart {
    int serial = 0;
    Volume volume;
};

struct RiverStep {
    std::string time;         // ISO instant
    std::string day;          // in the cellar's zone
    std::int64_t number = 0;  // of the entry that changed it
    bool after = false;       // right before that entry, or right after
    Volume volume;
    std::vector<RiverPart> parts;  // sum to the volume
};

struct RiverTurn {
    std::int64_t number = 0;   // of the pull that began it, or of the refill where there was none
    std::string day;           // it was pulled on; empty: refilled without a pull
    std::string refilled_day;  // empty: not yet
    Volume pulled;
    Volume refilled;
};

// Make-up over time. Two steps for each entry that changed it.
struct RiverView {
    BookLine book;
    std::string on;
    std::string kind;  // "vessel" or "run"
    std::string subject;
    std::int64_t number = 0;
    std::vector<RiverLot> lots;
    std::vector<RiverStep> steps;
    std::vector<RiverTurn> turns;
    // By the last turns; nothing before the second refill.
    std::optional<Volume> usual_pull;
    std::optional<double> usual_interval_days;
};

// Where what is in a vessel or run came from, and where what was in it went: nodes and streams of liquid.
struct FlowNode {
    std::string id;           // "lot 12", "vessel 3", "run 40", "out spill"
    std::string what;         // "lot", "vessel", "run" or "out"
    std::string name;         // of "out": why it left
    std::int64_t number = 0;  // of the entry that brought it, 0 for "out"
    std::optional<double> mean_age_years;
    bool flagged = false;  // something stands against it
    std::string why;       // what
};

struct FlowLink {
    std::string from, to;  // ids
    Volume volume;
};

// What came in = what is here + what went on. All of it, from the first day on.
struct FlowView {
    BookLine book;
    std::string on;
    std::string kind;  // "vessel" or "run"
    std::string subject;
    std::int64_t number = 0;
    Volume here;                  // what it holds
    std::vector<FlowNode> nodes;  // the first is the one asked about
    std::vector<FlowLink> links;
};

struct ReadingPoint {
    std::string time;  // ISO instant
    std::string day;
    double value = 0.0;
    double sd = 0.0;  // one standard deviation; 0: nobody knows
    std::string instrument;
    std::int64_t number = 0;  // of the entry
};

struct ReadingSeries {
    std::string quantity;  // word of Quantity
    std::string unit;      // all points in this one
    int decimals = 2;      // worth showing
    std::vector<ReadingPoint> points;
};

struct ReadingsView {
    BookLine book;
    std::string on;
    std::string kind;  // "vessel" or "run"
    std::string subject;
    std::int64_t number = 0;
    std::vector<ReadingSeries> series;
};

}  // namespace undercroft::app

// A sitting as typed: acts joined by --then on the command line, or one a line in a script.
//
// A script: "# ..." is a remark; a blank line ends a sitting; "sitting 2025-03-14 18:30 by Ines" begins one and may
// hold the options of a sitting; every other line is an act as on the command line. Every word D-730 stands for the day
// 730 days before the day of the script, also inside D-730..D-365.
#pragma once

#include <istream>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "app/act.hpp"
#include "base/instant.hpp"
#include "base/result.hpp"

namespace undercroft::cli {

struct TypedSitting {
    app::SittingRequest request;
    bool what_if = false;
};

// From the first act's name on; options of the sitting may stand beside any act.
[[nodiscard]] Result<TypedSitting> read_sitting(std::span<const std::string> tokens);

// Options of the sitting out of `tokens`, into `sitting`; the rest comes back. One said twice must say the same.
[[nodiscard]] Result<std::vector<std::string>> take_sitting_options(std::span<const std::string> tokens,
                                                                    TypedSitting& sitting);

struct ScriptSitting {
    TypedSitting typed;
    int first_line = 0;  // of the script, from 1
    int last_line = 0;
};

class Script {
public:
    // `in` must outlive the Script. `by` is used where a sitting does not say who. Without `as_of`, D-1 is refused.
    Script(std::istream& in, std::string by, std::optional<Day> as_of);

    // The next sitting with at least one act, read no further than its end; nothing after the last. An error names
    // the line.
    [[nodiscard]] Result<std::optional<ScriptSitting>> next();

private:
    [[nodiscard]] Result<void> take_line(const std::string& line, ScriptSitting& sitting);
    [[nodiscard]] Result<void> take_header(std::span<const std::string> words, TypedSitting& sitting);
    [[nodiscard]] Result<std::string> with_day(const std::string& word) const;

    std::istream& m_in;
    std::string m_by;
    std::optional<Day> m_as_of;
    int m_line = 0;
    std::optional<std::string> m_header;  // read ahead: it ended the sitting before
};

}  // namespace undercroft::cli

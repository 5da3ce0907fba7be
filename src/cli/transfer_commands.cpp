#include "cli/command_rows.hpp"

namespace undercroft::cli {

std::vector<Command> transfer_commands() {
    const Option what_if = {"--what-if", Takes::nothing, "", "show what it would do and book nothing"};
    std::vector<Command> rows;
    rows.push_back({"export",
                    Group::exchange,
                    Role::question,
                    "FILE|-",
                    "write the whole book out as lines of JSON; - writes to standard output",
                    "export kiln-lane.jsonl",
                    {}});
    rows.push_back({"restore",
                    Group::exchange,
                    Role::program,
                    "EXPORT|-",
                    "make a book that is not there yet out of an export, as it was; the file is --book NEW",
                    "restore kiln-lane.jsonl",
                    {}});
    rows.push_back({"from-pages",
                    Group::exchange,
                    Role::program,
                    "LINES|-",
                    "make a book that is not there yet out of its printed codes, one a line; the file is --book NEW",
                    "from-pages scanned.txt",
                    {}});
    rows.push_back({"compare",
                    Group::exchange,
                    Role::question,
                    "OTHER",
                    "this book beside another copy of it: a book or an export",
                    "compare laptop.undercroft",
                    {}});
    rows.push_back({"import",
                    Group::exchange,
                    Role::program,
                    "OTHER",
                    "bring in the entries of another book: a book or an export",
                    "import neighbour.jsonl --rename \"The Amber=Their Amber\" --what-if",
                    {{"--rename", Takes::one, "THEIRS=OURS", "a new name for a vessel or run of theirs", true},
                     {"--from-copy", Takes::nothing, "", "OTHER is a copy of this book: bring in what is only there"},
                     what_if}});
    rows.push_back({"import-csv",
                    Group::exchange,
                    Role::program,
                    "FILE",
                    "bring in readings and tastings from a spreadsheet, one sitting a day and vessel",
                    "import-csv notebook.csv --map \"Date=date,SG=gravity,Sour=score sour\" --vessel Amber",
                    {{"--map", Takes::one, "COLUMN=FIELD,...", "what the columns are", true},
                     {"--vessel", Takes::one, "NAME", "vessel or run of rows that name none"},
                     {"--taster", Takes::one, "NAME", "who tasted, where a row does not say"},
                     {"--by", Takes::one, "NAME", "who books it"},
                     what_if}});
    return rows;
}

}  // namespace undercroft::cli

#include "cli/command_rows.hpp"

namespace undercroft::cli {

std::vector<Command> print_commands() {
    const Option to = {"--to", Takes::one, "FILE", "the PDF to write; one that is there is left as it is"};
    const Option paper = {"--paper", Takes::one, "PAPER", "A4 or Letter; left out: A4"};
    const std::vector<Option> sheet = {
        to,
        {"--grid", Takes::one, "GRID",
         "labels on a sheet: \"A4 2x4\", \"Letter 2x5\", or \"A4, 2 x 5, 95 x 55 mm, margin 10 x 12 mm, gap 2 x 2 "
         "mm\""},
        {"--count", Takes::one, "COUNT", "left out: as many as are on hand"},
        {"--first", Takes::one, "NUMBER", "label of the first sheet to begin with, when some are used up"},
        {"--name", Takes::one, "NAME", "what the beer is called; left out: the solera's name"},
        {"--outlines", Takes::nothing, "", "cut marks, for paper that is not cut yet"}};
    std::vector<Option> labels = sheet;
    labels.push_back(
        {"--picture", Takes::one, "PNG|ENTRY", "a picture of your own: a file, or the entry that holds it"});
    labels.push_back({"--what-if", Takes::nothing, "", "print it and keep nothing in the book"});
    const auto row = [](const char* name, const char* words, const char* about, const char* example,
                        std::vector<Option> options) {
        return Command{name, Group::paper, Role::program, words, about, example, std::move(options)};
    };
    std::vector<Command> rows;
    rows.push_back(row("print labels", "RUN", "labels for the bottles of a run; what they say is kept in the book",
                       "print labels AMB-26-1 --to labels.pdf --grid \"A4 2x4\"", labels));
    rows.push_back(row("print necks", "RUN", "small neck labels: name, code, strength, when it is at its best",
                       "print necks AMB-26-1 --to necks.pdf", sheet));
    rows.push_back(row("print crowns", "RUN", "round marks for crown corks, with the code of the run",
                       "print crowns AMB-26-1 --to crowns.pdf --outlines", sheet));
    rows.push_back(row("print tags", "[VESSEL...]", "tags to hang on vessels and jars; left out: on all of them",
                       "print tags Amber \"Jar 23\" --to tags.pdf", {to, paper}));
    rows.push_back(row("print card", "RUN|VESSEL", "a card for somebody who takes dregs: what lives in them",
                       "print card AMB-26-1 --to card.pdf", {to}));
    rows.push_back(row("print recall", "LOT|ADDITION|CULTURE", "the list of what has to come back, to tick off",
                       "print recall \"Spring wort\" --to recall.pdf", {to, paper}));
    rows.push_back(
        row("print letter", "[YEAR]",
            "the keeper's letter: every vessel's year, who lives there, what was learned, and the whole book as "
            "codes; left out: this year",
            "print letter 2026 --to letter.pdf",
            {to, paper, {"--without-pages", Takes::nothing, "", "without the codes of the book"}}));
    rows.push_back(row("print tasting", "VESSEL|RUN...", "a sheet for each taster under codes, and the key last",
                       "print tasting Amber \"Stair 1\" --taster Ines --taster Marit --to tasting.pdf",
                       {to,
                        paper,
                        {"--taster", Takes::one, "NAME", "who tastes", true},
                        {"--twice", Takes::one, "VESSEL|RUN", "poured twice", true},
                        {"--set", Takes::one, "NAME", "brings the codes of plan tasting back; left out: made"},
                        {"--full", Takes::nothing, "", "the whole sheet instead of three attributes"}}));
    rows.push_back(row("print pages", "", "the whole book as codes on paper: from-pages makes it again",
                       "print pages --to book.pdf", {to, paper}));
    return rows;
}

}  // namespace undercroft::cli

#include "paper/letter.hpp"

#include "base/letters.hpp"
#include "paper/flow.hpp"

namespace undercroft::paper {

namespace {

void say_list(Flow& flow, const char* heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    flow.small_heading(heading);
    for (const std::string& line : lines) flow.point(line);
}

void say_vessel(Flow& flow, const app::LetterVessel& vessel, int year) {
    constexpr double k_beginning = 50.0;  // mm: name, strip and figures stand together
    flow.gap();
    flow.keep_together(k_beginning);
    flow.heading(vessel.name);
    flow.paragraph(vessel.about);
    flow.strata(vessel.strata);
    if (!vessel.made.empty()) flow.paragraph("Made up of " + joined(vessel.made, "; ") + ".");
    flow.paragraph(joined(vessel.now, "; ") + ".");
    say_list(flow, "Who lives there", vessel.lives);
    if (vessel.story.empty()) {
        flow.paragraph("Nothing was booked for it in " + std::to_string(year) + ".");
        return;
    }
    flow.small_heading("Its year");
    for (const app::EntryLine& entry : vessel.story)
        flow.row({{0.14, entry.day}, {0.86, entry.text + (entry.by.empty() ? "" : " (" + entry.by + ")")}});
}

}  // namespace

Result<BookPages> keepers_letter(const app::LetterView& letter, std::string_view exported, const PageSize& page) {
    const std::string title = letter.book.name + ", the letter of " + std::to_string(letter.year);
    Flow flow(page, {title, letter.on}, 9.0);
    flow.heading(title);
    if (letter.book.invented) flow.paragraph("Invented: nothing here is real.");
    flow.paragraph("As it stood on " + letter.on + ". " + letter.words);
    for (const app::LetterVessel& vessel : letter.vessels) say_vessel(flow, vessel, letter.year);
    say_list(flow, "Bottles", letter.bottles);
    say_list(flow, "What the year taught", letter.learned);
    say_list(flow, "What is open", letter.open);
    flow.small_heading("Mind");
    for (const app::Caution& caution : letter.cautions) flow.point(caution.words);
    BookPages pages;
    if (!exported.empty()) {
        TRY(const std::vector<std::string> codes, codes_of(exported));
        pages.codes = static_cast<int>(codes.size());
        flow.small_heading("The whole book");
        flow.paragraph(
            "On the pages that follow stands the whole book in " + std::to_string(pages.codes) +
            " codes. Any reader of QR codes reads them, in any order; each is one line that begins with UC1:. Put the "
            "lines "
            "into a text file, and undercroft from-pages LINES.txt --book NEW.undercroft makes the book again.");
        TRY_VOID(draw_codes(flow, codes));
    }
    pages.pages = flow.pages();
    TRY(pages.pdf, flow.finish());
    return pages;
}

}  // namespace undercroft::paper

#include "paper/print.hpp"

#include <algorithm>

#include "app/letter.hpp"
#include "app/shelf_views.hpp"
#include "app/views_of.hpp"
#include "base/letters.hpp"
#include "paper/book_pages.hpp"
#include "paper/labels.hpp"
#include "paper/letter.hpp"
#include "paper/lists.hpp"
#include "paper/tags.hpp"
#include "units/amount.hpp"

namespace undercroft::paper {

namespace {

std::string counted(int count, const char* one, const char* many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

Result<Grid> grid_for(LabelShape shape, const std::string& asked) {
    if (!asked.empty()) return parse_grid(asked);
    switch (shape) {
        case LabelShape::neck:
            return parse_grid("A4 5x13");
        case LabelShape::crown:
            return parse_grid("A4, 6 x 9, 30 x 30 mm");
        case LabelShape::belly:
            break;
    }
    return parse_grid("A4 2x4");
}

Result<Printed> print_labels(app::Book& book, const PrintRequest& request, LabelShape shape, const std::string& today) {
    if (request.subject.empty()) return fail(ErrorKind::bad_input, "run", "Labels of which run? Name it.");
    TRY(const app::LabelView label, book.label(request.subject, request.name));
    LabelJob job;
    job.shape = shape;
    TRY(job.grid, grid_for(shape, request.grid));
    if (request.count.empty()) {
        TRY(const app::HoldingView run, book.show(label.run, {}));
        job.count = std::max(1, run.run ? run.run->left : 1);
    } else {
        TRY(job.count, parse_count("count", request.count, 1, k_most_labels));
    }
    if (!request.first.empty()) {
        TRY(job.first_cell, parse_count("first", request.first, 1, job.grid.cells()));
    }
    job.outlines = request.outlines;
    job.picture = request.picture;
    if (!request.picture_entry.empty()) {
        TRY(app::PictureView picture, book.picture(request.picture_entry));
        job.picture = std::move(picture.bytes);
    }
    TRY(LabelSheet sheet, label_sheet(label, job, today));
    Printed printed;
    printed.view.subject = label.run;
    printed.pdf = std::move(sheet.pdf);
    printed.view.pages = sheet.pages;
    const char* one = shape == LabelShape::belly ? "label" : shape == LabelShape::neck ? "neck label" : "crown mark";
    printed.view.words = counted(job.count, one, (std::string(one) + "s").c_str()) + " of " + label.run + " on " +
                         counted(sheet.pages, "sheet", "sheets") + " " + job.grid.name + ", in letters of " +
                         number_text(sheet.points, 1) + " points: a small one is " + number_text(sheet.x_height_mm, 2) +
                         " mm high.";
    if (shape == LabelShape::belly)
        printed.view.cautions.push_back({"label.local_rules",
                                         "What a label must say, and how large, differs by place: follow your local "
                                         "rules before you give or sell a "
                                         "bottle. The European Union asks for small letters of 1.2 mm, 0.9 mm on the "
                                         "smallest containers (Reg. (EU) "
                                         "1169/2011, article 13, from memory)."});
    printed.view.cautions.push_back(
        {"label.sheet",
         "Print at full size, not fitted to the page, and try one on plain paper first: sheets differ."});
    return printed;
}

Result<Printed> print_tags(app::Book& book, const PrintRequest& request, const std::string& today) {
    TRY(const app::CellarView cellar, book.cellar({}));
    std::vector<Tag> tags;
    const auto add = [&](const app::VesselSummary& vessel) {
        tags.push_back({vessel.tag, vessel.name, app::described(vessel, cellar.book.unit),
                        vessel.name + "\n" + (vessel.tag.empty() ? "" : vessel.tag + "\n") + cellar.book.name});
    };
    if (request.vessels.empty()) {
        for (const app::VesselSummary& vessel : cellar.vessels) add(vessel);
    } else {
        for (const std::string& name : request.vessels) {
            TRY(const app::HoldingView holding, book.show(name, {}));
            if (!holding.vessel)
                return fail(ErrorKind::bad_input, "vessel", name + " is no vessel; labels are for runs.");
            add(*holding.vessel);
        }
    }
    TRY(const PageSize page, parse_page(request.paper));
    Printed printed;
    TRY(printed.pdf, tags_pdf(tags, page, today));
    printed.view.words = counted(static_cast<int>(tags.size()), "tag", "tags") + " to cut out and hang up.";
    return printed;
}

Result<Printed> print_letter(app::Book& book, const PrintRequest& request, const std::string& today,
                             const std::function<Result<std::string>()>& exported) {
    int year = std::stoi(today.substr(0, 4));
    if (!request.year.empty()) {
        TRY(year, parse_count("year", request.year, 1800, 9999));
    }
    TRY(const PageSize page, parse_page(request.paper));
    TRY(const app::LetterView letter, book.letter(year));
    std::string bytes;
    if (request.pages) {
        TRY(bytes, exported());
    }
    TRY(BookPages pages, keepers_letter(letter, bytes, page));
    Printed printed;
    printed.view.subject = std::to_string(year);
    printed.pdf = std::move(pages.pdf);
    printed.view.pages = pages.pages;
    printed.view.words =
        "The letter of " + printed.view.subject + ", " + counted(pages.pages, "page", "pages") +
        (request.pages ? ", with the whole book in " + counted(pages.codes, "code", "codes") + "." : ".");
    printed.view.cautions = letter.cautions;
    return printed;
}

Result<Printed> print_pages(const app::AboutView& about, const PrintRequest& request,
                            const std::function<Result<std::string>()>& exported) {
    TRY(const PageSize page, parse_page(request.paper));
    TRY(const std::string bytes, exported());
    TRY(BookPages pages, book_pages(bytes, page, {about.book.name + ", the whole book", about.today}));
    Printed printed;
    printed.pdf = std::move(pages.pdf);
    printed.view.pages = pages.pages;
    printed.view.words = "The whole book in " + counted(pages.codes, "code", "codes") + " on " +
                         counted(pages.pages, "page", "pages") + ". Read one page back before you trust it.";
    printed.view.cautions.push_back({"pages.names", "They hold all names and notes: keep them as you keep the book."});
    return printed;
}

Result<Printed> print_one(app::Book& book, const PrintRequest& request, const app::AboutView& about,
                          const std::function<Result<std::string>()>& exported) {
    const std::string& what = request.what;
    if (what == "labels") return print_labels(book, request, LabelShape::belly, about.today);
    if (what == "necks") return print_labels(book, request, LabelShape::neck, about.today);
    if (what == "crowns") return print_labels(book, request, LabelShape::crown, about.today);
    if (what == "tags") return print_tags(book, request, about.today);
    if (what == "letter") return print_letter(book, request, about.today, exported);
    if (what == "pages") return print_pages(about, request, exported);
    Printed printed;
    if (what == "card") {
        TRY(const app::DregsView dregs, book.dregs(request.subject, {}));
        printed.view.subject = dregs.subject;
        TRY(printed.pdf, culture_card(dregs));
        printed.view.words = "A card for whoever takes dregs of " + dregs.subject + ".";
        printed.view.cautions = dregs.cautions;
        return printed;
    }
    if (what == "recall") {
        TRY(const PageSize page, parse_page(request.paper));
        TRY(const app::RecallView recall, book.recall(request.subject, {}));
        printed.view.subject = recall.subject;
        TRY(printed.pdf, recall_list(recall, page));
        printed.view.words = recall.words;
        printed.view.cautions = recall.cautions;
        return printed;
    }
    if (what == "tasting") {
        TRY(const PageSize page, parse_page(request.paper));
        app::BlindRequest wish;
        wish.subjects = request.vessels;
        wish.tasters = request.tasters;
        wish.twice = request.twice;
        wish.set = request.set;
        wish.full = request.full;
        TRY(const app::BlindView set, book.plan_tasting(wish));
        printed.view.subject = set.set;
        TRY(printed.pdf, tasting_sheets(set, page, about.today));
        printed.view.words = "A sheet for each taster, and the key last. " + set.words;
        printed.view.cautions = set.cautions;
        return printed;
    }
    return fail(ErrorKind::bad_input, "what",
                "\"" + what.substr(0, 40) +
                    "\" cannot be printed; labels, necks, crowns, tags, card, recall, letter, pages and tasting can.");
}

}  // namespace

Result<Printed> print(app::Book& book, const PrintRequest& request,
                      const std::function<Result<std::string>()>& exported) {
    TRY(const app::AboutView about, book.about());
    TRY(Printed printed, print_one(book, request, about, exported));
    printed.view.book = about.book;
    printed.view.what = request.what;
    return printed;
}

}  // namespace undercroft::paper

// Old soleras, new ones and changed ones.
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "render/ages.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/text.hpp"

namespace undercroft::render {
namespace {

// "3 stages of 60 L", "2 x 30 L".
std::string vessels_text(const engine::Design& design, VolumeUnit unit) {
    const std::string each =
        (design.abreast > 1 ? fmt::format("{} x ", design.abreast) : "") + text_of(design.vessel + design.ullage, unit);
    return design.stages == 1 ? each : fmt::format("{} stages of {}", design.stages, each);
}

std::string filled_words(const engine::Design& design) {
    const Volume brimful = design.vessel + design.ullage;
    return design.ullage == Volume{} ? std::string("filled so")
                                     : "filled to " + percent_text(design.vessel.in_litres() / brimful.in_litres(), 0);
}

std::string design_table(const app::DesignView& view) {
    std::vector<Align> columns(11 + view.wish.older.size(), Align::right);
    columns[1] = Align::left;
    Table table(columns);
    std::vector<std::string> head{"no.", "vessels", "share", "every", "pull", "a year", "by then"};
    for (const engine::OlderWish& older : view.wish.older)
        head.push_back(number_text(older.years, std::round(older.years) == older.years ? 0 : 1) + " y+");
    for (const char* one : {"< 1 y", "settles", "days", "price"}) head.emplace_back(one);
    table.head(head);
    int number = 0;
    for (const app::DesignLine& line : view.designs) {
        const engine::Design& design = line.design;
        std::vector<std::string> cells{fmt::format("{}", ++number),
                                       vessels_text(design, view.book.unit),
                                       percent_text(design.share, 0),
                                       duration_text(design.interval_years),
                                       text_of(design.pull, view.book.unit),
                                       number_text(design.yearly_litres, 0) + " L",
                                       number_text(design.age_at_wait, 1) + " y" + (design.reached() ? "" : " *")};
        for (const double share : design.older_at_wait) cells.push_back(percent_text(share, 0));
        cells.push_back(percent_text(line.young_share, 0));
        cells.push_back(number_text(design.settled_years, 1) + " y");
        cells.push_back(number_text(design.hands_on_days, 1));
        cells.push_back(number_text(design.price, 0));
        table.row(cells);
    }
    return table.text();
}

// Every design's way up, one row each.
std::string growth_table(const app::DesignView& view) {
    Table table(std::vector<Align>(9, Align::right));
    std::vector<std::string> head{"no."};
    for (const engine::SoleraTurn& turn : view.designs.front().turns) head.push_back(fmt::format("{}.", turn.turn));
    table.head(head);
    int number = 0;
    for (const app::DesignLine& line : view.designs) {
        std::vector<std::string> cells{fmt::format("{}", ++number)};
        for (const engine::SoleraTurn& turn : line.turns)
            cells.push_back(number_text(turn.mean_years, 1) +
                            (turn.share_older_than(1.0) < 0.995
                                 ? fmt::format(" ({})", number_text(100.0 * (1.0 - turn.share_older_than(1.0)), 0))
                                 : ""));
        table.row(cells);
    }
    return heading("Mean age of the first eight pulls, years (in brackets: percent under one year)") + table.text();
}

std::string first_turns(const app::DesignView& view) {
    const app::DesignLine& line = view.designs[view.chosen];
    Table table({Align::right, Align::right, Align::right, Align::left, Align::right, Align::right, Align::right});
    table.head({"turn", "after", "pulled", "", "mean age", "under 1 year", "3 years and over"});
    double most = line.design.settled_years;
    for (const engine::SoleraTurn& turn : line.turns) {
        constexpr double k_longest_bar = 24.0;
        std::string bar;
        const auto length = std::lround(most > 0.0 ? std::min(1.0, turn.mean_years / most) * k_longest_bar : 0.0);
        for (long i = 0; i < length; ++i) bar += "\u2592";
        table.row({std::to_string(turn.turn), duration_text(turn.years), text_of(turn.pulled, view.book.unit), bar,
                   number_text(turn.mean_years, 2) + " years", percent_text(1.0 - turn.share_older_than(1.0), 0),
                   percent_text(turn.share_older_than(3.0), 0)});
    }
    std::string settles = number_text(line.design.settled_years, 1) + " years";
    if (line.turns_to_settle)
        settles += fmt::format(", within 1 % after {} turns or {}", *line.turns_to_settle,
                               duration_text(*line.turns_to_settle * line.design.interval_years));
    return heading(fmt::format("Design {}, its first eight turns; a full bar is where it settles", view.chosen + 1)) +
           table.text() + wrapped("  ", "settles at " + settles);
}

std::string first_pulls_words(const engine::FastStart& start) {
    const std::size_t pulls = start.plan.first_pulls.size();
    return pulls == 1 ? std::string("the first pull") : fmt::format("the first {} pulls", pulls);
}

std::string start_words(const engine::FastStart& start, VolumeUnit unit) {
    switch (start.start) {
        case engine::Start::plain:
            return "new beer, full pulls from the first turn";
        case engine::Start::aged_half:
        case engine::Start::aged_full:
            return "first fill with beer of " + duration_text(start.plan.start_age_years);
        case engine::Start::half_pulls:
            return fmt::format("{} half as large ({})", first_pulls_words(start),
                               text_of(start.plan.first_pulls.front(), unit));
        case engine::Start::no_pulls:
            break;
    }
    return first_pulls_words(start) + " left out";
}

std::string start_table(const app::DesignView& view) {
    Table table({Align::left, Align::right, Align::right, Align::right});
    table.head({"begun with", "first as wished", "pulled before", "mean at " + duration_text(view.wish.wait_years)});
    for (const engine::FastStart& start : view.starts)
        table.row({start_words(start, view.book.unit),
                   start.turn_reached ? "after " + duration_text(start.years_reached) : std::string("never"),
                   text_of(Volume::from_litres(start.litres_before), view.book.unit),
                   number_text(start.mean_at_wait, 2) + " years"});
    return heading(fmt::format("Design {}, begun faster", view.chosen + 1)) + table.text();
}

std::string side_name(const app::ChangeSide& side) {
    return fmt::format("{} every {}", percent_text(side.share, 0), duration_text(side.interval_years));
}

}  // namespace

std::string text_of(const app::RememberView& view) {
    std::string out = title(view.book, view.vessel + " as it is remembered", "");
    Sources sources;
    out += "\n" + term_lines(view.terms, sources);
    Table table({Align::right, Align::right, Align::left, Align::left});
    table.head({"volume", "share", "brewed between", "lot"});
    for (const app::RememberedLine& lot : view.lots)
        table.row({text_of(lot.volume, view.book.unit), share_text(lot.share), lot.from + " and " + lot.to,
                   lot.name + (lot.was.empty() ? "" : " (was " + lot.was + ")")});
    out += "\n" + table.text() + sources.text();
    out += heading("As a sitting") + text_of(view.sitting);
    if (!view.sitting.booked) out += "\nNothing was booked. Say the same with --keep to book it.\n";
    return out;
}

std::string text_of(const app::DesignView& view) {
    std::string out = title(view.book, "a solera to be founded", "");
    out += block_of(view.cautions);
    out += "\n" + wrapped("  ", view.answer);
    out += wrapped("  ", "Mean ages by volume of what is pulled, before the pull, from the day beer enters" +
                             std::string(view.wish.age_in_years > 0.0 ? " plus the age of the new beer" : "") +
                             ", vessels perfectly mixed, begun with new beer.");
    out += "\n" + design_table(view);
    out += wrapped("  ",
                   fmt::format("vessels: brimful, and {}; by then: mean age of the last pull within {}{}; < 1 y: what "
                               "of it is younger than a year; days: of work in a year.",
                               filled_words(view.designs.front().design), duration_text(view.wish.wait_years),
                               view.designs.back().design.reached() ? "" : ", * where that is not as wished"));
    out +=
        wrapped("  ", fmt::format("Best first by what it costs a year: vessels over {} years, and work ({} days a "
                                  "turn and {} for each vessel) at {} a day. Common practice, no source.",
                                  number_text(engine::k_vessel_life_years, 0), number_text(engine::k_days_per_turn, 2),
                                  number_text(engine::k_days_per_vessel, 2), number_text(view.wish.day_worth, 0)));
    if (view.designs.size() > 1) out += growth_table(view);
    out += first_turns(view) + start_table(view);
    if (view.sitting) {
        out += heading(fmt::format("Design {} as a first sitting", view.chosen + 1)) + text_of(*view.sitting);
        if (!view.sitting->booked) out += "\nNothing was booked. Say the same with --keep to book it.\n";
    }
    return out;
}

std::string text_of(const app::ChangeView& view) {
    std::string out = title(view.book, view.vessel + ", as it is and changed", "");
    out += block_of(view.cautions);
    const auto chain = [](const app::ChangeSide& side) {
        std::string names = "new beer";
        for (const std::string& name : side.stages) names += " -> " + name;
        return names;
    };
    out += "\n" + wrapped("  as it is: ",
                          fmt::format("{} ({}); {}", side_name(view.old_way), view.usual, chain(view.old_way)));
    out += wrapped("  changed:  ", fmt::format("{}; {}", side_name(view.new_way), chain(view.new_way)));
    out += wrapped(
        "  ", "Mean age by volume, before the pull, from the day brewed; refills are new beer. Nothing is booked.");
    Table table({Align::right, Align::left, Align::right, Align::left, Align::right, Align::left, Align::right,
                 Align::left, Align::right});
    table.head({"turn", "as it is", "pulled", "mean age", "3 years+", "changed", "pulled", "mean age", "3 years+"});
    const auto cells_of = [&](const app::ChangeTurn& turn) {
        return std::vector<std::string>{turn.day, text_of(turn.pulled, view.book.unit), mean_age_text(turn.age),
                                        percent_text(engine::share_older_than(turn.age, 3.0), 0)};
    };
    for (std::size_t i = 0; i < view.old_way.turns.size(); ++i) {
        std::vector<std::string> row{std::to_string(i + 1)};
        for (const app::ChangeSide* side : {&view.old_way, &view.new_way})
            for (std::string& cell : cells_of(side->turns[i])) row.push_back(std::move(cell));
        table.row(row);
    }
    out += "\n" + table.text();
    out += fmt::format("\n  drawn in a year: {} L as it is, {} L changed\n", number_text(view.old_way.yearly_litres, 1),
                       number_text(view.new_way.yearly_litres, 1));
    return out;
}

}  // namespace undercroft::render

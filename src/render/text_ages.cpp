#include <fmt/core.h>

#include "render/ages.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"

namespace undercroft::render {
namespace {

std::string convention_of(engine::AgeFrom from) {
    return from == engine::AgeFrom::brew_day ? "from the day brewed" : "from the day it came in";
}

// " (14 months to 5.2 years)" where assumed lots make a difference.
std::string range_text(const engine::AgeFigure& years) {
    if (years.old - years.young < 0.05) return {};
    return fmt::format("{} to {} by what is assumed", duration_text(years.young), duration_text(years.old));
}

std::string share_range(const engine::AgeFigure& share) {
    if (share.old - share.young < 0.005) return {};
    return fmt::format("{} to {} by what is assumed", percent_text(share.young, 0), percent_text(share.old, 0));
}

std::string age_figures(const app::AgeView& view) {
    const engine::Age& age = view.age;
    Table table({Align::left, Align::left, Align::left});
    table.row({"mean", mean_age_text(age), range_text({age.low_years, age.mean_years, age.high_years})});
    table.row({"spread", duration_text(age.sd_years), "one standard deviation between its brews"});
    table.row(
        {"youngest part", duration_text(age.youngest_years),
         percent_text(age.youngest_share, age.youngest_share < 0.0995 ? 1 : 0) + " of the beer: " + age.youngest_name});
    table.row({"vintages, effectively", number_text(age.effective_vintages, 1),
               "as mixed as that many brews of equal share"});
    return table.text();
}

std::string percentile_table(const engine::AgeProfile& profile) {
    Table table({Align::right, Align::left, Align::left});
    for (const engine::AgePercentile& row : profile.percentiles)
        table.row({fmt::format("{} %", row.percent), duration_text(row.years.middle), range_text(row.years)});
    return heading("By volume, so much of the beer is no older than") + table.text();
}

std::string older_table(const engine::AgeProfile& profile) {
    Table table({Align::left, Align::right, Align::left});
    for (const engine::OlderShare& row : profile.older)
        table.row({duration_text(row.years), percent_text(row.share.middle, 0), share_range(row.share)});
    return heading("Share at least so old") + table.text();
}

std::string turn_lines(const app::AgeView& view) {
    Table table({Align::left, Align::left, Align::left});
    const auto row = [&](const char* what, const std::optional<app::AgeAtTurn>& then) {
        if (!then) return;
        table.row({what + then->day, mean_age_text(then->age),
                   fmt::format("youngest part {}, {}", percent_text(then->age.youngest_share, 0),
                               duration_text(then->age.youngest_years))});
    };
    row("before the pull of ", view.before_pull);
    row("after the refill of ", view.after_refill);
    return table.empty() ? std::string{} : heading("Mean age at its last turn") + table.text();
}

}  // namespace

std::string text_of(const app::AgeView& view) {
    std::string out =
        title(view.book, "the age of " + view.subject + " on " + view.on, fmt::format("entry #{}", view.book.sequence));
    out += "\n" + wrapped("  ", fmt::format("{}, by volume; {}; {}.", text_of(view.volume, view.book.unit),
                                            convention_of(view.age.from), view.state_words));
    out += age_figures(view);
    if (view.kind == "run") {
        Table table({Align::left, Align::left});
        table.row({"in the bottle since", duration_text(view.years_in_container)});
        table.row({"together, on average",
                   (view.age.assumed ? "about " : "") + duration_text(view.age.mean_years + view.years_in_container)});
        out += heading("Time in the bottle, apart from the age above") + table.text();
    }
    out += percentile_table(view.profile) + older_table(view.profile) + turn_lines(view) + make_up(view.age);
    return out;
}

}  // namespace undercroft::render

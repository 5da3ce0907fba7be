#include "render/parts.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "render/lines.hpp"
#include "units/amount.hpp"

namespace undercroft::render {
namespace {

constexpr double k_small_share = 0.005;  // below it a brew is not worth a line of its own
constexpr std::size_t k_bar = 40;

std::string repeated(std::string_view text, std::size_t times) {
    std::string out;
    for (std::size_t i = 0; i < times; ++i) out += text;
    return out;
}

}  // namespace

std::string share_text(double share) {
    return percent_text(share, share < 0.0995 ? 1 : 0);
}

std::string title(const app::BookLine& book, std::string_view what, std::string_view right) {
    if (book.name.empty()) return std::string(what) + "\n";
    const std::string left = book.name + (what.empty() ? "" : ": ") + std::string(what);
    const std::size_t used = width_of(left) + width_of(right);
    std::string out = left;
    if (!right.empty()) out += std::string(used + 2 < k_columns ? k_columns - used : 2, ' ') + std::string(right);
    out += "\n";
    if (book.invented) out += "Invented demo cellar: nothing here is real.\n";
    if (book.read_only) out += "A newer program wrote in this book: it can be read here, not written.\n";
    if (book.skipped > 0)
        out += wrapped("", fmt::format("{} of a kind this program does not know {} left out, the first of {}: figures "
                                       "after that day may be wrong.",
                                       book.skipped == 1 ? "1 entry" : fmt::format("{} entries", book.skipped),
                                       book.skipped == 1 ? "is" : "are", book.skipped_since));
    if (!book.answers_until.empty())
        out +=
            wrapped("", fmt::format("Without {} the book fits together only up to {}: this is the cellar of that day.",
                                    book.skipped == 1 ? "it" : "them", book.answers_until));
    return out;
}

std::string heading(std::string_view text) {
    return "\n" + std::string(text) + "\n";
}

std::string block_of(const std::vector<app::Caution>& cautions) {
    if (cautions.empty()) return {};
    std::string out = cautions.size() == 1 ? "\n!! CAUTION\n" : "\n!! CAUTIONS\n";
    for (const app::Caution& caution : cautions) {
        std::string_view mark = "!! - ";
        for (const std::string& line : broken(caution.words + " (" + caution.id + ")", k_columns - mark.size())) {
            out += std::string(mark) + line + "\n";
            mark = "!!   ";
        }
    }
    return out;
}

std::string mean_age_text(const engine::Age& age) {
    return (age.assumed ? "about " : "") + duration_text(age.mean_years);
}

const char* shade_of(double age_years) {
    if (age_years < 1.0) return "\u2591";
    if (age_years < 2.0) return "\u2592";
    if (age_years < 3.0) return "\u2593";
    return "\u2588";
}

std::string strata(const engine::Age& age, double fill, std::size_t width) {
    const double columns = static_cast<double>(width);
    const auto filled = static_cast<std::size_t>(std::lround(std::clamp(fill, 0.0, 1.0) * columns));
    std::vector<engine::VintagePart> parts = age.parts;
    std::stable_sort(parts.begin(), parts.end(),
                     [](const auto& a, const auto& b) { return a.age_years > b.age_years; });
    std::string out;
    double reached = 0.0;
    std::size_t drawn = 0;
    for (const engine::VintagePart& part : parts) {
        reached += part.share * age.beer_share * static_cast<double>(filled);
        const auto until = std::min(filled, static_cast<std::size_t>(std::lround(reached)));
        out += repeated(shade_of(part.age_years), until > drawn ? until - drawn : 0);
        drawn = std::max(drawn, until);
    }
    return out + repeated("~", filled - drawn) + repeated("\u00B7", width - filled);
}

std::string make_up(const engine::Age& age) {
    std::vector<engine::VintagePart> parts = age.parts;
    std::stable_sort(parts.begin(), parts.end(),
                     [](const auto& a, const auto& b) { return a.age_years < b.age_years; });
    const auto is_small = [](const engine::VintagePart& part) { return part.share < k_small_share; };
    const auto small = static_cast<std::size_t>(std::count_if(parts.begin(), parts.end(), is_small));
    std::string out = heading(
        "Make-up of the beer, youngest on top   \u2591 under 1 year  \u2592 to 2  \u2593 to 3  "
        "\u2588 older");
    Table table({Align::left, Align::right, Align::right, Align::left});
    double small_share = 0.0;
    double small_age = 0.0;
    for (const engine::VintagePart& part : parts) {
        if (small > 1 && is_small(part)) {
            small_share += part.share;
            small_age += part.share * part.age_years;
            continue;
        }
        const auto bar = std::max<std::size_t>(1, static_cast<std::size_t>(std::lround(part.share * k_bar)));
        std::string spread;
        if (part.age_spread_years >= 0.05) spread = " \u00B1 " + duration_text(part.age_spread_years);
        table.row({repeated(shade_of(part.age_years), bar), share_text(part.share),
                   duration_text(part.age_years) + spread, part.name + (part.assumed ? " (assumed)" : "")});
    }
    if (small > 1)
        table.row({shade_of(small_share > 0.0 ? small_age / small_share : 0.0), share_text(small_share), "",
                   fmt::format("{} lots of less than 0.5 % each", small)});
    out += table.text();
    for (const engine::OtherSource& other : age.others)
        out += fmt::format("  ~ {} of the whole is {} ({})\n", share_text(other.share), other.name,
                           ledger::word(other.kind));
    return out;
}

std::string ago_text(int days) {
    if (days == 0) return "today";
    if (days == 1) return "yesterday";
    if (days < 60) return fmt::format("{} days ago", days);
    return duration_text(days / 365.25) + " ago";
}

std::string quantity_text(std::string_view quantity) {
    if (quantity == "ph") return "pH";
    if (quantity == "ta") return "TA";
    if (quantity == "ibu") return "bitterness";
    if (quantity == "dissolved_co2") return "dissolved CO2";
    return std::string(quantity);
}

std::string reading_text(const app::LastReading& reading) {
    const bool bare = reading.unit == "pH";
    const std::string offset =
        reading.calibrated.empty() ? "" : ", calibrated " + reading.offset + " to " + reading.calibrated;
    return quantity_text(reading.quantity) + " " + reading.value + (bare ? "" : " " + reading.unit) + offset + ", " +
           ago_text(reading.days_ago);
}

std::string entry_lines(const std::vector<app::EntryLine>& entries) {
    Table table({Align::right, Align::left, Align::left, Align::left});
    for (const app::EntryLine& entry : entries) {
        std::string text = entry.text;
        if (!entry.by.empty()) text += " [" + entry.by + "]";
        if (!entry.reason.empty()) text += " (because: " + entry.reason + ")";
        if (!entry.live) text = "no longer counts, see " + entry.superseded_by + ": " + text;
        table.row({entry.number > 0 ? fmt::format("#{}", entry.number) : std::string{}, entry.day, entry.time, text});
    }
    return table.text();
}

std::string figure_text(double value, std::string_view unit) {
    if (unit == "SG") return number_text(value, 4);
    const double size = std::fabs(value);
    return number_text(value, size >= 99.95 ? 0 : size >= 9.995 ? 1 : size >= 0.9995 || size == 0.0 ? 2 : 3);
}

std::string Sources::mark(const std::string& source) {
    if (source.empty()) return {};
    auto found = std::find(m_sources.begin(), m_sources.end(), source);
    if (found == m_sources.end()) found = m_sources.insert(found, source);
    return fmt::format(" [{}]", found - m_sources.begin() + 1);
}

std::string Sources::text() const {
    if (m_sources.empty()) return {};
    std::string out = heading("Where the figures come from");
    for (std::size_t i = 0; i < m_sources.size(); ++i) out += wrapped(fmt::format("  [{}] ", i + 1), m_sources[i]);
    return out;
}

std::string term_lines(const std::vector<app::Term>& terms, Sources& sources) {
    Table table({Align::left, Align::right, Align::left, Align::left});
    for (const app::Term& term : terms)
        table.row({term.name, figure_text(term.value, term.unit), term.unit, term.how + sources.mark(term.source)});
    return table.text();
}

}  // namespace undercroft::render

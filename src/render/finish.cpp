#include "render/finish.hpp"

#include <algorithm>
#include <cmath>

#include "base/letters.hpp"
#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"
#include "units/amount.hpp"

namespace undercroft::render {
namespace {

std::string days_words(double days) {
    constexpr double k_long = 60.0;
    if (days < 0.5) return "at once";
    return days < k_long ? number_text(days, 0) + " d" : number_text(days / 30.44, 1) + " months";
}

std::string hands_words(double minutes) {
    return minutes < 1.0 ? "" : number_text(minutes / 60.0, 1) + " h";
}

std::string points_words(double points, double sd) {
    return (points < 0.0 ? "-" : "+") + number_text(std::abs(points), 1) + " ± " + number_text(sd, 1);
}

std::string moves_of(const app::FinishOption& option) {
    std::vector<std::string> moves;
    constexpr std::size_t k_most_moves = 5;
    for (const app::FinishMove& move : option.moves)
        if (moves.size() < k_most_moves) moves.push_back(move.attribute + " " + points_words(move.points, move.sd));
    return joined(moves, ", ");
}

// `said`: cautions that stand above already.
std::string detail_of(const app::FinishOption& option, std::vector<app::Caution>& said) {
    std::string out = heading(option.name + (option.dose.empty() ? "" : ", " + option.dose));
    for (const std::string& reason : option.reasons) out += wrapped("  - ", reason);
    if (const std::string moves = moves_of(option); !moves.empty()) out += wrapped("  moves   ", moves + ".");
    std::string asks = days_words(option.days) + " of contact, " + days_words(option.ready_days) +
                       " until it can be packaged; " + hands_words(option.hands_on_minutes) + " of hands";
    if (option.cost) asks += "; costs " + number_text(*option.cost, 2);
    if (option.ready_days < 0.5) asks = "nothing to wait for but its own watch and the gas check";
    if (option.hands_on_minutes >= 1.0 && option.ready_days < 0.5)
        asks += "; " + hands_words(option.hands_on_minutes) + " of hands";
    out += wrapped("  asks    ", asks + ".");
    if (option.gas_worst > 0.0)
        out += wrapped("  gas     ", number_text(option.gas_expected, 1) + " volumes if it were closed at once, " +
                                         number_text(option.gas_worst, 1) + " at the worst.");
    out += wrapped("  lives   ", option.culture + "; " + option.back + ".");
    std::vector<app::Caution> fresh;
    for (const app::Caution& one : option.cautions) {
        const bool known = std::any_of(said.begin(), said.end(), [&](const app::Caution& other) {
            return other.id == one.id && (other.words == one.words || one.id == "gas.room");
        });
        if (!known) fresh.push_back(one);
    }
    said.insert(said.end(), fresh.begin(), fresh.end());
    out += block_of(fresh);
    return out;
}

Json to_json(const app::FinishOption& option) {
    Json figures = Json::array();
    for (const app::FinishFigure& one : option.figures)
        figures.push_back({{"figure", one.figure},
                           {"wanted", one.wanted},
                           {"before", one.before},
                           {"after", one.after},
                           {"sd", one.sd},
                           {"inside", one.inside},
                           {"inside_alone", one.inside_alone}});
    Json moves = Json::array();
    for (const app::FinishMove& one : option.moves)
        moves.push_back({{"attribute", one.attribute}, {"points", one.points}, {"sd", one.sd}});
    return {{"technique", option.technique},
            {"way", option.way},
            {"kind", option.kind},
            {"name", option.name},
            {"dose", option.dose},
            {"amount", option.amount},
            {"days", option.days},
            {"ready_days", option.ready_days},
            {"inside", option.inside},
            {"off", option.off},
            {"worst", option.worst},
            {"gain", option.gain},
            {"gain_sd", option.gain_sd},
            {"clear", option.clear},
            {"figures", std::move(figures)},
            {"moves", std::move(moves)},
            {"reasons", option.reasons},
            {"litres", option.litres},
            {"gas_expected", option.gas_expected},
            {"gas_worst", option.gas_worst},
            {"least_vessel_litres", option.least_vessel_litres},
            {"hands_on_minutes", option.hands_on_minutes},
            {"cost", or_null(option.cost)},
            {"culture", option.culture},
            {"back", option.back},
            {"sources", option.sources},
            {"cautions", list_of(option.cautions)}};
}

}  // namespace

std::string text_of(const app::FinishView& view) {
    std::string out = title(view.book, "how " + view.subject + " could be finished", "on " + view.on) +
                      wrapped("  ", view.words) + wrapped("  target  ", joined(view.target, ", ") + ".");
    for (const std::string& remark : view.remarks) out += wrapped("  ", remark);
    out += block_of(view.cautions);
    if (view.options.size() > 1) {
        Table table({Align::right, Align::left, Align::left, Align::right, Align::right, Align::right, Align::left});
        table.head({"", "way", "dose", "inside", "off", "worst", "ready in"});
        constexpr std::size_t k_rows = 12;
        std::size_t hidden = 0;
        for (std::size_t i = 0; i < view.options.size(); ++i) {
            const app::FinishOption& one = view.options[i];
            if (!view.all && i >= k_rows && one.technique != "leave") {
                ++hidden;
                continue;
            }
            table.row({std::to_string(i + 1), one.name, one.dose, share_text(one.inside), number_text(one.off, 1),
                       number_text(one.worst, 1), days_words(one.ready_days)});
        }
        out += "\n" + table.text() +
               (hidden > 0 ? wrapped("  ", std::to_string(hidden) + " more rows: --all.") : std::string()) +
               wrapped("  ",
                       "inside: chance that all of the target is met; off: steps outside on the mean; worst: 19 times "
                       "of 20 no further.");
    }
    constexpr std::size_t k_told = 3;
    bool alone_told = false;
    std::vector<app::Caution> said_before;
    for (std::size_t i = 0; i < view.options.size(); ++i) {
        const bool alone = view.options[i].technique == "leave";
        if (!view.all && i >= k_told && (!alone || alone_told)) continue;
        alone_told = alone_told || alone;
        out += detail_of(view.options[i], said_before);
    }
    if (!view.splits.empty()) {
        out += heading("Splits");
        for (const app::FinishSplit& split : view.splits) {
            std::vector<std::string> parts;
            for (const app::FinishSplit::Part& part : split.parts)
                parts.push_back(number_text(part.litres, 1) + " L: " + part.name +
                                (part.dose.empty() ? "" : ", " + part.dose));
            out += wrapped("  - ", joined(parts, "; ") + ". At least one inside " + share_text(split.one_inside) +
                                       " of the time. " + split.why);
        }
    }
    if (!view.dates.empty()) {
        out += heading("Dates");
        Table table({Align::left, Align::left});
        for (const app::FinishDate& date : view.dates)
            table.row({date.day, date.what + (date.caution.empty() ? "" : " (" + date.caution + ")")});
        out += table.text();
    }
    if (!view.not_offered.empty()) {
        out += heading("Not offered");
        // Many share one reason: said once.
        std::vector<std::pair<std::string, std::vector<std::string>>> by_why;
        for (const auto& [name, why] : view.not_offered) {
            bool known = false;
            for (auto& [said, names] : by_why)
                if (said == why) {
                    names.push_back(name);
                    known = true;
                }
            if (!known) by_why.push_back({why, {name}});
        }
        constexpr std::size_t k_named = 3;
        for (const auto& [why, names] : by_why) {
            std::vector<std::string> few(names.begin(),
                                         names.begin() + std::ptrdiff_t(std::min(names.size(), k_named)));
            out +=
                wrapped("  - ", joined(few, "; ") +
                                    (names.size() > k_named ? " and " + std::to_string(names.size() - k_named) + " more"
                                                            : std::string()) +
                                    ": " + why);
        }
    }
    if (!view.command.empty()) out += heading("To book it") + "  " + view.command + "\n";
    return out;
}

std::string json_of(const app::FinishView& view) {
    Json json = head_of(view.book);
    json["subject"] = view.subject;
    json["on"] = view.on;
    json["litres"] = view.litres;
    json["sour"] = view.sour;
    json["words"] = view.words;
    json["target"] = view.target;
    json["remarks"] = view.remarks;
    Json& options = json["options"] = Json::array();
    for (const app::FinishOption& one : view.options) options.push_back(to_json(one));
    Json& not_offered = json["not_offered"] = Json::array();
    for (const auto& [name, why] : view.not_offered) not_offered.push_back({{"name", name}, {"why", why}});
    Json& splits = json["splits"] = Json::array();
    for (const app::FinishSplit& split : view.splits) {
        Json parts = Json::array();
        for (const app::FinishSplit::Part& part : split.parts)
            parts.push_back({{"name", part.name}, {"dose", part.dose}, {"litres", part.litres}});
        splits.push_back(
            {{"parts", std::move(parts)}, {"one_inside", split.one_inside}, {"off", split.off}, {"why", split.why}});
    }
    Json& dates = json["dates"] = Json::array();
    for (const app::FinishDate& date : view.dates)
        dates.push_back({{"day", date.day}, {"what", date.what}, {"caution", date.caution}});
    json["command"] = view.command;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

std::string text_of(const app::LearnedView& view) {
    std::string out = title(view.book, "what finishing taught", "on " + view.on) + wrapped("  ", view.words);
    if (view.portions.empty())
        out += wrapped("  ", "undercroft plan finish VESSEL ranks the ways, undercroft decide books one.");
    for (const app::FinishedPortion& one : view.portions) {
        out += heading(one.day + "  " + one.subject + ": " + one.how);
        if (one.tasted.empty()) {
            out += wrapped("  ", "Not tasted since; a tasting tells from " + one.taste_from + " on.");
            continue;
        }
        out += wrapped("  ", "Tasted on " + one.tasted + " in " + one.tasted_in + "; it was " + share_text(one.inside) +
                                 " sure to end inside its target.");
        Table table({Align::left, Align::right, Align::left, Align::left, Align::left});
        table.head({"", "before", "forecast", "came", ""});
        for (const app::CameFigure& figure : one.figures)
            table.row({figure.figure, number_text(figure.before, 1),
                       number_text(figure.forecast, 1) + " ± " + number_text(figure.forecast_sd, 1),
                       number_text(figure.came, 1) + " ± " + number_text(figure.came_sd, 1),
                       figure.within ? "" : "beyond what was forecast"});
        out += table.text();
    }
    if (!view.effects.empty()) {
        out += heading("What the effects are now");
        for (const auto& one : view.effects)
            out += wrapped("  - ", one.technique + ", " + one.attribute + ": " + one.words + ".");
    }
    return out + "\n" + block_of(view.cautions);
}

std::string json_of(const app::LearnedView& view) {
    Json json = head_of(view.book);
    json["on"] = view.on;
    json["words"] = view.words;
    Json& portions = json["portions"] = Json::array();
    for (const app::FinishedPortion& one : view.portions) {
        Json figures = Json::array();
        for (const app::CameFigure& figure : one.figures)
            figures.push_back({{"figure", figure.figure},
                               {"before", figure.before},
                               {"forecast", figure.forecast},
                               {"forecast_sd", figure.forecast_sd},
                               {"came", figure.came},
                               {"came_sd", figure.came_sd},
                               {"within", figure.within}});
        portions.push_back({{"number", one.number},
                            {"day", one.day},
                            {"subject", one.subject},
                            {"how", one.how},
                            {"technique", one.technique},
                            {"way", one.way},
                            {"inside", one.inside},
                            {"tasted", one.tasted},
                            {"tasted_in", one.tasted_in},
                            {"taste_from", one.taste_from},
                            {"figures", std::move(figures)}});
    }
    const auto spread = [](const engine::finish::Figure& figure) {
        return Json{{"mean", figure.mean}, {"sd", figure.sd}};
    };
    Json& effects = json["effects"] = Json::array();
    for (const auto& one : view.effects)
        effects.push_back({{"technique", one.technique},
                           {"attribute", one.attribute},
                           {"prior", spread(one.prior)},
                           {"data", spread(one.data)},
                           {"posterior", spread(one.posterior)},
                           {"next", spread(one.next)},
                           {"tastings", one.tastings},
                           {"surprise", one.surprise},
                           {"wrong", one.wrong},
                           {"words", one.words}});
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

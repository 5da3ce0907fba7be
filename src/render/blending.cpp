#include "render/blending.hpp"

#include <fmt/core.h>

#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"
#include "units/amount.hpp"

namespace undercroft::render {
namespace {

int places_of(const std::string& figure) {
    return figure == "pH" ? 2 : figure == "gravity" ? 4 : 1;
}

std::string value_text(const app::BlendFigure& figure) {
    const int places = places_of(figure.figure);
    return number_text(figure.value, places) + (figure.sd > 0.0 ? " ± " + number_text(figure.sd, places) : "");
}

std::string recipe_text(const app::BlendRecipe& recipe, const std::string& unit_free_name) {
    std::string out = heading(
        fmt::format("{}, {} L{}", unit_free_name, number_text(recipe.litres, 1),
                    recipe.cost > 0.005 ? fmt::format(", {} steps off", number_text(recipe.cost, 2)) : std::string()));
    Table parts({Align::left, Align::right, Align::right});
    for (const app::BlendPart& part : recipe.parts)
        parts.row({part.stock, number_text(part.litres, 2) + " L", share_text(part.share)});
    out += parts.text();
    Table figures({Align::left, Align::right, Align::left, Align::left, Align::left});
    figures.head({"", "comes to", "", "wanted", "inside"});
    for (const app::BlendFigure& figure : recipe.figures)
        figures.row({figure.figure, value_text(figure), figure.unit, figure.wanted,
                     figure.wanted.empty() ? "" : share_text(figure.inside) + (figure.missed ? "  missed" : "")});
    out += "\n" + figures.text();
    out += wrapped("  ", "All of it at once: " + share_text(recipe.inside) + " of the time. " + recipe.ferments);
    return out;
}

std::string name_of(const app::BlendRecipe& recipe, std::size_t number) {
    if (recipe.name == "best") return "The best";
    if (recipe.name == "surest") return "The surest";
    return "Another " + std::to_string(number);
}

Json to_json(const app::BlendFigure& figure) {
    return {{"figure", figure.figure}, {"unit", figure.unit},     {"wanted", figure.wanted}, {"value", figure.value},
            {"sd", figure.sd},         {"inside", figure.inside}, {"missed", figure.missed}};
}
Json to_json(const app::BlendPart& part) {
    return {{"stock", part.stock}, {"litres", part.litres}, {"share", part.share}};
}
Json to_json(const app::BlendRecipe& recipe) {
    Json parts = Json::array();
    for (const app::BlendPart& part : recipe.parts) parts.push_back(to_json(part));
    Json figures = Json::array();
    for (const app::BlendFigure& figure : recipe.figures) figures.push_back(to_json(figure));
    return {{"name", recipe.name},           {"litres", recipe.litres}, {"parts", std::move(parts)},
            {"figures", std::move(figures)}, {"cost", recipe.cost},     {"inside", recipe.inside},
            {"ferments", recipe.ferments},   {"points", recipe.points}, {"co2_volumes", recipe.co2_volumes}};
}

using Pours = std::vector<std::pair<std::string, double>>;  // stock, mL

std::string pours_text(const Pours& pours) {
    std::string text;
    for (const auto& [stock, ml] : pours) text += (text.empty() ? "" : ", ") + number_text(ml, 0) + " mL " + stock;
    return text;
}
Json pours_json(const Pours& pours) {
    Json json = Json::array();
    for (const auto& [stock, ml] : pours) json.push_back({{"stock", stock}, {"ml", ml}});
    return json;
}

std::string shares_text(const std::vector<app::TrialsShare>& parts) {
    std::string text;
    for (const app::TrialsShare& part : parts)
        text += (text.empty() ? "" : ", ") + share_text(part.share) + " " + part.stock;
    return text;
}
Json shares_json(const std::vector<app::TrialsShare>& parts) {
    Json json = Json::array();
    for (const app::TrialsShare& part : parts) json.push_back({{"stock", part.stock}, {"share", part.share}});
    return json;
}

std::string spread_text(double mean, double sd) {
    return number_text(mean, 1) + " ± " + number_text(sd, 1);
}

}  // namespace

std::string text_of(const app::BlendView& view) {
    std::string out =
        title(view.book, "a blend", "a plan, nothing is booked") + wrapped("  ", view.words) + block_of(view.cautions);
    for (std::size_t i = 0; i < view.recipes.size(); ++i)
        out += recipe_text(view.recipes[i], name_of(view.recipes[i], i));
    out += heading("Stocks");
    Table stocks({Align::left, Align::right, Align::left, Align::left});
    for (const app::BlendStock& stock : view.stocks)
        stocks.row({stock.name, number_text(stock.available, 1) + " L",
                    stock.left_out.empty() ? "" : "left out: " + stock.left_out, stock.figures});
    out += stocks.text();
    if (!view.glasses.empty()) {
        out += heading("Bench sheet, in the order to taste");
        Table sheet({Align::left, Align::left, Align::left});
        sheet.head({"code", "pour", "what it is: fold this away"});
        for (const app::BlendGlass& glass : view.glasses) {
            sheet.row({glass.code, pours_text(glass.pours), glass.what});
        }
        out += sheet.text();
    }
    if (!view.command.empty()) out += heading("To book the best") + "  " + view.command + "\n";
    return out;
}

std::string json_of(const app::BlendView& view) {
    Json json = head_of(view.book);
    json["words"] = view.words;
    json["proven"] = view.proven;
    json["cost"] = view.cost;
    json["bound"] = view.bound;
    json["rounding"] = view.rounding;
    Json& recipes = json["recipes"] = Json::array();
    for (const app::BlendRecipe& recipe : view.recipes) recipes.push_back(to_json(recipe));
    Json& stocks = json["stocks"] = Json::array();
    for (const app::BlendStock& stock : view.stocks)
        stocks.push_back({{"name", stock.name},
                          {"available", stock.available},
                          {"figures", stock.figures},
                          {"left_out", stock.left_out}});
    Json& glasses = json["glasses"] = Json::array();
    for (const app::BlendGlass& glass : view.glasses) {
        glasses.push_back({{"code", glass.code}, {"what", glass.what}, {"pours", pours_json(glass.pours)}});
    }
    json["command"] = view.command;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

std::string text_of(const app::TrialsView& view) {
    std::string out = title(view.book, "the next glasses", "a plan, nothing is booked") + wrapped("  ", view.words) +
                      block_of(view.cautions);
    out += heading("Tasted so far");
    Table tried({Align::right, Align::left, Align::right, Align::left, Align::left});
    tried.head({"", "glass", "liked", "by all glasses", ""});
    for (const app::TriedGlass& glass : view.tried)
        tried.row({std::to_string(glass.number), shares_text(glass.parts), number_text(glass.liked, 1),
                   spread_text(glass.mean, glass.sd), glass.number == view.best ? "best so far" : ""});
    out += tried.text();
    out += heading("The next glasses, in the order to taste");
    Table next({Align::left, Align::left, Align::left});
    next.head({"code", "pour", "what it is: fold this away"});
    for (const app::NextTrial& glass : view.next)
        next.row({glass.code, pours_text(glass.pours),
                  "expected " + spread_text(glass.mean, glass.sd) + ", gain " + number_text(glass.gain, 2) +
                      (glass.again ? ", tasted before" : "")});
    out += next.text();
    if (view.chosen == 0) return out;
    double litres = 0.0;
    for (const app::BlendPart& part : view.parts) litres += part.litres;
    out += heading(fmt::format("Glass {}, {} L", view.chosen, number_text(litres, 1)));
    Table parts({Align::left, Align::right, Align::right});
    for (const app::BlendPart& part : view.parts)
        parts.row({part.stock, number_text(part.litres, 2) + " L", share_text(part.share)});
    out += parts.text();
    if (!view.command.empty()) out += heading("To book it") + "  " + view.command + "\n";
    return out;
}

std::string json_of(const app::TrialsView& view) {
    Json json = head_of(view.book);
    json["words"] = view.words;
    json["noise"] = view.noise;
    json["repeats"] = view.repeats;
    json["step"] = view.step;
    json["apart"] = view.apart;
    Json& tried = json["tried"] = Json::array();
    for (const app::TriedGlass& glass : view.tried)
        tried.push_back({{"number", glass.number},
                         {"parts", shares_json(glass.parts)},
                         {"liked", glass.liked},
                         {"mean", glass.mean},
                         {"sd", glass.sd}});
    json["best"] = view.best;
    json["chance"] = view.chance;
    json["gain"] = view.gain;
    json["enough"] = view.enough;
    Json& next = json["next"] = Json::array();
    for (const app::NextTrial& glass : view.next)
        next.push_back({{"code", glass.code},
                        {"parts", shares_json(glass.parts)},
                        {"pours", pours_json(glass.pours)},
                        {"mean", glass.mean},
                        {"sd", glass.sd},
                        {"gain", glass.gain},
                        {"again", glass.again}});
    json["chosen"] = view.chosen;
    Json& parts = json["parts"] = Json::array();
    for (const app::BlendPart& part : view.parts) parts.push_back(to_json(part));
    json["command"] = view.command;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

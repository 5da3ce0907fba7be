#include "render/quarter.hpp"

#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"
#include "units/amount.hpp"

namespace undercroft::render {
namespace {

int places_of_figure(const std::string& figure) {
    return figure == "pH" ? 2 : figure == "gravity" ? 4 : 1;
}

}  // namespace

std::string text_of(const app::QuarterView& view) {
    std::string out = title(view.book, "this quarter", "") + wrapped("  ", view.words) + block_of(view.cautions);
    for (const app::QuarterProduct& product : view.products) {
        out += heading(product.name + ", " + number_text(product.litres, 1) + " L" +
                       (product.into.empty() ? "" : " into " + product.into));
        Table parts({Align::left, Align::right, Align::right});
        for (const app::BlendPart& part : product.parts)
            parts.row({part.stock, number_text(part.litres, 2) + " L", share_text(part.share)});
        out += parts.text();
        Table figures({Align::left, Align::right, Align::left, Align::left});
        figures.head({"", "comes to", "wanted", "inside"});
        for (const app::BlendFigure& figure : product.figures) {
            const int places = places_of_figure(figure.figure);
            figures.row({figure.figure,
                         number_text(figure.value, places) +
                             (figure.sd > 0.0 ? " ± " + number_text(figure.sd, places) : std::string()),
                         figure.wanted, share_text(figure.inside) + (figure.missed ? "  missed" : "")});
        }
        out += "\n" + figures.text();
        out += wrapped("  ", "All of it at once: " + share_text(product.inside) + " of the time.");
    }
    if (!view.refills.empty()) {
        out += heading("Filled again");
        Table refills({Align::left, Align::right, Align::left});
        for (const app::QuarterRefill& one : view.refills)
            refills.row({one.into, number_text(one.litres, 1) + " L", "from " + one.from + (one.lot ? ", a lot" : "")});
        out += refills.text();
    }
    if (!view.left_out.empty()) {
        out += heading("Left out");
        for (const std::string& one : view.left_out) out += wrapped("  - ", one + ".");
    }
    if (!view.commands.empty()) {
        out += heading("To book it, in this order");
        for (const std::string& one : view.commands) out += "  " + one + "\n";
    }
    return out;
}

std::string json_of(const app::QuarterView& view) {
    Json json = head_of(view.book);
    json["words"] = view.words;
    json["proven"] = view.proven;
    json["cost"] = view.cost;
    Json& products = json["products"] = Json::array();
    for (const app::QuarterProduct& product : view.products) {
        Json parts = Json::array();
        for (const app::BlendPart& part : product.parts)
            parts.push_back({{"stock", part.stock}, {"litres", part.litres}, {"share", part.share}});
        Json figures = Json::array();
        for (const app::BlendFigure& figure : product.figures)
            figures.push_back({{"figure", figure.figure},
                               {"wanted", figure.wanted},
                               {"value", figure.value},
                               {"sd", figure.sd},
                               {"inside", figure.inside},
                               {"missed", figure.missed}});
        products.push_back({{"name", product.name},
                            {"into", product.into},
                            {"litres", product.litres},
                            {"parts", std::move(parts)},
                            {"figures", std::move(figures)},
                            {"inside", product.inside},
                            {"missed", product.missed}});
    }
    Json& refills = json["refills"] = Json::array();
    for (const app::QuarterRefill& one : view.refills)
        refills.push_back({{"into", one.into}, {"from", one.from}, {"lot", one.lot}, {"litres", one.litres}});
    Json& drawn = json["drawn"] = Json::array();
    for (const auto& [solera, litres] : view.drawn) drawn.push_back({{"solera", solera}, {"litres", litres}});
    json["left_out"] = view.left_out;
    json["commands"] = view.commands;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

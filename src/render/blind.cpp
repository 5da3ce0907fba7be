#include "render/blind.hpp"

#include "base/letters.hpp"
#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"

namespace undercroft::render {

std::string text_of(const app::BlindView& view) {
    std::string out = title(view.book, "a blind tasting", "set " + view.set) + wrapped("  ", view.words) +
                      block_of(view.cautions) + heading("In this order");
    Table sheets({Align::left, Align::left});
    for (const app::BlindSheet& sheet : view.sheets) sheets.row({sheet.taster, joined(sheet.codes, "  ")});
    out += sheets.text() + heading("To be scored, 0 to 10, beside faults, a liking and words");
    for (const app::BlindAttribute& one : view.attributes) out += wrapped("  ", one.id + ": " + one.explanation);
    if (view.key_shown) {
        out += heading("The key: for whoever pours");
        Table key({Align::left, Align::left});
        for (const app::BlindKey& one : view.key) key.row({one.code, one.subject + (one.again ? " (again)" : "")});
        out += key.text();
    } else {
        out += "\n" + wrapped("  ", "The key is kept back: whoever pours adds --set " + view.set + " --show-key.");
    }
    if (!view.command.empty())
        out += heading("To book what was found") + "  " + view.command + "\n";
    else
        out += "\n" + wrapped("  ", "Afterwards: the same with --set " + view.set +
                                        " and, for each glass of each taster, --found \"" + view.sheets[0].taster +
                                        " " + view.sheets[0].codes[0] + " " + view.attributes[0].id + "=6 ...\".");
    return out;
}

std::string json_of(const app::BlindView& view) {
    Json json = head_of(view.book);
    json["set"] = view.set;
    Json& sheets = json["sheets"] = Json::array();
    for (const app::BlindSheet& sheet : view.sheets)
        sheets.push_back({{"taster", sheet.taster}, {"codes", sheet.codes}});
    Json& attributes = json["attributes"] = Json::array();
    for (const app::BlindAttribute& one : view.attributes)
        attributes.push_back({{"id", one.id}, {"name", one.name}, {"explanation", one.explanation}});
    Json& key = json["key"] = Json::array();
    for (const app::BlindKey& one : view.key)
        key.push_back({{"code", one.code}, {"subject", one.subject}, {"again", one.again}});
    json["words"] = view.words;
    json["command"] = view.command;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

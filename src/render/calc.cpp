#include "render/calc.hpp"

#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"

namespace undercroft::render {
namespace {

std::string sentence_of(const std::vector<std::string>& pieces) {
    std::string all;
    for (const std::string& piece : pieces) all += (all.empty() ? "" : "; ") + piece;
    return all;
}

}  // namespace

std::string text_of(const app::CalcView& view) {
    Sources sources;
    std::string out = title({}, view.about, "");
    out += block_of(view.cautions);
    if (!view.asked.empty()) out += heading("Given") + term_lines(view.asked, sources);
    out += heading("Found") + term_lines(view.terms, sources);
    if (!view.basis.empty()) out += "\n" + wrapped("  basis     ", view.basis);
    if (view.basis.empty()) out += "\n";
    if (!view.ranges.empty()) out += wrapped("  holds     ", sentence_of(view.ranges));
    if (!view.left_out.empty()) out += wrapped("  left out  ", sentence_of(view.left_out));
    return out + sources.text();
}

std::string json_of(const app::CalcView& view) {
    Json json;
    json["about"] = view.about;
    json["basis"] = view.basis.empty() ? Json(nullptr) : Json(view.basis);
    json["asked"] = list_of(view.asked);
    json["terms"] = list_of(view.terms);
    json["ranges"] = view.ranges;
    json["left_out"] = view.left_out;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

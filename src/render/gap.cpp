#include "render/gap.hpp"

#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"

namespace undercroft::render {

std::string text_of(const app::GapView& view) {
    std::string out =
        title(view.book, view.subject + " beside its target", "on " + view.on) + wrapped("  ", view.words);
    if (view.set_on.empty())
        return out + "\n" +
               wrapped("  ", "Say it: undercroft target \"" + view.subject +
                                 "\" --want \"sourness 5 to 7\", or --like and a day it was as it should be.");
    out += wrapped("  ", "Target of " + view.set_on + (view.target.empty() ? "." : ": " + view.target + ".")) + "\n";
    for (const app::GapFigure& one : view.figures) out += wrapped("  ", one.words);
    return out + "\n" + block_of(view.cautions);
}

std::string json_of(const app::GapView& view) {
    Json json = head_of(view.book);
    json["subject"] = view.subject;
    json["on"] = view.on;
    json["set_on"] = view.set_on;
    json["target"] = view.target;
    Json& figures = json["figures"] = Json::array();
    for (const app::GapFigure& one : view.figures)
        figures.push_back({{"figure", one.figure},
                           {"unit", one.unit},
                           {"low", or_null(one.low)},
                           {"high", or_null(one.high)},
                           {"weight", one.weight},
                           {"mean", or_null(one.mean)},
                           {"sd", one.sd},
                           {"off", one.off},
                           {"chance", one.chance},
                           {"standing", one.standing},
                           {"drift", or_null(one.drift)},
                           {"drift_sd", one.drift_sd},
                           {"words", one.words}});
    json["words"] = view.words;
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

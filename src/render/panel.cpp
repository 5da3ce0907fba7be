#include "render/panel.hpp"

#include <fmt/core.h>

#include "base/letters.hpp"
#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"
#include "units/amount.hpp"

namespace undercroft::render {
namespace {

Json to_json(const app::TastedFigure& figure) {
    return {{"attribute", figure.attribute}, {"day", figure.day},       {"mean", figure.mean}, {"sd", figure.sd},
            {"tasters", figure.tasters},     {"scores", figure.scores}, {"why", figure.why}};
}
Json figures_of(const std::vector<app::TastedFigure>& figures) {
    Json list = Json::array();
    for (const app::TastedFigure& figure : figures) list.push_back(to_json(figure));
    return list;
}

std::string forbids(const app::FaultMeaning& fault) {
    std::vector<std::string> what;
    if (fault.blocks_packaging) what.push_back("packaging");
    if (fault.blocks_pull) what.push_back("a pull");
    if (fault.blocks_refilling) what.push_back("a refill");
    if (fault.blocks_return_to_solera) what.push_back("going back into a solera");
    return what.empty() ? "It forbids nothing." : "It stands against " + joined(what, ", ") + ".";
}
Json to_json(const app::FaultMeaning& it) {
    return {{"id", it.id},
            {"name", it.name},
            {"answer", app::word(it.answer)},
            {"first_named", it.first_named},
            {"last_named", it.last_named},
            {"clear", it.clear},
            {"next_clear", it.next_clear},
            {"likely_low", it.likely_low},
            {"likely_high", it.likely_high},
            {"from", it.from},
            {"blocks_pull", it.blocks_pull},
            {"blocks_packaging", it.blocks_packaging},
            {"blocks_refilling", it.blocks_refilling},
            {"blocks_return_to_solera", it.blocks_return_to_solera},
            {"unsafe", it.unsafe},
            {"words", it.words},
            {"action", it.action},
            {"confirm_how", it.confirm_how},
            {"caution", it.caution},
            {"source", it.source}};
}

}  // namespace

std::string text_of(const app::PanelView& view) {
    std::string out = title(view.book, "what tasters found in " + view.subject, "on " + view.on) +
                      wrapped("  ", view.words) + block_of(view.cautions);
    if (!view.now.empty()) {
        out += heading("Newest, of 10");
        Table now({Align::left, Align::right, Align::left, Align::left});
        for (const app::TastedFigure& figure : view.now)
            now.row({figure.attribute, number_text(figure.mean, 1) + " ± " + number_text(figure.sd, 1), figure.day,
                     figure.why});
        out += now.text();
    }
    if (view.course.size() > view.now.size()) {
        out += heading("Over time");
        Table course({Align::left, Align::left, Align::right, Align::left});
        for (const app::TastedFigure& figure : view.course)
            course.row({figure.attribute, figure.day, number_text(figure.mean, 1) + " ± " + number_text(figure.sd, 1),
                        fmt::format("{} {}", figure.tasters, figure.tasters == 1 ? "taster" : "tasters")});
        out += course.text();
    }
    if (!view.faults.empty()) {
        out += heading("Faults that were named");
        for (const app::NamedFault& fault : view.faults) {
            std::string by;
            for (const std::string& one : fault.by) by += (by.empty() ? "" : ", ") + one;
            out += wrapped("  ",
                           fmt::format("{}, {}: by {} of {} ({})", fault.fault, fault.day, fault.times, fault.of, by));
        }
    }
    if (!view.standing.empty()) {
        out += heading("What that means here");
        for (const app::FaultMeaning& fault : view.standing) {
            out += wrapped("  ", fault.words);
            out += wrapped("        ", "What to do: " + fault.action + "." +
                                           (fault.caution.empty() ? "" : " Mind: " + fault.caution + "."));
            out +=
                wrapped("        ", "To be sure: " + (fault.confirm_how.empty() ? "taste again" : fault.confirm_how) +
                                        ". " + forbids(fault) + " (" + fault.source + ")");
        }
    }
    if (!view.tasters.empty()) {
        out += heading("Tasters");
        Table tasters({Align::left, Align::right, Align::right, Align::left});
        tasters.head({"", "offset", "repeats", ""});
        for (const app::TasterLine& one : view.tasters) {
            std::string blind;
            for (const std::string& words : one.blind) blind += (blind.empty() ? "" : "; ") + words;
            tasters.row({one.taster, (one.offset < 0 ? "" : "+") + number_text(one.offset, 1),
                         one.duplicates > 0 ? "± " + number_text(one.repeats, 1) : "not known", blind});
        }
        out += tasters.text();
    }
    return out;
}

std::string json_of(const app::PanelView& view) {
    Json json = head_of(view.book);
    json["subject"] = view.subject;
    json["on"] = view.on;
    json["words"] = view.words;
    json["now"] = figures_of(view.now);
    json["course"] = figures_of(view.course);
    Json& faults = json["faults"] = Json::array();
    for (const app::NamedFault& fault : view.faults)
        faults.push_back(
            {{"fault", fault.fault}, {"day", fault.day}, {"times", fault.times}, {"of", fault.of}, {"by", fault.by}});
    Json& standing = json["standing"] = Json::array();
    for (const app::FaultMeaning& fault : view.standing) standing.push_back(to_json(fault));
    Json& tasters = json["tasters"] = Json::array();
    for (const app::TasterLine& one : view.tasters)
        tasters.push_back({{"taster", one.taster},
                           {"offset", one.offset},
                           {"repeats", one.duplicates > 0 ? Json(one.repeats) : Json(nullptr)},
                           {"scores", one.scores},
                           {"blind", one.blind}});
    json["cautions"] = list_of(view.cautions);
    return line_of(json);
}

}  // namespace undercroft::render

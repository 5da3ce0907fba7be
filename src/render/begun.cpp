#include "render/begun.hpp"

#include <fmt/core.h>

#include <nlohmann/json.hpp>

#include "render/json_parts.hpp"
#include "render/parts.hpp"

namespace undercroft::render {

std::string text_of(const BegunView& view) {
    std::string out = title(view.book, view.book.zone, "");
    out += "  " + view.path + "\n";
    if (view.sittings > 0) {
        out += fmt::format("  {} entries in {} sittings\n", view.book.sequence, view.sittings);
        return out;
    }
    out += view.gallons == "unset"
               ? "  litres; a bare \"gal\" is refused until it says US or imperial\n"
               : fmt::format("  a bare \"gal\" is a {} gallon\n", view.gallons == "us" ? "US" : "imperial");
    out +=
        "\nThe book is empty. Begin with a vessel:\n"
        "  undercroft vessel Amber --capacity 60 L --ullage 6 L --role solera\n";
    return out;
}

std::string json_of(const BegunView& view) {
    Json json = head_of(view.book);
    json["path"] = view.path;
    json["gallons"] = view.gallons;
    json["sittings"] = view.sittings;
    return line_of(json);
}

}  // namespace undercroft::render

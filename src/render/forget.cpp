// Forgetting, and the pictures that can be forgotten.
#include <fmt/core.h>

#include "base/base64.hpp"
#include "render/json.hpp"
#include "render/json_parts.hpp"
#include "render/lines.hpp"
#include "render/parts.hpp"
#include "render/text.hpp"

namespace undercroft::render {
namespace {

std::string counted(int count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace

std::string text_of(const app::ForgetView& view) {
    std::string out = view.forgotten ? "" : "What if: nothing was forgotten.\n";
    const bool person = view.what == "person";
    out += title(view.book,
                 fmt::format("{}{} {}", person ? "" : "the picture of ", view.name,
                             view.forgotten ? "is forgotten" : "would be forgotten"),
                 fmt::format("entry #{}", view.book.sequence));
    out += "\n" + wrapped("  ", fmt::format("It {} in {}{}.", view.forgotten ? "stood" : "stands",
                                            counted(view.entries, "entry", "entries"),
                                            person ? fmt::format(": booked {}, tasted {}, received bottles {}",
                                                                 counted(view.booked, "time", "times"),
                                                                 counted(view.tasted, "time", "times"),
                                                                 counted(view.received, "time", "times"))
                                                   : ""));
    out += wrapped(
        "  ", person ? "Every entry stays as it is and says \"a forgotten person\". Name and salt cannot be brought "
                       "back."
                     : "Every entry stays as it is; the bytes cannot be brought back.");
    out += wrapped("  ", "Copies and exports made before still hold it.");
    if (view.mentions.empty()) return out;
    out += heading("The name stands in words, which are part of the chain and stay");
    out += entry_lines(view.mentions);
    out += wrapped("  ",
                   "Correct the entry, and the answers of the book no longer show it; the old words stay readable "
                   "under the entry that replaced them.");
    return out;
}

std::string json_of(const app::ForgetView& view) {
    Json json = head_of(view.book);
    json["what"] = view.what;
    json["name"] = view.name;
    json["forgotten"] = view.forgotten;
    json["entries"] = view.entries;
    json["booked"] = view.booked;
    json["tasted"] = view.tasted;
    json["received"] = view.received;
    json["mentions"] = list_of(view.mentions);
    return line_of(json);
}

std::string json_of(const app::PictureView& view) {
    Json json = head_of(view.book);
    json["number"] = view.number;
    json["media_type"] = view.media_type;
    json["size"] = view.bytes.size();
    json["base64"] = base64_of(view.bytes);
    return line_of(json);
}

}  // namespace undercroft::render

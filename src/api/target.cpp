#include "api/target.hpp"

namespace undercroft::api {
namespace {

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

Result<std::string> decoded(std::string_view text, bool plus_is_blank) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '+' && plus_is_blank) {
            out += ' ';
        } else if (text[i] != '%') {
            out += text[i];
        } else {
            const int high = i + 2 < text.size() ? hex_digit(text[i + 1]) : -1;
            const int low = i + 2 < text.size() ? hex_digit(text[i + 2]) : -1;
            if (high < 0 || low < 0)
                return fail(ErrorKind::bad_input, "path",
                            "A percent sign in an address is followed by two hex digits.");
            out += static_cast<char>(high * 16 + low);
            i += 2;
        }
    }
    return out;
}

Failure climbs() {
    return fail(ErrorKind::bad_input, "path",
                "This address does not name anything: it climbs, or holds an empty part.");
}

}  // namespace

Result<Target> read_target(std::string_view target) {
    Target read;
    const std::size_t mark = target.find('?');
    const std::string_view path = target.substr(0, mark);
    if (!path.starts_with('/')) return climbs();
    TRY(read.path, decoded(path, false));
    if (read.path.find('\\') != std::string::npos || read.path.find('\0') != std::string::npos) return climbs();
    for (std::size_t begin = 1; begin <= path.size();) {
        const std::size_t end = std::min(path.find('/', begin), path.size());
        TRY(std::string segment, decoded(path.substr(begin, end - begin), false));
        const bool last = end == path.size();
        if (segment == "." || segment == ".." || segment.find('/') != std::string::npos) return climbs();
        if (segment.empty() && !last) return climbs();
        if (!segment.empty()) read.segments.push_back(std::move(segment));
        begin = end + 1;
    }
    if (mark == std::string_view::npos) return read;
    std::string_view rest = target.substr(mark + 1);
    while (!rest.empty()) {
        const std::string_view pair = rest.substr(0, rest.find('&'));
        rest.remove_prefix(std::min(rest.size(), pair.size() + 1));
        if (pair.empty()) continue;
        const std::size_t equals = pair.find('=');
        TRY(std::string name, decoded(pair.substr(0, equals), true));
        std::string value;
        if (equals != std::string_view::npos) {
            TRY(value, decoded(pair.substr(equals + 1), true));
        }
        read.query.emplace_back(std::move(name), std::move(value));
    }
    return read;
}

}  // namespace undercroft::api

#include "paper/book_pages.hpp"

#include <zlib.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <map>
#include <optional>
#include <set>
#include <stdexcept>

#include "base/letters.hpp"
#include "paper/base45.hpp"

namespace undercroft::paper {

namespace {

constexpr std::string_view k_mark = "UC1:";
constexpr std::size_t k_part_bytes = 720;  // 1,080 letters of a code: 105 modules a side, half a millimetre each
constexpr std::size_t k_largest_export = std::size_t{64} * 1024 * 1024;
constexpr int k_columns = 3;

std::string check_of(std::string_view bytes) {
    const uLong sum = crc32(0L, reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uInt>(bytes.size()));
    std::array<char, 9> text{};
    std::snprintf(text.data(), text.size(), "%08lX", static_cast<unsigned long>(sum));
    return text.data();
}

std::string packed(std::string_view bytes) {
    uLongf size = compressBound(static_cast<uLong>(bytes.size()));
    std::string out(size, '\0');
    if (compress2(reinterpret_cast<Bytef*>(out.data()), &size, reinterpret_cast<const Bytef*>(bytes.data()),
                  static_cast<uLong>(bytes.size()), Z_BEST_COMPRESSION) != Z_OK)
        throw std::runtime_error("packing a book");
    out.resize(size);
    return out;
}

Result<std::string> unpacked(std::string_view bytes) {
    z_stream stream{};
    if (inflateInit(&stream) != Z_OK) throw std::runtime_error("unpacking a book");
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
    stream.avail_in = static_cast<uInt>(bytes.size());
    std::string out;
    std::array<char, 65536> chunk{};
    int state = Z_OK;
    while (state == Z_OK && out.size() <= k_largest_export) {
        stream.next_out = reinterpret_cast<Bytef*>(chunk.data());
        stream.avail_out = static_cast<uInt>(chunk.size());
        state = inflate(&stream, Z_NO_FLUSH);
        out.append(chunk.data(), chunk.size() - stream.avail_out);
    }
    inflateEnd(&stream);
    if (state == Z_STREAM_END && out.size() <= k_largest_export) return out;
    return fail(ErrorKind::bad_input, "pages",
                out.size() > k_largest_export ? "The book on these pages has more than 64 MB."
                                              : "The codes are all there and do not unpack: they are of no book.");
}

struct Part {
    std::string book;
    int number = 0;
    int of = 0;
    std::string data;
};

std::optional<int> small_number(std::string_view text) {
    if (text.empty() || text.size() > 6 || !std::all_of(text.begin(), text.end(), is_digit)) return std::nullopt;
    return std::stoi(std::string(text));
}

std::optional<Part> part_of(std::string_view line) {
    if (!line.starts_with(k_mark)) return std::nullopt;
    std::array<std::string_view, 4> fields;
    std::size_t from = k_mark.size();
    for (std::string_view& field : fields) {
        const std::size_t end = line.find(':', from);
        if (end == std::string_view::npos) return std::nullopt;
        field = line.substr(from, end - from);
        from = end + 1;
    }
    const std::string_view data = line.substr(from);
    const std::string before(line.substr(0, static_cast<std::size_t>(fields[3].data() - line.data())));
    const auto number = small_number(fields[1]);
    const auto of = small_number(fields[2]);
    if (!number || !of || *number < 1 || *number > *of || check_of(before + std::string(data)) != fields[3])
        return std::nullopt;
    return Part{std::string(fields[0]), *number, *of, std::string(data)};
}

// "3, 7 to 9, 12"
std::string listed(const std::vector<int>& numbers) {
    std::string text;
    for (std::size_t i = 0; i < numbers.size();) {
        std::size_t last = i;
        while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) ++last;
        text += (text.empty() ? "" : ", ") + std::to_string(numbers[i]);
        if (last > i) text += (last == i + 1 ? " and " : " to ") + std::to_string(numbers[last]);
        i = last + 1;
    }
    return text;
}

}  // namespace

Result<std::vector<std::string>> codes_of(std::string_view exported) {
    if (exported.size() > k_largest_export)
        return fail(
            ErrorKind::bad_input, "pages",
            "This book has more than 64 MB as an export: on paper it would fill thousands of pages. Keep copies of "
            "the export in two places instead.");
    const std::string bytes = packed(exported);
    const std::string book = check_of(bytes);
    const std::size_t of = (bytes.size() + k_part_bytes - 1) / k_part_bytes;
    std::vector<std::string> codes;
    for (std::size_t i = 0; i < of; ++i) {
        const std::string before =
            std::string(k_mark) + book + ":" + std::to_string(i + 1) + ":" + std::to_string(of) + ":";
        const std::string data = base45(std::string_view(bytes).substr(i * k_part_bytes, k_part_bytes));
        codes.push_back(before + check_of(before + data) + ":" + data);
    }
    return codes;
}

Result<std::string> export_of(const std::vector<std::string>& lines) {
    std::map<int, Part> parts;
    std::set<std::string> books;
    for (const std::string& line : lines) {
        // What a reader puts before a code, such as its kind, ends at the mark.
        const std::size_t begin = line.find(k_mark);
        if (begin == std::string::npos) continue;
        std::string_view code = std::string_view(line).substr(begin);
        while (code.ends_with('\r')) code.remove_suffix(1);
        if (const auto part = part_of(code)) {
            books.insert(part->book + ":" + std::to_string(part->of));
            parts[part->number] = *part;
        }
    }
    if (parts.empty())
        return fail(ErrorKind::bad_input, "pages",
                    "None of these " + std::to_string(lines.size()) +
                        " lines is a code of a printed book: one begins with UC1: and is read whole.");
    if (books.size() > 1)
        return fail(ErrorKind::bad_input, "pages",
                    "These are codes of " + std::to_string(books.size()) +
                        " printed books, or of one printed at several times: read the pages of one of them.");
    const int of = parts.begin()->second.of;
    std::vector<int> missing;
    for (int number = 1; number <= of; ++number)
        if (!parts.contains(number)) missing.push_back(number);
    if (!missing.empty())
        return fail(ErrorKind::bad_input, "pages",
                    std::to_string(missing.size()) + " of " + std::to_string(of) +
                        " codes are missing or were read wrong: " + listed(missing) + ". Read those again.");
    std::string bytes;
    for (const auto& [number, part] : parts) bytes += bytes_of_base45(part.data).value_or("");
    if (check_of(bytes) != parts.begin()->second.book)
        return fail(ErrorKind::bad_input, "pages", "The codes do not fit together: they are of no one book.");
    return unpacked(bytes);
}

Result<void> draw_codes(Flow& flow, const std::vector<std::string>& codes) {
    const double side = flow.width() / k_columns;
    const double words = 4.0;
    const int rows = static_cast<int>(flow.height() / (side + words));
    const int on_a_page = k_columns * rows;
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const int cell = static_cast<int>(i) % on_a_page;
        if (cell == 0) flow.next_page();
        const double x = flow.left() + (cell % k_columns) * side;
        const double y = flow.top() + (cell / k_columns) * (side + words);
        TRY_VOID(flow.canvas().code(x, y, side, codes[i]));
        flow.canvas().text(x, y + side - 1.0, side, std::to_string(i + 1) + " of " + std::to_string(codes.size()),
                           {7.0, false, false, Align::centre});
    }
    return {};
}

Result<BookPages> book_pages(std::string_view exported, const PageSize& page, const Imprint& imprint) {
    TRY(const std::vector<std::string> codes, codes_of(exported));
    Flow flow(page, imprint, 9.0);
    flow.heading(imprint.title);
    flow.paragraph("The whole book, to the last entry of " + imprint.made_on + ", in " + std::to_string(codes.size()) +
                   " codes on the pages after this one. Any reader of QR codes reads them, in any order, from a scan "
                   "or with a phone; "
                   "each is one line that begins with UC1:. Put the lines into a text file and let the program make "
                   "the book again:");
    flow.paragraph("undercroft from-pages LINES.txt --book NEW.undercroft", true);
    flow.paragraph(
        "Without the program: the letters after the last colon before the data are base 45 (RFC 9285); joined in the "
        "order "
        "of their numbers they are a zlib stream (RFC 1950) of lines of JSON.");
    flow.paragraph("It holds all names and notes of the book. Keep it as you keep the book.");
    TRY_VOID(draw_codes(flow, codes));
    BookPages pages;
    pages.codes = static_cast<int>(codes.size());
    pages.pages = flow.pages();
    TRY(pages.pdf, flow.finish());
    return pages;
}

}  // namespace undercroft::paper

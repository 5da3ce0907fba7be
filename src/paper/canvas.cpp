#include "paper/canvas.hpp"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>
#include <qrcodegen/qrcodegen.hpp>

#include <algorithm>
#include <climits>
#include <cstring>
#include <stdexcept>
#include <utility>
#include <vector>

#include "paper/printable.hpp"

namespace undercroft::paper {

namespace {

constexpr double k_points_a_mm = 1.0 / k_mm_a_point;
constexpr const char* k_text_face = "Noto Sans";
constexpr const char* k_title_face = "Noto Serif";

double to_points(double mm) {
    return mm * k_points_a_mm;
}

cairo_status_t take_bytes(void* to, const unsigned char* bytes, unsigned count) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
}

cairo_status_t give_bytes(void* from, unsigned char* bytes, unsigned count) {
    auto& left = *static_cast<std::string_view*>(from);
    if (left.size() < count) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(bytes, left.data(), count);
    left.remove_prefix(count);
    return CAIRO_STATUS_SUCCESS;
}

bool is_ascii(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

// What is not ASCII says that it is UTF-8: readers guess otherwise.
Result<qrcodegen::QrCode> code_of(std::string_view text) {
    using qrcodegen::QrSegment;
    constexpr int k_utf8 = 26;
    const std::string owned(text);
    std::vector<QrSegment> segments;
    if (is_ascii(text)) {
        segments = QrSegment::makeSegments(owned.c_str());
    } else {
        segments.push_back(QrSegment::makeEci(k_utf8));
        segments.push_back(QrSegment::makeBytes(std::vector<std::uint8_t>(text.begin(), text.end())));
    }
    try {
        return qrcodegen::QrCode::encodeSegments(segments, qrcodegen::QrCode::Ecc::MEDIUM);
    } catch (const qrcodegen::data_too_long&) {
        return fail(ErrorKind::bad_input, "code",
                    std::to_string(text.size()) + " bytes are too many for one code; about 2,300 fit.");
    }
}

}  // namespace

struct Canvas::Drawing {
    struct Freed {
        void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
        void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
        void operator()(PangoLayout* layout) const { g_object_unref(layout); }
        void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
    };
    template <class T>
    using Owned = std::unique_ptr<T, Freed>;

    std::string bytes;
    Owned<cairo_surface_t> surface;
    Owned<cairo_t> cairo;
    std::string wanting;  // words that no font here has all letters of
    Result<void> text_fault;

    // Laid out and ready to be shown; the width is not broken at when it is below zero.
    Owned<PangoLayout> lay_out(double width, std::string_view words, const Style& style) {
        Owned<PangoLayout> layout(pango_cairo_create_layout(cairo.get()));
        pango_cairo_context_set_resolution(pango_layout_get_context(layout.get()), 72.0);  // points are points here
        pango_layout_context_changed(layout.get());
        Owned<PangoFontDescription> font(pango_font_description_new());
        pango_font_description_set_family(font.get(), style.title ? k_title_face : k_text_face);
        pango_font_description_set_weight(font.get(), style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_size(font.get(), static_cast<int>(style.points * PANGO_SCALE));
        pango_layout_set_font_description(layout.get(), font.get());
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
        pango_layout_set_alignment(layout.get(), style.align == Align::left     ? PANGO_ALIGN_LEFT
                                                 : style.align == Align::centre ? PANGO_ALIGN_CENTER
                                                                                : PANGO_ALIGN_RIGHT);
        if (width >= 0.0) pango_layout_set_width(layout.get(), static_cast<int>(to_points(width) * PANGO_SCALE));
        const Result<void> shows = printable("text", words);
        if (!shows) {
            if (text_fault) text_fault = shows;
            return layout;
        }
        if (words.size() > INT_MAX) throw std::length_error("text of a page");
        pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
        if (wanting.empty() && pango_layout_get_unknown_glyphs_count(layout.get()) > 0) wanting = std::string(words);
        return layout;
    }
};

Canvas::Canvas(const PageSize& page, const Imprint& imprint) : m_drawing(std::make_unique<Drawing>()) {
    Drawing& d = *m_drawing;
    d.surface.reset(
        cairo_pdf_surface_create_for_stream(take_bytes, &d.bytes, to_points(page.width), to_points(page.height)));
    cairo_pdf_surface_set_metadata(d.surface.get(), CAIRO_PDF_METADATA_TITLE, imprint.title.c_str());
    cairo_pdf_surface_set_metadata(d.surface.get(), CAIRO_PDF_METADATA_CREATOR, "Undercroft");
    const std::string made = imprint.made_on + "T00:00:00Z";
    cairo_pdf_surface_set_metadata(d.surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, made.c_str());
    d.cairo.reset(cairo_create(d.surface.get()));
}
Canvas::Canvas(Canvas&&) noexcept = default;
Canvas& Canvas::operator=(Canvas&&) noexcept = default;
Canvas::~Canvas() = default;

void Canvas::next_page() {
    cairo_show_page(m_drawing->cairo.get());
}

double Canvas::text(double x, double y, double width, std::string_view words, const Style& style) {
    const auto layout = m_drawing->lay_out(width, words, style);
    cairo_move_to(m_drawing->cairo.get(), to_points(x), to_points(y));
    pango_cairo_show_layout(m_drawing->cairo.get(), layout.get());
    int high = 0;
    pango_layout_get_size(layout.get(), nullptr, &high);
    return high / double{PANGO_SCALE} / k_points_a_mm;
}

double Canvas::height_of(double width, std::string_view words, const Style& style) {
    int high = 0;
    pango_layout_get_size(m_drawing->lay_out(width, words, style).get(), nullptr, &high);
    return high / double{PANGO_SCALE} / k_points_a_mm;
}

double Canvas::width_of(std::string_view words, const Style& style) {
    int wide = 0;
    pango_layout_get_size(m_drawing->lay_out(-1.0, words, style).get(), &wide, nullptr);
    return wide / double{PANGO_SCALE} / k_points_a_mm;
}

void Canvas::line(double x1, double y1, double x2, double y2, double thick) {
    cairo_t* cairo = m_drawing->cairo.get();
    cairo_set_line_width(cairo, to_points(thick));
    cairo_move_to(cairo, to_points(x1), to_points(y1));
    cairo_line_to(cairo, to_points(x2), to_points(y2));
    cairo_stroke(cairo);
}

void Canvas::frame(double x, double y, double width, double height, double thick) {
    cairo_t* cairo = m_drawing->cairo.get();
    cairo_set_line_width(cairo, to_points(thick));
    cairo_rectangle(cairo, to_points(x), to_points(y), to_points(width), to_points(height));
    cairo_stroke(cairo);
}

void Canvas::circle(double x, double y, double radius, double thick) {
    constexpr double k_all_round = 6.283185307179586;
    cairo_t* cairo = m_drawing->cairo.get();
    cairo_set_line_width(cairo, to_points(thick));
    cairo_new_sub_path(cairo);
    cairo_arc(cairo, to_points(x), to_points(y), to_points(radius), 0.0, k_all_round);
    cairo_stroke(cairo);
}

void Canvas::fill(double x, double y, double width, double height, double lightness) {
    cairo_t* cairo = m_drawing->cairo.get();
    cairo_save(cairo);
    cairo_set_source_rgb(cairo, lightness, lightness, lightness);
    cairo_rectangle(cairo, to_points(x), to_points(y), to_points(width), to_points(height));
    cairo_fill(cairo);
    cairo_restore(cairo);
}

Result<void> Canvas::code(double x, double y, double side, std::string_view text) {
    constexpr int k_quiet = 4;  // modules, ISO/IEC 18004
    TRY(const qrcodegen::QrCode qr, code_of(text));
    const int size = qr.getSize();
    const double module = side / (size + 2 * k_quiet);
    cairo_t* cairo = m_drawing->cairo.get();
    // Runs of dark modules, not single squares: a third of the file, and no hairs between them.
    for (int row = 0; row < size; ++row) {
        for (int from = 0; from < size;) {
            if (!qr.getModule(from, row)) {
                ++from;
                continue;
            }
            int to = from;
            while (to < size && qr.getModule(to, row)) ++to;
            cairo_rectangle(cairo, to_points(x + (from + k_quiet) * module), to_points(y + (row + k_quiet) * module),
                            to_points((to - from) * module), to_points(module));
            from = to;
        }
    }
    cairo_fill(cairo);
    return {};
}

Result<void> Canvas::picture(double x, double y, double width, double height, std::string_view png) {
    TRY_VOID(picture_of_use(png));
    std::string_view left = png;
    const Drawing::Owned<cairo_surface_t> picture(cairo_image_surface_create_from_png_stream(give_bytes, &left));
    if (cairo_surface_status(picture.get()) != CAIRO_STATUS_SUCCESS)
        return fail(ErrorKind::bad_input, "picture", "It is a broken PNG: it cannot be read to its end.");
    const double wide = cairo_image_surface_get_width(picture.get());
    const double high = cairo_image_surface_get_height(picture.get());
    const double scale = std::min(to_points(width) / wide, to_points(height) / high);
    cairo_t* cairo = m_drawing->cairo.get();
    cairo_save(cairo);
    cairo_translate(cairo, to_points(x) + (to_points(width) - wide * scale) / 2.0,
                    to_points(y) + (to_points(height) - high * scale) / 2.0);
    cairo_scale(cairo, scale, scale);
    cairo_set_source_surface(cairo, picture.get(), 0.0, 0.0);
    cairo_paint(cairo);
    cairo_restore(cairo);
    return {};
}

Result<std::string> Canvas::finish() {
    Drawing& d = *m_drawing;
    TRY_VOID(d.text_fault);
    if (!d.wanting.empty())
        return fail(ErrorKind::bad_input, "text",
                    "No font of this machine has all the letters of \"" + d.wanting.substr(0, 200) + "\".", {},
                    "Install one that has them, such as the package fonts-noto-cjk for Chinese, Japanese and Korean.");
    cairo_show_page(d.cairo.get());
    d.cairo.reset();
    cairo_surface_finish(d.surface.get());
    if (const cairo_status_t status = cairo_surface_status(d.surface.get()); status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("drawing a page: ") + cairo_status_to_string(status));
    return std::move(d.bytes);
}

}  // namespace undercroft::paper

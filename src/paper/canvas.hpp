// Pages of a PDF to draw on: text in any script, bands, lines, pictures and codes that a phone reads.
//
// Holds: the same drawing gives the same bytes, on a machine with the same fonts; nothing is read from the clock. All
// lengths are millimetres from the left and upper edge. Text is shaped and broken by Pango, with whatever font of the
// machine has its letters; what none has is a fault of finish(), never a row of boxes on paper.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "paper/grid.hpp"

namespace undercroft::paper {

inline constexpr double k_mm_a_point = 25.4 / 72.0;

enum class Align { left, centre, right };

struct Style {
    double points = 9.0;
    bool bold = false;
    bool title = false;  // the face of names and headings
    Align align = Align::left;
};

// What a reader of the file is told about it.
struct Imprint {
    std::string title;
    std::string made_on;  // ISO day
};

class Canvas {
public:
    Canvas(const PageSize& page, const Imprint& imprint);
    Canvas(Canvas&&) noexcept;
    Canvas& operator=(Canvas&&) noexcept;
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;
    ~Canvas();

    void next_page();
    // Draws it broken at `width`; returns its height. bad text is said by finish().
    double text(double x, double y, double width, std::string_view words, const Style& style);
    [[nodiscard]] double height_of(double width, std::string_view words, const Style& style);
    // Of its widest line, when it is not broken.
    [[nodiscard]] double width_of(std::string_view words, const Style& style);
    void line(double x1, double y1, double x2, double y2, double thick = 0.2);
    void frame(double x, double y, double width, double height, double thick = 0.2);
    void circle(double x, double y, double radius, double thick = 0.2);            // round x, y
    void fill(double x, double y, double width, double height, double lightness);  // 0 black to 1 white
    // A QR code of these bytes with its quiet margin inside the square. Fails: bad_input where they are too many for
    // one.
    [[nodiscard]] Result<void> code(double x, double y, double side, std::string_view text);
    // As large as fits, in the middle. Fails: bad_input for a picture that picture_of_use() refuses or that is broken.
    [[nodiscard]] Result<void> picture(double x, double y, double width, double height, std::string_view png);

    // The PDF. Fails: bad_input where a font is wanting. Nothing may be drawn after it.
    [[nodiscard]] Result<std::string> finish();

private:
    struct Drawing;
    std::unique_ptr<Drawing> m_drawing;
};

}  // namespace undercroft::paper

// A PDF in memory: pages, type, lines and shapes, over cairo and Pango. Lengths are points (1/72 inch), from
// the left and from the top. The same calls give the same bytes: dates come from the caller, never from a
// clock.
#pragma once
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/time.h"

namespace brimline::print {

struct PageSize {
    double w{0}, h{0};
};
inline constexpr double points_per_mm = 72.0 / 25.4;
inline constexpr PageSize a4{210 * points_per_mm, 297 * points_per_mm};
inline constexpr PageSize letter{612, 792};
/// ID-1 of ISO/IEC 7810, a credit card.
inline constexpr PageSize card_size{85.6 * points_per_mm, 53.98 * points_per_mm};

/// What the file says of itself.
struct About {
    std::string title, author, subject;
    std::string language;  ///< of the words, as in "en"
    Instant created{};     ///< of the case, so that printing again gives the same bytes
};

enum class Face { words, bold, italic, digits, digits_bold };
enum class Align { left, right, centre };
struct Style {
    double size{9};
    Face face{Face::words};
    Align align{Align::left};
    double grey{0};  ///< 0 black to 1 white
};
enum class Dash { solid, dashed, dotted };

class Canvas {
public:
    Canvas(PageSize page, const About& about);
    ~Canvas();
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;

    [[nodiscard]] PageSize page() const { return page_; }
    void next_page();
    /// The finished file; the canvas takes nothing more. Errors: empty when cairo could not draw it.
    [[nodiscard]] std::string done();

    /// Text wrapped at `width`; returns the height that it takes.
    double text(double x, double y, double width, std::string_view words, const Style& style);
    [[nodiscard]] double height(double width, std::string_view words, const Style& style) const;
    /// How wide the text is on one line.
    [[nodiscard]] double width(std::string_view words, const Style& style) const;
    /// One line that never wraps: made smaller down to `least` points, then cut with an ellipsis.
    double fitted(double x, double y, double width, std::string_view words, Style style, double least);
    /// The lines that a text wraps into, so that a page may break between them.
    [[nodiscard]] std::vector<std::string> lines(double width, std::string_view words,
                                                 const Style& style) const;

    void line(double x1, double y1, double x2, double y2, double thick, double grey = 0,
              Dash dash = Dash::solid);
    void box(double x, double y, double w, double h, double thick, double grey = 0, Dash dash = Dash::solid);
    void fill(double x, double y, double w, double h, double grey);
    /// Slanted lines, for what was not recorded.
    void hatch(double x, double y, double w, double h, double grey);
    void disc(double x, double y, double radius, bool filled);
    void square(double x, double y, double half, bool filled);
    void triangle(double x, double y, double half, bool filled);
    void path(const std::vector<std::pair<double, double>>& points, double thick, Dash dash);
    void octagon(double x, double y, double half);
    /// Dark squares of `side` points, row by row, as one shape: no seam shows between neighbours.
    void modules(const std::vector<bool>& dark, std::size_t columns, double x, double y, double side);

    /// Marks what is drawn between the two as part of the document's structure ("H1", "P", "Table", "TR").
    void begin(const char* tag);
    void end(const char* tag);

private:
    struct Inside;
    std::unique_ptr<Inside> in_;
    PageSize page_;
    std::string language_;
};

}  // namespace brimline::print

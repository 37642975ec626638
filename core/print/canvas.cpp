// Drawing a PDF with cairo and Pango.
#include "core/print/canvas.h"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/print/document_language.h"

namespace brimline::print {
namespace {

struct Unref {
    void operator()(void* object) const { g_object_unref(object); }
};
using Layout = std::unique_ptr<PangoLayout, Unref>;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(static_cast<const char*>(static_cast<const void*>(data)),
                                               length);
    return CAIRO_STATUS_SUCCESS;
}

/// cairo wants a date of its own form: "2026-11-25T11:58:00Z".
std::string cairo_date(Instant t) {
    const auto text = instant_text(Instant::of_us(t.in_us() - t.in_us() % 1'000'000), Zone{});
    return text.substr(0, 19) + "Z";
}

const char* family_of(Face face) {
    return face == Face::digits || face == Face::digits_bold ? "B612, Noto Sans" : "Noto Sans, B612";
}

std::string one_line(std::string_view text) { return std::string{text}; }

}  // namespace

struct Canvas::Inside {
    std::string bytes;
    cairo_surface_t* surface{nullptr};
    cairo_t* cr{nullptr};
    PangoContext* context{nullptr};

    [[nodiscard]] Layout layout(double width, std::string_view words, const Style& style) const {
        Layout made{pango_layout_new(context)};
        auto* font = pango_font_description_from_string(family_of(style.face));
        pango_font_description_set_absolute_size(font, style.size * PANGO_SCALE);
        const bool bold = style.face == Face::bold || style.face == Face::digits_bold;
        pango_font_description_set_weight(font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_style(
            font, style.face == Face::italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
        pango_layout_set_font_description(made.get(), font);
        pango_font_description_free(font);
        pango_layout_set_width(made.get(),
                               width < 0 ? -1 : static_cast<int>(std::lround(width * PANGO_SCALE)));
        pango_layout_set_wrap(made.get(), PANGO_WRAP_WORD_CHAR);
        pango_layout_set_alignment(made.get(), style.align == Align::left    ? PANGO_ALIGN_LEFT
                                               : style.align == Align::right ? PANGO_ALIGN_RIGHT
                                                                             : PANGO_ALIGN_CENTER);
        const auto text = one_line(words);
        pango_layout_set_text(made.get(), text.c_str(), static_cast<int>(text.size()));
        return made;
    }
    /// Draws it with its upper left corner there; how high it is, in points.
    double show(const Layout& layout, double x, double y, double shade) const {
        grey(shade);
        cairo_move_to(cr, x, y);
        pango_cairo_show_layout(cr, layout.get());
        int h = 0;
        pango_layout_get_size(layout.get(), nullptr, &h);
        return static_cast<double>(h) / PANGO_SCALE;
    }
    void grey(double value) const { cairo_set_source_rgb(cr, value, value, value); }
    void dash(Dash dash) const {
        static constexpr double dashed[]{4, 2.5};
        static constexpr double dotted[]{1, 2};
        switch (dash) {
            case Dash::solid:
                cairo_set_dash(cr, nullptr, 0, 0);
                break;
            case Dash::dashed:
                cairo_set_dash(cr, dashed, 2, 0);
                break;
            case Dash::dotted:
                cairo_set_dash(cr, dotted, 2, 0);
                break;
        }
    }
    void stroke(double thick, double shade, Dash how) const {
        grey(shade);
        dash(how);
        cairo_set_line_width(cr, thick);
        cairo_stroke(cr);
    }
    void solid_or_outline(bool filled) const {
        grey(filled ? 0 : 1);
        cairo_fill_preserve(cr);
        stroke(0.8, 0, Dash::solid);
    }
};

Canvas::Canvas(PageSize page, const About& about)
    : in_{std::make_unique<Inside>()}, page_{page}, language_{about.language} {
    in_->surface = cairo_pdf_surface_create_for_stream(append, &in_->bytes, page.w, page.h);
    const auto put = [&](cairo_pdf_metadata_t what, const std::string& words) {
        cairo_pdf_surface_set_metadata(in_->surface, what, words.c_str());
    };
    put(CAIRO_PDF_METADATA_TITLE, about.title);
    put(CAIRO_PDF_METADATA_AUTHOR, about.author);
    put(CAIRO_PDF_METADATA_SUBJECT, about.subject);
    put(CAIRO_PDF_METADATA_CREATOR, "Brimline");
    put(CAIRO_PDF_METADATA_CREATE_DATE, cairo_date(about.created));
    put(CAIRO_PDF_METADATA_MOD_DATE, cairo_date(about.created));
    in_->cr = cairo_create(in_->surface);
    auto* options = cairo_font_options_create();  // the page is the same whatever screen the machine has
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    in_->context = pango_cairo_create_context(in_->cr);
    pango_cairo_context_set_font_options(in_->context, options);
    cairo_font_options_destroy(options);
    pango_cairo_context_set_resolution(in_->context, 72);
    pango_context_set_round_glyph_positions(in_->context, FALSE);
    pango_context_set_language(in_->context, pango_language_from_string(about.language.c_str()));
}

Canvas::~Canvas() {
    g_object_unref(in_->context);
    cairo_destroy(in_->cr);
    cairo_surface_destroy(in_->surface);
}

void Canvas::next_page() { cairo_show_page(in_->cr); }

std::string Canvas::done() {
    cairo_show_page(in_->cr);
    cairo_surface_finish(in_->surface);
    if (cairo_status(in_->cr) != CAIRO_STATUS_SUCCESS ||
        cairo_surface_status(in_->surface) != CAIRO_STATUS_SUCCESS) {
        return "";
    }
    return with_language(std::move(in_->bytes), language_);
}

double Canvas::text(double x, double y, double width, std::string_view words, const Style& style) {
    const auto layout = in_->layout(width, words, style);
    return in_->show(layout, x, y, style.grey);
}

double Canvas::height(double width, std::string_view words, const Style& style) const {
    int h = 0;
    pango_layout_get_size(in_->layout(width, words, style).get(), nullptr, &h);
    return static_cast<double>(h) / PANGO_SCALE;
}

double Canvas::width(std::string_view words, const Style& style) const {
    int w = 0;
    pango_layout_get_size(in_->layout(-1, words, style).get(), &w, nullptr);
    return static_cast<double>(w) / PANGO_SCALE;
}

double Canvas::fitted(double x, double y, double width_, std::string_view words, Style style, double least) {
    while (style.size > least && width(words, style) > width_) {
        style.size = std::max(least, style.size - 0.25);
    }
    const auto layout = in_->layout(width_, words, style);
    pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
    return in_->show(layout, x, y, style.grey);
}

std::vector<std::string> Canvas::lines(double width, std::string_view words, const Style& style) const {
    const auto layout = in_->layout(width, words, style);
    std::vector<std::string> all;
    for (int i = 0; i < pango_layout_get_line_count(layout.get()); ++i) {
        const auto* line = pango_layout_get_line_readonly(layout.get(), i);
        all.emplace_back(words.substr(static_cast<std::size_t>(line->start_index),
                                      static_cast<std::size_t>(line->length)));
    }
    return all;
}

void Canvas::line(double x1, double y1, double x2, double y2, double thick, double grey, Dash dash) {
    cairo_move_to(in_->cr, x1, y1);
    cairo_line_to(in_->cr, x2, y2);
    in_->stroke(thick, grey, dash);
}

void Canvas::box(double x, double y, double w, double h, double thick, double grey, Dash dash) {
    cairo_new_path(in_->cr);
    cairo_rectangle(in_->cr, x, y, w, h);
    in_->stroke(thick, grey, dash);
}

void Canvas::fill(double x, double y, double w, double h, double grey) {
    cairo_new_path(in_->cr);
    cairo_rectangle(in_->cr, x, y, w, h);
    in_->grey(grey);
    cairo_fill(in_->cr);
}

void Canvas::hatch(double x, double y, double w, double h, double grey) {
    cairo_save(in_->cr);
    cairo_new_path(in_->cr);
    cairo_rectangle(in_->cr, x, y, w, h);
    cairo_clip(in_->cr);
    constexpr double step = 5;
    for (double at = -h; at < w; at += step) {
        cairo_move_to(in_->cr, x + at, y + h);
        cairo_line_to(in_->cr, x + at + h, y);
    }
    in_->stroke(0.5, grey, Dash::solid);
    cairo_restore(in_->cr);
}

void Canvas::disc(double x, double y, double radius, bool filled) {
    cairo_new_path(in_->cr);
    cairo_arc(in_->cr, x, y, radius, 0, 2 * M_PI);
    in_->solid_or_outline(filled);
}

void Canvas::square(double x, double y, double half, bool filled) {
    cairo_new_path(in_->cr);
    cairo_rectangle(in_->cr, x - half, y - half, 2 * half, 2 * half);
    in_->solid_or_outline(filled);
}

void Canvas::triangle(double x, double y, double half, bool filled) {
    cairo_move_to(in_->cr, x, y - half);
    cairo_line_to(in_->cr, x + half, y + half);
    cairo_line_to(in_->cr, x - half, y + half);
    cairo_close_path(in_->cr);
    in_->solid_or_outline(filled);
}

void Canvas::path(const std::vector<std::pair<double, double>>& points, double thick, Dash dash) {
    cairo_new_path(in_->cr);
    for (const auto& [x, y] : points) {
        cairo_line_to(in_->cr, x, y);
    }
    in_->stroke(thick, 0, dash);
}

void Canvas::octagon(double x, double y, double half) {
    cairo_new_path(in_->cr);
    for (int i = 0; i < 8; ++i) {
        const double angle = (2 * i + 1) * M_PI / 8;
        cairo_line_to(in_->cr, x + half * std::cos(angle), y + half * std::sin(angle));
    }
    cairo_close_path(in_->cr);
    in_->grey(0);
    cairo_fill(in_->cr);
}

void Canvas::begin(const char* tag) { cairo_tag_begin(in_->cr, tag, nullptr); }
void Canvas::end(const char* tag) { cairo_tag_end(in_->cr, tag); }

void Canvas::modules(const std::vector<bool>& dark, std::size_t columns, double x, double y, double side) {
    cairo_new_path(in_->cr);
    for (std::size_t i = 0; i < dark.size(); ++i) {
        const auto column = i % columns;
        const bool begins = dark[i] && (column == 0 || !dark[i - 1]);
        std::size_t length = 0;
        while (begins && column + length < columns && dark[i + length]) {
            ++length;
        }
        if (length > 0) {
            cairo_rectangle(in_->cr, x + side * static_cast<double>(column),
                            y + side * static_cast<double>(i / columns), side * static_cast<double>(length),
                            side);
        }
    }
    in_->grey(0);
    cairo_fill(in_->cr);
}

}  // namespace brimline::print

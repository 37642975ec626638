// Laying the patient's sheet out.
#include "core/print/leaflet_pdf.h"

#include <algorithm>

namespace brimline::print {
namespace {

constexpr double side = 40, top = 30, bottom = 26, gutter = 14;

/// Draws one part after the other at one size of type; the same calls on a scratch page tell whether it fits.
struct Making {
    Canvas& c;
    const LeafletSheet& s;
    double type;
    double y{top};

    [[nodiscard]] double width() const { return c.page().w - 2 * side; }
    [[nodiscard]] double half() const { return (width() - gutter) / 2; }
    [[nodiscard]] Style plain(double factor = 1, double grey = 0) const {
        return {type * factor, Face::words, Align::left, grey};
    }
    [[nodiscard]] Style bold(double factor = 1) const { return {type * factor, Face::bold}; }
};

void head(Making& m) {
    m.c.text(side, m.y, m.width(), m.s.clinic, m.plain(0.75, 0.2));
    m.y += m.type * 1.15;
    if (!m.s.practice.empty()) {
        m.y += m.c.text(side, m.y, m.width(), m.s.practice, m.bold(1.4));
    }
    m.c.begin("H1");
    m.y += m.c.text(side, m.y, m.width(), m.s.title, m.bold(1.7));
    m.c.end("H1");
    m.y += m.c.text(side, m.y, m.width(), m.s.name, m.bold(1.1));
    if (!m.s.about.empty()) {
        m.y += m.c.text(side, m.y, m.width(), m.s.about, m.plain());
    }
    m.y += m.type * 0.3;
    m.c.line(side, m.y, side + m.width(), m.y, 1.4);
    m.y += m.type * 0.45;
}

void heading(Making& m, const std::string& words) {
    m.c.begin("H2");
    m.y += m.c.text(side, m.y, m.width(), words, m.bold(1.15)) + m.type * 0.1;
    m.c.end("H2");
}

void food(Making& m) {
    if (m.s.food.empty()) {
        return;
    }
    heading(m, m.s.food_head);
    const double label = m.width() * 0.46;
    for (const auto& line : m.s.food) {
        const auto words = line.note.empty() ? line.label : line.label + ": " + line.note;
        const double h1 = m.c.text(side, m.y, label - 8, words, m.plain());
        const double h2 = m.c.text(side + label, m.y, m.width() - label, line.value, m.bold(1.05));
        m.y += std::max(h1, h2) + m.type * 0.12;
        m.c.line(side, m.y, side + m.width(), m.y, 0.3, 0.6);
        m.y += m.type * 0.12;
    }
    m.y += m.c.text(side, m.y, m.width(), m.s.food_foot, m.bold()) + m.type * 0.5;
}

/// Medicines at the left, what must not be done at the right; either alone takes the whole width.
void medicines_and_rest(Making& m) {
    const bool both = !m.s.medicines.empty() && !m.s.rest.empty();
    const double width = both ? m.half() : m.width();
    double left = m.y;
    if (!m.s.medicines.empty()) {
        left += m.c.text(side, left, width, m.s.medicine_head, m.bold(1.15));
        for (const auto& words : m.s.medicines) {
            left += m.c.text(side, left, width, words, m.plain());
        }
    }
    double right = m.y;
    const double x = both ? side + m.half() + gutter : side;
    if (!m.s.rest.empty()) {
        right += m.c.text(x, right, width, m.s.rest_head, m.bold(1.15));
        right += m.c.text(x, right, width, m.s.rest, m.plain());
    }
    m.y = std::max(left, right) + (left > m.y || right > m.y ? m.type * 0.5 : 0);
}

void dates(Making& m) {
    if (m.s.dates.empty()) {
        return;
    }
    heading(m, m.s.dates_head);
    const double label = m.width() * 0.46;
    for (const auto& line : m.s.dates) {
        const double h1 = m.c.text(side, m.y, label - 8, line.label, m.plain());
        const double h2 = m.c.text(side + label, m.y, m.width() - label, line.value, m.bold(1.05));
        m.y += std::max(h1, h2) + m.type * 0.15;
    }
    m.y += m.type * 0.2;
    const double from = m.y;
    const double inside = from + m.type * 0.4;
    const double h1 = m.c.text(side + 10, inside + m.type * 0.25, label - 18, m.s.out_by.label, m.bold(1.1));
    const double h2 = m.c.text(side + label, inside, m.width() - label - 8, m.s.out_by.value, m.bold(1.5));
    m.y = inside + std::max(h1 + m.type * 0.25, h2) + m.type * 0.35;
    m.c.box(side, from, m.width(), m.y - from, 1.6);
    m.y += m.type * 0.6;
}

double block(Making& m, double x, const LeafletBlock& what, bool stop, const std::string& foot) {
    double y = m.y + m.type * 0.5;
    const double icon = m.type * 0.7;
    if (stop) {
        m.c.octagon(x + 10 + icon, y + icon, icon);
        m.c.fill(x + 10 + icon * 0.4, y + icon * 0.82, icon * 1.2, icon * 0.36, 1);
    } else {
        m.c.triangle(x + 10 + icon, y + icon, icon * 0.9, false);
        m.c.text(x + 10, y + icon * 0.5, icon * 2, "!", {m.type * 0.85, Face::bold, Align::centre});
    }
    const double head_x = x + 18 + 2 * icon;
    m.c.begin("H2");
    y += std::max(2 * icon, m.c.text(head_x, y, x + m.half() - head_x - 6, what.head, m.bold(1.15)));
    m.c.end("H2");
    y += m.type * 0.3;
    m.c.begin("L");
    for (const auto& sign : what.signs) {
        m.c.begin("LI");
        m.c.disc(x + 14, y + m.type * 0.72, m.type * 0.16, true);
        y += m.c.text(x + 22, y, m.half() - 30, sign, m.plain()) + m.type * 0.1;
        m.c.end("LI");
    }
    m.c.end("L");
    if (!foot.empty()) {
        y += m.c.text(x + 10, y + m.type * 0.2, m.half() - 20, foot, m.bold(1.15)) + m.type * 0.2;
    }
    return y + m.type * 0.4;
}

/// A number stays on one line: U+00A0 for each blank in it.
std::string unbroken(std::string text) {
    for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at)) {
        text.replace(at, 1, "\xC2\xA0");
    }
    return text;
}

void signs(Making& m) {
    const auto phone = m.s.phone_head + ": " + unbroken(m.s.phone);
    const double right = side + m.half() + gutter;
    const double end =
        std::max(block(m, side, m.s.emergency, true, ""), block(m, right, m.s.same_day, false, phone));
    m.c.box(side, m.y, m.half(), end - m.y, 2.4);
    m.c.box(right, m.y, m.half(), end - m.y, 1);
    m.y = end + m.type * 0.5;
}

void foot(Making& m) {
    if (!m.s.tell.empty()) {
        m.y += m.c.text(side, m.y, m.width(), m.s.tell, m.bold()) + m.type * 0.3;
    }
    const Style small{7.2, Face::words, Align::left, 0.15};
    const double height =
        m.c.height(m.width(), m.s.caution, small) + m.c.height(m.width(), m.s.version, small) + 6;
    const double at = std::max(m.y, m.c.page().h - bottom - height);
    m.c.line(side, at, side + m.width(), at, 0.4, 0.4);
    const double h = m.c.text(side, at + 3, m.width(), m.s.version, small);
    m.c.text(side, at + 3 + h, m.width(), m.s.caution, small);
    m.y = at + height;
}

/// Draws the whole sheet; returns where it ends.
double draw(Canvas& c, const LeafletSheet& sheet, double type) {
    Making m{c, sheet, type};
    head(m);
    food(m);
    medicines_and_rest(m);
    dates(m);
    signs(m);
    foot(m);
    return m.y;
}

}  // namespace

std::string leaflet_pdf(const LeafletSheet& sheet, PageSize page, Instant created) {
    const About about{sheet.title, sheet.clinic, "", sheet.language, created};
    constexpr double largest = 16, step = 0.25;
    for (double type = largest; type >= least_leaflet_type; type -= step) {
        Canvas scratch{page, about};
        if (draw(scratch, sheet, type) <= page.h - bottom + 0.5) {
            Canvas canvas{page, about};
            draw(canvas, sheet, type);
            return canvas.done();
        }
    }
    return "";
}

}  // namespace brimline::print

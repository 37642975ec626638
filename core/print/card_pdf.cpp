// Laying the balloon card out.
#include "core/print/card_pdf.h"

#include <algorithm>

#include "core/print/symbols.h"

namespace brimline::print {
namespace {

constexpr double margin = 8, code_size = 82, small_code = 46;

struct Side {
    Canvas& c;
    double x, y;  // of the card's upper left corner

    [[nodiscard]] double right() const { return x + card_size.w - margin; }
    [[nodiscard]] double bottom() const { return y + card_size.h - margin; }
};

double row(Side& s, double y, double label, double width, const CardLineShown& line, double size) {
    s.c.text(s.x + margin, y + size * 0.1, label, line.label, {size * 0.9, Face::words, Align::left, 0.2});
    return s.c.fitted(s.x + margin + label, y, width - label, line.value, {size, Face::bold}, 4.5);
}

void front(Side s, const BalloonCard& card, const Symbol& facts) {
    s.c.begin("Sect");
    const double code_x = s.right() - code_size + 4;
    const double width = code_x - s.x - margin - 3;
    double y = s.y + margin - 2;
    y += s.c.fitted(s.x + margin, y, width, card.title, {7.5, Face::bold, Align::left, 0.1}, 5);
    if (!card.practice.empty()) {
        y += s.c.fitted(s.x + margin, y, width, card.practice, {7, Face::bold}, 5);
    }
    y += s.c.fitted(s.x + margin, y, width, card.name, {11, Face::bold}, 6.5);
    y += s.c.fitted(s.x + margin, y, width, card.born_and_number, {7.5}, 5) + 2;
    s.c.line(s.x + margin, y, s.x + margin + width, y, 0.6);
    y += 2;
    for (const auto& line : card.balloon) {
        y += row(s, y, 36, width, line, 7.6) + 0.6;
    }
    y = std::max(y + 1, s.bottom() - 34);
    y += row(s, y, 46, s.right() - s.x - margin, card.book_by, 8);
    row(s, y, 46, s.right() - s.x - margin, card.out_by, 13);
    draw_symbol(s.c, facts, code_x, s.y + margin - 2, code_size);
    s.c.text(code_x, s.y + margin - 3 + code_size, code_size, card.facts_code_label,
             {5.4, Face::words, Align::centre, 0.15});
    s.c.end("Sect");
}

void back(Side s, const BalloonCard& card, const std::optional<Symbol>& device, const std::string& caution) {
    s.c.begin("Sect");
    const double width = s.right() - s.x - margin;
    const double beside = device ? width - small_code - 4 : width;
    double y = s.y + margin - 3;
    const auto wrapped = [&](const CardLineShown& line) {
        const double label = 44;
        s.c.text(s.x + margin, y, label, line.label, {5.8, Face::words, Align::left, 0.2});
        const double room = y < s.y + margin + small_code + 4 ? beside : width;
        y += s.c.text(s.x + margin + label, y - 0.3, room - label, line.value, {6.2, Face::bold}) + 0.4;
    };
    for (const auto& line : card.device) {
        wrapped(line);
    }
    for (const auto& line : card.clinic) {
        wrapped(line);
    }
    if (!card.udi.value.empty()) {
        y = std::max(y, s.y + margin + small_code + 6);
        s.c.text(s.x + margin, y, 44, card.udi.label, {5.8, Face::words, Align::left, 0.2});
        y += s.c.fitted(s.x + margin + 44, y - 0.3, width - 44, card.udi.value, {6.2, Face::bold}, 4.2) + 0.4;
    }
    if (!card.missing.empty()) {
        y += s.c.text(s.x + margin, y, width, card.missing, {5.6, Face::italic});
    }
    if (device) {
        draw_symbol(s.c, *device, s.right() - small_code + 3, s.y + margin - 3, small_code);
        s.c.text(s.right() - small_code + 3, s.y + margin - 4 + small_code, small_code,
                 card.device_code_label, {5.4, Face::words, Align::centre, 0.15});
    }
    const Style tiny{4.3, Face::words, Align::left, 0.1};
    const double foot = s.c.height(width, caution, tiny);
    const double note = s.c.height(width, card.note, {6.4, Face::bold});
    const double at = std::max(y + 1, s.bottom() + 3 - foot - note);
    s.c.text(s.x + margin, at, width, card.note, {6.4, Face::bold});
    s.c.text(s.x + margin, at + note, width, caution, tiny);
    s.c.end("Sect");
}

void cut_marks(Canvas& c, double x, double y, double w, double h) {
    c.box(x, y, w, h, 0.3, 0.55, Dash::dashed);
    c.line(x + w / 2, y - 12, x + w / 2, y - 3, 0.6);
    c.line(x + w / 2, y + h + 3, x + w / 2, y + h + 12, 0.6);
    c.line(x + w / 2, y, x + w / 2, y + h, 0.25, 0.7, Dash::dotted);
}

}  // namespace

std::string card_pdf(const BalloonCard& card, const std::string& caution, PageSize page, Instant created) {
    const auto facts = symbol_of(SymbolKind::qr, card.facts_code);
    const auto device =
        card.device_code.empty() ? std::nullopt : symbol_of(SymbolKind::gs1_data_matrix, card.device_code);
    if (!facts || (!device && !card.device_code.empty())) {
        return "";
    }
    Canvas c{page, {card.title, "", "", card.language, created}};
    if (page.w < 2 * card_size.w) {
        front({c, 0, 0}, card, *facts);
        c.next_page();
        back({c, 0, 0}, card, device, caution);
        return c.done();
    }
    const double x = (page.w - 2 * card_size.w) / 2;
    constexpr double y = 60;
    front({c, x, y}, card, *facts);
    back({c, x + card_size.w, y}, card, device, caution);
    cut_marks(c, x, y, 2 * card_size.w, card_size.h);
    c.text(x, y + card_size.h + 20, 2 * card_size.w, caution, {7, Face::words, Align::left, 0.15});
    return c.done();
}

}  // namespace brimline::print

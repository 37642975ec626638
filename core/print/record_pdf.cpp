// Laying the record out on pages.
#include "core/print/record_pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>

#include "core/print/charts_pdf.h"
#include "core/print/flow.h"
#include "core/record/caution.h"

namespace brimline::print {
namespace {

using record::Block;
using record::Figure;
using record::Row;

namespace say {
constexpr std::string_view practice = "PRACTICE: nobody was treated";
constexpr std::string_view not_sealed = "not sealed: the case as it stands";
constexpr std::string_view seal = "Seal";
constexpr std::string_view since_seal = "Added after the seal";
constexpr std::string_view how_to_check =
    "The hash is BLAKE2b-256 of the sealed text. The signature is Ed25519 by the key below over number, "
    "journal head, "
    "hash and length. \"brimline verify\" checks all of it; \"brimline export\" gives the sealed text "
    "itself.";
constexpr std::string_view not_as_sealed =
    "This print was laid out by another version than the one that sealed: its words differ from the sealed "
    "text, "
    "which \"brimline export\" gives.";
}  // namespace say

constexpr double side = 42, label_width = 92, mark_width = 11, foot_height = 40, top_of_page = 45;
constexpr double row_size = 7.6, body_size = 8.8;

/// The lengths of a page and what is still to be put on it.
struct Making {
    const RecordPrint& record;
    PageSize page;
    Canvas& canvas;  // for measuring; the pages are drawn on it afterwards
    Flow& flow;
    double size{body_size};

    [[nodiscard]] double width() const { return page.w - 2 * side; }
};

void mark(Canvas& canvas, double x, double y, double size) {
    canvas.triangle(x + size / 2, y + size * 0.72, size * 0.42, true);
}

/// One short piece, or a line at a time where it is long, so that a page may end inside it.
void paragraph(const Making& m, double x, double width, const std::string& words, const Style& style) {
    const auto all = m.canvas.lines(width, words, style);
    constexpr std::size_t unsplit = 6;
    const auto put = [&](const std::string& part) {
        const auto h = m.canvas.height(width, part, style) + 1.5;
        m.flow.piece(h, [=](Canvas& c, double y) { c.text(x, y, width, part, style); });
    };
    if (all.size() <= unsplit) {
        return put(words);
    }
    for (const auto& line : all) {
        put(line);
    }
}

void field(const Making& m, const Block& block) {
    const Style label{m.size, Face::words, Align::left, 0.25};
    const Style value{m.size, block.loud ? Face::bold : Face::words};
    const double x = side + mark_width + label_width;
    const double width = m.page.w - side - x;
    const auto words = record::clean(block.text);
    const auto name = record::clean(block.label);
    const bool loud = block.loud;
    const auto lines = m.canvas.lines(width, words, value);
    constexpr std::size_t unsplit = 8;
    const bool whole = lines.size() <= unsplit;
    const auto first = whole ? words : lines.front();
    const double h =
        std::max(m.canvas.height(width, first, value), m.canvas.height(label_width - 6, name, label)) + 1.6;
    const double size = m.size;
    m.flow.piece(h, [=](Canvas& c, double y) {
        c.begin("P");
        if (loud) {
            mark(c, side, y, size);
        }
        c.text(side + mark_width, y, label_width - 6, name, label);
        c.text(x, y, width, first, value);
        c.end("P");
    });
    for (std::size_t i = 1; !whole && i < lines.size(); ++i) {
        paragraph(m, x, width, lines[i], value);
    }
}

void title(const Making& m, const Block& block) {
    const Style style{17, Face::bold};
    const auto words = record::clean(block.text);
    const double width = m.width();
    const double h = m.canvas.height(width, words, style);
    m.flow.piece(h + 6, [=](Canvas& c, double y) {
        c.begin("H1");
        c.text(side, y, width, words, style);
        c.end("H1");
        c.line(side, y + h + 2, side + width, y + h + 2, 1.2);
    });
}

void section(const Making& m, std::string_view text) {
    const Style style{11, Face::bold};
    const auto words = record::clean(text);
    const double width = m.width();
    m.flow.space(9);
    m.flow.heading(19, [=](Canvas& c, double y) {
        c.begin("H2");
        c.text(side, y, width, words, style);
        c.end("H2");
        c.line(side, y + 15.5, side + width, y + 15.5, 0.6);
    });
}

/// Widths of a table's columns: each as wide as its widest cell, none wider than a share, the last the rest.
std::vector<double> column_widths(const Making& m, const Block& table) {
    std::map<std::string, double> known;
    const auto width_of = [&](const std::string& cell, Face face) {
        const auto found = known.find(cell);
        return found != known.end()
                   ? found->second
                   : known.emplace(cell, m.canvas.width(record::clean(cell), {row_size, face})).first->second;
    };
    constexpr double widest_share = 0.21, between = 8;
    std::vector<double> widths;
    double used = 0;
    for (std::size_t i = 0; i + 1 < table.head.size(); ++i) {
        double wide = width_of(table.head[i], Face::bold);
        for (const auto& row : table.rows) {
            wide = std::max(wide, width_of(row[i], Face::words));
        }
        widths.push_back(std::min(wide + 1, m.width() * widest_share) + between);
        used += widths.back();
    }
    widths.push_back(std::max(m.width() - used, m.width() * widest_share));
    return widths;
}

bool only_last(const Row& row) {
    return std::all_of(row.begin(), row.end() - 1, [](const std::string& cell) { return cell.empty(); }) &&
           !row.back().empty();
}

/// A gap, a reversal, what differs: rows that no eye may miss are bold.
bool is_loud(const Row& row) {
    return row.front() == "GAP" || row.back() == "REVERSAL" ||
           row.back().find("CORRECT") != std::string::npos || row.back().find("HOLD") != std::string::npos ||
           row.back().find("DIFFER") != std::string::npos;
}

double row_height(const Making& m, const Row& row, const std::vector<double>& widths, const Style& style) {
    static const double one_line = m.canvas.height(-1, "Ag", {row_size, Face::words});
    double height = one_line;
    for (std::size_t i = 0; i < row.size(); ++i) {
        const double w = widths[i] - 5;
        // Most cells are far from wrapping; a letter is hardly ever wider than this share of its size.
        const bool may_wrap = static_cast<double>(row[i].size()) * style.size * 0.8 > w;
        height = std::max(height,
                          row[i].empty() || !may_wrap ? 0 : m.canvas.height(w, record::clean(row[i]), style));
    }
    return height + 2.4;
}

Drawing row_drawing(const Row& row, const std::vector<double>& widths, const Style& style, double height,
                    bool heavy) {
    return [=](Canvas& c, double y) {
        double x = side;
        c.begin("TR");
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (!row[i].empty()) {
                c.begin("TD");
                c.text(x, y + 1.2, widths[i] - 5, record::clean(row[i]), style);
                c.end("TD");
            }
            x += widths[i];
        }
        c.end("TR");
        c.line(side, y + height, x, y + height, heavy ? 0.7 : 0.25, heavy ? 0 : 0.6);
    };
}

void spanning_row(const Making& m, const std::string& words) {
    const Style style{row_size + 0.6, Face::bold};
    const double width = m.width();
    m.flow.heading(14,
                   [=](Canvas& c, double y) { c.text(side, y + 2.5, width, record::clean(words), style); });
}

/// A row too high for any page is given as lines of text: nothing is lost, and nothing else can be split.
void oversized_row(const Making& m, const Row& row) {
    std::string all;
    for (const auto& cell : row) {
        all += (all.empty() ? "" : " · ") + record::clean(cell);
    }
    paragraph(m, side, m.width(), all, {row_size, Face::words});
}

void table(const Making& m, const Block& block) {
    const auto widths = column_widths(m, block);
    const Style head{row_size, Face::bold};
    const double high = row_height(m, block.head, widths, head);
    const auto draw_head = row_drawing(block.head, widths, head, high, true);
    m.flow.space(3);
    m.flow.heading(high, draw_head);
    m.flow.repeat(high, draw_head);
    for (const auto& row : block.rows) {
        if (only_last(row)) {
            spanning_row(m, row.back());
            continue;
        }
        const Style style{row_size, is_loud(row) ? Face::bold : Face::words};
        const double h = row_height(m, row, widths, style);
        h > m.flow.most() - high ? oversized_row(m, row)
                                 : m.flow.piece(h, row_drawing(row, widths, style, h, false));
    }
    m.flow.repeat_nothing();
    m.flow.space(4);
}

void figure(const Making& m, Figure which) {
    const auto put = [&](Chart chart) {
        m.flow.piece(chart.height, std::move(chart.draw));
        m.flow.space(6);
    };
    if (which == Figure::vital_signs) {
        for (const auto& panel : m.record.charts.vitals) {
            put(vital_chart(m.canvas, panel, m.record.zone, side, m.width()));
        }
    } else {
        for (const auto& counts : m.record.charts.counts) {
            put(count_chart(m.canvas, counts, m.record.zone, side, m.width()));
        }
    }
}

void one_block(const Making& m, const Block& block) {
    switch (block.kind) {
        case Block::Kind::title:
            return title(m, block);
        case Block::Kind::section:
            return section(m, block.text);
        case Block::Kind::field:
            return field(m, block);
        case Block::Kind::line:
            if (block.text == record::caution) {
                return;  // it stands at the foot of every page
            }
            return paragraph(m, side + mark_width, m.width() - mark_width, record::clean(block.text),
                             {m.size - 0.4, Face::words});
        case Block::Kind::blank:
            return m.flow.space(m.size * 0.55);
        case Block::Kind::table:
            return table(m, block);
        case Block::Kind::figure:
            return figure(m, block.figure);
    }
}

std::size_t blocks_of_page_one(const std::vector<Block>& blocks) {
    const auto first = std::find_if(blocks.begin(), blocks.end(),
                                    [](const Block& b) { return b.kind == Block::Kind::section; });
    return static_cast<std::size_t>(first - blocks.begin());
}

/// What was added after the seal, at the top of page one: nobody may read a copy without it.
void added_since(const Making& m) {
    std::string words;
    for (const auto& block : m.record.addenda.blocks()) {
        if (block.kind == Block::Kind::line) {
            words += (words.empty() ? "" : " ") + block.text;
        }
    }
    if (!words.empty()) {
        Block shown;
        shown.label = say::since_seal;
        shown.text = words;
        shown.loud = true;
        field(m, shown);
    }
}

/// The largest type in which page one is one page; the smallest where it cannot be.
double size_of_page_one(const Making& m, std::size_t blocks) {
    for (const double size : {10.0, 9.5, 9.0, 8.6, 8.2, 7.8, 7.4}) {
        Flow trial{top_of_page, m.page.h - foot_height - 6};
        const Making with{m.record, m.page, m.canvas, trial, size};
        for (std::size_t i = 0; i < blocks; ++i) {
            one_block(with, m.record.sheet.blocks()[i]);
        }
        added_since(with);
        if (trial.pages() == 1) {
            return size;
        }
    }
    return 7.8;  // it runs on to a second page all the same
}

void seal(const Making& m) {
    section(m, say::seal);
    const auto put = [&](std::string_view label, const std::string& text, bool loud = false) {
        Block block;
        block.label = label;
        block.text = text;
        block.loud = loud;
        field(m, block);
    };
    put("Number", m.record.number);
    put("Hash", m.record.hash);
    put("Signature", m.record.signature);
    put("Public key", m.record.key);
    put("How to check", std::string{say::how_to_check});
    if (!m.record.as_sealed) {
        put("Not the sealed text", std::string{say::not_as_sealed}, true);
    }
}

void frame(Canvas& c, const RecordPrint& record, std::size_t page, std::size_t pages) {
    const auto size = c.page();
    const double width = size.w - 2 * side;
    const Style small{7.4, Face::words, Align::left, 0.15};
    const auto who = fmt::format("{} · {} · {}", record.number.empty() ? say::not_sealed : record.number,
                                 record.patient, record.clinic);
    c.fitted(side, 24, width - 80, record::clean(who), small, 6);
    c.text(side, 24, width, fmt::format("Page {} of {}", page, pages), {7.4, Face::bold, Align::right});
    c.line(side, 37, side + width, 37, 0.4, 0.4);
    if (record.practice) {
        c.text(side, 9, width, say::practice, {10, Face::bold, Align::centre});
    }
    const double y = size.h - foot_height;
    c.line(side, y, side + width, y, 0.4, 0.4);
    c.text(side, y + 3, width, record::caution, {6.4, Face::words, Align::left, 0.15});
}

}  // namespace

std::string record_pdf(const RecordPrint& record, PageSize page) {
    const auto name = record.number.empty() ? std::string{say::not_sealed} : record.number;
    Canvas canvas{page,
                  {fmt::format("Procedure record {}", name), record.clinic, "Gastric balloon under sedation",
                   "en", record.created}};
    Flow flow{top_of_page, page.h - foot_height - 6};
    Making m{record, page, canvas, flow};
    const auto& blocks = record.sheet.blocks();
    const auto first = blocks_of_page_one(blocks);
    m.size = size_of_page_one(m, first);
    for (std::size_t i = 0; i < first; ++i) {
        one_block(m, blocks[i]);
        if (i == 0) {
            added_since(m);
        }
    }
    m.size = body_size;
    flow.next_page();
    for (std::size_t i = first; i < blocks.size(); ++i) {
        one_block(m, blocks[i]);
    }
    if (!record.number.empty()) {
        Flow trial{0, page.h};
        seal(Making{record, page, canvas, trial, m.size});
        if (page.h - trial.room() > flow.room()) {
            flow.next_page();  // a seal is read and compared as one
        }
        seal(m);
    }
    for (const auto& block : record.addenda.blocks()) {
        one_block(m, block);
    }
    flow.draw(canvas, [&](Canvas& c, std::size_t number) { frame(c, record, number, flow.pages()); });
    return canvas.done();
}

}  // namespace brimline::print

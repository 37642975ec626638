// Pieces put onto pages one below the other. A piece is never split; a heading stays with what follows it;
// the head of a table comes again on each page that its rows reach.
#pragma once
#include <functional>
#include <vector>

#include "core/print/canvas.h"

namespace brimline::print {

/// Draws a piece with its upper edge at `y`.
using Drawing = std::function<void(Canvas&, double y)>;

class Flow {
public:
    /// Pieces stand between `top` and `bottom` of each page.
    Flow(double top, double bottom) : top_{top}, bottom_{bottom}, y_{top} { pages_.emplace_back(); }

    void piece(double height, Drawing draw);
    /// A piece that must not stand last on a page: it is put with the next one.
    void heading(double height, Drawing draw);
    void space(double height);
    void next_page();
    /// From now on a new page begins with this; empty ends it.
    void repeat(double height, Drawing draw);
    void repeat_nothing() { repeat_ = {}; }

    [[nodiscard]] std::size_t pages() const { return pages_.size(); }
    /// Height that is left on this page.
    [[nodiscard]] double room() const { return bottom_ - y_; }
    [[nodiscard]] double most() const { return bottom_ - top_; }
    /// Draws all pages; `frame` draws what stands on each of them (from 1).
    void draw(Canvas& canvas, const std::function<void(Canvas&, std::size_t page)>& frame) const;

private:
    struct Piece {
        double height{0}, y{0};
        Drawing draw;
    };
    void put(Piece piece);
    double top_, bottom_, y_;
    Piece repeat_;
    std::vector<Piece> waiting_;  // headings
    std::vector<std::vector<Piece>> pages_;
};

}  // namespace brimline::print

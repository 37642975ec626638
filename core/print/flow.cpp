// Putting pieces onto pages.
#include "core/print/flow.h"

#include <utility>

namespace brimline::print {

void Flow::put(Piece piece) {
    piece.y = y_;
    y_ += piece.height;
    pages_.back().push_back(std::move(piece));
}

void Flow::next_page() {
    pages_.emplace_back();
    y_ = top_;
    if (repeat_.draw) {
        put(repeat_);
    }
}

void Flow::piece(double height, Drawing draw) {
    double needed = height;
    for (const auto& heading : waiting_) {
        needed += heading.height;
    }
    if (needed > room() && !pages_.back().empty()) {
        next_page();
    }
    for (auto& heading : std::exchange(waiting_, {})) {
        put(std::move(heading));
    }
    put({height, 0, std::move(draw)});
}

void Flow::heading(double height, Drawing draw) { waiting_.push_back({height, 0, std::move(draw)}); }

void Flow::space(double height) {
    if (waiting_.empty() && !pages_.back().empty()) {
        y_ += height;
    }
}

void Flow::repeat(double height, Drawing draw) { repeat_ = {height, 0, std::move(draw)}; }

void Flow::draw(Canvas& canvas, const std::function<void(Canvas&, std::size_t)>& frame) const {
    for (std::size_t i = 0; i < pages_.size(); ++i) {
        if (i > 0) {
            canvas.next_page();
        }
        frame(canvas, i + 1);
        for (const auto& piece : pages_[i]) {
            piece.draw(canvas, piece.y);
        }
    }
}

}  // namespace brimline::print

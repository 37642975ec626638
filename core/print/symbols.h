// The two-dimensional codes of a card, encoded by zint and drawn as squares.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/print/canvas.h"

namespace brimline::print {

enum class SymbolKind {
    gs1_data_matrix,  ///< of an element string with its identifiers in square brackets
    qr                ///< of a text in UTF-8
};
struct Symbol {
    std::size_t columns{0}, rows{0};
    std::vector<bool> dark;  ///< row by row
    std::size_t quiet{0};    ///< modules of white that belong around it
};
/// Errors: empty where the text does not fit, or is no element string.
/// Source: ISO/IEC 16022 (quiet zone 1 module) and 18004 (4 modules), from memory; both get at least 2 and 4.
[[nodiscard]] std::optional<Symbol> symbol_of(SymbolKind kind, const std::string& text);
/// Draws it with its quiet zone into a square of `size` points.
void draw_symbol(Canvas& canvas, const Symbol& symbol, double x, double y, double size);

}  // namespace brimline::print

// Encoding and drawing symbols.
#include "core/print/symbols.h"

#include <zint.h>

#include <algorithm>
#include <memory>

namespace brimline::print {
namespace {

struct Free {
    void operator()(zint_symbol* symbol) const { ZBarcode_Delete(symbol); }
};

constexpr int quartile = 3;  // QR level Q: a quarter of the codewords may be lost
constexpr int utf8_eci = 26;

bool is_ascii(const std::string& text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

}  // namespace

std::optional<Symbol> symbol_of(SymbolKind kind, const std::string& text) {
    const std::unique_ptr<zint_symbol, Free> z{ZBarcode_Create()};
    const bool matrix = kind == SymbolKind::gs1_data_matrix;
    z->symbology = matrix ? BARCODE_DATAMATRIX : BARCODE_QRCODE;
    z->input_mode = matrix ? GS1_MODE : UNICODE_MODE;
    if (matrix) {
        z->option_3 = DM_SQUARE;
    } else {
        z->option_1 = quartile;
        z->eci = is_ascii(text) ? 0 : utf8_eci;
    }
    std::vector<unsigned char> bytes(text.begin(), text.end());
    const int code = ZBarcode_Encode(z.get(), bytes.data(), static_cast<int>(bytes.size()));
    if (text.empty() || code >= ZINT_ERROR) {
        return std::nullopt;
    }
    Symbol symbol;
    symbol.columns = static_cast<std::size_t>(z->width);
    symbol.rows = static_cast<std::size_t>(z->rows);
    symbol.quiet = matrix ? 2 : 4;
    for (std::size_t r = 0; r < symbol.rows; ++r) {
        for (std::size_t c = 0; c < symbol.columns; ++c) {
            symbol.dark.push_back((z->encoded_data[r][c / 8] >> (c % 8) & 1) != 0);
        }
    }
    return symbol;
}

void draw_symbol(Canvas& canvas, const Symbol& symbol, double x, double y, double size) {
    const double module =
        size / static_cast<double>(std::max(symbol.columns, symbol.rows) + 2 * symbol.quiet);
    const double margin = module * static_cast<double>(symbol.quiet);
    canvas.fill(x, y, size, size, 1);
    canvas.modules(symbol.dark, symbol.columns, x + margin, y + margin, module);
}

}  // namespace brimline::print

// Laying out plain text: headings, fields and tables within 100 columns. Nothing here knows a topic. The same
// headings, fields and tables are kept as blocks, so that a printed page says what the text says. Every
// text that a person typed passes through `clean`, so that a line break or a control code in it cannot forge
// a line of a record.
#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace brimline::record {

inline constexpr std::size_t page_columns = 100;

/// How many columns a UTF-8 text takes; combining marks take none.
[[nodiscard]] std::size_t columns_of(std::string_view text);
/// The text with line breaks and tabs as blanks, and other control codes and text direction marks as U+FFFD.
[[nodiscard]] std::string clean(std::string_view text);
/// The text in lines of at most `columns`, broken at blanks; a word longer than a line is cut.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t columns);

using Row = std::vector<std::string>;

/// What a printed page may draw beside the words; the text has no line for it.
enum class Figure : std::uint8_t { vital_signs, counts };

/// One piece of a record, as it was written. Texts are as given: whoever draws them passes them through
/// `clean`.
struct Block {
    enum class Kind : std::uint8_t { title, section, field, line, blank, table, figure } kind{};
    bool loud{false};         ///< of a field: with a mark that the eye cannot miss
    std::string label, text;  ///< of a title, a section and a line: the text alone
    Row head;
    std::vector<Row> rows;
    Figure figure{};
};

/// A text as it grows.
class Sheet {
public:
    /// A heading over the whole record, and one over a section.
    void title(std::string_view text);
    void section(std::string_view text);
    /// "Label          value", wrapped under the value. Nothing when the value is empty.
    void field(std::string_view label, std::string_view value);
    /// The same, with a mark in the margin that the eye cannot miss.
    void loud(std::string_view label, std::string_view value);
    /// A paragraph, `indent` columns in.
    void line(std::string_view text, std::size_t indent = 0);
    void blank();
    /// A table: the head, then rows. Columns are as wide as their cells, at most as in `most`; the last takes
    /// the rest.
    void table(const Row& head, const std::vector<Row>& rows, const std::vector<std::size_t>& most);
    /// The place of a drawing.
    void figure(Figure which);
    [[nodiscard]] const std::string& text() const { return text_; }
    [[nodiscard]] const std::vector<Block>& blocks() const { return blocks_; }

private:
    void put(std::string_view margin, std::string_view label, std::string_view value);
    void row(const Row& cells, const std::vector<std::size_t>& widths);
    Block& keep(Block::Kind kind, std::string_view text = {});
    std::string text_;
    std::vector<Block> blocks_;
};

}  // namespace brimline::record

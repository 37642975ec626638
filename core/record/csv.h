// Tables as CSV for spreadsheets: vital signs, doses, events and the register. RFC 4180: a header, CRLF, the
// same number of fields on every line, quotes where needed; UTF-8 with a mark in front. A text that a
// spreadsheet would take for a formula begins with an apostrophe; the last column names the fields to which
// one was added, so that it can be taken off again. Source: RFC 4180; interchange.md 3.2 (formula guard:
// CWE-1236).
#pragma once
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "core/case/state.h"
#include "core/clinic/policy.h"
#include "core/desk/desk.h"
#include "core/units/time.h"

namespace brimline {

/// The mark by which spreadsheets know UTF-8. It stands once, before the header.
inline constexpr std::string_view csv_mark = "\xEF\xBB\xBF";

/// One line of a table while it is written.
class CsvLine {
public:
    /// A number or a time of our own making: as it is.
    CsvLine& plain(std::string_view value);
    /// What a person may have typed: guarded, and noted under its column's name when it had to be.
    CsvLine& text(std::string_view column, std::string_view value);
    /// The line with the names of the guarded fields behind it, and its CRLF.
    [[nodiscard]] std::string end();

private:
    void cell(std::string value);
    std::string line_, guarded_;
    bool first_{true};
};

enum class CsvTable : std::uint8_t { vital_signs, doses, events, entries };
constexpr auto names_of(CsvTable) {
    return std::array<std::string_view, 4>{"vital-signs", "doses", "events", "register"};
}

/// What the lines of one case are made from.
struct CsvAsk {
    const CaseState& state;
    const Desk& desk;
    const Policy& policy;
    const Zone& zone;
    LocalDate on{};  ///< the day on which the register is read
};
/// The header of a table, without the mark. Shape: ends with CRLF.
[[nodiscard]] std::string csv_header(CsvTable table);
/// The lines of one case; empty when it has none.
[[nodiscard]] std::string csv_lines(CsvTable table, const CsvAsk& ask);

}  // namespace brimline

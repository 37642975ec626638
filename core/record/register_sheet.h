// The register as it leaves the program: a table for people, CSV and JSON for programs, dates for calendars.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/case/codec.h"
#include "core/desk/register.h"

namespace brimline {

/// What a listing is made from. `on` shifts today only; nothing else.
struct RegisterAsk {
    const Desk& desk;
    const Policy& policy;
    const Zone& zone;
    LocalDate on{};
    std::optional<std::string> lot;  // only this lot, open or closed, with devices used and not left in
    bool all{false};                 // closed entries too
};
/// One line of the listing; a device that was used and not left in has a status and a lot only.
struct RegisterLine {
    std::string entry, number, name, placed, volume, lot, serial, due, book_by, status;
    std::vector<std::string> flags;
    std::string next, next_date, owner;  // owner: an id
};
/// In the order of urgency; then devices that were not left in.
[[nodiscard]] std::vector<RegisterLine> register_lines(const RegisterAsk& ask);

/// Columns lined up, dates in words, owners by name.
[[nodiscard]] std::string register_table(const RegisterAsk& ask);
/// RFC 4180 with its mark and header; see core/record/csv.h.
[[nodiscard]] std::string register_csv(const RegisterAsk& ask);
[[nodiscard]] std::string register_csv_header();
[[nodiscard]] std::string register_csv_line(const RegisterLine& line);
/// The line of the entry that one case stands for on that day, open or closed; empty when it has none.
[[nodiscard]] std::optional<RegisterLine> register_line(const CaseState& state, const RegisterAsk& ask);
/// A JSON list of objects with the names of the columns; a value that is not known is absent.
[[nodiscard]] Json register_json(const RegisterAsk& ask);
/// RFC 5545, whole days, of open entries: book by and due. No name, number or phone of a patient stands in
/// it.
[[nodiscard]] std::string register_calendar(const RegisterAsk& ask, Instant made);
/// The two days of the entry that one case stands for; empty when it is closed or has none.
[[nodiscard]] std::string calendar_days(const CaseState& state, const RegisterAsk& ask, Instant made);

}  // namespace brimline

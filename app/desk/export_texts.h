// The texts that leave the program for one case: record, addenda, events, FHIR documents, tables. Made from a
// case as the archive gives it; the same case gives the same bytes.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "app/desk/archive.h"
#include "core/record/csv.h"

namespace brimline::desk {

/// The version that stands in exported documents.
inline constexpr std::string_view program_version = "0.1.0";

/// One event of the journal as one line of JSON; its shape is assets/schema/event.schema.json.
[[nodiscard]] std::string event_line(const store::StoredEvent& row, std::string_view case_name);
[[nodiscard]] std::string events_text(const CaseFile& file);

/// The sealed text as it was signed, with its seal and the kiosk's keys below; or the record as it stands.
/// Without what was added after the seal.
[[nodiscard]] std::string record_body(const CaseFile& file, Archive& archive);
/// The record on the clinic's paper, page one first. Errors: unknown-paper, does-not-fit.
[[nodiscard]] Expected<std::string> record_pdf(const CaseFile& file, const Archive& archive);
/// What was added after the seal; empty when nothing was.
[[nodiscard]] std::string added_text(const CaseFile& file, const Archive& archive);
/// The case as a FHIR document; as sealed, with the record's signature file in its Provenance.
[[nodiscard]] std::string fhir_text(const CaseFile& file, Archive& archive);
/// One addendum, from 0.
[[nodiscard]] std::string fhir_addendum_text(const CaseFile& file, const Archive& archive, std::size_t which);
/// The lines of one case in a table; the register is read on `on`.
[[nodiscard]] std::string table_lines(CsvTable table, const CaseFile& file, const Archive& archive,
                                      LocalDate on);

/// The name of the files of a case: the record's number, else "case-" and its name with what no file may be
/// called taken out.
[[nodiscard]] std::string file_stem(const CaseFile& file);
/// The signed comment of a signature file, fields parted by tabs: when the last entry that the file tells was
/// made, the file's name, the record's number and the head of its chain. Never a clock's time, so that the
/// same store gives the same signature.
struct TrustedComment {
    std::string_view file_name, record;
    Instant told_until{};
    std::string_view head;  ///< hex; its first 16 digits are shown
};
[[nodiscard]] std::string trusted_comment(const TrustedComment& is);
[[nodiscard]] TrustedComment comment_of(std::string_view file_name, const CaseFile& file,
                                        const std::string& head);
/// The head of the case's chain in hex.
[[nodiscard]] std::string head_of(const CaseFile& file);
/// The signature file of a text. Errors: empty when the kiosk's key is not there.
[[nodiscard]] std::optional<std::string> signature_of(std::string_view text, const TrustedComment& comment,
                                                      Archive& archive);

}  // namespace brimline::desk

// The parts of the text record, each written by a file of its own. Not for other files than those of the
// record.
#pragma once
#include "core/record/text_layout.h"
#include "core/record/text_words.h"

namespace brimline::record {

// Page one
void write_page_one(Sheet& sheet, const Source& v, std::string_view number);
/// The final volume, how it was agreed, and what did not agree on the way.
void write_agreed(Sheet& sheet, const Source& v);
/// At a removal: which balloon, what came out, how it left, the loss of weight.
void write_removal(Sheet& sheet, const Source& v);
/// Gates, holds with their overrides and provisos, corrections.
void write_gates(Sheet& sheet, const Source& v);
void write_holds(Sheet& sheet, const Source& v);
void write_corrections(Sheet& sheet, const Source& v);
/// Due, book by, latest, diet, driving, calls.
void write_dates(Sheet& sheet, const Source& v);

// What follows it
void write_arrival(Sheet& sheet, const Source& v);
void write_timeline(Sheet& sheet, const Source& v);
void write_vital_signs(Sheet& sheet, const Source& v);
void write_doses(Sheet& sheet, const Source& v);
void write_airway(Sheet& sheet, const Source& v);
void write_pauses(Sheet& sheet, const Source& v);
void write_look(Sheet& sheet, const Source& v);
void write_devices(Sheet& sheet, const Source& v);
void write_sizing(Sheet& sheet, const Source& v);
void write_recovery(Sheet& sheet, const Source& v);
void write_discharge(Sheet& sheet, const Source& v);
void write_policy(Sheet& sheet, const Source& v);
void write_attempts(Sheet& sheet, const Source& v);

/// Where a set of vital signs is missing by the policy of that time, in order.
struct VitalGap {
    Instant from{}, to{};
    seconds due_every{};
    Instant until{};  ///< the set that ended it; where none did, until when sets were due
};
[[nodiscard]] std::vector<VitalGap> vital_gaps(const Source& v);

/// What one entry says, in words; the timeline adds who, when and the running volume.
[[nodiscard]] std::string entry_words(const Event& event, const Source& v);
/// "Propofol 100 mg (1.04 mg/kg)", one for each drug.
[[nodiscard]] std::vector<std::string> dose_total_words(const Source& v);
/// "96.4 kg (measured)"; empty when not known.
[[nodiscard]] std::string weight_words(const Source& v);
/// "lot DW-2641, serial 0007731, expiry 31 May 2028, GTIN 02001234026413, scanned"
[[nodiscard]] std::string label_words(const Noted<DeviceOpened>& label, const Source& v);
/// "10 x 50 mL (first with 5 mL dye)": what the volume of a device is made of.
[[nodiscard]] std::string made_of_words(const DeviceBlock& block);
/// The volume of one device just after an entry changed it, by the number of the entry.
[[nodiscard]] std::map<std::int64_t, Millilitres> running_after(const DeviceBlock& block);

}  // namespace brimline::record

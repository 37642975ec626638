// Writing the letter.
#include "core/record/letter.h"

#include <fmt/format.h>

#include "core/desk/register.h"
#include "core/record/text_parts.h"

namespace brimline {
namespace {

namespace say {
constexpr std::string_view title = "To the colleagues who treat this patient next";
constexpr std::string_view unknown = "not known";
constexpr std::string_view in_place = "A fluid-filled gastric balloon is in this patient's stomach.";
constexpr std::string_view taken_out = "The record with this letter is of a removal.";
constexpr std::string_view none = "No balloon was left in this patient by this case.";
constexpr std::string_view check =
    "Each file NAME has a signature NAME.minisig beside it. How to check it without us and without this "
    "program "
    "stands in verify.md. Compare the key with one that you have on paper:";
constexpr std::string_view caution =
    "The record tells what people entered. It does not decide, dose or diagnose; follow the device's own "
    "leaflet, "
    "local protocol and licensed clinicians.";
}  // namespace say

void patient(record::Sheet& sheet, const CaseState& s) {
    const auto& p = s.patient;
    const auto name = p.family_name.value_or("unknown") + (p.given_name ? ", " + *p.given_name : "");
    sheet.field("Patient", name);
    sheet.field("Born", p.born ? date_words(*p.born) : std::string{say::unknown});
    sheet.field("Our number", p.number.value_or(std::string{say::unknown}));
}

void balloon(record::Sheet& sheet, const record::Source& v) {
    const auto placement = placement_of(v.s, v.desk, v.policy, v.zone);
    if (v.s.kind == CaseKind::removal || !placement || placement->reported) {
        return sheet.line(v.s.kind == CaseKind::removal ? say::taken_out : say::none);
    }
    sheet.line(say::in_place);
    sheet.blank();
    sheet.field("Placed", record::day_words(placement->placed));
    sheet.field("Volume",
                placement->volume ? record::ml_words(*placement->volume) : std::string{say::unknown});
    sheet.field("Dye", placement->dye ? record::yes_no(*placement->dye) : std::string{say::unknown});
    sheet.field("Lot", placement->lot.value_or(std::string{say::unknown}));
    sheet.field("Serial", placement->serial.value_or(std::string{say::unknown}));
    sheet.field("Due out", record::day_words(placement->due));
}

}  // namespace

std::string letter_text(const CaseState& state, const Desk& desk, const Policy& policy, const Zone& zone,
                        const std::vector<std::string>& files, std::string_view key) {
    Instant end{};
    for (const auto& kept : state.history) {
        end = std::max(end, kept.first.stamp.at);
    }
    const record::Source v{state, desk, policy, zone, end, zone.date_of(end)};
    record::Sheet sheet;
    sheet.title(policy.clinic.name.empty() ? say::title : std::string_view{policy.clinic.name});
    sheet.line(say::title);
    sheet.blank();
    sheet.field("Written from",
                fmt::format("{}, as it stood {}",
                            state.sealed ? "record " + state.sealed->is.number : "case " + state.name,
                            v.moment(end)));
    sheet.field("Telephone", policy.clinic.phone);
    patient(sheet, state);
    sheet.blank();
    balloon(sheet, v);
    sheet.section("Files");
    for (const auto& file : files) {
        sheet.line(file, 3);
    }
    sheet.blank();
    sheet.line(say::check);
    sheet.line(key, 3);
    sheet.blank();
    sheet.line(say::caution);
    return sheet.text();
}

}  // namespace brimline

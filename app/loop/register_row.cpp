// Making a line of the register.
#include "app/loop/register_row.h"

#include <fmt/format.h>

#include "core/desk/register.h"

namespace brimline {

std::optional<store::BalloonRow> register_row(const CaseState& state, const Desk& desk, const Policy& policy,
                                              const Zone& zone) {
    const auto placement = placement_of(state, desk, policy, zone);
    if (!placement) {
        return std::nullopt;
    }
    const auto entry = entry_on(state, desk, policy, zone, placement->placed);
    const auto* removal = removal_of(state, desk);
    store::BalloonRow row;
    row.case_id = store::id_from_hex(state.id).value_or(store::Id16{});
    row.patient = fmt::format("{}, {}", state.patient.family_name.value_or("unknown"),
                              state.patient.given_name.value_or(""));
    row.hospital_no = state.patient.number.value_or("");
    row.volume_dml = placement->volume.value_or(Millilitres{}).in_tenths();  // 0 where only the date is known
    row.placed = date_text(placement->placed);
    row.due = date_text(placement->due);
    row.latest = date_text(placement->latest);
    row.state = entry->open() && entry->status != EntryStatus::not_verified
                    ? "in place"
                    : std::string{name_of(entry->status)};
    if (removal != nullptr) {
        row.out_case = store::id_from_hex(removal->id);
    }
    return row;
}

}  // namespace brimline

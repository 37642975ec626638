// Making a line of the register.
#include "app/loop/register_row.h"

#include <fmt/format.h>

#include "core/case/figures.h"

namespace brimline {

std::optional<store::BalloonRow> register_row(const CaseState& state, const Policy& policy,
                                              const Zone& zone) {
    const auto dates = dates_of(state, policy, zone);
    if (!dates.placed) {
        return std::nullopt;
    }
    store::BalloonRow row;
    row.case_id = store::id_from_hex(state.id).value_or(store::Id16{});
    row.patient = fmt::format("{}, {}", state.patient.family_name.value_or("unknown"),
                              state.patient.given_name.value_or(""));
    row.hospital_no = state.patient.number.value_or("");
    row.volume_dml = running_volume(state.device()).in_tenths();
    row.placed = date_text(*dates.placed);
    row.due = date_text(*dates.due);
    row.latest = date_text(*dates.latest);
    row.state = "in place";
    return row;
}

}  // namespace brimline

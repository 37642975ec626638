// The record as plain text, put together from its pages.
#include "core/record/text.h"

#include "core/record/text_layout.h"

namespace brimline {

std::string record_text(const CaseState& state, const Desk&, const Policy& policy, const Zone&, std::string_view number) {
    record::Sheet sheet;
    sheet.title(policy.clinic.name + "  " + std::string{number.empty() ? "not sealed" : number});
    sheet.field("Case", state.name);
    return sheet.text();
}

std::string addenda_text(const CaseState& state, const Desk&, const Zone&) {
    record::Sheet sheet;
    for (const auto& addendum : state.addenda) {
        sheet.line(addendum.text);
    }
    return sheet.text();
}

}  // namespace brimline

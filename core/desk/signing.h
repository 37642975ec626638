// Who still has to sign what: the parts of a case, whose they are, and the cases that wait for one person.
#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "core/case/figures.h"
#include "core/case/signer.h"
#include "core/desk/desk.h"

namespace brimline {

/// A case whose patient has left and which is not sealed.
struct CaseToSign {
    const CaseState* state{};
    std::optional<Part> part;  ///< the one that waits for this person; empty when only the seal does
    std::vector<Part> open;    ///< parts of others that are not signed
    bool seals{false};         ///< this person's signature may be followed by the seal
};
/// In the order in which the patients left. A physician's case stays until it is sealed.
[[nodiscard]] std::vector<CaseToSign> cases_to_sign(const Desk& desk, std::string_view person);

/// A sealed case, the newest first.
[[nodiscard]] std::vector<const CaseState*> sealed_cases(const Desk& desk);

/// One open item with its case. `done` ones were closed.
struct ListedItem {
    const CaseState* state{};
    const OpenItem* item{};
};
/// By date, those without a date last; of one person where `owner` is not empty.
[[nodiscard]] std::vector<ListedItem> listed_items(const Desk& desk, std::string_view owner, bool done);

}  // namespace brimline

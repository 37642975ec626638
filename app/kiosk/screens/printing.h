// The printer as the screens know it: something is asked for, and what became of it is told later. Files and
// the printer itself are behind it.
#pragma once
#include <string>

#include "core/case/state.h"
#include "core/desk/desk.h"
#include "core/units/time.h"

namespace brimline::screens {

enum class PrintState : std::uint8_t {
    idle,
    working,
    printed,  ///< the printer took it
    kept,     ///< the printer did not; the PDF is kept
    failed    ///< there is no PDF
};
constexpr auto names_of(PrintState) {
    return std::array<std::string_view, 5>{"idle", "working", "printed", "kept", "failed"};
}
/// What became of the last print.
struct PrintOutcome {
    PrintState state{};
    bool card{false};
    std::string file;  ///< where the PDF is kept
};

class Printing {
public:
    virtual ~Printing() = default;
    /// Makes the patient's sheet or the card of this case and hands it to the printer; returns before it is
    /// printed.
    virtual void print(bool card, const CaseState& state, const Desk& desk, const Policy& policy,
                       const Zone& zone, Instant now) = 0;
    [[nodiscard]] virtual PrintOutcome outcome() const = 0;
};

}  // namespace brimline::screens

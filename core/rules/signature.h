// Signatures: which parts must be given, and what must be shown. Source: after.md 9; 21 CFR 11.50(a), (b) and
// 11.200(a)(1)(i)-(ii), the best written yardstick, though made for other trades.
#pragma once
#include <string>
#include <vector>

namespace brimline::rules {

/// What was given at one signing: the person (chosen or scanned) and the PIN.
struct SignatureParts {
    bool person = false, pin = false;
};
/// Both parts for the first signing of a session and after a change of person or a locked screen; later ones
/// need the PIN, which only that person has. A person without a PIN never signs.
[[nodiscard]] constexpr bool signature_accepted(SignatureParts given, bool first_in_session,
                                                bool session_broken) {
    return given.pin && (given.person || !(first_in_session || session_broken));
}

/// What a shown signature lacks, of "name", "time", "meaning", in this order.
[[nodiscard]] std::vector<std::string> signature_lacks(const std::string& name, bool time_known,
                                                       const std::string& meaning);

}  // namespace brimline::rules

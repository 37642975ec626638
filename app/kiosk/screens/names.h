// Names as the glass shows them: people and patients. No rule and no state.
#pragma once
#include <string>
#include <string_view>

#include "core/desk/desk.h"

namespace brimline::screens {

/// "Quill, Marta"; the family name alone where no given name is known.
[[nodiscard]] std::string listed_name(const PatientKnown& patient);
/// "NA" of "Dr Noor Adeyemi": the first letters of the last two words.
[[nodiscard]] std::string initials_of(std::string_view name);
/// "Dr Adeyemi" of "Dr Noor Adeyemi": first and last word.
[[nodiscard]] std::string short_name(std::string_view name);
/// The short name of a person, or the id where nobody has it.
[[nodiscard]] std::string short_name(const Desk& desk, std::string_view id);

}  // namespace brimline::screens

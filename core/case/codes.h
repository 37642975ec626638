// Every code that a refusal, a hold, an open item or a prompt can carry, each with its plain sentence, in one
// place.
#pragma once
#include <span>
#include <string>
#include <string_view>

#include "core/units/refusal.h"

namespace brimline {

struct Code {
    std::string_view code, say, next;
};

[[nodiscard]] std::span<const Code> all_codes();
/// The entry of a code. Errors: an unknown code is a bug and stops the program.
[[nodiscard]] const Code& code_entry(std::string_view code);
/// A refusal with the sentence of its code.
[[nodiscard]] Refusal coded(std::string_view code);
/// A refusal with its own sentence and the "what next" of its code.
[[nodiscard]] Refusal coded(std::string_view code, std::string say);

}  // namespace brimline

// Refusal: what core answers when something a person entered makes no sense. A value, never an exception.
#pragma once
#include <string>
#include <tl/expected.hpp>

namespace brimline {

/// Why something was not recorded: a code in kebab-case, a plain sentence, and what to do next.
struct Refusal {
    std::string code;
    std::string say;
    std::string next;
    bool operator==(const Refusal&) const = default;
};

template <class T>
using Expected = tl::expected<T, Refusal>;

[[nodiscard]] inline tl::unexpected<Refusal> refuse(std::string code, std::string say, std::string next = "") {
    return tl::unexpected<Refusal>{Refusal{std::move(code), std::move(say), std::move(next)}};
}

}  // namespace brimline

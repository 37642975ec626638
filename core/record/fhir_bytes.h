// Bytes as FHIR wants them: names that are the same every time (UUID of version 5) and base64. Pure; nothing
// here is a secret or a proof, so SHA-1 does for names.
#pragma once
#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace brimline::fhir {

/// SHA-1, for names only. Source: RFC 3174.
[[nodiscard]] std::array<std::uint8_t, 20> sha1(std::string_view bytes);
/// "886313e1-3b8a-5372-9b90-0c9aee199e5d": the UUID of a name in a name space, lower case.
/// Shape: the same two give the same UUID, on any machine. Source: RFC 9562 section 5.5.
[[nodiscard]] std::string uuid_of(const std::array<std::uint8_t, 16>& name_space, std::string_view name);
/// The name space of everything that Brimline exports: the UUID of "urn:brimline" among URLs.
[[nodiscard]] const std::array<std::uint8_t, 16>& brimline_names();
/// The name space of URLs, as RFC 9562 appendix C gives it.
[[nodiscard]] const std::array<std::uint8_t, 16>& url_names();
/// Base64 with padding, without line breaks. Source: RFC 4648 section 4.
[[nodiscard]] std::string base64(std::string_view bytes);

}  // namespace brimline::fhir

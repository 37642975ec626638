// The language of a finished PDF. cairo 1.16 cannot say it, and a screen reader needs it.
#pragma once
#include <string>
#include <string_view>

namespace brimline::print {

/// The file with its language (and that its title is to be shown) and the mark of its structure added to the
/// catalogue, as an update at the end: the bytes before it stay as they are. A file in another form than
/// expected comes back as it was. Source: ISO 32000-1, 7.5.6 (incremental updates), 7.7.2 (catalogue), 14.9.2
/// (natural language).
[[nodiscard]] std::string with_language(std::string pdf, std::string_view language);

}  // namespace brimline::print

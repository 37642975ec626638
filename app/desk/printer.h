// The printer: a finished PDF kept in a folder, and handed to CUPS by its own program `lp`. A printer that is
// down loses nothing: the file stays.
#pragma once
#include <filesystem>
#include <string>

#include "core/units/refusal.h"

namespace brimline {

/// Writes the file whole or not at all, readable by the user of the kiosk alone. Errors: print-not-written.
[[nodiscard]] Expected<std::filesystem::path> keep_print(const std::filesystem::path& file,
                                                         const std::string& pdf);
/// Hands it to `lp` and waits for its answer, half a minute at most. `printer` empty = the system's default.
/// The answer is what lp said. Errors: no-lp (not installed), printer-refused (with what it said).
[[nodiscard]] Expected<std::string> send_to_printer(const std::filesystem::path& file,
                                                    const std::string& printer);

}  // namespace brimline

// The sub-command that opens the kiosk; it also runs when the program is called without one.
#pragma once
#include "app/desk/commands.h"

namespace brimline::kiosk {

/// Adds `kiosk` with its options, and leaves the kiosk without any to run when no sub-command is named.
void add_kiosk(CLI::App& app, desk::Run& run);

}  // namespace brimline::kiosk

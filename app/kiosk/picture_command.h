// The sub-command that paints one page of the kiosk into a file, without a display.
#pragma once
#include "app/desk/commands.h"

namespace brimline::kiosk {

/// Adds `picture`: a page of a case at a time of day, as a PNG file.
void add_picture(CLI::App& app, desk::Run& run);

}  // namespace brimline::kiosk

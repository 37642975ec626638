// The kiosk's printer: PDFs into the data folder's prints/, then to CUPS by a thread of its own, so that a
// slow printer never holds a frame.
#pragma once
#include <filesystem>
#include <functional>
#include <memory>

#include "app/kiosk/screens/printing.h"

namespace brimline::kiosk {

/// `wake` is called from the thread when there is something to show.
[[nodiscard]] std::shared_ptr<screens::Printing> kiosk_printer(const std::filesystem::path& data,
                                                               std::function<void()> wake);

}  // namespace brimline::kiosk

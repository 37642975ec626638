// The caution that stands on every record, in its one wording.
#pragma once
#include <string_view>

namespace brimline::record {

inline constexpr std::string_view caution =
    "Brimline records and reminds; it does not decide, dose or diagnose, and it is not a certified medical "
    "device. Follow the device's own leaflet, local protocol and licensed clinicians. It is not an alarm "
    "system and does not replace a monitor.";

}  // namespace brimline::record

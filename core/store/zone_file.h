// Loads a time zone from the system's tables into the value that core works with.
#pragma once
#include <string>

#include "core/units/refusal.h"
#include "core/units/time.h"

namespace brimline::store {

/// The zone of that name ("Europe/London"), with its transitions from 1970 through 2100.
/// Errors: zone-unknown, with a sentence.
[[nodiscard]] Expected<Zone> load_zone(const std::string& name);
/// The zone that the system is set to. Errors: zone-unknown when the system does not tell.
[[nodiscard]] Expected<Zone> system_zone();

}  // namespace brimline::store

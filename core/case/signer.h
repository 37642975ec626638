// Whose signature a part of the record needs.
#pragma once
#include "core/case/said/after.h"

namespace brimline {

/// The role that signs a part.
[[nodiscard]] constexpr Role signer_of(Part part) {
    switch (part) {
        case Part::sedation:
            return Role::sedation_provider;
        case Part::nursing:
            return Role::nurse;
        case Part::physician:
            return Role::physician;
    }
    return Role::physician;
}

}  // namespace brimline

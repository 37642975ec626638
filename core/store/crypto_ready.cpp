// Starting the cryptographic library once.
#include "core/store/crypto_ready.h"

#include <sodium.h>

#include <cstdlib>

namespace brimline::store {

void crypto_ready() {
    static const bool ready = sodium_init() >= 0;
    if (!ready) {
        std::abort();
    }
}

}  // namespace brimline::store

// Makes libsodium ready before its first use. Inside the store only.
#pragma once

namespace brimline::store {

/// Safe from any thread and any number of times. A library that cannot start stops the program: nothing may
/// be signed or hashed with it.
void crypto_ready();

}  // namespace brimline::store

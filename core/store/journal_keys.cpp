// The signing key and its replacement: a second key is made beside the first, takes its place in one batch,
// and only then its name; whatever is cut off in between is settled at the next opening.
#include <fcntl.h>
#include <unistd.h>

#include <cstdio>

#include "core/store/journal_inside.h"

namespace brimline::store {

tl::expected<FreshKey, std::string> Journal::fresh_key() {
    if (inside_->read_only || !inside_->key) {
        return tl::unexpected{std::string{"This journal cannot sign, so its key cannot be replaced."}};
    }
    static_cast<void>(::unlink((inside_->folder / next_key_name).c_str()));
    const SignKey next = SignKey::fresh();
    if (const int wrong = next.save(inside_->folder, next_key_name)) {
        return tl::unexpected{"The new key cannot be written: " + words_for_errno(wrong) + "."};
    }
    FreshKey fresh{inside_->key->public_key(), next.public_key(), {}};
    fresh.signature = inside_->key->sign(key_message(fresh.old_key, fresh.new_key));
    return fresh;
}

void Journal::Inside::settle_keys() {
    auto next = SignKey::load(folder, next_key_name);
    if (!next) {
        return;
    }
    if (next->public_key() != kiosk.public_key) {
        static_cast<void>(::unlink((folder / next_key_name).c_str()));
        return;
    }
    if (::rename((folder / next_key_name).c_str(), (folder / key_name).c_str()) == 0) {
        static_cast<void>(sync_path(folder));  // else it takes its name at the next opening
    }
    key.emplace(std::move(*next));
}

}  // namespace brimline::store

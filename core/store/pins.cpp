// Hashing PINs and counting wrong tries.
#include "core/store/pins.h"

#include <sodium.h>

#include <algorithm>
#include <array>
#include <cstdlib>

#include "core/store/crypto_ready.h"

namespace brimline::store {

bool pin_has_form(std::string_view pin, const PinRule& rule) {
    const auto digits = static_cast<int>(pin.size());
    return digits >= rule.digits_least && digits <= rule.digits_most &&
           std::all_of(pin.begin(), pin.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::string hash_pin(std::string_view pin) {
    crypto_ready();
    std::array<char, crypto_pwhash_STRBYTES> text{};
    if (crypto_pwhash_str(text.data(), pin.data(), pin.size(), crypto_pwhash_OPSLIMIT_INTERACTIVE,
                          crypto_pwhash_MEMLIMIT_INTERACTIVE) != 0) {
        std::abort();  // out of memory
    }
    return std::string{text.data()};
}

bool pin_holds(std::string_view pin, const std::string& pin_hash) {
    crypto_ready();
    return pin_hash.size() < crypto_pwhash_STRBYTES &&
           crypto_pwhash_str_verify(pin_hash.c_str(), pin.data(), pin.size()) == 0;
}

std::string pin_fingerprint(const std::string& pin_hash) {
    return hex(blake2b("brimline pin 1 " + pin_hash)).substr(0, 32);
}

std::optional<Instant> locked_at(const PinTries& tries, Instant now, const PinRule& rule) {
    if (!tries.locked_until || *tries.locked_until <= now) {
        return std::nullopt;
    }
    return std::min(*tries.locked_until, now + rule.lock_most);
}

PinTries after_wrong(const PinTries& tries, Instant now, const PinRule& rule) {
    PinTries next{tries.fails + 1, std::nullopt};
    const std::int64_t each = std::max(rule.tries, 1);
    if (next.fails % each == 0) {
        auto lock = rule.lock_first;
        for (std::int64_t round = next.fails / each; round > 1 && lock < rule.lock_most; --round) {
            lock *= 2;
        }
        next.locked_until = now + std::min(lock, rule.lock_most);
    }
    return next;
}

int tries_left(const PinTries& tries, const PinRule& rule) {
    const std::int64_t each = std::max(rule.tries, 1);
    return static_cast<int>(each - tries.fails % each);
}

tl::expected<PinAnswer, AppendFault> check_pin(Journal& journal, const std::string& person,
                                               std::string_view pin, Instant now, const PinRule& rule) {
    const Rows<Person> people = journal.people();
    if (!people.damage.empty()) {
        return tl::unexpected{AppendFault{Failure::pending, people.damage.front().sentence}};
    }
    const auto found = std::find_if(people.rows.begin(), people.rows.end(),
                                    [&](const Person& p) { return p.id == person && p.active; });
    if (found == people.rows.end()) {
        return PinUnknown{};
    }
    const PinTries before{found->fails, found->locked_until};
    if (const auto until = locked_at(before, now, rule)) {
        if (*until != *before.locked_until) {  // the clock was set back: the lock must end all the same
            if (const auto kept = journal.keep_tries(person, before.fails, until); !kept) {
                return tl::unexpected{kept.error()};
            }
        }
        return PinLocked{*until};
    }
    const PinTries wrong = after_wrong(before, now, rule);
    if (const auto kept = journal.keep_tries(person, wrong.fails, wrong.locked_until); !kept) {
        return tl::unexpected{kept.error()};
    }
    if (!pin_holds(pin, found->pin_hash)) {
        return wrong.locked_until ? PinAnswer{PinLocked{*wrong.locked_until}}
                                  : PinAnswer{PinWrong{tries_left(wrong, rule)}};
    }
    if (const auto kept = journal.keep_tries(person, 0, std::nullopt); !kept) {
        return tl::unexpected{kept.error()};
    }
    return PinRight{found->one_time};
}

PinAnswer check_pin_reading(Journal& journal, const std::string& person, std::string_view pin, Instant now,
                            const PinRule& rule, PinTries& tries) {
    const Rows<Person> people = journal.people();
    const auto found = std::find_if(people.rows.begin(), people.rows.end(),
                                    [&](const Person& p) { return p.id == person && p.active; });
    if (found == people.rows.end()) {
        return PinUnknown{};
    }
    if (const auto until = locked_at(tries, now, rule)) {
        return PinLocked{*until};
    }
    if (pin_holds(pin, found->pin_hash)) {
        tries = {};
        return PinRight{found->one_time};
    }
    tries = after_wrong(tries, now, rule);
    return tries.locked_until ? PinAnswer{PinLocked{*tries.locked_until}}
                              : PinAnswer{PinWrong{tries_left(tries, rule)}};
}

}  // namespace brimline::store

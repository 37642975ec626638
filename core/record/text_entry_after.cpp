// The words of entries after a placement: removal, register, whose case it is.
#include "core/record/text_entry_after.h"

#include <fmt/format.h>

namespace brimline::record {
namespace {

std::string quoted(const std::optional<std::string>& words) {
    return words ? fmt::format(", \"{}\"", *words) : "";
}
std::string with_second(const std::optional<std::string>& second, const Source& v) {
    return second ? fmt::format("; agreed by {}, each with a PIN", v.person(*second)) : "";
}

}  // namespace

std::string TellAfter::operator()(const BalloonSeen& e) const {
    return fmt::format("Balloon seen: {}; {}", lowered(words_of(v.policy.lists.balloon_states, e.state)),
                       e.food ? "FOOD in the stomach" : "no food");
}
std::string TellAfter::operator()(const Canister& e) const {
    if (e.moment == CanisterMoment::change) {
        return fmt::format("Canister changed at {}, the new one at {}", ml_words(e.ml),
                           ml_words(e.new_ml.value_or(Millilitres{})));
    }
    return fmt::format("Canister, {}: {}", name_of(e.moment), ml_words(e.ml));
}
std::string TellAfter::operator()(const Aspirated& e) const { return "By syringe " + ml_words(e.ml); }
std::string TellAfter::operator()(const Fluid& e) const {
    return "Fluid: " + lowered(words_of(v.policy.lists.fluid_colours, e.colour));
}
std::string TellAfter::operator()(const Out& e) const {
    return fmt::format("Balloon out, {}, {}", e.complete ? "complete" : "NOT COMPLETE",
                       e.kept ? "kept" : "not kept");
}
std::string TellAfter::operator()(const SecondLook& e) const {
    return "Second look: " + lowered(words_of(v.policy.lists.second_look, e.finding)) + quoted(e.words);
}
std::string TellAfter::operator()(const PlacedElsewhere& e) const {
    auto words = fmt::format("Placed elsewhere on {} (known by {})", date_words(e.placed), name_of(e.source));
    words += e.ml ? fmt::format(", {} reported", ml_words(*e.ml)) : ", volume not known";
    words += e.dye ? ", dye " + e.dye->text : "";
    words += e.lot ? ", lot " + *e.lot : "";
    words += e.device ? ", device " + *e.device : "";
    words += e.weight_kg ? fmt::format(", {} kg then", e.weight_kg->text()) : "";
    return words + (e.clinic ? ", " + *e.clinic : "");
}

std::string TellAfter::operator()(const Call& e) const {
    auto words = fmt::format("Call on {}: {}, {}", e.entry,
                             lowered(words_of(v.policy.lists.call_ways, e.way.value_or("phone"))),
                             lowered(words_of(v.policy.lists.call_outcomes, e.outcome)));
    words += e.number ? ", " + *e.number : "";
    if (e.next) {
        words += "; next" + (e.next->words ? " " + *e.next->words : "") +
                 (e.next->date ? " " + date_words(*e.next->date) : "");
    }
    return words + (e.owner ? ", " + v.person(*e.owner) : "") + quoted(e.words);
}
std::string TellAfter::operator()(const Flag& e) const {
    return fmt::format("Flag on {}: {}", e.entry, lowered(words_of(v.policy.lists.flags, e.flag)));
}
std::string TellAfter::operator()(const EntryClosed& e) const {
    auto words =
        fmt::format("Register entry {}: {}, known from {}", e.entry, plain(name_of(e.outcome)), e.known_from);
    words += e.verified ? ", verified" : ", NOT VERIFIED";
    words += e.proof && *e.proof != Proof::none ? fmt::format(" ({})", name_of(*e.proof)) : "";
    return words + (e.review ? ", review " + date_words(*e.review) : "");
}
std::string TellAfter::operator()(const LostAgreed& e) const {
    return fmt::format("Register entry {}: lost to follow-up{}", e.entry, with_second(e.second, v));
}

std::string TellAfter::operator()(const PatientNow& e) const {
    std::vector<std::string> parts;
    const auto put = [&](const char* name, const std::optional<std::string>& value) {
        if (value) {
            parts.push_back(fmt::format("{} {}", name, *value));
        }
    };
    put("number", e.to.number);
    put("family name", e.to.family_name);
    put("given name", e.to.given_name);
    put("phone", e.to.phone);
    put("language", e.to.language);
    put("born", e.to.born ? std::optional{date_words(*e.to.born)} : std::nullopt);
    put("sex at birth",
        e.to.sex_at_birth ? std::optional{std::string{name_of(*e.to.sex_at_birth)}} : std::nullopt);
    return fmt::format("Patient: {}; {}{}", joined(parts), e.reason, with_second(e.second, v));
}
std::string TellAfter::operator()(const EntriesMoved& e) const {
    const auto* other = v.desk.find_case(e.to);
    const auto number = other == nullptr ? std::string{} : other->patient.number.value_or("");
    return fmt::format("{} case {}{}: {}{}",
                       e.whole ? "THIS RECORD BELONGS TO THE PATIENT OF" : "ENTRIES MOVED TO", e.to,
                       number.empty() ? "" : " (" + number + ")", e.reason, with_second(e.second, v));
}
std::string TellAfter::operator()(const EntriesReceived& e) const {
    return fmt::format("Entries made in case {} belong to this patient; they follow with their own times",
                       e.from);
}

}  // namespace brimline::record

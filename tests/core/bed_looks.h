// What tests of a case look at after a command: its refusal, its question, a hold, an open item, `show`.
#pragma once
#include <algorithm>

#include "core/record/show.h"
#include "tests/core/bed.h"

namespace brimline::test {

/// The code of a refusal, "asked" with the question's name, or "recorded".
inline std::string result_of(const Outcome& outcome) {
    return outcome.refusal           ? outcome.refusal->code
           : outcome.asked           ? "asked " + outcome.asked->question
           : !outcome.events.empty() ? "recorded"
                                     : "nothing";
}
/// The code of the refusal; empty when it was not refused.
inline std::string code_of(const Outcome& outcome) { return outcome.refusal ? outcome.refusal->code : ""; }
inline bool has(const std::vector<std::string>& list, const std::string& one) {
    return std::find(list.begin(), list.end(), one) != list.end();
}
/// How often a hold of this code was raised.
inline int times_raised(const Bed& bed, const std::string& code, const std::string& name = "A") {
    const auto& holds = bed.state(name).holds;
    return static_cast<int>(
        std::count_if(holds.begin(), holds.end(), [&](const Hold& hold) { return hold.code == code; }));
}
/// The latest hold of this code, standing or not.
inline const Hold* latest(const Bed& bed, const std::string& code, const std::string& name = "A") {
    const Hold* found = nullptr;
    for (const auto& hold : bed.state(name).holds) {
        found = hold.code == code ? &hold : found;
    }
    return found;
}
/// The open item of this code.
inline const OpenItem* item(const Bed& bed, const std::string& code, const std::string& name = "A") {
    for (const auto& one : bed.state(name).items) {
        if (one.code == code && !one.closed) {
            return &one;
        }
    }
    return nullptr;
}
/// The class of a standing hold, empty without one.
inline std::optional<HoldClass> class_of(const Bed& bed, const std::string& code,
                                         const std::string& name = "A") {
    const auto* hold = bed.state(name).standing(code);
    return hold == nullptr ? std::nullopt : std::optional{hold->hold_class};
}
/// A refused try that the record keeps, with its code.
inline bool has_attempt(const Bed& bed, const std::string& what, const std::string& code) {
    const auto& tries = bed.state().attempts;
    return std::any_of(tries.begin(), tries.end(),
                       [&](const auto& one) { return one.is.what == what && one.is.code == code; });
}
inline Json shown(const Bed& bed, const std::string& time, const std::string& name = "A") {
    return show_case(bed.state(name), bed.desk, bed.policy(), bed.zone(), time_of(time));
}
inline Millilitres volume(const Bed& bed) { return running_volume(bed.state().device()); }
/// `count` taps, one a minute from `minute` past nine.
inline void tap(Bed& bed, int count, int minute) {
    for (int i = 0; i < count; ++i) {
        const int m = minute + i;
        bed.at(
            (m < 60 ? "09:" : "10:") + std::string{m % 60 < 10 ? "0" : ""} + std::to_string(m % 60) + ":00",
            R"("by":"tomas","do":"syringe-in")");
    }
}

}  // namespace brimline::test

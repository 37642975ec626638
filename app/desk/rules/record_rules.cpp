// Worked examples of the record: signatures, the trail of corrections, retention, time that passed.
#include "app/desk/rules/rule.h"
#include "core/rules/audit.h"
#include "core/rules/dates.h"
#include "core/rules/elapsed.h"
#include "core/rules/signature.h"

namespace brimline::worked {
namespace {

Outputs answer_components(const Inputs& in) {
    rules::SignatureParts given;
    for (const std::string& part : in.texts("given")) {
        given.person = given.person || part == "person";
        given.pin = given.pin || part == "pin";
    }
    Outputs out;
    out.put("accepted", rules::signature_accepted(given, in.truth("first_signing_in_session"),
                                                  in.truth("person_changed_or_screen_locked_since")));
    return out;
}

Outputs answer_shown(const Inputs& in) {
    const auto lacks = rules::signature_lacks(in.text("name"), read_written(in.text("time_utc")).has_value(),
                                              in.text("meaning"));
    Outputs out;
    out.put("complete", lacks.empty()).put("missing", lacks);
    return out;
}

Outputs answer_trail(const Inputs& in) {
    std::vector<rules::TrailEntry> entries;
    for (const Inputs& event : in.objects("events")) {
        entries.push_back(
            {event.whole("seq"), event.maybe_whole("correct"), event.whole("value"), event.text("reason")});
    }
    const auto trail = rules::audit_trail(entries);
    Values visible;
    for (const int value : trail.visible) {
        visible.push_back({std::int64_t{value}});
    }
    Outputs out;
    out.put("effective", trail.effective)
        .put("count", static_cast<int>(trail.visible.size()))
        .put("still_visible", std::move(visible));
    if (trail.reason_missing || trail.no_such_entry) {
        out.put("refused", trail.reason_missing ? "reason missing" : "no such entry");
    }
    return out;
}

Outputs answer_retention(const Inputs& in) {
    Outputs out;
    out.put("keep_through", rules::keep_through(in.date("last_sealed"), in.maybe_date("out"),
                                                in.whole("years", in.house().rules.retention_years)))
        .put("deleted_by_the_kiosk", false);  // it lists what may be reviewed, and deletes nothing
    return out;
}

Outputs answer_elapsed(const Inputs& in) {
    const auto clocks = [&](std::string_view name) {
        const Inputs moment = in.within(name);
        return rules::TwoClocks{moment.utc("wall_utc"),
                                Duration{moment.decimal("monotonic_s").in_millionths()}};
    };
    const auto passed = rules::passed_between(clocks("first"), clocks("second"), in.house().rules.clock_jump);
    Outputs out;
    out.put("elapsed_s", whole_seconds(passed.passed))
        .put("wall_elapsed_s", whole_seconds(passed.wall))
        .put("clock_jump_noted", passed.jumped);
    return out;
}

}  // namespace

std::vector<Rule> record_rules() {
    return {
        {"signature-components",
         "first_signing_in_session: true/false, given: list of one of person|pin, "
         "person_changed_or_screen_locked_since?: true/false",
         "accepted: true/false", "after.md 9: 21 CFR 11.200(a)(1)(i)-(ii)", answer_components},
        {"signature-shown", "name?: text, time_utc?: text, meaning?: text",
         "complete: true/false, missing: set of text", "after.md 9: 21 CFR 11.50(a), (b)", answer_shown},
        {"audit-trail",
         "events: list of {seq: whole, set?: text, value: whole, correct?: whole, reason?: text}",
         "effective?: whole, still_visible?: list of whole, count: whole, refused?: text",
         "after.md 9: 21 CFR 11.10(e); the reason is our rule", answer_trail},
        {"record-retention", "last_sealed: time, out?: time, years?: whole",
         "keep_through: time, deleted_by_the_kiosk: true/false",
         "after.md 9: Regulation (EU) 2017/745 Art. 10(8); our reading", answer_retention},
        {"elapsed-time",
         "first: {wall_utc: time, monotonic_s: seconds}, second: {wall_utc: time, monotonic_s: seconds}",
         "elapsed_s: whole, wall_elapsed_s: whole, clock_jump_noted: true/false",
         "after.md 8: common practice", answer_elapsed},
    };
}

}  // namespace brimline::worked

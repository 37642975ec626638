// Worked examples of the register: due dates, status, booking, patients who are lost, rates.
#include "app/desk/rules/rule.h"
#include "core/rules/dates.h"
#include "core/rules/outcome.h"

namespace brimline::worked {
namespace {

Outputs answer_due(const Inputs& in) {
    if (!in.has("placement_date") && !(in.has("released_utc") && in.has("zone"))) {
        return refused("placement_date, or released_utc with zone, is missing");
    }
    const LocalDate placed = in.has("placement_date")
                                 ? in.date("placement_date")
                                 : rules::placement_date(in.utc("released_utc"), in.zone("zone"));
    const bool in_days = in.has("days") && !in.has("months");
    const LocalDate by_months = rules::due_date(placed, in.whole("months", in.house().dwell.months));
    const LocalDate by_days = add_days(placed, in.whole("days"));
    const LocalDate due = in_days ? by_days : in.has("days") ? std::min(by_months, by_days) : by_months;
    Outputs out;
    out.put("due", due).put("days_between", days_between(placed, due)).put("placement_date", placed);
    if (in.has("then_months")) {
        out.put("back", add_months(due, in.whole("then_months")));
    }
    return out;
}

Outputs answer_status(const Inputs& in) {
    const int soon = in.whole("soon_days", in.house().dwell.soon_days);
    const auto status = rules::register_status(in.date("due"), in.date("latest"), in.date("today"),
                                               in.maybe_date("out"), in.truth("lost_to_follow_up"), soon);
    const std::string words = status.standing == rules::Standing::due_soon
                                  ? "due within " + std::to_string(soon) + " days"
                                  : std::string{rules::name_of(status.standing)};
    Outputs out;
    out.put("status", words)
        .put("days_left", status.days_left)
        .put("counts_as_overdue", status.counts_as_overdue);
    return out;
}

Outputs answer_book_by(const Inputs& in) {
    Outputs out;
    out.put("book_by", rules::OpenDays{in.dates("closed_dates")}.backward(in.date("due")));
    return out;
}

rules::Way way_of(const std::string& word) {
    return word == "phone"     ? rules::Way::phone
           : word == "message" ? rules::Way::message
           : word == "letter"  ? rules::Way::letter
                               : rules::Way::in_person;
}

Outputs answer_lost(const Inputs& in) {
    RegisterPolicy policy = in.house().reg;
    policy.lost_attempts = in.policy().whole("attempts", policy.lost_attempts);
    policy.lost_dates = in.policy().whole("dates", policy.lost_dates);
    policy.lost_ways = in.policy().whole("ways", policy.lost_ways);
    std::vector<rules::FailedContact> contacts;
    for (const Inputs& contact : in.objects("failed_contacts")) {
        contacts.push_back({contact.date("date"), way_of(contact.text("way"))});
    }
    const auto check = rules::may_be_lost(in.date("due"), in.date("today"), contacts, policy);
    std::vector<std::string> missing;
    for (const auto& [lacking, word] :
         {std::pair{check.attempts, "attempts"}, std::pair{check.dates, "dates"},
          std::pair{check.ways, "ways"}, std::pair{check.before_due, "before due date"}}) {
        if (lacking) {
            missing.emplace_back(word);
        }
    }
    Outputs out;
    out.put("allowed", check.allowed()).put("missing", missing);
    return out;
}

Outputs answer_rates(const Inputs& in) {
    rules::RegisterCounts counts;
    counts.placed = in.whole("placed");
    counts.in_place = in.whole("in_place_not_past_latest");
    counts.early = in.whole("early");
    counts.on_time = in.whole("on_time");
    counts.late = in.whole("late");
    counts.still_in_past_latest = in.whole("still_in_past_latest");
    counts.lost = in.whole("lost");
    const auto rates = rules::register_rates(counts);
    Outputs out;
    out.put("matured", rates.matured)
        .put("early_percent", rates.early, 1)
        .put("on_time_percent", rates.on_time, 1)
        .put("late_or_not_out_percent", rates.late_or_not_out, 1);
    return out;
}

Outputs answer_median(const Inputs& in) {
    std::vector<Millilitres> volumes;
    for (const Decimal& ml : in.decimals("volumes_ml")) {
        volumes.push_back(Millilitres::of_tenths(ml.whole(10).value_or(0)));
    }
    Outputs out;
    out.put("median_ml", rules::median_ml(volumes), 1);
    return out;
}

}  // namespace

std::vector<Rule> register_rules() {
    constexpr std::string_view ours = "after.md 5: purpose of the register, our reading; common practice";
    return {
        {"due-date",
         "placement_date?: time, months?: whole, zone?: zone, released_utc?: time, note?: text, "
         "then_months?: whole, days?: whole",
         "due?: time, days_between?: whole, placement_date?: time, back?: time, refused?: true/false, "
         "reason?: text",
         "after.md 5 and 8: academic centre's text and review papers; day clamped to the month's last",
         answer_due},
        {"register-status",
         "due: time, latest: time, today: time, out?: time, lost_to_follow_up?: true/false, soon_days?: "
         "whole",
         "status: text, days_left?: whole, counts_as_overdue: true/false", ours, answer_status},
        {"removal-book-by", "due: time, closed_dates?: list of time, open_weekdays?: one of Mon-Fri",
         "book_by: time", ours, answer_book_by},
        {"lost-to-follow-up",
         "due: time, today: time, failed_contacts: list of {date: time, way: one of "
         "phone|message|letter|in-person}, "
         "policy?: {attempts?: whole, dates?: whole, ways?: whole}",
         "allowed: true/false, missing: set of text", ours, answer_lost},
        {"register-rates",
         "placed: whole, in_place_not_past_latest: whole, early: whole, on_time: whole, late: whole, "
         "still_in_past_latest: whole, lost: whole",
         "matured: whole, early_percent?: decimal, on_time_percent?: decimal, late_or_not_out_percent?: "
         "decimal",
         "after.md 7: our reading", answer_rates},
        {"register-median", "volumes_ml: list of tenths", "median_ml?: decimal", "after.md 7: arithmetic",
         answer_median},
    };
}

}  // namespace brimline::worked

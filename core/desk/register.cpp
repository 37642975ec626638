// Folding the register: what is known of each placement, and what follows from it.
#include "core/desk/register.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/rules/outcome.h"

namespace brimline {
namespace {

/// The number of the device that was left in, counted from one.
std::size_t device_number(const CaseState& state) { return state.devices.size(); }

std::string entry_name(const CaseState& state) {
    return device_number(state) > 1 ? fmt::format("{}/{}", state.name, device_number(state)) : state.name;
}

void set_dates(Placement& p, LocalDate due, const Policy& policy) {
    p.due = due;
    p.latest = add_days(due, policy.dwell.grace_days);
    p.book_by = add_days(due, -policy.dwell.book_by_days);
}

Placement placement_here(const CaseState& state, const CaseDates& dates) {
    Placement p;
    const auto& block = state.device();
    p.placed = *dates.placed;
    p.due = *dates.due;
    p.latest = *dates.latest;
    p.book_by = *dates.book_by;
    p.dwell_by_default = dates.dwell_by_default;
    p.volume = running_volume(block);
    if (state.abandoned && !block.off) {
        p.volume = state.abandoned->is.inside.ml;
    }
    if (block.label) {
        p.lot = block.label->is.lot;
        p.serial = block.label->is.serial;
    }
    if (block.dye) {
        p.dye = block.dye->is.ml.has_value();
    }
    if (const auto weight = weight_of(state)) {
        p.weight = weight->weight;
    }
    return p;
}

Placement placement_told(const Noted<PlacedElsewhere>& told, const Policy& policy) {
    const auto& e = told.is;
    Placement p;
    p.reported = true;
    p.placed = e.placed;
    p.volume = e.ml;
    p.lot = e.lot;
    p.serial = e.serial;
    if (e.dye) {
        p.dye = e.dye->text != "no" && e.dye->text != "none";
    }
    if (e.weight_kg) {
        p.weight = Kilograms::of_tenths(e.weight_kg->whole(10).value_or(0));
    }
    const auto* profile = e.device ? policy.device(*e.device) : nullptr;
    p.dwell_by_default = profile == nullptr;
    set_dates(p, due_by(policy, profile, e.placed), policy);
    return p;
}

bool closes(Closing outcome) { return outcome != Closing::transferred && outcome != Closing::declined; }

EntryStatus status_of(Closing outcome) {
    switch (outcome) {
        case Closing::removed:
            return EntryStatus::removed;
        case Closing::passed:
            return EntryStatus::passed;
        case Closing::out_elsewhere:
            return EntryStatus::out_elsewhere;
        case Closing::died:
            return EntryStatus::died;
        case Closing::transferred:
        case Closing::declined:
            break;
    }
    std::abort();  // asked only of what closes
}

/// The removals that were booked for a case's entry.
std::vector<const CaseState*> removals_for(const CaseState& state, const Desk& desk) {
    std::vector<const CaseState*> all;
    if (const auto found = desk.removals.find(state.name); found != desk.removals.end()) {
        for (const auto& name : found->second) {
            if (const auto* removal = desk.find_case(name)) {
                all.push_back(removal);
            }
        }
    }
    return all;
}

/// One entry with everything that decides about it.
struct Judge {
    const CaseState& s;
    const Desk& desk;
    const Policy& policy;
    const Zone& zone;
    LocalDate on;

    [[nodiscard]] std::string owner(Role role) const { return desk.first_with(role).value_or("kiosk"); }
    [[nodiscard]] LocalDate day(const Stamp& stamp) const { return zone.date_of(stamp.happened); }

    [[nodiscard]] const Noted<EntryClosed>* last_closing() const {
        return s.closings.empty() ? nullptr : &s.closings.back();
    }
    [[nodiscard]] bool reached_since(Instant t) const {
        return std::any_of(s.calls.begin(), s.calls.end(), [&](const Noted<Call>& call) {
            return call.stamp.happened > t && call.is.outcome == "reached";
        });
    }

    [[nodiscard]] std::vector<std::string> flags() const {
        std::set<std::string> all;
        for (const auto& flag : s.flags) {
            const bool over = flag.is.flag == "not-reached" && reached_since(flag.stamp.happened);
            if (!over) {
                all.insert(flag.is.flag);
            }
        }
        if (not_reached(s, policy, zone)) {
            all.insert("not-reached");
        }
        if (!s.lost.empty() && !reached_since(s.lost.back().stamp.happened)) {
            all.insert("lost-to-follow-up");
        }
        return {all.begin(), all.end()};
    }
    [[nodiscard]] std::optional<LocalDate> leak_since() const {
        for (const auto& flag : s.flags) {
            if (flag.is.flag == "leak-suspected") {
                return day(flag.stamp);
            }
        }
        return std::nullopt;
    }

    /// A removal that stands on the list and is not over.
    [[nodiscard]] const CaseState* booked_removal() const {
        for (const auto* other : removals_for(s, desk)) {
            if (!other->cancelled && !other->out && !other->discharged && !other->sealed) {
                return other;
            }
        }
        return nullptr;
    }
    [[nodiscard]] NextAction for_removal(const CaseState& removal) const {
        const auto planned = zone.date_of(removal.planned.value_or(Instant{}));
        if (!removal.planned || planned <= on) {
            const auto where = removal.room ? ", " + *removal.room : "";
            const auto when = removal.planned ? " " + clock_text(*removal.planned, zone) : "";
            return {"Removal" + where + when, on, owner(Role::physician)};
        }
        auto remind = planned;
        for (const int days : policy.reg.reminder_days) {
            const auto date = add_days(planned, -days);
            remind = date >= on ? std::min(remind, date) : remind;
        }
        return {fmt::format("Removal booked for {}: remind", date_words(planned)), remind,
                owner(Role::coordinator)};
    }
    [[nodiscard]] NextAction by_date(const Placement& p) const {
        const auto whose = owner(Role::coordinator);
        if (on < p.book_by) {
            return {"Book the removal", p.book_by, whose};
        }
        return on < p.due ? NextAction{"Call: no removal booked", on, whose}
                          : NextAction{"Call: removal is due", on, whose};
    }
    /// What the last call said comes next; never later than the due date while that is ahead.
    [[nodiscard]] std::optional<NextAction> by_call(const Placement& p) const {
        if (s.calls.empty() || (!s.calls.back().is.next && !s.calls.back().is.owner)) {
            return std::nullopt;
        }
        const auto& call = s.calls.back().is;
        auto next = by_date(p);
        if (call.next) {
            next.say = call.next->words.value_or("Call again");
            const auto date = call.next->date.value_or(next.date);
            next.date = on <= p.due ? std::min(date, p.due) : date;
        }
        next.owner = call.owner.value_or(next.owner);
        return next;
    }
    [[nodiscard]] NextAction next(const Placement& p) const {
        if (const auto* closing = last_closing(); closing != nullptr) {
            const auto& c = closing->is;
            if (closes(c.outcome)) {
                return {"Closed, not verified: get proof", day(closing->stamp),
                        c.owner.value_or(owner(Role::coordinator))};
            }
            return {fmt::format("{}: review", c.outcome == Closing::transferred ? "Transferred" : "Declined"),
                    c.review.value_or(day(closing->stamp)), c.owner.value_or(owner(Role::coordinator))};
        }
        if (const auto* removal = booked_removal()) {
            return for_removal(*removal);
        }
        if (const auto leak = leak_since()) {
            return {"Leak suspected: remove now", *leak, owner(Role::physician)};
        }
        if (not_reached(s, policy, zone)) {
            const auto& call = s.calls.back();
            const auto date = call.is.next && call.is.next->date ? *call.is.next->date : day(call.stamp);
            return {"Not reached: letter, responsible physician", date,
                    call.is.owner.value_or(owner(Role::physician))};
        }
        return by_call(p).value_or(by_date(p));
    }
    [[nodiscard]] EntryStatus status(const Placement& p) const {
        const auto* closing = last_closing();
        if (closing != nullptr && closes(closing->is.outcome)) {
            return closing->is.verified ? status_of(closing->is.outcome) : EntryStatus::not_verified;
        }
        return on > p.latest     ? EntryStatus::overdue
               : on >= p.due     ? EntryStatus::due
               : on >= p.book_by ? EntryStatus::book_by
                                 : EntryStatus::in_place;
    }
};

}  // namespace

CaseDates dates_given(const CaseState& state, const Desk& desk, const Policy& current, const Zone& zone) {
    const auto& block = state.device();
    const auto seq = block.off ? block.off->seq : state.abandoned ? state.abandoned->stamp.seq : 0;
    return dates_of(state, seq == 0 ? current : desk.policy_at(seq, current), zone);
}

std::optional<Placement> placement_of(const CaseState& state, const Desk& desk, const Policy& current,
                                      const Zone& zone) {
    const auto dates = dates_given(state, desk, current, zone);
    if (dates.placed) {
        auto placement = placement_here(state, dates);
        placement.entry = entry_name(state);
        return placement;
    }
    if (!state.elsewhere) {
        return std::nullopt;
    }
    auto placement = placement_told(*state.elsewhere, desk.policy_at(state.elsewhere->stamp.seq, current));
    placement.entry = state.name;
    return placement;
}

const CaseState* case_addressed(const Command& command, const Desk& desk) {
    return std::visit(
        [&](const auto& says) {
            using T = std::decay_t<decltype(says)>;
            constexpr bool of_entry = std::is_same_v<T, Call> || std::is_same_v<T, Flag> ||
                                      std::is_same_v<T, CloseEntry> || std::is_same_v<T, LostToFollowUp>;
            if constexpr (of_entry) {
                return desk.case_of_entry(says.entry);
            } else {
                return desk.find_case(command.case_name);
            }
        },
        command.says);
}

std::optional<Placement> placement_to_remove(const CaseState& removal, const Desk& desk,
                                             const Policy& current, const Zone& zone) {
    if (removal.elsewhere) {
        auto told = placement_told(*removal.elsewhere, desk.policy_at(removal.elsewhere->stamp.seq, current));
        told.entry = removal.name;
        return told;
    }
    const auto* placed = removal.entry ? desk.case_of_entry(*removal.entry) : nullptr;
    return placed == nullptr ? std::nullopt : placement_of(*placed, desk, current, zone);
}

const CaseState* removal_of(const CaseState& state, const Desk& desk) {
    if (state.elsewhere && state.out) {
        return &state;
    }
    for (const auto* other : removals_for(state, desk)) {
        if (other->out && !other->elsewhere) {
            return other;
        }
    }
    return nullptr;
}

std::vector<const Noted<Call>*> failed_in_a_row(const CaseState& state) {
    std::vector<const Noted<Call>*> failed;
    for (const auto& call : state.calls) {
        if (call.is.outcome == "not-reached" || call.is.outcome == "wrong-number") {
            failed.push_back(&call);
        } else {
            failed.clear();
        }
    }
    return failed;
}

bool not_reached(const CaseState& state, const Policy& policy, const Zone& zone) {
    const auto failed = failed_in_a_row(state);
    std::set<LocalDate> dates;
    for (const auto* call : failed) {
        dates.insert(zone.date_of(call->stamp.happened));
    }
    return static_cast<int>(failed.size()) >= policy.reg.lost_attempts &&
           static_cast<int>(dates.size()) >= policy.reg.lost_dates;
}

bool is_overdue(const RegisterEntry& entry, LocalDate on) {
    return entry.open() && on > entry.placement.latest;
}

std::optional<RegisterEntry> entry_on(const CaseState& state, const Desk& desk, const Policy& current,
                                      const Zone& zone, LocalDate on) {
    auto placement = placement_of(state, desk, current, zone);
    if (!placement) {
        return std::nullopt;
    }
    const Judge judge{state, desk, current, zone, on};
    RegisterEntry entry;
    entry.state = &state;
    entry.flags = judge.flags();
    const auto* removal = removal_of(state, desk);
    const auto leak = judge.leak_since();
    if (leak && *leak < placement->due && removal == nullptr) {  // due now, whatever was planned
        placement->due = placement->latest = *leak;
        placement->book_by = std::min(placement->book_by, *leak);
    }
    entry.days_left = days_between(on, placement->due);
    if (removal != nullptr) {
        entry.status = EntryStatus::removed;
        entry.out = zone.date_of(removal->out->stamp.happened);
    } else {
        entry.status = judge.status(*placement);
        const auto* closing = judge.last_closing();
        const bool closed = closing != nullptr && closes(closing->is.outcome);
        entry.out = closed ? std::optional{judge.day(closing->stamp)} : std::nullopt;
        if (!closed || !closing->is.verified) {
            entry.next = judge.next(*placement);
        }
    }
    entry.placement = std::move(*placement);
    return entry;
}

std::vector<RegisterEntry> register_on(const Desk& desk, const Policy& current, const Zone& zone,
                                       LocalDate on) {
    std::vector<RegisterEntry> all;
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        if (state == nullptr) {
            continue;
        }
        if (auto entry = entry_on(*state, desk, current, zone, on)) {
            all.push_back(std::move(*entry));
        }
    }
    std::stable_sort(all.begin(), all.end(), [](const RegisterEntry& a, const RegisterEntry& b) {
        if (a.open() != b.open()) {
            return a.open();
        }
        const bool late_a = a.status == EntryStatus::overdue;
        const bool late_b = b.status == EntryStatus::overdue;
        if (late_a != late_b) {
            return late_a;
        }
        return a.open() ? a.next->date < b.next->date : a.placement.placed < b.placement.placed;
    });
    return all;
}

std::vector<UsedDevice> not_left_in(const Desk& desk, std::string_view lot) {
    std::vector<UsedDevice> used;
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        if (state == nullptr) {
            continue;
        }
        for (const auto& block : state->devices) {
            if (block.label && block.label->is.lot == lot && block.not_left_in) {
                used.push_back({state, &block});
            }
        }
    }
    return used;
}

RemovalFigures removal_figures(const CaseState& removal, const Desk& desk, const Policy& current,
                               const Zone& zone) {
    RemovalFigures figures;
    figures.placement = placement_to_remove(removal, desk, current, zone);
    figures.recovered = recovered_at_removal(removal);
    if (figures.recovered) {
        const auto filled = figures.placement ? figures.placement->volume : std::nullopt;
        figures.compared =
            rules::recovered_volume(filled, *figures.recovered, current.removal.volume_tolerance_percent);
    }
    if (figures.placement && removal.out) {
        const auto day = zone.date_of(removal.out->stamp.happened);
        figures.days_in_place = days_between(figures.placement->placed, day);
        figures.timing = rules::removal_timing(day, figures.placement->due, figures.placement->latest,
                                               current.reg.early_window_days);
    }
    return figures;
}

std::optional<WeightOutcome> weight_outcome(const CaseState& removal, const Desk& desk, const Policy& current,
                                            const Zone& zone) {
    const auto placement = placement_to_remove(removal, desk, current, zone);
    const auto now = weight_of(removal);
    if (!placement || !placement->weight || placement->weight->in_tenths() <= 0 || !now) {
        return std::nullopt;
    }
    WeightOutcome outcome;
    outcome.start = Decimal::of_millionths(placement->weight->in_tenths() * (Decimal::scale / 10));
    outcome.reported = placement->reported;
    outcome.tbwl_percent = rules::tbwl_percent(*placement->weight, now->weight);
    if (const auto height = height_of(removal)) {
        outcome.ewl_percent =
            rules::ewl_percent(*placement->weight, now->weight, *height, current.body.ideal_bmi);
        outcome.bmi_loss = rules::bmi_loss(*placement->weight, now->weight, *height);
    }
    return outcome;
}

}  // namespace brimline

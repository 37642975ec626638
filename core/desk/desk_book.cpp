// Keeping the register ready.
#include "core/desk/desk_book.h"

#include <algorithm>

namespace brimline {
namespace {

/// Capital letters of ASCII as small ones; others as they are, so that a name is found as it was typed.
std::string folded(std::string_view text) {
    std::string small{text};
    std::transform(small.begin(), small.end(), small.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return small;
}

std::string key_of(const PatientKnown& patient) {
    return folded(patient.family_name.value_or("") + " " + patient.given_name.value_or("") + "\n" +
                  patient.number.value_or(""));
}

std::optional<LocalDate> day_of(const CaseState& state, const Zone& zone) {
    if (state.sedation_start) {
        return zone.date_of(state.sedation_start->happened);
    }
    return state.planned ? std::optional{zone.date_of(*state.planned)} : std::nullopt;
}

}  // namespace

bool DeskBook::before(const Line* a, const Line* b) {
    const auto& x = *a->entry;
    const auto& y = *b->entry;
    if (x.open() != y.open()) {
        return x.open();
    }
    const bool late_x = x.status == EntryStatus::overdue;
    const bool late_y = y.status == EntryStatus::overdue;
    if (late_x != late_y) {
        return late_x;
    }
    const auto date_x = x.open() ? x.next->date : x.placement.placed;
    const auto date_y = y.open() ? y.next->date : y.placement.placed;
    return date_x != date_y ? date_x < date_y : a->index < b->index;
}

void DeskBook::read(Line& line, const Desk& desk, const Policy& policy, const Zone& zone) {
    line.chain_length = line.state->chain_length;
    line.key = key_of(line.state->patient);
    line.day = day_of(*line.state, zone);
    line.planned = line.state->planned ? std::optional{zone.date_of(*line.state->planned)} : std::nullopt;
    line.finished = line.state->sealed || line.state->cancelled;
    line.entry = entry_on(*line.state, desk, policy, zone, on_);
}

void DeskBook::place(const Line& line) {
    if (line.entry) {
        order_.insert(std::upper_bound(order_.begin(), order_.end(), &line, before), &line);
        overdue_ += is_overdue(*line.entry, on_) ? 1U : 0U;
    }
}

void DeskBook::take_out(const Line& line) {
    if (line.entry) {
        order_.erase(std::lower_bound(order_.begin(), order_.end(), &line, before));
        overdue_ -= is_overdue(*line.entry, on_) ? 1U : 0U;
    }
}

void DeskBook::rebuild(const Desk& desk, const Policy& policy, const Zone& zone) {
    lines_.clear();
    order_.clear();
    by_name_.clear();
    overdue_ = 0;
    for (const auto& name : desk.case_order) {
        auto& line = lines_.emplace_back();
        line.state = desk.find_case(name);
        line.name = name;
        line.index = lines_.size() - 1;
        by_name_.emplace(name, line.index);
        if (line.state == nullptr) {
            continue;
        }
        read(line, desk, policy, zone);
        if (line.entry) {
            order_.push_back(&line);
            overdue_ += is_overdue(*line.entry, on_) ? 1U : 0U;
        }
    }
    std::sort(order_.begin(), order_.end(), before);
}

bool DeskBook::catch_up(const Desk& desk, const Policy& policy, const Zone& zone) {
    std::vector<Line*> changed;
    const auto note = [&](Line& line) {
        changed.push_back(&line);
        if (line.state->entry) {  // a removal: the entry that it takes out changes with it
            const auto placed = by_name_.find(case_part(*line.state->entry));
            if (placed != by_name_.end()) {
                changed.push_back(&lines_[placed->second]);
            }
        }
    };
    for (auto& line : lines_) {
        if (line.state == nullptr || line.state->name != line.name) {
            return false;
        }
        if (line.state->chain_length != line.chain_length) {
            note(line);
        }
    }
    for (auto i = lines_.size(); i < desk.case_order.size(); ++i) {
        const auto* state = desk.find_case(desk.case_order[i]);
        if (state == nullptr) {
            return false;
        }
        auto& line = lines_.emplace_back();
        line.state = state;
        line.name = desk.case_order[i];
        line.index = i;
        by_name_.emplace(line.name, i);
        note(line);
    }
    std::sort(changed.begin(), changed.end());
    changed.erase(std::unique(changed.begin(), changed.end()), changed.end());
    for (auto* line : changed) {
        take_out(*line);
        read(*line, desk, policy, zone);
        place(*line);
    }
    return true;
}

void DeskBook::follow(const Desk& desk, const Policy& policy, const Zone& zone, LocalDate on) {
    const auto active = std::count_if(desk.people.begin(), desk.people.end(),
                                      [](const auto& one) { return one.second.active; });
    const Since now{&desk,
                    desk.last_seq,
                    desk.people.size(),
                    static_cast<std::size_t>(active),
                    desk.policies.size(),
                    desk.policy ? desk.policy->hash : std::string{}};
    if (now == since_ && on == on_) {
        return;
    }
    auto same_base = since_;
    same_base.last_seq = now.last_seq;
    const bool grew = same_base == now && on == on_ && since_.last_seq <= now.last_seq &&
                      lines_.size() <= desk.case_order.size();
    since_ = now;
    on_ = on;
    if (!grew || !catch_up(desk, policy, zone)) {
        rebuild(desk, policy, zone);
    }
}

std::vector<std::size_t> DeskBook::named(std::string_view text) const {
    const auto wanted = folded(text);
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < order_.size(); ++i) {
        if (order_[i]->key.find(wanted) != std::string::npos) {
            found.push_back(i);
        }
    }
    return found;
}

std::vector<std::size_t> DeskBook::of_lot(std::string_view lot) const {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < order_.size(); ++i) {
        if (order_[i]->entry->placement.lot == lot) {
            found.push_back(i);
        }
    }
    return found;
}

void DeskBook::each_case_of(std::chrono::year_month month,
                            const std::function<void(const CaseState&)>& look) const {
    for (const auto& line : lines_) {
        if (line.state != nullptr && line.day && line.day->year() / line.day->month() == month &&
            !line.state->cancelled) {
            look(*line.state);
        }
    }
}

void DeskBook::each_on_hand(const std::function<void(const CaseState&)>& look) const {
    for (const auto& line : lines_) {
        if (line.state != nullptr && (!line.finished || !line.planned || *line.planned == on_)) {
            look(*line.state);
        }
    }
}

}  // namespace brimline

// The desk kept ready for its pages: every entry of the register in the order of urgency, and what a search,
// a day's list or a month needs of each case, brought up to date by what changed instead of folded anew for
// every look. It holds nothing of its own: the same desk gives the same book.
#pragma once
#include <chrono>
#include <deque>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/desk/register.h"

namespace brimline {

class DeskBook {
public:
    /// Brings the book to the desk as it stands and to a day. A change of a case costs that case and one look
    /// at each; a new day, another policy or other people cost everything. The desk must outlive what is read
    /// from the book until the next call.
    void follow(const Desk& desk, const Policy& policy, const Zone& zone, LocalDate on);

    [[nodiscard]] LocalDate on() const { return on_; }
    /// Entries, open and closed, as register_on orders them.
    [[nodiscard]] std::size_t size() const { return order_.size(); }
    [[nodiscard]] const RegisterEntry& at(std::size_t place) const { return *order_[place]->entry; }
    [[nodiscard]] std::size_t overdue() const { return overdue_; }
    /// Places of the entries whose patient's name or number holds the text, whatever its case, in their
    /// order.
    [[nodiscard]] std::vector<std::size_t> named(std::string_view text) const;
    /// Places of the entries with this lot.
    [[nodiscard]] std::vector<std::size_t> of_lot(std::string_view lot) const;
    /// Calls with each case of that month (by its sedation, else its plan), cancelled ones left out.
    void each_case_of(std::chrono::year_month month, const std::function<void(const CaseState&)>& look) const;

    /// Calls with each case that may stand on the list of its day: planned for it or not finished.
    void each_on_hand(const std::function<void(const CaseState&)>& look) const;

private:
    struct Line {
        const CaseState* state{};
        std::string name, key;  // of the case; of the patient, folded for the search
        std::int64_t chain_length{0};
        std::size_t index{0};  // in order of booking
        std::optional<LocalDate> day, planned;
        bool finished{false};
        std::optional<RegisterEntry> entry;
    };
    struct Since {
        const Desk* desk{};
        std::int64_t last_seq{-1};
        std::size_t people{0}, active{0}, policies{0};
        std::string policy;
        bool operator==(const Since&) const = default;
    };
    void rebuild(const Desk& desk, const Policy& policy, const Zone& zone);
    /// False when the desk is another one than before.
    [[nodiscard]] bool catch_up(const Desk& desk, const Policy& policy, const Zone& zone);
    void read(Line& line, const Desk& desk, const Policy& policy, const Zone& zone);
    void place(const Line& line);
    void take_out(const Line& line);
    [[nodiscard]] static bool before(const Line* a, const Line* b);

    Since since_;
    LocalDate on_{};
    std::deque<Line> lines_;          // as desk.case_order; addresses stay
    std::vector<const Line*> order_;  // those with an entry
    std::map<std::string, std::size_t, std::less<>> by_name_;
    std::size_t overdue_{0};
};

}  // namespace brimline

// A store read case by case, for exports: memory holds an index and one case, not the year. It changes
// nothing.
#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/loop/room.h"
#include "core/store/case_index.h"

namespace brimline::desk {

/// A case as the index knows it.
struct ListedCase {
    std::string id, name;
    std::int64_t seq{0};  // of its booking
    Instant booked{};
};

/// One case with all that its record refers to.
struct CaseFile {
    Desk desk;  // the people, the policies, this case and those it is tied to
    std::string name;
    std::vector<store::StoredEvent> rows;  // of the case, numbered through
    std::optional<store::SealedRow> sealed;
    std::optional<CaseState> as_sealed;  // how it stood at the seal; what came later is an addendum
    store::Key32 seal_key{};             // of the kiosk that sealed it
    std::vector<store::Finding> unreadable;

    [[nodiscard]] const CaseState& now() const { return *desk.find_case(name); }
    /// What the record tells: the case at its seal, else as it stands.
    [[nodiscard]] const CaseState& told() const { return as_sealed ? *as_sealed : now(); }
};

class Archive {
public:
    /// Errors: why the store cannot be read, with the program's exit code.
    [[nodiscard]] static tl::expected<Archive, RoomFault> open(const std::filesystem::path& data);
    /// In order of booking.
    [[nodiscard]] const std::vector<ListedCase>& cases() const { return cases_; }
    [[nodiscard]] bool holds(std::string_view name) const { return ids_.count(std::string{name}) != 0; }
    /// Empty when there is no such case.
    [[nodiscard]] std::optional<CaseFile> read(std::string_view name);
    /// Events that belong to no case, numbered through.
    [[nodiscard]] const std::vector<store::StoredEvent>& kiosk_rows() const { return kiosk_rows_; }
    [[nodiscard]] const Desk& desk() const { return base_; }  // people and policies; no case
    [[nodiscard]] const PolicyInForce& in_force() const { return in_force_; }
    [[nodiscard]] const std::vector<store::Finding>& damage() const { return damage_; }
    [[nodiscard]] store::Journal& journal() { return journal_; }
    /// The moment of the last entry in the store.
    [[nodiscard]] Instant last_entry() const { return last_entry_; }

private:
    explicit Archive(store::Journal journal) : journal_{std::move(journal)} {}
    [[nodiscard]] tl::expected<void, RoomFault> index(const store::CaseIndex& index);
    void take_kiosks(const store::CaseIndex& index);
    void take_cases(std::vector<store::StoredEvent> booked);
    void number_through(std::vector<store::StoredEvent>& rows) const;
    void fold_case(CaseFile& file, const std::string& id, bool own);

    store::Journal journal_;
    std::map<std::int64_t, std::int64_t> before_;  // by kiosk: numbers used up by those further back
    std::map<std::string, std::string> ids_;       // name -> id
    std::map<std::string, std::vector<std::string>> removals_;  // id of a placement -> ids of its removals
    std::map<std::string, std::string> placements_;             // id of a removal -> id of the placement
    std::vector<ListedCase> cases_;
    std::vector<store::StoredEvent> kiosk_rows_;
    Desk base_;
    PolicyInForce in_force_;
    std::vector<store::Finding> damage_;
    Instant last_entry_{};
};

}  // namespace brimline::desk

// The inputs of one worked example, read by name. They were checked against the rule's fields before, so that
// a type never surprises here; an absent field and null are the same.
#pragma once
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/desk/rules/written_time.h"
#include "core/clinic/policy.h"
#include "core/units/json_tree.h"

namespace brimline::worked {

/// Where zones come from; each is loaded once.
using Zones = std::function<const Zone&(const std::string&)>;

class Inputs {
public:
    /// Shape: all three outlive the inputs.
    Inputs(const JsonNode& object, const Policy& house, const Zones& zones)
        : object_{&object}, house_{&house}, zones_{&zones} {}

    [[nodiscard]] bool has(std::string_view name) const { return find(name) != nullptr; }
    /// "" where absent.
    [[nodiscard]] std::string text(std::string_view name) const;
    [[nodiscard]] bool truth(std::string_view name, bool otherwise = false) const;
    [[nodiscard]] std::optional<bool> maybe_truth(std::string_view name) const;
    [[nodiscard]] int whole(std::string_view name, int otherwise = 0) const;
    [[nodiscard]] std::optional<int> maybe_whole(std::string_view name) const;
    [[nodiscard]] Decimal decimal(std::string_view name, Decimal otherwise = {}) const;
    [[nodiscard]] std::optional<Decimal> maybe_decimal(std::string_view name) const;
    [[nodiscard]] Millilitres ml(std::string_view name, Millilitres otherwise = {}) const;
    [[nodiscard]] Kilograms kg(std::string_view name) const;
    [[nodiscard]] Centimetres cm(std::string_view name) const;
    [[nodiscard]] std::optional<Written> written(std::string_view name) const;
    /// The date of a time; the first of 1970 where absent.
    [[nodiscard]] LocalDate date(std::string_view name) const;
    [[nodiscard]] std::optional<LocalDate> maybe_date(std::string_view name) const;
    /// A moment written in UTC, or with its own offset.
    [[nodiscard]] Instant utc(std::string_view name) const;
    [[nodiscard]] std::optional<Instant> maybe_utc(std::string_view name) const;
    [[nodiscard]] const Zone& zone(std::string_view name) const { return (*zones_)(text(name)); }
    /// A member that is an object; an empty one where absent.
    [[nodiscard]] Inputs within(std::string_view name) const;
    [[nodiscard]] std::vector<Inputs> objects(std::string_view name) const;
    [[nodiscard]] std::vector<std::string> texts(std::string_view name) const;
    [[nodiscard]] std::vector<int> wholes(std::string_view name) const;
    [[nodiscard]] std::vector<Decimal> decimals(std::string_view name) const;
    [[nodiscard]] std::vector<LocalDate> dates(std::string_view name) const;
    /// The lists of a list of lists, each as times.
    [[nodiscard]] std::vector<std::vector<Written>> spans(std::string_view name) const;
    [[nodiscard]] std::vector<std::string> names() const;

    /// The house's defaults.
    [[nodiscard]] const Policy& house() const { return *house_; }
    /// What the example overrides of them.
    [[nodiscard]] Inputs policy() const { return within("policy"); }

private:
    const JsonNode* object_;
    const Policy* house_;
    const Zones* zones_;

    [[nodiscard]] const JsonNode* find(std::string_view name) const;
};

}  // namespace brimline::worked

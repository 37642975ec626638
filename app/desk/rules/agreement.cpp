// Compares what was expected with what came, kind by kind, in whole numbers.
#include <algorithm>

#include "app/desk/rules/outputs.h"
#include "app/desk/rules/written_time.h"

namespace brimline::worked {
namespace {

__extension__ using Wide = __int128;
using Node = JsonNode::Kind;

constexpr int fine_places = 9;  // digits behind the point that an expected number is read to
constexpr Wide fine_unit = 1'000'000'000;

/// "24.977043158" in units of 1e-9; further digits are cut. Empty when it is no number, or beyond 1e9.
std::optional<Wide> fine_number(const JsonNode& node) {
    if (!node.is(Node::number) && !node.is(Node::text)) {
        return std::nullopt;
    }
    if (const auto decimal = Decimal::parse(node.text)) {
        return static_cast<Wide>(decimal->in_millionths()) * 1000;
    }
    const auto point = node.text.find('.');
    const auto whole = Decimal::parse(node.text.substr(0, point));
    if (!whole || point == std::string::npos || node.text.find_first_of("eE") != std::string::npos) {
        return std::nullopt;
    }
    Wide rest = 0;
    for (std::size_t i = 1; i <= fine_places; ++i) {
        const char c = point + i < node.text.size() ? node.text[point + i] : '0';
        if (c < '0' || c > '9') {
            return std::nullopt;
        }
        rest = rest * 10 + (c - '0');
    }
    const bool negative = node.text.front() == '-';
    return static_cast<Wide>(whole->in_millionths()) * 1000 + (negative ? -rest : rest);
}

bool near(const Fraction& got, Wide expected, Wide tolerance) {
    const Wide apart = static_cast<Wide>(got.numerator()) * fine_unit - expected * got.denominator();
    return (apart < 0 ? -apart : apart) <= tolerance * got.denominator();
}

bool clock_agrees(const Written& written, const Moment& moment) {
    static const Zone utc;
    const LocalTime local = (moment.zone == nullptr ? utc : *moment.zone).local(moment.at);
    if (written.offset && written.date) {
        return written.as_utc() == moment.at;
    }
    if (!written.date) {
        return written.of_day == local.of_day;
    }
    return written.date == local.date && written.of_day.value_or(Duration{}) == local.of_day;
}

class Agreement {
public:
    explicit Agreement(Wide tolerance) : tolerance_{tolerance} {}

    [[nodiscard]] bool of(const JsonNode& expected, const Value& got) const {
        return std::visit([&](const auto& value) { return agrees(expected, value); }, got.is);
    }
    /// The same things in any order: each that is expected takes one that came.
    [[nodiscard]] bool of_sets(const JsonNode& expected, Values got) const {
        if (!expected.is(Node::list) || expected.items.size() != got.size()) {
            return false;
        }
        return std::all_of(expected.items.begin(), expected.items.end(), [&](const JsonNode& item) {
            const auto same =
                std::find_if(got.begin(), got.end(), [&](const Value& value) { return of(item, value); });
            if (same == got.end()) {
                return false;
            }
            got.erase(same);
            return true;
        });
    }

private:
    Wide tolerance_;

    [[nodiscard]] bool agrees(const JsonNode& e, bool got) const {
        return e.is(Node::boolean) && e.truth == got;
    }
    [[nodiscard]] bool agrees(const JsonNode& e, std::int64_t got) const {
        const auto expected = fine_number(e);
        return expected && near(Fraction{got, 1}, *expected, tolerance_);
    }
    [[nodiscard]] bool agrees(const JsonNode& e, const Number& got) const {
        const auto expected = fine_number(e);
        return expected && (near(Fraction{got.shown}, *expected, tolerance_) ||
                            (!got.only_as_shown && near(got.exact, *expected, tolerance_)));
    }
    [[nodiscard]] bool agrees(const JsonNode& e, const std::string& got) const {
        return (e.is(Node::text) || e.is(Node::number)) && e.text == got;
    }
    [[nodiscard]] bool agrees(const JsonNode& e, LocalDate got) const {
        const auto written = e.is(Node::text) ? read_written(e.text) : std::nullopt;
        return written && written->date == got;
    }
    [[nodiscard]] bool agrees(const JsonNode& e, const Moment& got) const {
        const auto written = e.is(Node::text) ? read_written(e.text) : std::nullopt;
        return written && clock_agrees(*written, got);
    }
    /// The first and the last date, or every date.
    [[nodiscard]] bool agrees(const JsonNode& e, const DateSpan& got) const {
        if (!e.is(Node::list) || e.items.empty()) {
            return false;
        }
        const auto days = static_cast<std::size_t>(days_between(got.first, got.last)) + 1;
        if (e.items.size() == 2 || e.items.size() != days) {
            return e.items.size() == 2 && agrees(e.items[0], got.first) && agrees(e.items[1], got.last);
        }
        for (std::size_t i = 0; i < days; ++i) {
            if (!agrees(e.items[i], add_days(got.first, static_cast<int>(i)))) {
                return false;
            }
        }
        return true;
    }
    [[nodiscard]] bool agrees(const JsonNode& e, const Values& got) const {
        return e.is(Node::list) &&
               std::equal(e.items.begin(), e.items.end(), got.begin(), got.end(),
                          [&](const JsonNode& item, const Value& value) { return of(item, value); });
    }
    /// An object agrees by the members expected alone.
    [[nodiscard]] bool agrees(const JsonNode& e, const Members& got) const {
        return e.is(Node::object) &&
               std::all_of(e.members.begin(), e.members.end(), [&](const JsonMember& m) {
                   const auto found =
                       std::find_if(got.begin(), got.end(), [&](const auto& g) { return g.first == m.name; });
                   return found == got.end() ? m.value.is(Node::null) : of(m.value, found->second);
               });
    }
};

}  // namespace

std::vector<std::string> disagreements(const JsonNode& expected, const Outputs& got,
                                       const std::vector<std::string>& sets, const JsonNode* tolerance) {
    const Agreement agreement{tolerance == nullptr ? 0 : fine_number(*tolerance).value_or(0)};
    std::vector<std::string> apart;
    for (const JsonMember& member : expected.members) {
        const Value* value = got.find(member.name);
        const bool any_order = std::find(sets.begin(), sets.end(), member.name) != sets.end();
        const auto* list = value == nullptr ? nullptr : std::get_if<Values>(&value->is);
        const bool same = value == nullptr    ? member.value.is(Node::null)
                          : any_order && list ? agreement.of_sets(member.value, *list)
                                              : agreement.of(member.value, *value);
        if (!same) {
            apart.push_back(member.name);
        }
    }
    return apart;
}

}  // namespace brimline::worked

// The rule by which a zone goes on after its last tabled change.
#include "core/store/zone_rule.h"

#include <algorithm>
#include <utility>

namespace brimline::store {
namespace {

using std::chrono::seconds;

/// Reads from the front of a text; after a failure nothing more is read.
class Reader {
public:
    explicit Reader(std::string_view text) : rest_{text} {}
    [[nodiscard]] bool good() const { return good_; }
    [[nodiscard]] bool at_end() const { return rest_.empty(); }

    bool take(char c) {
        if (rest_.empty() || rest_.front() != c) {
            return false;
        }
        rest_.remove_prefix(1);
        return true;
    }
    void need(char c) { good_ = take(c) && good_; }

    /// A whole number from `least` to `most`, without a sign.
    int number(int least, int most) {
        int n = 0;
        int digits = 0;
        for (; digits < 3 && !rest_.empty() && rest_.front() >= '0' && rest_.front() <= '9'; ++digits) {
            n = n * 10 + (rest_.front() - '0');
            rest_.remove_prefix(1);
        }
        good_ = good_ && digits > 0 && n >= least && n <= most;
        return n;
    }
    /// [+|-]h[h[h]][:mm[:ss]]
    seconds clock(int most_hours) {
        const bool minus = take('-');
        if (!minus) {
            take('+');
        }
        int total = number(0, most_hours) * 3600;
        if (take(':')) {
            total += number(0, 59) * 60;
            if (take(':')) {
                total += number(0, 59);
            }
        }
        return seconds{minus ? -total : total};
    }
    /// Three or more letters, or anything in angle brackets.
    void name() {
        const bool bracket = take('<');
        std::size_t length = 0;
        const auto belongs = [bracket](char c) {
            const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
            return letter || (bracket && ((c >= '0' && c <= '9') || c == '+' || c == '-'));
        };
        while (length < rest_.size() && belongs(rest_[length])) {
            ++length;
        }
        rest_.remove_prefix(length);
        good_ = good_ && length >= 3;
        if (bracket) {
            need('>');
        }
    }

private:
    std::string_view rest_;
    bool good_{true};
};

ZoneRuleDay read_day(Reader& reader) {
    ZoneRuleDay day;
    if (reader.take('M')) {
        day.month = reader.number(1, 12);
        reader.need('.');
        day.week = reader.number(1, 5);
        reader.need('.');
        day.weekday = reader.number(0, 6);
    } else if (reader.take('J')) {
        day.kind = ZoneRuleDay::Kind::day_without_leap;
        day.day = reader.number(1, 365);
    } else {
        day.kind = ZoneRuleDay::Kind::day_from_zero;
        day.day = reader.number(0, 365);
    }
    if (reader.take('/')) {
        day.at = reader.clock(167);
    }
    return day;
}

/// The day as days since 1970.
std::chrono::sys_days day_in(const ZoneRuleDay& rule, int y) {
    namespace chr = std::chrono;
    const chr::year year{y};
    switch (rule.kind) {
        case ZoneRuleDay::Kind::week_of_month: {
            const chr::month month{static_cast<unsigned>(rule.month)};
            const chr::weekday weekday{static_cast<unsigned>(rule.weekday)};
            if (rule.week == 5) {
                return chr::sys_days{chr::year_month_weekday_last{year, month, chr::weekday_last{weekday}}};
            }
            return chr::sys_days{year / month / weekday[static_cast<unsigned>(rule.week)]};
        }
        case ZoneRuleDay::Kind::day_without_leap: {
            const int past_february = year.is_leap() && rule.day >= 60 ? 1 : 0;
            return chr::sys_days{year / chr::January / 1} + chr::days{rule.day - 1 + past_february};
        }
        case ZoneRuleDay::Kind::day_from_zero:
            break;
    }
    return chr::sys_days{year / chr::January / 1} + chr::days{rule.day};
}

Instant moment(const ZoneRuleDay& rule, int year, seconds offset_before) {
    const auto at = day_in(rule, year).time_since_epoch() + rule.at - offset_before;
    return Instant::of_us(std::chrono::duration_cast<Duration>(at).count());
}

}  // namespace

std::optional<ZoneRule> parse_zone_rule(std::string_view text) {
    using std::chrono::hours;
    Reader reader{text};
    ZoneRule rule;
    reader.name();
    rule.standard = -reader.clock(24);  // written west of Greenwich
    rule.summer = rule.standard + hours{1};
    if (!reader.good()) {
        return std::nullopt;
    }
    if (reader.at_end()) {
        return rule;
    }
    reader.name();
    if (!reader.take(',')) {
        rule.summer = -reader.clock(24);
        reader.need(',');
    }
    ZoneRule::Change change;
    change.summer_begins = read_day(reader);
    reader.need(',');
    change.summer_ends = read_day(reader);
    rule.change = change;
    return reader.good() && reader.at_end() ? std::optional{rule} : std::nullopt;
}

std::vector<Zone::Row> changes_in(const ZoneRule& rule, int year) {
    if (!rule.change) {
        return {};
    }
    std::vector<Zone::Row> rows{{moment(rule.change->summer_begins, year, rule.standard), rule.summer},
                                {moment(rule.change->summer_ends, year, rule.summer), rule.standard}};
    if (rows[1].from < rows[0].from) {
        std::swap(rows[0], rows[1]);
    }
    return rows;
}

}  // namespace brimline::store

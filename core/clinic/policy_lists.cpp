// Reads and writes the policy's lists of objects: checks, items, drugs and device profiles.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "core/clinic/nearest.h"
#include "core/clinic/policy_schema.h"
#include "core/label/gtin.h"

namespace brimline::schema {
namespace {

using Kind = JsonNode::Kind;
using Names = std::vector<std::string_view>;

/// Reads the members of one object by name and remembers the first thing that is wrong.
class Fields {
public:
    Fields(const JsonNode& object, Names known) : object_{object}, known_{std::move(known)} {
        if (!object.is(Kind::object)) {
            wrong_ = fmt::format("must hold objects only, and holds {}", kind_words(object.kind));
            return;
        }
        for (const JsonMember& member : object.members) {
            if (std::find(known_.begin(), known_.end(), member.name) == known_.end()) {
                const std::string near = nearest_id(member.name, known_);
                fail(member.name, near.empty()
                                      ? "is no member of this list"
                                      : fmt::format("is no member of this list, did you mean \"{}\"?", near));
            }
        }
    }

    [[nodiscard]] const JsonNode* find(std::string_view name) const { return object_.find(name); }
    std::string text(std::string_view name, bool needed = true) {
        const JsonNode* node = object_.find(name);
        if (node == nullptr && !needed) {
            return {};
        }
        if (node == nullptr || !node->is(Kind::text) || (needed && node->text.empty())) {
            fail(name, "must be a text");
            return {};
        }
        return node->text;
    }
    std::string word(std::string_view name, const Names& allowed) {
        std::string value = text(name);
        if (!wrong_ && std::find(allowed.begin(), allowed.end(), value) == allowed.end()) {
            fail(name, fmt::format("is \"{}\", allowed is {}", value, fmt::join(allowed, ", ")));
        }
        return value;
    }
    std::string id() {
        std::string value = text("id");
        if (!wrong_ && !id_good(value)) {
            fail("id", fmt::format("is \"{}\", allowed are small letters, digits and single hyphens", value));
        }
        return value;
    }
    std::optional<Decimal> positive(std::string_view name) {
        const JsonNode* node = object_.find(name);
        return node == nullptr ? std::nullopt : number(*node, name);
    }
    std::vector<Decimal> positives(std::string_view name) {
        std::vector<Decimal> values;
        if (const JsonNode* node = object_.find(name)) {
            if (!node->is(Kind::list)) {
                fail(name, "must be a list of numbers");
            }
            for (const JsonNode& item : node->items) {
                values.push_back(number(item, name).value_or(Decimal{}));
            }
        }
        return values;
    }
    Millilitres millilitres(std::string_view name) {
        const JsonNode* node = object_.find(name);
        return node == nullptr ? missing_volume(name) : volume(*node, name);
    }
    std::pair<Millilitres, Millilitres> span(std::string_view name) {
        const JsonNode* node = object_.find(name);
        if (node == nullptr || !node->is(Kind::list) || node->items.size() != 2) {
            fail(name, "must be [low, high] in mL");
            return {};
        }
        return {volume(node->items[0], name), volume(node->items[1], name)};
    }
    void fail(std::string_view name, std::string_view say) {
        if (!wrong_) {
            const JsonNode* id = object_.find("id");
            const JsonNode* gtin = object_.find("gtin");
            const std::string which = id != nullptr ? id->text : gtin != nullptr ? gtin->text : "";
            wrong_ = fmt::format("has {}\"{}\" that {}", which.empty() ? "" : which + ": ", name, say);
        }
    }
    [[nodiscard]] const Wrong& wrong() const { return wrong_; }

private:
    const JsonNode& object_;
    Names known_;
    Wrong wrong_;

    std::optional<Decimal> number(const JsonNode& node, std::string_view name) {
        const auto value = node.decimal();
        if (!value || *value <= Decimal{} || *value > Decimal::of(1'000'000)) {
            fail(name, "must be a number above 0 of at most six decimals");
            return std::nullopt;
        }
        return value;
    }
    Millilitres volume(const JsonNode& node, std::string_view name) {
        const auto value = number(node, name);
        const auto tenths = value ? value->whole(10) : std::nullopt;
        if (value && !tenths) {
            fail(name, "must be mL with at most one decimal");
        }
        return Millilitres::of_tenths(tenths.value_or(0));
    }
    Millilitres missing_volume(std::string_view name) {
        fail(name, "must be mL with at most one decimal");
        return {};
    }
};

/// Reads a list of objects; ids (or GTINs) stand once.
template <class T, class ReadOne>
Wrong read_objects(const JsonNode& value, std::vector<T>& into, ReadOne read_one) {
    if (!value.is(Kind::list)) {
        return fmt::format("must be a list, and is {}", kind_words(value.kind));
    }
    into.clear();
    std::set<std::string> seen;
    for (const JsonNode& node : value.items) {
        T item{};
        std::string id;
        if (const Wrong wrong = read_one(node, item, id)) {
            return wrong;
        }
        if (!seen.insert(id).second) {
            return fmt::format("holds \"{}\" twice", id);
        }
        into.push_back(std::move(item));
    }
    return std::nullopt;
}

Wrong read_check(const JsonNode& node, Check& check, std::string& id) {
    Fields f{node, {"id", "words", "good", "hold_class", "roles", "source"}};
    id = check.id = f.id();
    check.words = f.text("words");
    check.good = f.word("good", {"yes", "no"});
    check.hold_class = f.word("hold_class", {"stop", "absolute", "relative", "review"});
    const JsonNode* roles = f.find("roles");
    if (roles != nullptr && !roles->is(Kind::list)) {
        f.fail("roles", "must be a list of roles");
    } else if (roles != nullptr) {
        for (const JsonNode& role : roles->items) {
            const auto known = role.is(Kind::text) ? role_named(role.text) : std::nullopt;
            if (!known) {
                f.fail("roles", fmt::format("must hold roles only: {}", fmt::join(role_names, ", ")));
                break;
            }
            check.roles.push_back(*known);
        }
    }
    return f.wrong();
}

void read_usual(Fields& f, Drug& drug) {
    const auto usual = f.positives("usual");
    if (usual.empty()) {
        return;
    }
    if (usual.size() != 2 || usual[1] < usual[0]) {
        f.fail("usual", "must be [low, high]");
        return;
    }
    drug.usual_low = usual[0];
    drug.usual_high = usual[1];
    for (const Decimal chip : drug.chips) {
        if (chip < usual[0] || usual[1] < chip) {
            f.fail("chips", fmt::format("hold {}, outside the usual {} to {}", chip.text(), usual[0].text(),
                                        usual[1].text()));
        }
    }
}

Wrong read_drug(const JsonNode& node, Drug& drug, std::string& id) {
    static const std::map<std::string, std::string, std::less<>> shown{
        {"mg", "mg"}, {"ug", "mcg"}, {"mL", "mL"}};
    Fields f{node,
             {"id", "words", "unit", "per_ml", "route", "kind", "usual", "chips", "remind_above",
              "remind_above_older", "remind_per_kg", "source"}};
    id = drug.id = f.id();
    drug.words = f.text("words");
    drug.unit = f.word("unit", {"mg", "ug", "mL"});
    drug.route = f.text("route");
    drug.kind = f.word("kind", {"sedative", "opioid", "reversal", "other"});
    drug.per_ml = f.positive("per_ml");
    drug.chips = f.positives("chips");
    read_usual(f, drug);
    drug.remind_above = f.positive("remind_above");
    drug.remind_above_older = f.positive("remind_above_older");
    drug.remind_per_kg = f.positive("remind_per_kg");
    if (const auto unit = shown.find(drug.unit); unit != shown.end()) {
        drug.unit_words = unit->second;
    }
    if (drug.unit == "mL" && drug.per_ml) {
        f.fail("per_ml", "makes no sense for a drug counted in mL");
    }
    return f.wrong();
}

/// Months, days or both, as the leaflet counts; the shorter rules.
void read_dwell(Fields& f, DeviceProfile& device) {
    const auto whole = [&](const char* name) {
        const JsonNode* node = f.find(name);
        return node == nullptr ? std::optional<std::int64_t>{} : node->whole().value_or(-1);
    };
    constexpr int longest_months = 12;
    const auto days = whole("dwell_days");
    const auto months = days && f.find("dwell_months") == nullptr ? longest_months : whole("dwell_months");
    if (!months || *months < 1 || *months > longest_months) {
        f.fail("dwell_months", "must be 1 to 12 months");
    }
    if (days && (*days < 30 || *days > 365)) {
        f.fail("dwell_days", "must be 30 to 365 days");
    }
    device.dwell_months = static_cast<int>(std::clamp<std::int64_t>(months.value_or(1), 1, longest_months));
    device.dwell_days = static_cast<int>(days.value_or(0));
}

Wrong read_device(const JsonNode& node, DeviceProfile& device, std::string& id) {
    Fields f{node,
             {"gtin", "words", "range_ml", "syringe_ml", "band_ml", "aim_ml", "dwell_months", "dwell_days",
              "ready_words", "card_name", "card_type", "maker", "maker_address", "maker_website", "source"}};
    const std::string typed = f.text("gtin");
    const auto gtin = parse_gtin(typed);
    if (!gtin) {
        f.fail("gtin", "is no GTIN: " + gtin.error().sentence);
        return f.wrong();
    }
    id = device.gtin = *gtin;
    device.words = f.text("words");
    device.ready_words = f.text("ready_words");
    device.card_name = f.text("card_name", false);
    device.card_type = f.text("card_type", false);
    device.maker = f.text("maker", false);
    device.maker_address = f.text("maker_address", false);
    device.maker_website = f.text("maker_website", false);
    std::tie(device.least, device.ceiling) = f.span("range_ml");
    std::tie(device.band_low, device.band_high) = f.span("band_ml");
    device.aim = f.millilitres("aim_ml");
    device.syringe = f.millilitres("syringe_ml");
    read_dwell(f, device);
    if (device.least > device.band_low || device.band_low > device.aim || device.aim > device.band_high ||
        device.band_high > device.ceiling) {
        f.fail("band_ml", "breaks the order: least, band start, aim, band end, ceiling");
    }
    return f.wrong();
}

Wrong read_sheet(const JsonNode& node, SheetApproval& sheet, std::string& id) {
    Fields f{node, {"language", "version", "date", "approver", "source"}};
    id = sheet.language = f.text("language");
    if (!f.wrong() && (sheet.language.size() != 2 || !id_good(sheet.language))) {
        f.fail("language", "must be two small letters, like en");
    }
    sheet.version = f.text("version");
    sheet.approver = f.text("approver");
    const auto date = parse_date(f.text("date"));
    if (!f.wrong() && !date) {
        f.fail("date", "is no date like 2026-11-02");
    }
    sheet.date = date.value_or(LocalDate{});
    return f.wrong();
}

/// Members in order of name, empty ones left out.
class Writer {
public:
    void text(const std::string& name, const std::string& value) { parts_[name] = json_quoted(value); }
    void text_if_any(const std::string& name, const std::string& value) {
        if (!value.empty()) {
            text(name, value);
        }
    }
    void texts(const std::string& name, const std::vector<std::string_view>& values) {
        std::vector<std::string> quoted;
        std::transform(values.begin(), values.end(), std::back_inserter(quoted), json_quoted);
        parts_[name] = fmt::format("[{}]", fmt::join(quoted, ","));
    }
    void number(const std::string& name, Decimal value) { parts_[name] = value.text(); }
    void number(const std::string& name, const std::optional<Decimal>& value) {
        if (value) {
            number(name, *value);
        }
    }
    void numbers(const std::string& name, const std::vector<Decimal>& values) {
        std::vector<std::string> texts;
        std::transform(values.begin(), values.end(), std::back_inserter(texts),
                       [](Decimal d) { return d.text(); });
        parts_[name] = fmt::format("[{}]", fmt::join(texts, ","));
    }
    [[nodiscard]] std::string done() const {
        std::vector<std::string> members;
        for (const auto& [name, value] : parts_) {
            members.push_back(json_quoted(name) + ":" + value);
        }
        return fmt::format("{{{}}}", fmt::join(members, ","));
    }

private:
    std::map<std::string, std::string> parts_;
};

Decimal plain(Millilitres volume) { return ratio(volume.in_tenths(), 10, 1); }

std::string one(const Check& check) {
    Writer w;
    w.text("id", check.id);
    w.text("words", check.words);
    w.text("good", check.good);
    w.text("hold_class", check.hold_class);
    std::vector<std::string_view> roles;
    std::transform(check.roles.begin(), check.roles.end(), std::back_inserter(roles),
                   [](Role role) { return name_of(role); });
    w.texts("roles", roles);
    return w.done();
}
std::string one(const ListItem& item) {
    Writer w;
    w.text("id", item.id);
    w.text("words", item.words);
    return w.done();
}
std::string one(const Drug& drug) {
    Writer w;
    w.text("id", drug.id);
    w.text("words", drug.words);
    w.text("unit", drug.unit);
    w.text("route", drug.route);
    w.text("kind", drug.kind);
    w.number("per_ml", drug.per_ml);
    w.numbers("chips", drug.chips);
    if (drug.usual_low && drug.usual_high) {
        w.numbers("usual", {*drug.usual_low, *drug.usual_high});
    }
    w.number("remind_above", drug.remind_above);
    w.number("remind_above_older", drug.remind_above_older);
    w.number("remind_per_kg", drug.remind_per_kg);
    return w.done();
}
std::string one(const DeviceProfile& device) {
    Writer w;
    w.text("gtin", device.gtin);
    w.text("words", device.words);
    w.text("ready_words", device.ready_words);
    w.numbers("range_ml", {plain(device.least), plain(device.ceiling)});
    w.numbers("band_ml", {plain(device.band_low), plain(device.band_high)});
    w.number("aim_ml", plain(device.aim));
    w.number("syringe_ml", plain(device.syringe));
    w.number("dwell_months", Decimal::of(device.dwell_months));
    if (device.dwell_days > 0) {
        w.number("dwell_days", Decimal::of(device.dwell_days));
    }
    w.text_if_any("card_name", device.card_name);
    w.text_if_any("card_type", device.card_type);
    w.text_if_any("maker", device.maker);
    w.text_if_any("maker_address", device.maker_address);
    w.text_if_any("maker_website", device.maker_website);
    return w.done();
}
std::string one(const SheetApproval& sheet) {
    Writer w;
    w.text("language", sheet.language);
    w.text("version", sheet.version);
    w.text("date", date_text(sheet.date));
    w.text("approver", sheet.approver);
    return w.done();
}

template <class T>
std::string all_of(const std::vector<T>& list) {
    std::vector<std::string> texts;
    std::transform(list.begin(), list.end(), std::back_inserter(texts),
                   [](const T& item) { return one(item); });
    return fmt::format("[{}]", fmt::join(texts, ","));
}

}  // namespace

bool id_good(std::string_view text) {
    const auto plain_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); };
    if (text.empty() || text.size() > 60 || !plain_letter(text.front()) || !plain_letter(text.back())) {
        return false;
    }
    return text.find("--") == std::string_view::npos &&
           std::all_of(text.begin(), text.end(), [&](char c) { return plain_letter(c) || c == '-'; });
}

Wrong read_list(const JsonNode& value, std::vector<Check>& into) {
    return read_objects(value, into, read_check);
}
Wrong read_list(const JsonNode& value, std::vector<ListItem>& into) {
    return read_objects(value, into, [](const JsonNode& node, ListItem& item, std::string& id) {
        Fields f{node, {"id", "words", "source"}};
        id = item.id = f.id();
        item.words = f.text("words");
        return f.wrong();
    });
}
Wrong read_list(const JsonNode& value, std::vector<Drug>& into) {
    return read_objects(value, into, read_drug);
}
Wrong read_list(const JsonNode& value, std::vector<DeviceProfile>& into) {
    return read_objects(value, into, read_device);
}
Wrong read_list(const JsonNode& value, std::vector<SheetApproval>& into) {
    return read_objects(value, into, read_sheet);
}

std::string write_list(const std::vector<Check>& list) { return all_of(list); }
std::string write_list(const std::vector<ListItem>& list) { return all_of(list); }
std::string write_list(const std::vector<Drug>& list) { return all_of(list); }
std::string write_list(const std::vector<DeviceProfile>& list) { return all_of(list); }
std::string write_list(const std::vector<SheetApproval>& list) { return all_of(list); }

}  // namespace brimline::schema

// Reads the clinic policy: house files, the clinic's overlay on top, and the canonical text that the journal
// keeps.
#include "core/clinic/policy.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "core/clinic/nearest.h"
#include "core/clinic/policy_schema.h"
#include "core/clinic/policy_text.h"

namespace brimline {
namespace {

using schema::Key;
using schema::keys;
using Faults = std::vector<PolicyFault>;
using Kind = JsonNode::Kind;

const Key* key_named(std::string_view name) {
    const auto& all = keys();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Key& key) { return key.name == name; });
    return found == all.end() ? nullptr : &*found;
}

std::vector<std::string> key_names() {
    std::vector<std::string> names;
    std::transform(keys().begin(), keys().end(), std::back_inserter(names),
                   [](const Key& key) { return std::string{key.name}; });
    return names;
}

std::vector<std::string> file_names() {
    std::set<std::string> names;
    for (const Key& key : keys()) {
        names.insert(schema::file_of(key.name));
    }
    return {names.begin(), names.end()};
}

/// Whether the written range is the schema's: a clinic reads it there, so it must not lie.
bool same_range(const Key& key, const JsonNode& written) {
    if (key.range) {
        return written.is(Kind::list) && written.items.size() == 2 &&
               written.items[0].decimal() == key.range->low && written.items[1].decimal() == key.range->high;
    }
    return written.is(Kind::list) && !key.allowed.empty() &&
           std::equal(written.items.begin(), written.items.end(), key.allowed.begin(), key.allowed.end(),
                      [](const JsonNode& item, std::string_view word) { return item.text == word; });
}

/// Reads one layer of files into a policy and remembers which keys were given.
class Layer {
public:
    Layer(Policy& policy, bool house, Faults& faults) : policy_{policy}, faults_{faults}, house_{house} {}

    void read(const PolicyFile& file) {
        file_ = file.name;
        const auto names = file_names();
        if (std::find(names.begin(), names.end(), file.name) == names.end()) {
            fault("", "is no file of the policy" + did_you_mean(file.name, names));
            return;
        }
        const auto tree = read_json(file.text);
        if (!tree) {
            fault("", "cannot be read: " + tree.error().say);
            return;
        }
        if (!tree->is(Kind::object)) {
            fault("", "must be an object of keys, and is " + std::string{kind_words(tree->kind)});
            return;
        }
        for (const JsonMember& member : tree->members) {
            read_key(member);
        }
    }

    [[nodiscard]] const std::set<std::string_view>& given() const { return given_; }

private:
    Policy& policy_;
    Faults& faults_;
    std::string file_;
    std::set<std::string_view> given_;
    bool house_;

    void fault(std::string_view key, std::string say) {
        faults_.push_back({file_, std::string{key}, std::move(say)});
    }

    void read_key(const JsonMember& member) {
        const Key* key = key_named(member.name);
        if (key == nullptr) {
            fault(member.name, "is no key of the policy" + did_you_mean(member.name, key_names()));
            return;
        }
        if (schema::file_of(key->name) != file_) {
            fault(member.name, "belongs in " + schema::file_of(key->name));
            return;
        }
        given_.insert(key->name);  // a bad value is named once, not also as missing
        const JsonNode* value = member.value.find("value");
        if (value == nullptr) {
            fault(member.name, R"(needs {"value": ...})");
            return;
        }
        Policy with = policy_;  // a value that does not fit leaves the one below in force
        if (const auto wrong = schema::read_value(*key, *value, with)) {
            fault(member.name, *wrong);
        } else {
            policy_ = std::move(with);
        }
        check_beside(*key, member.value);
    }

    /// What stands beside the value: unit and range must be true, source and sentence must be there in the
    /// house files.
    void check_beside(const Key& key, const JsonNode& entry) {
        static const std::vector<std::string> known{"value", "unit", "range", "source", "sentence"};
        for (const JsonMember& member : entry.members) {
            if (std::find(known.begin(), known.end(), member.name) == known.end()) {
                fault(key.name, fmt::format("has \"{}\", which is not known{}", member.name,
                                            did_you_mean(member.name, known)));
            }
        }
        const JsonNode* unit = entry.find("unit");
        if ((unit != nullptr || (house_ && !key.unit.empty())) &&
            (unit == nullptr || unit->text != key.unit)) {
            fault(key.name, fmt::format("must have the unit \"{}\"", key.unit));
        }
        const JsonNode* range = entry.find("range");
        const bool ranged = key.range || !key.allowed.empty();
        if ((range != nullptr || (house_ && ranged)) && (range == nullptr || !same_range(key, *range))) {
            fault(key.name,
                  ranged ? "must have the range of the program; it is part of the rule, not of the clinic"
                         : "takes no range");
        }
        for (const std::string_view name : {"source", "sentence"}) {
            const JsonNode* text = entry.find(name);
            if (text != nullptr ? !text->is(Kind::text) || text->text.empty() : house_) {
                fault(key.name, fmt::format("needs a {}", name));
            }
        }
    }
};

/// Every key as canonical JSON, in order of name.
std::string canonical(const Policy& policy) {
    std::map<std::string_view, std::string> parts;
    for (const Key& key : keys()) {
        parts.emplace(key.name, schema::write_value(key, policy));
    }
    std::vector<std::string> members;
    for (const auto& [name, value] : parts) {
        members.push_back(fmt::format("\"{}\":{}", name, value));
    }
    return fmt::format("{{{}}}", fmt::join(members, ","));
}

/// `whole`: every key has a value, so that what must hold between keys can be judged beside other faults; a
/// key that was faulted already is not named again.
tl::expected<Policy, Faults> finished(Policy policy, Faults faults, bool whole) {
    if (whole) {
        for (PolicyFault& crossed : schema::cross_check(policy)) {
            const bool known = std::any_of(faults.begin(), faults.end(), [&](const PolicyFault& fault) {
                return fault.key == crossed.key;
            });
            if (!known) {
                faults.push_back(std::move(crossed));
            }
        }
    }
    if (!faults.empty()) {
        return tl::unexpected{std::move(faults)};
    }
    policy.text = canonical(policy);
    return policy;
}

}  // namespace

const Drug* Policy::drug(std::string_view id) const {
    const auto found =
        std::find_if(formulary.begin(), formulary.end(), [&](const Drug& d) { return d.id == id; });
    return found == formulary.end() ? nullptr : &*found;
}

const DeviceProfile* Policy::device(std::string_view gtin) const {
    const auto found =
        std::find_if(devices.begin(), devices.end(), [&](const DeviceProfile& d) { return d.gtin == gtin; });
    return found == devices.end() ? nullptr : &*found;
}

const SheetApproval* Policy::sheet(std::string_view language) const {
    const auto found = std::find_if(print.sheets.begin(), print.sheets.end(),
                                    [&](const SheetApproval& s) { return s.language == language; });
    return found == print.sheets.end() ? nullptr : &*found;
}

tl::expected<Policy, Faults> read_policy(const std::vector<PolicyFile>& house,
                                         const std::vector<PolicyFile>& overlay) {
    Policy policy{};
    Faults faults;
    Layer below{policy, true, faults};
    for (const PolicyFile& file : house) {
        below.read(file);
    }
    for (const Key& key : keys()) {
        if (below.given().count(key.name) == 0) {
            faults.push_back({schema::file_of(key.name), std::string{key.name}, "is missing"});
        }
    }
    const bool house_good = faults.empty();
    Layer above{policy, false, faults};
    for (const PolicyFile& file : overlay) {
        above.read(file);
    }
    return finished(std::move(policy), std::move(faults), house_good);
}

namespace {

tl::expected<Policy, Faults> read_text(std::string_view text, const Policy* below) {
    static const std::string where = "policy of the journal";
    const auto tree = read_json(text);
    if (!tree || !tree->is(Kind::object)) {
        return tl::unexpected{
            Faults{{where, "", tree ? "must be an object" : "cannot be read: " + tree.error().say}}};
    }
    Policy policy = below == nullptr ? Policy{} : *below;
    Faults faults;
    for (const Key& key : keys()) {
        const JsonNode* value = tree->find(key.name);
        if (value == nullptr && below != nullptr) {
            continue;
        }
        const auto wrong =
            value == nullptr ? schema::Wrong{"is missing"} : schema::read_value(key, *value, policy);
        if (wrong) {
            faults.push_back({where, std::string{key.name}, *wrong});
        }
    }
    for (const JsonMember& member : tree->members) {
        if (key_named(member.name) == nullptr) {
            faults.push_back(
                {where, member.name, "is no key of the policy" + did_you_mean(member.name, key_names())});
        }
    }
    const bool all_good = faults.empty();
    return finished(std::move(policy), std::move(faults), all_good);
}

}  // namespace

tl::expected<Policy, Faults> read_policy_text(std::string_view text) { return read_text(text, nullptr); }

tl::expected<Policy, Faults> read_policy_text_over(std::string_view text, const Policy& below) {
    return read_text(text, &below);
}

}  // namespace brimline

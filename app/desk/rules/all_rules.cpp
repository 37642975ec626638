// The rules of all topics together.
#include <algorithm>

#include "app/desk/rules/rule.h"

namespace brimline::worked {

const std::vector<Rule>& all_rules() {
    static const std::vector<Rule> all = [] {
        std::vector<Rule> rules;
        for (const auto topic :
             {fasting_rules, body_rules, airway_rules, vitals_rules, dose_rules, screen_rules, label_rules,
              fill_rules, recovery_rules, going_home_rules, register_rules, removal_rules, record_rules}) {
            const auto more = topic();
            rules.insert(rules.end(), more.begin(), more.end());
        }
        return rules;
    }();
    return all;
}

const Rule* rule_named(std::string_view id) {
    const auto& all = all_rules();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Rule& rule) { return rule.id == id; });
    return found == all.end() ? nullptr : &*found;
}

std::vector<std::string> sets_of(const Fields& outputs) {
    std::vector<std::string> names;
    for (const Field& field : outputs) {
        if (field.type.kind == Type::Kind::set) {
            names.push_back(field.name);
        }
    }
    return names;
}

}  // namespace brimline::worked

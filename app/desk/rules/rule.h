// The rules as `brimline rules` knows them: name, fields, source, and the function of core/rules behind. The
// names and fields are fixed: other tools rely on them.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "app/desk/rules/fields.h"
#include "app/desk/rules/inputs.h"
#include "app/desk/rules/outputs.h"

namespace brimline::worked {

struct Rule {
    std::string_view id;
    std::string inputs, outputs;  // shapes, see fields.h
    std::string_view source;
    Outputs (*answer)(const Inputs& in);
};

/// The house's typing limits with what an example's policy overrides ("hard", "ask").
[[nodiscard]] Limits limits_over(Limits house, const Inputs& policy);

/// Each topic's rules, in the order in which they are listed.
[[nodiscard]] std::vector<Rule> fasting_rules();
[[nodiscard]] std::vector<Rule> body_rules();
[[nodiscard]] std::vector<Rule> airway_rules();
[[nodiscard]] std::vector<Rule> vitals_rules();
[[nodiscard]] std::vector<Rule> dose_rules();
[[nodiscard]] std::vector<Rule> screen_rules();
[[nodiscard]] std::vector<Rule> label_rules();
[[nodiscard]] std::vector<Rule> fill_rules();
[[nodiscard]] std::vector<Rule> recovery_rules();
[[nodiscard]] std::vector<Rule> going_home_rules();
[[nodiscard]] std::vector<Rule> register_rules();
[[nodiscard]] std::vector<Rule> removal_rules();
[[nodiscard]] std::vector<Rule> record_rules();

/// All of them; each name once.
[[nodiscard]] const std::vector<Rule>& all_rules();
/// The rule of that name, or null.
[[nodiscard]] const Rule* rule_named(std::string_view id);
/// The lists among the outputs whose order says nothing.
[[nodiscard]] std::vector<std::string> sets_of(const Fields& outputs);

}  // namespace brimline::worked

// Reads a file of worked examples, checks each one's form, asks the rule and compares.
#include "app/desk/rules/examples.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <stdexcept>
#include <tuple>

#include "app/desk/rules/rule.h"
#include "core/clinic/nearest.h"

namespace brimline::worked {
namespace {

using Node = JsonNode::Kind;

const Fields& example_fields() {
    static const Fields fields = read_fields(
        "id: text, rule: text, inputs: words, expected: words, tolerance?: decimal, source?: text, "
        "note?: text");
    return fields;
}

class Running {
public:
    Running(std::string_view file, const Policy& house, const Zones& zones)
        : file_{file}, house_{house}, zones_{zones} {}

    void run(std::size_t index, const JsonNode& example) {
        const JsonNode* id = example.find("id");
        where_ = fmt::format(
            "{}: {}", file_,
            id != nullptr && id->is(Node::text) ? id->text : fmt::format("example {}", index + 1));
        if (const auto wrong = form_of(example)) {
            report_.malformed.push_back(
                fmt::format("{}: {}{}", where_, *wrong, wrong->back() == '?' ? "" : "."));
            return;
        }
        compare(example);
    }
    Report done() { return std::move(report_); }

private:
    std::string_view file_;
    const Policy& house_;
    const Zones& zones_;
    std::string where_;
    Report report_;

    /// What is wrong with the outer form, the rule's name or a field.
    static std::optional<std::string> form_of(const JsonNode& example) {
        if (!example.is(Node::object)) {
            return fmt::format("an example must be an object, and is {}", kind_words(example.kind));
        }
        for (const JsonMember& member : example.members) {
            const auto names = names_of(example_fields());
            if (std::find(names.begin(), names.end(), member.name) == names.end()) {
                return fmt::format("\"{}\" is no field of an example{}", member.name,
                                   did_you_mean(member.name, names));
            }
        }
        const JsonNode* rule = example.find("rule");
        if (rule == nullptr || !rule->is(Node::text)) {
            return "\"rule\" is missing: name one that `brimline rules --list` prints";
        }
        const Rule* known = rule_named(rule->text);
        if (known == nullptr) {
            std::vector<std::string> names;
            for (const Rule& one : all_rules()) {
                names.emplace_back(one.id);
            }
            return fmt::format("there is no rule \"{}\"{}", rule->text, did_you_mean(rule->text, names));
        }
        return fields_of(*known, example);
    }

    static std::optional<std::string> fields_of(const Rule& rule, const JsonNode& example) {
        for (const auto& [name, shape, due] :
             {std::tuple{"inputs", rule.inputs, true}, std::tuple{"expected", rule.outputs, false}}) {
            const JsonNode* part = example.find(name);
            if (part == nullptr || !part->is(Node::object)) {
                return fmt::format("\"{}\" must be an object", name);
            }
            if (const auto wrong = misfit(read_fields(shape), *part, due)) {
                return fmt::format("rule {}, {}: {}", rule.id, name, *wrong);
            }
        }
        if (example.find("expected")->members.empty()) {
            return "\"expected\" is empty, so that nothing is compared";
        }
        const JsonNode* tolerance = example.find("tolerance");
        if (tolerance != nullptr && !tolerance->is(Node::number) && !decimal_of(*tolerance)) {
            return "\"tolerance\" must be a number";
        }
        return std::nullopt;
    }

    /// Every zone that is named must exist before a rule asks for it.
    std::optional<std::string> zone_fault(const Rule& rule, const Inputs& inputs) {
        for (const Field& field : read_fields(rule.inputs)) {
            if (field.type.kind == Type::Kind::zone && inputs.has(field.name)) {
                try {
                    static_cast<void>(inputs.zone(field.name));
                } catch (const std::invalid_argument& unknown) {
                    return unknown.what();
                }
            }
        }
        return std::nullopt;
    }

    void compare(const JsonNode& example) {
        const Rule& rule = *rule_named(example.find("rule")->text);
        const Inputs inputs{*example.find("inputs"), house_, zones_};
        if (const auto wrong = zone_fault(rule, inputs)) {
            report_.malformed.push_back(fmt::format("{}: {}", where_, *wrong));
            return;
        }
        const Outputs got = rule.answer(inputs);
        const JsonNode& expected = *example.find("expected");
        const auto apart =
            disagreements(expected, got, sets_of(read_fields(rule.outputs)), example.find("tolerance"));
        if (apart.empty()) {
            ++report_.held;
            return;
        }
        report_.failures.push_back(fmt::format("{}: {}: expected {}, got {} (differs: {})", where_, rule.id,
                                               json_text(expected), got.text(), fmt::join(apart, ", ")));
    }
};

}  // namespace

Report run_examples(std::string_view file, std::string_view text, const Policy& house, const Zones& zones) {
    Report report;
    const auto tree = read_json(text);
    if (!tree) {
        report.malformed.push_back(fmt::format("{}: cannot be read as JSON: {}.", file, tree.error().say));
        return report;
    }
    if (!tree->is(Node::list)) {
        report.malformed.push_back(
            fmt::format("{}: must be a list of examples, as [{{\"id\":...,\"rule\":...}}], and is {}.", file,
                        kind_words(tree->kind)));
        return report;
    }
    Running running{file, house, zones};
    for (std::size_t i = 0; i < tree->items.size(); ++i) {
        running.run(i, tree->items[i]);
    }
    return running.done();
}

}  // namespace brimline::worked

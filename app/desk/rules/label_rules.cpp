// Worked examples of device labels: element strings, check digits, expiry.
#include "app/desk/rules/rule.h"
#include "core/label/gs1.h"

namespace brimline::worked {
namespace {

Outputs refused_label(const LabelFault& fault) {
    Outputs out = refused(fault.code);
    out.put("code", fault.code).put("where", static_cast<std::int64_t>(fault.where));
    return out;
}

Outputs answer_label(const Inputs& in) {
    if (in.text("kind") == "gtin") {
        const auto gtin = parse_gtin(in.text("text"));
        if (!gtin) {
            return refused_label(gtin.error());
        }
        Outputs out;
        out.put("elements", Members{{"01", Value{*gtin}}}).put("gtin14", *gtin).put("refused", false);
        return out;
    }
    const auto label = parse_label(in.text("text"), in.date("today"));
    if (!label) {
        return refused_label(label.error());
    }
    Members elements;
    for (const LabelElement& element : label->elements) {
        elements.emplace_back(element.ai, Value{element.value});
    }
    Outputs out;
    out.put("elements", std::move(elements))
        .put("gtin14", label->gtin14)
        .put("lot", label->lot)
        .put("serial", label->serial)
        .put("expiry", label->expiry)
        .put("produced", label->produced)
        .put("refused", false);
    return out;
}

bool digits_only(const std::string& text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string::npos;
}

Outputs answer_check_digit(const Inputs& in) {
    Outputs out;
    if (const std::string digits = in.text("digits_without_check"); !digits.empty()) {
        if (!digits_only(digits)) {
            return refused("bad_charset");
        }
        out.put("check_digit", gtin_check_digit(digits) - '0');
    }
    if (const std::string digits = in.text("gtin14"); !digits.empty()) {
        out.put("valid", digits_only(digits) && digits.size() <= 14 && gtin_check_good(digits));
    }
    return out;
}

Outputs answer_expiry(const Inputs& in) {
    std::string digits = in.text("ai17");
    digits.insert(0, digits.size() < 6 ? 6 - digits.size() : 0, '0');  // a bare number has lost its zeros
    const auto expiry = label_date(digits, in.date("today"));
    if (!expiry) {
        return refused("no-such-date");
    }
    Outputs out;
    out.put("expiry", *expiry).put("expired", label_expired(*expiry, in.date("today"))).put("refused", false);
    return out;
}

}  // namespace

std::vector<Rule> label_rules() {
    constexpr std::string_view gs1 =
        "interchange.md 2: GS1 Barcode Syntax Dictionary; General Specifications 7.12";
    return {
        {"gs1-label", "kind: one of scan|typed|gtin, text: text, today: time",
         "elements?: words, gtin14?: text, lot?: text, serial?: text, expiry?: time, produced?: time, "
         "refused?: true/false, code?: text, where?: whole, reason?: text",
         gs1, answer_label},
        {"gs1-check-digit", "digits_without_check?: text, gtin14?: text",
         "check_digit?: whole, valid?: true/false, refused?: true/false, reason?: text",
         "before.md 12: GS1 General Specifications, check digit (from memory)", answer_check_digit},
        {"gs1-expiry", "ai17: text, today: time",
         "expiry?: time, expired?: true/false, refused?: true/false, reason?: text", gs1, answer_expiry},
    };
}

}  // namespace brimline::worked

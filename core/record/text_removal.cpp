// Page one of a removal: which balloon, what came out against what went in, how it left, and the loss of
// weight.
#include <fmt/format.h>

#include "core/desk/register.h"
#include "core/record/text_parts.h"
#include "core/rules/body.h"

namespace brimline::record {
namespace {

std::string percent_words(const Fraction& percent) {
    const auto text = percent.text(1);
    return text.front() == '-' ? "\xE2\x88\x92" + text.substr(1) + " %" : text + " %";
}

std::string signed_percent_words(const Fraction& percent) {
    return (percent > Fraction{0, 1} ? "+" : "") + percent_words(percent);
}

std::string placed_words(const Placement& p) {
    auto words = fmt::format("placed {}, ", day_words(p.placed));
    words += p.volume ? ml_words(*p.volume) : "volume not known";
    words += p.reported ? " reported" : "";
    words += p.dye ? (*p.dye ? ", with dye" : ", no dye") : "";
    words += p.lot ? ", lot " + *p.lot : "";
    words += p.serial ? ", serial " + *p.serial : "";
    return words + fmt::format("; due {}", day_words(p.due));
}

void came_out(Sheet& sheet, const Source& v, const RemovalFigures& figures) {
    if (!figures.recovered) {
        return;
    }
    auto words = ml_words(*figures.recovered);
    const auto& compared = figures.compared;
    if (compared.difference) {
        words += fmt::format(" against {}{}: {}, {}", ml_words(*figures.placement->volume),
                             figures.placement->reported ? " reported" : "",
                             signed_ml_words(*compared.difference), signed_percent_words(*compared.deviation));
    } else {
        words += "; what was put in is not known";
    }
    const bool within = compared.state == rules::Recovered::within || !compared.difference;
    within ? sheet.field("Came out", words) : sheet.loud("Came out", words);
    for (const auto& why : v.s.device().explained) {
        sheet.field("Reason",
                    fmt::format("{}: {}{}, {}", plain(name_of(why.is.what)),
                                lowered(words_of(v.policy.lists.early_reasons, why.is.reason)),
                                why.is.words ? ", \"" + *why.is.words + "\"" : "", v.who(why.stamp)));
    }
}

void out(Sheet& sheet, const Source& v, const RemovalFigures& figures) {
    if (!v.s.out) {
        return;
    }
    const auto& is = v.s.out->is;
    auto words = fmt::format("{}, {}, {}", v.clock_s(v.s.out->stamp.happened),
                             is.complete ? "complete" : "NOT COMPLETE", is.kept ? "kept" : "not kept");
    if (figures.days_in_place) {
        words += fmt::format("; {} in place", counted(*figures.days_in_place, "day", "days"));
        const int left = days_between(v.zone.date_of(v.s.out->stamp.happened), figures.placement->due);
        words += left == 0  ? ", on the day it was due"
                 : left > 0 ? fmt::format(", {} before it was due", counted(left, "day", "days"))
                            : fmt::format(", {} OVERDUE", counted(-left, "day", "days"));
    }
    is.complete ? sheet.field("Balloon out", words) : sheet.loud("Balloon out", words);
    for (const auto& look : v.s.second_looks) {
        sheet.field("Second look", lowered(words_of(v.policy.lists.second_look, look.is.finding)) +
                                       (look.is.words ? ", \"" + *look.is.words + "\"" : ""));
    }
}

void weight(Sheet& sheet, const Source& v) {
    const auto loss = weight_outcome(v.s, v.desk, v.policy, v.zone);
    if (!loss) {
        return;
    }
    auto words =
        fmt::format("{} kg then, {} of the total", loss->start.text(), percent_words(loss->tbwl_percent));
    words += loss->ewl_percent
                 ? fmt::format(", {} of the excess over BMI {}", percent_words(*loss->ewl_percent),
                               v.policy.body.ideal_bmi.text())
                 : "";
    words += loss->reported ? "; the first weight is by word" : "";
    sheet.field("Loss of weight", words);
}

}  // namespace

void write_removal(Sheet& sheet, const Source& v) {
    if (v.s.kind != CaseKind::removal) {
        return;
    }
    const auto figures = removal_figures(v.s, v.desk, v.policy, v.zone);
    figures.placement ? sheet.field("Balloon", placed_words(*figures.placement))
                      : sheet.loud("Balloon", "no entry of the register is named");
    came_out(sheet, v, figures);
    if (!v.s.fluid.empty()) {
        sheet.field("Fluid", lowered(words_of(v.policy.lists.fluid_colours, v.s.fluid.back().is.colour)));
    }
    out(sheet, v, figures);
    weight(sheet, v);
}

}  // namespace brimline::record

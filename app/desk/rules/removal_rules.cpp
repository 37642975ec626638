// Worked examples of a removal and of outcomes in weight.
#include "app/desk/rules/rule.h"
#include "core/rules/body.h"
#include "core/rules/fasting.h"
#include "core/rules/outcome.h"
#include "core/rules/removal.h"

namespace brimline::worked {
namespace {

Outputs answer_prep(const Inputs& in) {
    FastingPolicy policy = in.house().fasting;
    const auto hours = [&](std::string_view name, minutes house) {
        const auto given = in.policy().maybe_whole(name);
        return given ? minutes{60 * *given} : house;
    };
    policy.removal_solid = hours("solid_h", policy.removal_solid);
    policy.removal_full_liquid = hours("full_liquid_h", policy.removal_full_liquid);
    policy.removal_clear = hours("clear_h", policy.removal_clear);
    const auto ready =
        rules::removal_ready(in.maybe_utc("last_solid_utc"), in.maybe_utc("last_full_liquid_utc"),
                             in.maybe_utc("last_clear_utc"), policy);
    Outputs out;
    if (ready) {
        out.put("earliest_utc", Moment{*ready});
    }
    return out;
}

Outputs answer_volume(const Inputs& in) {
    const auto filled = in.has("filled_ml") ? std::optional{in.ml("filled_ml")} : std::nullopt;
    const int tolerance = in.whole("tolerance_percent", in.house().removal.volume_tolerance_percent);
    const auto volume = rules::recovered_volume(filled, in.ml("recovered_ml"), tolerance);
    Outputs out;
    out.put("difference_ml", volume.difference)
        .put("percent", volume.percent, 1)
        .put("deviation_percent", volume.deviation, 1)
        .put("state", rules::name_of(volume.state));
    return out;
}

Outputs answer_colour(const Inputs& in) {
    auto reading = rules::read_stomach(in.truth("stomach_juice_coloured_before_puncture"));
    if (reading == rules::FluidReading::expected && in.has("fluid_out")) {
        const std::string colour = in.text("fluid_out");
        const auto out = colour == "clear"        ? rules::FluidOut::clear
                         : colour == "dye colour" ? rules::FluidOut::dyed
                                                  : rules::FluidOut::cloudy_or_brown;
        reading = rules::read_fluid(in.text("dye_at_placement") == "yes", out);
    }
    Outputs out;
    out.put("reading", rules::name_of(reading));
    return out;
}

Outputs answer_outcomes(const Inputs& in) {
    const Kilograms start = in.kg("start_kg");
    const Kilograms end = in.kg("end_kg");
    const Centimetres height = in.cm("height_cm");
    if (start <= Kilograms{} || end <= Kilograms{} || height <= Centimetres{}) {
        return refused("out-of-range");
    }
    const Decimal ideal = in.house().body.ideal_bmi;
    Outputs out;
    out.put("bmi_start", rules::bmi(start, height), 1)
        .put("bmi_end", rules::bmi(end, height), 1)
        .put("bmi_loss", rules::bmi_loss(start, end, height), 1)
        .put("ideal_kg", rules::ideal_weight(height, ideal), 1)
        .put("tbwl_percent", rules::tbwl_percent(start, end), 1)
        .put("ewl_percent", rules::ewl_percent(start, end, height, ideal), 1);
    return out;
}

Outputs answer_responder(const Inputs& in) {
    const Kilograms start = in.kg("start_kg");
    const Kilograms end = in.kg("end_kg");
    if (start <= Kilograms{}) {
        return refused("out-of-range");
    }
    const int mark = in.whole("mark_percent", in.house().outcome.responder_percent);
    Outputs out;
    out.put("responder", rules::responder(start, end, mark))
        .put("tbwl_percent", rules::tbwl_percent(start, end), 1);
    return out;
}

Outputs answer_timing(const Inputs& in) {
    const int window = in.whole("early_window_days", in.house().reg.early_window_days);
    Outputs out;
    out.put("class",
            rules::name_of(rules::removal_timing(in.date("out"), in.date("due"), in.date("latest"), window)));
    return out;
}

}  // namespace

std::vector<Rule> removal_rules() {
    constexpr std::string_view asmbs =
        "after.md 7: Surg Obes Relat Dis 2015;11:489-506; PMID 21197603; 10.1007/s11695-021-05580-x";
    return {
        {"removal-prep",
         "last_solid_utc?: time, last_full_liquid_utc?: time, last_clear_utc?: time, "
         "policy?: {solid_h?: whole, full_liquid_h?: whole, clear_h?: whole}",
         "earliest_utc?: time",
         "after.md 6: 10.1002/oby.21555; a clinic's leaflet; common practice between them", answer_prep},
        {"recovered-volume", "filled_ml?: tenths, recovered_ml: tenths, tolerance_percent?: whole",
         "difference_ml?: decimal, percent?: decimal, deviation_percent?: decimal, state: text",
         "after.md 6: no published figure found; common practice", answer_volume},
        {"removal-fluid-colour",
         "dye_at_placement?: one of yes|no, fluid_out?: one of clear|dye colour|cloudy or brown, "
         "stomach_juice_coloured_before_puncture?: true/false",
         "reading: text", "after.md 6: common practice, our reading", answer_colour},
        {"outcomes", "start_kg: tenths, end_kg: tenths, height_cm: tenths",
         "bmi_start: decimal, bmi_end: decimal, bmi_loss: decimal, ideal_kg: decimal, tbwl_percent: decimal, "
         "ewl_percent?: decimal, refused?: true/false, reason?: text",
         asmbs, answer_outcomes},
        {"responder", "start_kg: tenths, end_kg: tenths, mark_percent?: whole",
         "responder: true/false, tbwl_percent: decimal, refused?: true/false, reason?: text",
         "after.md 7: 10.1016/j.soard.2017.09.528", answer_responder},
        {"removal-timing", "out: time, due: time, latest: time, early_window_days?: whole", "class: text",
         "after.md 6: removal between 4 and 6 months in one series; common practice", answer_timing},
    };
}

}  // namespace brimline::worked

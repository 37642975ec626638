// What the letters typed at Arrival become, and what each part says of itself in one line.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/arrival_parts.h"
#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/desk_words.h"
#include "core/desk/register.h"

namespace brimline::screens {
namespace {

using Letters = ArrivalDrafts::Letters;

void take_name(const ArrivalPage& page, const std::string& text) {
    PatientChange says;
    const auto comma = text.find(',');
    says.to.family_name = text.substr(0, comma);
    if (comma != std::string::npos) {
        const auto given = text.find_first_not_of(' ', comma + 1);
        says.to.given_name = given == std::string::npos ? "" : text.substr(given);
    }
    says.reason = page.say("arrival.said-by-patient");
    page.asks.tell(says);
    page.drafts.part = ArrivalDrafts::Part::none;
    page.drafts.same.clear();
}

void take_consent(const ArrivalPage& page, const std::string& text) {
    Consent says;
    says.form = page.drafts.form;
    says.reason = text;
    if (page.drafts.form == ConsentForm::not_possible) {
        says.decided_by = page.scene.physician;
    }
    page.asks.tell(says);
    page.drafts.part = ArrivalDrafts::Part::none;
    page.drafts.not_signed = false;
}

void take_note(const ArrivalPage& page, const std::string& text) {
    Answer says;
    says.check = page.drafts.check;
    const auto before = page.state().answers.find(says.check);
    says.value = before == page.state().answers.end() ? Answered::yes : before->second.is.value;
    says.note = text;
    page.asks.tell(says);
}

void take_person(const ArrivalPage& page, const std::string& text) {
    auto& drafts = page.drafts;
    auto& person = drafts.person;
    if (drafts.field == "family") {
        person.family_name = text;
    } else if (drafts.field == "given") {
        person.given_name = text;
    } else if (drafts.field == "number") {
        person.number = text;
    } else if (drafts.field == "phone") {
        person.phone = text;
    } else if (drafts.field == "language") {
        person.language = text;
    } else {
        drafts.why = text;
    }
}

std::string balloon_note(const ArrivalPage& page) {
    const auto placement =
        placement_to_remove(page.state(), page.scene.ahead, page.scene.policy, page.scene.zone);
    return !placement ? page.say("arrival.which-balloon")
                      : page.say("arrival.placed-on", {{"date", shown_date(page.glass, placement->placed)}});
}

std::string allergies_note(const ArrivalPage& page) {
    if (!page.state().allergies) {
        return page.say("arrival.not-asked");
    }
    std::string all;
    for (const auto& one : page.state().allergies->is.list.value_or(std::vector<Allergy>{})) {
        all += (all.empty() ? with_capital(one.substance) : ", " + one.substance);
    }
    return all.empty() ? page.say("frame.allergies-none-known") : all;
}

std::string fasting_note(const ArrivalPage& page) {
    if (page.state().intakes.empty()) {
        return page.say("arrival.not-asked");
    }
    const auto view = fasting_view(page.state(), page.scene.policy, page.scene.now);
    if (!view.all_met_at) {
        return page.say("arrival.not-known");
    }
    return page.say(*view.all_met_at > page.scene.now ? "arrival.wait-until" : "arrival.met-at",
                    {{"time", clock_text(*view.all_met_at, page.scene.zone)}});
}

std::string screen_note(const ArrivalPage& page) {
    const auto checks = screen_checks(page.scene.policy);
    const auto said = std::count_if(checks.begin(), checks.end(),
                                    [&](const Check* check) { return is_answered(page.state(), check->id); });
    return page.say("arrival.answered-of",
                    {{"n", std::to_string(said)}, {"all", std::to_string(checks.size())}});
}

std::string airway_note(const ArrivalPage& page) {
    if (!page.state().airway) {
        return page.say("arrival.not-asked");
    }
    auto words = page.say("arrival.asa", {{"n", std::to_string(page.state().airway->is.asa)}});
    const auto score = stop_bang_of(page.state(), page.scene.policy, page.scene.zone, page.scene.now);
    if (score && score->least == score->most) {
        words += ", " + page.say("arrival.stop-bang", {{"n", std::to_string(score->least)}});
    }
    return words;
}

std::string medicines_note(const ArrivalPage& page) {
    const auto& all = page.state().medicines;
    if (!all.empty()) {
        return all.back().is.name;
    }
    return page.say(is_answered(page.state(), "anticoagulant-or-nsaid") ? "arrival.no-medicine"
                                                                        : "arrival.blood-thinner");
}

}  // namespace

std::string part_note(const ArrivalPage& page, ArrivalPart part) {
    const auto& state = page.state();
    switch (part) {
        case ArrivalPart::identity:
            return page.say(state.identity ? "arrival.two-identifiers" : "arrival.not-asked");
        case ArrivalPart::consent:
            return page.say(!state.consent            ? "arrival.not-asked"
                            : state.consent_settled() ? "arrival.consent-given"
                                                      : "arrival.consent-not-given");
        case ArrivalPart::allergies:
            return allergies_note(page);
        case ArrivalPart::body:
            if (const auto body = body_view(state, page.scene.policy)) {
                return page.say("arrival.bmi", {{"n", body->bmi}, {"kg", body->ideal_kg}});
            }
            return page.say("arrival.not-measured");
        case ArrivalPart::fasting:
            return fasting_note(page);
        case ArrivalPart::medicines:
            return medicines_note(page);
        case ArrivalPart::screen:
            return screen_note(page);
        case ArrivalPart::pregnancy:
            return page.say(is_answered(state, "pregnancy-test") ? "arrival.answered-today"
                                                                 : "arrival.asked-every-time");
        case ArrivalPart::airway:
            return airway_note(page);
        case ArrivalPart::escort:
            return state.escort ? state.escort->is.name : page.say("arrival.not-named");
        case ArrivalPart::balloon:
            return balloon_note(page);
        case ArrivalPart::baseline:
            return state.vitals.empty()
                       ? page.say("arrival.not-yet")
                       : page.say(
                             "sedation.typed",
                             {{"time", clock_text(state.vitals.back().stamp.happened, page.scene.zone)}});
    }
    return "";
}

void take_letters(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    const auto what = drafts.letters;
    const auto text = drafts.text.text();
    drafts.letters = Letters::none;
    if (text.empty()) {
        return;  // Done with nothing typed goes back
    }
    switch (what) {
        case Letters::substance:
            drafts.substance = text;
            drafts.part = ArrivalDrafts::Part::reaction;
            break;
        case Letters::reaction:
            tell_allergy(page, drafts.substance, text);
            break;
        case Letters::medicine:
            drafts.medicine = text;
            break;
        case Letters::escort_name:
            drafts.escort_name = text;
            break;
        case Letters::escort_phone:
            drafts.escort_phone = text;
            break;
        case Letters::language: {
            PatientChange says;
            says.to.language = text;
            says.reason = page.say("arrival.said-by-patient");
            page.asks.tell(says);
            break;
        }
        case Letters::consent:
            take_consent(page, text);
            break;
        case Letters::name:
            take_name(page, text);
            break;
        case Letters::note:
            take_note(page, text);
            break;
        case Letters::lot:
            drafts.lot = text;
            break;
        case Letters::person:
            take_person(page, text);
            break;
        case Letters::defer:
            drafts.reason = text;
            break;
        case Letters::none:
            break;
    }
}

}  // namespace brimline::screens

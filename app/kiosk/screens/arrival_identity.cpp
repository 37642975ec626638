// Identity from the patient's mouth, the language that is read, consent with its other ways; beside them
// allergies and body size.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/kiosk/screens/arrival_parts.h"
#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/desk_words.h"
#include "core/rules/body.h"

namespace brimline::screens {
namespace {

using touch::Rect;
using Letters = ArrivalDrafts::Letters;
using Part = ArrivalDrafts::Part;

constexpr std::array<const char*, 4> reactions{"rash", "swelling", "breathing", "shock"};

Rect pair_place(float y) { return {518, y + 8, 310, 76}; }

void row_words(const ArrivalPage& page, const std::string& name, float y, const std::string& ask,
               const std::string& fact) {
    const auto& c = page.glass.colours();
    touch::text(page.glass, name + "/ask", {196, y + 6, 310, 34}, ask, {.colour = c.text_2, .lines = 1});
    touch::text(page.glass, name + "/fact", {196, y + 40, 310, 44}, fact,
                {.em = touch::step::act, .bold = true, .lines = 1, .may_cut = true});
    touch::line(page.glass, {196, y + 91}, {828, y + 91}, c.hairline, 2);
}

bool identified_by(const ArrivalPage& page, Identifier what) {
    if (!page.state().identity) {
        return false;
    }
    const auto& all = page.state().identity->is.identifiers;
    return std::find(all.begin(), all.end(), what) != all.end();
}

/// Two that are the same identify the patient; a third one is entered with them.
void tell_identity(const ArrivalPage& page) {
    Identity says;
    for (const auto what : {Identifier::name, Identifier::born, Identifier::number, Identifier::address}) {
        const auto said = page.drafts.same.find(what);
        const bool same = said != page.drafts.same.end() ? said->second : identified_by(page, what);
        if (same) {
            says.identifiers.push_back(what);
        }
    }
    if (says.identifiers.size() >= 2) {
        page.asks.tell(says);
    }
}

void draw_identifier(const ArrivalPage& page, float y, Identifier what, const std::string& fact) {
    const auto name = fmt::format("id/{}", name_of(what));
    row_words(page, name, y, page.say(fmt::format("arrival.ask-{}", name_of(what))), fact);
    const auto said = page.drafts.same.find(what);
    touch::AnswerPair pair{.bad = touch::Answer::no,
                           .yes_word = page.say("arrival.same"),
                           .no_word = page.say("arrival.differs")};
    if (said != page.drafts.same.end()) {
        pair.given = said->second ? touch::Answer::yes : touch::Answer::no;
    } else if (identified_by(page, what)) {
        pair.given = touch::Answer::yes;
    }
    const auto answer = touch::answer_pair(page.glass, name, pair_place(y), pair);
    if (!answer) {
        return;
    }
    page.drafts.same[what] = answer == touch::Answer::yes;
    if (answer == touch::Answer::yes) {
        tell_identity(page);
    } else {
        page.drafts.part = Part::differs;
    }
}

bool language_asked(const CaseState& state) {
    return std::any_of(state.history.begin(), state.history.end(), [](const Kept& kept) {
        const auto* change = std::get_if<PatientNow>(&kept.now.event);
        return change != nullptr && change->to.language && !kept.withdrawn;
    });
}

/// No default: what was booked is not what the patient said.
void draw_language(const ArrivalPage& page, float y) {
    const bool asked = language_asked(page.state());
    const auto language = page.state().patient.language.value_or("");
    const auto& own = page.scene.policy.clinic.language;
    const auto key = "language." + language;
    const auto words = page.glass.words().has(key) ? page.say(key) : language;
    row_words(page, "language", y, page.say("arrival.ask-language"),
              asked ? words : page.say("arrival.not-asked"));
    const auto place = pair_place(y);
    if (arrival_key(page, "language/other", place.left_part(146), page.say("arrival.other"),
                    asked && language != own)) {
        page.type(Letters::language);
    }
    if (arrival_key(page, "language/own", place.right_part(146), page.say("language." + own),
                    asked && language == own)) {
        PatientChange says;
        says.to.language = own;
        says.reason = page.say("arrival.said-by-patient");
        page.asks.tell(says);
    }
}

void draw_consent(const ArrivalPage& page, float y) {
    row_words(page, "consent", y, page.say("arrival.ask-consent"), part_note(page, ArrivalPart::consent));
    touch::AnswerPair pair{.bad = touch::Answer::no};
    const auto& consent = page.state().consent;
    if (page.drafts.not_signed) {
        pair.given = touch::Answer::no;
    } else if (consent) {
        const bool is_signed = consent->is.is_signed.value_or(consent->is.form == ConsentForm::signed_form);
        pair.given = is_signed ? touch::Answer::yes : touch::Answer::no;
    }
    const auto answer = touch::answer_pair(page.glass, "consent", pair_place(y), pair);
    if (answer == touch::Answer::yes) {
        Consent says;
        says.is_signed = true;
        page.drafts.not_signed = false;
        page.drafts.part = page.drafts.part == Part::consent ? Part::none : page.drafts.part;
        page.asks.tell(says);
    } else if (answer == touch::Answer::no) {
        page.drafts.not_signed = true;
        page.drafts.part = Part::consent;
    }
}

void draw_rows(const ArrivalPage& page) {
    const auto& patient = page.state().patient;
    touch::panel(page.glass, {176, 104, 672, 560});
    const auto full =
        patient.given_name.value_or("") + " " + patient.family_name.value_or(page.say("frame.unknown"));
    draw_identifier(page, 108, Identifier::name, full);
    draw_identifier(page, 200, Identifier::born,
                    patient.born ? shown_date(page.glass, *patient.born) : page.say("frame.born-unknown"));
    draw_identifier(page, 292, Identifier::number, patient.number.value_or("–"));
    draw_language(page, 384);
    draw_consent(page, 476);
    touch::text(page.glass, "id/how", {196, 574, 632, 84}, page.say("arrival.two-identify"),
                {.colour = page.glass.colours().text_2});
}

// Column B

void draw_allergies(const ArrivalPage& page) {
    touch::panel(page.glass, {864, 104, 400, 560});
    arrival_head(page, "arrival.allergies-head", {884, 108, 360, 36});
    const auto place = [](int i) { return touch::cell({880, 148, 368, 192}, 2, 2, i % 2, i / 2, 12); };
    const auto& said = page.state().allergies;
    const auto list = said ? said->is.list.value_or(std::vector<Allergy>{}) : std::vector<Allergy>{};
    if (arrival_key(page, "none-known", place(0), page.say("frame.allergies-none-known"),
                    said && list.empty())) {
        Allergies says;
        says.none_known = true;
        page.asks.tell(says);
    }
    if (arrival_key(page, "allergy/drug", place(1), page.say("arrival.drug"), false)) {
        page.type(Letters::substance);
    }
    int i = 2;
    for (const char* known : {"latex", "silicone"}) {
        const bool has =
            std::any_of(list.begin(), list.end(), [&](const Allergy& one) { return one.substance == known; });
        if (arrival_key(page, fmt::format("allergy/{}", known), place(i++),
                        page.say(fmt::format("arrival.{}", known)), has)) {
            page.drafts.substance = known;
            page.drafts.part = Part::reaction;
        }
    }
    float y = 352;
    for (std::size_t n = 0; n < list.size() && n < 4; ++n) {
        const auto words =
            with_capital(list[n].substance) + (list[n].reaction ? ", " + *list[n].reaction : std::string{});
        touch::icon(page.glass, touch::Icon::look, {896, y + 24}, 30);
        touch::text(page.glass, fmt::format("allergy-{}", n + 1), {924, y, 320, 48}, words,
                    {.em = touch::step::body, .bold = true, .lines = 1, .may_cut = true});
        y += 52;
    }
}

void draw_reaction(const ArrivalPage& page) {
    touch::panel(page.glass, {864, 104, 400, 560});
    touch::text(page.glass, "reaction/head", {884, 108, 360, 60},
                page.say("arrival.which-reaction", {{"substance", page.drafts.substance}}),
                {.em = touch::step::body, .bold = true});
    for (std::size_t i = 0; i < reactions.size(); ++i) {
        const auto words = page.say(fmt::format("arrival.reaction-{}", reactions[i]));
        if (arrival_key(
                page, fmt::format("reaction/{}", reactions[i]),
                touch::cell({880, 176, 368, 192}, 2, 2, static_cast<int>(i % 2), static_cast<int>(i / 2), 12),
                with_capital(words), false)) {
            tell_allergy(page, page.drafts.substance, words);
        }
    }
    const Rect row{880, 380, 368, 92};
    if (arrival_key(page, "reaction/other", touch::cell(row, 2, 1, 0, 0, 12), page.say("arrival.other"),
                    false)) {
        page.type(Letters::reaction);
    }
    if (arrival_key(page, "reaction/unknown", touch::cell(row, 2, 1, 1, 0, 12), page.say("arrival.not-known"),
                    false)) {
        tell_allergy(page, page.drafts.substance, "");
    }
    if (arrival_key(page, "reaction/back", {880, 484, 368, 88}, page.say("touch.back"), false)) {
        page.drafts.part = Part::allergies;
    }
}

std::optional<Decimal> number(const touch::NumberDraft& draft) { return Decimal::parse(draft.text()); }

/// Two beside each other, the third below.
Rect basis_place(int i) {
    return i < 2 ? touch::cell({864, 512, 400, 72}, 2, 1, i, 0, 8) : Rect{864, 592, 400, 72};
}

void draw_body(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    const auto& mark = page.glass.words().decimal_mark();
    const Rect boxes{864, 96, 400, 88};
    const auto height = number(drafts.height);
    const auto in_cm =
        height ? rules::height_suggested(*height, page.scene.policy.body.height_cm) : std::nullopt;
    if (touch::value_box(page.glass, "weight", touch::cell(boxes, 2, 1, 0, 0, 8),
                         {.digits = drafts.weight.shown(mark),
                          .label = page.say("arrival.weight-kg"),
                          .focused = !drafts.in_height,
                          .small = true,
                          .touchable = true})) {
        drafts.in_height = false;
    }
    if (touch::value_box(page.glass, "height", touch::cell(boxes, 2, 1, 1, 0, 8),
                         {.digits = drafts.height.shown(mark),
                          .label = page.say("arrival.height-cm"),
                          .wrong = in_cm ? page.say("arrival.in-metres", {{"cm", in_cm->text()}}) : "",
                          .focused = drafts.in_height,
                          .small = true,
                          .touchable = true})) {
        drafts.in_height = true;
    }
    if (const auto key = touch::keypad(page.glass, "pad", {864, 192, 400, 312}, true, 8)) {
        (void)(drafts.in_height ? drafts.height : drafts.weight).press(*key);
        drafts.said = false;
    }
    int i = 0;
    for (const auto basis : {WeightBasis::measured, WeightBasis::stated, WeightBasis::estimated}) {
        if (touch::button(page.glass, fmt::format("basis/{}", name_of(basis)), basis_place(i++),
                          {.title = page.say(fmt::format("dose.basis-{}", name_of(basis))),
                           .look = drafts.basis == basis ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true})) {
            drafts.basis = basis;
        }
    }
}

void draw_other_ways(const ArrivalPage& page) {
    touch::panel(page.glass, {864, 104, 400, 560});
    arrival_head(page, "arrival.consent-head", {884, 108, 360, 40});
    const auto place = [](int i) { return Rect{880, 156 + 108 * static_cast<float>(i), 368, 96}; };
    if (touch::button(
            page.glass, "consent/witness", place(0),
            {.title = page.say("arrival.consent-witness"), .note = page.say("arrival.type-witness")})) {
        page.drafts.form = ConsentForm::spoken_with_witness;
        page.type(Letters::consent);
    }
    if (touch::button(page.glass, "consent/not-possible", place(1),
                      {.title = page.say("arrival.consent-not-possible"),
                       .note = page.say("arrival.physician-decides", {{"name", whose_word(page.scene)}})})) {
        page.drafts.form = ConsentForm::not_possible;
        page.type(Letters::consent);
    }
    if (touch::button(
            page.glass, "consent/not-given", place(2),
            {.title = page.say("arrival.consent-not-given-key"), .note = page.say("arrival.stop-hold")})) {
        Consent says;
        says.is_signed = false;
        page.asks.tell(says);
        page.drafts.part = Part::none;
    }
    if (touch::button(page.glass, "consent/back", place(3), {.title = page.say("touch.back")})) {
        page.drafts.part = Part::none;
        page.drafts.not_signed = false;
    }
}

void draw_differs(const ArrivalPage& page) {
    touch::card(page.glass, "differs", {864, 104, 400, 168},
                {.kind = touch::CardKind::hold,
                 .title = page.say("arrival.differs-title"),
                 .lines = {page.say("arrival.differs-line")}});
    if (touch::button(page.glass, "another-patient", {864, 284, 400, 96},
                      {.title = page.say("room.another"), .note = page.say("room.pick")})) {
        page.asks.page = Page::day_list;
    }
    if (touch::button(page.glass, "correct-name", {864, 392, 400, 96},
                      {.title = page.say("arrival.correct-name"), .note = page.say("arrival.type-name")})) {
        const auto& patient = page.state().patient;
        page.type(Letters::name, patient.family_name.value_or("") + ", " + patient.given_name.value_or(""));
    }
    if (touch::button(page.glass, "differs/back", {864, 500, 400, 96},
                      {.title = page.say("arrival.ask-again")})) {
        page.drafts.part = Part::none;
        page.drafts.same.clear();
    }
}

/// Nothing is open in column B: what stands there leads on.
void draw_beside(const ArrivalPage& page) {
    struct Beside {
        ArrivalPart part;
        Part opens;
        float y;
    };
    for (const auto& one :
         {Beside{ArrivalPart::allergies, Part::allergies, 104}, Beside{ArrivalPart::body, Part::body, 216}}) {
        const bool done = part_state(page.state(), page.scene.policy, one.part) == PartState::done;
        if (touch::card(page.glass, fmt::format("beside/{}", name_of(one.part)), {864, one.y, 400, 100},
                        {.kind = done ? touch::CardKind::done : touch::CardKind::to_do,
                         .title = page.say(fmt::format("arrival.part-{}", name_of(one.part))),
                         .lines = {part_note(page, one.part)}})) {
            page.drafts.part = one.opens;
        }
    }
    if (touch::button(page.glass, "person", {864, 328, 400, 88}, {.title = page.say("arrival.person")})) {
        page.drafts.open(ArrivalDrafts::Section::person);
    }
    draw_hold_cards(page, {864, 428, 400, 236});
}

const Asked* asked_of(const ArrivalPage& page) {
    const auto& last = page.scene.last;
    return page.drafts.said && last && last->asked && last->asked->question == "implausible" ? &*last->asked
                                                                                             : nullptr;
}

void draw_body_foot(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    const auto weight = number(drafts.weight);
    const auto height = number(drafts.height);
    const auto* asked = asked_of(page);
    std::optional<touch::Action> own;
    if (weight && height && drafts.basis) {
        const auto& mark = page.glass.words().decimal_mark();
        own = touch::Action{
            .command = asked != nullptr ? "enter-body-sure" : "enter-body",
            .title = page.say("arrival.body-is",
                              {{"kg", drafts.weight.shown(mark)}, {"cm", drafts.height.shown(mark)}}),
            .note = page.say(asked != nullptr ? "vitals.it-is-right"
                                              : fmt::format("dose.basis-{}", name_of(*drafts.basis)))};
    }
    const char* missing = !weight   ? "arrival.type-weight"
                          : !height ? "arrival.type-height"
                                    : "arrival.which-basis";
    const touch::Prompt prompt{.urgency = asked != nullptr ? touch::Urgency::medium : touch::Urgency::low,
                               .title = asked != nullptr ? asked->say : page.say("arrival.body-prompt")};
    if (draw_section_foot(page, prompt, own, page.say(missing))) {
        Measure says;
        says.weight_kg = *weight;
        says.height_cm = *height;
        says.weight_basis = *drafts.basis;
        page.asks.say.push_back({says, {}, {}, {}, asked != nullptr});
        drafts.said = true;
    }
}

}  // namespace

void tell_allergy(const ArrivalPage& page, const std::string& substance, const std::string& reaction) {
    Allergies says;
    says.list = page.state().allergies ? page.state().allergies->is.list.value_or(std::vector<Allergy>{})
                                       : std::vector<Allergy>{};
    std::erase_if(*says.list, [&](const Allergy& one) { return one.substance == substance; });
    Allergy fresh;
    fresh.substance = substance;
    if (!reaction.empty()) {
        fresh.reaction = reaction;
    }
    says.list->push_back(fresh);
    page.asks.tell(says);
    page.drafts.part = Part::allergies;
}

void draw_arrival_identity(const ArrivalPage& page) {
    draw_rows(page);
    switch (page.drafts.part) {
        case Part::none:
            draw_beside(page);
            break;
        case Part::allergies:
            draw_allergies(page);
            break;
        case Part::reaction:
            draw_reaction(page);
            break;
        case Part::body:
            draw_body(page);
            draw_body_foot(page);
            return;
        case Part::consent:
            draw_other_ways(page);
            break;
        case Part::differs:
            draw_differs(page);
            break;
    }
    draw_section_next(page, {.urgency = touch::Urgency::low,
                             .title = page.say("arrival.identity-prompt"),
                             .why = page.say("arrival.identity-why")});
}

}  // namespace brimline::screens

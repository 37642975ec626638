// Giving a case up: what is inside the patient now, device, millilitres and catheter, and the reason as the
// physician says it. Over Fill the corner stays Syringe in.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Device = AbandonDraft::Device;
using Catheter = AbandonDraft::Catheter;

template <class Value>
void draw_three(Glass& glass, const std::string& topic, Rect panel, const std::array<std::string, 3>& names,
                const std::array<Value, 3>& values, Value& chosen) {
    touch::panel(glass, panel);
    panel_head(glass, topic + "/head", panel, glass.words().say("abandon." + topic));
    for (std::size_t i = 0; i < names.size(); ++i) {
        const bool is = chosen == values[i];
        if (touch::button(glass, topic + "/" + names[i],
                          touch::cell({panel.x + 16, panel.y + 46, panel.w - 32, panel.h - 62}, 3, 1,
                                      static_cast<int>(i), 0, 12),
                          {.title = glass.words().say(fmt::format("abandon.{}-{}", topic, names[i])),
                           .look = is ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .corner_tick = true})) {
            chosen = values[i];
        }
    }
}

void draw_volume(Glass& glass, const Scene& scene, const AbandonDraft& draft, Asks& asks) {
    const auto& words = glass.words();
    const Rect panel{176, 276, 672, 206};
    touch::panel(glass, panel);
    panel_head(glass, "volume/head", panel, words.say("abandon.volume"));
    const auto view = fill_view(*scene.state, *scene.ahead_state, scene.policy, scene.now);
    const auto inside = draft.device == Device::none || draft.device == Device::empty
                            ? Millilitres{}
                            : running_volume(scene.ahead_state->device());
    touch::figure(glass, "volume/ml", {196, 330, 320, 96}, ml_digits(glass, inside),
                  words.say("unit.ml-alone"), touch::step::far, touch::step::act);
    touch::text(glass, "volume/made", {196, 434, 320, 30}, syringes_words(glass, view),
                {.colour = glass.colours().text_2, .lines = 1});
    if (running_volume(scene.ahead_state->device()) > Millilitres{} &&
        touch::button(glass, "to-draw-back", {524, 352, 304, 108},
                      {.title = words.say("fill.draw-back"),
                       .note = words.say("abandon.counted-down"),
                       .bold = true})) {
        asks.page = Page::fill;
        asks.sheet = Sheet::draw_back;
    }
}

void draw_reasons(Glass& glass, const Scene& scene, AbandonDraft& draft) {
    const Rect panel{864, 104, 400, 560};
    touch::panel(glass, panel);
    panel_head(glass, "why/head", panel, glass.words().say("abandon.why"), whose_word(scene));
    const auto& reasons = scene.policy.lists.refusal_reasons;
    constexpr std::size_t most = 10;
    for (std::size_t i = 0; i < reasons.size() && i < most; ++i) {
        const bool chosen = draft.reason == reasons[i].id;
        if (touch::button(
                glass, "reason/" + reasons[i].id,
                touch::cell({880, 146, 368, 506}, 2, 5, static_cast<int>(i % 2), static_cast<int>(i / 2), 10),
                {.title = reasons[i].words,
                 .look = chosen ? touch::Look::chosen : touch::Look::rest,
                 .em = touch::step::note,
                 .corner_tick = true})) {
            draft.reason = reasons[i].id;
        }
    }
}

/// What is still to be said, as a key of the words; empty when all is.
std::string missing_of(const AbandonDraft& draft) {
    return draft.device == Device::unsaid       ? "abandon.next-device"
           : draft.catheter == Catheter::unsaid ? "abandon.next-catheter"
           : draft.reason.empty()               ? "abandon.next-reason"
                                                : "";
}

void tell_abandon(const Glass& glass, const Scene& scene, AbandonDraft& draft, Asks& asks) {
    Abandon says;
    says.reason = draft.reason;
    says.inside.device = draft.device != Device::none;
    says.inside.ml =
        draft.device == Device::filled ? running_volume(scene.ahead_state->device()) : Millilitres{};
    says.inside.catheter = draft.catheter != Catheter::off;
    if (draft.catheter == Catheter::broken) {
        says.words = glass.words().say("abandon.catheter-broken");
    }
    asks.tell_said_by(says, scene.physician);
    asks.page =
        scene.ahead_state->kind == CaseKind::removal && !scene.ahead_state->out ? Page::out : Page::release;
    draft = {};
}

}  // namespace

Asks draw_abandon(Glass& glass, const Scene& scene, AbandonDraft& draft) {
    Asks asks;
    const auto& words = glass.words();
    draw_case_frame_bare(glass, scene, asks);
    draw_three<Device>(glass, "device", {176, 104, 672, 160}, {"none", "filled", "empty"},
                       {Device::none, Device::filled, Device::empty}, draft.device);
    draw_volume(glass, scene, draft, asks);
    draw_three<Catheter>(glass, "catheter", {176, 494, 672, 170}, {"off", "on", "broken"},
                         {Catheter::off, Catheter::on, Catheter::broken}, draft.catheter);
    draw_reasons(glass, scene, draft);
    const auto missing = missing_of(draft);
    std::optional<touch::Action> own;
    if (missing.empty()) {
        own = touch::Action{
            .command = "abandon", .title = words.say("abandon.abandon"), .note = said_by_words(glass, scene)};
    }
    if (over_fill(scene)) {
        if (draw_sheet_foot(glass, scene, own, asks) == touch::SheetTap::action) {
            tell_abandon(glass, scene, draft, asks);
        }
        return asks;
    }
    const bool back = sheet_prompt(glass, scene,
                                   {.urgency = touch::Urgency::medium,
                                    .title = words.say("abandon.what-is-inside"),
                                    .why = words.say("abandon.recovery-follows")},
                                   asks);
    asks.sheet = back ? std::optional{Sheet::none} : asks.sheet;
    if (!own) {
        quiet_corner(glass, words.say(missing));
    } else if (touch::action(glass, touch::layout_for(glass.size()).action, *own) ==
               touch::ActionTap::action) {
        tell_abandon(glass, scene, draft, asks);
    }
    return asks;
}

}  // namespace brimline::screens

// What waits for the physician's eye: review cards, each seen with one tap, and provisos, each answered Yes
// when its condition is met, or No when the hold stands again. Over Fill the corner stays Syringe in.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/letters.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t room = 5;

/// The physician enters it, or another enters it as the physician's word.
void tell_as_physician(const Scene& scene, Statement says, Asks& asks) {
    if (chosen_may(scene, Role::physician)) {
        asks.tell(std::move(says));
    } else {
        asks.tell_said_by(std::move(says), scene.physician);
    }
}

void draw_card(Glass& glass, const Scene& scene, Rect place, const OpenItem& item, Asks& asks) {
    touch::fill(glass, place, glass.colours().look_tint, touch::control_radius);
    touch::outline(glass, place, glass.colours().look, 2, touch::control_radius);
    touch::icon(glass, touch::Icon::look, {place.x + 36, place.y + place.h / 2}, 32);
    touch::text(glass, item.code + "/say", {place.x + 68, place.y + 6, place.w - 276, place.h - 12}, item.say,
                {.em = touch::step::body, .bold = true, .lines = 3});
    if (touch::button(
            glass, "seen/" + item.code, {place.right() - 200, place.y + 6, 192, place.h - 12},
            {.title = glass.words().say("reviews.seen"),
             .note = chosen_may(scene, Role::physician) ? std::string{} : said_by_words(glass, scene)})) {
        Seen says;
        says.item = item.code;
        tell_as_physician(scene, says, asks);
    }
}

void draw_proviso(Glass& glass, const Scene& scene, Rect place, const Proviso& proviso, ReviewDraft& draft,
                  Asks& asks) {
    touch::panel(glass, place);
    touch::text(glass, proviso.id + "/condition", {place.x + 20, place.y + 6, place.w - 378, place.h - 12},
                glass.words().say("reviews.met", {{"condition", proviso.said.condition}}),
                {.em = touch::step::body, .bold = true, .lines = 3});
    const bool worded = draft.proviso == proviso.id && !draft.words.text().empty();
    if (touch::button(glass, "proviso-words/" + proviso.id,
                      {place.right() - 350, place.y + 6, 100, place.h - 12},
                      {.title = glass.words().say("reviews.words"),
                       .look = worded ? touch::Look::chosen : touch::Look::rest,
                       .em = touch::step::note,
                       .tick = false,
                       .corner_tick = true})) {
        draft = draft.proviso == proviso.id ? draft : ReviewDraft{};
        draft.proviso = proviso.id;
        draft.keyboard = true;
    }
    const auto answer =
        touch::answer_pair(glass, "proviso/" + proviso.id,
                           {place.right() - 240, place.y + 6, 232, place.h - 12}, {.bad = touch::Answer::no});
    if (answer) {
        AnswerProviso says;
        says.proviso = proviso.id;
        says.value = *answer == touch::Answer::yes ? YesNo::yes : YesNo::no;
        if (worded) {
            says.note = draft.words.text();
        }
        draft = {};
        tell_as_physician(scene, says, asks);
    }
}

/// All that waits, from the top of column A; how many more there are is said below.
std::size_t draw_all(Glass& glass, const Scene& scene, ReviewDraft& draft, Asks& asks) {
    const auto& state = *scene.ahead_state;
    std::size_t count = 0;
    const auto next = [&] { return Rect{176, 104 + 112 * static_cast<float>(count++), 672, 104}; };
    for (const auto& item : state.items) {
        if (!item.closed && item.code.rfind("review-", 0) == 0 && count < room) {
            draw_card(glass, scene, next(), item, asks);
        }
    }
    for (const auto& proviso : state.provisos) {
        if (!proviso.answer && count < room) {
            draw_proviso(glass, scene, next(), proviso, draft, asks);
        }
    }
    return count;
}

}  // namespace

Asks draw_reviews(Glass& glass, const Scene& scene, ReviewDraft& draft) {
    Asks asks;
    const auto& words = glass.words();
    if (draft.keyboard) {
        draft.keyboard =
            !draw_letters(glass, scene, words.say("reviews.type-words"), draft.words, draft.keys, asks);
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    const auto count = draw_all(glass, scene, draft, asks);
    if (count == 0) {
        touch::panel(glass, {176, 104, 672, 104});
        touch::text(glass, "reviews/none", {196, 112, 632, 88}, words.say("reviews.none"),
                    {.em = touch::step::act, .bold = true});
    }
    touch::panel(glass, {864, 104, 400, 240});
    touch::text(glass, "reviews/what", {884, 112, 360, 224}, words.say("reviews.what"),
                {.em = touch::step::body, .stand = touch::Stand::top, .lines = 6});
    draw_foot_to_read(
        glass, scene,
        {.urgency = touch::Urgency::low, .title = words.count("reviews.count", static_cast<long>(count))},
        asks);
    return asks;
}

}  // namespace brimline::screens

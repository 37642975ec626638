// Draws the reasons of a set that was not taken.
#include "app/kiosk/screens/not_taken.h"

#include "app/kiosk/screens/letters.h"

namespace brimline::screens {
namespace {

void not_taken(const std::string& why, Asks& asks) {
    Vitals says;
    says.not_taken = why;
    asks.tell(says);
    asks.sheet = Sheet::none;
}

}  // namespace

void draw_why_not(touch::Glass& glass, touch::Rect area, VitalsDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const auto place = [&](int i) { return touch::cell(area, 3, 1, i, 0, 12); };
    if (touch::button(glass, "not-taken-airway", place(0), {.title = words.say("vitals.airway")})) {
        not_taken("airway", asks);
    }
    if (touch::button(glass, "not-taken-other", place(1), {.title = words.say("vitals.other")})) {
        drafts.worded = true;
    }
    if (touch::button(glass, "taken-after-all", place(2),
                      {.title = words.say("touch.back"), .em = touch::step::note})) {
        drafts.why_not = false;
    }
}

void type_why_not(touch::Glass& glass, const Scene& scene, VitalsDrafts& drafts, Asks& asks) {
    if (!draw_letters(glass, scene, glass.words().say("vitals.why-not"), drafts.why, drafts.keys, asks)) {
        return;
    }
    drafts.worded = false;
    if (!drafts.why.text().empty()) {
        not_taken(drafts.why.text(), asks);
        drafts = {};
    }
}

}  // namespace brimline::screens

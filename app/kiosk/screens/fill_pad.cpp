// The keypad of the sheets that ask for millilitres: question, box and keys in column B.
#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {

void draw_ml_pad(const FillPage& page, const std::string& question, const std::string& label,
                 const std::string& wrong) {
    auto& glass = page.glass;
    const touch::Rect b = page.layout.column_b;
    touch::panel(glass, b.top_part(72));
    touch::text(glass, "pad/question", b.top_part(72).inset(20, 4), question,
                {.em = touch::step::body, .bold = true});
    auto& draft = page.drafts.ml;
    touch::value_box(glass, "pad/box", {b.x, b.y + 82, b.w, 82},
                     {.digits = draft.shown(glass.words().decimal_mark()),
                      .unit = page.say("unit.ml-alone"),
                      .label = label,
                      .wrong = wrong,
                      .focused = true});
    if (const auto pressed = touch::keypad(glass, "pad", {b.x, b.y + 174, b.w, b.h - 174}, true)) {
        draft.press(*pressed);
        page.drafts.said = false;
    }
}

bool is_implausible(const FillPage& page) {
    return page.drafts.said && page.scene.last && page.scene.last->result == Reply::Result::asked;
}

void draw_note_panel(const FillPage& page, const std::string& name, touch::Rect rect, const std::string& head,
                     const std::string& words) {
    touch::panel(page.glass, rect);
    draw_head(page, name + "/head", rect, head);
    touch::text(page.glass, name + "/words", {rect.x + 20, rect.y + 44, rect.w - 40, rect.h - 48}, words,
                {.stand = touch::Stand::top, .lines = static_cast<int>((rect.h - 48) / 25)});
}

}  // namespace brimline::screens

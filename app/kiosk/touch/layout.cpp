// The figures of the two pages.
#include "app/kiosk/touch/layout.h"

namespace brimline::touch {

namespace {

void mirror(Layout& page) {
    const float width = page.size.w;
    for (Rect* rect : {&page.rail, &page.column_a, &page.column_b, &page.prompt, &page.action,
                       &page.fill_action, &page.sheet_action, &page.sheet_count, &page.foot}) {
        *rect = mirrored(*rect, width);
    }
    for (Rect& chip : page.chips) {
        chip = mirrored(chip, width);
    }
}

}  // namespace

Rect mirrored(Rect rect, float width) { return {width - rect.right(), rect.y, rect.w, rect.h}; }

Layout landscape(bool left_handed) {
    Layout page{.size = {1280, 800},
                .portrait = false,
                .strip = {0, 0, 1280, 88},
                .rail = {0, 92, 160, 550},
                .column_a = {176, 104, 672, 560},
                .column_b = {864, 104, 400, 560},
                .prompt = {176, 692, 672, 96},
                .action = {864, 692, 400, 96},
                .fill_action = {864, 440, 400, 348},
                .sheet_action = {176, 692, 232, 96},
                .sheet_count = {420, 692, 428, 96},
                .foot = {160, 680, 1120, 120},
                .chips = {{{3, 648, 74, 72}, {83, 648, 74, 72}, {3, 724, 74, 72}, {83, 724, 74, 72}}}};
    if (left_handed) {
        mirror(page);
    }
    return page;
}

Layout portrait(bool left_handed) {
    Layout page{.size = {800, 1280},
                .portrait = true,
                .strip = {0, 0, 800, 176},
                .rail = {0, 177, 548, 80},
                .column_a = {16, 268, 768, 612},
                .column_b = {16, 992, 360, 280},
                .prompt = {16, 896, 768, 88},
                .action = {392, 1180, 392, 92},
                .fill_action = {392, 992, 392, 280},
                .sheet_action = {16, 1180, 180, 92},
                .sheet_count = {16, 992, 360, 92},
                .foot = {0, 892, 800, 388},
                .chips = {{{556, 182, 72, 70}, {634, 182, 72, 70}, {712, 182, 72, 70}, {}}}};
    if (left_handed) {
        mirror(page);
    }
    return page;
}

Layout layout_for(Size size, bool left_handed) {
    return size.w >= size.h ? landscape(left_handed) : portrait(left_handed);
}

}  // namespace brimline::touch

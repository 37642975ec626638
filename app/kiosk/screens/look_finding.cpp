// One finding: its grade, size and words, entered as the physician's word. An entered one may be changed, or
// taken back; both stay in the record.
#include <fmt/format.h>

#include "app/kiosk/screens/look_parts.h"
#include "core/case/codec.h"
#include "core/case/look_view.h"

namespace brimline::screens {
namespace {

using touch::Rect;

bool has_grade(const std::string& kind) { return kind == "oesophagitis"; }
bool has_stepper(const std::string& kind) { return kind == "hiatal-hernia"; }

std::string kind_words(const LookPage& page) {
    for (const auto& item : page.scene.policy.lists.findings) {
        if (item.id == page.drafts.kind) {
            return item.words;
        }
    }
    return page.drafts.kind;
}

Finding typed(const LookPage& page) {
    Finding says;
    says.kind = page.drafts.kind;
    if (!page.drafts.grade.empty()) {
        says.grade = page.drafts.grade;
    }
    if (page.drafts.size_tenths) {
        says.size_cm = Decimal::of_millionths(*page.drafts.size_tenths * (Decimal::scale / 10));
    } else {
        says.size_cm = Decimal::parse(page.drafts.size.text());
    }
    if (!page.drafts.words.text().empty()) {
        says.note = page.drafts.words.text();
    }
    return says;
}

void draw_size(const LookPage& page) {
    auto& drafts = page.drafts;
    if (has_grade(drafts.kind)) {
        const Rect row{864, 192, 400, 96};
        int i = 0;
        for (const char* grade : {"A", "B", "C", "D"}) {
            if (touch::button(page.glass, fmt::format("grade/{}", grade), touch::cell(row, 4, 1, i++, 0, 8),
                              {.title = grade,
                               .look = drafts.grade == grade ? touch::Look::chosen : touch::Look::rest,
                               .em = touch::step::strong,
                               .tick = false,
                               .corner_tick = true})) {
                drafts.grade = grade;
            }
        }
        return;
    }
    if (has_stepper(drafts.kind)) {
        constexpr int tenths = 10;
        touch::panel(page.glass, {864, 192, 400, 116});
        const touch::Stepper shown{
            .value = drafts.size_tenths ? std::optional{*drafts.size_tenths / tenths} : std::nullopt,
            .least = 1,
            .most = 30,
            .first = 1,
            .unit = page.say("unit.cm-alone")};
        if (const auto changed = touch::stepper(page.glass, "size", {880, 204, 368, 92}, shown)) {
            drafts.size_tenths = *changed * tenths;
        }
        return;
    }
    if (const auto key = touch::keypad(page.glass, "pad", {864, 192, 400, 376}, true, 8)) {
        (void)drafts.size.press(*key);
    }
}

void draw_head(const LookPage& page) {
    auto& drafts = page.drafts;
    const bool boxed = !has_grade(drafts.kind) && !has_stepper(drafts.kind);
    const auto stepped = drafts.size_tenths
                             ? decimal_words(page.glass, typed(page).size_cm.value_or(Decimal{}))
                             : std::string{};
    const touch::ValueBox box{.digits = boxed ? drafts.size.shown(page.glass.words().decimal_mark())
                                        : has_grade(drafts.kind) ? drafts.grade
                                                                 : stepped,
                              .unit = has_grade(drafts.kind) ? "" : page.say("unit.cm-alone"),
                              .label = page.say(has_grade(drafts.kind) ? "look.which-grade" : "look.size"),
                              .focused = boxed};
    (void)touch::value_box(page.glass, "finding/box", {864, 96, 264, 88}, box);
    const bool worded = !drafts.words.text().empty();
    if (touch::button(page.glass, "finding-words", {1136, 96, 128, 88},
                      {.title = page.say("look.words"),
                       .look = worded ? touch::Look::chosen : touch::Look::rest,
                       .tick = false,
                       .corner_tick = true})) {
        drafts.keyboard = true;
    }
}

/// An entered finding: taken back as a whole, with the entry kept.
void take_back(const LookPage& page, const FindingSeen& seen) {
    Correct says;
    says.entry = EntryRef{seen.entry.stamp.seq, {}};
    says.withdrawn = true;
    says.reason = page.say("look.not-seen-after-all");
    page.asks.tell(says);
    page.to_list();
}

/// An entered finding looked at again: only what was typed now changes.
void change(const LookPage& page, const FindingSeen& seen) {
    const auto says = typed(page);
    Json changes = Json::object();
    if (says.size_cm) {
        changes["size_cm"] = Json::parse(says.size_cm->text());
    }
    if (says.grade) {
        changes["grade"] = *says.grade;
    }
    if (says.note) {
        changes["note"] = *says.note;
    }
    if (changes.empty()) {
        return;
    }
    Correct correct;
    correct.entry = EntryRef{seen.entry.stamp.seq, {}};
    correct.reason = page.say("look.looked-again");
    correct.changes = changes.dump();
    page.asks.tell(correct);
}

/// What the typed finding will weigh, before it is entered.
std::string weight_words(const LookPage& page) {
    switch (weight_of_finding(typed(page), page.scene.policy)) {
        case FindingWeight::stopping:
            return page.say("look.will-stop");
        case FindingWeight::review:
            return page.say("look.will-review");
        case FindingWeight::plain:
            break;
    }
    return page.say("look.said-by-note", {{"name", whose_word(page.scene)}});
}

}  // namespace

void draw_finding(const LookPage& page) {
    const auto seen = finding_seen(page.state(), page.scene.policy, page.drafts.kind);
    draw_head(page);
    draw_size(page);
    if (seen &&
        touch::button(page.glass, "not-seen-after-all", {864, 576, 400, 88},
                      {.title = page.say("look.not-seen-after-all"), .note = page.say("airway.both-stay")})) {
        take_back(page, *seen);
        return;
    }
    const touch::Action own{.command = "enter-finding",
                            .title = page.say(seen ? "look.enter-again" : "look.enter"),
                            .note = page.say("look.said-by-note", {{"name", whose_word(page.scene)}})};
    if (draw_part_foot(page, kind_words(page), weight_words(page), own, "")) {
        if (seen) {
            change(page, *seen);
        } else {
            page.asks.tell_said_by(typed(page), page.scene.physician);
        }
        page.to_list();
    }
}

}  // namespace brimline::screens

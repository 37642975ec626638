// Staff, policy and backup, to read: who may do what, which policy is in force since when, and what is known
// of backups. What changes them is on the command line, and the page says so.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t rows_on_page = 9;

std::string roles_words(const Glass& glass, const PersonKnown& person) {
    std::string all;
    for (const auto role : person.roles) {
        all += (all.empty() ? "" : ", ") + glass.words().say(fmt::format("role.name-{}", name_of(role)));
    }
    return all;
}

void draw_staff(Glass& glass, const Scene& scene, RegisterDrafts& drafts) {
    const Rect panel{176, 104, 672, 560};
    touch::panel(glass, panel);
    panel_head(glass, "staff/head", panel, glass.words().say("clinic.staff"));
    drafts.first_person = drafts.first_person >= scene.desk.people.size() ? 0 : drafts.first_person;
    std::size_t i = 0;
    for (const auto& [id, person] : scene.desk.people) {
        if (i >= drafts.first_person && i < drafts.first_person + rows_on_page) {
            const float y = 148 + 56 * static_cast<float>(i - drafts.first_person);
            touch::text(glass, "staff/" + id, {196, y, 290, 50}, person.name,
                        {.bold = true, .may_cut = true});
            touch::text(glass, "staff/" + id + "/roles", {494, y, 334, 50}, roles_words(glass, person),
                        {.align = touch::Align::right});
        }
        ++i;
    }
}

void draw_policy(Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const Rect policy{864, 104, 400, 216};
    touch::panel(glass, policy);
    panel_head(glass, "policy/head", policy, words.say("clinic.policy"));
    const auto hash = scene.desk.policy ? scene.desk.policy->hash.substr(0, 8) : std::string{"–"};
    list_line(glass, "policy/hash", {884, 152, 360, 40}, words.say("clinic.hash"), hash, 200);
    list_line(glass, "policy/adopted", {884, 196, 360, 40}, words.say("clinic.adopted"),
              std::to_string(scene.desk.policies.size()), 250);
    list_line(glass, "policy/clinic", {884, 240, 360, 40}, words.say("clinic.phone"),
              scene.policy.clinic.phone, 150);
    const Rect backup{864, 332, 400, 332};
    touch::panel(glass, backup);
    panel_head(glass, "backup/head", backup, words.say("clinic.backup"));
    const auto& trial = scene.desk.rehearsed;
    list_line(
        glass, "backup/trial", {884, 380, 360, 40}, words.say("clinic.trial"),
        trial ? shown_date(glass, scene.zone.date_of(trial->stamp.happened)) : words.say("clinic.never"),
        190);
    touch::text(glass, "backup/how", {884, 428, 360, 228}, words.say("clinic.how"),
                {.stand = touch::Stand::top, .lines = 8});
}

}  // namespace

Asks draw_clinic(Glass& glass, const Scene& scene, RegisterDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    draw_desk_frame(glass, scene, words.say("clinic.title"), scene.policy.clinic.name, asks);
    draw_staff(glass, scene, drafts);
    draw_policy(glass, scene);
    (void)draw_desk_prompt(glass, scene,
                           {.urgency = touch::Urgency::low, .title = words.say("clinic.prompt")});
    const bool more = scene.desk.people.size() > rows_on_page;
    const touch::Action next{.command = more ? "next-part" : "to-kiosk",
                             .title = words.say(more ? "day-list.next-part" : "kiosk.title"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, next) == touch::ActionTap::action) {
        if (more) {
            drafts.first_person += rows_on_page;
        } else {
            asks.page = Page::kiosk;
        }
    }
    return asks;
}

}  // namespace brimline::screens

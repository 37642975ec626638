// The parts of a removal, each drawn by a file of its own. Not for other files than those of the removal.
#pragma once
#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/whose_word.h"
#include "core/desk/removal_view.h"

namespace brimline::screens {

/// One frame of a page of a removal.
struct RemovalPage {
    touch::Glass& glass;
    const Scene& scene;
    const RemovalView& view;
    RemovalDrafts& drafts;
    Asks& asks;

    [[nodiscard]] const CaseState& state() const { return *scene.ahead_state; }
    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
};

[[nodiscard]] inline RemovalView removal_view_of(const Scene& scene) {
    return removal_view(*scene.ahead_state, scene.ahead, scene.policy, scene.zone, scene.now);
}

/// Column B as the pad of the canister: which reading it is, its box, the keys.
void draw_canister_pad(const RemovalPage& page, bool with_syringe);
/// The corner that saves what was typed; none while nothing can be saved.
[[nodiscard]] std::optional<touch::Action> canister_action(const RemovalPage& page);
/// Enters what was typed.
void tell_canister(const RemovalPage& page);
/// The pad over a page, with its foot; Back and the corner lead back to the page.
void draw_canister_part(const RemovalPage& page);
/// What was put in: by our record, reported, or not known.
void draw_put_in(const RemovalPage& page, touch::Rect panel);
/// "+55 mL", "−130 mL"
[[nodiscard]] std::string signed_ml_words(const touch::Glass& glass, Millilitres volume);
/// "−21.7 %"
[[nodiscard]] std::string signed_percent_words(const touch::Glass& glass, const Fraction& percent);
/// The words of a list's id, or the id.
[[nodiscard]] std::string words_of_id(const std::vector<ListItem>& list, const std::string& id);

/// Column A above the list of findings: how the balloon looks, and food.
void draw_balloon_seen(const RemovalPage& page);
/// The canister and what was put in, beside the list.
void draw_look_beside(const RemovalPage& page);
/// The second look: what was seen after the balloon was out.
void draw_second_look(const RemovalPage& page);

}  // namespace brimline::screens

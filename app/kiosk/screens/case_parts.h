// Small parts that several pages of a case share: a corner at rest, the head of a panel, a line of a list,
// and whose hand enters what only one role may.
#pragma once
#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

/// The foot of a gate that asks: its prompt, and the way back in the corner; crossing stands in column B.
void draw_gate_foot(touch::Glass& glass, const Scene& scene, const std::string& title, Asks& asks);
/// The head line of a panel: bold at the left, muted at the right.
void panel_head(touch::Glass& glass, const std::string& name, touch::Rect panel, const std::string& left,
                const std::string& right = {});
/// One line of a list: its word at the left, its value at the right.
void list_line(touch::Glass& glass, const std::string& name, touch::Rect line, const std::string& word,
               const std::string& value, float word_width);

/// True when the chosen person has that role.
[[nodiscard]] bool chosen_may(const Scene& scene, Role role);
/// Somebody present who has that role: the chosen person before the others.
[[nodiscard]] std::optional<std::string> present_with(const Scene& scene, Role role);
/// Enters by the chosen person, or where that person may not, by somebody present who may. When nobody may,
/// it is told all the same: the core refuses it and says why.
void tell_as(const Scene& scene, Role role, Statement says, Asks& asks);

/// The way out of practice when the patient was real after all.
void draw_was_real(touch::Glass& glass, touch::Rect rect, Asks& asks);
/// The prompt bar of a sheet: what it is for, with Back at the right; true when Back was tapped. What the
/// disk or the core says stands before it.
bool sheet_prompt(touch::Glass& glass, const Scene& scene, const touch::Prompt& shown, Asks& asks);
/// The foot of a sheet on which nothing is entered: over Fill the row with Syringe in, else the prompt and a
/// corner that leads back.
void draw_foot_to_read(touch::Glass& glass, const Scene& scene, const touch::Prompt& shown, Asks& asks);

/// "+12", "−3", "0": seconds with their sign.
[[nodiscard]] std::string seconds_words(int seconds);

}  // namespace brimline::screens

// The frame of a page of a case in its parts, for pages that put something else in the prompt's place.
#pragma once
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {

/// Ground, strip, rail and chips without the prompt bar; a sheet draws its own row there.
void draw_case_frame_bare(touch::Glass& glass, const Scene& scene, Asks& asks);
/// Ground and strip alone, for a sheet that needs the place of rail and chips.
void draw_case_strip(touch::Glass& glass, const Scene& scene, Asks& asks);
/// What was tapped on the prompt bar and is the page's business: its own prompt, or a chip by its name.
struct CasePromptTap {
    bool own{false};
    std::string chip{};
};
/// The prompt bar. `own` is what the page itself reminds of; something more urgent stands before it, with the
/// page's chips.
CasePromptTap draw_case_prompt(touch::Glass& glass, const Scene& scene,
                               const std::optional<touch::Prompt>& own, Asks& asks);
/// The corner while it does nothing: flat, for what is outlined can be touched.
void quiet_corner(touch::Glass& glass, const std::string& says);
/// The page on which a stage is worked; none where it is worked elsewhere.
[[nodiscard]] std::optional<Page> page_of(Stage stage);
/// The page on which a case goes on: that of its stage, the record once it is sealed.
[[nodiscard]] Page page_of_case(const CaseState& state, const Scene& scene);
/// The stages of this kind of case, in order; those of a placement follow at an exchange.
[[nodiscard]] std::vector<Stage> stages_of(const CaseState& state);
/// The rows of the rail, as the stage sheet shows them too.
[[nodiscard]] std::vector<touch::Stage> rail_of(const touch::Glass& glass, const Scene& scene);
/// The stage whose row of the rail a page belongs to.
[[nodiscard]] Stage stage_on_screen(Page page);
/// True where the patient lies in a bay: light colours, and the size rules of a bay.
[[nodiscard]] bool in_bay(const Scene& scene);
/// The colours of a page that lies in a bay or at the desk, or else in the room.
[[nodiscard]] touch::Theme theme_of(const Scene& scene, bool light_place);
/// True while birth day and month are asked, so that they stand nowhere on the glass.
[[nodiscard]] bool born_is_asked(const Scene& scene);
/// "96.4" with the decimal mark of the language.
[[nodiscard]] std::string decimal_words(const touch::Glass& glass, Decimal value);

}  // namespace brimline::screens

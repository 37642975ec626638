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
/// The rows of the rail, as the stage sheet shows them too.
[[nodiscard]] std::vector<touch::Stage> rail_of(const touch::Glass& glass, const Scene& scene);
/// "96.4" with the decimal mark of the language.
[[nodiscard]] std::string decimal_words(const touch::Glass& glass, Decimal value);

}  // namespace brimline::screens

// The parts around every page: patient strip, stage rail, desk rail, person chips, prompt bar, sheet row.
// They take plain words and say what was tapped; what a tap means is the page's business.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/kiosk/touch/action.h"
#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/layout.h"
#include "app/kiosk/touch/pen.h"

namespace brimline::touch {

class Glass;

/// The ground of a page: background, ground of the foot, divider lines.
void page_ground(Glass& glass, const Layout& layout);

/// What the allergy box says.
enum class AllergyState { known, none_known, not_asked };

/// A figure of the strip: "13 min" over "sedated".
struct StripFigure {
    std::string value;
    std::string label;
    bool due{false};  ///< amber with a triangle: now or late
};

/// What the patient strip shows.
struct Strip {
    std::string surname;       ///< in capitals, never cut
    std::string given;         ///< shrinks, then may end in an ellipsis
    std::string born{};        ///< "14 Mar 1986 · 40 y"
    bool born_covered{false};  ///< while it is being asked
    std::string number{};
    AllergyState allergy{AllergyState::not_asked};
    std::string allergy_text{};
    std::array<std::optional<StripFigure>, 3> figures{};  ///< weight, sedated, vitals due
    bool with_buttons{true};
    std::string vitals_title{};
    std::string airway_title{};
    std::string airway_command{"airway-event"};  ///< a change of it makes the button dead for 0.8 s
    std::string clock{};
    std::string person{};
};

/// What was tapped on the strip.
enum class StripTap { none, patient, allergy, vitals, airway };

/// The patient strip.
StripTap patient_strip(Glass& glass, const Layout& layout, const Strip& shown);

/// A button of the strip of desk pages (Start now, Vitals, Airway event at sign-in).
struct StripButton {
    std::string name;
    std::string title;
};

/// The strip of pages without a patient; returns the index of the button tapped.
std::optional<std::size_t> desk_strip(Glass& glass, const Layout& layout, std::string_view title,
                                      std::string_view note, std::string_view clock, std::string_view person,
                                      const std::vector<StripButton>& buttons = {});

/// How a stage stands in the rail.
enum class StageState { done, on_screen, ahead, under_way, hold, deferred };

/// One row of the rail; the page on screen is marked besides its state.
struct Stage {
    std::string name;
    StageState state{StageState::ahead};
    bool on_screen{false};
};

/// The stage rail, one target; true when it was tapped.
bool stage_rail(Glass& glass, const Layout& layout, const std::vector<Stage>& stages);

/// The rail of desk pages; returns the row tapped.
std::optional<std::size_t> desk_rail(Glass& glass, const Layout& layout, const std::vector<std::string>& rows,
                                     std::size_t chosen);

/// One of those present.
struct Person {
    std::string id;
    std::string initials;
    bool chosen{false};
};

/// Up to four person chips; returns the one tapped unless it was already chosen.
std::optional<std::size_t> person_chips(Glass& glass, const Layout& layout,
                                        const std::vector<Person>& people);

/// How urgent a prompt is.
enum class Urgency { none, low, medium, high };

/// A chip at the right end of the prompt bar.
struct PromptChip {
    std::string name;
    std::string title;
    float width{96};
};

/// The one prompt, the most urgent.
struct Prompt {
    Urgency urgency{Urgency::none};
    std::string title;
    std::string why{};
    std::vector<PromptChip> chips{};
};

/// What was tapped: the bar, or a chip by its index.
struct PromptTap {
    bool bar{false};
    std::optional<std::size_t> chip{};
};

/// The prompt bar.
PromptTap prompt_bar(Glass& glass, Rect rect, const Prompt& shown);

/// What was tapped in the sheet row.
enum class SheetTap { none, action, back };

/// The foot of column A under a sheet over Fill: the sheet's own action, the count, and the way back.
SheetTap sheet_row(Glass& glass, const Layout& layout, const Action& own, std::string_view count_title,
                   std::string_view count_note);

/// What the count beside a sheet's action says, and how urgent that is.
struct SheetCount {
    std::string title;
    std::string note{};
    Urgency urgency{Urgency::low};
    bool with_back{true};
};
/// The same; without an own action its place is empty.
SheetTap sheet_row(Glass& glass, const Layout& layout, const std::optional<Action>& own,
                   const SheetCount& count);

}  // namespace brimline::touch

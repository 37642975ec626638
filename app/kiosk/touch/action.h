// The action: the one next thing, always in the lower corner of the glass, found by feel.
// Its name in the registry is its command; the place is "corner" and takes no press for 0.8 s after a change.
#pragma once

#include <optional>
#include <string>

#include "app/kiosk/touch/geometry.h"

namespace brimline::touch {

class Glass;

/// How the action stands.
enum class ActionLook {
    ready,         ///< action fill: it records an event
    next_missing,  ///< accent outline: names what is missing and jumps there
    question,      ///< ring: an answer is due first
    opens,         ///< outline only: not an event yet
};

/// What the action shows and how it is touched.
struct Action {
    std::string command;  ///< "syringe-in"; what a test taps
    std::string title;
    std::string note{};  ///< "number 10"
    std::string more{};  ///< "+50 mL", on the tall action its own line
    ActionLook look{ActionLook::ready};
    bool acts_on_press{false};  ///< Syringe in only
    bool pending{false};        ///< the disk has not answered; it still counts
    std::string warning{};      ///< "makes 750 mL, above ceiling": red box with octagon
};

/// The button left of the action that goes on and makes open items.
struct GoOn {
    std::string title;
    std::string note;  ///< "2 open items"
};

/// What was touched.
enum class ActionTap { none, action, go_on };

/// Draws the corner. With `go_on` the action gives up its left part to it.
ActionTap action(Glass& glass, Rect corner, const Action& shown, const std::optional<GoOn>& go_on = {});

/// A sheet's own action, at the left end of the sheet row or in the grid; never in the corner.
bool sheet_action(Glass& glass, Rect rect, const Action& shown);

}  // namespace brimline::touch

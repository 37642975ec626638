// Buttons, answer pairs, steppers and rows: everything that is touched and is neither the action nor a
// keypad. There is no greyed-out button. Each returns true in the frame in which the touch counts.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/pen.h"
#include "app/kiosk/touch/registry.h"
#include "app/kiosk/touch/type.h"

namespace brimline::touch {

class Glass;

/// How a button stands.
enum class Look {
    rest,
    chosen,    ///< chosen fill, 3 px outline, tick, bold
    review,    ///< an answer that wants a look: solid amber, triangle
    stopping,  ///< an answer that stops: stop fill, octagon
    pending,   ///< dashed: the disk has not answered
    proposed,  ///< dashed: offered from values just entered
    filled,    ///< the sheet's own action
    accent,    ///< outlined in the accent colour: the next thing to do, or a dose given once more
};

/// What a button shows.
struct Button {
    std::string title;
    std::string note{};  ///< second line, 20 px
    Look look{Look::rest};
    bool bold{false};
    int em{step::body};
    bool tick{true};          ///< a chosen button shows a tick beside its title
    bool corner_tick{false};  ///< or small in its corner, for number keys
    Kind kind{Kind::button};
    std::string group{};
    bool watched{false};  ///< has a dead time; `group` is the place
};

/// A button.
bool button(Glass& glass, std::string_view name, Rect rect, const Button& shown);

/// A key with a number: one-tap value keys.
bool value_key(Glass& glass, std::string_view name, Rect rect, std::string_view digits, bool chosen, int em);

/// The two answers to a question.
enum class Answer { no, yes };

/// How an answer pair stands.
struct AnswerPair {
    std::optional<Answer> given{};
    std::optional<Answer> bad{};  ///< which answer is drawn as `bad_look` once given
    Look bad_look{Look::stopping};
    std::string no_note{}, yes_note{};
    std::string yes_word{};  ///< "Go" and "No-go" instead of Yes and No where the house says so
    std::string no_word{};
};

/// No left, Yes right, 18 px between them; returns what was tapped unless it was already given.
std::optional<Answer> answer_pair(Glass& glass, std::string_view name, Rect rect, const AnswerPair& shown);

/// How a stepper stands.
struct Stepper {
    std::optional<int> value{};  ///< none is shown as "–", not asked
    int least{0};
    int most{10};
    int first{0};  ///< the value of the first tap on either side
    int step{1};
    std::string unit{};
};

/// − n +; returns the new value when it was changed.
std::optional<int> stepper(Glass& glass, std::string_view name, Rect rect, const Stepper& shown);

/// A row of a list that opens something.
struct Row {
    std::string time{};  ///< in numerals at the left
    std::string title;
    std::string note{};
    Icon icon{Icon::none};  ///< before the state
    std::string state{};
    bool state_bold{false};
    bool current{false};  ///< accent outline
    bool opens{true};
};

/// A list row, 72 px high or more.
bool row(Glass& glass, std::string_view name, Rect rect, const Row& shown);

}  // namespace brimline::touch

// Cards: holds, reviews, things to do and things met; each says what, since or until when, and its ways out.
// A card either opens as a whole or carries its ways out as buttons inside; never both.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/kiosk/touch/button.h"
#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/pen.h"

namespace brimline::touch {

class Glass;

/// What sort of card.
enum class CardKind {
    hold,      ///< octagon
    review,    ///< triangle
    to_do,     ///< ring
    done,      ///< tick in disc, plain ground
    good,      ///< tick in disc, green ground, not touched: "Next makes 500 mL"
    question,  ///< amber, asks
    plain,
};

/// What a card shows.
struct Card {
    CardKind kind{CardKind::plain};
    std::string title;
    std::vector<std::string> lines{};  ///< 20 px each
    bool opens{false};                 ///< a tap anywhere on it leads on
    bool taken{false};                 ///< drawn as chosen: done with a tap of today
};

/// A card; true when it opens and was tapped.
bool card(Glass& glass, std::string_view name, Rect rect, const Card& shown);

/// A way out of a hold or a question.
struct Way {
    std::string name;
    std::string title;
    std::string note{};
    Look look{Look::rest};
};

/// A card with its ways out as one row of buttons at its foot; returns the index of the one tapped.
std::optional<std::size_t> card_with_ways(Glass& glass, std::string_view name, Rect rect, const Card& shown,
                                          const std::vector<Way>& ways, float way_height = 88);

/// A card that asks one Yes or No, the pair at its foot.
std::optional<Answer> card_with_answer(Glass& glass, std::string_view name, Rect rect, const Card& shown,
                                       const AnswerPair& pair, float pair_height = 88);

}  // namespace brimline::touch

// Wording the figures of the fill.
#include "app/kiosk/screens/fill_words.h"

#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"

namespace brimline::screens {

namespace {

Decimal as_decimal(Millilitres volume) {
    return Decimal::of_millionths(volume.in_tenths() * (Decimal::scale / 10));
}

}  // namespace

std::string ml_digits(const touch::Glass& glass, Millilitres volume) {
    const bool negative = volume < Millilitres{};
    return (negative ? "−" : "") + decimal_words(glass, as_decimal(negative ? -volume : volume));
}

std::string ml_words(const touch::Glass& glass, Millilitres volume) {
    return glass.words().say("unit.ml", {{"n", ml_digits(glass, volume)}});
}

std::string syringes_words(const touch::Glass& glass, const FillView& view) {
    const auto& beside = view.beside_whole;
    std::string words;
    if (view.whole != 0) {
        words = fmt::format("{} × {}", view.whole, ml_words(glass, view.nominal));
    }
    if (beside > Millilitres{}) {
        words += (words.empty() ? "" : " + ") + ml_words(glass, beside);
    } else if (beside < Millilitres{}) {
        words += (words.empty() ? "−" : " − ") + ml_words(glass, -beside);
    }
    return words.empty() ? glass.words().say("fill.none-yet") : words;
}

std::string standing_words(const touch::Glass& glass, const Standing& standing, const FillView& view) {
    if (!standing.band) {
        return "";
    }
    const auto& words = glass.words();
    if (*standing.band == FillBand::above_ceiling) {
        return words.say("fill.above-ceiling-of", {{"ceiling", ml_digits(glass, *view.ceiling)}});
    }
    const auto band = words.say(fmt::format("fill.{}", name_of(*standing.band)));
    return standing.on_aim ? band + ", " + words.say("fill.on-target") : band;
}

std::string fill_volume_words(const touch::Glass& glass, const FillView& view) {
    if (view.waiting_taps == 0) {
        return ml_words(glass, view.possible);
    }
    return glass.words().say(
        "fill.span", {{"from", ml_digits(glass, view.counted)}, {"to", ml_words(glass, view.possible)}});
}

std::optional<Millilitres> typed_ml(const touch::NumberDraft& draft) {
    const auto tenths = draft.in_tenths();
    return tenths && *tenths > 0 ? std::optional{Millilitres::of_tenths(*tenths)} : std::nullopt;
}

touch::NumberDraft proposing(Millilitres volume) {
    touch::NumberDraft draft{3, 1};
    draft.propose(as_decimal(volume).text());
    return draft;
}

}  // namespace brimline::screens

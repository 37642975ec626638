// What is being typed on Place: volumes, saline, dye, a label.
#pragma once
#include <array>
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/place_view.h"

namespace brimline::screens {

/// A label being typed from the pack, and its last four as a second person reads them.
struct LabelDraft {
    enum class Field : std::uint8_t { number, expiry, lot, serial, read_aloud };

    Field field{Field::number};
    bool keyboard{false};  // the letters are open
    touch::KeyboardState keys{};
    std::string number, expiry, read_aloud;
    touch::TextDraft lot{20}, serial{20};
    std::string reader;  // id of the second person; nobody until chosen
};

struct PlaceDrafts {
    enum class Pad : std::uint8_t { none, volume, row, pair, closed_tap, dye };

    Pad pad{Pad::none};
    std::array<touch::NumberDraft, 4> numbers{
        {touch::NumberDraft{}, touch::NumberDraft{}, touch::NumberDraft{}, touch::NumberDraft{}}};
    std::size_t box{0};
    std::optional<bool> dye_in_first;
    touch::TextDraft saline_lot{20};  // typed, or read by the scanner while a pad of saline is open
    touch::NumberDraft saline_expiry = touch::NumberDraft{6, 0};  // year, month, day
    bool lot_keyboard{false}, in_expiry{false};
    touch::KeyboardState keys{};
    bool said_no{false};               // the physician said No to the position; nothing is recorded of it
    std::optional<PlaceStep> pointed;  // what the corner pointed to
    LabelDraft label;

    [[nodiscard]] bool saline_pad() const {
        return pad == Pad::row || pad == Pad::pair || pad == Pad::closed_tap;
    }
    /// The lot and the expiry that a bag's code holds; a code that holds no lot changes nothing.
    void take_scan(const std::string& characters, LocalDate today);
    /// Opens a pad with empty boxes.
    void open(Pad which);
};

}  // namespace brimline::screens

// The gauge: one numbered block a syringe, from 0 to 50 mL above the ceiling, with band, target and ceiling.
// Volumes come as whole tenths of a millilitre; nothing is added up here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/kiosk/touch/geometry.h"

namespace brimline::touch {

class Glass;

/// How a block stands.
enum class BlockLook {
    counted,    ///< fluid fill
    above,      ///< passes the ceiling: stop fill
    waiting,    ///< amber dashes with ?: a question stands
    unsaved,    ///< red dashes with its number: not on disk yet
    proposed,   ///< dashed in the fluid colour: being typed
    corrected,  ///< hatched, kept at its place
};

/// One delivery.
struct Block {
    int from_tenths{0};
    int to_tenths{500};
    std::string label;  ///< "9", "1 dye", "30", "?"
    BlockLook look{BlockLook::counted};
};

/// What the gauge shows.
struct Gauge {
    std::vector<Block> blocks{};
    int ceiling_tenths{7000};
    std::optional<int> band_from_tenths{};
    std::optional<int> band_to_tenths{};
    std::optional<int> target_tenths{};
    std::string target_word{};
    int scale_step_tenths{1000};
};

/// The gauge in a panel (252x560 on the page).
void gauge(Glass& glass, Rect rect, const Gauge& shown);

}  // namespace brimline::touch

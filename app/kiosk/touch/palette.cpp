// The figures of both palettes and the pairs whose contrast is promised.
#include "app/kiosk/touch/palette.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace brimline::touch {

namespace {

constexpr Palette dark{
    .bg = rgb(0x0A0E12),
    .panel = rgb(0x141A20),
    .control = rgb(0x222B34),
    .chosen = rgb(0x35424F),
    .text = rgb(0xF3F6F8),
    .text_2 = rgb(0xB9C5D0),
    .line = rgb(0x728292),
    .hairline = rgb(0x2B353F),
    .rail = rgb(0x0F151A),
    .action = rgb(0x3F4CB0),
    .action_ink = rgb(0xFFFFFF),
    .accent = rgb(0x9DAEFF),
    .stop = rgb(0xFF9385),
    .stop_tint = rgb(0x45140F),
    .stop_fill = rgb(0xA8261B),
    .stop_ink = rgb(0xFFFFFF),
    .look = rgb(0xF4BE4F),
    .look_tint = rgb(0x372B0E),
    .look_fill = rgb(0xF4BE4F),
    .look_ink = rgb(0x171100),
    .know = rgb(0x7AD7E6),
    .know_tint = rgb(0x0E3038),
    .good = rgb(0x86D9A8),
    .good_tint = rgb(0x143B28),
    .fluid = rgb(0x6DB3F2),
    .fluid_ink = rgb(0x07121C),
};

constexpr Palette light{
    .bg = rgb(0xE8ECF0),
    .panel = rgb(0xFFFFFF),
    .control = rgb(0xF5F7F9),
    .chosen = rgb(0xD9E1EA),
    .text = rgb(0x10161C),
    .text_2 = rgb(0x3F4953),
    .line = rgb(0x66727F),
    .hairline = rgb(0xD0D7DE),
    .rail = rgb(0xE0E6EB),
    .action = rgb(0x2F3FA6),
    .action_ink = rgb(0xFFFFFF),
    .accent = rgb(0x2F3FA6),
    .stop = rgb(0xA3180D),
    .stop_tint = rgb(0xFDE3DF),
    .stop_fill = rgb(0xA3180D),
    .stop_ink = rgb(0xFFFFFF),
    .look = rgb(0x6B4700),
    .look_tint = rgb(0xFFF0C7),
    .look_fill = rgb(0xF4BE4F),
    .look_ink = rgb(0x171100),
    .know = rgb(0x0A5866),
    .know_tint = rgb(0xDDF2F5),
    .good = rgb(0x135836),
    .good_tint = rgb(0xD9F0E2),
    .fluid = rgb(0x17588F),
    .fluid_ink = rgb(0xFFFFFF),
};

double linear(std::uint32_t byte) {
    const double part = static_cast<double>(byte) / 255.0;
    return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

double luminance(Colour c) {
    return 0.2126 * linear(c & 0xFFU) + 0.7152 * linear((c >> 8U) & 0xFFU) +
           0.0722 * linear((c >> 16U) & 0xFFU);
}

struct Promise {
    const char* what;
    Colour Palette::*ink;
    Colour Palette::*ground;
    double least;
};

constexpr double words = 7.0;     // AAA for text
constexpr double outlines = 3.0;  // for the edge of what can be touched
constexpr double shapes = 4.5;    // icons and figures that repeat what a word beside them says

constexpr Promise promises[] = {
    {"text on bg", &Palette::text, &Palette::bg, words},
    {"text on panel", &Palette::text, &Palette::panel, words},
    {"text on control", &Palette::text, &Palette::control, words},
    {"text on chosen", &Palette::text, &Palette::chosen, words},
    {"text on stop tint", &Palette::text, &Palette::stop_tint, words},
    {"text on look tint", &Palette::text, &Palette::look_tint, words},
    {"text on know tint", &Palette::text, &Palette::know_tint, words},
    {"text on good tint", &Palette::text, &Palette::good_tint, words},
    {"muted text on bg", &Palette::text_2, &Palette::bg, words},
    {"muted text on panel", &Palette::text_2, &Palette::panel, words},
    {"muted text on control", &Palette::text_2, &Palette::control, words},
    {"muted text on rail", &Palette::text_2, &Palette::rail, words},
    {"action ink on action", &Palette::action_ink, &Palette::action, words},
    {"white on stop fill", &Palette::stop_ink, &Palette::stop_fill, words},
    {"stop on panel", &Palette::stop, &Palette::panel, words},
    {"stop shape on its tint", &Palette::stop, &Palette::stop_tint, shapes},
    {"look on panel", &Palette::look, &Palette::panel, words},
    {"look on its tint", &Palette::look, &Palette::look_tint, words},
    {"ink on solid amber", &Palette::look_ink, &Palette::look_fill, words},
    {"know on panel", &Palette::know, &Palette::panel, words},
    {"good on panel", &Palette::good, &Palette::panel, words},
    {"good on its tint", &Palette::good, &Palette::good_tint, words},
    {"figure on fluid", &Palette::fluid_ink, &Palette::fluid, words},
    {"outline on bg", &Palette::line, &Palette::bg, outlines},
    {"outline on panel", &Palette::line, &Palette::panel, outlines},
    {"outline on control", &Palette::line, &Palette::control, outlines},
    {"accent on panel", &Palette::accent, &Palette::panel, outlines},
    {"accent on bg", &Palette::accent, &Palette::bg, outlines},
};

}  // namespace

const Palette& palette(Theme theme) { return theme == Theme::dark ? dark : light; }

double contrast(Colour a, Colour b) {
    const double first = luminance(a);
    const double second = luminance(b);
    return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

std::vector<std::string> contrast_faults(const Palette& given) {
    std::vector<std::string> faults;
    for (const Promise& promise : promises) {
        const double found = contrast(given.*promise.ink, given.*promise.ground);
        if (found < promise.least) {
            faults.push_back(
                fmt::format("{}: contrast {:.2f}, promised {:.1f}", promise.what, found, promise.least));
        }
    }
    return faults;
}

}  // namespace brimline::touch

// The single promises of the layout check.
#include "app/kiosk/touch/faults.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <regex>

namespace brimline::touch {

namespace {

using Faults = std::vector<std::string>;

constexpr float slack = 0.5F;  // half a pixel of rounding
constexpr float room_least = 88;
constexpr float desk_least = 72;
constexpr float least_gap = 8;
constexpr float chip_gap = 4;
constexpr float chip_least = 70;  // the one exception: a wrong chip is harmless and seen

float least_side(const Target& target, bool in_room) {
    if (target.kind == Kind::chip) {
        return chip_least;
    }
    // The stage line of portrait is 80 px high; the rail is one large target otherwise.
    if (target.kind == Kind::rail) {
        return desk_least;
    }
    return in_room ? room_least : desk_least;
}

void sizes(const Registry& frame, Faults& faults) {
    for (const Target& t : frame.targets()) {
        const float side = std::min(t.hit.w, t.hit.h);
        const float least = least_side(t, frame.traits().in_room);
        if (side < least - slack) {
            faults.push_back(fmt::format("target {}: {:.0f} px, at least {:.0f}", t.name, side, least));
        }
        const Size size = frame.traits().size;
        if (t.rect.x < -slack || t.rect.y < -slack || t.rect.right() > size.w + slack ||
            t.rect.bottom() > size.h + slack) {
            faults.push_back(fmt::format("target {} leaves the glass", t.name));
        }
    }
}

void gaps(const Registry& frame, Faults& faults) {
    const auto& all = frame.targets();
    for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t j = i + 1; j < all.size(); ++j) {
            const float gap = gap_between(all[i].rect, all[j].rect);
            const bool chips = all[i].kind == Kind::chip || all[j].kind == Kind::chip;
            if (gap < -slack) {
                faults.push_back(fmt::format("targets {} and {} overlap", all[i].name, all[j].name));
            } else if (gap < (chips ? chip_gap : least_gap) - slack) {
                faults.push_back(
                    fmt::format("targets {} and {}: gap {:.0f} px", all[i].name, all[j].name, gap));
            }
        }
    }
}

void names(const Registry& frame, Faults& faults) {
    std::map<std::string, int> count;
    for (const Target& t : frame.targets()) {
        ++count["target " + t.name];
    }
    for (const Slot& s : frame.slots()) {
        ++count["text " + s.name];
    }
    for (const auto& [name, times] : count) {
        if (times > 1) {
            faults.push_back(fmt::format("{} stands {} times", name, times));
        }
    }
}

void one_action(const Registry& frame, Faults& faults) {
    const auto actions = std::count_if(frame.targets().begin(), frame.targets().end(),
                                       [](const Target& t) { return t.kind == Kind::action; });
    if (actions > 1) {
        faults.push_back(fmt::format("{} actions in the corner", actions));
    }
}

void no_before_yes(const Registry& frame, Faults& faults) {
    for (const Target& yes : frame.targets()) {
        if (yes.kind != Kind::answer_yes) {
            continue;
        }
        const std::string pair = yes.name.substr(0, yes.name.rfind('/'));
        const Target* no = frame.find(pair + "/no");
        if (no == nullptr) {
            faults.push_back(fmt::format("{} has no No beside it", yes.name));
        } else if (no->rect.right() > yes.rect.x) {
            faults.push_back(fmt::format("{} does not stand before Yes", no->name));
        }
    }
}

void text_rooms(const Registry& frame, Faults& faults) {
    const Size size = frame.traits().size;
    for (const Slot& s : frame.slots()) {
        if (s.cut && !s.may_cut) {
            faults.push_back(fmt::format("text {} does not fit: \"{}\"", s.name, s.text));
        }
        const bool outside = s.ink.x < s.rect.x - 1 || s.ink.right() > s.rect.right() + 1 ||
                             s.ink.y < s.rect.y - 4 || s.ink.bottom() > s.rect.bottom() + 4;
        if (outside && !s.text.empty()) {
            faults.push_back(fmt::format("text {} leaves its room: \"{}\"", s.name, s.text));
        }
        if (s.ink.x < 0 || s.ink.y < 0 || s.ink.right() > size.w || s.ink.bottom() > size.h) {
            faults.push_back(fmt::format("text {} leaves the glass", s.name));
        }
        if (has_colon_duration(s.text)) {
            faults.push_back(fmt::format("text {}: a duration with a colon: \"{}\"", s.name, s.text));
        }
    }
}

/// The tag of practice lies over whatever is below it, on purpose.
bool has_ink(const Slot& slot) { return slot.ink.w > 0 && !slot.text.empty() && slot.name != "practice"; }

void text_neighbours(const Registry& frame, Faults& faults) {
    const auto& all = frame.slots();
    for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t j = i + 1; j < all.size(); ++j) {
            if (has_ink(all[i]) && has_ink(all[j]) && overlap(all[i].ink, all[j].ink)) {
                faults.push_back(fmt::format("texts {} and {} overlap", all[i].name, all[j].name));
            }
        }
        for (const Target& t : frame.targets()) {
            const Rect ink = all[i].ink;
            const bool inside = ink.x >= t.rect.x && ink.right() <= t.rect.right() && ink.y >= t.rect.y &&
                                ink.bottom() <= t.rect.bottom();
            if (has_ink(all[i]) && overlap(ink, t.rect) && !inside) {
                faults.push_back(fmt::format("text {} crosses the edge of {}", all[i].name, t.name));
            }
        }
    }
}

}  // namespace

bool has_colon_duration(const std::string& text) {
    static const std::regex clock_like{R"((\d+):(\d+)(:\d+)?( ?(min|h|s)\b)?)"};
    static const std::regex time_of_day{R"(([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?)"};
    for (std::sregex_iterator match{text.begin(), text.end(), clock_like}, end; match != end; ++match) {
        if (!std::regex_match(match->str(), time_of_day)) {
            return true;
        }
    }
    return false;
}

std::vector<std::string> layout_faults(const Registry& frame) {
    Faults faults;
    sizes(frame, faults);
    gaps(frame, faults);
    names(frame, faults);
    one_action(frame, faults);
    no_before_yes(frame, faults);
    text_rooms(frame, faults);
    text_neighbours(frame, faults);
    return faults;
}

}  // namespace brimline::touch

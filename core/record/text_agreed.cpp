// The final volume of a placement and how it was agreed: by whom, by which witnesses, how blind the read-back
// was, and where the counts parted on the way. Nothing here is left out when it looks bad.
#include <fmt/format.h>

#include <algorithm>

#include "core/record/text_parts.h"
#include "core/rules/physics.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view not_agreed = "NOT AGREED: no read-back equal to the count";
constexpr std::string_view matter_not_before = "matter not checked before";
constexpr std::string_view matter_after_off = "the matter was checked after the catheter was off";
constexpr std::string_view pair = "pair: no third witness";
constexpr std::string_view from_pedal = "the physician's pedal served as read-back, two people in the room";
constexpr std::string_view changed_after = "the volume changed after it was read back";
constexpr std::string_view unanswered = "without an answer: second syringe, or the same one twice?";
constexpr std::string_view no_chip = "nobody else entered anything in the 10 s before";
}  // namespace say

constexpr std::chrono::seconds glass_window{10};  // 10-decisions F6: a change of person on the same kiosk

struct Made {
    Millilitres ml;
    int syringes{0};
    Delivery::Kind kind{};
};

/// "10 x 50 mL", "20 mL part syringe", "50 mL drawn back": deliveries of one kind and size taken together.
std::vector<Made> grouped(const DeviceBlock& block) {
    std::vector<Made> groups;
    for (const auto& delivery : block.deliveries) {
        const auto same = [&](const Made& m) { return m.ml == delivery.ml && m.kind == delivery.kind; };
        const auto found = std::find_if(groups.begin(), groups.end(), same);
        if (found == groups.end()) {
            groups.push_back({delivery.ml, 1, delivery.kind});
        } else {
            ++found->syringes;
        }
    }
    return groups;
}

std::string group_words(const Made& made) {
    const bool out = made.ml < Millilitres{};
    const auto size = ml_words(out ? Millilitres{-made.ml} : made.ml);
    const auto times = fmt::format("{} x {}", made.syringes, size);
    switch (made.kind) {
        case Delivery::Kind::syringe:
            return times;
        case Delivery::Kind::part:
            return (made.syringes == 1 ? size : times) + " part syringe";
        case Delivery::Kind::drawn_back:
            return (made.syringes == 1 ? size : times) + " drawn back";
        case Delivery::Kind::correction:
            return (made.syringes == 1 ? size : times) + " by correction";
        case Delivery::Kind::meanwhile:
            return (made.syringes == 1 ? size : times) + " pushed while stopped";
    }
    return times;
}

std::string dye_words(const DeviceBlock& block) {
    if (!block.dye || !block.dye->is.ml) {
        return "";
    }
    const bool inside = block.dye->is.in_first_syringe.value_or(true);
    return inside ? fmt::format(" (first with {} dye)", ml_words(*block.dye->is.ml))
                  : fmt::format(" + {} dye on top", ml_words(*block.dye->is.ml));
}

const Noted<ReadBackSaid>* last_read_back(const DeviceBlock& block) {
    return block.read_backs.empty() ? nullptr : &block.read_backs.back();
}

/// When the number was last said or shown before that moment: a tap, a count check, a correction, an unequal
/// read-back.
std::optional<Instant> last_spoken(const Source& v, const DeviceBlock& block, const Stamp& before) {
    std::optional<Instant> last;
    const auto take = [&](const Stamp& stamp) {
        if (stamp.at <= before.at && stamp.seq < before.seq) {
            last = last ? std::max(*last, stamp.at) : stamp.at;
        }
    };
    for (const auto& check : block.checks) {
        take(check.stamp);
    }
    for (const auto& delivery : block.deliveries) {
        take(delivery.stamp);
    }
    for (const auto& said : block.read_backs) {
        take(said.stamp);
    }
    for (const auto& c : v.s.count_corrections) {
        take(c.stamp);
    }
    return last;
}

/// Who else entered something on the same kiosk just before: whoever holds the count must not be who reads it
/// back.
std::string glass_words(const Source& v, const Stamp& read_back) {
    if (read_back.script) {
        return "";
    }
    const Stamp* other = nullptr;
    for (const auto& kept : v.s.history) {
        const auto& stamp = kept.first.stamp;
        const bool near = stamp.seq < read_back.seq && stamp.boot == read_back.boot &&
                          stamp.role != Role::kiosk &&
                          Duration{read_back.tick_us - stamp.tick_us} <= glass_window;
        if (near && stamp.by != read_back.by && is_entry(kept.first.event)) {
            other = &stamp;
        }
    }
    return other == nullptr
               ? std::string{say::no_chip}
               : fmt::format("the person at the kiosk changed from {} {} before", v.person(other->by),
                             span_words(Duration{read_back.tick_us - other->tick_us}));
}

/// What the matter said at the read-back: "row 10", "scale 550.5 mL", or why it says nothing.
std::string matter_words(const Source& v, const DeviceBlock& block, const Stamp& read_back) {
    if (block.saline && block.saline->is.method == SalineMethod::pair) {
        return std::string{say::pair};
    }
    const auto reading = &block == &v.s.device() ? matter_reading(v.s, v.policy) : std::nullopt;
    const bool before = !block.matters.empty() && block.matters.front().stamp.happened <= read_back.happened;
    std::string words;
    if (reading && reading->row_used) {
        words = fmt::format("row {}", *reading->row_used);
    } else if (reading && reading->matter_ml) {
        words = fmt::format("scale {}", ml_words(*reading->matter_ml));
    }
    if (words.empty() || !before) {
        words += (words.empty() ? "" : ", ") + std::string{say::matter_not_before};
    }
    return words;
}

std::string said_words(const ReadBackSaid& said) {
    return fmt::format("said {}",
                       number_words(Decimal::of_millionths(said.ml.in_tenths() * (Decimal::scale / 10))));
}

void agreement(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    const auto* said = last_read_back(block);
    if (said == nullptr || !said->is.agreed) {
        return sheet.loud("Agreed by", say::not_agreed);
    }
    std::vector<std::string> witnesses{said_words(said->is)};
    if (!block.presses.empty()) {
        witnesses.push_back(fmt::format("pedal {}", block.presses.size()));
    }
    witnesses.push_back(matter_words(v, block, said->stamp));
    sheet.field("Agreed by", joined(witnesses));
    sheet.field("", fmt::format("{} at {}", v.who(said->stamp), v.clock_s(said->stamp.happened)));
    if (said->is.from_pedal) {
        sheet.loud("", say::from_pedal);
    }
    if (!block.read_back_stands) {
        sheet.loud("", say::changed_after);
    }
    if (const auto spoken = last_spoken(v, block, said->stamp)) {
        sheet.field("Last said or shown",
                    fmt::format("{} before the read-back", span_words(said->stamp.at - *spoken)));
    }
    sheet.field("At the kiosk", glass_words(v, said->stamp));
}

void mismatches(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    for (const auto& check : block.checks) {
        if (check.is.agreed) {
            continue;
        }
        auto words = fmt::format("{}: counted {}, said {}", v.clock_s(check.stamp.happened), check.is.own,
                                 check.is.said);
        words += check.is.pedal ? fmt::format(", pedal {}", *check.is.pedal) : "";
        words += check.is.parted_at ? fmt::format("; the counts parted at {}", v.clock_s(*check.is.parted_at))
                                    : "";
        sheet.loud("Counts differed", words);
    }
    for (const auto& said : block.read_backs) {
        if (!said.is.agreed) {
            sheet.loud("Read-back differed",
                       fmt::format("{}: said {}, counted {}", v.clock_s(said.stamp.happened),
                                   ml_words(said.is.ml), ml_words(said.is.counted)));
        }
    }
    // Looked at again in pause three is no fault; looked at only then is.
    const bool after_off =
        block.off && !block.matters.empty() && block.matters.front().stamp.happened > block.off->happened;
    if (after_off) {
        sheet.loud("", say::matter_after_off);
    }
    if (!open_questions(block).empty()) {
        const auto waiting = static_cast<std::int64_t>(open_questions(block).size());
        sheet.loud("Open question", fmt::format("{} {}", counted(waiting, "tap", "taps"), say::unanswered));
    }
}

void beside(Sheet& sheet, const Source& v, const DeviceBlock& block, Millilitres volume) {
    if (const auto state = band_state(volume, v.s, v.policy)) {
        const auto band = band_of(v.s, v.policy);
        const auto ceiling = ceiling_of(v.s, v.policy);
        auto words = fmt::format("{}", plain(name_of(*state)));
        words += band ? fmt::format("; band {} to {}, aim {}", ml_words(band->low), ml_words(band->high),
                                    ml_words(band->aim))
                      : "";
        words += ceiling ? fmt::format(", ceiling {}", ml_words(*ceiling)) : "";
        const bool above = *state == FillBand::above_ceiling;
        above ? sheet.loud("Against the plan", words) : sheet.field("Against the plan", words);
    }
    const auto diameter =
        Decimal::of_millionths(rules::sphere_diameter(volume).in_tenths() * (Decimal::scale / 10));
    sheet.field("As a sphere", fmt::format("{} cm across, {} g", diameter.text(),
                                           rules::fill_mass(volume, v.policy.fill.saline_g_per_ml).text(0)));
    const auto span = fill_span(block);
    if (span && span->last > span->first) {
        auto words = fmt::format("{} from first to last syringe", span_words(span->last - span->first));
        words +=
            span->stopped > Duration{} ? fmt::format(", {} of it stopped", span_words(span->stopped)) : "";
        const auto pace = pace_ml_min(block);
        words += pace ? fmt::format(", {} mL/min", *pace) : "";
        sheet.field("Time and pace", words);
    }
    for (const auto& why : block.explained) {
        sheet.field("Reason",
                    fmt::format("{}: {}{}, {}", plain(name_of(why.is.what)),
                                lowered(words_of(v.policy.lists.override_reasons, why.is.reason)),
                                why.is.words ? ", \"" + *why.is.words + "\"" : "", v.who(why.stamp)));
    }
}

}  // namespace

std::string made_of_words(const DeviceBlock& block) {
    std::string words;
    for (const auto& made : grouped(block)) {
        const char* sign = made.ml < Millilitres{} ? " \xE2\x88\x92 " : " + ";
        words += (words.empty() ? "" : sign) + group_words(made);
    }
    return words + dye_words(block);
}

std::map<std::int64_t, Millilitres> running_after(const DeviceBlock& block) {
    std::map<std::int64_t, Millilitres> after;
    DeviceBlock so_far;
    so_far.dye = block.dye;
    for (const auto& delivery : block.deliveries) {
        so_far.deliveries.push_back(delivery);
        after[delivery.stamp.seq] = running_volume(so_far);
    }
    return after;
}

void write_agreed(Sheet& sheet, const Source& v) {
    const auto& block = v.s.device();
    if (block.deliveries.empty() && block.questions.empty()) {
        return;
    }
    const auto volume = running_volume(block);
    const auto possible = possible_volume(block);
    const auto figure =
        possible == volume ? ml_words(volume) : fmt::format("{} to {}", ml_words(volume), ml_words(possible));
    sheet.field(block.not_left_in ? "Volume before out" : "Final volume",
                figure + " = " + made_of_words(block));
    agreement(sheet, v, block);
    mismatches(sheet, v, block);
    beside(sheet, v, block, volume);
}

}  // namespace brimline::record

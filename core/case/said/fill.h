// What is said at Look, Place, Fill and Size: findings, go, the device, saline, syringes, counts, read-back.
#pragma once
#include "core/case/said/sedation.h"

namespace brimline {

inline constexpr Roles assistant_only{Role::assistant};

BRIMLINE_BARE(ScopeIn, "scope-in", any_clinical);
BRIMLINE_BARE(ScopeOut, "scope-out", any_clinical);
BRIMLINE_BARE(Go, "go", any_clinical, Word::physician_says);
BRIMLINE_BARE(BalloonPassed, "balloon-passed", any_clinical);
BRIMLINE_BARE(PositionSeen, "position-seen", any_clinical, Word::physician_says);
BRIMLINE_BARE(ReadyToFill, "ready-to-fill", any_clinical);
BRIMLINE_BARE(SecondCount, "second-count", {Role::physician});

struct Finding {
    static constexpr Spec spec{"finding", any_clinical, Word::physician_says};
    std::string kind;
    std::optional<Decimal> size_cm;
    std::optional<std::string> grade, note;
    static void fields(auto& self, auto&& field) {
        field("kind", self.kind);
        field("size_cm", self.size_cm);
        field("grade", self.grade);
        field("note", self.note);
    }
    bool operator==(const Finding&) const = default;
};
struct NoFindings {
    static constexpr Spec spec{"no-findings", any_clinical, Word::physician_says};
    bool list_read{false};
    static void fields(auto& self, auto&& field) { field("list_read", self.list_read); }
    bool operator==(const NoFindings&) const = default;
};
struct Sample {
    static constexpr Spec spec{"sample", any_clinical};
    std::string kind, site;
    int pieces{0};
    std::string owner;
    LocalDate due{};
    static void fields(auto& self, auto&& field) {
        field("kind", self.kind);
        field("site", self.site);
        field("pieces", self.pieces);
        field("owner", self.owner);
        field("due", self.due);
    }
    bool operator==(const Sample&) const = default;
};
struct LookAgain {
    LocalDate not_before{};
    std::string owner;
    static void fields(auto& self, auto&& field) {
        field("not_before", self.not_before);
        field("owner", self.owner);
    }
    bool operator==(const LookAgain&) const = default;
};
struct Returned {
    std::optional<std::string> lot;
    static void fields(auto& self, auto&& field) { field("lot", self.lot); }
    bool operator==(const Returned&) const = default;
};
struct NoGo {
    static constexpr Spec spec{"no-go", any_clinical, Word::physician_says};
    std::string reason;
    std::optional<LookAgain> look_again;
    std::optional<Returned> returned;
    std::optional<std::string> words;
    static void fields(auto& self, auto&& field) {
        field("reason", self.reason);
        field("look_again", self.look_again);
        field("returned", self.returned);
        field("words", self.words);
    }
    bool operator==(const NoGo&) const = default;
};
struct TypedLabel {
    std::string gtin;
    std::optional<std::string> lot, serial;
    std::optional<std::string> expiry;  // 2028-05-31 or 280531
    static void fields(auto& self, auto&& field) {
        field("gtin", self.gtin);
        field("lot", self.lot);
        field("serial", self.serial);
        field("expiry", self.expiry);
    }
    bool operator==(const TypedLabel&) const = default;
};
/// One of raw, typed (with verified_by), unreadable.
struct Device {
    static constexpr Spec spec{"device", {Role::assistant, Role::physician}};
    std::optional<std::string> raw;
    std::optional<TypedLabel> typed;
    std::optional<std::string> verified_by;
    std::optional<bool> unreadable;
    static void fields(auto& self, auto&& field) {
        field("raw", self.raw);
        field("typed", self.typed);
        field("verified_by", self.verified_by);
        field("unreadable", self.unreadable);
    }
    bool operator==(const Device&) const = default;
};
struct Plan {
    static constexpr Spec spec{"plan", any_clinical, Word::physician_says};
    Millilitres band_low, band_high, aim;
    std::optional<Millilitres> ceiling, syringe;
    static void fields(auto& self, auto&& field) {
        field("band_low_ml", self.band_low);
        field("band_high_ml", self.band_high);
        field("aim_ml", self.aim);
        field("ceiling_ml", self.ceiling);
        field("syringe_ml", self.syringe);
    }
    bool operator==(const Plan&) const = default;
};
enum class SalineMethod : std::uint8_t { row, pair, closed_tap };
constexpr auto names_of(SalineMethod) { return std::array<std::string_view, 3>{"row", "pair", "closed-tap"}; }
struct Saline {
    static constexpr Spec spec{"saline", assistant_only};
    SalineMethod method{};
    std::optional<int> laid_out;
    std::optional<Decimal> scale_g;
    std::optional<std::string> lot;
    std::optional<LocalDate> expiry;
    std::optional<Millilitres> filled_to;
    static void fields(auto& self, auto&& field) {
        field("method", self.method);
        field("laid_out", self.laid_out);
        field("scale_g", self.scale_g);
        field("lot", self.lot);
        field("expiry", self.expiry);
        field("filled_to_ml", self.filled_to);
    }
    bool operator==(const Saline&) const = default;
};
struct SalineAdded {
    static constexpr Spec spec{"saline-added", assistant_only};
    std::optional<int> full;
    std::optional<Decimal> bag_g;
    static void fields(auto& self, auto&& field) {
        field("full", self.full);
        field("bag_g", self.bag_g);
    }
    bool operator==(const SalineAdded&) const = default;
};
/// none true, or agent, ml and in_first_syringe together.
struct Dye {
    static constexpr Spec spec{"dye", assistant_only};
    std::optional<bool> none;
    std::optional<std::string> agent;
    std::optional<Millilitres> ml;
    std::optional<bool> in_first_syringe;
    static void fields(auto& self, auto&& field) {
        field("none", self.none);
        field("agent", self.agent);
        field("ml", self.ml);
        field("in_first_syringe", self.in_first_syringe);
    }
    bool operator==(const Dye&) const = default;
};
struct SyringeIn {
    static constexpr Spec spec{"syringe-in", assistant_only};
    std::optional<Millilitres> ml;
    static void fields(auto& self, auto&& field) { field("ml", self.ml); }
    bool operator==(const SyringeIn&) const = default;
};
struct PartSyringe {
    static constexpr Spec spec{"part-syringe", assistant_only};
    Millilitres ml;
    static void fields(auto& self, auto&& field) { field("ml", self.ml); }
    bool operator==(const PartSyringe&) const = default;
};
struct DrawBack {
    static constexpr Spec spec{"draw-back", assistant_only};
    Millilitres ml;
    static void fields(auto& self, auto&& field) { field("ml", self.ml); }
    bool operator==(const DrawBack&) const = default;
};
enum class SecondOrSame : std::uint8_t { second, same };
constexpr auto names_of(SecondOrSame) { return std::array<std::string_view, 2>{"second", "same"}; }
struct DoubleTapWas {
    static constexpr Spec spec{"double-tap-was", any_clinical};
    std::string question;
    SecondOrSame answer{};
    static void fields(auto& self, auto&& field) {
        field("question", self.question);
        field("answer", self.answer);
    }
    bool operator==(const DoubleTapWas&) const = default;
};
enum class StopReason : std::uint8_t { resistance, retching, position_lost, other };
constexpr auto names_of(StopReason) {
    return std::array<std::string_view, 4>{"resistance", "retching", "position-lost", "other"};
}
struct StopFilling {
    static constexpr Spec spec{"stop-filling", any_clinical};
    StopReason reason{};
    std::optional<std::string> words;
    static void fields(auto& self, auto&& field) {
        field("reason", self.reason);
        field("words", self.words);
    }
    bool operator==(const StopFilling&) const = default;
};
enum class Pushed : std::uint8_t { none, one, more };
constexpr auto names_of(Pushed) { return std::array<std::string_view, 3>{"none", "one", "more"}; }
struct GoOnFilling {
    static constexpr Spec spec{"go-on-filling", any_clinical};
    Pushed pushed_meanwhile{};
    std::optional<int> syringes;
    std::optional<Millilitres> ml;
    static void fields(auto& self, auto&& field) {
        field("pushed_meanwhile", self.pushed_meanwhile);
        field("syringes", self.syringes);
        field("ml", self.ml);
    }
    bool operator==(const GoOnFilling&) const = default;
};
struct CountCheck {
    static constexpr Spec spec{"count-check", any_clinical, Word::physician_says};
    int count{0};
    static void fields(auto& self, auto&& field) { field("count", self.count); }
    bool operator==(const CountCheck&) const = default;
};
/// full_left for a row, scale_g for a closed tap, neither for a pair.
struct Matter {
    static constexpr Spec spec{"matter", assistant_only};
    std::optional<int> full_left;
    std::optional<Decimal> scale_g;
    static void fields(auto& self, auto&& field) {
        field("full_left", self.full_left);
        field("scale_g", self.scale_g);
    }
    bool operator==(const Matter&) const = default;
};
enum class Position : std::uint8_t { antrum, body, fundus };
constexpr auto names_of(Position) { return std::array<std::string_view, 3>{"antrum", "body", "fundus"}; }
struct Sizing {
    static constexpr Spec spec{"sizing", any_clinical, Word::physician_says};
    bool gap{false}, passes{false}, not_wedged{false}, no_blanching{false};
    Position position{};
    std::optional<bool> tolerated;
    static void fields(auto& self, auto&& field) {
        field("gap", self.gap);
        field("passes", self.passes);
        field("not_wedged", self.not_wedged);
        field("no_blanching", self.no_blanching);
        field("position", self.position);
        field("tolerated", self.tolerated);
    }
    bool operator==(const Sizing&) const = default;
};
/// ml as said, or from "pedal" where only two are in the room.
struct ReadBack {
    static constexpr Spec spec{"read-back", any_clinical, Word::physician_says};
    std::optional<Millilitres> ml;
    std::optional<std::string> from;
    static void fields(auto& self, auto&& field) {
        field("ml", self.ml);
        field("from", self.from);
    }
    bool operator==(const ReadBack&) const = default;
};
struct Explain {
    static constexpr Spec spec{"explain", any_clinical, Word::physician_says};
    enum class What : std::uint8_t {
        above_band,
        below_band,
        left_above_ceiling,
        recovered_differs,
        early_removal
    };
    friend constexpr auto names_of(What) {
        return std::array<std::string_view, 5>{"above-band", "below-band", "left-above-ceiling",
                                               "recovered-differs", "early-removal"};
    }
    What what{};
    std::string reason;
    std::optional<std::string> words;
    static void fields(auto& self, auto&& field) {
        field("what", self.what);
        field("reason", self.reason);
        field("words", self.words);
    }
    bool operator==(const Explain&) const = default;
};
enum class Evidence : std::uint8_t { matter, pedal, memory };
constexpr auto names_of(Evidence) { return std::array<std::string_view, 3>{"matter", "pedal", "memory"}; }
/// Names the entry it corrects and the fields to change, or millilitres for a syringe that was not tapped or
/// was too many. `changes` holds the fields to change as JSON text; `withdrawn` says that the entry never
/// happened.
struct Correct {
    static constexpr Spec spec{"correct", any_clinical};
    std::optional<EntryRef> entry;
    std::optional<Millilitres> ml;
    std::optional<int> syringes;
    std::string reason;
    std::optional<std::string> with;
    std::optional<Evidence> evidence;
    std::optional<bool> withdrawn;
    std::string changes;  // "{}" or an object; filled by the reader from the fields that are not these
    static void fields(auto& self, auto&& field) {
        field("entry", self.entry);
        field("ml", self.ml);
        field("syringes", self.syringes);
        field("reason", self.reason);
        field("with", self.with);
        field("evidence", self.evidence);
        field("withdrawn", self.withdrawn);
    }
    bool operator==(const Correct&) const = default;
};

}  // namespace brimline

// What Fill and its sheets share: one frame's view of the fill, and the parts that several of them draw.
#pragma once
#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/names.h"

namespace brimline::screens {

/// One frame of Fill.
struct FillPage {
    touch::Glass& glass;
    const Scene& scene;
    FillDrafts& drafts;
    const FillView& view;
    const touch::Layout& layout;
    Asks& asks;

    [[nodiscard]] const DeviceBlock& block() const { return scene.ahead_state->device(); }
    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    /// "09:41:12"
    [[nodiscard]] std::string time(Instant t) const { return clock_text(t, scene.zone, true); }
    [[nodiscard]] std::string ml(Millilitres volume) const { return ml_words(glass, volume); }
    /// "Dr Varga"
    [[nodiscard]] std::string physician() const { return short_name(scene.ahead, scene.physician); }
    [[nodiscard]] std::string assistant() const { return short_name(scene.ahead, scene.person); }
    /// Opens a sheet with nothing typed.
    void open(Sheet sheet) const {
        drafts = {};
        drafts.sheet = sheet;
        asks.sheet = sheet;
    }
    /// The sheet's command was taken: closes it; refused or asked: the sentence to show.
    [[nodiscard]] std::string settle() const;
};

/// The gauge, with what is being typed as a dashed block on top.
void draw_gauge(const FillPage& page, touch::Rect rect, std::optional<Millilitres> typed = {});
/// A muted, bold line at the head of a panel.
void draw_head(const FillPage& page, std::string_view name, touch::Rect panel, std::string_view words);
/// The running volume with its unit; the larger figure while something waits.
void draw_volume(const FillPage& page, touch::Rect room);
/// "Next makes 500 mL" over where that stands, in the colours of where it stands.
void draw_standing(const FillPage& page, std::string_view name, touch::Rect rect, const std::string& title,
                   const Standing& standing);
/// The panel In the balloon on a sheet: volume, syringes, and up to three lines below.
void draw_balloon_panel(const FillPage& page, touch::Rect rect);
/// The panel on the page itself, with everything that belongs to it.
void draw_balloon(const FillPage& page);
/// Words and value at the two ends of a line.
void draw_pair(const FillPage& page, const std::string& name, touch::Rect line, const std::string& words,
               const std::string& value);

/// Question, box and keypad for millilitres, in column B.
void draw_ml_pad(const FillPage& page, const std::string& question, const std::string& label,
                 const std::string& wrong);
/// The core asked whether the typed value is right.
[[nodiscard]] bool is_implausible(const FillPage& page);
/// A panel with a muted head and some lines of text.
void draw_note_panel(const FillPage& page, const std::string& name, touch::Rect rect, const std::string& head,
                     const std::string& words);

// The sheets, one file each.
void draw_part_syringe(const FillPage& page);
void draw_draw_back(const FillPage& page);
void draw_correct(const FillPage& page);
void draw_problem(const FillPage& page);
void draw_resume(const FillPage& page, const PushedQuestion& question);
void draw_count_check(const FillPage& page);
void draw_counts_differ(const FillPage& page);
void draw_matter(const FillPage& page);

/// The head of a panel: bold at the left, muted at the right.
void draw_pair_head(const FillPage& page, const std::string& name, touch::Rect panel,
                    const std::string& words, const std::string& at_right);
/// The panel of the two-line record, with the span of the fill in its head.
void draw_record_panel(const FillPage& page, touch::Rect rect);
/// Taps and presses on one time axis, with stops; where they part is the core's finding.
[[nodiscard]] touch::TwoLineRecord counts_record(const FillPage& page, bool with_words);

}  // namespace brimline::screens

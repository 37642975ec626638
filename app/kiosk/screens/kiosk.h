// The kiosk as an application on the glass: which page is open, who enters, and the way from a tap to the
// core and back.
#pragma once
#include <memory>
#include <utility>

#include "app/kiosk/screens/drafts.h"
#include "app/kiosk/screens/scene.h"
#include "app/kiosk/touch/application.h"

namespace brimline::screens {

/// What a kiosk is told once, when it starts.
struct KioskSetting {
    bool practice{false};
    bool set_clock{false};  ///< the clock was set for a demo; a banner says so
    KioskPalette palette{};
    std::shared_ptr<Printing> printing{};  ///< none in tests and pictures that print nothing
};

class Kiosk final : public touch::Application {
public:
    explicit Kiosk(LiveRoom& room, KioskSetting setting = {});

    touch::Drawn draw(touch::Glass& glass) override;
    void on_pedal(const touch::PedalPress& press) override;
    void on_scan(const std::string& characters, touch::Seconds time) override;
    [[nodiscard]] touch::Seconds next_wake(touch::Seconds now) override;
    void on_wake(touch::Seconds now) override;

    /// For tests and the demo: opens a case on a page as a person, without the sign-in.
    void open(const std::string& person, const std::string& case_name, Page page);
    [[nodiscard]] Page page() const { return page_; }
    [[nodiscard]] Sheet sheet() const { return sheet_; }
    [[nodiscard]] const std::string& person() const { return person_; }
    [[nodiscard]] const std::string& case_name() const { return case_name_; }
    [[nodiscard]] LiveRoom& room() const { return room_; }
    /// A change of store that was asked for, once.
    [[nodiscard]] std::optional<StoreTurn> take_turn() { return std::exchange(turn_, std::nullopt); }
    /// Shows what a command came to that was said elsewhere.
    void tell(Reply reply) { last_ = std::move(reply); }
    /// The page of the stage under way in the open case; the day list without one.
    void bring_stage();

private:
    [[nodiscard]] Scene scene() const;
    [[nodiscard]] Asks draw_sheet_or_page(touch::Glass& glass, const Scene& scene);
    [[nodiscard]] std::optional<Asks> draw_common_sheet(touch::Glass& glass, const Scene& scene);
    [[nodiscard]] Asks draw_page(touch::Glass& glass, const Scene& scene);
    void take(const Asks& asks);
    void say(const Say& what);
    void sign_in(const std::string& person, const std::string& pin);
    void bring_page_of_person();
    void print(PaperAsked paper);
    void sign_off();
    void take_badge(const PersonKnown& person);
    void lock_when_left(const touch::FrameInput& input);

    LiveRoom& room_;
    KioskSetting setting_;
    Drafts drafts_;
    Page page_{Page::sign_in};
    Sheet sheet_{Sheet::none};
    std::string person_, case_name_;
    std::vector<std::string> present_;
    std::optional<Reply> last_;
    mutable DeskBook book_;  // follows the desk whenever a page of it is drawn
    std::optional<StoreTurn> turn_;
    struct Left {
        std::string person;
        Page page{};
    };
    std::optional<Left> left_;  // where a page of the desk was locked, for the same person
    Instant touched_;
    Instant far_tap_until_{};  // a tap that left the far view was not counted: said until then
};

}  // namespace brimline::screens

// The kiosk as an application on the glass: which page is open, who enters, and the way from a tap to the
// core and back.
#pragma once
#include <memory>

#include "app/kiosk/screens/drafts.h"
#include "app/kiosk/screens/scene.h"
#include "app/kiosk/touch/application.h"

namespace brimline::screens {

/// What a kiosk is told once, when it starts.
struct KioskSetting {
    bool practice{false};
    bool set_clock{false};  ///< the clock was set for a demo; a banner says so
    KioskPalette palette{};
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

private:
    [[nodiscard]] Scene scene() const;
    [[nodiscard]] Asks draw_sheet_or_page(touch::Glass& glass, const Scene& scene);
    [[nodiscard]] std::optional<Asks> draw_common_sheet(touch::Glass& glass, const Scene& scene);
    [[nodiscard]] Asks draw_page(touch::Glass& glass, const Scene& scene);
    void take(const Asks& asks);
    void say(const Say& what);
    void sign_in(const std::string& person, const std::string& pin);
    void bring_page_of_person();

    LiveRoom& room_;
    KioskSetting setting_;
    Drafts drafts_;
    Page page_{Page::sign_in};
    Sheet sheet_{Sheet::none};
    std::string person_, case_name_;
    std::vector<std::string> present_;
    std::optional<Reply> last_;
    Instant far_tap_until_{};  // a tap that left the far view was not counted: said until then
};

}  // namespace brimline::screens

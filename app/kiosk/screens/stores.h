// The kiosk on the glass with the way into practice and out of it: two stores, of which one is shown.
// Source: 10-decisions F9.
#pragma once
#include <functional>

#include "app/kiosk/screens/kiosk.h"

namespace brimline::screens {

/// Opens the store of practice beside the real one. Errors: a sentence.
using OpenPractice = std::function<tl::expected<std::unique_ptr<LiveRoom>, std::string>(LiveRoom& real)>;

class Stores final : public touch::Application {
public:
    /// Without `open` there is no other store: a kiosk for practice alone.
    explicit Stores(LiveRoom& room, KioskSetting setting, OpenPractice open = {});

    touch::Drawn draw(touch::Glass& glass) override;
    void on_pedal(const touch::PedalPress& press) override;
    void on_scan(const std::string& characters, touch::Seconds time) override;
    [[nodiscard]] touch::Seconds next_wake(touch::Seconds now) override;
    void on_wake(touch::Seconds now) override;

    /// The kiosk that is shown.
    [[nodiscard]] Kiosk& shown() { return practice_ ? *practice_ : first_; }
    [[nodiscard]] bool practises() const { return practice_ != nullptr; }
    /// Begins practice as this person; only with a way to open it. Errors: why its store cannot be opened.
    [[nodiscard]] tl::expected<void, std::string> begin(const std::string& person);
    /// Waits until nothing is on its way to either disk.
    bool wait_until_saved(std::chrono::milliseconds most);

private:
    void turn(StoreTurn turn);
    void copy_as_real();
    void end();
    /// True when practice was left alone for as long as the policy lets it.
    [[nodiscard]] bool left_alone() const;

    KioskSetting setting_;
    OpenPractice open_;
    Kiosk first_;
    std::unique_ptr<LiveRoom> practice_room_;
    std::unique_ptr<Kiosk> practice_;
    Instant touched_;
};

}  // namespace brimline::screens

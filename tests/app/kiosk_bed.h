// A bed for tests of the screens: a real store in a folder of its own, the demo's people and cases brought to
// a moment by their scripts, and the kiosk under fingers that tap by name.
#pragma once
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "app/kiosk/screens/kiosk.h"
#include "app/kiosk/touch/headless.h"
#include "app/loop/room.h"

namespace brimline::test {

/// A folder that is gone when the test is over.
class TempFolder {
public:
    TempFolder();
    ~TempFolder();
    TempFolder(const TempFolder&) = delete;
    TempFolder& operator=(const TempFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

/// The words of the product, and the same made 1.4 times as long.
[[nodiscard]] const touch::Words& english();
[[nodiscard]] const touch::Words& stretched();
/// The words of another language of the product.
[[nodiscard]] touch::Words words_in(const std::string& language);

class KioskBed {
public:
    struct Start {
        std::string until{};  ///< RFC 3339: the last moment of the scripts, and the clock's time
        std::vector<std::string>
            scripts{};                     ///< of the day's folder, in this order; "people" always runs first
        std::vector<std::string> lines{};  ///< further lines after them, each at `until`
        bool stretched{false};
        std::string language{};  ///< of the glass; English when empty
        bool nobody{false};      ///< an empty store
        bool as_script{false};   ///< taps count as the script's, as with the demo's clock
        screens::KioskSetting setting{};
        std::string folder{"/demo"};  ///< of the day: its scripts, people and policy
    };
    explicit KioskBed(const Start& start);
    KioskBed(const KioskBed&) = delete;
    KioskBed& operator=(const KioskBed&) = delete;

    /// Taps, and waits until what was said is on disk and drawn.
    void tap(const std::string& name);
    void tap_all(const std::vector<std::string>& names);
    /// The digits on a keypad: keys("pad", "500").
    void keys(const std::string& pad, const std::string& digits);
    void scan(const std::string& characters);
    /// Time passes on the wall clock, the tick and the glass.
    void pass(std::chrono::milliseconds time);
    /// Waits for the disk and draws.
    void settle();

    [[nodiscard]] const CaseState& state(const std::string& name = "A") const;
    /// The kinds of all events of the case, those since `mark` alone.
    [[nodiscard]] std::vector<std::string> kinds(const std::string& name = "A") const;
    [[nodiscard]] std::vector<std::string> new_kinds(const std::string& name = "A");
    /// The last event of this kind as it was entered; throws when there is none.
    [[nodiscard]] const Recorded& last_of(std::string_view kind, const std::string& name = "A") const;
    /// Paints the page into $BRIMLINE_PICTURES when that is set, for eyes.
    void picture(const std::string& name);

    /// Taps by person, those of a chip with the person tapped; before anybody is signed in under "". Letters
    /// typed on the keyboard are counted apart.
    std::map<std::string, int> taps, letters;

    touch::Words words;
    TempFolder folder;
    store::SetClock clock;
    store::SystemChance chance;
    std::unique_ptr<LiveRoom> room;
    std::unique_ptr<screens::Kiosk> kiosk;
    std::unique_ptr<touch::Headless> glass;

private:
    void run_scripts(const Start& start);
    std::size_t seen_{0};
};

}  // namespace brimline::test

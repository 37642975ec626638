// Fill on a disk that stalls or refuses: the tap is kept and shown, nothing is called saved, and it recovers.
#include <atomic>
#include <thread>

#include "tests/app/fill_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using std::chrono::milliseconds;
using std::chrono::seconds;
using Faults = std::vector<std::string>;

namespace {

/// A disk that can be made to refuse.
struct Disk {
    std::atomic<bool> refuses{false};

    /// Opens the bed's store again with this disk under it.
    void put_under(KioskBed& bed) {
        bed.glass.reset();
        bed.kiosk.reset();
        bed.room.reset();
        LiveRoom::Options options;
        options.room = {bed.folder.path(), std::nullopt, false};
        options.thread.retry_first = milliseconds{5};
        options.thread.retry_most = milliseconds{20};
        options.thread.before_try = [this](const store::Batch&) -> std::optional<store::AppendFault> {
            return refuses ? std::optional{store::AppendFault{store::Failure::pending, "disk full"}}
                           : std::nullopt;
        };
        bed.room = std::move(*LiveRoom::open(std::move(options), bed.clock, bed.chance));
        bed.kiosk = std::make_unique<screens::Kiosk>(*bed.room);
        bed.glass = std::make_unique<touch::Headless>(*bed.kiosk, english());
    }
};

}  // namespace

TEST_CASE("taps that the disk refuses stay on the glass as not yet saved, and are saved in order later",
          "[fill][disk]") {
    KioskBed bed{ready_to_fill()};
    Disk disk;
    disk.put_under(bed);
    open_fill(bed);
    fill(bed, 9);
    disk.refuses = true;
    for (int i = 0; i < 2; ++i) {
        bed.clock.pass(seconds{21});
        bed.glass->pass(21);
        bed.glass->tap("syringe-in");
    }
    bed.clock.pass(seconds{2});
    bed.glass->pass(2);
    bed.picture("save-failed");
    CHECK(syringes_counted(bed.state().device()) == 9);
    CHECK(bed.glass->text_of("running-volume") == "550");
    CHECK(bed.glass->text_of("fill/unsaved") == "100 mL not yet saved");
    CHECK(bed.glass->text_of("fill/waiting") == "2 taps waiting");
    CHECK(bed.glass->text_of("prompt/title") == "Not yet saved. Write it on paper");
    CHECK(bed.glass->text_of("fill/next") == "Next makes 600 mL, in band");
    CHECK(bed.glass->text_of("syringe-in/more") == "kept until saved");
    disk.refuses = false;
    bed.settle();
    CHECK(syringes_counted(bed.state().device()) == 11);
    CHECK(bed.glass->text_of("fill/syringes") == "11 × 50 mL");
    CHECK_FALSE(bed.glass->shows("Not yet saved. Write it on paper"));
    CHECK(bed.glass->faults() == Faults{});
}

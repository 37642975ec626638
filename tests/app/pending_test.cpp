// The real journal on a disk that fails under a running kiosk: the outcome of a tap is not known, the screen
// goes on, the store is opened anew, the command is looked for, and it is there once. 7-journal, Append;
// promises 1, 3 and 6.
#include <sqlite3.h>

#include <thread>

#include "core/store/verify.h"
#include "tests/app/fill_bed.h"
#include "tests/catch.h"
#include "tests/store/failing_disk.h"

using namespace brimline;
using namespace brimline::test;
using std::chrono::milliseconds;
using std::chrono::seconds;
using store::scratch::FailingDisk;

namespace {

/// Opens the bed's store again, on whatever disk is under SQLite now.
void open_again(KioskBed& bed) {
    LiveRoom::Options options;
    options.room = {bed.folder.path(), std::nullopt, false};
    options.thread.retry_first = milliseconds{5};
    options.thread.retry_most = milliseconds{20};
    bed.room = std::move(*LiveRoom::open(std::move(options), bed.clock, bed.chance));
    bed.kiosk = std::make_unique<screens::Kiosk>(*bed.room);
    bed.glass = std::make_unique<touch::Headless>(*bed.kiosk, english());
}

void close(KioskBed& bed) {
    bed.glass.reset();
    bed.kiosk.reset();
    bed.room.reset();
}

void tap_without_waiting(KioskBed& bed) {
    bed.clock.pass(seconds{21});
    bed.glass->pass(21);
    bed.glass->tap("syringe-in");
    bed.glass->frame();
}

}  // namespace

TEST_CASE("taps on a disk that fails are kept, shown as not yet saved, and recorded once when it works again",
          "[fill][disk][pending]") {
    const auto how = GENERATE(
        FailingDisk::Plan{1, true, SQLITE_IOERR_FSYNC, false},
        FailingDisk::Plan{2, true, SQLITE_IOERR_FSYNC, true}, FailingDisk::Plan{1, true, SQLITE_FULL, false},
        FailingDisk::Plan{2, true, SQLITE_FULL, true}, FailingDisk::Plan{2, false, SQLITE_IOERR_FSYNC, true});
    INFO("at " << how.at << ", for good " << how.for_good << ", code " << how.code << ", written "
               << how.written);
    KioskBed bed{ready_to_fill()};
    close(bed);
    {
        FailingDisk disk;
        open_again(bed);
        open_fill(bed);
        fill(bed, 3);
        disk.plan(how);
        for (int i = 0; i < 4; ++i) {
            tap_without_waiting(bed);
        }
        if (how.for_good) {
            const auto until = std::chrono::steady_clock::now() + seconds{5};
            while (!bed.room->waiting().failing && std::chrono::steady_clock::now() < until) {
                std::this_thread::sleep_for(milliseconds{2});
            }
            bed.glass->frame();  // the screen goes on
            CHECK(bed.room->waiting().failing);
            CHECK(bed.room->waiting().commands == 4);
            CHECK(syringes_counted(bed.state().device()) == 3);
            CHECK(bed.glass->text_of("running-volume") == "350");
            CHECK(bed.glass->text_of("fill/unsaved") == "200 mL not yet saved");
            CHECK(bed.glass->text_of("prompt/title") == "Not yet saved. Write it on paper");
            CHECK(bed.glass->faults() == std::vector<std::string>{});
        }
        disk.heal();
        bed.settle();
        CHECK(syringes_counted(bed.state().device()) == 7);
        CHECK(bed.room->waiting().commands == 0);
        CHECK(bed.room->broken() == "");
        CHECK(disk.carried_on() == 0);
        close(bed);
    }
    const auto reading = read_store(bed.folder.path());
    REQUIRE(reading.has_value());
    const auto taps = std::count_if(reading->rows.begin(), reading->rows.end(),
                                    [](const auto& row) { return row.kind == "syringe-in"; });
    CHECK(taps == 7);
    const auto report = store::verify(bed.folder.path());
    REQUIRE(report.has_value());
    CHECK(report->findings.empty());
}

// Case A played by taps from Size to the seal. Its entries equal those of the script in normal form: kind,
// who entered it, whose word it was, and the fields; without times, ticks, command ids, hashes and marks
// (10-decisions G21). What has no page of its own yet is said as a line of the script.
#include <fmt/format.h>

#include "core/case/codec.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Normal = std::vector<std::string>;

const std::string matter_agreed = "2026-11-25T09:41:55+00:00";

/// One entry in normal form. The seal's hash is of the bytes, which hold the times.
std::string normal(const Recorded& recorded) {
    auto fields = fields_json(recorded.event);
    fields.erase("hash");
    return fmt::format("{} by {} said {} {}", kind_of(recorded.event), recorded.stamp.by,
                       recorded.stamp.said_by.value_or("-"), fields.dump());
}

/// The entries after `skip`, without what the script leaves unsaid: the last look under view.
Normal entries(const CaseState& state, std::size_t skip) {
    Normal all;
    for (std::size_t i = skip; i < state.history.size(); ++i) {
        if (kind_of(state.history[i].first.event) != "release-look") {
            all.push_back(normal(state.history[i].first));
        }
    }
    return all;
}

/// The clock of the day, without drawing the seconds between.
void until(KioskBed& bed, const std::string& clock) {
    const auto target = parse_instant("2026-11-25T" + clock + "+00:00");
    REQUIRE(target.has_value());
    const auto wait = *target - bed.room->now();
    if (wait > Duration{}) {
        bed.clock.pass(std::chrono::duration_cast<std::chrono::milliseconds>(wait));
    }
    bed.settle();
}

/// A line of the script for what has no page yet.
void line(KioskBed& bed, const std::string& text) {
    auto json = parse_json(text);
    REQUIRE(json.has_value());
    auto read = read_command(*json);
    REQUIRE(read.has_value());
    const auto reply = bed.room->say(read->command);
    CHECK(reply.result == Reply::Result::recorded);
    bed.settle();
}

/// A set on the value pad, on whatever page: pulse and pressure on the pad, the rest on the strips.
void set(KioskBed& bed, const std::string& pad, int spo2, int rr, int depth, const std::string& oxygen) {
    if (bed.kiosk->sheet() != Sheet::vitals) {
        bed.tap("vitals");
    }
    bed.keys("pad", pad);
    bed.tap_all({fmt::format("spo2/{}", spo2), fmt::format("rr/{}", rr)});
    if (depth >= 0) {
        bed.tap(fmt::format("depth/{}", depth));
    }
    bed.tap("oxygen");
    bed.keys("pad", oxygen);
    bed.tap("save-set");
}

void rate(KioskBed& bed, const char* what, int value) {
    for (int i = 0; i <= value; ++i) {
        bed.tap(fmt::format("{}/more", what));
    }
}

/// A set and a score with nausea and pain in Recovery; pressure and saturation are proposed from the set.
void recovery_round(KioskBed& bed, const std::string& clock, const std::string& pad, int spo2, int rr,
                    const std::string& oxygen, const std::vector<std::string>& parts, int nausea, int pain) {
    until(bed, clock);
    set(bed, pad, spo2, rr, -1, oxygen);
    bed.tap("to-score");
    bed.tap_all(parts);
    rate(bed, "nausea", nausea);
    rate(bed, "pain", pain);
    bed.tap("save-score");
}

/// A set with ratings alone.
void quiet_round(KioskBed& bed, const std::string& clock, const std::string& pad, int spo2, int rr,
                 int nausea, int pain) {
    until(bed, clock);
    set(bed, pad, spo2, rr, -1, "0");
    bed.tap("nausea");
    bed.tap_all({fmt::format("nausea/{}", nausea), fmt::format("pain/{}", pain), "back-to-recovery"});
}

void size_and_release(KioskBed& bed) {
    until(bed, "09:42:10");
    bed.tap_all({"distress/no", "gap/yes", "passes/yes", "in-body/yes", "wedged/no", "blanching/no"});
    until(bed, "09:42:45");
    bed.tap("person/noor");
    set(bed, "7612274", 97, 14, 3, "4");
    until(bed, "09:43:10");
    bed.tap_all({"vitals", "dose-again"});
    if (bed.kiosk->sheet() != Sheet::none) {
        bed.tap("back");
    }
    until(bed, "09:43:25");
    bed.keys("pad", "500");
    bed.tap("confirm");
    until(bed, "09:44:20");
    bed.tap_all({"to-release", "person/tomas", "release/off/yes"});
    until(bed, "09:45:20");
    bed.tap_all({"release/dry/yes", "release/complete/yes", "release/position/yes", "release/bleeding/no"});
    until(bed, "09:46:30");
    bed.tap_all({"scope-out", "end-sedation"});
    until(bed, "09:47:45");
    bed.tap("person/noor");
    set(bed, "7211670", 98, 14, 4, "2");
}

void to_recovery(KioskBed& bed) {
    until(bed, "09:48:50");
    line(bed, R"({"by":"tomas","case":"A","do":"matter","full_left":2})");
    until(bed, "09:49:00");
    line(bed, R"({"by":"tomas","case":"A","happened":"2026-11-25T09:48:30+00:00","do":"pause",)"
              R"("which":"before-leaving","present":["ilse","tomas","noor"],"answers":{)"
              R"("procedure-and-volume":"yes","counts-explained":"yes","catheter-and-valve":"yes",)"
              R"("concerns-for-recovery":"yes"}})");
    bed.tap_all({"person/tomas", "leave-room"});
    until(bed, "09:51:00");
    bed.tap_all({"to-handover", "person/noor", "to/wren", "offer"});
    until(bed, "09:52:00");
    bed.tap("person/wren");
    bed.keys("pad", "1403");
    bed.tap("accept");
}

void recovery(KioskBed& bed) {
    recovery_round(bed, "09:55:00", "7211470", 95, 13, "2",
                   {"part/activity/1", "part/respiration/1", "part/consciousness/1"}, 0, 2);
    recovery_round(bed, "10:10:00", "7612074", 97, 14, "1",
                   {"part/activity/2", "part/respiration/2", "part/consciousness/1"}, 2, 2);
    recovery_round(bed, "10:25:00", "8012478", 96, 15, "0",
                   {"part/activity/2", "part/respiration/2", "part/consciousness/1"}, 3, 3);
    recovery_round(bed, "10:40:00", "8412678", 97, 16, "0",
                   {"part/activity/2", "part/respiration/2", "part/consciousness/2"}, 5, 4);
    until(bed, "10:42:00");
    bed.tap_all({"dose", "drug/ondansetron"});
    bed.keys("pad", "4");
    bed.tap("record-dose");
    if (bed.kiosk->sheet() != Sheet::none) {
        bed.tap("back");
    }
    quiet_round(bed, "10:55:00", "7812276", 97, 15, 3, 3);
    until(bed, "11:00:00");
    bed.tap_all({"drink", "drink/100", "kept/yes", "back-to-recovery"});
    quiet_round(bed, "11:10:00", "7612076", 98, 15, 2, 2);
    quiet_round(bed, "11:25:00", "7612276", 98, 15, 2, 2);
    bed.tap_all({"padss", "part/walking/1", "part/bleeding/2", "save-score"});
}

void home(KioskBed& bed) {
    bed.tap("to-discharge");
    until(bed, "11:32:00");
    bed.tap("home/cannula");
    until(bed, "11:34:00");
    bed.tap_all({"home/sheet", "given/print"});
    until(bed, "11:35:00");
    bed.tap_all({"home/card", "given/print"});
    until(bed, "11:36:00");
    bed.tap("home/prescriptions");
    until(bed, "11:37:00");
    bed.tap("home/advice");
    until(bed, "11:38:00");
    bed.tap_all({"home/escort", "escort/yes"});
    until(bed, "11:40:00");
    bed.tap_all({"home/goes", "goes/home", "leave"});
}

void sign(KioskBed& bed, const std::string& person, const std::string& pin, const std::string& corner) {
    bed.kiosk->open(person, "A", Page::sign_cases);
    bed.settle();
    for (int i = 0; i < 40 && bed.glass->has("next-page"); ++i) {
        bed.tap("next-page");
    }
    bed.keys("pad", pin);
    INFO(bed.glass->all_text());
    REQUIRE(bed.glass->has(corner));
    bed.tap(corner);
}

}  // namespace

TEST_CASE("case A by taps from Size to the seal says what its script says", "[case-a]") {
    KioskBed bed{{.until = matter_agreed, .scripts = {"case-a"}, .as_script = true}};
    const auto before = bed.state().history.size();
    bed.kiosk->open("tomas", "A", Page::size);
    bed.settle();
    size_and_release(bed);
    to_recovery(bed);
    recovery(bed);
    home(bed);
    until(bed, "11:48:00");
    sign(bed, "wren", "540872", "sign");
    until(bed, "11:52:00");
    sign(bed, "noor", "917354", "sign");
    until(bed, "11:57:30");
    sign(bed, "ilse", "381946", "sign-and-seal");
    REQUIRE(bed.state().sealed.has_value());
    CHECK(bed.glass->faults() == std::vector<std::string>{});

    const KioskBed scripted{{.until = "2026-11-25T12:00:00+00:00", .scripts = {"case-a"}}};
    CHECK(entries(bed.state(), before) == entries(scripted.state(), before));
}

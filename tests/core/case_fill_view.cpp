// What the pages of the fill show, worked out from two states: on disk, and with what is on its way.
#include "core/case/fill_view.h"
#include "core/case/where_held.h"
#include "tests/catch.h"
#include "tests/core/bed.h"

using namespace brimline;
using namespace brimline::test;

namespace {

const std::string syringe_in = R"("by":"tomas","do":"syringe-in")";

/// Syringes 21 s apart from 09:38:20 on.
void fill(Bed& bed, int syringes) {
    for (int i = 0; i < syringes; ++i) {
        const int s = 20 + i * 21;
        bed.at("09:" + std::to_string(38 + s / 60) + ":" + (s % 60 < 10 ? "0" : "") + std::to_string(s % 60),
               syringe_in);
    }
}

}  // namespace

TEST_CASE("next, target and ceiling are judged on the larger figure while a tap waits", "[fill-view]") {
    auto bed = bed_ready_to_fill();
    fill(bed, 9);
    bed.at("09:41:10", syringe_in);  // 2 s after the last
    const auto view = fill_view(bed.state(), bed.state(), bed.policy(), time_of("09:41:20"));
    CHECK(view.counted == 450_mL);
    CHECK(view.possible == 500_mL);
    CHECK(view.waiting_taps == 1);
    CHECK(view.next_makes == 550_mL);
    CHECK(view.to_aim == 0);
    CHECK(view.remainder == std::nullopt);
    CHECK(view.next_band == FillBand::in_band);
    CHECK(view.blocks.size() == 10);
    CHECK(view.blocks.back().state == BlockState::waiting);
}

TEST_CASE("what is not on disk yet is a part of the figure and known as such", "[fill-view]") {
    auto bed = bed_ready_to_fill();
    fill(bed, 2);
    const auto saved = bed.state();
    bed.at("09:39:02", syringe_in);
    const auto view = fill_view(saved, bed.state(), bed.policy(), time_of("09:39:03"));
    CHECK(view.saved == 100_mL);
    CHECK(view.counted == 150_mL);
    CHECK(view.unsaved == 50_mL);
    CHECK(view.unsaved_taps == 1);
    CHECK(view.blocks[1].state == BlockState::counted);
    CHECK(view.blocks[2].state == BlockState::unsaved);
    CHECK(unsaved_moments(saved, bed.state()).size() == 1);
    CHECK(unsaved_moments(saved, bed.state()).front().number == 3);
}

TEST_CASE("what was drawn back leaves the top of the gauge, and the syringes stay as counted",
          "[fill-view]") {
    auto bed = bed_ready_to_fill();
    fill(bed, 3);
    bed.at("09:40:00", R"("by":"tomas","do":"draw-back","ml":70)");
    const auto view = fill_view(bed.state(), bed.state(), bed.policy(), time_of("09:40:01"));
    CHECK(view.whole == 3);
    CHECK(view.beside_whole == -70_mL);
    REQUIRE(view.blocks.size() == 2);
    CHECK(view.blocks[1].to == 80_mL);
}

TEST_CASE("above the ceiling the view says by how much, and which block passes it", "[fill-view]") {
    auto bed = bed_ready_to_fill();
    fill(bed, 15);
    const auto view = fill_view(bed.state(), bed.state(), bed.policy(), time_of("09:45:00"));
    CHECK(view.too_much == 50_mL);
    CHECK(view.band == FillBand::above_ceiling);
    CHECK(view.blocks[13].state == BlockState::counted);
    CHECK(view.blocks[14].state == BlockState::above_ceiling);
    CHECK(stages_with_holds(bed.state()) == std::vector{Stage::fill});
}

TEST_CASE("after a restart the question stands until somebody went on, a new tap does not answer it",
          "[fill-view]") {
    auto bed = bed_ready_to_fill();
    fill(bed, 3);
    const auto started = time_of("09:40:00");
    const auto asked = pushed_question(bed.state(), started, time_of("09:40:10"));
    REQUIRE(asked.has_value());
    CHECK(asked->since == time_of("09:39:02"));
    CHECK(asked->lasted == std::chrono::seconds{58});
    CHECK_FALSE(asked->stopped.has_value());
    bed.at("09:40:20", syringe_in);
    CHECK(pushed_question(bed.state(), started, time_of("09:40:30")).has_value());
    bed.at("09:40:40", R"("by":"tomas","do":"go-on-filling","pushed_meanwhile":"none")");
    CHECK_FALSE(pushed_question(bed.state(), started, time_of("09:40:50")).has_value());
}

TEST_CASE("before the first tap and after filling is done nothing is asked", "[fill-view]") {
    auto bed = bed_ready_to_fill();
    CHECK_FALSE(fill_in_hand(bed.state().device()));
    CHECK_FALSE(pushed_question(bed.state(), time_of("09:40:00"), time_of("09:40:10")).has_value());
    fill(bed, 2);
    CHECK(fill_in_hand(bed.state().device()));
    bed.at("09:40:00", R"("by":"tomas","do":"matter","full_left":10)");
    CHECK_FALSE(fill_in_hand(bed.state().device()));
    bed.at("09:40:30", syringe_in);
    CHECK(fill_in_hand(bed.state().device()));
}

TEST_CASE("seconds are told to the tenth, without a zero behind the point", "[fill-view]") {
    CHECK(seconds_text(std::chrono::milliseconds{4'600}) == "4.6");
    CHECK(seconds_text(std::chrono::milliseconds{7'950}) == "8");
}

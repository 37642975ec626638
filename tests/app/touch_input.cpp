// The input queue: nothing lost, nothing counted twice, order kept, whoever was slow.
#include "app/kiosk/touch/input.h"
#include "tests/catch.h"

using namespace brimline::touch;

namespace {

constexpr Point corner{1064, 600};

/// Presses that the queue gives out, one frame after another, until it is empty.
int presses(InputQueue& queue, Seconds now) {
    int count = 0;
    do {
        count += queue.next(now).pressed ? 1 : 0;
    } while (queue.more());
    return count;
}

}  // namespace

TEST_CASE("twenty taps that waited behind one slow frame are twenty presses", "[touch][input]") {
    InputQueue queue;
    for (int i = 0; i < 20; ++i) {
        const Seconds at = 1 + i * 0.1;
        queue.finger(corner, true, at);
        queue.finger(corner, false, at + 0.008);
        queue.move({100, 100}, at + 0.009);
    }
    CHECK(presses(queue, 9) == 20);
    CHECK(queue.dropped().bounces == 0);
}

TEST_CASE("a frame gets one change of the finger, at the place where it happened", "[touch][input]") {
    InputQueue queue;
    queue.finger(corner, true, 1.0);
    queue.finger(corner, false, 1.01);
    queue.move({5, 5}, 1.02);
    const FrameInput first = queue.next(1.1);
    CHECK(first.pressed);
    CHECK(first.down);
    CHECK(first.finger == corner);
    CHECK(first.now == 1.0);
    const FrameInput second = queue.next(1.1);
    CHECK(second.released);
    CHECK(second.finger == corner);
    const FrameInput third = queue.next(1.1);
    CHECK_FALSE((third.pressed || third.released));
    CHECK(third.finger == Point{5, 5});
}

TEST_CASE("a run of moves is one arrival", "[touch][input]") {
    InputQueue queue;
    for (int i = 0; i < 1000; ++i) {
        queue.move({static_cast<float>(i), 0}, 1 + i * 0.001);
    }
    CHECK(queue.next(3).finger == Point{999, 0});
    CHECK_FALSE(queue.more());
}

TEST_CASE("a press within 60 ms of the last release at the same spot is dropped and counted",
          "[touch][input]") {
    InputQueue queue;
    queue.finger(corner, true, 1.000);
    queue.finger(corner, false, 1.080);
    queue.finger(corner, true, 1.135);
    queue.finger(corner, false, 1.150);
    CHECK(presses(queue, 2) == 1);
    CHECK(queue.dropped().bounces == 1);
    queue.finger(corner, true, 1.215);
    CHECK(presses(queue, 2) == 1);
}

TEST_CASE("a press 60 ms after the release, or elsewhere, counts", "[touch][input]") {
    InputQueue queue;
    queue.finger(corner, true, 1.0);
    queue.finger(corner, false, 1.1);
    queue.finger(corner, true, 1.1601);
    queue.finger(corner, false, 1.2);
    queue.finger({200, 200}, true, 1.21);
    CHECK(presses(queue, 2) == 3);
    CHECK(queue.dropped().bounces == 0);
}

TEST_CASE("a tap is no bounce when a stalled loop delivered it together with the one before",
          "[touch][input]") {
    InputQueue queue;
    queue.finger(corner, true, 1.0);
    queue.add({.kind = Input::Kind::finger, .at = corner, .down = false, .time = 1.2, .earliest = 1.01});
    queue.add({.kind = Input::Kind::finger, .at = corner, .down = true, .time = 1.2, .earliest = 1.01});
    CHECK(presses(queue, 2) == 2);
}

TEST_CASE("a second finger is ignored until the first is lifted", "[touch][input]") {
    InputQueue queue;
    queue.finger(corner, true, 1.0, 0);
    queue.finger({300, 300}, true, 1.1, 1);
    queue.finger({300, 300}, false, 1.2, 1);
    queue.finger(corner, false, 1.3, 0);
    queue.finger({300, 300}, true, 1.4, 1);
    CHECK(presses(queue, 2) == 2);
    CHECK(queue.dropped().other_fingers == 1);
}

TEST_CASE("each pedal press comes once, with its own moment, before the frame's tap", "[touch][input]") {
    InputQueue queue;
    queue.key(Key::f13, true, 1.0);
    queue.key(Key::f13, true, 1.3);  // the keyboard repeats while the foot stays
    queue.key(Key::f13, false, 1.5);
    queue.key(Key::f14, true, 1.51);
    queue.finger(corner, true, 1.6);
    const FrameInput frame = queue.next(2);
    CHECK(frame.pedals == std::vector<PedalPress>{{Pedal::assistant, 1.0}, {Pedal::physician, 1.51}});
    CHECK(frame.pressed);
    CHECK(frame.typing.empty());
}

TEST_CASE("a pedal that bounces counts once", "[touch][input]") {
    InputQueue queue;
    queue.key(Key::f14, true, 1.0);
    queue.key(Key::f14, false, 1.1);
    queue.key(Key::f14, true, 1.12);
    queue.key(Key::f14, false, 1.2);
    queue.key(Key::f14, true, 1.5);
    CHECK(queue.next(2).pedals.size() == 2);
    CHECK(queue.dropped().pedal_bounces == 1);
}

// The input queue: order kept, moves merged, one change of the finger a frame, bounces dropped and counted.
#include "app/kiosk/touch/input.h"

#include <cmath>

namespace brimline::touch {

namespace {

constexpr Seconds bounce_time = 0.060;  // no finger comes back so soon (our choice, see the bounce test)
constexpr float bounce_reach = 24;      // and lands so near

/// A stalled loop delivers a release and the next press together. They are a bounce only when they must have
/// been close: the release is taken at its earliest, so that no tap is lost to a slow moment of ours.
bool surely_within_bounce(const Input& release, Seconds press) {
    const Seconds released = release.earliest >= 0 ? release.earliest : release.time;
    return press - released < bounce_time;
}

bool same_spot(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y) <= bounce_reach; }

}  // namespace

InputQueue::InputQueue(PedalKeys pedals, ScannerSettings scanner) : pedals_{pedals}, collector_{scanner} {}

void InputQueue::add(const Input& input) {
    const bool run_of_moves =
        input.kind == Input::Kind::moved && !waiting_.empty() && waiting_.back().kind == Input::Kind::moved;
    if (run_of_moves) {
        waiting_.back() = input;
        return;
    }
    waiting_.push_back(input);
}

void InputQueue::move(Point at, Seconds time) { add({.kind = Input::Kind::moved, .at = at, .time = time}); }

void InputQueue::finger(Point at, bool down, Seconds time, int which) {
    add({.kind = Input::Kind::finger, .at = at, .down = down, .finger = which, .time = time});
}

void InputQueue::key(Key key, bool down, Seconds time) {
    add({.kind = Input::Kind::key, .down = down, .key = key, .time = time});
}

void InputQueue::character(char32_t character, Seconds time) {
    add({.kind = Input::Kind::character, .character = character, .time = time});
}

FrameInput InputQueue::next(Seconds now) {
    FrameInput frame;
    bool finger_changed = false;
    while (!waiting_.empty() && !finger_changed) {
        const Input input = waiting_.front();
        waiting_.pop_front();
        switch (input.kind) {
            case Input::Kind::moved:
                at_ = input.at;
                break;
            case Input::Kind::finger:
                finger_changed = change_finger(input, frame);
                break;
            case Input::Kind::key:
                take_key(input, frame);
                break;
            case Input::Kind::character:
                collector_.add({Key::none, input.character, input.time});
                break;
        }
    }
    if (!finger_changed) {
        collector_.pass(now);
        frame.now = now;
    }
    frame.finger = at_;
    frame.down = down_;
    frame.typing = collector_.take_typing();
    frame.scans = collector_.take_scans();
    return frame;
}

// The frame's clock is the moment of the press, not of the drawing: a slow disk must not shorten a dead time.
bool InputQueue::change_finger(const Input& input, FrameInput& frame) {
    if (down_ && input.finger != down_finger_) {
        dropped_.other_fingers += input.down ? 1 : 0;
        return false;
    }
    if (input.down == down_) {
        if (!input.down && swallow_release_) {
            swallow_release_ = false;
            last_release_ = input;
        }
        return false;
    }
    if (input.down && last_release_ && surely_within_bounce(*last_release_, input.time) &&
        same_spot(input.at, last_release_->at)) {
        ++dropped_.bounces;
        swallow_release_ = true;
        return false;
    }
    at_ = input.at;
    down_ = input.down;
    down_finger_ = input.finger;
    frame.pressed = input.down;
    frame.released = !input.down;
    frame.now = input.time;
    if (!input.down) {
        last_release_ = input;
    }
    return true;
}

void InputQueue::take_key(const Input& input, FrameInput& frame) {
    if (take_pedal(input, frame)) {
        return;
    }
    if (input.down) {
        collector_.add({input.key, 0, input.time});
    }
}

bool InputQueue::take_pedal(const Input& input, FrameInput& frame) {
    if (input.key == Key::none || (input.key != pedals_.assistant && input.key != pedals_.physician)) {
        return false;
    }
    const Pedal pedal = input.key == pedals_.assistant ? Pedal::assistant : Pedal::physician;
    const auto index = static_cast<std::size_t>(pedal);
    if (!input.down) {
        pedal_down_[index] = false;
        pedal_up_[index] = input.earliest >= 0 ? input.earliest : input.time;
        return true;
    }
    if (pedal_down_[index]) {
        return true;  // the keyboard's own repeat while the foot stays down
    }
    pedal_down_[index] = true;
    if (pedal_up_[index] >= 0 && input.time - pedal_up_[index] < bounce_time) {
        ++dropped_.pedal_bounces;
        return true;
    }
    frame.pedals.push_back({pedal, input.time});
    return true;
}

}  // namespace brimline::touch

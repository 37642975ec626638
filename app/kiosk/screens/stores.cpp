// Which store is shown, and what goes from one to the other.
#include "app/kiosk/screens/stores.h"

#include <cassert>

#include "app/kiosk/screens/list_parts.h"
#include "app/loop/practice.h"

namespace brimline::screens {
namespace {

Reply refusal(std::string code, std::string say, std::string next) {
    Reply reply;
    reply.result = Reply::Result::refused;
    reply.refusal = Refusal{std::move(code), std::move(say), std::move(next)};
    return reply;
}

bool is_touched(const touch::FrameInput& input) { return input.pressed || input.down || input.released; }

}  // namespace

Stores::Stores(LiveRoom& room, KioskSetting setting, OpenPractice open)
    : setting_{setting}, open_{std::move(open)}, first_{room, setting}, touched_{room.now()} {}

touch::Drawn Stores::draw(touch::Glass& glass) {
    if (practice_) {
        first_.room().poll();
    }
    if (is_touched(glass.input())) {
        touched_ = first_.room().now();
    }
    if (left_alone()) {
        end();
    }
    const auto drawn = shown().draw(glass);
    const auto asked = shown().take_turn();
    if (!asked) {
        return drawn;
    }
    const auto& words = glass.words();
    switch (*asked) {
        case StoreTurn::begin_practice:
            if (const auto open = case_in_hand(first_.room().ahead()); !open.empty()) {
                first_.tell(refusal("case-open", words.say("practice.case-open"),
                                    words.say("practice.case-open-next", {{"name", open}})));
            } else if (const auto begun = begin(first_.person()); !begun) {
                first_.tell(refusal("practice", words.say("practice.cannot-open"), begun.error()));
            }
            break;
        case StoreTurn::end_practice:
            end();
            break;
        case StoreTurn::was_real:
            if (practice_) {
                copy_as_real();
            } else {
                first_.tell(
                    refusal("practice-alone", words.say("practice.alone"), words.say("practice.alone-next")));
            }
            break;
    }
    return touch::Drawn::stale;
}

tl::expected<void, std::string> Stores::begin(const std::string& person) {
    assert(open_);  // a kiosk for practice alone offers no beginning
    auto opened = open_(first_.room());
    if (!opened) {
        return tl::unexpected{std::move(opened.error())};
    }
    practice_room_ = std::move(*opened);
    auto setting = setting_;
    setting.practice = true;
    practice_ = std::make_unique<Kiosk>(*practice_room_, setting);
    practice_->open(person, "", person.empty() ? Page::sign_in : Page::day_list);
    touched_ = first_.room().now();
    return {};
}

void Stores::copy_as_real() {
    const auto* practised = practice_room_->ahead().find_case(practice_->case_name());
    if (practised == nullptr) {
        return;
    }
    const auto name = free_name(first_.room().ahead(), "N");
    const auto person = practice_->person();
    auto reply = first_.room().say(as_real_command(*practised, person, name));
    if (reply.result == Reply::Result::refused) {
        practice_->tell(std::move(reply));
        return;
    }
    end();
    first_.open(person, name, Page::day_list);
    first_.bring_stage();
}

void Stores::end() {
    if (!practice_) {
        first_.open("", "", Page::sign_in);  // for practice alone: the next one signs in anew
        touched_ = first_.room().now();
        return;
    }
    const auto person = left_alone() ? std::string{} : practice_->person();
    practice_room_->wait_until_saved(std::chrono::seconds{5});
    practice_.reset();
    practice_room_.reset();
    first_.open(person, "", person.empty() ? Page::sign_in : Page::day_list);
}

bool Stores::left_alone() const {
    const bool practises = practice_ != nullptr || (setting_.practice && first_.page() != Page::sign_in);
    return practises && first_.room().now() - touched_ >= first_.room().policy().rules.practice_idle;
}

void Stores::on_pedal(const touch::PedalPress& press) {
    touched_ = first_.room().now();
    shown().on_pedal(press);
}

void Stores::on_scan(const std::string& characters, touch::Seconds time) {
    touched_ = first_.room().now();
    shown().on_scan(characters, time);
}

touch::Seconds Stores::next_wake(touch::Seconds now) { return shown().next_wake(now); }

void Stores::on_wake(touch::Seconds now) {
    first_.on_wake(now);
    if (practice_) {
        practice_->on_wake(now);
    }
}

bool Stores::wait_until_saved(std::chrono::milliseconds most) {
    const bool practice = !practice_room_ || practice_room_->wait_until_saved(most);
    return first_.room().wait_until_saved(most) && practice;
}

}  // namespace brimline::screens

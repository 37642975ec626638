// Judges touches: a press is resolved against what the finger saw, that is against the frame before this one.
#include "app/kiosk/touch/glass.h"

#include "app/kiosk/touch/pen.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

Glass::Glass(const Type& type, const Words& words)
    : type_{&type}, words_{&words}, colours_{&palette(Theme::dark)} {}

void Glass::begin(const FrameInput& input, Size size) {
    ++frame_;
    std::swap(seen_, now_);
    size_ = size;
    input_ = input;
    ink_ = ImGui::GetBackgroundDrawList();
    dress(dress_);
    now_.clear({size, dress_.in_room});
    const Target* under = seen_.at(input.finger);
    inside_ = under == nullptr ? std::string{} : under->name;
    aimed_ = input.pressed ? inside_ : std::string{};
    if (input.pressed) {
        held_ = inside_;
    }
}

void Glass::end() {
    if (!input_.down) {
        held_.clear();
    }
    if (dress_.practice) {
        practice_frame(*this);
    }
    std::erase_if(watches_, [this](const auto& watch) { return watch.second.frame != frame_; });
}

void Glass::dress(const Dress& dress) {
    dress_ = dress;
    colours_ = &palette(dress.theme);
    now_.set_room(dress.in_room);
}

Touch Glass::touch(const Target& target) { return judge(target, true); }

Touch Glass::touch_watched(const Target& target) { return judge(target, is_live(target)); }

// A place that was not there in the last frame counts as changed: what appears under a finger was not aimed
// at.
bool Glass::is_live(const Target& target) {
    auto [watch, is_new] = watches_.try_emplace(target.group, Watch{target.name, time(), frame_});
    if (!is_new && watch->second.command != target.name) {
        watch->second = {target.name, time(), frame_};
    }
    watch->second.frame = frame_;
    return time() - watch->second.since >= dead_time;
}

Touch Glass::judge(const Target& target, bool live) {
    now_.add(target);
    if (!target.enabled) {
        return {};
    }
    if (aimed_ == target.name && !live) {
        ++too_soon_;
        held_.clear();
        return {};
    }
    Touch touch;
    touch.pressed = held_ == target.name && input_.down && inside_ == target.name;
    if (target.acts_on_press) {
        touch.fired = aimed_ == target.name;
    } else {
        touch.fired = input_.released && held_ == target.name && inside_ == target.name && live;
    }
    return touch;
}

Seconds Glass::dead_for(const std::string& place) const {
    const auto found = watches_.find(place);
    if (found == watches_.end()) {
        return 0;
    }
    return std::max(0.0, found->second.since + dead_time - time());
}

}  // namespace brimline::touch

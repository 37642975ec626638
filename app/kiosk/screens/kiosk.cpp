// From a tap to the core and back.
#include "app/kiosk/screens/kiosk.h"

#include <algorithm>

#include "app/kiosk/screens/banners.h"
#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/kiosk_people.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/rescue.h"
#include "core/case/fill_view.h"
#include "core/case/place_view.h"

namespace brimline::screens {
namespace {

bool is_case_page(Page page) { return page > Page::sign_cases; }  // the desk's pages stand first

const CaseState* in(const Desk& desk, const std::string& name) {
    return name.empty() ? nullptr : desk.find_case(name);
}

}  // namespace

Kiosk::Kiosk(LiveRoom& room, KioskSetting setting) : room_{room}, setting_{setting}, touched_{room.now()} {}

void Kiosk::open(const std::string& person, const std::string& case_name, Page page) {
    person_ = person;
    case_name_ = case_name;
    page_ = page;
    touched_ = room_.now();
    sheet_ = Sheet::none;
}

Scene Kiosk::scene() const {
    const auto* state = in(room_.desk(), case_name_);
    const auto* ahead = in(room_.ahead(), case_name_);
    if (!is_case_page(page_) && page_ != Page::sign_in) {
        book_.follow(room_.desk(), room_.policy(), room_.zone(), room_.zone().date_of(room_.now()));
    }
    return {book_,
            room_.desk(),
            room_.ahead(),
            state,
            ahead,
            room_.policy(),
            room_.zone(),
            room_.now(),
            room_.started(),
            room_.waiting(),
            person_,
            chips_of(ahead, room_.ahead(), person_),
            page_,
            sheet_,
            last_,
            room_.now() < far_tap_until_,
            physician_of(ahead, room_.ahead()),
            setting_.practice,
            setting_.palette,
            room_.broken(),
            setting_.printing ? setting_.printing->outcome() : PrintOutcome{},
            setting_.printing != nullptr,
            page_ == Page::kiosk ? room_.backup() : BackupAge{}};
}

Asks Kiosk::draw_page(touch::Glass& glass, const Scene& scene) {
    switch (page_) {
        case Page::sign_in:
            return draw_sign_in(glass, scene, drafts_.desk);
        case Page::day_list:
            return draw_day_list(glass, scene, drafts_.desk);
        case Page::arrival:
            return draw_arrival(glass, scene, drafts_.arrival);
        case Page::enter_room:
            return draw_enter_room(glass, scene, drafts_.room);
        case Page::pause_sedation:
            return draw_pause(glass, scene, PauseKind::before_sedation, drafts_.room);
        case Page::pause_device:
            return draw_pause(glass, scene, PauseKind::before_device, drafts_.room);
        case Page::pause_leaving:
            return draw_pause(glass, scene, PauseKind::before_leaving, drafts_.room);
        case Page::sedation:
            return draw_sedation(glass, scene, drafts_.vitals);
        case Page::look:
            return draw_look(glass, scene, drafts_.look, drafts_.removal);
        case Page::puncture:
            return draw_puncture(glass, scene, drafts_.removal);
        case Page::aspirate:
            return draw_aspirate(glass, scene, drafts_.removal, drafts_.look);
        case Page::out:
            return draw_out(glass, scene, drafts_.removal);
        case Page::place:
            return draw_place(glass, scene, drafts_.place);
        case Page::fill:
            return draw_fill(glass, scene, drafts_.fill);
        case Page::size:
            return draw_size(glass, scene, drafts_.size);
        case Page::release:
            return draw_release(glass, scene, drafts_.release);
        case Page::recovery:
            return draw_recovery(glass, scene, drafts_.recovery);
        case Page::discharge:
            return draw_discharge(glass, scene, drafts_.discharge, drafts_.recovery);
        case Page::bays:
            return draw_bays(glass, scene);
        case Page::change_list:
            return draw_change_list(glass, scene, drafts_.list);
        case Page::book:
            return draw_book(glass, scene, drafts_.book);
        case Page::start_now:
            return draw_start_now(glass, scene, drafts_.start);
        case Page::kiosk:
            return draw_kiosk_page(glass, scene);
        case Page::register_list:
            return draw_register(glass, scene, drafts_.reg);
        case Page::entry:
            return draw_entry(glass, scene, drafts_.reg);
        case Page::lots:
            return draw_lots(glass, scene, drafts_.reg);
        case Page::month:
            return draw_month(glass, scene, drafts_.reg);
        case Page::clinic:
            return draw_clinic(glass, scene, drafts_.reg);
        case Page::record:
            return draw_record(glass, scene, drafts_.record);
        case Page::sign_cases:
            return draw_sign_cases(glass, scene, drafts_.record);
        case Page::records:
            return draw_records(glass, scene, drafts_.record);
        case Page::open_items:
            return draw_open_items(glass, scene, drafts_.record);
    }
    return {};
}

Asks Kiosk::draw_sheet_or_page(touch::Glass& glass, const Scene& scene) {
    if (scene.state == nullptr && is_case_page(page_)) {
        // A case that is still on its way to the disk has no page yet; the list shows it as soon as it is
        // saved.
        return draw_day_list(glass, scene, drafts_.desk);
    }
    if (is_case_page(page_)) {
        if (auto asks = draw_common_sheet(glass, scene)) {
            return std::move(*asks);
        }
    }
    return draw_page(glass, scene);
}

std::optional<Asks> Kiosk::draw_common_sheet(touch::Glass& glass, const Scene& scene) {
    auto& sedation = drafts_.sedation;
    switch (sheet_) {
        case Sheet::stages:
            return draw_stages(glass, scene);
        case Sheet::vitals:
            return draw_vitals(glass, scene, drafts_.vitals);
        case Sheet::trend:
            return draw_trend(glass, scene);
        case Sheet::dose:
        case Sheet::infusion:
            return draw_dose(glass, scene, sedation.dose);
        case Sheet::airway:
            return draw_airway(glass, scene, sedation.airway);
        case Sheet::emergency:
            return draw_emergency(glass, scene, sedation.emergency);
        case Sheet::change_value:
            return draw_change_value(glass, scene, sedation.change);
        case Sheet::hand_role:
            return draw_hand_role(glass, scene);
        case Sheet::reviews:
            return draw_reviews(glass, scene, drafts_.reviews);
        case Sheet::patient:
            return draw_patient(glass, scene, drafts_.patient);
        case Sheet::monitor_clock:
            return draw_monitor_clock(glass, scene, drafts_.room);
        case Sheet::tube:
            return draw_tube(glass, scene, sedation);
        case Sheet::gate_identity:
            return draw_gate_identity(glass, scene, sedation);
        case Sheet::far_view:
            return over_fill(scene) ? std::optional{draw_far_view(glass, scene)} : std::nullopt;
        case Sheet::who_it_was:
            return draw_who_it_was(glass, scene);
        case Sheet::belongs_to:
            return draw_belongs_to(glass, scene, drafts_.patient);
        case Sheet::abandon:
            return draw_abandon(glass, scene, drafts_.abandon);
        case Sheet::override_hold:
            return draw_override(glass, scene, drafts_.override_hold);
        default:
            return std::nullopt;  // a sheet of the page itself
    }
}

/// The desk shows names of many: left alone it asks for the PIN again, and the same person goes on where it
/// stood. Never in the room or at a bay.
void Kiosk::lock_when_left(const touch::FrameInput& input) {
    if (input.pressed || input.down || input.released) {
        touched_ = room_.now();
    }
    const bool desk = !is_case_page(page_) && page_ != Page::sign_in && page_ != Page::bays;
    if (person_.empty() || !desk || room_.now() - touched_ < room_.policy().rules.sign_idle) {
        return;
    }
    drafts_.desk.choose(person_);
    left_ = Left{std::exchange(person_, ""), std::exchange(page_, Page::sign_in)};
    sheet_ = Sheet::none;
    last_.reset();
}

touch::Drawn Kiosk::draw(touch::Glass& glass) {
    room_.poll();  // also ends what time has ended, when the second has come
    lock_when_left(glass.input());
    const auto before = scene();
    const auto asks = draw_sheet_or_page(glass, before);
    if (!room_.read_only().empty()) {
        draw_reading_banner(glass);
    } else if (setting_.set_clock) {
        draw_clock_banner(glass);
    }
    const bool asked = !asks.say.empty() || asks.page || asks.sheet || asks.open_case || asks.person ||
                       asks.sign_in || asks.sign_off || asks.override_hold || asks.palette || asks.entry ||
                       asks.turn || asks.print;
    if (!asked) {
        return touch::Drawn::final;
    }
    take(asks);
    return touch::Drawn::stale;
}

void Kiosk::say(const Say& what) {
    Command command;
    command.by = what.by.value_or(person_.empty() ? std::string{nobody_signed_in} : person_);
    command.said_by = what.said_by;
    command.case_name = what.case_name.value_or(case_name_);
    command.happened = what.happened;
    command.sure = what.sure;
    command.says = what.says;
    last_ = room_.say(std::move(command));
}

void Kiosk::bring_stage() {
    const auto* state = in(room_.ahead(), case_name_);
    page_ = state == nullptr ? Page::day_list : page_of_case(*state, scene());
    sheet_ = Sheet::none;
}

/// Whoever signs in with a case in hand goes on with it, and is asked whose the entries without a name were.
void Kiosk::sign_in(const std::string& person, const std::string& pin) {
    const auto answer = room_.sign_in(person, pin);
    drafts_.desk.told(answer, room_.zone());
    if (!answer || !std::holds_alternative<store::PinRight>(*answer)) {
        return;
    }
    person_ = person;
    const auto* rescued = in(room_.ahead(), case_name_);
    bring_stage();
    sheet_ = rescued != nullptr && !nameless(*rescued).empty() ? Sheet::who_it_was : Sheet::none;
    if (left_ && left_->person == person && sheet_ == Sheet::none) {
        page_ = left_->page;
    }
    left_.reset();
    touched_ = room_.now();
    last_.reset();
}

void Kiosk::print(PaperAsked paper) {
    const auto* state = in(room_.ahead(), case_name_);
    if (state != nullptr && setting_.printing) {
        setting_.printing->print(paper == PaperAsked::card, *state, room_.ahead(), room_.policy(),
                                 room_.zone(), room_.now());
    }
}

void Kiosk::sign_off() {
    left_.reset();
    person_.clear();
    case_name_.clear();
    drafts_ = Drafts{};
    page_ = Page::sign_in;
    sheet_ = Sheet::none;
}

void Kiosk::take(const Asks& asks) {
    for (const auto& one : asks.say) {
        say(one);
        const bool asked = last_->asked && last_->asked->question == "implausible";
        if (last_->result == Reply::Result::refused || asked) {
            return;  // what follows stands on it; page and sheet stay, and tell why
        }
    }
    if (asks.sign_in) {
        sign_in(asks.sign_in->first, asks.sign_in->second);
    }
    if (asks.person) {
        person_ = *asks.person;
        bring_page_of_person();
    }
    if (asks.open_case) {
        case_name_ = *asks.open_case;
        auto reg = std::move(drafts_.reg);  // where the register stood is no case's
        drafts_ = Drafts{};
        drafts_.reg = std::move(reg);
    }
    turn_ = asks.turn ? asks.turn : turn_;
    if (asks.entry) {
        drafts_.reg.open(*asks.entry);
    }
    if ((asks.page || asks.sheet) && asks.say.empty()) {
        last_.reset();  // told where it was asked
    }
    if (sheet_ == Sheet::far_view && asks.sheet == Sheet::none) {
        constexpr std::chrono::seconds said_for{5};
        far_tap_until_ = room_.now() + said_for;
    }
    setting_.palette = asks.palette.value_or(setting_.palette);
    if (asks.print) {
        print(*asks.print);
    }
    if (asks.page || asks.sheet) {
        drafts_.vitals = {};
        drafts_.sedation.leave(sheet_ == Sheet::airway && asks.sheet == Sheet::airway);
    }
    if (asks.page) {
        page_ = *asks.page;
        sheet_ = Sheet::none;
        const auto* state = in(room_.ahead(), case_name_);
        if (page_ == Page::fill && state != nullptr && fill_asks_position(*state)) {
            page_ = Page::place;  // gate 3 asks wherever somebody comes from
            sheet_ = Sheet::gate_position;
        }
    }
    if (asks.sheet) {
        sheet_ = *asks.sheet;
    }
    if (asks.override_hold) {
        drafts_.override_hold = {};
        drafts_.override_hold.hold = *asks.override_hold;
        sheet_ = Sheet::override_hold;
    }
    if (person_.empty() && !open_without_pin(page_, sheet_)) {
        page_ = Page::sign_in;  // the case stays in hand: who signs in now goes on with it
        sheet_ = Sheet::none;
    }
    if (asks.sign_off) {
        sign_off();
    }
}

/// A chip brings its person's page: the value pad, or the stage under way. During the fill the pad lies over
/// it, so that the corner still counts; a page where somebody's word is awaited stays.
void Kiosk::bring_page_of_person() {
    const auto* state = in(room_.ahead(), case_name_);
    const auto* person = room_.ahead().person(person_);
    if (state == nullptr || person == nullptr || sheet_ != Sheet::none) {
        return;
    }
    const bool of_the_room = page_ == Page::look || page_ == Page::puncture || page_ == Page::aspirate ||
                             page_ == Page::place || page_ == Page::fill;
    if (of_the_room && person->has(Role::sedation_provider)) {
        if (fill_in_hand(state->device())) {
            sheet_ = Sheet::vitals;
        } else if (page_ != Page::fill) {
            page_ = Page::sedation;
        }
    } else if (page_ == Page::sedation && person->has(Role::assistant)) {
        const auto stage = stage_of(*state, room_.zone(), room_.now());
        const auto page = stage ? page_of(*stage) : std::nullopt;
        page_ = page.value_or(page_);
    }
}

void Kiosk::on_pedal(const touch::PedalPress& press) {
    const auto* state = in(room_.ahead(), case_name_);
    if (state == nullptr || !is_case_page(page_)) {
        return;
    }
    const bool assistant = press.pedal == touch::Pedal::assistant;
    const auto by = holder_of(state, room_.ahead(), person_, assistant ? Role::assistant : Role::physician);
    if (!by || (assistant && page_ != Page::fill)) {
        return;  // the left pedal counts in Fill only; nobody is here who may count
    }
    Command command;
    command.by = *by;
    command.case_name = case_name_;
    command.how = How::pedal;
    command.says = assistant ? Statement{SyringeIn{}} : Statement{SecondCount{}};
    last_ = room_.say(std::move(command));
}

/// At the sign-in a badge says who somebody is, the PIN that it is them; later it changes who enters.
void Kiosk::take_badge(const PersonKnown& person) {
    if (page_ == Page::sign_in || person_.empty()) {
        drafts_.desk.choose(person.id);
        return;
    }
    person_ = person.id;
    bring_page_of_person();
}

void Kiosk::on_scan(const std::string& characters, touch::Seconds) {
    if (const auto* person = room_.ahead().with_badge(characters)) {
        take_badge(*person);
        return;
    }
    const auto* state = in(room_.ahead(), case_name_);
    if (page_ != Page::place || state == nullptr) {
        return;
    }
    if (drafts_.place.saline_pad() && sheet_ == Sheet::none) {
        drafts_.place.take_scan(characters, room_.zone().date_of(room_.now()));
        return;  // the bag lies under the scanner, not the device
    }
    Device device;
    device.raw = characters;
    Command command;
    command.by = holder_of(state, room_.ahead(), person_, Role::assistant).value_or(person_);
    command.case_name = case_name_;
    command.how = How::scan;
    command.says = device;
    last_ = room_.say(std::move(command));
    if (sheet_ == Sheet::label_typed && last_->result != Reply::Result::refused) {
        sheet_ = Sheet::none;  // it scanned after all
        drafts_.place.label = {};
    }
}

touch::Seconds Kiosk::next_wake(touch::Seconds now) {
    const auto us = room_.now().in_us();
    constexpr double per_second = 1e6;
    return now + static_cast<double>(1'000'000 - us % 1'000'000) / per_second;
}

void Kiosk::on_wake(touch::Seconds) { room_.poll(); }

}  // namespace brimline::screens

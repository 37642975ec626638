// Fingers through a case.
#include "tests/app/play.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <stdexcept>

#include "core/case/codec.h"

namespace brimline::test {

using screens::Page;
using screens::Sheet;

namespace {

KioskBed::Start start_of(const std::string& day, const std::string& clock, std::vector<std::string> scripts,
                         bool long_words) {
    KioskBed::Start start;
    start.until = fmt::format("{}T{}+00:00", day, clock);
    start.scripts = std::move(scripts);
    start.stretched = long_words;
    start.as_script = true;
    return start;
}

std::string normal(const Recorded& recorded) {
    auto fields = fields_json(recorded.event);
    for (const char* key : {"event", "until", "say", "due", "hash"}) {
        fields.erase(key);
    }
    if (std::holds_alternative<Corrected>(recorded.event) ||
        std::holds_alternative<CountCorrected>(recorded.event)) {
        fields.erase("reason");  // the glass offers reasons to choose from, a script writes its own
        fields.erase("entry");   // by number
    }
    const auto code = fields.find("code");  // samples are numbered by their entry
    if (code != fields.end() && code->get<std::string>().rfind("sample-", 0) == 0) {
        *code = "sample";
    }
    return fmt::format("{} by {} said {} {}", kind_of(recorded.event), recorded.stamp.by,
                       recorded.stamp.said_by.value_or("-"), fields.dump());
}

}  // namespace

Normal normal_form(const CaseState& state, Instant from) {
    Normal lines;
    for (const auto& kept : state.history) {
        if (kept.first.stamp.at >= from) {
            lines.push_back(normal(kept.first));
        }
    }
    return lines;
}

Normal differences(const Normal& taps, const Normal& script) {
    Normal all;
    Normal left = script;
    for (const auto& line : taps) {
        const auto found = std::find(left.begin(), left.end(), line);
        if (found == left.end()) {
            all.push_back("taps: " + line);
        } else {
            left.erase(found);
        }
    }
    for (const auto& line : left) {
        all.push_back("script: " + line);
    }
    for (std::size_t i = 0; all.empty() && i < taps.size(); ++i) {
        if (taps[i] != script[i]) {
            all.push_back(fmt::format("order: {} | {}", taps[i], script[i]));
        }
    }
    return all;
}

Normal one_answer_of_the_test(Normal taps) {
    const auto first = std::find_if(taps.begin(), taps.end(), [](const std::string& line) {
        return line.find("pregnancy-test") != std::string::npos && line.find("negative") == std::string::npos;
    });
    if (first != taps.end()) {
        taps.erase(first);
    }
    return taps;
}

std::size_t without(Normal& taps, const std::string& begin) {
    return std::erase_if(taps, [&](const std::string& line) { return line.rfind(begin, 0) == 0; });
}

Play::Play(std::string case_name, const std::string& day, const std::string& clock,
           std::vector<std::string> scripts, bool long_words)
    : bed{start_of(day, clock, std::move(scripts), long_words)}, name_{std::move(case_name)}, day_{day} {}

void Play::as(const std::string& person, Page page) {
    bed.kiosk->open(person, name_, page);
    bed.settle();
}

void Play::sign_in(const std::string& person, const std::string& pin) {
    const auto before = bed.taps[""];
    for (int i = 0; i < 9 && !bed.glass->has("person/" + person); ++i) {
        bed.tap("someone-else");
    }
    bed.tap("person/" + person);
    bed.keys("pad", pin);
    bed.taps[person] += bed.taps[""] - before;
    bed.taps[""] = before;
}

void Play::sign_off() {
    const auto person = bed.kiosk->person();
    if (bed.glass->has("rail")) {
        tap({"rail", "another-case"});
    } else if (bed.glass->has("back")) {
        bed.tap("back");
    }
    bed.tap("desk/8");
    ++bed.taps[person];
    --bed.taps[""];
}

void Play::go(const std::string& person, Page page) {
    if (bed.kiosk->person() != person) {
        bed.tap("person/" + person);
    }
    if (bed.kiosk->page() == page && bed.kiosk->sheet() == Sheet::none) {
        return;
    }
    const std::map<Page, int> stages{{Page::arrival, 1}, {Page::sedation, 2}, {Page::look, 3},
                                     {Page::place, 4},   {Page::fill, 5},     {Page::size, 6},
                                     {Page::release, 7}, {Page::recovery, 8}, {Page::discharge, 9}};
    tap({"rail", fmt::format("stage/{}", stages.at(page))});
}

void Play::sign_here(const std::string& pin, const std::string& corner) {
    bed.tap("desk/6");
    for (int i = 0; i < 60 && bed.glass->has("next-page"); ++i) {
        bed.tap("next-page");
    }
    bed.keys("pad", pin);
    bed.tap(corner);
}

void Play::until(const std::string& clock) {
    const auto target = parse_instant(fmt::format("{}T{}+00:00", day_, clock));
    const auto wait = *target - bed.room->now();
    if (wait > Duration{}) {
        bed.clock.pass(std::chrono::duration_cast<std::chrono::milliseconds>(wait));
    }
    bed.settle();
}

void Play::type(const std::string& text) {
    bed.glass->type(text);
    bed.letters[bed.kiosk->person()] += static_cast<int>(text.size());
    bed.tap("letters-done");
}

void Play::set(const std::string& pad, int spo2, int rr, int depth, int oxygen, int etco2) {
    if (!bed.glass->has("spo2/98")) {
        bed.tap("vitals");
    }
    if (!pad.empty()) {
        bed.keys("pad", pad);
    }
    const auto strip = [&](const char* name, int value) {
        const auto key = fmt::format("{}/{}", name, value);
        if (bed.glass->has(key)) {
            bed.tap(key);
            return;
        }
        bed.tap(fmt::format("{}/other", name));
        bed.keys("pad", std::to_string(value));
    };
    if (spo2 >= 0) {
        strip("spo2", spo2);
    }
    if (rr >= 0) {
        strip("rr", rr);
    }
    if (depth >= 0) {
        bed.tap(fmt::format("depth/{}", depth));
    }
    if (etco2 >= 0) {
        bed.tap("etco2");
        bed.keys("pad", std::to_string(etco2));
    }
    if (oxygen >= 0) {
        bed.tap("oxygen");
        bed.keys("pad", std::to_string(oxygen));
    }
    bed.tap("save-set");
}

void Play::dose(const std::string& drug, const std::string& amount, bool asked) {
    if (bed.kiosk->page() == Page::sedation && bed.kiosk->sheet() == Sheet::none) {
        bed.tap("other-dose");
    } else {
        tap({"vitals", "other-dose"});
    }
    for (int i = 0; i < 6 && !bed.glass->has("drug/" + drug); ++i) {
        bed.tap("more-drugs");
    }
    bed.tap("drug/" + drug);
    bed.keys("pad", amount);
    bed.tap("record-dose");
    if (asked) {
        bed.tap("dose-sure");
    }
    if (bed.kiosk->sheet() != Sheet::none) {
        bed.tap("back");
    }
}

void Play::intake(const std::string& kind, int days_ago, const std::string& clock) {
    tap({"intake/" + kind, fmt::format("days-ago/{}", days_ago)});
    bed.keys("pad", clock);
    bed.tap("enter-intake");
}

void Play::airway(int asa, int mallampati, bool snores, const std::string& neck) {
    tap({"part/airway", fmt::format("asa/{}", asa), fmt::format("mallampati/{}", mallampati),
         snores ? "snores/yes" : "snores/no", "tired/no", "observed/no", "pressure/no"});
    bed.keys("pad", neck);
    tap({"trouble/no", "cpap/no", "enter-airway"});
}

void Play::pause(const std::vector<std::string>& people, int first, int last) {
    for (const auto& person : people) {
        if (!bed.glass->is_checked("present/" + person)) {
            bed.tap("present/" + person);
        }
    }
    for (const auto& [id, person] : bed.room->desk().people) {
        const bool here = std::find(people.begin(), people.end(), id) != people.end();
        if (!here && bed.glass->has("present/" + id) && bed.glass->is_checked("present/" + id)) {
            bed.tap("present/" + id);  // has gone since the pause before
        }
    }
    for (int i = first; i <= last; ++i) {
        bed.tap(fmt::format("said-{}", i));
    }
}

void Play::recovery_round(const std::string& pad, int spo2, int rr, int oxygen,
                          const std::vector<std::string>& parts, int nausea, int pain) {
    set(pad, spo2, rr, -1, oxygen);
    bed.tap("to-score");
    bed.tap_all(parts);
    for (const auto& [what, value] : {std::pair{"nausea", nausea}, std::pair{"pain", pain}}) {
        for (int i = 0; i <= value; ++i) {
            bed.tap(fmt::format("{}/more", what));
        }
    }
    bed.tap("save-score");
}

void Play::quiet_round(const std::string& pad, int spo2, int rr, int nausea, int pain, int oxygen) {
    set(pad, spo2, rr, -1, oxygen);
    tap({"nausea", fmt::format("nausea/{}", nausea), fmt::format("pain/{}", pain), "back-to-recovery"});
}

void Play::give(const std::string& drug, const std::string& amount) {
    bed.tap("dose");
    for (int i = 0; i < 6 && !bed.glass->has("drug/" + drug); ++i) {
        bed.tap("more-drugs");
    }
    bed.tap("drug/" + drug);
    bed.keys("pad", amount);
    bed.tap("record-dose");
    if (bed.kiosk->sheet() != Sheet::none) {
        bed.tap("back");
    }
}

void Play::change(const std::string& field, const std::string& value, const std::string& reason) {
    if (bed.glass->has("change")) {
        bed.tap("change");
    } else {
        tap({"trend", "change-value"});
    }
    for (int i = 1; i < 5 && !bed.glass->has("field/" + field); ++i) {
        bed.tap(fmt::format("entry/{}", i));
    }
    bed.tap("field/" + field);
    bed.keys("pad", value);
    tap({"reason/" + reason, "change"});
}

Normal Play::faults() const {
    auto all = bed.glass->faults();
    std::erase_if(all,
                  [](const std::string& fault) { return fault.find("letters/text") != std::string::npos; });
    return all;
}

void Play::owner(const std::string& name) {
    for (int i = 0; i < 9; ++i) {
        bed.tap("owner");
        for (const auto& slot : bed.glass->registry().slots()) {
            if (slot.name.rfind("owner", 0) == 0 && slot.text.find(name) != std::string::npos) {
                return;
            }
        }
    }
}

void Play::move(const std::string& person, int minutes, const std::string& why) {
    as(person, Page::change_list);
    bed.tap("case/" + name_);
    for (const int step : {30, 5}) {
        for (; std::abs(minutes) >= step; minutes -= minutes < 0 ? -step : step) {
            bed.tap(fmt::format("shift/{}", minutes < 0 ? -step : step));
        }
    }
    bed.tap("why/list.other");
    type(why);
    bed.tap("move");
}

void Play::monitor_clock(const std::string& digits) {
    bed.tap("monitor-clock");
    bed.keys("pad", digits);
    bed.tap("it-shows-it");
}

void Play::plan(const std::string& from, const std::string& to, const std::string& aim,
                const std::string& ceiling) {
    bed.keys("pad", from);
    bed.tap("next-box");
    bed.keys("pad", to);
    bed.tap("next-box");
    bed.keys("pad", aim);
    if (!ceiling.empty()) {
        bed.tap("box/ceiling");
        bed.keys("pad", ceiling);
    }
    bed.tap("enter");
}

void Play::label(const std::string& number, const std::string& expiry, const std::string& lot,
                 const std::string& serial, const std::string& reader, const std::string& last_four) {
    bed.tap("typed/number");
    bed.keys("pad", number);
    bed.tap("typed/expiry");
    bed.keys("pad", expiry);
    bed.tap("typed/lot");
    type(lot);
    bed.tap("typed/serial");
    type(serial);
    bed.tap("typed/read-aloud");
    const auto name = bed.room->desk().name_of_person(reader);
    const auto surname = name.substr(name.rfind(' ') + 1);
    for (int i = 0; i < 9; ++i) {
        bed.tap("reader");
        if (bed.glass->text_of("reader/title").find(surname) != std::string::npos) {
            break;
        }
    }
    bed.keys("pad", last_four);
    bed.tap("use-label");
}

void Play::push(int syringes, bool with_pedal, int apart_s) {
    for (int i = 0; i < syringes; ++i) {
        bed.pass(std::chrono::seconds{apart_s - 2});
        bed.tap("syringe-in");
        bed.pass(std::chrono::seconds{2});
        if (with_pedal) {
            bed.glass->pedal(touch::Pedal::physician);
            bed.settle();
        }
    }
}

void Play::sign(const std::string& person, const std::string& pin, const std::string& corner) {
    as(person, Page::sign_cases);
    for (int i = 0; i < 60 && bed.glass->has("next-page"); ++i) {
        bed.tap("next-page");
    }
    bed.keys("pad", pin);
    bed.tap(corner);
}

}  // namespace brimline::test

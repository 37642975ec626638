// Runs scripts into a store, then opens the kiosk on it.
#include "tests/app/kiosk_bed.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <stdexcept>

#include "core/case/codec.h"
#include "tests/source_folder.h"

namespace brimline::test {
namespace {

[[noreturn]] void fail(const std::string& say) { throw std::runtime_error{say}; }

Instant instant_of(const std::string& text) {
    const auto t = parse_instant(text);
    return t ? *t : (fail("not a time: " + text), Instant{});
}

/// Runs lines in one room; a line later than `until` and all after it stay out.
class Runner {
public:
    Runner(Room& room, Instant until) : room_{room}, until_{until} {}

    bool run(int number, const std::string& line) {
        auto json = parse_json(line);
        auto read = json ? read_command(*json) : tl::unexpected{json.error()};
        if (!read) {
            fail(fmt::format("line {}: {} {}", number, read.error().field, read.error().say));
        }
        const auto at = read->has_at ? read->command.at : until_;
        if (at > until_) {
            return false;
        }
        if (!resolve_lines(read->command, first_seq_)) {
            fail(fmt::format("line {}: names a line that recorded nothing", number));
        }
        read->command.at = at;
        const auto answer = room_.run(read->command, {at, at.in_us(), store::hex(store::Id16{'s'}), true});
        if (answer.refusal && !read->expect) {
            fail(fmt::format("line {}: refused, {}", number, answer.refusal->say));
        }
        if (!answer.seqs.empty()) {
            first_seq_[number] = answer.seqs.front();
        }
        return true;
    }

private:
    Room& room_;
    Instant until_;
    std::map<int, std::int64_t> first_seq_;
};

void run_file(Room& room, Instant until, const std::string& folder, const std::string& name) {
    std::ifstream file{fmt::format("{}/{}.jsonl", in_sources(folder), name)};
    if (!file) {
        fail("no script " + name);
    }
    Runner runner{room, until};
    std::string line;
    for (int number = 1; std::getline(file, line); ++number) {
        if (!line.empty() && !runner.run(number, line)) {
            return;
        }
    }
}

}  // namespace

TempFolder::TempFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "brimline-screens-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) {
        fail("no folder for the test");
    }
    path_ = pattern;
}

TempFolder::~TempFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

const touch::Words& english() {
    static const touch::Words words = std::move(*touch::Words::load(in_sources("/assets/words/en.json")));
    return words;
}

touch::Words words_in(const std::string& language) {
    auto words = touch::Words::load(in_sources("/assets/words/" + language + ".json"));
    return words ? std::move(*words) : (fail(words.error()), touch::Words{});
}

const touch::Words& stretched() {
    static const touch::Words words = english().stretched();
    return words;
}

namespace {

Room open_room(const std::filesystem::path& folder, const std::string& day, store::SetClock& clock,
               store::SystemChance& chance) {
    auto opened = Room::open({folder, in_sources(day + "/policy"), false}, clock, chance);
    if (!opened) {
        fail(opened.error().say);
    }
    return std::move(*opened);
}

void copy_store(const std::filesystem::path& from, const std::filesystem::path& to) {
    std::filesystem::copy(from, to, std::filesystem::copy_options::recursive);
}

/// A day's people in a closed store, made once: their PINs take most of the time of a bed.
const std::filesystem::path& store_with_people(const std::string& folder, Instant until) {
    static std::map<std::string, TempFolder> made;
    const bool known = made.contains(folder);
    const auto& store = made[folder].path();
    if (!known) {
        store::SetClock clock{until, until.in_us()};
        store::SystemChance chance;
        auto room = open_room(store, folder, clock, chance);
        run_file(room, until, folder, "people");
    }
    return store;
}

}  // namespace

void KioskBed::run_scripts(const Start& start) {
    const auto until = instant_of(start.until);
    if (!start.nobody) {
        const auto midnight = instant_of(start.until.substr(0, 10) + "T00:00:00+00:00");
        copy_store(store_with_people(start.folder, midnight), folder.path());
    }
    auto opened = open_room(folder.path(), start.folder, clock, chance);
    for (const auto& script : start.scripts) {
        run_file(opened, until, start.folder, script);
    }
    Runner runner{opened, until};
    int number = 0;
    for (const auto& line : start.lines) {
        runner.run(++number, line);
    }
}

KioskBed::KioskBed(const Start& start)
    : words{!start.language.empty() ? words_in(start.language)
            : start.stretched       ? stretched()
                                    : english()},
      clock{instant_of(start.until), instant_of(start.until).in_us()} {
    run_scripts(start);
    LiveRoom::Options options;
    options.room = {folder.path(), std::nullopt, start.setting.practice};
    options.script_clock = start.as_script;
    auto opened = LiveRoom::open(std::move(options), clock, chance);
    if (!opened) {
        fail(opened.error().say);
    }
    room = std::move(*opened);
    kiosk = std::make_unique<screens::Kiosk>(*room, start.setting);
    glass = std::make_unique<touch::Headless>(*kiosk, words);
    settle();
}

void KioskBed::settle() {
    glass->frame();
    if (!room->wait_until_saved(std::chrono::seconds{5})) {
        fail("the disk did not answer");
    }
    glass->frame();
}

void KioskBed::tap(const std::string& name) {
    glass->tap(name);
    settle();
    ++taps[kiosk->person()];
}

void KioskBed::tap_all(const std::vector<std::string>& names) {
    for (const auto& name : names) {
        tap(name);
    }
}

void KioskBed::keys(const std::string& pad, const std::string& digits) {
    for (const char digit : digits) {
        tap(pad + "/" + (digit == '.' ? std::string{"point"} : std::string(1, digit)));
    }
}

void KioskBed::scan(const std::string& characters) {
    glass->scan(characters);
    settle();
}

void KioskBed::pass(std::chrono::milliseconds time) {
    clock.pass(time);
    glass->pass(static_cast<double>(time.count()) / 1000);
    settle();
}

const CaseState& KioskBed::state(const std::string& name) const {
    const auto* found = room->desk().find_case(name);
    return found != nullptr ? *found : (fail("no case " + name), *found);
}

std::vector<std::string> KioskBed::kinds(const std::string& name) const {
    std::vector<std::string> kinds;
    for (const auto& kept : state(name).history) {
        kinds.emplace_back(kind_of(kept.first.event));
    }
    return kinds;
}

std::vector<std::string> KioskBed::new_kinds(const std::string& name) {
    auto all = kinds(name);
    const auto from = std::min(seen_, all.size());
    seen_ = all.size();
    return {all.begin() + static_cast<std::ptrdiff_t>(from), all.end()};
}

const Recorded& KioskBed::last_of(std::string_view kind, const std::string& name) const {
    const auto& history = state(name).history;
    for (auto kept = history.rbegin(); kept != history.rend(); ++kept) {
        if (kind_of(kept->first.event) == kind) {
            return kept->first;
        }
    }
    fail(fmt::format("no event {}", kind));
}

void KioskBed::picture(const std::string& name) {
    if (const char* folder_name = std::getenv("BRIMLINE_PICTURES")) {
        const auto file = std::filesystem::path{folder_name} / (name + ".png");
        if (const auto written = touch::write_png(glass->picture(), file.string()); !written) {
            fail(written.error());
        }
    }
}

}  // namespace brimline::test

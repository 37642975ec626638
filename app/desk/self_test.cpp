// brimline self-test: the installer's page as text.
#include "app/desk/self_test.h"

#include <fmt/format.h>

#include "app/desk/commands.h"
#include "app/loop/projections.h"
#include "app/loop/room.h"
#include "core/store/backup.h"
#include "core/store/copies.h"
#include "core/store/space.h"
#include "core/store/verify.h"

namespace brimline::desk {
namespace {

using State = TestLine::State;
using Lines = std::vector<TestLine>;

void journal(const std::filesystem::path& data, Lines& lines) {
    store::VerifyOptions options;
    options.projections = compare_projections;
    const auto report = store::verify(data, options);
    if (!report) {
        lines.push_back({State::stop, "Store", report.error().say + " " + report.error().next});
        return;
    }
    if (!report->findings.empty()) {
        lines.push_back(
            {State::stop, "Store", report->findings.front().sentence + " Restore a backup, or call."});
        return;
    }
    lines.push_back({State::good, "Store",
                     fmt::format("whole: {} events, {} chains, {} sealed records", report->events,
                                 report->cases, report->sealed)});
}

void space(const std::filesystem::path& data, Lines& lines) {
    const auto left = store::free_bytes(data);
    if (!left) {
        lines.push_back({State::look, "Space", "the system does not say how much is free"});
        return;
    }
    const auto words = fmt::format("{} MB free", *left / 1'000'000);
    switch (store::space_for(*left)) {
        case store::Space::enough:
            lines.push_back({State::good, "Space", words});
            break;
        case store::Space::low:
            lines.push_back({State::look, "Space", words + ": make room before the next clinic day"});
            break;
        case store::Space::none:
            lines.push_back({State::stop, "Space", words + ": no new case before there is room"});
            break;
    }
}

/// The clock against the journal: it may not stand before the last entry, nor years after it.
void clock_line(const Desk& desk, Instant now, const Zone& zone, Lines& lines) {
    const auto last = desk.last_at;
    if (desk.last_seq == 0) {
        lines.push_back({State::good, "Clock", "no entry yet to compare with; check it against the wall"});
    } else if (now < last && !desk.scripts_only) {
        lines.push_back({State::stop, "Clock",
                         fmt::format("it stands before the last entry ({}): set it",
                                     instant_text(last, zone).substr(0, 16))});
    } else {
        lines.push_back({State::good, "Clock", instant_text(now, zone).substr(0, 19) + ", " + zone.name()});
    }
}

void backup(const std::filesystem::path& data, const Desk& desk, Instant now, const Zone& zone,
            Lines& lines) {
    constexpr int old_days = 2;     // 7-journal: at day's end; one missed day is seen
    constexpr int drill_days = 31;  // 7-journal: the drill is monthly
    const auto today = zone.date_of(now);
    const auto last = store::last_backup(data);
    const auto age = last ? days_between(zone.date_of(last->at), today) : 0;
    if (!last) {
        lines.push_back({State::stop, "Backup", "none was ever made: brimline backup FILE"});
    } else {
        lines.push_back({age > old_days ? State::look : State::good, "Backup",
                         fmt::format("{} days old, up to entry {}: {}", age, last->head.seq, last->file)});
    }
    if (const auto failing = store::failing_backup(data); !failing.empty()) {
        lines.push_back({State::stop, "Backup by the kiosk", failing});
    } else if (!desk.backup_plan || desk.backup_plan->folder.empty()) {
        lines.push_back({State::look, "Backup by the kiosk", "not planned: brimline backup-plan"});
    } else {
        lines.push_back({State::good, "Backup by the kiosk", "goes to " + desk.backup_plan->folder});
    }
    if (!desk.rehearsed) {
        lines.push_back({State::look, "Restore drill", "never done: brimline rehearse FILE"});
        return;
    }
    const auto since = days_between(zone.date_of(desk.rehearsed->stamp.at), today);
    const bool good = desk.rehearsed->is.same && since <= drill_days;
    lines.push_back({good                      ? State::good
                     : desk.rehearsed->is.same ? State::look
                                               : State::stop,
                     "Restore drill",
                     fmt::format("{} days ago, {} events, {}", since, desk.rehearsed->is.events,
                                 desk.rehearsed->is.same ? "all as here" : "NOT as here")});
}

void people(const Desk& desk, Lines& lines) {
    std::vector<std::string> missing;
    for (const Role role :
         {Role::assistant, Role::physician, Role::sedation_provider, Role::nurse, Role::coordinator}) {
        if (!desk.first_with(role)) {
            missing.emplace_back(name_of(role));
        }
    }
    lines.push_back(
        missing.empty()
            ? TestLine{State::good, "People", fmt::format("{}, every role is there", desk.people.size())}
            : TestLine{State::look, "People", fmt::format("nobody yet is {}", fmt::join(missing, ", "))});
}

const char* word_of(State state) {
    return state == State::good ? "good" : state == State::look ? "LOOK" : "STOP";
}

int run_self_test(const std::filesystem::path& data) {
    store::SystemClock clock;
    bool stop = false;
    for (const auto& line : self_test(data, clock)) {
        fmt::print("{:5} {:14} {}\n", word_of(line.state), line.what, line.say);
        stop = stop || line.state == State::stop;
    }
    fmt::print("Pedals, scanner, printer and touch are tested on the kiosk itself.\n");
    return stop ? 1 : 0;
}

}  // namespace

std::vector<TestLine> self_test(const std::filesystem::path& data, store::Clock& clock) {
    Lines lines;
    journal(data, lines);
    space(data, lines);
    const auto reading = read_store(data);
    if (!reading) {
        lines.push_back({State::stop, "Policy", reading.error().say});
        return lines;
    }
    const auto& desk = reading->memory.desk;
    const auto& zone = reading->in_force.zone;
    clock_line(desk, clock.utc(), zone, lines);
    backup(data, desk, clock.utc(), zone, lines);
    lines.push_back({State::good, "Policy", "valid, hash " + reading->in_force.hash.substr(0, 8)});
    people(desk, lines);
    return lines;
}

void add_self_test(CLI::App& app, Run& run) {
    auto data = std::make_shared<std::filesystem::path>();
    auto* command = app.add_subcommand("self-test", "What of this kiosk works, one sentence each");
    add_data_option(*command, *data);
    command->callback([data, &run] { run = [data] { return run_self_test(*data); }; });
}

}  // namespace brimline::desk

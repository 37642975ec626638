// brimline script: runs a file of commands, one JSON object a line, each on the way that a tap takes.
#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

#include "app/desk/commands.h"
#include "app/loop/answer.h"
#include "app/loop/room.h"

namespace brimline::desk {
namespace {

struct Options {
    std::string file;
    Room::Options room;
    bool keep_going{false};
};

/// The boot of entries whose clocks come from the script: one id for all of them, so that their ticks
/// compare.
std::string script_boot() { return store::hex(store::Id16{'s', 'c', 'r', 'i', 'p', 't'}); }

struct Line {
    int number{0};
    std::string_view text;
};

std::vector<Line> lines_of(std::string_view text) {
    std::vector<Line> lines;
    int number = 0;
    while (!text.empty()) {
        const auto end = std::min(text.find('\n'), text.size());
        auto line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        ++number;
        if (line.find_first_not_of(" \t\r") != std::string_view::npos) {
            lines.push_back({number, line});
        }
    }
    return lines;
}

bool as_expected(const Reply& answer, const std::optional<std::string>& expect) {
    using Result = Reply::Result;
    if (!expect) {
        const bool implausible =
            answer.asked && answer.asked->question == "implausible" && answer.seqs.empty();
        return answer.result != Result::refused && !implausible;
    }
    if (*expect == "recorded") {
        return answer.result == Result::recorded;
    }
    if (*expect == "asked") {
        return answer.result == Result::asked;
    }
    const bool any_code = *expect == "refused";
    return answer.result == Result::refused && (any_code || "refused:" + answer.refusal->code == *expect);
}

std::string unexpected(const Options& options, int line, const Reply& answer,
                       const std::optional<std::string>& expect) {
    const std::string got =
        answer.refusal ? fmt::format("refused ({}): {}", answer.refusal->code, answer.refusal->say)
        : answer.asked ? fmt::format("asked ({}): {}", answer.asked->question, answer.asked->say)
                       : "recorded.";
    return fmt::format("{}, line {}: expected {}, but it was {}", options.file, line,
                       expect.value_or("recorded"), got);
}

/// Runs the lines of one script in one room.
class Runner {
public:
    Runner(const Options& options, Room& room, store::Clock& clock)
        : options_{options}, room_{room}, clock_{clock} {}

    /// The exit code so far, and whether to stop.
    struct Step {
        int code{0};
        bool stop{false};
    };

    Step run(const Line& line) {
        auto json = parse_json(line.text);
        if (!json) {
            return malformed(line, json.error());
        }
        auto read = read_command(*json);
        if (!read) {
            return malformed(line, read.error());
        }
        if (const auto resolved = resolve_lines(read->command, first_seq_); !resolved) {
            return malformed(line, resolved.error());
        }
        const auto time = time_of(*read);
        if (!time) {
            return malformed(line, time.error());
        }
        read->command.at = time->at;
        if (const auto fault = malformed_in_context(read->command, room_.loop().desk())) {
            return malformed(line, *fault);
        }
        return tell(line, room_.run(read->command, *time), read->expect);
    }

private:
    Step malformed(const Line& line, const Malformed& fault) const {
        const auto field = fault.field.empty() ? "" : fmt::format(", field \"{}\"", fault.field);
        const auto end = fault.say.ends_with('?') ? "" : ".";
        return {complain(
                    fmt::format("{}, line {}{}: {}{}", options_.file, line.number, field, fault.say, end), 2),
                true};
    }

    tl::expected<EntryTime, Malformed> time_of(const ReadCommand& read) {
        auto time = room_.now(clock_);
        const auto real_now = time.at;
        time.script = true;
        if (read.has_at) {
            time = {read.command.at, read.command.at.in_us(), script_boot(), true};
        }
        if (read.has_at && last_at_ && time.at < *last_at_) {
            return tl::unexpected{Malformed{"at", "goes back; it is never earlier than the line before"}};
        }
        if (read.has_at && time.at.in_us() < 0) {
            return tl::unexpected{Malformed{"at", "a time from 1970 on is needed"}};
        }
        if (time.at > real_now && !room_.loop().desk().scripts_only) {
            return tl::unexpected{Malformed{
                "at", "lies in the future; that is allowed only in a store that scripts alone have written"}};
        }
        last_at_ = read.has_at ? time.at : last_at_;  // the wall clock may jump while a script runs
        return time;
    }

    Step tell(const Line& line, const Reply& answer, const std::optional<std::string>& expect) {
        fmt::print("{}\n", answer_json(answer, line.number).dump());
        std::fflush(stdout);
        if (!answer.seqs.empty()) {
            first_seq_[line.number] = answer.seqs.front();
        }
        if (answer.result == Reply::Result::pending) {
            return {complain(answer.say, 3), true};
        }
        if (as_expected(answer, expect)) {
            return {};
        }
        return {complain(unexpected(options_, line.number, answer, expect), 1), !options_.keep_going};
    }

    const Options& options_;
    Room& room_;
    store::Clock& clock_;
    std::map<int, std::int64_t> first_seq_;
    std::optional<Instant> last_at_;
};

int run_script(const Options& options) {
    const auto text = read_text(options.file);
    if (!text) {
        return complain(text.error().say, 2);
    }
    const auto lines = lines_of(*text);
    if (lines.empty()) {
        return complain(fmt::format("{}: is empty; one JSON object a line is needed.", options.file), 2);
    }
    store::SystemClock clock;
    store::SystemChance chance;
    auto room = Room::open(options.room, clock, chance);
    if (!room) {
        return complain(room.error().say, room.error().exit_code);
    }
    Runner runner{options, *room, clock};
    int code = 0;
    for (const auto& line : lines) {
        const auto step = runner.run(line);
        code = std::max(code, step.code);
        if (step.stop) {
            break;
        }
    }
    return code;
}

}  // namespace

void add_script(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("script", "Runs a script: one command a line, one answer line each");
    command->add_option("FILE", options->file, "The script; - is standard input")->required();
    add_data_option(*command, options->room.data);
    command->add_option("--policy", options->room.policy, "Folder with the clinic's policy, for a new store")
        ->type_name("DIR");
    command->add_flag("--keep-going", options->keep_going,
                      "Goes on after an unexpected answer (and still exits 1)");
    command->callback([options, &run] { run = [options] { return run_script(*options); }; });
}

}  // namespace brimline::desk

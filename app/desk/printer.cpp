// Keeping PDFs and running lp.
#include "app/desk/printer.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <fstream>
#include <thread>
#include <vector>

extern char** environ;

namespace brimline {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

constexpr milliseconds patience{30'000}, look_again{20};

/// What the program wrote to either of its streams, one line; how it ended, or empty when it took too long.
struct Ended {
    std::string said;
    std::optional<int> code;
};

std::string one_line(std::string text) {
    for (char& c : text) {
        c = static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
    text.erase(text.find_last_not_of(' ') + 1);
    return text;
}

/// Reads until the program ends or patience does.
Ended wait_for(pid_t pid, int from) {
    Ended ended;
    std::array<char, 512> bytes{};
    const auto until = std::chrono::steady_clock::now() + patience;
    for (bool more = true; std::chrono::steady_clock::now() < until;) {
        pollfd ready{from, POLLIN, 0};
        if (!more) {
            std::this_thread::sleep_for(look_again);  // it has closed its streams and is about to end
        } else if (poll(&ready, 1, static_cast<int>(look_again.count())) > 0) {
            const auto got = read(from, bytes.data(), bytes.size());
            more = got > 0;
            if (more) {
                ended.said.append(bytes.data(), static_cast<std::size_t>(got));
                continue;
            }
        }
        int status = 0;
        if (waitpid(pid, &status, WNOHANG) == pid) {
            ended.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
            break;
        }
    }
    if (!ended.code) {
        kill(pid, SIGKILL);
        waitpid(pid, nullptr, 0);
    }
    ended.said = one_line(ended.said);
    return ended;
}

}  // namespace

Expected<fs::path> keep_print(const fs::path& file, const std::string& pdf) {
    std::error_code error;
    if (file.has_parent_path() && !fs::exists(file.parent_path(), error)) {
        fs::create_directories(file.parent_path(), error);
        fs::permissions(file.parent_path(), fs::perms::owner_all, error);
    }
    auto beside = file;
    beside += ".part";
    {
        std::ofstream out{beside, std::ios::binary | std::ios::trunc};
        fs::permissions(beside, fs::perms::owner_read | fs::perms::owner_write, error);
        out << pdf;
        out.close();
        if (out) {
            fs::rename(beside, file, error);
            if (!error) {
                return file;
            }
        }
    }
    fs::remove(beside, error);
    return refuse("print-not-written", fmt::format("{}: cannot be written.", file.string()),
                  "Check the folder and the space.");
}

Expected<std::string> send_to_printer(const fs::path& file, const std::string& printer) {
    std::array<int, 2> pipe_ends{};
    if (pipe2(pipe_ends.data(), O_CLOEXEC) != 0) {
        return refuse("printer-refused", "The system has no room for another program.", "Try again.");
    }
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_adddup2(&actions, pipe_ends[1], STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&actions, pipe_ends[1], STDERR_FILENO);
    std::vector<std::string> words{"lp"};
    if (!printer.empty()) {
        words.insert(words.end(), {"-d", printer});
    }
    words.insert(words.end(), {"--", fs::absolute(file).string()});
    std::vector<char*> arguments;
    for (auto& word : words) {
        arguments.push_back(word.data());
    }
    arguments.push_back(nullptr);
    pid_t pid = 0;
    const int failed = posix_spawnp(&pid, "lp", &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    close(pipe_ends[1]);
    if (failed != 0) {
        close(pipe_ends[0]);
        return refuse("no-lp", "There is no printing on this machine (the program lp is missing).",
                      "Take the PDF on a stick, or show it to be photographed.");
    }
    const auto ended = wait_for(pid, pipe_ends[0]);
    close(pipe_ends[0]);
    if (ended.code == 0) {
        return ended.said;
    }
    return refuse("printer-refused",
                  !ended.code          ? std::string{"The printer did not answer in half a minute."}
                  : ended.said.empty() ? std::string{"The printer did not take it."}
                                       : fmt::format("The printer did not take it: {}", ended.said),
                  "Take the PDF on a stick, or show it to be photographed.");
}

}  // namespace brimline

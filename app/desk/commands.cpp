// What the sub-commands share: where data lies, how errors are said, how a file is read.
#include "app/desk/commands.h"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>

#include "core/store/clock.h"

namespace brimline::desk {
namespace fs = std::filesystem;

fs::path default_data() {
    if (const char* xdg = std::getenv("XDG_DATA_HOME"); xdg != nullptr && *xdg != '\0') {
        return fs::path{xdg} / "brimline";
    }
    const char* home = std::getenv("HOME");
    return fs::path{home == nullptr ? "." : home} / ".local" / "share" / "brimline";
}

void add_data_option(CLI::App& command, fs::path& data) {
    data = default_data();
    command.add_option("--data", data, "Folder of the journal; made with mode 0700 when it is new")
        ->type_name("DIR");
}

bool keeps_the_kiosk(const Desk& desk, const std::string& id) {
    const auto* known = desk.person(id);
    return known != nullptr && known->active &&
           (known->has(Role::installer) || known->has(Role::coordinator));
}

int complain(const std::string& say, int code) {
    fmt::print(stderr, "{}\n", say);
    return code;
}

void tell_copy(const std::optional<store::Copied>& copied) {
    if (!copied) {
        return;
    }
    const auto seconds =
        std::max<std::int64_t>((store::SystemClock{}.utc() - copied->at).count() / 1'000'000, 0);
    complain(
        copied->current
            ? std::string{"The kiosk is running; this is its copy, which holds every entry."}
            : fmt::format("The kiosk is running; this is its copy of {} s ago, and entries were made since.",
                          seconds),
        0);
}

Expected<std::string> read_text(const std::string& file) {
    if (file == "-") {
        return std::string{std::istreambuf_iterator<char>{std::cin}, {}};
    }
    std::error_code error;
    if (fs::is_directory(file, error)) {
        return refuse("is-folder",
                      fmt::format("{}: is a folder; a file with one JSON object a line is needed.", file));
    }
    std::ifstream in{file, std::ios::binary};
    if (!in) {
        return refuse("not-readable",
                      fmt::format("{}: cannot be read; check the name and that you may read it.", file));
    }
    return std::string{std::istreambuf_iterator<char>{in}, {}};
}

}  // namespace brimline::desk

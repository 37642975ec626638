// brimline key: the keys that this kiosk signed with, and their replacement.
#include <fmt/format.h>

#include "app/desk/commands.h"
#include "app/loop/room.h"
#include "core/store/clock.h"

namespace brimline::desk {
namespace {

struct Options {
    std::filesystem::path data;
    std::string by;
};

int list_keys(const Options& options) {
    auto journal = store::Journal::open(options.data, store::Mode::read_only);
    if (!journal) {
        return complain(journal.error().say, 3);
    }
    tell_copy(journal->copied());
    for (const auto& key : journal->keys().rows) {
        fmt::print("{}  kiosk {}, since entry {}\n", store::hex(key.key), key.kiosk, key.since_seq);
    }
    return 0;
}

int rotate_key(const Options& options) {
    store::SystemClock clock;
    store::SystemChance chance;
    auto room = Room::open({options.data, std::nullopt, false}, clock, chance);
    if (!room) {
        return complain(room.error().say, room.error().exit_code);
    }
    if (!keeps_the_kiosk(room->loop().desk(), options.by)) {
        return complain("The signing key is replaced by a coordinator or an installer: --by ID.", 1);
    }
    const auto answer = room->rotate_key(options.by, room->now(clock));
    if (answer.result != Reply::Result::recorded) {
        return complain(answer.say, 3);
    }
    fmt::print("{}\n", store::hex(room->journal().kiosk().public_key));
    return 0;
}

}  // namespace

void add_keys(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* keys = app.add_subcommand("key", "The keys that this kiosk signs records with");
    keys->require_subcommand(1);
    auto* list = keys->add_subcommand("list", "All of them, in order");
    add_data_option(*list, options->data);
    list->callback([options, &run] { run = [options] { return list_keys(*options); }; });
    auto* rotate = keys->add_subcommand("rotate", "Signs with a new key from here on; old seals still hold");
    add_data_option(*rotate, options->data);
    rotate->add_option("--by", options->by, "Who does it (a coordinator or installer)")->required();
    rotate->callback([options, &run] { run = [options] { return rotate_key(*options); }; });
}

}  // namespace brimline::desk

// brimline policy: checks a clinic's policy folder, and puts another policy in force.
#include <fmt/format.h>

#include "app/desk/commands.h"
#include "app/loop/policy_source.h"
#include "app/loop/room.h"

namespace brimline::desk {
namespace {

struct Options {
    std::filesystem::path data, folder;
    std::string by;
};

int check_policy(const Options& options) {
    const auto policy = load_policy(options.folder);
    if (!policy) {
        auto lines = fault_lines(policy.error());
        lines.pop_back();
        return complain(lines, 1);
    }
    const auto zone = zone_of(*policy);
    if (!zone) {
        return complain(zone.error().say, 1);
    }
    fmt::print("The policy is good. Hash {}\n", policy_hash(*policy));
    return 0;
}

int adopt_policy(const Options& options) {
    auto policy = load_policy(options.folder);
    if (!policy) {
        auto lines = fault_lines(policy.error());
        lines.pop_back();
        return complain(lines, 2);
    }
    auto zone = zone_of(*policy);
    if (!zone) {
        return complain(zone.error().say, 2);
    }
    store::SystemClock clock;
    store::SystemChance chance;
    auto room = Room::open({options.data, options.folder, false}, clock, chance);
    if (!room) {
        return complain(room.error().say, room.error().exit_code);
    }
    if (!keeps_the_kiosk(room->loop().desk(), options.by)) {
        return complain(
            fmt::format("\"{}\" may not adopt a policy; an installer or coordinator does.", options.by), 1);
    }
    auto hash = policy_hash(*policy);
    if (hash == room->loop().in_force().hash && room->loop().desk().policy) {
        fmt::print("This policy is in force already.\n");
        return 0;
    }
    const auto answer =
        room->adopt({std::move(*policy), std::move(*zone), hash}, options.by, room->now(clock));
    if (answer.result == Reply::Result::pending) {
        return complain(answer.say, 3);
    }
    fmt::print("In force from now on. Hash {}\n", hash);
    return 0;
}

}  // namespace

void add_policy(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* policy = app.add_subcommand("policy", "The clinic's policy files");
    policy->require_subcommand(1);
    auto* check = policy->add_subcommand("check", "Checks a folder over the house files; names every fault");
    check->add_option("DIR", options->folder, "The clinic's policy folder")->required();
    check->callback([options, &run] { run = [options] { return check_policy(*options); }; });
    auto* adopt = policy->add_subcommand("adopt", "Puts a folder's policy in force from now on");
    adopt->add_option("DIR", options->folder, "The clinic's policy folder")->required();
    adopt->add_option("--by", options->by, "Who adopts it (an installer or coordinator)")->required();
    add_data_option(*adopt, options->data);
    adopt->callback([options, &run] { run = [options] { return adopt_policy(*options); }; });
}

}  // namespace brimline::desk

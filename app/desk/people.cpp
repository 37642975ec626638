// brimline people: who may enter and sign. A PIN is read from standard input, never from the command line.
#include <fmt/format.h>

#include <iostream>

#include "app/desk/commands.h"
#include "app/loop/room.h"
#include "core/store/journal.h"

namespace brimline::desk {
namespace {

struct Options {
    std::filesystem::path data;
    std::string id, name, by;
    std::vector<std::string> roles;
};

int list_people(const Options& options) {
    auto journal = store::Journal::open(options.data, store::Mode::read_only);
    if (!journal) {
        return complain(journal.error().say, 3);
    }
    tell_copy(journal->copied());
    for (const auto& person : journal->people().rows) {
        fmt::print("{:12} {:28} {}{}{}\n", person.id, person.name, fmt::join(person.roles, ", "),
                   person.one_time ? "  (one-time PIN)" : "", person.active ? "" : "  (left)");
    }
    return 0;
}

int run_command(const Options& options, Statement says, const std::string& by) {
    store::SystemClock clock;
    store::SystemChance chance;
    auto room = Room::open({options.data, std::nullopt, false}, clock, chance);
    if (!room) {
        return complain(room.error().say, room.error().exit_code);
    }
    Command command;
    command.by = by;
    command.says = std::move(says);
    const auto answer = room->run(command, room->now(clock));
    if (answer.refusal) {
        return complain(answer.refusal->say + " " + answer.refusal->next, 1);
    }
    return answer.result == Reply::Result::recorded ? 0 : complain(answer.say, 3);
}

std::string ask(const char* what) {
    fmt::print(stderr, "{}: ", what);
    std::string line;
    std::getline(std::cin, line);
    return line;
}

int add_person(const Options& options) {
    AddPerson says;
    says.id = options.id;
    says.name = options.name;
    for (const auto& name : options.roles) {
        const auto role = role_named(name);
        if (!role || *role == Role::kiosk) {
            return complain(
                fmt::format("\"{}\" is no role; assistant, physician, sedation-provider, nurse, coordinator, "
                            "installer are allowed.",
                            name),
                2);
        }
        says.roles.push_back(*role);
    }
    says.pin = ask("One-time PIN");
    return run_command(options, says, options.by.empty() ? options.id : options.by);
}

int person_left(const Options& options) { return run_command(options, PersonLeft{options.id}, options.by); }

int set_pin(const Options& options) {
    SetPin says;
    says.old_pin = ask("PIN until now");
    says.new_pin = ask("New PIN");
    return run_command(options, says, options.id);
}

}  // namespace

void add_people(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* people = app.add_subcommand("people", "People, their roles and PINs");
    people->require_subcommand(1);
    auto* list = people->add_subcommand("list", "Everybody in the store");
    add_data_option(*list, options->data);
    list->callback([options, &run] { run = [options] { return list_people(*options); }; });
    auto* add = people->add_subcommand("add", "Adds a person with a one-time PIN, read from standard input");
    add_data_option(*add, options->data);
    add->add_option("ID", options->id, "Short id")->required();
    add->add_option("NAME", options->name, "Name as printed")->required();
    add->add_option("--role", options->roles, "A role; may be given several times")->required();
    add->add_option("--by", options->by, "Who adds (a coordinator or installer); not needed for the first");
    add->callback([options, &run] { run = [options] { return add_person(*options); }; });
    auto* left = people->add_subcommand("left", "Somebody left: the name stays, the PIN holds for nothing");
    add_data_option(*left, options->data);
    left->add_option("ID", options->id, "Who left")->required();
    left->add_option("--by", options->by, "Who enters it (a coordinator or installer)")->required();
    left->callback([options, &run] { run = [options] { return person_left(*options); }; });
    auto* pin =
        people->add_subcommand("set-pin", "Replaces a PIN by its owner; both are read from standard input");
    add_data_option(*pin, options->data);
    pin->add_option("ID", options->id, "Whose PIN")->required();
    pin->callback([options, &run] { run = [options] { return set_pin(*options); }; });
}

}  // namespace brimline::desk

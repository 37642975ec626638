// brimline import: what another clinic says of a balloon, from its FHIR document or the code of the patient's
// card, into a case as a balloon placed elsewhere. The case is there already: who the patient is, is checked
// by people, not by a file.
#include <fmt/format.h>

#include "app/desk/commands.h"
#include "app/loop/answer.h"
#include "app/loop/room.h"
#include "core/record/card_code.h"
#include "core/record/fhir_import.h"

namespace brimline::desk {
namespace {

struct Options {
    std::string file, name, by;
    std::filesystem::path data;
};

constexpr std::string_view card_begins = "BALLOON CARD";

Expected<PlacedElsewhere> placement_on_card(std::string_view text) {
    const auto facts = read_card_code(text);
    if (!facts) {
        return tl::unexpected{facts.error()};
    }
    PlacedElsewhere placed;
    placed.placed = facts->placed;
    placed.ml = facts->volume;
    if (facts->dye) {
        placed.dye = Loose{*facts->dye == Millilitres{} ? "no"
                           : facts->dye_agent.empty()   ? "yes"
                                                        : facts->dye_agent};
    }
    const auto some = [](const std::string& words) {
        return words.empty() ? std::nullopt : std::optional{words};
    };
    placed.lot = some(facts->lot);
    placed.serial = some(facts->serial);
    placed.device = some(facts->gtin);
    placed.clinic = some(facts->clinic + (facts->phone.empty() ? "" : ", " + facts->phone));
    placed.source = ElsewhereSource::card;
    return placed;
}

/// The clock of a store that only scripts have written stands where the last line put it.
EntryTime time_of(Room& room, store::Clock& clock) {
    auto time = room.now(clock);
    const auto& desk = room.loop().desk();
    if (desk.scripts_only && desk.last_seq > 0) {
        time = {desk.last_at, desk.last_at.in_us(), desk.last_boot, true};
    }
    return time;
}

int run_import(const Options& options) {
    const auto text = read_text(options.file);
    if (!text) {
        return complain(text.error().say, 2);
    }
    store::SystemClock clock;
    store::SystemChance chance;
    auto room = Room::open({options.data, std::nullopt, false}, clock, chance);
    if (!room) {
        return complain(room.error().say, room.error().exit_code);
    }
    auto placed = text->starts_with(card_begins) ? placement_on_card(*text)
                                                 : placement_in_document(*text, room->loop().zone());
    if (!placed) {
        return complain(fmt::format("{}: {} {}", options.file, placed.error().say, placed.error().next), 2);
    }
    if (room->loop().desk().find_case(options.name) == nullptr) {
        return complain(fmt::format("There is no case \"{}\"; book the removal first, then import into it.",
                                    options.name),
                        1);
    }
    const auto time = time_of(*room, clock);
    Command command;
    command.by = options.by;
    command.case_name = options.name;
    command.at = time.at;
    command.how = How::scan;
    command.sure = true;  // it is said by another clinic, so nobody can be asked
    command.says = std::move(*placed);
    const auto answer = room->run(command, time);
    fmt::print("{}\n", answer_json(answer, 0).dump());
    if (answer.result == Reply::Result::pending) {
        return complain(answer.say, 3);
    }
    return answer.refusal ? complain(fmt::format("{} {}", answer.refusal->say, answer.refusal->next), 1) : 0;
}

}  // namespace

void add_import(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command =
        app.add_subcommand("import", "A balloon placed elsewhere, from a FHIR document or a card's code");
    command->add_option("FILE", options->file, "The document, or the text of the code; - is standard input")
        ->required();
    command->add_option("--case", options->name, "The removal that it is for")->required()->type_name("CASE");
    command->add_option("--by", options->by, "Who imports it")->required()->type_name("PERSON");
    add_data_option(*command, options->data);
    command->callback([options, &run] { run = [options] { return run_import(*options); }; });
}

}  // namespace brimline::desk

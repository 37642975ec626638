// brimline backup, restore, rehearse: the journal as one encrypted file, and the proof that it comes back.
#include "core/store/backup.h"

#include <fmt/format.h>
#include <unistd.h>

#include <iostream>

#include "app/desk/commands.h"
#include "app/loop/room.h"
#include "core/store/clock.h"
#include "core/store/verify.h"

namespace brimline::desk {
namespace {

namespace fs = std::filesystem;

struct Options {
    fs::path data;
    std::string file, passphrase_file, by{"kiosk"};
};

int complain_of(const store::BackupFault& fault) {
    const bool usage = fault.kind == store::BackupFault::Kind::not_empty;
    const bool store_failed =
        fault.kind == store::BackupFault::Kind::disk || fault.kind == store::BackupFault::Kind::in_use;
    return complain(fault.say + " " + fault.next, usage ? 2 : store_failed ? 3 : 1);
}

/// The first line of the file, or of standard input when none is named.
Expected<std::string> passphrase(const Options& options) {
    std::string text;
    if (options.passphrase_file.empty()) {
        fmt::print(stderr, "Passphrase: ");
        std::getline(std::cin, text);
    } else {
        auto read = read_text(options.passphrase_file);
        if (!read) {
            return read;
        }
        text = read->substr(0, read->find_first_of("\r\n"));
    }
    if (text.empty()) {
        return tl::unexpected{
            Refusal{"out-of-range", "The passphrase is empty.", "Write it as the first line."}};
    }
    return text;
}

std::string content_words(const store::BackupContent& content) {
    return fmt::format("{} events, {} sealed records, up to entry {} of kiosk {}", content.events,
                       content.sealed, content.head.seq, content.kiosk.name);
}

int run_backup(const Options& options) {
    const auto secret = passphrase(options);
    if (!secret) {
        return complain(secret.error().say + " " + secret.error().next, 2);
    }
    const auto content = store::make_backup(options.data, options.file, *secret);
    if (!content) {
        return complain_of(content.error());
    }
    store::SystemClock clock;
    const store::LastBackup made{fs::absolute(options.file).string(), clock.utc(), content->head};
    if (store::note_backup(options.data, made) != 0) {
        complain("The backup is made, but its date could not be noted in the data folder.", 0);
    }
    fmt::print("Backup made, read back and checked: {}.\n", content_words(*content));
    return 0;
}

int run_restore(const Options& options) {
    const auto secret = passphrase(options);
    if (!secret) {
        return complain(secret.error().say + " " + secret.error().next, 2);
    }
    const auto content = store::restore_backup(options.file, options.data, *secret);
    if (!content) {
        return complain_of(content.error());
    }
    fmt::print("Restored as a new kiosk: {}.\n", content_words(*content));
    return 0;
}

/// What of the backup the live journal lacks or has otherwise; empty when all of it is there.
std::string difference(const std::vector<store::StoredEvent>& restored,
                       const std::vector<store::StoredEvent>& live) {
    std::map<std::pair<store::Id16, std::int64_t>, store::Hash32> there;
    for (const auto& event : live) {
        there[{event.kiosk_id, event.seq}] = event.hash;
    }
    for (const auto& event : restored) {
        const auto found = there.find({event.kiosk_id, event.seq});
        if (found == there.end() || found->second != event.hash) {
            return fmt::format("Entry {} of the backup is {} in the live journal.", event.seq,
                               found == there.end() ? "missing" : "another one");
        }
    }
    return "";
}

/// A folder of its own inside the data folder, gone again whatever happens.
struct Scratch {
    fs::path folder;
    explicit Scratch(const fs::path& data)
        : folder{data / "backup" / fmt::format("rehearsal-{}", ::getpid())} {
        std::error_code ignored;
        fs::create_directories(folder.parent_path(), ignored);
        fs::permissions(folder.parent_path(), fs::perms::owner_all, ignored);
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch() {
        std::error_code ignored;
        fs::remove_all(folder, ignored);
    }
};

struct Compared {
    std::string wrong;  // empty = every event is there, hash by hash
    std::size_t events{0}, newer{0};
};

tl::expected<Compared, store::BackupFault> compare(const Options& options, const std::string& secret,
                                                   store::Journal& live) {
    const Scratch scratch{options.data};
    const auto content = store::restore_backup(options.file, scratch.folder, secret);
    if (!content) {
        return tl::unexpected{content.error()};
    }
    auto restored = store::Journal::open(scratch.folder, store::Mode::read_only);
    if (!restored || !restored->damage().empty()) {
        return tl::unexpected{store::BackupFault{store::BackupFault::Kind::damaged,
                                                 "The restored journal cannot be read.",
                                                 "Use another backup."}};
    }
    const auto kept = restored->events(0, 0).rows;
    const auto now = live.events(0, 0).rows;
    return Compared{difference(kept, now), kept.size(), now.size() - std::min(now.size(), kept.size())};
}

int run_rehearse(const Options& options) {
    const auto secret = passphrase(options);
    if (!secret) {
        return complain(secret.error().say + " " + secret.error().next, 2);
    }
    store::SystemClock clock;
    store::SystemChance chance;
    auto room = Room::open({options.data, std::nullopt, false}, clock, chance);
    if (!room) {
        return complain(room.error().say, room.error().exit_code);
    }
    const auto compared = compare(options, *secret, room->journal());
    if (!compared) {
        return complain_of(compared.error());
    }
    const bool same = compared->wrong.empty();
    const auto noted = room->note(Event{Rehearsed{fs::path{options.file}.filename().string(),
                                                  static_cast<int>(compared->events), same}},
                                  room->now(clock));
    if (noted.result != Reply::Result::recorded) {
        return complain("The result could not be saved: " + noted.say, 3);
    }
    if (!same) {
        return complain(compared->wrong + " Keep both; call for help.", 1);
    }
    fmt::print(
        "The backup comes back: {} events, each as in the live journal; {} newer ones are not in it.\n",
        compared->events, compared->newer);
    return 0;
}

CLI::App* add_one(CLI::App& app, const char* name, const char* what,
                  const std::shared_ptr<Options>& options) {
    auto* command = app.add_subcommand(name, what);
    command->add_option("FILE", options->file, "The backup")->required();
    add_data_option(*command, options->data);
    command->add_option("--passphrase-file", options->passphrase_file,
                        "Its first line; else standard input is read");
    return command;
}

}  // namespace

void add_backup(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    add_one(app, "backup", "An encrypted copy of the journal, checked before it counts", options)
        ->callback([options, &run] { run = [options] { return run_backup(*options); }; });
    add_one(app, "restore", "Brings a backup back into an empty folder, as a new kiosk", options)
        ->callback([options, &run] { run = [options] { return run_restore(*options); }; });
    add_one(app, "rehearse", "Restores a backup to a scratch folder and compares it with the live journal",
            options)
        ->callback([options, &run] { run = [options] { return run_rehearse(*options); }; });
}

}  // namespace brimline::desk

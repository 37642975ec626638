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
    std::string file, passphrase_file, key_file, to, key, by;
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

/// What opens the backup: the passphrase, or the key in --key that the passphrase opens.
tl::expected<store::BackupSecret, int> secret_of(const Options& options) {
    const auto words = passphrase(options);
    if (!words) {
        return tl::unexpected{complain(words.error().say + " " + words.error().next, 2)};
    }
    if (options.key_file.empty()) {
        return store::BackupSecret{*words};
    }
    const auto key = store::read_backup_key(options.key_file, *words);
    if (!key) {
        return tl::unexpected{complain_of(key.error())};
    }
    return store::BackupSecret{*key};
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
    const auto secret = secret_of(options);
    if (!secret) {
        return secret.error();
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

tl::expected<Compared, store::BackupFault> compare(const Options& options, const store::BackupSecret& secret,
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
    const auto secret = secret_of(options);
    if (!secret) {
        return secret.error();
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

int run_new_key(const Options& options) {
    const auto words = passphrase(options);
    if (!words) {
        return complain(words.error().say + " " + words.error().next, 2);
    }
    const auto open = store::make_backup_key(options.file, *words);
    if (!open) {
        return complain_of(open.error());
    }
    fmt::print("{}\n", store::hex(*open));
    complain("This is the public half, for brimline backup-plan --key. Keep the file off the tablet.", 0);
    return 0;
}

int run_plan(const Options& options) {
    if (!options.to.empty() && !store::hash_from_hex(options.key)) {
        return complain("--key: the 64 digits that brimline backup-key printed are needed.", 2);
    }
    if (!options.to.empty() && !fs::path{options.to}.is_absolute()) {
        return complain(
            fmt::format("--to {}: the folder is named from the root, as /media/backup.", options.to), 2);
    }
    store::SystemClock clock;
    store::SystemChance chance;
    auto room = Room::open({options.data, std::nullopt, false}, clock, chance);
    if (!room) {
        return complain(room.error().say, room.error().exit_code);
    }
    if (!keeps_the_kiosk(room->loop().desk(), options.by)) {
        return complain("The plan of backups is changed by a coordinator or an installer: --by ID.", 1);
    }
    const auto noted = room->note(Event{BackupPlanned{options.to, options.to.empty() ? "" : options.key}},
                                  room->now(clock), options.by);
    return noted.result == Reply::Result::recorded ? 0 : complain(noted.say, 3);
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
    auto* restore =
        add_one(app, "restore", "Brings a backup back into an empty folder, as a new kiosk", options);
    restore->add_option("--key", options->key_file, "File of the key that it was sealed to");
    restore->callback([options, &run] { run = [options] { return run_restore(*options); }; });
    auto* rehearse =
        add_one(app, "rehearse",
                "Restores a backup to a scratch folder and compares it with the live journal", options);
    rehearse->add_option("--key", options->key_file, "File of the key that it was sealed to");
    rehearse->callback([options, &run] { run = [options] { return run_rehearse(*options); }; });
    auto* key =
        app.add_subcommand("backup-key", "Makes a key that opens backups, for a place off the tablet");
    key->add_option("FILE", options->file, "Where its secret half goes, under a passphrase")->required();
    key->add_option("--passphrase-file", options->passphrase_file,
                    "Its first line; else standard input is read");
    key->callback([options, &run] { run = [options] { return run_new_key(*options); }; });
    auto* plan = app.add_subcommand("backup-plan",
                                    "Where the running kiosk puts backups, and the key that seals them");
    add_data_option(*plan, options->data);
    plan->add_option("--to", options->to, "Folder, stick or share; without it the kiosk makes none")
        ->type_name("DIR");
    plan->add_option("--key", options->key, "Public half that brimline backup-key printed");
    plan->add_option("--by", options->by, "Who changes it (a coordinator or installer)")->required();
    plan->callback([options, &run] { run = [options] { return run_plan(*options); }; });
}

}  // namespace brimline::desk

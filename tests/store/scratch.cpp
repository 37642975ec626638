// A folder of a test's own, gone when the test ends.
#include "tests/store/scratch.h"

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "core/store/ids.h"
#include "tests/catch.h"

namespace brimline::store::scratch {

namespace fs = std::filesystem;

Place::Place() : path_{fs::temp_directory_path() / ("brimline-" + hex(SystemChance{}.id()))} {
    fs::create_directory(path_);
}

Place::~Place() {
    std::error_code ignored;
    fs::permissions(data(), fs::perms::owner_all, ignored);
    fs::remove_all(path_, ignored);
}

Id16 case_of(int n) {
    Id16 id{};
    id[0] = 0xca;
    id[15] = static_cast<std::uint8_t>(n);
    return id;
}

Id16 command_of(std::uint64_t n) { return CountedChance{n - 1}.id(); }

NewEvent event(int case_number, std::string_view kind, std::string_view words) {
    NewEvent event;
    event.case_id = case_of(case_number);
    event.utc = Instant::of_us(1'800'000'000'000'000);
    event.tick_us = 5'000'000;
    event.boot[0] = 7;
    event.person = "mina";
    event.role = "assistant";
    event.policy[0] = 9;
    event.kind = kind;
    event.payload = "{\"ml\":\"50\",\"words\":\"" + std::string{words} + "\"}";
    return event;
}

Batch one(std::uint64_t command, int case_number, std::string_view words) {
    Batch batch;
    batch.command = command_of(command);
    batch.events = {event(case_number, "syringe-in", words)};
    return batch;
}

Journal writing(const fs::path& folder) {
    auto journal = Journal::open(folder, Mode::read_write);
    if (!journal) {
        FAIL("not opened: " << journal.error().say);
    }
    INFO(journal->why_read_only());
    REQUIRE_FALSE(journal->read_only());
    return std::move(*journal);
}

Receipt put(Journal& journal, const Batch& batch) {
    auto receipt = journal.append(batch);
    if (!receipt) {
        FAIL("not appended: " << receipt.error().say);
    }
    return *receipt;
}

std::string sql(const fs::path& folder, const std::string& text) {
    auto db = Database::open("file:" + (folder / "brimline.db").string(), SQLITE_OPEN_READWRITE);
    if (!db) {
        return db.error().text;
    }
    const auto done = db->run(text.c_str());
    return done ? std::string{} : done.error().text;
}

void tamper(const fs::path& folder, const std::string& text) {
    std::string triggers;
    {
        auto db = Database::open("file:" + (folder / "brimline.db").string(), SQLITE_OPEN_READWRITE);
        REQUIRE(db.has_value());
        Statement rows = db->prepare("SELECT sql || ';' FROM sqlite_schema WHERE type = 'trigger'");
        while (rows.next()) {
            triggers += rows.text(0).value();
        }
    }
    const std::string drop =
        "DROP TRIGGER journal_next; DROP TRIGGER journal_no_update; DROP TRIGGER journal_no_delete;"
        "DROP TRIGGER sealed_no_update; DROP TRIGGER sealed_no_delete;"
        "DROP TRIGGER sign_key_no_update; DROP TRIGGER sign_key_no_delete;";
    REQUIRE(sql(folder, drop + text + ";" + triggers).empty());
}

std::string read_whole(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    std::ostringstream all;
    all << in.rdbuf();
    return all.str();
}

void write_whole(const fs::path& file, const std::string& bytes) {
    std::ofstream out{file, std::ios::binary | std::ios::trunc};
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    REQUIRE(out.good());
}

std::map<std::string, std::string> picture(const fs::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::directory_iterator{folder}) {
        const auto time = fs::last_write_time(entry).time_since_epoch().count();
        files[entry.path().filename().string()] = std::to_string(time) + " " + read_whole(entry.path());
    }
    return files;
}

int in_child(const std::function<int()>& work) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        ::_exit(work());
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

void leave_with_log(const fs::path& folder, int events) {
    const int code = in_child([&] {
        auto journal = Journal::open(folder, Mode::read_write);
        if (!journal) {
            return 1;
        }
        for (int i = 1; i <= events; ++i) {
            if (!journal->append(one(static_cast<std::uint64_t>(i), 1 + i % 3, std::to_string(i)))) {
                return 2;
            }
        }
        ::_exit(0);  // nothing is closed
    });
    REQUIRE(code == 0);
    REQUIRE(fs::exists(folder / "brimline.db-wal"));
}

void become_ordinary() {
    if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) {
        ::_exit(99);
    }
}

std::string verified(const fs::path& folder, const VerifyOptions& options) {
    const auto report = verify(folder, options);
    if (!report) {
        return "OPEN: " + report.error().say + "\n";
    }
    std::string text;
    for (const Finding& finding : report->findings) {
        text += finding.sentence + "\n";
    }
    return text;
}

}  // namespace brimline::store::scratch

// Damage to the store: the kiosk opens for reading, says so on every page, refuses with one sentence, and
// what is there can still be read and exported. 7-journal, promises 5 and 7.
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <sstream>

#include "core/store/sqlite.h"
#include "core/store/verify.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace fs = std::filesystem;

namespace {

using Faults = std::vector<std::string>;
constexpr const char* noon = "2026-11-25T09:42:30+00:00";
constexpr const char* banner = "Reading only. Nothing is saved: use paper";

std::string read_whole(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    std::ostringstream all;
    all << in.rdbuf();
    return all.str();
}
void write_whole(const fs::path& file, const std::string& bytes) {
    fs::permissions(file, fs::perms(0600), fs::perm_options::add);
    std::ofstream{file, std::ios::binary | std::ios::trunc} << bytes;
}
void sql(const fs::path& folder, const char* text) {
    auto db = store::Database::open("file:" + (folder / "brimline.db").string(), SQLITE_OPEN_READWRITE);
    REQUIRE(db.has_value());
    REQUIRE(db->run(text));
}

/// A bed whose kiosk is closed, so that its folder may be damaged, and opened again.
struct Closed {
    KioskBed bed{{.until = noon, .scripts = {"case-a"}}};
    std::string error;

    Closed() { close(); }
    void close() {
        bed.glass.reset();
        bed.kiosk.reset();
        bed.room.reset();
    }
    [[nodiscard]] const fs::path& folder() const { return bed.folder.path(); }
    void open() {
        LiveRoom::Options options;
        options.room = {folder(), std::nullopt, false};
        auto opened = LiveRoom::open(std::move(options), bed.clock, bed.chance);
        if (!opened) {
            error = opened.error().say;
            return;
        }
        bed.room = std::move(*opened);
        bed.kiosk = std::make_unique<screens::Kiosk>(*bed.room);
        bed.glass = std::make_unique<touch::Headless>(*bed.kiosk, english());
        bed.glass->frame();
    }
    /// Every page shows the banner and keeps its promises; a command is refused with one sentence.
    void check_reading_only(bool with_case = true) {
        open();
        REQUIRE(error == "");
        CHECK_FALSE(bed.room->read_only().empty());
        for (const Page page :
             {Page::sign_in, Page::day_list, Page::kiosk, Page::records, Page::fill, Page::size}) {
            bed.kiosk->open("tomas", with_case ? "A" : "", page);
            bed.glass->frame();
            CHECK(bed.glass->text_of("reading-only") == banner);
        }
        bed.picture("reading-only");
        CHECK(bed.glass->faults() == Faults{});
        Command command;
        command.by = "tomas";
        command.case_name = "A";
        command.says = SyringeIn{};
        const auto reply = bed.room->say(command);
        REQUIRE(reply.refusal.has_value());
        CHECK(reply.refusal->code == "read-only");
        CHECK(reply.refusal->say == "Nothing is recorded: the journal can only be read.");
        CHECK_FALSE(bed.room->poll());
    }
    /// What verify says, one sentence a line.
    [[nodiscard]] std::string verified() const {
        const auto report = store::verify(folder());
        std::string text = report ? "" : "OPEN: " + report.error().say;
        for (const auto& finding : report ? report->findings : std::vector<store::Finding>{}) {
            text += finding.sentence + "\n";
        }
        return text;
    }
    /// How many events a reader still gets.
    [[nodiscard]] std::size_t exported() const {
        const auto reading = read_store(folder());
        return reading ? reading->rows.size() : 0;
    }
};

bool says(const std::string& text, const std::string& part) {
    INFO(text);
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("an older copy of the data file: events are missing, and the kiosk only reads", "[read-only]") {
    Closed c;
    const auto older = read_whole(c.folder() / "brimline.db");
    const auto events = c.exported();
    c.open();
    static_cast<void>(c.bed.room->sign_in("tomas", "000000"));  // a wrong try is an entry
    REQUIRE(c.bed.room->wait_until_saved(std::chrono::seconds{5}));
    c.close();
    REQUIRE(c.exported() > events);
    write_whole(c.folder() / "brimline.db", older);
    CHECK(says(c.verified(), "Acknowledged events are missing"));
    CHECK(c.exported() == events);
    c.check_reading_only();
    CHECK(c.bed.glass->shows("150 mL") == false);  // nothing made up: the page stands as the file says
}

TEST_CASE("an older copy of the mark: the event it names is there, and the next start goes on",
          "[read-only]") {
    Closed c;
    const auto older = read_whole(c.folder() / "brimline.mark");
    c.open();
    static_cast<void>(c.bed.room->sign_in("tomas", "000000"));  // a wrong try is an entry
    REQUIRE(c.bed.room->wait_until_saved(std::chrono::seconds{5}));
    c.close();
    write_whole(c.folder() / "brimline.mark", older);
    CHECK(c.verified().empty());
    c.open();
    CHECK(c.bed.room->read_only().empty());
}

TEST_CASE("a newer version of the file is read, never written", "[read-only]") {
    Closed c;
    sql(c.folder(), "PRAGMA user_version=99");
    const auto before = read_whole(c.folder() / "brimline.db");
    CHECK(says(c.verified(), "a newer version of Brimline wrote it"));
    CHECK(c.exported() > 90);
    c.check_reading_only();
    CHECK(says(c.bed.room->read_only(), "written by a newer version of Brimline"));
    c.close();
    CHECK(read_whole(c.folder() / "brimline.db") == before);
}

TEST_CASE("a missing mark and one of another store are told, and the kiosk only reads", "[read-only]") {
    const bool foreign = GENERATE(false, true);
    Closed c;
    const auto all = c.exported();
    if (foreign) {
        const KioskBed other{{.until = noon, .scripts = {"case-a"}}};
        fs::copy_file(other.folder.path() / "brimline.mark", c.folder() / "brimline.mark",
                      fs::copy_options::overwrite_existing);
        CHECK(says(c.verified(), "is not the event that was acknowledged"));
    } else {
        fs::remove(c.folder() / "brimline.mark");
        CHECK(says(c.verified(), "Acknowledged events may be missing: brimline.mark"));
    }
    CHECK(c.exported() == all);
    c.check_reading_only();
    c.close();
    CHECK(fs::exists(c.folder() / "brimline.mark") == foreign);  // nothing repaired itself
}

TEST_CASE("a data file that was cut is told wherever it was cut, and nothing crashes", "[read-only]") {
    Closed c;
    const auto whole = read_whole(c.folder() / "brimline.db");
    for (const std::size_t left : {whole.size() - 1, whole.size() - 4096, whole.size() / 2, std::size_t{4096},
                                   std::size_t{100}, std::size_t{1}, std::size_t{0}}) {
        INFO("left " << left);
        write_whole(c.folder() / "brimline.db", whole.substr(0, left));
        CHECK_FALSE(c.verified().empty());
        static_cast<void>(c.exported());
        c.check_reading_only(false);
        c.close();
        CHECK(fs::file_size(c.folder() / "brimline.db") == left);
    }
}

TEST_CASE("a data file that is gone leaves a kiosk that says so on every page", "[read-only]") {
    Closed c;
    fs::remove(c.folder() / "brimline.db");
    CHECK(says(c.verified(), "The journal brimline.db is missing in a folder that held one."));
    c.check_reading_only(false);
    CHECK(says(c.bed.room->read_only(), "is missing"));
    c.bed.kiosk->open("", "", Page::kiosk);
    c.bed.glass->frame();
    CHECK(says(c.bed.glass->text_of("check/store/says"), "The journal brimline.db is missing"));
}

TEST_CASE("a log that is gone takes its events with it, and that is told", "[read-only]") {
    Closed c;
    const auto folder = c.folder();
    const pid_t child = ::fork();
    if (child == 0) {
        auto journal = store::Journal::open(folder, store::Mode::read_write);
        store::Batch batch;
        batch.command[0] = 77;
        batch.events = {{.case_id = journal->kiosk().id,
                         .utc = Instant::of_us(1),
                         .person = "kiosk",
                         .role = "kiosk",
                         .kind = "clock-jump",
                         .payload = R"({"by_ms":5})"}};
        ::_exit(journal->append(batch) ? 0 : 1);  // nothing is closed
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(status == 0);
    REQUIRE(fs::file_size(folder / "brimline.db-wal") > 0);
    fs::remove(folder / "brimline.db-wal");
    CHECK(says(c.verified(), "Acknowledged events are missing"));
    CHECK(c.exported() > 90);
    c.check_reading_only();
}

TEST_CASE("an event changed through SQL with the triggers off is named, and the kiosk only reads",
          "[read-only]") {
    Closed c;
    const auto all = c.exported();
    sql(c.folder(),
        "DROP TRIGGER journal_no_update; UPDATE journal SET payload = replace(payload, '50', '60') WHERE "
        "kind = "
        "'syringe-in'; CREATE TRIGGER journal_no_update BEFORE UPDATE ON journal\n"
        "  BEGIN SELECT RAISE(ABORT, 'journal: append only'); END;");
    CHECK(says(c.verified(), "syringe-in) was changed after it was written"));
    CHECK(c.exported() == all);
    c.check_reading_only();
}

TEST_CASE("a trigger that is gone is named", "[read-only]") {
    Closed c;
    sql(c.folder(), "DROP TRIGGER journal_no_delete");
    CHECK(says(c.verified(), "The trigger journal_no_delete is missing in brimline.db."));
    c.check_reading_only();
}

TEST_CASE("a folder that may not be written is read, and a PIN still signs in to look", "[read-only]") {
    Closed c;
    for (const auto& entry : fs::directory_iterator{c.folder()}) {
        REQUIRE(::chown(entry.path().c_str(), 65534, 65534) == 0);
    }
    REQUIRE(::chown(c.folder().c_str(), 65534, 65534) == 0);
    fs::permissions(c.folder(), fs::perms(0500));
    for (const char* name : {"brimline.db", "brimline.mark", "brimline.lock"}) {
        fs::permissions(c.folder() / name, fs::perms(0400));
    }
    const pid_t child = ::fork();  // one without root, for whom permissions count
    if (child == 0) {
        if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) {
            ::_exit(90);
        }
        c.open();
        if (!c.error.empty() || c.bed.room->read_only().empty()) {
            ::_exit(91);
        }
        c.bed.kiosk->open("tomas", "A", Page::fill);
        c.bed.glass->frame();
        const bool told = c.bed.glass->text_of("reading-only") == banner;
        const auto wrong = c.bed.room->sign_in("tomas", "000000");
        const auto right = c.bed.room->sign_in("tomas", "625083");
        const bool judged = wrong && std::holds_alternative<store::PinWrong>(*wrong) && right &&
                            std::holds_alternative<store::PinRight>(*right);
        ::_exit(!told ? 92 : !judged ? 93 : c.exported() > 90 ? 0 : 94);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WEXITSTATUS(status) == 0);
    fs::permissions(c.folder(), fs::perms(0700));
}

TEST_CASE("a second kiosk on the same folder says so and does not open", "[read-only]") {
    KioskBed bed{{.until = noon}};
    store::SystemChance chance;
    store::SetClock clock{Instant::of_us(1'800'000'000'000'000)};
    LiveRoom::Options options;
    options.room = {bed.folder.path(), std::nullopt, false};
    const auto second = LiveRoom::open(std::move(options), clock, chance);
    REQUIRE_FALSE(second.has_value());
    CHECK(says(second.error().say, "Brimline is already open on this tablet."));
    CHECK(second.error().exit_code == 3);
}

TEST_CASE("a wrong PIN at the sign-in is an entry, a right one is not", "[read-only][sign-in]") {
    KioskBed bed{{.until = noon}};
    const auto before = bed.room->desk().last_seq;
    CHECK(bed.room->sign_in("tomas", "625083").has_value());
    bed.settle();
    CHECK(bed.room->desk().last_seq == before);
    CHECK(bed.room->sign_in("tomas", "000000").has_value());
    bed.settle();
    CHECK(bed.room->desk().last_seq == before + 1);
    bed.glass.reset();
    bed.kiosk.reset();
    bed.room.reset();
    const auto rows = read_store(bed.folder.path())->rows;
    CHECK(rows.back().kind == "attempt");
    CHECK(says(rows.back().payload, "pin-wrong"));
    CHECK(rows.back().payload.find("000000") == std::string::npos);
}

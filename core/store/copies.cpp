// Making the copies of a running kiosk.
#include "core/store/copies.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <ctime>
#include <future>

#include "core/store/backup_inside.h"
#include "core/store/clock.h"
#include "core/store/connection.h"
#include "core/store/small_file.h"

namespace brimline::store {
namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;

constexpr int pages_at_once = 64;  // 256 KiB: far below a millisecond in memory, one frame at the very worst
constexpr const char* fresh_name = "copy.new";
constexpr const char* failed_name = "failed";

/// What became of a copy that was checked, and of the backup made of it.
struct Checked {
    std::string wrong;   // the copy is not usable
    std::string failed;  // the backup did not succeed
    Head head;           // of the copy
    bool backed_up{false};
};

std::string name_of_backup(const Kiosk& kiosk) {
    return "brimline-" + hex(kiosk.id).substr(0, 8) + ".backup";
}

/// Seals the copy into the plan's folder; empty when done.
std::string seal_into(const BackupPlan& plan, const fs::path& copy, const fs::path& data,
                      const BackupContent& content, Instant at) {
    std::error_code ignored;
    if (!fs::is_directory(plan.folder, ignored)) {
        return "The folder " + plan.folder.string() + " is not there.";
    }
    const auto image = read_file(copy, most_backup_bytes);
    if (!image) {
        return "The copy cannot be read: " + words_for_errno(image.error()) + ".";
    }
    const auto vault = lock_vault_to(*image, plan.key);
    if (!vault) {
        return backup_fault(vault.error()).say;
    }
    const auto file = plan.folder / name_of_backup(content.kiosk);
    if (const auto wrong = put_in_place(file, *vault)) {
        return wrong->say;
    }
    const int noted = note_backup(data, {file.string(), at, content.head});
    return noted == 0
               ? ""
               : "The backup is made, but its date could not be noted: " + words_for_errno(noted) + ".";
}

void note_failure(const fs::path& data, const std::string& say, Instant at) {
    const auto where = data / "backup";
    static_cast<void>(::unlink((where / failed_name).c_str()));
    if (!say.empty()) {
        static_cast<void>(::mkdir(where.c_str(), 0700));
        static_cast<void>(write_new_file(where / failed_name, std::to_string(at.in_us()) + " " + say, 0600));
    }
}

/// On a thread of its own: checks the copy, gives it its name, and seals a backup from it.
Checked check(const fs::path& data, const std::optional<BackupPlan>& plan, bool reading, Instant at) {
    Checked result;
    const auto fresh = reading_folder(data) / fresh_name;
    {
        auto db = Database::open(uri_of(fresh, "?immutable=1"), SQLITE_OPEN_READONLY);
        const auto content =
            db ? check_content(*db)
               : tl::unexpected{BackupFault{BackupFault::Kind::damaged, words_for(db.error()), ""}};
        if (!content) {
            result.wrong = content.error().say;
            return result;
        }
        result.head = content->head;
        if (plan) {
            result.failed = seal_into(*plan, fresh, data, *content, at);
            result.backed_up = result.failed.empty();
            note_failure(data, result.failed, at);
        }
    }
    const auto named = reading_folder(data) / file_name;
    if (!reading) {
        static_cast<void>(::unlink(fresh.c_str()));
    } else if (::rename(fresh.c_str(), named.c_str()) != 0) {
        result.wrong = words_for_errno(errno);
    }
    return result;
}

}  // namespace

fs::path reading_folder(const fs::path& data) { return data / "reading"; }

std::string failing_backup(const fs::path& data) {
    constexpr std::size_t most = 4096;
    const auto text = read_file(data / "backup" / failed_name, most);
    return text && text->find(' ') != std::string::npos ? text->substr(text->find(' ') + 1) : "";
}

struct Copies::Inside {
    enum class Doing { nothing, copying, checking };

    Inside(Journal& the_journal, CopyOptions the_options)
        : journal{the_journal}, options{std::move(the_options)}, data{journal.folder()} {
        if (!options.utc) {
            options.utc = [] { return SystemClock{}.utc(); };
        }
        std::error_code ignored;
        fs::remove_all(reading_folder(data), ignored);  // of an earlier run
        if (options.reading || options.plan) {
            static_cast<void>(::mkdir(reading_folder(data).c_str(), 0700));
        }
        if (const auto last = last_backup(data)) {
            backed_up = last->head;
        }
    }

    Journal& journal;
    CopyOptions options;
    fs::path data;
    Doing doing{Doing::nothing};
    bool sealing{false};  // the copy under way becomes a backup too
    std::future<Checked> checked;
    Head copied, backed_up;         // what the copy and the last backup hold
    std::optional<Moment> changed;  // first entry that the copy lacks; empty when it lacks none
    std::optional<Moment> last_entry;
    std::optional<Moment> not_before;  // after a failure
    bool never{true};                  // no copy was made in this run

    [[nodiscard]] bool copy_due(Moment now, bool resting) const {
        if (!options.reading || (not_before && now < *not_before)) {
            return false;
        }
        return never || (changed && (resting || now - *changed >= options.oldest));
    }
    [[nodiscard]] bool backup_due(Moment now) {
        const bool quiet = !last_entry || now - *last_entry >= options.quiet;
        return options.plan && quiet && !(not_before && now < *not_before) && lacks_backup();
    }
    [[nodiscard]] bool lacks_backup() {
        const auto head = journal.head();
        return options.plan && head && head->seq > 0 && *head != backed_up;
    }
    void fail(Moment now) { not_before = now + options.again; }

    bool begin(Moment now, bool resting) {
        sealing = backup_due(now);
        if (!sealing && !copy_due(now, resting)) {
            return false;
        }
        if (!journal.begin_copy(reading_folder(data) / fresh_name)) {
            fail(now);
            return false;
        }
        doing = Doing::copying;
        return true;
    }
    bool go_on(Moment now) {
        const auto whole = journal.copy_some(pages_at_once);
        if (!whole) {
            doing = Doing::nothing;
            fail(now);
            return false;
        }
        if (*whole) {
            doing = Doing::checking;
            changed.reset();
            never = false;
            checked = std::async(std::launch::async, check, data, sealing ? options.plan : std::nullopt,
                                 options.reading, options.utc());
        }
        return true;
    }
    bool settle(Moment now, bool wait) {
        if (!wait && checked.wait_for(0s) != std::future_status::ready) {
            return false;
        }
        const auto result = checked.get();
        doing = Doing::nothing;
        if (result.wrong.empty()) {
            copied = result.head;
        }
        if (result.backed_up) {
            backed_up = result.head;
        }
        if (!result.wrong.empty() || !result.failed.empty()) {
            fail(now);
        }
        return true;
    }
};

Copies::Copies(Journal& journal, CopyOptions options)
    : inside_{std::make_unique<Inside>(journal, std::move(options))} {}
Copies::~Copies() = default;

void Copies::entered(Moment now) {
    inside_->last_entry = now;
    inside_->changed = inside_->changed.value_or(now);
}

bool Copies::work(Moment now, bool resting) {
    switch (inside_->doing) {
        case Inside::Doing::nothing:
            return inside_->begin(now, resting);
        case Inside::Doing::copying:
            return inside_->go_on(now);
        case Inside::Doing::checking:
            return inside_->settle(now, false);
    }
    return false;
}

std::optional<Copies::Moment> Copies::wake() const {
    const Inside& s = *inside_;
    if (s.doing != Inside::Doing::nothing) {
        return std::chrono::steady_clock::now() + 20ms;
    }
    std::optional<Moment> soonest;
    const auto consider = [&](Moment when) {
        when = s.not_before ? std::max(when, *s.not_before) : when;
        soonest = soonest ? std::min(*soonest, when) : when;
    };
    if (s.options.reading && (s.never || s.changed)) {
        consider(s.changed ? *s.changed + s.options.oldest : Moment{});
    }
    if (s.options.plan && inside_->lacks_backup()) {
        consider(s.last_entry ? *s.last_entry + s.options.quiet : Moment{});
    }
    return soonest;
}

void Copies::finish() {
    const auto now = std::chrono::steady_clock::now();
    while (inside_->doing == Inside::Doing::copying && inside_->go_on(now)) {
    }
    if (inside_->doing == Inside::Doing::checking) {
        static_cast<void>(inside_->settle(now, true));
    }
    if (inside_->lacks_backup()) {  // the day ends with the program
        inside_->sealing = true;
        if (inside_->journal.begin_copy(reading_folder(inside_->data) / fresh_name)) {
            inside_->doing = Inside::Doing::copying;
            while (inside_->doing == Inside::Doing::copying && inside_->go_on(now)) {
            }
            if (inside_->doing == Inside::Doing::checking) {
                static_cast<void>(inside_->settle(now, true));
            }
        }
    }
    std::error_code ignored;
    fs::remove_all(reading_folder(inside_->data), ignored);
}

}  // namespace brimline::store

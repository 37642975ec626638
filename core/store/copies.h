// Copies that the running kiosk makes of its own journal, a few pages at a time between two entries: one that
// the reading commands look at while the kiosk holds the store, and backups in a folder that the clinic
// named, sealed to a key that the tablet cannot open. Checking and sealing run on a thread of their own, on
// the copy.
#pragma once
#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "core/store/ids.h"
#include "core/store/journal.h"

namespace brimline::store {

/// Where backups go, and the public key that seals them.
struct BackupPlan {
    std::filesystem::path folder;
    Key32 key{};
    bool operator==(const BackupPlan&) const = default;
};

struct CopyOptions {
    bool reading{false};  // keep a copy for the reading commands
    std::optional<BackupPlan> plan{};
    std::chrono::milliseconds oldest{
        45'000};  // a copy that lacks entries is at most this old, and then made anew
    std::chrono::milliseconds quiet{600'000};  // a backup is made when nothing was entered for this long
    std::chrono::milliseconds again{300'000};  // after a target failed
    std::function<Instant()> utc{};  // the moment that a backup is dated with; the system's when empty
};

/// The folder inside the data folder that holds the copy.
[[nodiscard]] std::filesystem::path reading_folder(const std::filesystem::path& data);
/// Why the last backup by the kiosk did not succeed, with its moment; empty when the last one did.
[[nodiscard]] std::string failing_backup(const std::filesystem::path& data);

/// Used by the thread that owns the journal, and by it alone.
class Copies {
public:
    using Moment = std::chrono::steady_clock::time_point;
    Copies(Journal& journal, CopyOptions options);
    Copies(const Copies&) = delete;
    Copies& operator=(const Copies&) = delete;
    ~Copies();  // waits for a check that is under way

    /// Something was entered.
    void entered(Moment now);
    /// One small piece of work; false when there is none before wake(). `resting` = nothing waits to be
    /// saved.
    bool work(Moment now, bool resting);
    /// When there may be work again.
    [[nodiscard]] std::optional<Moment> wake() const;
    /// The program ends: what is under way is finished, and a backup that is due is made.
    void finish();

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

}  // namespace brimline::store

// What the tests of the store stand on: a data folder that is removed at the end, events made from a word, a
// second way to the file by plain SQL, and a child process that can be left to die.
#pragma once
#include <sys/types.h>

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <string_view>

#include "core/store/journal.h"
#include "core/store/sqlite.h"
#include "core/store/verify.h"

namespace brimline::store::scratch {

/// A new, empty place under the system's temporary folder; removed with everything in it.
class Place {
public:
    Place();
    ~Place();
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] std::filesystem::path data() const { return path_ / "data"; }

private:
    std::filesystem::path path_;
};

/// Case 1, 2, 3 … as ids.
[[nodiscard]] Id16 case_of(int n);
/// A syringe of a case, with `words` in its payload.
[[nodiscard]] NewEvent event(int case_number, std::string_view kind, std::string_view words = "");
/// One command of one event.
[[nodiscard]] Batch one(std::uint64_t command, int case_number, std::string_view words = "");
[[nodiscard]] Id16 command_of(std::uint64_t n);

/// Opens for writing and requires that it does write.
[[nodiscard]] Journal writing(const std::filesystem::path& folder);
/// Appends and requires that it was acknowledged.
Receipt put(Journal& journal, const Batch& batch);
/// Runs SQL on the file past the journal; every guard of the connection is off. Gives SQLite's words, empty
/// when done.
std::string sql(const std::filesystem::path& folder, const std::string& text);
/// As sql(), with the append-only triggers out of the way and put back as they were.
void tamper(const std::filesystem::path& folder, const std::string& text);

/// Names, contents and times of every file in the folder.
[[nodiscard]] std::map<std::string, std::string> picture(const std::filesystem::path& folder);
[[nodiscard]] std::string read_whole(const std::filesystem::path& file);
void write_whole(const std::filesystem::path& file, const std::string& bytes);

/// Runs `work` in a child process that ends without closing anything; gives its exit code, or minus the
/// signal.
int in_child(const std::function<int()>& work);
/// Makes a store of `events` one-event commands whose log is still beside the file, as after a power cut.
void leave_with_log(const std::filesystem::path& folder, int events);
/// This process gives up root, if it has it, so that permissions count.
void become_ordinary();

/// Every finding of verify, one sentence a line; "OPEN: …" when it could not look.
[[nodiscard]] std::string verified(const std::filesystem::path& folder, const VerifyOptions& options = {});

}  // namespace brimline::store::scratch

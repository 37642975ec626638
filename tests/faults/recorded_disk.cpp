// Recording a run.
#include "tests/faults/recorded_disk.h"

#include <sqlite3.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <array>
#include <new>

#include "tests/catch.h"

namespace brimline::store::faults {
namespace {

struct State {
    sqlite3_vfs* real{nullptr};
    sqlite3_vfs ours{};
    bool on{false};
    std::vector<Step> steps;
    std::string mark;
};
State state;  // one at a time: SQLite's list of file systems is the process's own

struct File {
    sqlite3_file base;
    sqlite3_file* real;
    std::string* name;
};

std::string name_in(const char* path) {
    const std::string whole{path == nullptr ? "" : path};
    return whole.substr(whole.rfind('/') + 1);
}
void note(Step step) {
    if (state.on) {
        state.steps.push_back(std::move(step));
    }
}

sqlite3_file* real(sqlite3_file* file) { return reinterpret_cast<File*>(file)->real; }
const std::string& name_of(sqlite3_file* file) { return *reinterpret_cast<File*>(file)->name; }

int close(sqlite3_file* file) {
    const int code = real(file)->pMethods->xClose(real(file));
    ::operator delete(real(file));
    delete reinterpret_cast<File*>(file)->name;
    return code;
}
int read(sqlite3_file* file, void* into, int bytes, sqlite3_int64 from) {
    return real(file)->pMethods->xRead(real(file), into, bytes, from);
}
int write(sqlite3_file* file, const void* from, int bytes, sqlite3_int64 at) {
    note({Step::Kind::write, name_of(file), at,
          std::string{static_cast<const char*>(from), static_cast<std::size_t>(bytes)}});
    return real(file)->pMethods->xWrite(real(file), from, bytes, at);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
    note({Step::Kind::truncate, name_of(file), size, {}});
    return real(file)->pMethods->xTruncate(real(file), size);
}
int sync(sqlite3_file* file, int flags) {
    const int code = real(file)->pMethods->xSync(real(file), flags);
    note({Step::Kind::sync, name_of(file), 0, {}});
    return code;
}
int size(sqlite3_file* file, sqlite3_int64* into) {
    return real(file)->pMethods->xFileSize(real(file), into);
}
int lock(sqlite3_file* file, int level) { return real(file)->pMethods->xLock(real(file), level); }
int unlock(sqlite3_file* file, int level) { return real(file)->pMethods->xUnlock(real(file), level); }
int is_locked(sqlite3_file* file, int* into) {
    return real(file)->pMethods->xCheckReservedLock(real(file), into);
}
int control(sqlite3_file* file, int what, void* with) {
    return real(file)->pMethods->xFileControl(real(file), what, with);
}
int sector(sqlite3_file* file) { return real(file)->pMethods->xSectorSize(real(file)); }
int abilities(sqlite3_file* file) { return real(file)->pMethods->xDeviceCharacteristics(real(file)); }

const sqlite3_io_methods methods = [] {
    sqlite3_io_methods m{};
    m.iVersion = 1;
    m.xClose = close;
    m.xRead = read;
    m.xWrite = write;
    m.xTruncate = truncate;
    m.xSync = sync;
    m.xFileSize = size;
    m.xLock = lock;
    m.xUnlock = unlock;
    m.xCheckReservedLock = is_locked;
    m.xFileControl = control;
    m.xSectorSize = sector;
    m.xDeviceCharacteristics = abilities;
    return m;
}();

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
    auto* ours = reinterpret_cast<File*>(file);
    ours->base.pMethods = nullptr;
    ours->real = static_cast<sqlite3_file*>(::operator new(static_cast<std::size_t>(state.real->szOsFile)));
    ours->real->pMethods = nullptr;
    const int code = state.real->xOpen(state.real, name, ours->real, flags, out_flags);
    if (code != SQLITE_OK || ours->real->pMethods == nullptr) {
        if (ours->real->pMethods != nullptr) {
            ours->real->pMethods->xClose(ours->real);
        }
        ::operator delete(ours->real);
        return code;
    }
    ours->name = new std::string{name_in(name)};
    ours->base.pMethods = &methods;
    return SQLITE_OK;
}

int remove(sqlite3_vfs*, const char* name, int sync_folder) {
    note({Step::Kind::remove, name_in(name), 0, {}});
    return state.real->xDelete(state.real, name, sync_folder);
}

}  // namespace

void note_sync(int fd) {
    std::array<char, 4096> path{};
    const auto link = "/proc/self/fd/" + std::to_string(fd);
    if (state.on && ::readlink(link.c_str(), path.data(), path.size() - 1) > 0) {
        note({Step::Kind::sync, name_in(path.data()), 0, {}});
    }
}

RecordedDisk::RecordedDisk() {
    state = State{};
    state.real = sqlite3_vfs_find(nullptr);
    REQUIRE(state.real != nullptr);
    state.ours = *state.real;
    state.ours.zName = "recorded-disk";
    state.ours.szOsFile = sizeof(File);
    state.ours.xOpen = open;
    state.ours.xDelete = remove;
    REQUIRE(sqlite3_vfs_register(&state.ours, 1) == SQLITE_OK);
    state.on = true;
}

RecordedDisk::~RecordedDisk() {
    state.on = false;
    sqlite3_vfs_unregister(&state.ours);
    sqlite3_vfs_register(state.real, 1);
}

void RecordedDisk::acknowledged(int commands, const std::string& mark) {
    constexpr std::size_t slot = 512;
    for (std::size_t at = 0; at < mark.size(); at += slot) {
        const auto now = mark.substr(at, slot);
        if (state.mark.size() < at + slot || state.mark.substr(at, slot) != now) {
            note({Step::Kind::write, "brimline.mark", static_cast<std::int64_t>(at), now});
        }
    }
    state.mark = mark;
    note({Step::Kind::acknowledged, "", commands, {}});
}

std::vector<Step> RecordedDisk::take() {
    state.on = false;
    return std::move(state.steps);
}

}  // namespace brimline::store::faults

/// Takes the place of the system's: the journal syncs some files past SQLite, and a model that did not know
/// of it would be harsher than any disk.
extern "C" int fsync(int fd) {
    brimline::store::faults::note_sync(fd);
    return static_cast<int>(::syscall(SYS_fsync, fd));
}

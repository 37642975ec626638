// A disk that refuses, for tests.
#include "tests/store/failing_disk.h"

#include <sqlite3.h>

#include <new>

#include "tests/catch.h"

namespace brimline::store::scratch {
namespace {

struct State {
    sqlite3_vfs* real{nullptr};
    sqlite3_vfs ours{};
    FailingDisk::Plan plan;
    int seen{0}, failed{0}, carried_on{0};
    int open{0};
    bool must_close{false};
};
State state;  // one disk at a time: SQLite's list of file systems is the process's own

struct File {
    sqlite3_file base;
    sqlite3_file* real;
};

sqlite3_file* real(sqlite3_file* file) { return reinterpret_cast<File*>(file)->real; }

/// Whether this write or sync is to fail.
bool fails() {
    state.carried_on += state.must_close ? 1 : 0;
    ++state.seen;
    const bool now = state.plan.at > 0 &&
                     (state.plan.for_good ? state.seen >= state.plan.at : state.seen == state.plan.at);
    if (now) {
        ++state.failed;
        state.must_close = true;
    }
    return now;
}

int close(sqlite3_file* file) {
    const int code = real(file)->pMethods->xClose(real(file));
    ::operator delete(real(file));
    if (--state.open == 0) {
        state.must_close = false;
    }
    return code;
}
int read(sqlite3_file* file, void* into, int bytes, sqlite3_int64 from) {
    return real(file)->pMethods->xRead(real(file), into, bytes, from);
}
int write(sqlite3_file* file, const void* from, int bytes, sqlite3_int64 at) {
    if (fails()) {
        if (state.plan.written) {
            real(file)->pMethods->xWrite(real(file), from, bytes, at);
        }
        return state.plan.code == SQLITE_IOERR_FSYNC ? SQLITE_IOERR_WRITE : state.plan.code;
    }
    return real(file)->pMethods->xWrite(real(file), from, bytes, at);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
    return real(file)->pMethods->xTruncate(real(file), size);
}
int sync(sqlite3_file* file, int flags) {
    if (fails()) {
        return state.plan.code == SQLITE_FULL ? SQLITE_IOERR_FSYNC : state.plan.code;
    }
    return real(file)->pMethods->xSync(real(file), flags);
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
    if (ours->real->pMethods == nullptr) {
        ::operator delete(ours->real);
        return code;
    }
    if (code != SQLITE_OK) {
        ours->real->pMethods->xClose(ours->real);
        ::operator delete(ours->real);
        return code;
    }
    ours->base.pMethods = &methods;
    ++state.open;
    return SQLITE_OK;
}

}  // namespace

FailingDisk::FailingDisk() {
    state = State{};
    state.real = sqlite3_vfs_find(nullptr);
    REQUIRE(state.real != nullptr);
    state.ours = *state.real;
    state.ours.zName = "failing-disk";
    state.ours.szOsFile = sizeof(File);
    state.ours.xOpen = open;
    REQUIRE(sqlite3_vfs_register(&state.ours, 1) == SQLITE_OK);
}

FailingDisk::~FailingDisk() {
    sqlite3_vfs_unregister(&state.ours);
    sqlite3_vfs_register(state.real, 1);
}

void FailingDisk::plan(const Plan& plan) {
    state.plan = plan;
    state.seen = 0;
    state.failed = 0;
}

void FailingDisk::heal() { state.plan = Plan{}; }
int FailingDisk::seen() const { return state.seen; }
int FailingDisk::failed() const { return state.failed; }
int FailingDisk::carried_on() const { return state.carried_on; }

}  // namespace brimline::store::scratch

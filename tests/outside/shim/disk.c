/* Stands between the program and one folder of the disk, by LD_PRELOAD: counts writes and syncs, lets one fail, fills the
   disk up, cuts the power, lies about syncs, and shifts the wall clock. What is on disk for certain is kept as a second
   folder, so that a test can build what a power cut may leave. Told what to do by variables of the environment:
     SHIM_FOLDER  the folder; all else passes untouched           SHIM_SHADOW  the folder of what is synced
     SHIM_MODE    cut, write, sync, full, lie, or nothing         SHIM_AT      the operation it begins at, from 1
     SHIM_ERROR   the errno to answer                             SHIM_ON      1 = from then on, else once
     SHIM_DROP    1 = a sync that fails loses what was written    SHIM_COUNT   file that gets "writes syncs" at the end
     SHIM_CLOCK_S seconds to add to the wall clock                */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static long writes, syncs;

static const char *told(const char *name) {
    const char *value = getenv(name);
    return value ? value : "";
}
static int is_mode(const char *mode) { return strcmp(told("SHIM_MODE"), mode) == 0; }
static void *real(const char *name) { return dlsym(RTLD_NEXT, name); }

/* The name inside the folder that this descriptor stands for; empty when it is not ours. */
static const char *ours(int fd, char *path, size_t size) {
    char link[64];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, path, size - 1);
    const char *folder = told("SHIM_FOLDER");
    size_t part = strlen(folder);
    if (length <= 0 || part == 0) {
        return "";
    }
    path[length] = 0;
    if (strncmp(path, folder, part) != 0 || path[part] != '/' || strchr(path + part + 1, '/') != NULL) {
        return "";
    }
    return path + part + 1;
}

static void copy(const char *from, const char *to) {
    int (*open_it)(const char *, int, ...) = (int (*)(const char *, int, ...))real("open");
    ssize_t (*write_it)(int, const void *, size_t) = (ssize_t(*)(int, const void *, size_t))real("write");
    int in = open_it(from, O_RDONLY);
    int out = open_it(to, O_WRONLY | O_CREAT, 0600);
    char block[65536];
    off_t whole = 0;
    for (ssize_t n; in >= 0 && out >= 0 && (n = read(in, block, sizeof block)) > 0; whole += n) {
        if (write_it(out, block, (size_t)n) != n) {
            abort();
        }
    }
    int (*cut_it)(int, off_t) = (int (*)(int, off_t))real("ftruncate");
    if (out >= 0 && cut_it(out, whole) != 0) {
        abort();
    }
    close(in);
    close(out);
}

static void shadow_path(char *path, size_t size, const char *name) {
    snprintf(path, size, "%s/%s", told("SHIM_SHADOW"), name);
}

/* Whether operation number `at` is the one to spoil. */
static int its_turn(long at) {
    long first = atol(told("SHIM_AT"));
    return at == first || (at > first && told("SHIM_ON")[0] == '1');
}
static int refuse(void) {
    errno = atoi(told("SHIM_ERROR"));
    return -1;
}
static void cut_if_due(void) {
    if (is_mode("cut") && its_turn(writes + syncs)) {
        raise(SIGKILL);
    }
}
/* Before a write: 0 = let it through. */
static int spoil_write(int fd) {
    char path[4096];
    if (ours(fd, path, sizeof path)[0] == 0) {
        return 0;
    }
    ++writes;
    cut_if_due();
    return (is_mode("write") && its_turn(writes)) || (is_mode("full") && writes >= atol(told("SHIM_AT")));
}

ssize_t pwrite64(int fd, const void *from, size_t size, off64_t at) {
    return spoil_write(fd) ? refuse() : ((ssize_t(*)(int, const void *, size_t, off64_t))real("pwrite64"))(fd, from, size, at);
}
ssize_t pwrite(int fd, const void *from, size_t size, off_t at) { return pwrite64(fd, from, size, at); }
ssize_t write(int fd, const void *from, size_t size) {
    return spoil_write(fd) ? refuse() : ((ssize_t(*)(int, const void *, size_t))real("write"))(fd, from, size);
}
int ftruncate64(int fd, off64_t length) {
    char path[4096];
    if (ours(fd, path, sizeof path)[0] != 0) {
        ++writes;
        cut_if_due();
        if (is_mode("write") && its_turn(writes)) {
            return refuse();
        }
    }
    return ((int (*)(int, off64_t))real("ftruncate64"))(fd, length);
}
int ftruncate(int fd, off_t length) { return ftruncate64(fd, length); }

static int sync_with(int fd, const char *call) {
    char path[4096], shadow[8192];
    const char *name = ours(fd, path, sizeof path);
    if (name[0] == 0) {
        return ((int (*)(int))real(call))(fd);
    }
    ++syncs;
    cut_if_due();
    shadow_path(shadow, sizeof shadow, name);
    if (is_mode("sync") && its_turn(syncs)) {
        if (told("SHIM_DROP")[0] == '1') {
            copy(shadow, path);
        }
        return refuse();
    }
    const int done = ((int (*)(int))real(call))(fd);
    if (done == 0 && !is_mode("lie") && told("SHIM_SHADOW")[0] != 0) {
        copy(path, shadow);
    }
    return done;
}
int fsync(int fd) { return sync_with(fd, "fsync"); }
int fdatasync(int fd) { return sync_with(fd, "fdatasync"); }

/* Names change at once on disk, contents when they are synced. 1 = the path is ours, and here is its shadow. */
static int shadow_of(const char *path, char *shadow, size_t size) {
    const char *folder = told("SHIM_FOLDER");
    const size_t part = strlen(folder);
    if (part == 0 || told("SHIM_SHADOW")[0] == 0 || strncmp(path, folder, part) != 0 || path[part] != '/') {
        return 0;
    }
    shadow_path(shadow, size, path + part + 1);
    return 1;
}
int unlink(const char *path) {
    char shadow[8192];
    int (*unlink_it)(const char *) = (int (*)(const char *))real("unlink");
    if (shadow_of(path, shadow, sizeof shadow)) {
        unlink_it(shadow);
    }
    return unlink_it(path);
}
int rename(const char *from, const char *to) {
    char shadow_from[8192], shadow_to[8192];
    int (*rename_it)(const char *, const char *) = (int (*)(const char *, const char *))real("rename");
    if (shadow_of(from, shadow_from, sizeof shadow_from) && shadow_of(to, shadow_to, sizeof shadow_to)) {
        rename_it(shadow_from, shadow_to);
    }
    return rename_it(from, to);
}

int clock_gettime(clockid_t which, struct timespec *now) {
    const int done = ((int (*)(clockid_t, struct timespec *))real("clock_gettime"))(which, now);
    if (done == 0 && which == CLOCK_REALTIME) {
        now->tv_sec += atol(told("SHIM_CLOCK_S"));
    }
    return done;
}

__attribute__((destructor)) static void count(void) {
    if (told("SHIM_COUNT")[0] != 0) {
        FILE *file = fopen(told("SHIM_COUNT"), "w");
        if (file != NULL) {
            fprintf(file, "%ld %ld\n", writes, syncs);
            fclose(file);
        }
    }
}

/* Put before the C library (LD_PRELOAD): counts what is done to files below one folder, and at the n-th operation of
   a kind ends the process, tears a write in two, or says that it failed. Armed from Python, see disk.py. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

enum { WRITE, SYNC, RENAME, REMOVE, MAKE, KINDS };
enum { NOTHING, KILL, TEAR, FAIL_WRITE, FAIL_SYNC, FAIL_RENAME, NO_ROOM };

static char below[PATH_MAX];
static int how = NOTHING;
static long at, all, counts[KINDS];

void disk_arm(const char *folder, int fault, long moment) {
    snprintf(below, sizeof below, "%s", folder);
    memset(counts, 0, sizeof counts);
    all = 0; at = moment; how = fault;
}

long disk_count(int kind) { return kind < 0 ? all : counts[kind]; }

static int is_below(const char *path) { return *below && path && !strncmp(path, below, strlen(below)); }

static int is_file_below(int fd) {
    char link[64], path[PATH_MAX];
    if (!*below) return 0;
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, path, sizeof path - 1);
    if (length < 0) return 0;
    path[length] = 0;
    return is_below(path);
}

/* 0: go on; otherwise the error to answer with. -1: tear this write. */
static int met(int kind) {
    counts[kind]++; all++;
    if (how == KILL && all == at) _exit(86);
    if (how == TEAR && kind == WRITE && counts[WRITE] == at) return -1;
    if (how == FAIL_WRITE && kind == WRITE && counts[WRITE] == at) return EIO;
    if (how == FAIL_SYNC && kind == SYNC && counts[SYNC] == at) return EIO;
    if (how == FAIL_RENAME && kind == RENAME && counts[RENAME] == at) return EIO;
    if (how == NO_ROOM && ((kind == WRITE && counts[WRITE] >= at) || (kind == MAKE && counts[WRITE] >= at))) return ENOSPC;
    return 0;
}

#define REAL(name, result, ...) \
    static result (*real)(__VA_ARGS__); \
    if (!real) real = (result (*)(__VA_ARGS__))dlsym(RTLD_NEXT, name);
#define REFUSED(kind, is_ours) \
    if (is_ours) { int error = met(kind); if (error > 0) { errno = error; return -1; } }

ssize_t write(int fd, const void *data, size_t length) {
    REAL("write", ssize_t, int, const void *, size_t)
    if (is_file_below(fd)) {
        int error = met(WRITE);
        if (error > 0) { errno = error; return -1; }
        if (error < 0) { real(fd, data, length / 2); _exit(86); }
    }
    return real(fd, data, length);
}

ssize_t pwrite64(int fd, const void *data, size_t length, off64_t offset) {
    REAL("pwrite64", ssize_t, int, const void *, size_t, off64_t)
    if (is_file_below(fd)) {
        int error = met(WRITE);
        if (error > 0) { errno = error; return -1; }
        if (error < 0) { real(fd, data, length / 2, offset); _exit(86); }
    }
    return real(fd, data, length, offset);
}

ssize_t pwrite(int fd, const void *data, size_t length, off_t offset) { return pwrite64(fd, data, length, offset); }

int ftruncate64(int fd, off64_t length) {
    REAL("ftruncate64", int, int, off64_t)
    REFUSED(WRITE, is_file_below(fd))
    return real(fd, length);
}

int ftruncate(int fd, off_t length) { return ftruncate64(fd, length); }

int fsync(int fd) {
    REAL("fsync", int, int)
    REFUSED(SYNC, is_file_below(fd))
    return real(fd);
}

int fdatasync(int fd) {
    REAL("fdatasync", int, int)
    REFUSED(SYNC, is_file_below(fd))
    return real(fd);
}

int rename(const char *from, const char *to) {
    REAL("rename", int, const char *, const char *)
    REFUSED(RENAME, is_below(to))
    return real(from, to);
}

int unlink(const char *path) {
    REAL("unlink", int, const char *)
    REFUSED(REMOVE, is_below(path))
    return real(path);
}

static int made(const char *path, int flags) { return (flags & O_CREAT) && is_below(path) && access(path, F_OK); }

int open64(const char *path, int flags, ...) {
    REAL("open64", int, const char *, int, ...)
    va_list more;
    va_start(more, flags);
    mode_t mode = flags & O_CREAT ? va_arg(more, mode_t) : 0;
    va_end(more);
    REFUSED(MAKE, made(path, flags))
    return real(path, flags, mode);
}

int open(const char *path, int flags, ...) {
    va_list more;
    va_start(more, flags);
    mode_t mode = flags & O_CREAT ? va_arg(more, mode_t) : 0;
    va_end(more);
    return open64(path, flags, mode);
}

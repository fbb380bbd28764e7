/* failing.c: a library for LD_PRELOAD under which one call of a program fails, or ends it.
 *
 * The environment says which: PARE_FAIL=WHAT:N, the nth call of that kind from 0 on; PARE_FAIL=WHAT:N+, that
 * and all that follow (a disk that stays full); PARE_FAIL=end-WHAT:N, the program is killed before it. A
 * call that failed leaves a file, named by PARE_FAILED, so that a sweep knows where to end. Kinds: memory,
 * write, sync, rename, open (of files to be written), cut (a file's length). PARE_FAIL=clock:SECONDS sets
 * the clock so much ahead, or back.
 *
 * Allocations are found under glibc's own names: asking the linker for them would allocate. */
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/syscall.h>
#include <sys/types.h>
#include <time.h>
#include <unistd.h>

typedef enum kind { MEMORY, WRITE, SYNC, RENAME, OPEN, CUT, KINDS } kind;

static long until_failure[KINDS];
static bool counts[KINDS], for_good, ends, ready;
static time_t clock_ahead;

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

__attribute__((constructor)) static void read_wish(void)
{
    static const char *const names[KINDS] = {"memory", "write", "sync", "rename", "open", "cut"};
    const char *wish = getenv("PARE_FAIL");
    ends = wish && strncmp(wish, "end-", 4) == 0;
    if (ends)
        wish += 4;
    for (int i = 0; wish && i < KINDS; i++) {
        const size_t length = strlen(names[i]);
        if (strncmp(wish, names[i], length) == 0 && wish[length] == ':') {
            until_failure[i] = strtol(wish + length + 1, NULL, 10);
            counts[i] = true;
            for_good = wish[strlen(wish) - 1] == '+';
        }
    }
    if (wish && strncmp(wish, "clock:", 6) == 0)
        clock_ahead = (time_t)strtoll(wish + 6, NULL, 10);
    ready = true;
}

/* Without the library's own calls, which may be the ones that fail. */
static void leave_note(void)
{
    const char *note = getenv("PARE_FAILED");
    if (note)
        (void)syscall(SYS_close, (int)syscall(SYS_openat, AT_FDCWD, note,
                                              O_WRONLY | O_CREAT | O_CLOEXEC, 0600));
}

static bool fails(kind what, int error)
{
    if (!ready || !counts[what])
        return false;
    const long left = __atomic_fetch_sub(&until_failure[what], 1, __ATOMIC_RELAXED);
    if (left > 0 || (left < 0 && !for_good))
        return false;
    leave_note();
    if (ends)
        (void)syscall(SYS_kill, (pid_t)syscall(SYS_getpid), SIGKILL);
    errno = error;
    return true;
}

static void *next(const char *name)
{
    return dlsym(RTLD_NEXT, name);
}

void *malloc(size_t size)
{
    return fails(MEMORY, ENOMEM) ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return fails(MEMORY, ENOMEM) ? NULL : __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    return fails(MEMORY, ENOMEM) ? NULL : __libc_realloc(old, size);
}

ssize_t write(int file, const void *bytes, size_t length)
{
    ssize_t (*real)(int, const void *, size_t);
    *(void **)&real = next("write");
    return fails(WRITE, ENOSPC) ? -1 : real(file, bytes, length);
}

ssize_t pwrite(int file, const void *bytes, size_t length, off_t at)
{
    ssize_t (*real)(int, const void *, size_t, off_t);
    *(void **)&real = next("pwrite");
    return fails(WRITE, ENOSPC) ? -1 : real(file, bytes, length, at);
}

ssize_t pwrite64(int file, const void *bytes, size_t length, off_t at)
{
    return pwrite(file, bytes, length, at);
}

int fsync(int file)
{
    int (*real)(int);
    *(void **)&real = next("fsync");
    return fails(SYNC, EIO) ? -1 : real(file);
}

int fdatasync(int file)
{
    int (*real)(int);
    *(void **)&real = next("fdatasync");
    return fails(SYNC, EIO) ? -1 : real(file);
}

int rename(const char *from, const char *to)
{
    int (*real)(const char *, const char *);
    *(void **)&real = next("rename");
    return fails(RENAME, EIO) ? -1 : real(from, to);
}

int ftruncate(int file, off_t length)
{
    int (*real)(int, off_t);
    *(void **)&real = next("ftruncate");
    return fails(CUT, EIO) ? -1 : real(file, length);
}

int ftruncate64(int file, off_t length)
{
    return ftruncate(file, length);
}

int clock_gettime(clockid_t which, struct timespec *now)
{
    const int status = (int)syscall(SYS_clock_gettime, which, now);
    if (status == 0 && which == CLOCK_REALTIME)
        now->tv_sec += clock_ahead;
    return status;
}

time_t time(time_t *now)
{
    struct timespec fine = {0};
    (void)clock_gettime(CLOCK_REALTIME, &fine);
    if (now)
        *now = fine.tv_sec;
    return fine.tv_sec;
}

static int open_real(const char *path, int flags, mode_t mode)
{
    const bool writes = (flags & O_ACCMODE) != O_RDONLY;
    if (writes && fails(OPEN, ENOSPC))
        return -1;
    return (int)syscall(SYS_openat, AT_FDCWD, path, flags, mode);
}

int open(const char *path, int flags, ...)
{
    va_list more;
    va_start(more, flags);
    const mode_t mode = flags & O_CREAT ? va_arg(more, mode_t) : 0;
    va_end(more);
    return open_real(path, flags, mode);
}

int open64(const char *path, int flags, ...)
{
    va_list more;
    va_start(more, flags);
    const mode_t mode = flags & O_CREAT ? va_arg(more, mode_t) : 0;
    va_end(more);
    return open_real(path, flags, mode);
}

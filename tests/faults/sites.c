/* sites.c: linked into the program, so that what it asks of its own helpers can fail: memory from an arena or
 * from the C library, and SQLite's calls. A library beside the program cannot do that (failing.c): an arena
 * asks for memory once a thousand times.
 *
 * A site is what asks and who called that, some calls deep; so each line that can fail does, in the few ways
 * that it is come by, and not the same one ten thousand times. The environment says which: PARE_SITE=memory:N
 * or PARE_SITE=sqlite:N, the first request at the nth site that the program comes by and that does not stand
 * in the file PARE_SITES. When it has failed, that and those before it do.
 *
 * The linker puts these functions in the place of the others (--wrap, tests/CMakeLists.txt). */
#include <fcntl.h>
#include <sqlite3.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <unwind.h>

#include "base/arena.h"

enum {
    SEEN = 1 << 16, /* a power of two */
    DEEP = 4,       /* calls */
    BESIDES = 2,    /* fails() and its caller */
    FAR = 1 << 28   /* bytes: a call from another library, which lies elsewhere in each run */
};

static const char *kind, *file;
static long wanted = -1, sites;
static uint64_t seen[SEEN], fresh[SEEN];
static bool taken;

/* Whether the site is a new one. */
static bool is_new(uint64_t sum)
{
    sum += sum == 0;
    for (size_t i = sum >> 20 & (SEEN - 1), tried = 0; tried < SEEN;
         i = (i + 1) & (SEEN - 1), tried++) {
        if (seen[i] == sum)
            return false;
        if (!seen[i]) {
            seen[i] = sum;
            return true;
        }
    }
    return false;
}

__attribute__((constructor)) static void read_wish(void)
{
    const char *wish = getenv("PARE_SITE"), *number = wish ? strchr(wish, ':') : NULL;
    file = getenv("PARE_SITES");
    if (!number || !file)
        return;
    const int past = open(file, O_RDONLY | O_CLOEXEC);
    for (uint64_t sum; past >= 0 && read(past, &sum, sizeof sum) == (ssize_t)sizeof sum;)
        (void)is_new(sum);
    if (past >= 0)
        close(past);
    kind = wish;
    wanted = strtol(number + 1, NULL, 10);
}

typedef struct calls {
    uint64_t sum;
    int depth;
} calls;

static _Unwind_Reason_Code add_call(struct _Unwind_Context *context, void *of)
{
    calls *c = of;
    int64_t from = (int64_t)_Unwind_GetIP(context) - (int64_t)(uintptr_t)add_call;
    if (from > FAR || from < -FAR)
        from = 0;
    if (++c->depth > BESIDES)
        c->sum = (c->sum ^ (uint64_t)from) * 1099511628211u; /* as the FNV hash does */
    return c->depth < BESIDES + DEEP ? _URC_NO_REASON : _URC_END_OF_STACK;
}

static void write_down(void)
{
    const size_t bytes = (size_t)sites * sizeof fresh[0];
    const int to = open(file, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    if (to < 0 || write(to, fresh, bytes) != (ssize_t)bytes)
        abort();
    close(to);
}

static __attribute__((noinline)) bool fails(const char *what)
{
    if (wanted < 0 || strncmp(kind, what, strlen(what)) != 0)
        return false;
    calls c = {0};
    (void)_Unwind_Backtrace(add_call, &c);
    while (__atomic_test_and_set(&taken, __ATOMIC_ACQUIRE)) {
    }
    bool now = false;
    if (sites <= wanted && is_new(c.sum)) {
        fresh[sites] = c.sum;
        now = sites++ == wanted;
    }
    if (now)
        write_down();
    __atomic_clear(&taken, __ATOMIC_RELEASE);
    return now;
}

#define WRAPPED(type, name, parameters, arguments, what, failed)                                   \
    type __real_##name parameters;                                                                 \
    type __wrap_##name parameters;                                                                 \
    type __wrap_##name parameters                                                                  \
    {                                                                                              \
        return fails(what) ? failed : __real_##name arguments;                                     \
    }

WRAPPED(void *, malloc, (size_t size), (size), "memory", NULL)
WRAPPED(void *, calloc, (size_t count, size_t size), (count, size), "memory", NULL)
WRAPPED(void *, realloc, (void *old, size_t size), (old, size), "memory", NULL)
WRAPPED(pare_arena *, pare_arena_open, (void), (), "memory", NULL)
WRAPPED(void *, pare_arena_zeros, (pare_arena * arena, size_t size), (arena, size), "memory", NULL)
WRAPPED(void *, pare_arena_array, (pare_arena * arena, size_t count, size_t size),
        (arena, count, size), "memory", NULL)
WRAPPED(char *, pare_arena_copy, (pare_arena * arena, const char *text, size_t length),
        (arena, text, length), "memory", NULL)
WRAPPED(char *, pare_arena_text, (pare_arena * arena, const char *text), (arena, text), "memory",
        NULL)
WRAPPED(int, sqlite3_step, (sqlite3_stmt * statement), (statement), "sqlite", SQLITE_IOERR)

char *__wrap_pare_arena_printf(pare_arena *arena, const char *format, ...);

char *__wrap_pare_arena_printf(pare_arena *arena, const char *format, ...)
{
    va_list values, again;
    va_start(values, format);
    va_copy(again, values);
    const int length = vsnprintf(NULL, 0, format, values);
    va_end(values);
    char *text =
        length < 0 || fails("memory") ? NULL : __real_pare_arena_zeros(arena, (size_t)length + 1);
    if (text)
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    return text;
}

int __real_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail);
int __wrap_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail);

int __wrap_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail)
{
    *statement = NULL;
    return fails("sqlite") ? SQLITE_IOERR
                           : __real_sqlite3_prepare_v2(db, sql, bytes, statement, tail);
}

int __real_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message);
int __wrap_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message);

/* Rolling back cannot be answered with an error by anyone: SQLite does it by itself after one. */
int __wrap_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message)
{
    const bool back = strcmp(sql, "ROLLBACK") == 0;
    return !back && fails("sqlite") ? SQLITE_IOERR
                                    : __real_sqlite3_exec(db, sql, row, context, message);
}

/* arena_fails.h: the nth place asked of an arena is refused. An arena takes its memory by the block, so that one
 * failed allocation refuses a few places only; here it is any of them. The linker puts these functions in the place
 * of the arena's (tests/CMakeLists.txt); include it once a program. */
#ifndef PARE_TESTS_ARENA_FAILS_H
#define PARE_TESTS_ARENA_FAILS_H

#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/error.h"
#include "near.h"

void *__real_pare_arena_zeros(pare_arena *arena, size_t size);
void *__real_pare_arena_array(pare_arena *arena, size_t count, size_t size);
char *__real_pare_arena_copy(pare_arena *arena, const char *text, size_t length);
char *__real_pare_arena_text(pare_arena *arena, const char *text);
void *__wrap_pare_arena_zeros(pare_arena *arena, size_t size);
void *__wrap_pare_arena_array(pare_arena *arena, size_t count, size_t size);
char *__wrap_pare_arena_copy(pare_arena *arena, const char *text, size_t length);
char *__wrap_pare_arena_text(pare_arena *arena, const char *text);
char *__wrap_pare_arena_printf(pare_arena *arena, const char *format, ...);

static long until_refusal = -1; /* below 0: none is refused */

static bool refuses(void)
{
    return until_refusal >= 0 && until_refusal-- == 0;
}

void *__wrap_pare_arena_zeros(pare_arena *arena, size_t size)
{
    return refuses() ? NULL : __real_pare_arena_zeros(arena, size);
}

void *__wrap_pare_arena_array(pare_arena *arena, size_t count, size_t size)
{
    return refuses() ? NULL : __real_pare_arena_array(arena, count, size);
}

char *__wrap_pare_arena_copy(pare_arena *arena, const char *text, size_t length)
{
    return refuses() ? NULL : __real_pare_arena_copy(arena, text, length);
}

char *__wrap_pare_arena_text(pare_arena *arena, const char *text)
{
    return refuses() ? NULL : __real_pare_arena_text(arena, text);
}

char *__wrap_pare_arena_printf(pare_arena *arena, const char *format, ...)
{
    if (refuses())
        return NULL;
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    const int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    char *copy = length < 0 ? NULL : __real_pare_arena_zeros(arena, (size_t)length + 1);
    if (copy)
        vsnprintf(copy, (size_t)length + 1, format, again);
    va_end(again);
    return copy;
}

/* What was done with one place refused has worked, or says that there is no memory.
 * @param done  none was refused any more: it must have worked */
static inline void expect_room(pare_status status, const pare_error *err, bool done)
{
    if (done && status != PARE_OK)
        fail_msg("%s", err->text);
    if (status != PARE_OK && (status != PARE_UNAVAILABLE || !strstr(err->text, "memory")))
        fail_msg("'%s' does not say that there is no memory", err->text);
}

#endif

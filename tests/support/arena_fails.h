/* arena_fails.h: the nth place asked of an arena is refused. An arena takes its memory by the block, so that one
 * failed allocation refuses a few places only; here it is any of them. The linker puts these functions in the place
 * of the arena's (tests/CMakeLists.txt); include it once a program. */
#ifndef PARE_TESTS_ARENA_FAILS_H
#define PARE_TESTS_ARENA_FAILS_H

#include <stdarg.h>
#include <stdio.h>

#include "base/arena.h"
#include "fails.h"

void *__real_pare_arena_zeros(pare_arena *arena, size_t size);
void *__real_pare_arena_array(pare_arena *arena, size_t count, size_t size);
char *__real_pare_arena_copy(pare_arena *arena, const char *text, size_t length);
char *__real_pare_arena_text(pare_arena *arena, const char *text);
void *__wrap_pare_arena_zeros(pare_arena *arena, size_t size);
void *__wrap_pare_arena_array(pare_arena *arena, size_t count, size_t size);
char *__wrap_pare_arena_copy(pare_arena *arena, const char *text, size_t length);
char *__wrap_pare_arena_text(pare_arena *arena, const char *text);
char *__wrap_pare_arena_printf(pare_arena *arena, const char *format, ...);

void *__wrap_pare_arena_zeros(pare_arena *arena, size_t size)
{
    return fails() ? NULL : __real_pare_arena_zeros(arena, size);
}

void *__wrap_pare_arena_array(pare_arena *arena, size_t count, size_t size)
{
    return fails() ? NULL : __real_pare_arena_array(arena, count, size);
}

char *__wrap_pare_arena_copy(pare_arena *arena, const char *text, size_t length)
{
    return fails() ? NULL : __real_pare_arena_copy(arena, text, length);
}

char *__wrap_pare_arena_text(pare_arena *arena, const char *text)
{
    return fails() ? NULL : __real_pare_arena_text(arena, text);
}

char *__wrap_pare_arena_printf(pare_arena *arena, const char *format, ...)
{
    if (fails())
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

#endif

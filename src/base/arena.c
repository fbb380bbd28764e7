/* arena.c: a chain of growing blocks (see arena.h). */
#include "base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct block {
    struct block *before;
    size_t used, size;
    max_align_t bytes[];
} block;

struct pare_arena {
    block *last;
};

enum { FIRST_BLOCK = 16 * 1024, LARGEST_STEP = 1024 * 1024 };

pare_arena *pare_arena_open(void)
{
    return calloc(1, sizeof(pare_arena));
}

void pare_arena_close(pare_arena *arena)
{
    if (!arena)
        return;
    for (block *b = arena->last; b;) {
        block *before = b->before;
        free(b);
        b = before;
    }
    free(arena);
}

void pare_arena_give(pare_arena *from, pare_arena *to)
{
    if (!from)
        return;
    block *first = from->last;
    while (first && first->before)
        first = first->before;
    if (first) {
        first->before = to->last;
        to->last = from->last;
    }
    free(from);
}

void pare_arena_clear(pare_arena *arena)
{
    block *kept = arena->last;
    if (!kept)
        return;
    for (block *b = kept->before; b;) {
        block *before = b->before;
        free(b);
        b = before;
    }
    kept->before = NULL;
    memset(kept->bytes, 0, kept->used);
    kept->used = 0;
}

static block *add_block(pare_arena *arena, size_t at_least)
{
    size_t size = arena->last ? 2 * arena->last->size : FIRST_BLOCK;
    if (size > LARGEST_STEP)
        size = LARGEST_STEP;
    if (size < at_least)
        size = at_least;
    if (size > SIZE_MAX - sizeof(block))
        return NULL;
    block *b = calloc(1, sizeof(block) + size);
    if (!b)
        return NULL;
    b->before = arena->last;
    b->size = size;
    arena->last = b;
    return b;
}

/* @param grain  the place is a multiple of it, a power of 2 */
static void *take(pare_arena *arena, size_t size, size_t grain)
{
    block *b = arena->last;
    size_t start = b ? (b->used + grain - 1) & ~(grain - 1) : 0;
    if (!b || start > b->size || b->size - start < size) {
        b = add_block(arena, size);
        start = 0;
    }
    if (!b)
        return NULL;
    b->used = start + size;
    return (char *)b->bytes + start;
}

void *pare_arena_zeros(pare_arena *arena, size_t size)
{
    return take(arena, size, _Alignof(max_align_t));
}

void *pare_arena_array(pare_arena *arena, size_t count, size_t size)
{
    if (size && count > SIZE_MAX / size)
        return NULL;
    return pare_arena_zeros(arena, count * size);
}

char *pare_arena_copy(pare_arena *arena, const char *text, size_t length)
{
    if (length == SIZE_MAX)
        return NULL;
    char *copy = take(arena, length + 1, 1);
    if (copy && length)
        memcpy(copy, text, length);
    return copy;
}

char *pare_arena_text(pare_arena *arena, const char *text)
{
    return pare_arena_copy(arena, text, strlen(text));
}

char *pare_arena_printf(pare_arena *arena, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    if (length < 0)
        return NULL;
    char *text = take(arena, (size_t)length + 1, 1);
    if (!text)
        return NULL;
    va_start(args, format);
    vsnprintf(text, (size_t)length + 1, format, args);
    va_end(args);
    return text;
}

/* arena.h: memory that is freed all at once.
 *
 * What a bench or a reading of a file is made of lives and dies together, so it comes from one
 * arena and nothing in it is freed singly. Blocks never move: pointers stay good until the end. */
#ifndef PARE_BASE_ARENA_H
#define PARE_BASE_ARENA_H

#include <stddef.h>

typedef struct pare_arena pare_arena;

/** A new, empty arena, or NULL when there is no memory. Close with pare_arena_close(). */
pare_arena *pare_arena_open(void);

/** Frees everything that came from the arena. NULL is fine. */
void pare_arena_close(pare_arena *arena);

/** Takes everything back that came from the arena, which keeps one block for what comes next: for
 * work that is done again and again. */
void pare_arena_clear(pare_arena *arena);

/** Hands all that came from one arena on to another, and closes it: what is found in one trial of many is
 * kept so. NULL `from` is fine. */
void pare_arena_give(pare_arena *from, pare_arena *to);

/** size bytes of zeros, aligned for any type, or NULL when there is no memory. */
void *pare_arena_zeros(pare_arena *arena, size_t size);

/** count items of size bytes each, of zeros; NULL as well when the product overflows. */
void *pare_arena_array(pare_arena *arena, size_t count, size_t size);

/** A copy of length bytes with a final NUL, or NULL when there is no memory. */
char *pare_arena_copy(pare_arena *arena, const char *text, size_t length);

/** A copy of a string, or NULL when there is no memory. */
char *pare_arena_text(pare_arena *arena, const char *text);

/** A formatted string, or NULL when there is no memory. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
char *
pare_arena_printf(pare_arena *arena, const char *format, ...);

#endif

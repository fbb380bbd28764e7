/* grow.c: see grow.h. What is outgrown stays in the arena: less than the array itself in all. */
#include "base/grow.h"

#include <string.h>

void *pare_grown(pare_arena *arena, void *old, size_t count, size_t *size, size_t each)
{
    if (count < *size)
        return old;
    const size_t more = *size ? 2 * *size : 64;
    void *wider = pare_arena_array(arena, more, each);
    if (!wider)
        return NULL;
    if (count)
        memcpy(wider, old, count * each);
    *size = more;
    return wider;
}

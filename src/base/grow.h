/* grow.h: arrays in an arena that grow by doubling. */
#ifndef PARE_BASE_GROW_H
#define PARE_BASE_GROW_H

#include "base/arena.h"

/** Room for one more: the array itself, or a wider copy of it; NULL when there is no memory.
 * @param count  entries in use; @param size  entries with room, raised; @param each  bytes of one */
void *pare_grown(pare_arena *arena, void *old, size_t count, size_t *size, size_t each);

#endif

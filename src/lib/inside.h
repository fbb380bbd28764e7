/* inside.h: what the files behind the public headers have in common. Inside the room only. */
#ifndef PARE_LIB_INSIDE_H
#define PARE_LIB_INSIDE_H

#include <pare/snapshot.h>

#include "lib/built.h"

struct pare_snapshot {
    pare_built built;
    pare_arena *arena; /* of the notes */
    size_t notes;
    const char *const *note; /* [notes] */
};

/** The bench of a snapshot for one question: what answering it makes, sought parts and messages, goes into
 * the question's arena, so that a snapshot is only ever read. */
pare_bench pare_snapshot_bench(const pare_snapshot *snapshot, pare_arena *arena);

#endif

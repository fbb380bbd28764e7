/* weighed_of.h: what lay on a scale, held against the craft that it is said to be of. Inside the room only. */
#ifndef PARE_STORE_WEIGHED_OF_H
#define PARE_STORE_WEIGHED_OF_H

#include "store/reading.h"
#include "store/sql.h"

/** A weigh-in as the bench keeps it: "gone.camera" in `of` is a camera that its craft has no longer.
 * @param node  checked (record.h)
 * @param[out] kept  node itself where nothing of it is marked so
 * @return PARE_OK; PARE_BAD_DATA: the same thing with the mark and without it; PARE_UNAVAILABLE */
pare_status pare_weighed_of_kept(const pare_reading *reading, const pare_node *node,
                                 const pare_node **kept, pare_error *err);

/** Whether its craft, which is on the bench, has all that lay on the scale and is not marked as gone.
 * @return PARE_OK; PARE_UNKNOWN with the place and the nearest */
pare_status pare_weighed_of_check(pare_store *store, const pare_reading *reading,
                                  const pare_node *node, pare_error *err);

/** A weigh-in's text as it goes out: what its craft has no longer is marked, so that it comes in again.
 * @param doc  as kept; NULL, or what is no weigh-in, goes out as it is
 * @param[out] out  in the arena, or doc itself */
pare_status pare_weighed_of_out(pare_store *store, const char *doc, pare_arena *arena,
                                const char **out, pare_error *err);

#endif

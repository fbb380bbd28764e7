/* past.h: a bench as it was at the end of a day. */
#ifndef PARE_STORE_PAST_H
#define PARE_STORE_PAST_H

#include "store/bench.h"
#include "store/by_key.h"

/** Since when a past bench is by its history: from there back it is as it was first written, less what is
 * dated later. */
typedef struct pare_past_begins {
    bool later;   /* the history does not reach back to the day */
    char day[16]; /* on which the craft came onto the bench; "": there is no history */
} pare_past_begins;

/** The bench as it was at the end of a day, in memory: changes made later are taken back, and readings,
 * flights, stages of taken swaps and what was learned are left out where they are dated later.
 *
 * @param store  stays as it is
 * @param craft  that is asked about: it stays on the bench from the day of its first dated record on, even
 *               where it was written down later
 * @param day    "2026-04-01", not ahead of today
 * @param[out] past  close with pare_store_close(); NULL on failure
 * @return PARE_OK; PARE_UNKNOWN: no such craft; PARE_BAD_DATA: it was not there yet, saying since when */
pare_status pare_store_past(pare_store *store, const char *craft, const char *day,
                            pare_store **past, pare_past_begins *begins, pare_error *err);

/** Where a craft's text and those of its parts differ between two benches: paths of the craft as they stand,
 * those of a part as "part.ID.mass". Taken swaps and what was learned are left out.
 * @param[out] list  [count], in the arena */
pare_status pare_store_craft_between(pare_store *was, pare_store *is, const char *craft,
                                     pare_arena *arena, size_t *count,
                                     const pare_entry_change **list, pare_error *err);

#endif

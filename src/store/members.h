/* members.h: who may do what on a bench that several share. */
#ifndef PARE_STORE_MEMBERS_H
#define PARE_STORE_MEMBERS_H

#include "store/bench.h"

typedef struct pare_member {
    const char *name; /* as the server knows him */
    const char *may;  /* "read", "weigh", "edit", or "own" */
} pare_member;

/** Who may read, weigh or edit, the owner first, then by name.
 * @param[out] members  [count], in the arena
 * @return PARE_OK; PARE_BAD_DATA: a bench in a file, which has none; PARE_UNAVAILABLE */
pare_status pare_store_members(pare_store *store, pare_arena *arena, size_t *count,
                               pare_member **members, pare_error *err);

/** Lets somebody do that and no more.
 * @param may  "read": every question; "weigh": scales, weigh-ins and flights besides; "edit": all but this;
 *             "none"
 * @return PARE_OK; PARE_BAD_DATA: a bench in a file, or the owner's name, or another word;
 *         PARE_UNKNOWN: no such user of the server;
 *         PARE_UNAVAILABLE: only the owner may say so, who is named; or the server is gone */
pare_status pare_store_allow(pare_store *store, const char *name, const char *may, pare_error *err);

#endif

/* studies.h: what studies found, kept on a bench under their names.
 *
 * The bench keeps the bytes and does not read them. They are a file of it, under a name that no part's file can
 * have: so history, undo and copies have them, and there is no table that an older Pare would not know. They are no
 * part of the bench's text: a study's answers go by that, and would all be out of date once one was kept. */
#ifndef PARE_STORE_STUDIES_H
#define PARE_STORE_STUDIES_H

#include "store/bench.h"

/** Names of files that studies are kept under, in the pattern of SQL's LIKE. */
#define PARE_STUDIES "/studies/%"

/** Keeps one, in the place of what was kept under its name, or forgets it.
 * @param name   of the study
 * @param bytes  [length]; NULL: forgotten
 * @return PARE_OK; PARE_UNKNOWN with the nearest where there is none to forget; PARE_UNAVAILABLE */
pare_status pare_store_keep_study(pare_store *store, const char *name, const void *bytes,
                                  size_t length, const pare_change *change, pare_error *err);

/** What is kept of one.
 * @param[out] bytes  [length], in the arena, with a 0 behind them
 * @return PARE_OK; PARE_UNKNOWN with the nearest */
pare_status pare_store_kept_study(pare_store *store, const char *name, pare_arena *arena,
                                  const char **bytes, size_t *length, pare_error *err);

/** The names of all that are kept, in order. @param[out] names  [count], in the arena */
pare_status pare_store_kept_studies(pare_store *store, pare_arena *arena, size_t *count,
                                    const char *const **names, pare_error *err);

#endif

/* change.h: a change to the bench, from its beginning to its end, and what it was before. Inside the
 * room only; bench.h has undo, redo and the history.
 *
 * The schema's triggers put down every row of a list as it was before the change, once; rows that the
 * change makes are known by their numbers. Undoing exchanges what is for what was and keeps the
 * former, so that doing it again is the same exchange. Only the last change that stands can be undone,
 * and a new change forgets those that were undone: so rows are always found as the change left them. */
#ifndef PARE_STORE_CHANGE_H
#define PARE_STORE_CHANGE_H

#include "store/sql.h"

/** Starts a change: what follows, until its end, happens whole or not at all.
 * @param empty_first  all that the bench holds goes, and its history with it */
pare_status pare_change_begin(pare_store *store, const pare_change *change, bool empty_first,
                              pare_error *err);

/** Ends it: kept and written into the history, where anything changed and `status` is PARE_OK; as if
 * it had never begun otherwise.
 * @param status  how what happened in between went
 * @param keep    false: only to see what it would do
 * @return status, or what went wrong in keeping it */
pare_status pare_change_end(pare_store *store, pare_status status, bool keep, pare_error *err);

/** Takes back the last change that stands, or does the next one again, within a transaction of the caller's.
 * @param number  that change's @param undone  it is taken back */
pare_status pare_change_exchange(pare_store *store, long long number, bool undone, pare_error *err);

/** The change that an undo, or where `undone` is true a redo, would turn next.
 * @param[out] found  in the arena
 * @return PARE_BAD_DATA where there is none */
pare_status pare_history_find(const pare_store *store, bool undone, pare_arena *arena,
                              pare_change_row *found, pare_error *err);

/** Refuses a change whose craft is no longer as it was when it was read, saying since which change. */
pare_status pare_history_check(const pare_store *store, const pare_change *change, pare_error *err);

#endif

/* snapshot.h: a bench in memory, as it was when it was read.
 *
 * The craft on it are as built: with the swaps that were fitted, and by what scales said, like those that the
 * program `pare` answers for. A snapshot never changes, and the file is closed once it is read.
 *
 * Threads: any number may ask the same snapshot at once. Closing it is for one alone.
 * Ownership: what a function lends (const char *) is good until its snapshot is closed. Answers borrow
 * names from their snapshot: close them before it. */
#ifndef PARE_SNAPSHOT_H
#define PARE_SNAPSHOT_H

#include <pare/error.h>
#include <pare/public.h>

PARE_BEGIN

typedef struct pare_snapshot pare_snapshot;

/** Reads the bench in a file, which `pare` has made.
 *
 * @param path  the file; its caches are filled where it can be written, all else stays as it is
 * @param[out] snapshot  close with pare_snapshot_close(); NULL on failure
 * @return PARE_OK; PARE_BAD_DATA: nothing there, no bench, a damaged one, one of a newer Pare;
 *         PARE_UNAVAILABLE: locked by another program for over two seconds, no permission, no memory */
PARE_PUBLIC pare_status pare_snapshot_open(const char *path, pare_snapshot **snapshot,
                                           pare_error *err);

/** Reads a bench's text, as `pare export` writes it and people type it: YAML, or JSON.
 *
 * @param text    [length] bytes of UTF-8
 * @param name    said in messages in front of line and column; NULL: "text"
 * @param folder  where the meshes and outlines that parts name are looked for; NULL: nowhere, and
 *                estimates stand in for them (pare_snapshot_note)
 * @param[out] snapshot  likewise
 * @return PARE_OK; PARE_UNKNOWN: a key or name that is not known, with the nearest one;
 *         PARE_BAD_DATA: anything else that cannot be right, as name:line:column: what, what would be
 *         right; PARE_UNAVAILABLE: no memory */
PARE_PUBLIC pare_status pare_snapshot_of_text(const char *text, size_t length, const char *name,
                                              const char *folder, pare_snapshot **snapshot,
                                              pare_error *err);

/** NULL is fine. */
PARE_PUBLIC void pare_snapshot_close(pare_snapshot *snapshot);

/** One line for each thing that the reader of a text did not find or had to mend.
 * @param index  from 0; NULL is returned beyond the last */
PARE_PUBLIC const char *pare_snapshot_note(const pare_snapshot *snapshot, size_t index);

/** Names of its craft, ascending. @param index  from 0; NULL is returned beyond the last */
PARE_PUBLIC const char *pare_snapshot_craft(const pare_snapshot *snapshot, size_t index);

/** Names of a craft's loadouts, the one that is flown where none is named first.
 * @return NULL beyond the last, or where there is no such craft */
PARE_PUBLIC const char *pare_snapshot_loadout(const pare_snapshot *snapshot, const char *craft,
                                              size_t index);

/** In what the bench counts money: "EUR". */
PARE_PUBLIC const char *pare_snapshot_money(const pare_snapshot *snapshot);

PARE_END

#endif

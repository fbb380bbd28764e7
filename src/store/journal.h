/* journal.h: lines that are only ever added to a file, each with its sum, so that long work which was ended at any
 * moment goes on with what it had.
 *
 * A line is 16 hexadecimal digits of its sum, a blank, its text. The first says whose journal it is. What
 * was cut off at the end, by a kill or a full disk, is taken away when the journal is opened again; a line
 * in the middle that is not what its sum says is passed over and counted. */
#ifndef PARE_STORE_JOURNAL_H
#define PARE_STORE_JOURNAL_H

#include <stddef.h>

#include "base/error.h"

typedef struct pare_journal pare_journal;

/** Takes a line that was there; its text is good until it returns. */
typedef pare_status (*pare_journal_take)(void *context, const char *text, pare_error *err);

/** Opens a journal, or makes it, and hands over each line that it holds.
 *
 * @param title        one line: whose it is
 * @param[out] journal  close with pare_journal_close(); NULL on failure
 * @param[out] damaged  lines that were passed over
 * @return PARE_OK; PARE_BAD_DATA: no journal, or one of another title, with its own; PARE_UNAVAILABLE: in use
 *         by another program, no permission, disk full; what `take` returned */
pare_status pare_journal_open(const char *path, const char *title, pare_journal_take take,
                              void *context, pare_journal **journal, size_t *damaged,
                              pare_error *err);

/** Adds a line, in one write: it is there whatever ends the program; and after a second at most, or
 * pare_journal_sync(), whatever ends the machine.
 * @return PARE_OK; PARE_UNAVAILABLE: the disk is full or gone. The file then ends with the line before */
pare_status pare_journal_add(pare_journal *journal, const char *text, pare_error *err);

pare_status pare_journal_sync(pare_journal *journal, pare_error *err);

/** NULL is fine. */
void pare_journal_close(pare_journal *journal);

#endif

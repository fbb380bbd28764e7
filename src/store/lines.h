/* lines.h: long texts to and from the disk, a line at a time: whatever their length, the memory is a line's. */
#ifndef PARE_STORE_LINES_H
#define PARE_STORE_LINES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

typedef struct pare_lines_out pare_lines_out;

/** Begins a file beside the one of that name, which stays as it is until pare_lines_keep().
 * @param[out] lines  NULL on failure
 * @return PARE_OK; PARE_BAD_DATA: a folder or other thing of that name; PARE_UNAVAILABLE: no such folder, no
 *         permission, no memory */
pare_status pare_lines_begin(const char *path, pare_lines_out **lines, pare_error *err);
/** One line, without its end. False: it could not be written; pare_lines_keep() says why. */
bool pare_lines_put(pare_lines_out *lines, const char *line);
/** Brings it to disk and puts it in place of what was there. Closes it, also on failure.
 * @return PARE_UNAVAILABLE where it cannot: what was there stays */
pare_status pare_lines_keep(pare_lines_out *lines, pare_error *err);
/** Closes it and leaves what was there; NULL is fine. */
void pare_lines_drop(pare_lines_out *lines);

typedef struct pare_lines_in pare_lines_in;

/** @param[out] lines  NULL on failure
 * @return PARE_OK; PARE_BAD_DATA: not there, a folder, not readable; PARE_UNAVAILABLE: no memory */
pare_status pare_lines_open(const char *path, pare_lines_in **lines, pare_error *err);
enum { PARE_LINES_END = -1, PARE_LINES_TOO_LONG = -2, PARE_LINES_FAILED = -3 };
/** The next line, without its end.
 * @param size  of line; a line that does not fit with its zero is too long
 * @return how long it is; or one of the above. Control characters, and a last line without its end, count
 *         as too long a line: a text of ours has neither */
int pare_lines_get(pare_lines_in *lines, size_t size, char line[]);
void pare_lines_close(pare_lines_in *lines);

#endif

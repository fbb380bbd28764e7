/* error.h: how every room says that something went wrong.
 *
 * A function that can fail returns a pare_status and takes a pare_error as its last argument. The
 * status is the exit code of the program; the text is one line, made once, low down, and read by a
 * person: what was found and what would be right. Callers that know where (a file, a part) put that
 * in front with pare_within(). Nothing is global, so threads and forgotten errors cannot mix. */
#ifndef PARE_BASE_ERROR_H
#define PARE_BASE_ERROR_H

#include <pare/error.h> /* pare_status, pare_error: users of the library see the same */

/** Sets the error and returns its status, so that `return pare_fail(...)` reads well.
 *
 * Control characters in the text, which can only come from hostile input, become '?'.
 * @param err  may be NULL: then only the status travels */
#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
pare_status
pare_fail(pare_error *err, pare_status status, const char *format, ...);

/** Puts "where: " in front of an error that a callee made; returns its status. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
pare_status
pare_within(pare_error *err, const char *format, ...);

/** The one text for a failed allocation. */
pare_status pare_no_memory(pare_error *err);

#endif

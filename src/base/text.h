/* text.h: strings that grow, days, and the nearest known name for a mistyped one. */
#ifndef PARE_BASE_TEXT_H
#define PARE_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

/** A growing string. Zero-initialise; free with pare_text_free(). When memory runs out it keeps
 * what it has, sets failed and ignores what comes, so a writer checks once, at its end. */
typedef struct pare_text {
    char *bytes; /* NUL-terminated once anything was put in; NULL before */
    size_t length, size;
    bool failed;
} pare_text;

void pare_text_put(pare_text *text, const char *bytes, size_t length);
void pare_text_add(pare_text *text, const char *string);
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void
pare_text_printf(pare_text *text, const char *format, ...);
void pare_text_free(pare_text *text);

/** All of it: "" where nothing was put in. Lent until it grows or is freed. */
const char *pare_text_all(const pare_text *text);

/** Whether anything was put in, or would have been, had there been memory: then it is to be passed on, so that
 * whoever gets it fails as well. */
bool pare_text_any(const pare_text *text);

/** How long it is without the blanks at its end. @param bytes  [length] */
size_t pare_text_trimmed(const char *bytes, size_t length);

/** Puts texts behind one another, cut where room ends. What snprintf would do with as many %s, in a tenth
 * of its time: a list of swaps has thousands of names to make. @param room  [size], 1 or more */
void pare_text_join(size_t size, char room[], size_t count, const char *const texts[]);

/** Whether a text is a day of the calendar as ISO 8601 writes it: "2026-03-01". 29 February passes in
 * every year. */
bool pare_text_is_day(const char *text);

/** Whether two names are the same. Here, and by their first letters first, because a craft is searched
 * by name for every figure and most of its names differ there. */
static inline bool pare_same_name(const char *a, const char *b)
{
    return a[0] == b[0] && strcmp(a, b) == 0;
}

/** The known name nearest to a mistyped one, or NULL when none is near.
 *
 * Near: at most a third of the longer name's letters differ (insert, delete, replace or swap two
 * neighbours), at least one; capitals are no difference. Ties: the first in the list. Where none is
 * near, the only name that begins with the word, from three letters on.
 * @param count  names in the list; a NULL entry is skipped */
const char *pare_nearest(const char *word, size_t count, const char *const known[]);

#endif

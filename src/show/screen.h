/* screen.h: what a terminal can show, and text laid out on it. */
#ifndef PARE_SHOW_SCREEN_H
#define PARE_SHOW_SCREEN_H

#include <stdbool.h>

#include "base/text.h"

enum { PARE_SCREEN_LEAST = 60, PARE_SCREEN_MOST = 240 };

/** How wide, which signs, whether colour. Everything must read well without colour. */
typedef struct pare_screen {
    int width; /* columns, PARE_SCREEN_LEAST .. PARE_SCREEN_MOST */
    bool utf8, colour;
} pare_screen;

/** The sign of an uncertainty: a plus-minus, "+-" in ASCII. */
const char *pare_screen_plus_minus(const pare_screen *screen);

/** Columns that a text takes: one a character. */
int pare_columns(const char *text);

/** Spaces; none for count below 1. */
void pare_put_spaces(pare_text *out, int count);
/** A text in a field of so many columns; a longer one runs over. */
void pare_put_left(pare_text *out, const char *text, int columns);
void pare_put_right(pare_text *out, const char *text, int columns);

/** A heading: bold where there is colour, then a newline. */
void pare_put_heading(const pare_screen *screen, pare_text *out, const char *text);

/** A label in a field of PARE_LABEL columns, and words broken at spaces to the screen's width, each
 * further line indented below the first. A label "" leaves the field empty. */
enum { PARE_LABEL = 15 };
void pare_put_labelled(const pare_screen *screen, pare_text *out, const char *label,
                       const char *text);

/** The same of a line that was made piece by piece, and is freed here; out->failed where it has failed. */
void pare_put_labelled_line(const pare_screen *screen, pare_text *out, const char *label,
                            pare_text *line);

/** The rest of a row, made piece by piece, and freed here, after `already` columns; further lines from another on;
 * out->failed where it has failed. */
void pare_put_rest(const pare_screen *screen, pare_text *out, int already, int further,
                   pare_text *line);

/** A line that was made piece by piece, and is freed here, from one column on and further ones from another;
 * out->failed where it has failed. */
void pare_put_line(const pare_screen *screen, pare_text *out, int first, int further,
                   pare_text *line);

/** Words broken at spaces: the first line after `already` columns, each further one after `indent`.
 * Ends with a newline. */
void pare_put_wrapped(const pare_screen *screen, pare_text *out, int already, int indent,
                      const char *text);

#endif

/* trace.h: one flight as one curve, with the craft's own point marked: JSON, text, a sentence. */
#ifndef PARE_SHOW_TRACE_H
#define PARE_SHOW_TRACE_H

#include <jansson.h>

#include "craft/trace.h"
#include "show/screen.h"
#include "show/sheet_view.h"

/** "minutes", "current", "sag", "wire" or "roll"; -1 for another name. */
int pare_trace_named(const char *name);
const char *pare_trace_name(pare_trace_of which);

/** {craft, loadout, tried, of, words, sentence, run, x{name, unit, values}, y{...}, marks[{name, x, y,
 * y_u}], why}. run stands only with a wire's, why only where there is no point. NULL: no memory. */
json_t *pare_trace_object(const pare_sheet_view *view, pare_trace_of which);

/** The sentence and a dozen of the points. */
void pare_trace_text(const pare_sheet_view *view, pare_trace_of which, const pare_screen *screen,
                     pare_text *out);

#endif

/* json.h: the two things that every JSON answer shares: its numbers and its layout. */
#ifndef PARE_SHOW_JSON_H
#define PARE_SHOW_JSON_H

#include <jansson.h>
#include <stdbool.h>

#include "base/text.h"

/** A number to ten significant digits, so that the same answer is the same bytes everywhere; null
 * for what is not finite. */
json_t *pare_json_number(double value);

/** Writes an object, keys in the order in which they were set, and releases it. NULL, which jansson
 * gives when memory runs out, marks the text as failed. */
void pare_json_write(json_t *object, pare_text *out);

/** {"key": [...]} written one object after another, so that a long list is never held as objects: the
 * same bytes as pare_json_write() of all of it.
 * @param one  released */
void pare_json_list_begin(const char *key, pare_text *out);
/** The same, as the last entry of an object, which is released. */
void pare_json_list_begin_in(json_t *object, const char *key, pare_text *out);
void pare_json_list_put(json_t *one, bool first, pare_text *out);
void pare_json_list_end(bool empty, pare_text *out);

#endif

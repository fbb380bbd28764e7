/* csv_out.h: a field of a table in text, as csv.h reads it. */
#ifndef PARE_STORE_CSV_OUT_H
#define PARE_STORE_CSV_OUT_H

#include "base/text.h"

/** Puts one field, in quotes where any of the usual separators, a quote or blanks at its ends ask for them
 * (RFC 4180). */
void pare_csv_add_field(const char *text, pare_text *out);

#endif

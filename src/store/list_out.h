/* list_out.h: the bench's lists for other programs: as JSON, and as CSV for a spreadsheet. */
#ifndef PARE_STORE_LIST_OUT_H
#define PARE_STORE_LIST_OUT_H

#include "store/bench.h"
#include "store/csv_list.h"

/** The whole bench as JSON: the same maps and lists as pare_store_export_yaml() gives, a line a part.
 *
 * Reading that text is what an import does, so importing it gives the same bench. A plain number, true
 * and false are JSON's own; every other value, as all with a unit, is a string. */
pare_status pare_store_export_json(pare_store *store, pare_text *out, pare_error *err);

/** One list as CSV after RFC 4180, in the column names that an import knows; a unit that a column's
 * first number has stands over it, another stays in its cell.
 *
 * @param list  parts, weigh-ins, flights or stand tables
 * @param arena holds what is said of what has no place in a flat list
 * @param[out] rows  besides the head
 * @param[out] left  [lefts] one line each: "body of 12 parts"
 * @return PARE_OK; PARE_BAD_DATA: stand tables whose columns are in different units, of which a list
 *         can only say one; PARE_UNAVAILABLE */
pare_status pare_store_export_csv(pare_store *store, pare_list_kind list, pare_text *out,
                                  pare_arena *arena, size_t *rows, size_t *lefts,
                                  const char *const **left, pare_error *err);

#endif

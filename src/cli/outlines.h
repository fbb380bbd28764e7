/* outlines.h: the outlines of a craft's plates, out of the bench. */
#ifndef PARE_CLI_OUTLINES_H
#define PARE_CLI_OUTLINES_H

#include "cli/use.h"
#include "show/silhouette.h"

/** The outlines of all plates on the craft, as far as the bench keeps their drawings; each file once.
 * @param[out] outline  [count], in the bench's arena */
pare_status bench_outlines(const bench_in_use *use, const pare_craft *craft, size_t *count,
                           pare_plate_outline **outline, pare_error *err);

#endif

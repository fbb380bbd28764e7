/* growth_plot.h: how a search grows with the bench: what one process says of it, and the picture. */
#ifndef PARE_SPEED_GROWTH_PLOT_H
#define PARE_SPEED_GROWTH_PLOT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

typedef struct growth {
    size_t parts;
    double combinations_log10; /* of what names alone allow */
    double clock_s, spent_s,
        busiest_s; /* passed; all threads' processor time; that of the busiest */
    bool proven;
    double gap_g; /* between best and bound; NAN: no set was found */
    double before_mb, peak_mb;
    unsigned long long digest; /* of the answer */
} growth;

/** Two charts on a page, both axes in powers of ten: time against parts and against combinations. What was
 * not proven is a ring in place of a dot: it would have taken longer.
 * @param path  of an SVG */
pare_status growth_draw(size_t count, const growth of[], const char *path, pare_error *err);

#endif

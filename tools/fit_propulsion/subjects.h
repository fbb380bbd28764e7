/* subjects.h: what is fitted. Each prints its error tables on stdout and writes a C source of
 * constants, formatted as the project's sources are.
 *
 * @param data_folder  the folder of the measurements
 * @return false where data are missing or a fit failed, said on stderr */
#ifndef FIT_SUBJECTS_H
#define FIT_SUBJECTS_H

#include <stdbool.h>
#include <stdio.h>

/** Where a subject's results go. */
typedef struct fit_to {
    FILE *constants;      /* NULL for one that has none */
    const char *pictures; /* the folder (plot.h) */
    const char *page;     /* docs/physics.md, or a copy (page.h) */
} fit_to;

typedef bool fit_subject(const char *data_folder, const fit_to *to);
fit_subject fit_prop, fit_drive, fit_cells, fit_pair, fit_chain, fit_floor;

#endif

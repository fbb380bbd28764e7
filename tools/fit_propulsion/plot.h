/* plot.h: pictures of how well the models agree with the measurements, as SVG. */
#ifndef FIT_PLOT_H
#define FIT_PLOT_H

#include <stdbool.h>
#include <stddef.h>

enum { FIT_PLOT_CLASSES = 8 };

/** Points of some classes, each measured and predicted. */
typedef struct fit_plot {
    const char *title, *note; /* note: a second, smaller line; NULL: none */
    const char *quantity;     /* what is measured and predicted, with its unit */
    const char *x_label;      /* of fit_plot_runs() alone */
    size_t count;
    const double *x; /* [count] of fit_plot_runs() alone */
    const double *measured, *predicted;
    const unsigned *kind; /* [count] which class; NULL: all are of class 0 */
    size_t kinds;         /* 1 .. FIT_PLOT_CLASSES */
    const char *const *kind_name;
} fit_plot;

/** Points as they come up, to be plotted together. Start from {0}; where memory runs out, `lost` says so
 * and the points until then stay. */
typedef struct fit_points {
    size_t count, room;
    double *x, *measured, *predicted;
    unsigned *kind;
    bool lost;
} fit_points;

void fit_points_add(fit_points *points, double x, double measured, double predicted, unsigned kind);
void fit_points_free(fit_points *points);

/** Predicted against measured, both logarithmic, with the line where they are equal and a band of
 * 10 % about it; the key says each class's median and 90th percentile error. Values of 0 or less are
 * left out.
 * @param folder, name  the file is FOLDER/NAME.svg
 * @return false where the file cannot be written or no point is left, said on stderr */
bool fit_plot_agreement(const char *folder, const char *name, const fit_plot *plot);

/** Measured as dots and predicted as a line, over x; a class is a run, its points in order of x. */
bool fit_plot_runs(const char *folder, const char *name, const fit_plot *plot);

#endif

/* curve_words.h: what each curve is called and in which units it is shown. */
#ifndef PARE_SHOW_CURVE_WORDS_H
#define PARE_SHOW_CURVE_WORDS_H

#include "craft/curve.h"

typedef struct pare_curve_axis {
    const char *key;   /* in JSON: "all_up_g" */
    const char *words; /* "all-up mass" */
    const char *unit;  /* "g"; "" for a ratio */
    double scale;      /* SI times this is the figure in its unit */
} pare_curve_axis;

typedef struct pare_curve_row {
    const char *name;  /* in JSON: "minutes" */
    const char *words; /* "minutes as flown, by mass" */
    pare_curve_axis x, y;
    bool from_zero;     /* y starts there, so that heights compare */
    pare_figure figure; /* whose doubt its points share */
} pare_curve_row;

extern const pare_curve_row pare_curve_table[PARE_CURVES];

/** The standard uncertainty of a point as a share of it; 0: not known. */
double pare_curve_u_share(const pare_sheet *sheet, pare_curve_of which);

#endif

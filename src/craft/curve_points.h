/* curve_points.h: inside the craft room: points onto a curve, only such as exist. */
#ifndef PARE_CRAFT_CURVE_POINTS_H
#define PARE_CRAFT_CURVE_POINTS_H

#include "craft/curve.h"

/** Appends; a point that is no number, or has no room any more, is left out. */
void pare_curve_put(pare_curve_line *line, double x, double y);
void pare_curve_put_mark(pare_curve_chart *curve, const char *name, double x, double y);

/** Keeps the error as the reason of a curve without a point. */
void pare_curve_explain(pare_curve_chart *curve, const pare_error *err);

#endif

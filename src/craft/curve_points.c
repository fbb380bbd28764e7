/* curve_points.c: points onto a curve (see curve_points.h). */
#include "craft/curve_points.h"

#include <math.h>
#include <stdio.h>

void pare_curve_put(pare_curve_line *line, double x, double y)
{
    if (line->points == PARE_CURVE_POINTS || !isfinite(x) || !isfinite(y))
        return;
    line->x[line->points] = x;
    line->y[line->points++] = y;
}

void pare_curve_put_mark(pare_curve_chart *curve, const char *name, double x, double y)
{
    if (curve->marks == PARE_CURVE_MARKS || !isfinite(x) || !isfinite(y))
        return;
    curve->mark[curve->marks++] = (pare_curve_mark){name, x, y};
}

void pare_curve_explain(pare_curve_chart *curve, const pare_error *err)
{
    bool any = false;
    for (size_t i = 0; i < curve->lines; i++)
        any = any || curve->line[i].points > 0;
    if (!any)
        snprintf(curve->why, sizeof curve->why, "%.*s", (int)sizeof curve->why - 1, err->text);
}

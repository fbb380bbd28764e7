/* front_scale.c: where a front lies on a chart (see front_scale.h). */
#include "show/front_scale.h"

#include <math.h>
#include <stdio.h>

#include "show/draw_inside.h"

double pare_front_shown(const pare_front_point *point, pare_front_wish wish)
{
    return wish == PARE_FRONT_GRAMS   ? 1e-4 * (double)point->mass_100ug
           : wish == PARE_FRONT_MONEY ? 1e-2 * (double)point->money_cents
                                      : (double)point->flown_ms / 60000;
}

const char *pare_front_unit(const pare_front_chart *chart, pare_front_wish wish, char text[48])
{
    if (wish == PARE_FRONT_MONEY)
        snprintf(text, 48, "%.40s", chart->money && *chart->money ? chart->money : "money");
    else
        snprintf(text, 48, "%s", wish == PARE_FRONT_GRAMS ? "all-up, g" : "minutes");
    return text;
}

const char *pare_front_amount(const pare_front_chart *chart, const pare_front_point *point,
                              pare_front_wish wish, char text[64])
{
    char unit[48];
    if (wish == PARE_FRONT_MONEY)
        snprintf(text, 64, "%.2f %s", pare_front_shown(point, wish),
                 pare_front_unit(chart, wish, unit));
    else
        snprintf(text, 64, "%.1f %s", pare_front_shown(point, wish),
                 wish == PARE_FRONT_GRAMS ? "g" : "min");
    return text;
}

static void widen(pare_front_scale *s, const pare_front_point *point)
{
    const double at[2] = {pare_front_shown(point, s->across), pare_front_shown(point, s->up)};
    for (int i = 0; i < 2; i++) {
        s->low[i] = fmin(s->low[i], at[i]);
        s->high[i] = fmax(s->high[i], at[i]);
    }
}

bool pare_front_scale_of(const pare_front_chart *chart, const int numbers[2],
                         pare_front_scale *scale)
{
    const bool turned = chart->pair[0] == PARE_FRONT_MINUTES;
    *scale = (pare_front_scale){.up = chart->pair[turned ? 1 : 0],
                                .across = chart->pair[turned ? 0 : 1],
                                .low = {(double)INFINITY, (double)INFINITY},
                                .high = {-(double)INFINITY, -(double)INFINITY}};
    if (chart->count == 0)
        return false;
    for (size_t i = 0; i < chart->count; i++)
        widen(scale, &chart->point[i]);
    if (chart->now)
        widen(scale, chart->now);
    for (int i = 0; i < 2; i++) {
        const double span = scale->high[i] - scale->low[i];
        const double room = span > 0 ? 0.05 * span : 1;
        scale->low[i] -= room;
        scale->high[i] += room;
        scale->step[i] = pare_nice_step(scale->high[i] - scale->low[i], numbers[i]);
    }
    return true;
}

double pare_front_reach(const pare_front_chart *chart, const pare_front_scale *scale, double across)
{
    double best = (double)NAN;
    for (size_t i = 0; i < chart->count; i++) {
        const double x = pare_front_shown(&chart->point[i], scale->across);
        const double y = pare_front_shown(&chart->point[i], scale->up);
        const bool has = scale->across == PARE_FRONT_MINUTES ? x >= across : x <= across;
        if (has && !(best <= y))
            best = y;
    }
    return best;
}

void pare_front_sentence(const pare_front_chart *chart, pare_text *out)
{
    size_t knees = 0;
    for (size_t i = 0; i < chart->count; i++)
        knees += chart->point[i].knee;
    if (chart->count == 0) {
        pare_text_add(out, chart->whole ? "no set does what the brief asks"
                                        : "stopped before any set was found that meets the brief");
        return;
    }
    pare_text_printf(out, "%zu set%s that nothing beats in %s and %s", chart->count,
                     chart->count == 1 ? "" : "s", pare_front_wish_name(chart->pair[0]),
                     pare_front_wish_name(chart->pair[1]));
    if (knees)
        pare_text_printf(out, ", %zu of them %s", knees, knees == 1 ? "a knee" : "knees");
    if (!chart->whole)
        pare_text_add(out, "; there may be more");
}

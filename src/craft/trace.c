/* trace.c: how one flight goes (see trace.h).
 *
 * Each point asks the flight model anew, as curve.c does, so that a trace goes through the sheet's own
 * figures: the volts of a cell so long after take-off are those of a flight that lands on the charge
 * left then, and so is its time. */
#include "craft/trace.h"

#include <math.h>
#include <string.h>

#include "craft/curve_points.h"
#include "craft/flight.h"
#include "craft/gauges.h"

enum { LAST = PARE_CURVE_POINTS - 1 };

#define TAKE_OFF    1e-6 /* of the charge, below which nothing has been flown yet */
#define ROLL_SPAN_S 0.15
#define ROLL_AT_S   0.1 /* as pare_quickness has it */
#define NAME_FLOWN  "as flown"
#define SAME_TIME   1e-9 /* of the flight: two points of a trace that close are one */

/* ---- over speed ---- */

/* The speed that the brief flies for the longest; NAN: none. */
static double own_speed(const pare_craft *craft)
{
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    double share = 0, speed_m_s = (double)NAN;
    for (size_t i = 0; i < entries; i++)
        if (flown[i].as == PARE_FLOWN_SPEED && flown[i].share > share) {
            share = flown[i].share;
            speed_m_s = flown[i].level;
        }
    return speed_m_s;
}

typedef double (*by_speed)(const pare_craft *craft, const pare_rig *rig, double speed_m_s,
                           pare_error *err);

static double lands_after(const pare_craft *craft, const pare_rig *rig, double speed_m_s,
                          pare_error *err)
{
    const pare_flown all = {.as = PARE_FLOWN_SPEED, .share = 1, .level = speed_m_s};
    const pare_landing landing = pare_brief_landing(&craft->brief, rig->pack.chemistry);
    pare_endurance endured;
    return pare_rig_endure(rig, 1, &all, &landing, &endured, err) == PARE_OK ? endured.time_s
                                                                             : (double)NAN;
}

static double draws(const pare_craft *craft, const pare_rig *rig, double speed_m_s, pare_error *err)
{
    (void)craft;
    pare_operating point;
    return pare_rig_level(rig, speed_m_s, PARE_CHARGE_HALF, &point, err) == PARE_OK ? point.pack_a
                                                                                    : (double)NAN;
}

static void over_speed(const pare_craft *craft, const pare_sheet *sheet, by_speed of,
                       pare_curve_chart *chart)
{
    const pare_rig *rig = &sheet->rig;
    const double own_m_s = own_speed(craft);
    const pare_sheet_figure *range = &sheet->figure[PARE_BEST_RANGE_SPEED];
    pare_error err = {0};
    double top_m_s;
    if (pare_rig_top_speed(rig, PARE_CHARGE_HALF, &top_m_s, &err) != PARE_OK)
        top_m_s = 0;
    for (int i = 0; i <= (top_m_s > 0 ? LAST : 0); i++) {
        const double speed_m_s = top_m_s * i / LAST;
        pare_curve_put(&chart->line[0], speed_m_s, of(craft, rig, speed_m_s, &err));
    }
    if (isfinite(own_m_s))
        pare_curve_put_mark(chart, NAME_FLOWN, own_m_s, of(craft, rig, own_m_s, NULL));
    pare_curve_put_mark(chart, "hover", 0, of(craft, rig, 0, NULL));
    if (range->exists)
        pare_curve_put_mark(chart, "best range", range->value, of(craft, rig, range->value, NULL));
    pare_curve_explain(chart, &err);
}

/* ---- over the flight ---- */

static void sag(const pare_craft *craft, const pare_sheet *sheet, pare_curve_chart *chart)
{
    const pare_rig *rig = &sheet->rig;
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    const pare_landing landing = pare_brief_landing(&craft->brief, rig->pack.chemistry);
    pare_endurance whole, part;
    pare_error err = {0};
    if (pare_rig_endure(rig, entries, flown, &landing, &whole, &err) != PARE_OK) {
        pare_curve_explain(chart, &err);
        return;
    }
    for (int i = 0; i < LAST; i++) {
        const double drawn = fmax((1 - whole.charge_end) * i / LAST, TAKE_OFF);
        const pare_landing then = {.cell_v = landing.cell_v, .charge = 1 - drawn};
        if (pare_rig_endure(rig, entries, flown, &then, &part, &err) == PARE_OK)
            pare_curve_put(&chart->line[0], i ? part.time_s : 0, part.least_cell_v);
    }
    pare_curve_put(&chart->line[0], whole.time_s, whole.least_cell_v);
    pare_curve_put_mark(chart, "landing", whole.time_s, whole.least_cell_v);
    pare_curve_explain(chart, &err);
}

static const pare_run *hottest_run(const pare_craft *craft, const pare_sheet *sheet)
{
    const pare_run *hottest = NULL;
    double most_degc = -INFINITY;
    for (size_t i = 0; i < craft->runs; i++) {
        const double degc = pare_run_flown_degc(craft, sheet, &craft->run[i]);
        if (degc > most_degc) {
            most_degc = degc;
            hottest = &craft->run[i];
        }
    }
    return hottest;
}

/* Times of the points: evenly, and where one entry ends and the next begins, as the peaks are there.
 * Of an even one that falls on such an end there is one. */
static size_t times(size_t stretches, const pare_wire_stretch stretch[],
                    double at_s[PARE_CURVE_POINTS])
{
    const size_t even = PARE_CURVE_POINTS - stretches;
    size_t count = 0, next = 0;
    double whole_s = 0, end_s = 0;
    for (size_t i = 0; i < stretches; i++)
        whole_s += stretch[i].seconds;
    for (size_t i = 0; i < stretches; i++) {
        const double begin_s = end_s;
        end_s += stretch[i].seconds;
        for (; next < even; next++) {
            const double then_s = whole_s * (double)next / (double)even;
            if (then_s > end_s - SAME_TIME * whole_s)
                break;
            if (next == 0 || then_s > begin_s + SAME_TIME * whole_s)
                at_s[count++] = then_s;
        }
        if (stretch[i].seconds > SAME_TIME * whole_s)
            at_s[count++] = end_s;
    }
    return count;
}

/* The copper so long after take-off. */
static double copper_degc(const pare_wire_load *load, size_t stretches,
                          const pare_wire_stretch stretch[], double time_s)
{
    pare_wire_stretch flown[PARE_FLOWN];
    pare_wire_heat heat;
    size_t count = 0;
    for (double left_s = time_s; count < stretches && left_s > 0; count++) {
        flown[count] = stretch[count];
        /* Sums of stretches differ in the last bits from the whole. */
        if (left_s < stretch[count].seconds * (1 - SAME_TIME))
            flown[count].seconds = left_s;
        left_s -= flown[count].seconds;
        if (left_s < SAME_TIME * time_s)
            left_s = 0;
    }
    return pare_wire_flown(load, load->ambient_degc, count, flown, &heat, NULL, NULL) == PARE_OK
               ? heat.conductor_degc
               : (double)NAN;
}

static void wire(const pare_craft *craft, const pare_sheet *sheet, pare_curve_chart *chart)
{
    const pare_run *run = hottest_run(craft, sheet);
    pare_wire_stretch stretch[PARE_FLOWN];
    pare_wire_load load;
    pare_error err = {0};
    size_t stretches;
    double at_s[PARE_CURVE_POINTS];
    if (!run || !pare_run_stretches(craft, sheet, run, &stretches, stretch, &load)) {
        pare_fail(&err, PARE_BAD_DATA, "%s",
                  sheet->figure[PARE_FLOWN_TIME].exists
                      ? "no run of wire that carries the pack's, an ESC's or a motor's current is "
                        "described, or it melts"
                      : sheet->figure[PARE_FLOWN_TIME].why);
        pare_curve_explain(chart, &err);
        return;
    }
    const size_t count = times(stretches, stretch, at_s);
    size_t hottest = 0;
    pare_curve_line *line = &chart->line[0];
    line->name = run->name;
    for (size_t i = 0; i < count; i++)
        pare_curve_put(line, at_s[i], copper_degc(&load, stretches, stretch, at_s[i]));
    for (size_t i = 1; i < line->points; i++)
        if (line->y[i] > line->y[hottest])
            hottest = i;
    if (line->points)
        pare_curve_put_mark(chart, "hottest", line->x[hottest], line->y[hottest]);
}

/* ---- after the stick ---- */

static void roll(const pare_sheet *sheet, pare_curve_chart *chart)
{
    pare_quickness quick;
    pare_error err = {0};
    if (pare_rig_quickness(&sheet->rig, PARE_CHARGE_FRESH, &quick, &err) == PARE_OK) {
        for (int i = 0; i <= LAST; i++) {
            const double time_s = ROLL_SPAN_S * i / LAST;
            pare_curve_put(&chart->line[0], time_s,
                           pare_roll_rate(quick.roll_rad_s2, quick.lag_s, time_s));
        }
        pare_curve_put_mark(chart, "after 0.1 s", ROLL_AT_S, quick.rate_01_rad_s);
    }
    pare_curve_explain(chart, &err);
}

void pare_trace(const pare_craft *craft, const pare_sheet *sheet, pare_trace_of which,
                pare_curve_chart *chart)
{
    *chart = (pare_curve_chart){.lines = 1, .level = (double)NAN};
    switch (which) {
    case PARE_TRACE_MINUTES:
        over_speed(craft, sheet, lands_after, chart);
        return;
    case PARE_TRACE_CURRENT:
        over_speed(craft, sheet, draws, chart);
        return;
    case PARE_TRACE_SAG:
        sag(craft, sheet, chart);
        return;
    case PARE_TRACE_WIRE:
        wire(craft, sheet, chart);
        return;
    case PARE_TRACE_ROLL:
        roll(sheet, chart);
        return;
    case PARE_TRACES:
        return;
    }
}

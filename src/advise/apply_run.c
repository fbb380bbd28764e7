/* apply_run.c: thinner wire, and wire cut to length (see edit.h).
 *
 * How warm thinner wire gets, and what its connector and the ESC say to that, are margins of the sheet;
 * a caution stands beside such a swap all the same. Shorter wire is cooler wire: nothing is open there. */
#include <stdio.h>

#include "advise/edit.h"
#include "advise/work.h"

/* The run of a name, or NULL with err set. */
static pare_run *find_run(pare_craft *craft, const char *name, pare_error *err)
{
    const int found = pare_craft_run(craft, name);
    if (found >= 0)
        return &craft->run[found];
    const char *known[PARE_RUNS];
    for (size_t i = 0; i < craft->runs; i++)
        known[i] = craft->run[i].name;
    pare_edit_no_such(craft, "run", name, craft->runs, known, err);
    return NULL;
}

static double conductors_m(const pare_run *run)
{
    double length_m = 0;
    for (size_t i = 0; i < run->ways; i++)
        length_m += run->way_m[i];
    return run->times * length_m;
}

static void set_gauge(pare_edit *edit, pare_run *run, double gauge)
{
    pare_applied *applied = edit->applied;
    snprintf(applied->from, sizeof applied->from, "%g AWG", run->gauge);
    snprintf(applied->to, sizeof applied->to, "%g AWG", gauge);
    applied->hotter = true;
    if (gauge == run->gauge)
        return;
    run->gauge = gauge;
    run->outer_m = 0; /* the usual for the gauge */
    applied->work_min = pare_work_wire_min((int)run->ways * run->times);
    pare_basket_wire(edit->basket, gauge, conductors_m(run));
}

static void set_length(pare_edit *edit, pare_run *run, double length_m)
{
    pare_applied *applied = edit->applied;
    const double needed_m = pare_run_needed_m(edit->craft, run);
    double longest_m = 0, added_m = 0;
    for (size_t i = 0; i < run->ways; i++) {
        longest_m = run->way_m[i] > longest_m ? run->way_m[i] : longest_m;
        added_m += length_m > run->way_m[i] ? length_m - run->way_m[i] : 0;
        run->way_m[i] = length_m;
    }
    snprintf(applied->from, sizeof applied->from, "%.4g mm", 1e3 * longest_m);
    snprintf(applied->to, sizeof applied->to, "%.4g mm", 1e3 * length_m);
    if (needed_m > 0 && length_m < needed_m - 1e-6)
        pare_edit_warn(edit, "run.%s needs %.0f mm to reach", run->name, 1e3 * needed_m);
    const int conductors = (int)run->ways * run->times;
    applied->work_min =
        added_m > 0 ? pare_work_wire_min(conductors) : pare_work_wire_cut_min(conductors);
    if (added_m > 0)
        pare_basket_wire(edit->basket, run->gauge, conductors_m(run));
}

pare_status pare_apply_run(pare_edit *edit, const pare_swap_name *name, pare_error *err)
{
    pare_run *run = find_run(edit->craft, name->of, err);
    if (!run)
        return PARE_UNKNOWN;
    if (name->what == PARE_WHAT_RUN_GAUGE)
        set_gauge(edit, run, name->number);
    else
        set_length(edit, run, name->number);
    return PARE_OK;
}

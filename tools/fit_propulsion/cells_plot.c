/* cells_plot.c: pictures of cells under load, each predicted by a fit that did not see it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cells_report.h"
#include "plot.h"

typedef struct drawn {
    fit_points points;
    size_t kinds;
    char text[FIT_PLOT_CLASSES][48];
    const char *name[FIT_PLOT_CLASSES];
} drawn;

static void add_run(drawn *d, const cell_run *run, const cell_judged_run *judged)
{
    if (judged->points == 0 || d->kinds == FIT_PLOT_CLASSES)
        return;
    snprintf(d->text[d->kinds], sizeof d->text[d->kinds], "%s at %.2g C", run->cell, run->rate);
    d->name[d->kinds] = d->text[d->kinds];
    for (size_t i = 0; i < judged->points; i++)
        fit_points_add(&d->points, 1 - judged->point[i].charge, judged->point[i].measured_v,
                       judged->point[i].volts, (unsigned)d->kinds);
    d->kinds++;
}

static bool draw(drawn *d, const char *folder, const char *name, const char *title,
                 const char *note)
{
    const fit_plot plot = {.title = title,
                           .note = note,
                           .quantity = "cell volts under load, V",
                           .x_label = "share of the stated capacity drawn",
                           .count = d->points.count,
                           .x = d->points.x,
                           .measured = d->points.measured,
                           .predicted = d->points.predicted,
                           .kind = d->points.kind,
                           .kinds = d->kinds,
                           .kind_name = d->name};
    const bool fine = !d->points.lost && fit_plot_runs(folder, name, &plot);
    fit_points_free(&d->points);
    return fine;
}

bool cell_draw_ion(const char *folder, const cell_data *data, const cell_judged *left_out)
{
    drawn d = {.kinds = 0};
    for (size_t i = 0; i < data->runs; i++) {
        const cell_run *run = &data->run[i];
        /* two cells and the slow run, else the lines cover one another */
        if (strcmp(run->cell, "30Q-1") == 0 || strcmp(run->cell, "PF-1") == 0 || run->rate < 0.5)
            add_run(&d, run, &left_out->run[i]);
    }
    return draw(&d, folder, "cells_ion", "18650 cells under load",
                "dots: measured; lines: by a fit that did not see the cell");
}

bool cell_draw_pouch(const char *folder, const cell_data *data, const cell_judged *judged)
{
    drawn d = {.kinds = 0};
    for (size_t i = 0; i < data->runs; i++)
        add_run(&d, &data->run[i], &judged->run[i]);
    return draw(&d, folder, "cells_pouch", "Pouch cells under load",
                "dots: measured; lines: fitted, each cell with its own resistance");
}

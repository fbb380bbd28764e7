/* prop_plot.c: how far off the propeller model is by class, as a table and as pictures. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "plot.h"
#include "prop_cross.h"

#define INCH_M 0.0254

static const char *const kind_name[] = {"2 blades, to 4 in",    "2 blades, 4 to 7 in",
                                        "2 blades, 7 to 11 in", "2 blades, over 11 in",
                                        "3 and 4 blades",       "on thrust stands"};

static unsigned kind_of(const fit_blade *blade)
{
    const double diameter_in = blade->size.diameter_m / INCH_M;
    if (fit_stand(blade))
        return 5;
    if (blade->size.blades > 2)
        return 4;
    return diameter_in <= 4 ? 0 : diameter_in <= 7 ? 1 : diameter_in <= 11 ? 2 : 3;
}

static int rising(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* One cell of the table. */
static void print_class(FILE *out, const fit_errors *errors, int running, int which, unsigned kind)
{
    const size_t most = errors->count[running][which];
    double *off = malloc((most + 1) * sizeof *off);
    size_t count = 0;
    for (size_t i = 0; off && i < most; i++) {
        const fit_error *e = &errors->error[running][which][i];
        if (kind_of(e->blade) == kind)
            off[count++] = fabs(expm1(-e->left));
    }
    if (count > 0) {
        qsort(off, count, sizeof *off, rising);
        fprintf(out, " %.1f / %.1f |", 100 * off[count / 2],
                100 * off[(size_t)(0.9 * (double)count)]);
    } else {
        fprintf(out, " |");
    }
    free(off);
}

static size_t propellers(const fit_errors *errors, unsigned kind)
{
    size_t count = 0;
    const fit_blade *last = NULL;
    for (size_t i = 0; i < errors->count[0][0]; i++) {
        const fit_blade *blade = errors->error[0][0][i].blade;
        count += blade != last && kind_of(blade) == kind;
        last = blade;
    }
    return count;
}

void fit_print_classes(FILE *out, const fit_errors *errors)
{
    fprintf(out, "| class | CT at rest | CP at rest | CT running | CP running | propellers |\n"
                 "| --- | --- | --- | --- | --- | --- |\n");
    for (unsigned kind = 0; kind < sizeof kind_name / sizeof kind_name[0]; kind++) {
        const size_t count = propellers(errors, kind);
        if (count == 0)
            continue;
        fprintf(out, "| %s |", kind_name[kind]);
        for (int running = 0; running < 2; running++)
            for (int which = 0; which < 2; which++)
                print_class(out, errors, running, which, kind);
        fprintf(out, " %zu |\n", count);
    }
}

static bool draw(const char *folder, const char *file, const char *from, const char *note,
                 const fit_errors *errors, int running, int which)
{
    char name[64], title[128];
    fit_points points = {0};
    for (size_t i = 0; i < errors->count[running][which]; i++) {
        const fit_error *e = &errors->error[running][which][i];
        fit_points_add(&points, 0, e->measured, e->measured * exp(-e->left), kind_of(e->blade));
    }
    snprintf(name, sizeof name, "%s_%s_%s", file, which == 0 ? "thrust" : "power",
             running ? "running" : "rest");
    snprintf(title, sizeof title, "%s %s, from %s", which == 0 ? "Thrust" : "Power",
             running ? "in flight" : "at rest", from);
    const fit_plot plot = {.title = title,
                           .note = note,
                           .quantity = which == 0 ? "CT" : "CP",
                           .count = points.count,
                           .measured = points.measured,
                           .predicted = points.predicted,
                           .kind = points.kind,
                           .kinds = sizeof kind_name / sizeof kind_name[0],
                           .kind_name = kind_name};
    const bool fine = !points.lost && fit_plot_agreement(folder, name, &plot);
    fit_points_free(&points);
    return fine;
}

bool fit_draw(const char *folder, const char *file, const char *from, const char *left_out,
              const fit_errors *errors)
{
    char note[128];
    bool fine = true;
    snprintf(note, sizeof note, "each %s predicted by a fit that did not see it", left_out);
    for (int running = 0; running < 2; running++)
        for (int which = 0; which < 2; which++)
            fine = draw(folder, file, from, note, errors, running, which) && fine;
    return fine;
}

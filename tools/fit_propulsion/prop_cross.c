/* prop_cross.c: see prop_cross.h. */
#include "prop_cross.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define INCH_M 0.0254

bool fit_tunnel(const fit_blade *blade)
{
    return strcmp(blade->maker, "stand") != 0;
}

bool fit_stand(const fit_blade *blade)
{
    return !fit_tunnel(blade);
}

bool fit_two(const fit_blade *blade)
{
    return blade->size.blades == 2;
}

static bool is_small(const fit_blade *blade)
{
    return blade->size.diameter_m < 7.05 * INCH_M;
}

bool fit_small(const fit_blade *blade)
{
    return fit_two(blade) && is_small(blade);
}

bool fit_large(const fit_blade *blade)
{
    return fit_two(blade) && !is_small(blade);
}

bool fit_more(const fit_blade *blade)
{
    return blade->size.blades > 2;
}

static bool put(fit_errors *errors, int running, int which, const fit_error *error)
{
    size_t *count = &errors->count[running][which];
    if (*count % 1024 == 0) {
        fit_error *grown = realloc(errors->error[running][which], (*count + 1024) * sizeof *grown);
        if (!grown)
            return false;
        errors->error[running][which] = grown;
    }
    errors->error[running][which][(*count)++] = *error;
    return true;
}

static bool judge(const fit_blade *blade, const pare_prop *prop, fit_errors *errors)
{
    size_t rows[2] = {0, 0};
    for (size_t r = 0; r < blade->rows; r++)
        rows[!blade->row[r].still]++;
    for (size_t r = 0; r < blade->rows; r++) {
        double left[2];
        const int running = !blade->row[r].still;
        fit_left(prop, blade, &blade->row[r], left);
        const double load = running ? fit_load(prop, blade, &blade->row[r]) : 1;
        for (int which = 0; which < 2; which++) {
            const fit_error error = {blade,
                                     left[which],
                                     1.0 / (double)rows[running],
                                     which == 0 ? blade->row[r].ct : blade->row[r].cp,
                                     load,
                                     1};
            const bool truth = which == 0 || !blade->row[r].derived;
            if (truth && isfinite(left[which]) && !put(errors, running, which, &error))
                return false;
        }
    }
    return true;
}

static bool judge_all(const fit_set *set, const pare_prop constants_of[], fit_errors *errors)
{
    for (size_t i = 0; i < set->count; i++)
        if (!judge(set->blade[i], &constants_of[i], errors))
            return false;
    return true;
}

/* The propellers that go out with one. */
static void choose(const fit_set *set, fit_fold fold, size_t with, bool out[])
{
    for (size_t i = 0; i < set->count; i++)
        out[i] = i == with || (fold == FIT_MAKER && fit_tunnel(set->blade[i]) &&
                               strcmp(set->blade[i]->maker, set->blade[with]->maker) == 0);
}

bool fit_cross(const fit_set *set, fit_fold fold, const pare_prop_constants *given,
               fit_errors *errors)
{
    memset(errors, 0, sizeof *errors);
    pare_prop *prop = calloc(set->count, sizeof *prop);
    pare_prop_constants *constants = calloc(set->count, sizeof *constants);
    bool fine = prop && constants;
#pragma omp parallel for schedule(dynamic) shared(fine)
    for (size_t i = 0; i < (prop && constants ? set->count : 0); i++) {
        bool *out = calloc(set->count, sizeof *out);
        bool done = out != NULL;
        if (done && fold != FIT_NOTHING)
            choose(set, fold, i, out);
        if (done && fold == FIT_NOTHING)
            constants[i] = *given;
        else
            done = done && fit_set_without(set, out, &constants[i]);
        done = done && fit_prop_of(set->blade[i], set->how.measured,
                                   set->how.known || fold == FIT_NOTHING, &constants[i], &prop[i]);
        free(out);
        if (!done) {
#pragma omp atomic write
            fine = false;
        }
    }
    fine = fine && judge_all(set, prop, errors);
    free(prop);
    free(constants);
    if (!fine)
        fit_errors_free(errors);
    return fine;
}

void fit_errors_free(fit_errors *errors)
{
    for (int running = 0; running < 2; running++)
        for (int which = 0; which < 2; which++)
            free(errors->error[running][which]);
    memset(errors, 0, sizeof *errors);
}

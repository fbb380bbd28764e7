/* prop_cross.c: see prop_cross.h.
 *
 * An uncertainty u is to hold half of the errors within 0.6745 u and nine tenths within 1.645 u, as
 * a normal distribution does; 45 to 55 % and 85 to 95 % pass. Each of the two bands is a range of u;
 * the middle of what the ranges share is taken, or the middle between them where they share nothing
 * (the printed table then says so). Propellers count alike, whatever their rows. */
#include "prop_cross.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define HALF_OVER_U  0.674489750196
#define NINTH_OVER_U 1.644853626951
#define INCH_M       0.0254

bool fit_tunnel(const fit_blade *blade)
{
    return strcmp(blade->maker, "stand") != 0;
}

bool fit_sold(const fit_blade *blade)
{
    return fit_tunnel(blade) && !blade->research;
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
        for (int which = 0; which < 2; which++) {
            const fit_error error = {blade, left[which], 1.0 / (double)rows[running],
                                     which == 0 ? blade->row[r].ct : blade->row[r].cp, 1};
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

typedef struct weighed {
    double value, weight;
} weighed;

static int by_value(const void *a, const void *b)
{
    const double x = ((const weighed *)a)->value, y = ((const weighed *)b)->value;
    return (x > y) - (x < y);
}

static double quantile(size_t count, weighed value[], double at)
{
    if (count == 0)
        return (double)NAN;
    double sum = 0, before = 0;
    qsort(value, count, sizeof *value, by_value);
    for (size_t i = 0; i < count; i++)
        sum += value[i].weight;
    for (size_t i = 0; i < count; i++) {
        before += value[i].weight;
        if (before >= at * sum)
            return value[i].value;
    }
    return value[count - 1].value;
}

/* Over what size makes of the uncertainty, or not. */
static double quantile_of(const fit_errors *errors, int running, int which, fit_counts *counts,
                          bool alike, bool sized, double at)
{
    const size_t most = errors->count[running][which];
    weighed *value = malloc((most + 1) * sizeof *value);
    size_t count = 0;
    for (size_t i = 0; value && i < most; i++) {
        const fit_error *e = &errors->error[running][which][i];
        if (counts(e->blade))
            value[count++] =
                (weighed){fabs(expm1(-e->left)) / (sized ? e->times : 1), alike ? 1 : e->weight};
    }
    const double answer = value ? quantile(count, value, at) : (double)NAN;
    free(value);
    return answer;
}

double fit_quantile(const fit_errors *errors, int running, int which, fit_counts *counts,
                    bool alike, double at)
{
    return quantile_of(errors, running, which, counts, alike, false, at);
}

double fit_median_of(const fit_errors *errors, int running, int which, const fit_blade *blade)
{
    const size_t most = errors->count[running][which];
    weighed *value = malloc((most + 1) * sizeof *value);
    size_t count = 0;
    for (size_t i = 0; value && i < most; i++)
        if (errors->error[running][which][i].blade == blade)
            value[count++] = (weighed){errors->error[running][which][i].left, 1};
    const double answer = value ? quantile(count, value, 0.5) : (double)NAN;
    free(value);
    return answer;
}

size_t fit_propellers(const fit_errors *errors, int running, int which, fit_counts *counts)
{
    size_t count = 0;
    const fit_blade *last = NULL;
    for (size_t i = 0; i < errors->count[running][which]; i++) {
        const fit_blade *blade = errors->error[running][which][i].blade;
        count += blade != last && counts(blade);
        last = blade;
    }
    return count;
}

double fit_within(const fit_errors *errors, int running, int which, fit_counts *counts, double most)
{
    double within = 0, sum = 0;
    for (size_t i = 0; i < errors->count[running][which]; i++) {
        const fit_error *e = &errors->error[running][which][i];
        if (!counts(e->blade))
            continue;
        sum += e->weight;
        within += fabs(expm1(-e->left)) <= most * e->times ? e->weight : 0;
    }
    return within / sum;
}

static void put_times(fit_errors *errors, double power)
{
    for (int running = 0; running < 2; running++)
        for (int which = 0; which < 2; which++)
            for (size_t i = 0; i < errors->count[running][which]; i++) {
                fit_error *e = &errors->error[running][which][i];
                if (fit_two(e->blade))
                    e->times = pow(9 * INCH_M / e->blade->size.diameter_m, power);
            }
}

double fit_doubt_with_size(fit_errors *errors)
{
    double best = 0, least = HUGE_VAL;
    for (int step = 0; step <= 15; step++) {
        const double power = 0.1 * step;
        double off = 0;
        put_times(errors, power);
        for (int running = 0; running < 2; running++)
            for (int which = 0; which < 2; which++) {
                const double half = quantile_of(errors, running, which, fit_two, false, true, 0.5);
                const double ninth = quantile_of(errors, running, which, fit_two, false, true, 0.9);
                const double log_ratio = log(ninth / half * HALF_OVER_U / NINTH_OVER_U);
                off += log_ratio * log_ratio;
            }
        if (off < least) {
            least = off;
            best = power;
        }
    }
    put_times(errors, best);
    return best;
}

double fit_doubt_u(const fit_errors *errors, int running, int which, fit_counts *counts)
{
    const double half_low = quantile_of(errors, running, which, counts, false, true, 0.45);
    const double half_high = quantile_of(errors, running, which, counts, false, true, 0.55);
    const double ninth_low = quantile_of(errors, running, which, counts, false, true, 0.85);
    const double ninth_high = quantile_of(errors, running, which, counts, false, true, 0.95);
    const double low = fmax(half_low / HALF_OVER_U, ninth_low / NINTH_OVER_U);
    const double high = fmin(half_high / HALF_OVER_U, ninth_high / NINTH_OVER_U);
    return 0.5 * (low + high);
}

double fit_correlation(const fit_errors *errors, int running, fit_counts *counts)
{
    /* CT and CP of one row stand side by side wherever both were measured. Errors are held at twice
     * their median, so that the tails do not decide. */
    const double most[2] = {2 * fit_quantile(errors, running, 0, counts, false, 0.5),
                            2 * fit_quantile(errors, running, 1, counts, false, 0.5)};
    double products[3] = {0, 0, 0};
    size_t j = 0;
    for (size_t i = 0; i < errors->count[running][0]; i++) {
        const fit_error *t = &errors->error[running][0][i];
        if (j >= errors->count[running][1] || errors->error[running][1][j].blade != t->blade)
            continue;
        const fit_error *p = &errors->error[running][1][j++];
        if (!counts(t->blade))
            continue;
        const double a = fmin(fmax(t->left / most[0], -1), 1);
        const double b = fmin(fmax(p->left / most[1], -1), 1);
        products[0] += t->weight * a * a;
        products[1] += t->weight * a * b;
        products[2] += t->weight * b * b;
    }
    return products[1] / sqrt(products[0] * products[2]);
}

/* prop_calibrate.c: the uncertainties of a set, from errors on what it has not seen (see prop_cross.h).
 *
 * An uncertainty u is to hold half of the errors within 0.6745 u and nine tenths within 1.645 u, as
 * a normal distribution does; 45 to 55 % and 85 to 95 % pass. Each of the two bands is a range of u;
 * the middle of what the ranges share is taken, or the middle between them where they share nothing
 * (the printed table then says so). Propellers count alike, whatever their rows.
 *
 * A craft asks for power at a thrust, where the errors of CT and CP partly cancel. So their correlation
 * is not that of the rows but the one with which that figure holds its intervals too. */
#include "prop_cross.h"

#include <math.h>
#include <stdlib.h>

#define HALF_OVER_U      0.674489750196
#define NINTH_OVER_U     1.644853626951
#define INCH_M           0.0254
#define CORRELATION_MOST 0.95

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

/* The power that a thrust takes goes with CP over so much of CT: at rest at a thrust (figure of merit),
 * in motion at a thrust and a speed of flight (efficiency). */
static const double of_thrust[2] = {1.5, 1};

/* CT and CP of one row stand side by side wherever both were measured; MERIT is their errors' one. */
enum { MERIT = 2 };

static size_t merits(const fit_errors *errors, int running, fit_counts *counts, weighed value[])
{
    size_t j = 0, count = 0;
    for (size_t i = 0; i < errors->count[running][0]; i++) {
        const fit_error *t = &errors->error[running][0][i];
        if (j >= errors->count[running][1] || errors->error[running][1][j].blade != t->blade)
            continue;
        const fit_error *p = &errors->error[running][1][j++];
        if (counts(t->blade))
            value[count++] = (weighed){
                fabs(expm1(of_thrust[running] * t->left - p->left)) / t->times, p->weight};
    }
    return count;
}

/* Over what size makes of the uncertainty, or not. */
static size_t collect(const fit_errors *errors, int running, int which, fit_counts *counts,
                      bool alike, bool sized, weighed value[])
{
    if (which == MERIT)
        return merits(errors, running, counts, value);
    size_t count = 0;
    for (size_t i = 0; i < errors->count[running][which]; i++) {
        const fit_error *e = &errors->error[running][which][i];
        if (counts(e->blade))
            value[count++] =
                (weighed){fabs(expm1(-e->left)) / (sized ? e->times : 1), alike ? 1 : e->weight};
    }
    return count;
}

static double quantile_of(const fit_errors *errors, int running, int which, fit_counts *counts,
                          bool alike, bool sized, double at)
{
    weighed *value = malloc((errors->count[running][which % MERIT] + 1) * sizeof *value);
    const double answer =
        value ? quantile(collect(errors, running, which, counts, alike, sized, value), value, at)
              : (double)NAN;
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

static void put_times(fit_errors *errors, int running, double size, double load)
{
    for (int which = 0; which < 2; which++)
        for (size_t i = 0; i < errors->count[running][which]; i++) {
            fit_error *e = &errors->error[running][which][i];
            const double inches_9 = 9 * INCH_M / e->blade->size.diameter_m;
            e->times = pow(fit_two(e->blade) ? inches_9 : 1, size) * pow(e->load, -load);
        }
}

/* How far the errors of all figures are from a normal distribution in how long their tails are. */
static double tails(const fit_errors *errors, int running)
{
    double off = 0;
    for (int figure = 0; figure <= MERIT; figure++) {
        const double half = quantile_of(errors, running, figure, fit_two, false, true, 0.5);
        const double ninth = quantile_of(errors, running, figure, fit_two, false, true, 0.9);
        const double log_ratio = log(ninth / half * HALF_OVER_U / NINTH_OVER_U);
        off += log_ratio * log_ratio;
    }
    return off;
}

fit_powers fit_doubt_powers(fit_errors *errors)
{
    enum { SIZES = 16, LOADS = 21 };
    fit_powers best = {{0, 0}, 0};
    for (int running = 0; running < 2; running++) {
        double least = HUGE_VAL;
        for (int step = 0; step < (running ? SIZES * LOADS : SIZES); step++) {
            const double size = 0.1 * (step % SIZES), load = 0.05 * (step / SIZES);
            put_times(errors, running, size, load);
            const double off = tails(errors, running);
            if (off < least) {
                least = off;
                best.size[running] = size;
                best.load = running ? load : 0;
            }
        }
        put_times(errors, running, best.size[running], best.load);
    }
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

double fit_merit_u(const fit_errors *errors, int running, fit_counts *counts)
{
    return fit_doubt_u(errors, running, MERIT, counts);
}

double fit_merit_within(const fit_errors *errors, int running, fit_counts *counts, double most)
{
    weighed *value = malloc((errors->count[running][0] + 1) * sizeof *value);
    double within = 0, sum = 0;
    const size_t count = value ? merits(errors, running, counts, value) : 0;
    for (size_t i = 0; i < count; i++) {
        sum += value[i].weight;
        within += value[i].value <= most ? value[i].weight : 0;
    }
    free(value);
    return within / sum;
}

double fit_merit_of(int running, const pare_prop_doubt *doubt)
{
    const double thrust = of_thrust[running] * doubt->thrust_u, power = doubt->power_u;
    return sqrt(thrust * thrust + power * power - 2 * doubt->correlation * thrust * power);
}

double fit_correlation(int running, double thrust_u, double power_u, double merit_u)
{
    const double thrust = of_thrust[running] * thrust_u;
    const double together =
        (thrust * thrust + power_u * power_u - merit_u * merit_u) / (2 * thrust * power_u);
    return fmin(fmax(together, -CORRELATION_MOST), CORRELATION_MOST);
}

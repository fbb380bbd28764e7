/* learn_next.c: which short test would tell most (see learn_inside.h).
 *
 * A test is a flight not yet flown: one row whose slopes come from flying it with each number moved, and
 * whose uncertainty is its style's and, where little charge is taken, the charger's last digit. What a row
 * does to a covariance is a rank-one update, so that each test is weighed exactly. */
#include <math.h>
#include <stdlib.h>

#include "advise/learn_inside.h"
#include "craft/flight.h"

#define CHARGER_LAST_C 18.0 /* 5 mAh */
#define STEP           0.05

typedef struct test {
    const char *what;
    pare_flown flown;
    double style_u, lasts_s; /* 0: down to the landing charge */
} test;

static const test tests[PARE_LEARNED_TESTS] = {
    {"hover for one minute, charge back", {PARE_FLOWN_THRUST, 1, 1}, 0.03, 60},
    {"hover one pack down to your landing volts, charge back", {PARE_FLOWN_THRUST, 1, 1}, 0.03, 0},
    {"three minutes straight and level at 12 m/s, charge back",
     {PARE_FLOWN_SPEED, 1, 12},
     0.05,
     180},
    {"one more pack as your brief says, charge back", {PARE_FLOWN_THRUST, 1, 1}, 0.08, 0},
};
enum { AS_THE_BRIEF = PARE_LEARNED_TESTS - 1 };

/* The logarithm of its mean current. @return false where it does not fly */
static bool log_current(const pare_learning *learning, const pare_again *again, const double x[],
                        double *log_a, double *time_s)
{
    pare_moved_rig moved;
    pare_endurance endured;
    pare_learning_move(learning, again, x, &moved);
    if (pare_rig_endure(&moved.rig, again->entries, again->flown, &again->down_to, &endured,
                        NULL) != PARE_OK)
        return false;
    *log_a = log(endured.mean_a);
    *time_s = endured.time_s;
    return true;
}

/* The variance of the minutes after a row of such slopes and uncertainty. */
static double after(size_t n, const double covariance[], const double towards[],
                    const double slope[], double u)
{
    double row = u * u, both = 0, before = 0;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < n; k++) {
            const double c = covariance[i * n + k];
            row += slope[i] * c * slope[k];
            both += towards[i] * c * slope[k];
            before += towards[i] * c * towards[k];
        }
    return fmax(before - both * both / row, 0);
}

static int by_doubt(const void *a, const void *b)
{
    const pare_learned_test *one = a, *other = b;
    return (one->flown_u_s > other->flown_u_s) - (one->flown_u_s < other->flown_u_s);
}

void pare_learning_next(const pare_learning *learning, const pare_rig *rig, size_t unknowns,
                        const double x[], const double covariance[], const double towards[],
                        double rest_s2, pare_learned_test out[PARE_LEARNED_TESTS])
{
    double *slope = calloc(2 * unknowns + 1, sizeof *slope), *moved = slope + unknowns;
    for (int t = 0; t < PARE_LEARNED_TESTS; t++) {
        const pare_brief *brief = &learning->craft->brief;
        pare_again again = {
            .rig = *rig, .flown = &tests[t].flown, .entries = 1, .pack = PARE_NO_PACK};
        again.down_to = pare_brief_landing(brief, rig->pack.chemistry);
        if (t == AS_THE_BRIEF)
            again.entries = pare_brief_flown(brief, &again.flown);
        double here, there, time_s, ignored, variance = INFINITY;
        bool flies = slope && log_current(learning, &again, x, &here, &time_s);
        for (size_t i = 0; flies && i < unknowns; i++) {
            for (size_t k = 0; k < unknowns; k++)
                moved[k] = x[k] + (k == i ? STEP : 0);
            flies = log_current(learning, &again, moved, &there, &ignored);
            slope[i] = flies ? (there - here) / STEP : 0;
        }
        if (flies) {
            const double lasts_s = tests[t].lasts_s > 0 ? tests[t].lasts_s : time_s;
            const double u = hypot(hypot(tests[t].style_u, PARE_CHARGER_U),
                                   CHARGER_LAST_C / (exp(here) * lasts_s));
            variance = after(unknowns, covariance, towards, slope, u) + rest_s2;
        }
        out[t] = (pare_learned_test){tests[t].what, sqrt(variance)};
    }
    qsort(out, PARE_LEARNED_TESTS, sizeof out[0], by_doubt);
    free(slope);
}

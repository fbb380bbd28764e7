/* learn_next.c: which short test would tell most (see learn_inside.h).
 *
 * A test is a flight not yet flown: rows whose slopes come from flying it with each number moved, and
 * whose uncertainties are those of its style, its charger, where little charge is taken its last digit, and
 * its log's. What a row does to a covariance is a rank-one update, so that each test is weighed exactly. A
 * test with a log is foretold as if all were as it was learned, and then read as any log is. */
#include <math.h>
#include <stdlib.h>

#include "advise/learn_inside.h"
#include "craft/flight.h"

#define CHARGER_LAST_C 18.0 /* 5 mAh */
#define LOG_NOISE_V    0.03 /* from one second to the next; common practice, no source */
#define CLIMB_S        3.0
#define STEP           0.05

typedef struct test {
    const char *what;
    pare_flown flown;
    double style_u, lasts_s; /* 0: down to the landing charge */
    bool log;
} test;

static const test tests[PARE_LEARNED_TESTS] = {
    {"hover for one minute, charge back", {PARE_FLOWN_THRUST, 1, 1}, 0.03, 60, false},
    {"hover one pack down to your landing volts, charge back",
     {PARE_FLOWN_THRUST, 1, 1},
     0.03,
     0,
     false},
    {"three minutes straight and level at 12 m/s, charge back",
     {PARE_FLOWN_SPEED, 1, 12},
     0.05,
     180,
     false},
    {"hover for one minute with its log, charge back", {PARE_FLOWN_THRUST, 1, 1}, 0.03, 60, true},
    {"climb three seconds at full throttle with its log",
     {PARE_FLOWN_FULL, 1, 1},
     INFINITY, /* a climb is not full throttle at rest: only how its volts fall is read */
     CLIMB_S,
     true},
    {"one more pack as your brief says, charge back", {PARE_FLOWN_THRUST, 1, 1}, 0.08, 0, false},
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

/* Its log, if all is as it was learned: the one number that matters of it is how well steps are read. */
static void foretell_log(const pare_learning *learning, pare_again *again, const double x[],
                         double mean_a, double lasts_s, pare_log_said *log)
{
    pare_moved_rig moved;
    pare_learning_move(learning, again, x, &moved);
    const pare_pack *pack = &moved.rig.pack;
    const double left = 1 - mean_a * lasts_s / 2 / pack->capacity_c;
    const double ohm = pare_pack_ohm(pack, left, pare_pack_steady(pack, lasts_s / 2));
    *log = (pare_log_said){.read_c = mean_a * lasts_s,
                           .flown_s = lasts_s,
                           .flown_c = mean_a * lasts_s,
                           .before_v = pare_pack_open_v(pack, 1),
                           .after_v = NAN,
                           .loads = 1,
                           .load = {{.volts_v = pare_pack_open_v(pack, left) - ohm * mean_a,
                                     .current_a = mean_a,
                                     .before_c = mean_a * lasts_s / 2,
                                     .flown_s = lasts_s / 2,
                                     .lasts_s = lasts_s}},
                           .step_ohm = ohm,
                           .step_u_ohm = LOG_NOISE_V / mean_a,
                           .step_s = 1};
    again->log = log;
}

/* A covariance after a row of such slopes and uncertainty. @param work  [n] */
static void add_row(size_t n, const double slope[], double u, double covariance[], double work[])
{
    double row = u * u;
    for (size_t i = 0; i < n; i++) {
        work[i] = 0;
        for (size_t k = 0; k < n; k++)
            work[i] += covariance[i * n + k] * slope[k];
    }
    for (size_t i = 0; i < n; i++)
        row += slope[i] * work[i];
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < n; k++)
            covariance[i * n + k] -= work[i] * work[k] / row;
}

typedef struct room {
    double *slope, *moved, *work, *covariance; /* [n], [n], [n], [n][n] */
} room;

/* What the charge of a flight of that manner tells. @return false where it does not fly */
static bool add_charge(const pare_learning *learning, const test *t, const pare_again *again,
                       size_t n, const double x[], double here, double lasts_s, const room *r)
{
    for (size_t i = 0; i < n; i++) {
        double there, ignored;
        for (size_t k = 0; k < n; k++)
            r->moved[k] = x[k] + (k == i ? STEP : 0);
        if (!log_current(learning, again, r->moved, &there, &ignored))
            return false;
        r->slope[i] = (there - here) / STEP;
    }
    const double u =
        hypot(hypot(t->style_u, PARE_CHARGER_U), CHARGER_LAST_C / (exp(here) * lasts_s));
    if (isfinite(u))
        add_row(n, r->slope, u, r->covariance, r->work);
    return true;
}

/* What its log tells: rows that are differences over their uncertainty already. */
static void add_log(const pare_learning *learning, const test *t, pare_again *again, size_t n,
                    const double x[], const room *r)
{
    static const pare_said told[] = {PARE_SAID_BEFORE, PARE_SAID_LOAD, PARE_SAID_STEP,
                                     PARE_SAID_READ};
    const double taken_c = again->log->read_c;
    const size_t count = isfinite(t->style_u) ? 4 : 3; /* three seconds are not charged back */
    for (size_t s = 0; s < count; s++) {
        double here[PARE_SAIDS], there[PARE_SAIDS];
        for (int what = 0; what < PARE_SAIDS; what++)
            again->says[what] = what == (int)told[s];
        if (pare_again_rows(learning, again, x, here) == 0)
            continue;
        for (size_t i = 0; i < n; i++) {
            for (size_t k = 0; k < n; k++)
                r->moved[k] = x[k] + (k == i ? STEP : 0);
            again->seen = false;
            r->slope[i] = pare_again_rows(learning, again, r->moved, there) == 1
                              ? (there[0] - here[0]) / STEP
                              : 0;
        }
        const bool charger = told[s] == PARE_SAID_READ;
        const double last = charger ? CHARGER_LAST_C / taken_c / PARE_CHARGER_U : 0;
        add_row(n, r->slope, hypot(1, last), r->covariance, r->work);
    }
}

/* The covariance after one, in r. @return false where it does not fly */
static bool test_flown(const pare_learning *learning, const test *t, pare_again *again, size_t n,
                       const double x[], const double covariance[], const room *r)
{
    double here, time_s;
    pare_log_said log;
    pare_flight_record record = {.take_off_kg = NAN, .rest_before_v = NAN, .rest_after_v = NAN};
    if (!log_current(learning, again, x, &here, &time_s))
        return false;
    const double lasts_s = t->lasts_s > 0 ? t->lasts_s : time_s;
    for (size_t i = 0; i < n * n; i++)
        r->covariance[i] = covariance[i];
    if (isfinite(t->style_u) && !add_charge(learning, t, again, n, x, here, lasts_s, r))
        return false;
    if (t->log) {
        record.put_back_c = exp(here) * lasts_s;
        again->record = &record;
        again->charge_before = 1;
        again->pack = pare_learning_own_pack(learning);
        foretell_log(learning, again, x, exp(here), lasts_s, &log);
        add_log(learning, t, again, n, x, r);
        again->record = NULL; /* both end here */
        again->log = NULL;
    }
    return true;
}

/* How uncertain the sheet's minutes are with such a covariance kept. */
static double minutes_u_s(const pare_learning *learning, size_t n, const double x[],
                          const double covariance[], bool logged)
{
    pare_taught kept;
    pare_error err;
    pare_sheet *sheet = malloc(sizeof *sheet);
    double u_s = INFINITY;
    pare_learning_keep(learning, n, x, covariance, logged, &kept);
    if (sheet && pare_learned_sheet(learning->craft, &kept, sheet, &err) == PARE_OK &&
        sheet->figure[PARE_FLOWN_TIME].exists)
        u_s = sheet->figure[PARE_FLOWN_TIME].u;
    free(sheet);
    return u_s;
}

static int by_doubt(const void *a, const void *b)
{
    const pare_learned_test *one = a, *other = b;
    return (one->flown_u_s > other->flown_u_s) - (one->flown_u_s < other->flown_u_s);
}

void pare_learning_next(const pare_learning *learning, const pare_rig *rig, size_t unknowns,
                        const double x[], const double covariance[],
                        pare_learned_test out[PARE_LEARNED_TESTS])
{
    const size_t n = unknowns;
    double *all = calloc((3 + n) * n + 1, sizeof *all);
    const room r = {all, all + n, all + 2 * n, all + 3 * n};
    for (int t = 0; t < PARE_LEARNED_TESTS; t++) {
        const pare_brief *brief = &learning->craft->brief;
        pare_again again = {
            .rig = *rig, .flown = &tests[t].flown, .entries = 1, .pack = PARE_NO_PACK};
        again.down_to = pare_brief_landing(brief, rig->pack.chemistry);
        if (t == AS_THE_BRIEF)
            again.entries = pare_brief_flown(brief, &again.flown);
        const bool flown = all && test_flown(learning, &tests[t], &again, n, x, covariance, &r);
        out[t] = (pare_learned_test){tests[t].what,
                                     flown ? minutes_u_s(learning, n, x, r.covariance, tests[t].log)
                                           : (double)INFINITY};
    }
    qsort(out, PARE_LEARNED_TESTS, sizeof out[0], by_doubt);
    free(all);
}

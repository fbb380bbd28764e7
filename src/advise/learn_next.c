/* learn_next.c: which short test would tell most (see learn_inside.h).
 *
 * A test is a flight not yet flown: rows whose slopes come from flying it with each number moved, and
 * whose uncertainties are those of its style, its charger, where little charge is taken its last digit, and
 * its log's. What a row does to a covariance is a rank-one update, so that each test is weighed exactly. A
 * test with a log is foretold as if all were as it was learned, and then read as any log is.
 *
 * Tests are ranked by the doubt that they leave about the minutes. Once flights have told how much is drawn,
 * several leave as much; of these comes first the one that tells most of whatever it tells most of. */
#include <math.h>
#include <stdlib.h>

#include "advise/learn_inside.h"
#include "craft/flight.h"

#define CHARGER_LAST_C 18.0 /* 5 mAh */
#define LOG_NOISE_V    0.03 /* from one second to the next; common practice, no source */
#define CLIMB_S        3.0
#define STEP           0.05
#define ALIKE_S        0.3 /* of the minutes' doubt: less is not seen on a screen */

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

/* What else it tells: rows that are differences over their uncertainty already. */
static void add_said(const pare_learning *learning, pare_again *again, size_t count,
                     const pare_said told[], size_t n, const double x[], const room *r)
{
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
        const double last = charger ? CHARGER_LAST_C / again->log->read_c / PARE_CHARGER_U : 0;
        add_row(n, r->slope, hypot(1, last), r->covariance, r->work);
    }
}

/* The copy whose capacity is known worst: one more pack is that one. */
static size_t worst_pack(const pare_learning *learning, size_t n, const double covariance[])
{
    size_t worst = PARE_NO_PACK;
    double most = 0;
    for (size_t p = 0; p < learning->packs; p++) {
        const size_t at = PARE_OF_PACKS + PARE_OF_A_PACK * p + PARE_OF_CAPACITY;
        const double u = learning->prior[p].capacity_u * sqrt(covariance[at * n + at]);
        if (u > most) {
            most = u;
            worst = p;
        }
    }
    return worst;
}

/* The covariance after one, in r. @return false where it does not fly */
static bool test_flown(const pare_learning *learning, const test *t, pare_again *again, size_t n,
                       const double x[], const double covariance[], const room *r)
{
    static const pare_said rest[] = {PARE_SAID_REST}, logged[] = {PARE_SAID_BEFORE, PARE_SAID_LOAD,
                                                                  PARE_SAID_STEP, PARE_SAID_READ};
    double here, time_s;
    pare_log_said log;
    pare_moved_rig moved;
    pare_flight_record record = {.take_off_kg = NAN, .rest_before_v = NAN, .rest_after_v = NAN};
    again->pack = worst_pack(learning, n, covariance);
    if (!log_current(learning, again, x, &here, &time_s))
        return false;
    const double lasts_s = t->lasts_s > 0 ? t->lasts_s : time_s;
    for (size_t i = 0; i < n * n; i++)
        r->covariance[i] = covariance[i];
    if (isfinite(t->style_u) && !add_charge(learning, t, again, n, x, here, lasts_s, r))
        return false;
    again->record = &record;
    again->charge_before = 1;
    record.put_back_c = exp(here) * lasts_s;
    if (t->lasts_s == 0) {
        pare_learning_move(learning, again, x, &moved);
        record.rest_after_v =
            pare_pack_open_v(&moved.rig.pack, 1 - record.put_back_c / moved.rig.pack.capacity_c);
        add_said(learning, again, 1, rest, n, x, r);
    }
    if (t->log) {
        foretell_log(learning, again, x, exp(here), lasts_s, &log);
        /* Three seconds are not charged back. */
        add_said(learning, again, isfinite(t->style_u) ? 4 : 3, logged, n, x, r);
    }
    again->record = NULL; /* what was foretold is gone */
    again->log = NULL;
    return true;
}

/* ---- what it tells ---- */

static double along(size_t n, const double covariance[], const double way[])
{
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < n; k++)
            sum += way[i] * covariance[i * n + k] * way[k];
    return sqrt(fmax(sum, 0));
}

/* Takes a number for what the test tells most of, where it tells more of it than of any before. */
static void put_shrunk(const char *name, const pare_learned_pack *pack, double from_u, double to_u,
                       pare_learned_test *told)
{
    const bool more = !told->shrinks || to_u * told->from_u < told->to_u * from_u;
    if (!(from_u > 0) || !more)
        return;
    told->shrinks = name;
    told->pack = pack;
    told->from_u = from_u;
    told->to_u = to_u;
}

/* Sensors tell of a log, not of the craft. */
static void put_shrinks(const pare_learning *learning, size_t n, const double before[],
                        const double after[], double way[], pare_learned_test *told)
{
    static const char *const names[PARE_OF_A_PACK] = {
        [PARE_OF_CAPACITY] = "capacity", [PARE_OF_OHM] = "resistance"};
    for (int f = 0; f < PARE_LEARNED_CURRENT_SENSOR; f++) {
        pare_learning_direction(learning, (pare_learned)f, n, way);
        put_shrunk(pare_learned_name((pare_learned)f), NULL, along(n, before, way),
                   along(n, after, way), told);
    }
    for (size_t p = 0; p < learning->packs; p++)
        for (int what = 0; what < PARE_OF_A_PACK; what++) {
            const size_t at = PARE_OF_PACKS + PARE_OF_A_PACK * p + (size_t)what;
            const double u =
                what == PARE_OF_OHM ? learning->prior[p].ohm_u : learning->prior[p].capacity_u;
            if (names[what])
                put_shrunk(names[what], &learning->pack[p], u * sqrt(before[at * n + at]),
                           u * sqrt(after[at * n + at]), told);
        }
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

/* By the minutes; those that leave as much of their doubt by what they tell most of. */
static int by_doubt(const void *a, const void *b)
{
    const pare_learned_test *one = a, *other = b;
    const double one_left = round(one->flown_u_s / ALIKE_S),
                 other_left = round(other->flown_u_s / ALIKE_S);
    if (one_left != other_left)
        return one_left > other_left ? 1 : -1;
    const double one_told = one->from_u > 0 ? one->to_u / one->from_u : 1,
                 other_told = other->from_u > 0 ? other->to_u / other->from_u : 1;
    return (one_told > other_told) - (one_told < other_told);
}

void pare_learning_next(const pare_learning *learning, const pare_rig *rig, size_t unknowns,
                        const double x[], const double covariance[],
                        pare_learned_test out[PARE_LEARNED_TESTS])
{
    const size_t n = unknowns;
    double *all = calloc((4 + n) * n + 1, sizeof *all);
    const room r = {all, all + n, all + 2 * n, all + 3 * n};
    for (int t = 0; t < PARE_LEARNED_TESTS; t++) {
        const pare_brief *brief = &learning->craft->brief;
        pare_again again = {
            .rig = *rig, .flown = &tests[t].flown, .entries = 1, .pack = PARE_NO_PACK};
        again.down_to = pare_brief_landing(brief, rig->pack.chemistry);
        if (t == AS_THE_BRIEF)
            again.entries = pare_brief_flown(brief, &again.flown);
        const bool flown = all && test_flown(learning, &tests[t], &again, n, x, covariance, &r);
        out[t] = (pare_learned_test){
            .what = tests[t].what,
            .flown_u_s =
                flown ? minutes_u_s(learning, n, x, r.covariance, tests[t].log) : (double)INFINITY};
        if (flown)
            put_shrinks(learning, n, covariance, r.covariance, all + (3 + n) * n, &out[t]);
    }
    qsort(out, PARE_LEARNED_TESTS, sizeof out[0], by_doubt);
    free(all);
}

/* learn.c: what flights say about a craft's numbers (see learn.h).
 *
 * Nonlinear least squares with priors: a row for each thing that a flight says and one for each unknown.
 * The covariance at the solution gives the rest: what moved and by how much it still may, what each flight
 * was expected to say by all others (a row left out is its difference over one less its leverage), and
 * which of them say something that chance does not explain. */
#include "advise/learn.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdlib.h>

#include "advise/learn_inside.h"
#include "base/day.h"
#include "craft/flight.h"

#define FAMILY_WISE 0.05
#define STEP        1e-3 /* of unknowns that are of order 1: minutes are good to 1e-6 */
#define FAR_OFF     50.0 /* u of a reading: three of all that is doubted are 20 at most */
#define FADES_BY    1.0  /* u: less is no fade to foretell a day by */

const char *pare_learned_name(pare_learned which)
{
    static const char *const names[PARE_LEARNEDS] = {
        [PARE_LEARNED_THRUST] = "propeller thrust",
        [PARE_LEARNED_POWER] = "propeller power",
        [PARE_LEARNED_DRAG] = "drag area",
        [PARE_LEARNED_ALWAYS] = "electronics",
        [PARE_LEARNED_ESC] = "ESC loss",
        [PARE_LEARNED_CURRENT_SENSOR] = "current sensor",
        [PARE_LEARNED_VOLTAGE_SENSOR] = "voltage sensor",
    };
    return names[which];
}

double pare_learned_value(pare_learned which, double change)
{
    return which == PARE_LEARNED_ESC ? fmax(1 + change, 0) : exp(change);
}

double pare_learned_value_u(pare_learned which, double change, double change_u)
{
    return which == PARE_LEARNED_ESC ? change_u : exp(change) * change_u;
}

int pare_learned_count(size_t logs)
{
    return logs > 0 ? PARE_LEARNEDS : PARE_LEARNED_CURRENT_SENSOR;
}

static bool residuals(const void *context, const double x[], double row[])
{
    const pare_learning *learning = context;
    const size_t unknowns = PARE_OF_PACKS + PARE_OF_A_PACK * learning->packs;
    size_t rows = 0;
    for (size_t i = 0; i < unknowns; i++)
        row[rows++] = x[i];
    for (size_t i = 0; i < learning->flights; i++) {
        pare_again *again = &learning->again[i];
        if (learning->flight[i].why || again->aside)
            continue;
        const size_t said = pare_again_rows(learning, again, x, &row[rows]);
        if (said == 0)
            return false;
        rows += said;
    }
    return true;
}

static size_t rows_said(const pare_learning *learning)
{
    size_t rows = 0;
    for (size_t i = 0; i < learning->flights; i++)
        for (int what = 0; what < PARE_SAIDS; what++)
            rows += !learning->flight[i].why && !learning->again[i].aside &&
                    learning->again[i].says[what];
    return rows;
}

/* ---- what came out ---- */

static double quadratic(size_t n, const double matrix[], const double a[], const double b[])
{
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < n; k++)
            sum += a[i] * matrix[i * n + k] * b[k];
    return sum;
}

void pare_learning_direction(const pare_learning *learning, pare_learned which, size_t n,
                             double out[])
{
    const pare_doubts *doubts = &learning->doubts;
    for (size_t i = 0; i < n; i++)
        out[i] = 0;
    if (which == PARE_LEARNED_DRAG) {
        out[PARE_OF_DRAG] = doubts->u[PARE_DOUBTED_DRAG];
    } else if (which == PARE_LEARNED_ALWAYS) {
        out[PARE_OF_ALWAYS] = doubts->u[PARE_DOUBTED_ALWAYS];
    } else if (which == PARE_LEARNED_ESC) {
        out[PARE_OF_ESC] = doubts->u[PARE_DOUBTED_SWITCHING];
    } else if (which == PARE_LEARNED_CURRENT_SENSOR) {
        out[PARE_OF_CURRENT_SENSOR] = PARE_CURRENT_SENSOR_U;
    } else if (which == PARE_LEARNED_VOLTAGE_SENSOR) {
        out[PARE_OF_VOLTAGE_SENSOR] = PARE_VOLTAGE_SENSOR_U;
    } else {
        const double *root =
            doubts->drive[0][0]
                .root[which == PARE_LEARNED_THRUST ? PARE_PAIR_THRUST : PARE_PAIR_POWER];
        out[PARE_OF_THRUST] = root[PARE_PAIR_THRUST];
        out[PARE_OF_POWER] = root[PARE_PAIR_POWER];
    }
}

static void put_factors(const pare_learning *learning, size_t n, const double x[],
                        const double covariance[], double way[], double other[],
                        pare_learned_all *all)
{
    for (int f = 0; f < PARE_LEARNEDS; f++) {
        pare_learned_factor *factor = &all->factor[f];
        pare_learning_direction(learning, (pare_learned)f, n, way);
        *factor = (pare_learned_factor){0};
        for (size_t i = 0; i < n; i++) {
            factor->prior_u = hypot(factor->prior_u, way[i]);
            factor->change += way[i] * x[i];
        }
        factor->change_u = sqrt(quadratic(n, covariance, way, way));
    }
    for (int f = 0; f < PARE_LEARNEDS; f++)
        for (int g = 0; g < PARE_LEARNEDS; g++) {
            pare_learning_direction(learning, (pare_learned)f, n, way);
            pare_learning_direction(learning, (pare_learned)g, n, other);
            const double both = all->factor[f].change_u * all->factor[g].change_u;
            all->correlation[f][g] = both > 0 ? quadratic(n, covariance, way, other) / both : 0;
        }
}

/* One row's leverage. */
static double leverage(size_t n, const double covariance[], const double slope[])
{
    return fmin(quadratic(n, covariance, slope, slope), 1 - 1e-9);
}

/* By how many u a row is off. */
static void put_off(pare_said what, double off, pare_learned_flight *flight)
{
    static const char *const about[PARE_SAIDS] = {
        [PARE_SAID_READ] = "charge against the charger's",
        [PARE_SAID_BEFORE] = "volts at rest before take-off",
        [PARE_SAID_LOAD] = "volts under load",
        [PARE_SAID_STEP] = "fall of volts where current rises",
    };
    if (what == PARE_SAID_CHARGE)
        flight->off_c = off;
    else if (what == PARE_SAID_REST)
        flight->off_rest = off;
    else if (!flight->log_about || fabs(off) > fabs(flight->off_log)) {
        flight->off_log = off;
        flight->log_about = about[what];
    }
}

/* One that was set aside is off by its rows as they are: nothing was learned from them. */
static void put_aside(const pare_learning *learning, pare_again *again, const double x[],
                      pare_learned_flight *flight)
{
    double row[PARE_SAIDS] = {0};
    size_t at = 0;
    flight->fits = false;
    if (pare_again_rows(learning, again, x, row) == 0)
        return;
    for (int what = 0; what < PARE_SAIDS; what++)
        if (again->says[what])
            put_off((pare_said)what, row[at++], flight);
}

static void put_flight(const pare_again *again, size_t n, const pare_nonlinear_fit *fit,
                       size_t *row, pare_learned_flight *flight)
{
    for (int what = 0; what < PARE_SAIDS; what++) {
        if (!again->says[what])
            continue;
        const double h = leverage(n, fit->covariance, &fit->slope[*row * n]);
        put_off((pare_said)what, fit->row[*row] / sqrt(1 - h), flight);
        /* What was, over what the others foretold. */
        if (what == PARE_SAID_CHARGE)
            flight->left_out = expm1(fit->row[*row] / (h - 1) * pare_again_charge_u(again));
        ++*row;
    }
}

/* What is measured of it and what was to be expected. */
static void put_expected(const pare_learning *learning, const pare_again *again, const double x[],
                         pare_learned_flight *flight)
{
    const bool charge = again->says[PARE_SAID_CHARGE], rest = again->says[PARE_SAID_REST];
    flight->expected_c = flight->expected_rest_v = 0;
    flight->said_c = charge ? pare_again_charge_c(again, x) : again->record->put_back_c;
    flight->said_rest_v = rest ? pare_again_rest_v(again, x) : (double)NAN;
    pare_again_fly(learning, again, x, charge ? &flight->expected_c : NULL,
                   rest ? &flight->expected_rest_v : NULL);
}

static void put_flights(pare_learning *learning, size_t n, const double x[],
                        const pare_nonlinear_fit *fit, pare_learned_all *all)
{
    size_t row = n, left = 0;
    double squares = 0;
    all->used = all->aside = 0;
    for (size_t i = 0; i < learning->flights; i++) {
        pare_again *again = &learning->again[i];
        pare_learned_flight *flight = &learning->flight[i];
        if (flight->why)
            continue;
        all->used++;
        flight->left_out = NAN;
        flight->off_c = flight->off_rest = 0;
        if (!flight->log_aside) {
            flight->off_log = 0;
            flight->log_about = NULL;
        }
        put_expected(learning, again, x, flight);
        if (again->aside) {
            put_aside(learning, again, x, flight);
            all->aside++;
            continue;
        }
        put_flight(again, n, fit, &row, flight);
        if (isfinite(flight->left_out)) {
            squares += flight->left_out * flight->left_out;
            left++;
        }
    }
    all->left_out_rms = left ? sqrt(squares / (double)left) : (double)NAN;
}

/* Its log alone goes where that is what is off, and the flight with it where it says nothing else. */
static void set_aside(pare_again *again, pare_learned_flight *flight)
{
    const double by_hand = fmax(fabs(flight->off_c), fabs(flight->off_rest));
    if (!again->log || fabs(flight->off_log) < by_hand) {
        again->aside = true;
        return;
    }
    const pare_log_said *log = again->log;
    const char *why = NULL;
    again->log = NULL;
    pare_again_put_saying(again, &why);
    flight->log_aside = true;
    if (!why)
        return;
    again->log = log;
    pare_again_put_saying(again, &why);
    again->aside = true;
}

/* Sets aside what is off the most, where that is more than chance explains. */
static bool set_one_aside(pare_learning *learning, double bound)
{
    double most = bound;
    size_t worst = learning->flights;
    for (size_t i = 0; i < learning->flights; i++) {
        const pare_learned_flight *flight = &learning->flight[i];
        const double log = learning->again[i].log ? fabs(flight->off_log) : 0;
        const double off = fmax(fmax(fabs(flight->off_c), fabs(flight->off_rest)), log);
        if (!flight->why && !learning->again[i].aside && off > most) {
            most = off;
            worst = i;
        }
    }
    if (worst == learning->flights)
        return false;
    set_aside(&learning->again[worst], &learning->flight[worst]);
    return true;
}

/* What is off by far more than anything that is doubted before it was fitted, a log in another unit or of
 * another craft: a fit that had to reach it would not settle. */
static void set_far_aside(pare_learning *learning, const double x[])
{
    for (size_t i = 0; i < learning->flights; i++) {
        pare_again *again = &learning->again[i];
        pare_learned_flight *flight = &learning->flight[i];
        double row[PARE_SAIDS] = {0};
        size_t at = 0;
        if (flight->why || !again->log)
            continue;
        const bool flies = pare_again_rows(learning, again, x, row) > 0;
        for (int what = 0; what < PARE_SAIDS && flies; what++)
            if (again->says[what])
                put_off((pare_said)what, row[at++], flight);
        if (!flies)
            flight->log_about = "charge, with which it cannot fly";
        if (!flies || fmax(fabs(flight->off_c), fabs(flight->off_log)) > FAR_OFF)
            set_aside(again, flight);
    }
}

/* The brief's minutes with one flight's pack, on the day of its last. */
static double minutes_s(const pare_learning *learning, const pare_again *again, const double x[])
{
    pare_moved_rig moved;
    pare_endurance endured;
    pare_again now = *again;
    const pare_flown *flown;
    now.since = 0;
    const size_t entries = pare_brief_flown(&learning->craft->brief, &flown);
    const pare_landing landing =
        pare_brief_landing(&learning->craft->brief, again->rig.pack.chemistry);
    pare_learning_move(learning, &now, x, &moved);
    return pare_rig_endure(&moved.rig, entries, flown, &landing, &endured, NULL) == PARE_OK
               ? endured.time_s
               : (double)NAN;
}

/* The same so many times 30 days later, by what is clear of its fade and of its resistance's growth. */
static double minutes_later_s(const pare_learning *learning, const pare_again *again,
                              const double x[], const pare_learned_pack *pack, double months)
{
    pare_again then = *again;
    if (pack->charged && then.rig.pack.group_ohm > 0)
        then.rig.pack.group_ohm = pack->ohm;
    if (pack->growth > FADES_BY * pack->growth_u) {
        const double grown = exp(pack->growth * months);
        then.rig.pack.group_ohm *= grown;
        then.rig.pack.resistance_factor *= then.rig.pack.group_ohm > 0 ? 1 : grown;
    }
    if (pack->fade > FADES_BY * pack->fade_u)
        then.rig.pack.capacity_c *= exp(-pack->fade * months);
    return minutes_s(learning, &then, x);
}

/* When so many seconds are no longer met; NAN: not within these months. A pack that gives none any more
 * has met them before. */
static double months_until(const pare_learning *learning, const pare_again *again, const double x[],
                           const pare_learned_pack *pack, double limit_s)
{
    double low = -24, high = 60;
    if (!(minutes_later_s(learning, again, x, pack, low) >= limit_s) ||
        minutes_later_s(learning, again, x, pack, high) >= limit_s)
        return NAN;
    for (int i = 0; i < 30; i++) {
        const double middle = (low + high) / 2;
        *(minutes_later_s(learning, again, x, pack, middle) >= limit_s ? &low : &high) = middle;
    }
    return low;
}

/* Resistance of a cell group, where a log of this pack told it. */
static void put_logged_ohm(const pare_learning *learning, size_t n, const double x[],
                           const double covariance[], size_t p, pare_learned_pack *pack)
{
    const pare_again *last = NULL;
    const size_t at = PARE_OF_PACKS + PARE_OF_A_PACK * p + PARE_OF_OHM;
    pare_moved_rig moved;
    pack->logged_ohm = pack->logged_ohm_u = NAN;
    for (size_t i = 0; i < learning->flights; i++)
        if (!learning->flight[i].why && !learning->again[i].aside && learning->again[i].log &&
            learning->again[i].pack == p)
            last = &learning->again[i];
    if (!last)
        return;
    pare_learning_move(learning, last, x, &moved);
    pack->logged_ohm = pare_pack_group_ohm(&moved.rig.pack, PARE_CHARGE_HALF);
    pack->logged_ohm_u =
        pack->logged_ohm * learning->prior[p].ohm_u * sqrt(covariance[at * n + at]);
}

/* What it held on the day of its first flight, which is not the day of which its capacity is told. */
static void put_held(const pare_learning *learning, size_t n, const double x[],
                     const double covariance[], size_t p, pare_learned_pack *pack)
{
    const pare_pack_prior *prior = &learning->prior[p];
    const size_t at = PARE_OF_PACKS + PARE_OF_A_PACK * p + PARE_OF_CAPACITY;
    const size_t fade = PARE_OF_PACKS + PARE_OF_A_PACK * p + PARE_OF_FADE;
    double since = 0;
    for (size_t i = 0; i < learning->flights; i++) {
        const pare_again *again = &learning->again[i];
        if (learning->flight[i].why || again->pack != p)
            continue;
        if (!pack->first)
            pack->first = again->record->date;
        pack->last = again->record->date;
        since = fmax(since, again->since);
    }
    const double way[2] = {prior->capacity_u, prior->fade_u * since};
    const double square = way[0] * way[0] * covariance[at * n + at] +
                          2 * way[0] * way[1] * covariance[at * n + fade] +
                          way[1] * way[1] * covariance[fade * n + fade];
    pack->held_c = pack->stated_c * exp(way[0] * x[at] + way[1] * x[fade]);
    pack->held_u_c = pack->held_c * sqrt(fmax(square, 0));
}

static void put_packs(pare_learning *learning, size_t n, const double x[],
                      const double covariance[])
{
    const pare_limit *limit = pare_brief_limit(&learning->craft->brief, "flown");
    for (size_t p = 0; p < learning->packs; p++) {
        pare_learned_pack *pack = &learning->pack[p];
        const pare_pack_prior *prior = &learning->prior[p];
        const size_t at = PARE_OF_PACKS + PARE_OF_A_PACK * p + PARE_OF_CAPACITY;
        const size_t fade = PARE_OF_PACKS + PARE_OF_A_PACK * p + PARE_OF_FADE;
        pack->holds_c = pack->stated_c * exp(prior->capacity_u * x[at]);
        pack->holds_u_c = pack->holds_c * prior->capacity_u * sqrt(covariance[at * n + at]);
        pack->fade = prior->fade_u * x[fade];
        pack->fade_u = prior->fade_u * sqrt(covariance[fade * n + fade]);
        put_held(learning, n, x, covariance, p, pack);
        put_logged_ohm(learning, n, x, covariance, p, pack);
        pare_learning_ohm(pack->pack, pack->which > 0 ? pack->which : 1, pack);
        pack->enough_until = NAN;
        const bool fades = pack->fade > FADES_BY * pack->fade_u;
        const bool grows = pack->growth > FADES_BY * pack->growth_u;
        if (!limit || !limit->at_least || !(fades || grows))
            continue;
        const pare_again *last = NULL;
        for (size_t i = 0; i < learning->flights; i++)
            if (!learning->flight[i].why && learning->again[i].pack == p)
                last = &learning->again[i];
        if (last)
            pack->enough_until =
                prior->last_day +
                PARE_DAYS_OF_FADE * months_until(learning, last, x, pack, limit->value);
    }
}

/* ---- your minutes ---- */

pare_status pare_learned_sheet(const pare_craft *craft, const pare_taught *kept, pare_sheet *sheet,
                               pare_error *err)
{
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_status status = loaded ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_craft_load(craft, craft->loadouts ? 0 : -1, loaded, err);
    if (status == PARE_OK) {
        loaded->learned = kept;
        status = pare_sheet_compute(loaded, true, sheet, err);
    }
    free(loaded);
    return status;
}

static pare_status put_minutes(const pare_learning *learning, pare_learned_all *all,
                               pare_error *err)
{
    const struct {
        const pare_taught *kept;
        double *flown_s, *flown_u_s;
    } both[] = {{NULL, &all->flown_s, &all->flown_u_s},
                {&all->kept, &all->learned_s, &all->learned_u_s}};
    pare_sheet *sheet = malloc(sizeof *sheet);
    pare_status status = sheet ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; i < 2 && status == PARE_OK; i++) {
        status = pare_learned_sheet(learning->craft, both[i].kept, sheet, err);
        const pare_sheet_figure *flown = &sheet->figure[PARE_FLOWN_TIME];
        const bool exists = status == PARE_OK && flown->exists;
        *both[i].flown_s = exists ? flown->value : (double)NAN;
        *both[i].flown_u_s = exists ? flown->u : (double)NAN;
    }
    free(sheet);
    return status;
}

pare_status pare_learn(const pare_craft *craft, size_t count, const pare_flight_record flight[],
                       pare_arena *arena, pare_learned_all *learned, pare_error *err)
{
    pare_learning learning;
    pare_nonlinear_fit fit;
    pare_status status = pare_learning_begin(craft, count, flight, arena, &learning, err);
    if (status != PARE_OK)
        return status;
    const size_t n = PARE_OF_PACKS + PARE_OF_A_PACK * learning.packs;
    double *room = pare_arena_zeros(arena, 3 * n * sizeof *room);
    if (!room)
        return pare_no_memory(err);
    double *x = room, *one = room + n, *other = room + 2 * n;
    *learned = (pare_learned_all){.packs = learning.packs,
                                  .flights = count,
                                  .logs = learning.logs,
                                  .pack = learning.pack,
                                  .flight = learning.flight};
    set_far_aside(&learning, x);
    /* One reading that is far off pulls others with it: the worst goes, then all are looked at anew. */
    do {
        const size_t rows = rows_said(&learning);
        const pare_nonlinear problem = {n, n + rows, residuals, &learning, STEP, 1};
        status = pare_nonlinear_solve(&problem, x, arena, &fit, err);
        /* What was thought before stands among the rows: no unknown is free, whatever flies. */
        if (status == PARE_BAD_DATA)
            return pare_fail(
                err, status,
                "the flights of %.48s contradict each other: no motors, propellers and "
                "packs fly them all; right would be what each said, typed once more, "
                "or the flights without those that cannot be",
                craft->name);
        if (status != PARE_OK)
            return status;
        learned->chi2 = fit.sum;
        learned->degrees = rows;
        learned->bound =
            rows ? gsl_cdf_ugaussian_Qinv(FAMILY_WISE / 2 / (double)rows) : (double)INFINITY;
        put_flights(&learning, n, x, &fit, learned);
    } while (set_one_aside(&learning, learned->bound));
    put_factors(&learning, n, x, fit.covariance, one, other, learned);
    put_packs(&learning, n, x, fit.covariance);
    pare_learning_keep(&learning, n, x, fit.covariance, false, &learned->kept);
    learned->kept.flights = (int)(learned->used - learned->aside);
    status = put_minutes(&learning, learned, err);
    if (status == PARE_OK && isfinite(learned->flown_s))
        pare_learning_next(&learning, &learning.own, n, x, fit.covariance, learned->test);
    return status;
}

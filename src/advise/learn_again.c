/* learn_again.c: one flight flown again with other numbers (see learn_inside.h).
 *
 * A flight's charge is its mean current times its minutes. The mean current is that of the flown
 * profile, from the charge before down to the charge that was left; pilots do not fly as they write, so
 * it is uncertain by a share that depends on what was written. What the charger put back is known far
 * better, and with the volts at rest before and after it says what the pack holds, whatever the style.
 *
 * A log says all of that by its own sensors, whose scales are unknowns. Its charge against the charger's
 * tells the one of current, its volts at rest before take-off the one of volts. Where both a log and a
 * charger say how much a flight took, the flight's own row is by the log, so that one style counts once.
 * Volts under load are one row, not one a reading: the pack's law is off alike in all of them. */
#include <math.h>
#include <string.h>

#include "advise/learn_inside.h"
#include "craft/flight.h"

#define REST_CELL_U_V 0.02 /* a voltmeter's, and how long it rested */
#define LEAST_LEFT    0.02
#define GUESSED_U     0.3   /* of the charge in a log's gaps */
#define FULL_U        0.006 /* of the volts of a full pack, where nobody read them */
#define BEFORE_U      0.003 /* where somebody did */
#define STEP_U        0.08 /* of resistance, from one manner of asking to another; see physics/pack.c */
#define NO_LANDING_V  0.5 /* a cell: only the charge ends a flight that was flown */

/* ---- what it says ---- */

bool pare_said_by_log(pare_said what)
{
    return what >= PARE_SAID_READ;
}

static double charge_at(const pare_pack *pack, double volts)
{
    double low = 0, high = 1;
    for (int i = 0; i < 40; i++) {
        const double middle = (low + high) / 2;
        if (pare_pack_open_v(pack, middle) < volts)
            low = middle;
        else
            high = middle;
    }
    return high;
}

/* Volts that a sensor read with some current on, as they would be without. */
static double opened_v(const pare_again *again, double volts_v, double current_a)
{
    return volts_v + current_a * pare_pack_ohm(&again->rig.pack, PARE_CHARGE_HALF, 0);
}

/* How full it was at take-off: by whoever read it, by the log where that says it was not full, else full. */
static double charge_before(const pare_again *again)
{
    enum { FULL_WITHIN = 3 }; /* u, of the sensor */
    const pare_pack *pack = &again->rig.pack;
    if (again->record->rest_before_v > 0)
        return charge_at(pack, again->record->rest_before_v);
    if (!again->log || isnan(again->log->before_v))
        return 1;
    const double volts_v = opened_v(again, again->log->before_v, again->log->before_a);
    const double full_v = pare_pack_open_v(pack, 1);
    return volts_v < full_v * (1 - FULL_WITHIN * PARE_VOLTAGE_SENSOR_U) ? charge_at(pack, volts_v)
                                                                        : 1;
}

void pare_again_put_saying(pare_again *again, const char **why)
{
    enum { LEAST_PERCENT = 5, MOST_PERCENT = 95 };
    const pare_flight_record *record = again->record;
    const pare_log_said *log = again->log;
    const bool put_back = record->put_back_c > 0, logged = log && log->flown_c > 0;
    again->seen = false;
    again->charge_before = charge_before(again);
    const double taken_c = put_back ? record->put_back_c : logged ? log->read_c : 0;
    const double left = again->charge_before - taken_c / again->rig.pack.capacity_c;
    again->down_to =
        (pare_landing){NO_LANDING_V, fmin(fmax(left, LEAST_PERCENT / 100.0), MOST_PERCENT / 100.0)};
    again->says[PARE_SAID_CHARGE] = logged || (put_back && record->lasted_s > 0);
    again->says[PARE_SAID_REST] =
        (put_back || logged) && (record->rest_after_v > 0 || (logged && log->after_v > 0));
    again->says[PARE_SAID_READ] = logged && put_back;
    /* Of a pack that was not full and that nobody read, the log says how full and no more. */
    again->says[PARE_SAID_BEFORE] =
        logged && log->before_v > 0 && (record->rest_before_v > 0 || again->charge_before == 1);
    again->says[PARE_SAID_LOAD] = logged && log->loads > 0;
    again->says[PARE_SAID_STEP] = logged && log->step_ohm > 0;
    *why = NULL;
    if (!put_back && !logged)
        *why = "what the charger put back is not said";
    else if (!again->says[PARE_SAID_CHARGE] && !again->says[PARE_SAID_REST])
        *why = "neither how long it lasted nor where the volts came to rest is said";
}

/* ---- flown again ---- */

void pare_learning_move(const pare_learning *learning, const pare_again *again, const double x[],
                        pare_moved_rig *moved)
{
    const pare_doubts *doubts = &learning->doubts;
    moved->rig = again->rig;
    for (int number = 0; number < PARE_PAIR_NUMBERS; number++) {
        const double *root = doubts->drive[0][0].root[number];
        const double change =
            root[PARE_PAIR_THRUST] * x[PARE_OF_THRUST] + root[PARE_PAIR_POWER] * x[PARE_OF_POWER];
        pare_doubted_move(moved, pare_doubted_of_pair[number], change);
    }
    pare_doubted_move(moved, PARE_DOUBTED_DRAG, doubts->u[PARE_DOUBTED_DRAG] * x[PARE_OF_DRAG]);
    pare_doubted_move(moved, PARE_DOUBTED_ALWAYS,
                      doubts->u[PARE_DOUBTED_ALWAYS] * x[PARE_OF_ALWAYS]);
    pare_doubted_move(moved, PARE_DOUBTED_SWITCHING,
                      doubts->u[PARE_DOUBTED_SWITCHING] * x[PARE_OF_ESC]);
    if (again->pack == PARE_NO_PACK)
        return;
    const size_t pack = PARE_OF_PACKS + PARE_OF_A_PACK * again->pack;
    const pare_pack_prior *prior = &learning->prior[again->pack];
    pare_doubted_move(moved, PARE_DOUBTED_CAPACITY,
                      prior->capacity_u * x[pack + PARE_OF_CAPACITY] +
                          prior->fade_u * x[pack + PARE_OF_FADE] * again->since);
    pare_doubted_move(moved, PARE_DOUBTED_PACK_OHM, prior->ohm_u * x[pack + PARE_OF_OHM]);
}

/* What its sensors say of an ampere, and of a volt. */
static double current_scale(const double x[])
{
    return exp(PARE_CURRENT_SENSOR_U * x[PARE_OF_CURRENT_SENSOR]);
}

static double voltage_scale(const double x[])
{
    return exp(PARE_VOLTAGE_SENSOR_U * x[PARE_OF_VOLTAGE_SENSOR]);
}

/* Charge that the pack gave. */
static double taken_c(const pare_again *again, const double x[])
{
    return again->record->put_back_c > 0 ? again->record->put_back_c
                                         : again->log->read_c / current_scale(x);
}

double pare_again_charge_c(const pare_again *again, const double x[])
{
    return again->log ? again->log->flown_c / current_scale(x) : again->record->put_back_c;
}

double pare_again_rest_v(const pare_again *again, const double x[])
{
    if (again->record->rest_after_v > 0)
        return again->record->rest_after_v;
    return opened_v(again, again->log->after_v / voltage_scale(x), again->log->after_a);
}

bool pare_again_fly(const pare_learning *learning, const pare_again *again, const double x[],
                    double *charge_c, double *rest_v)
{
    pare_moved_rig moved;
    pare_endurance endured;
    pare_learning_move(learning, again, x, &moved);
    if (charge_c) {
        if (pare_rig_endure(&moved.rig, again->entries, again->flown, &again->down_to, &endured,
                            NULL) != PARE_OK)
            return false;
        *charge_c = endured.mean_a * (again->log ? again->log->flown_s : again->record->lasted_s);
    }
    if (rest_v) {
        const double left = again->charge_before - taken_c(again, x) / moved.rig.pack.capacity_c;
        *rest_v = pare_pack_open_v(&moved.rig.pack, fmin(fmax(left, LEAST_LEFT), 1));
    }
    return true;
}

double pare_again_charge_u(const pare_again *again)
{
    return hypot(again->style_u, PARE_CHARGER_U);
}

/* ---- rows ---- */

static double log_ratio(double measured, double foretold)
{
    return log(measured / foretold);
}

/* Charge read until somewhere, as a share of the pack that is left then. */
static double left_after(const pare_again *again, const pare_pack *pack, const double x[],
                         double read_c)
{
    const double left = again->charge_before - read_c / current_scale(x) / pack->capacity_c;
    return fmin(fmax(left, LEAST_LEFT), 1);
}

static double read_row(const pare_again *again, const double x[])
{
    const pare_log_said *log = again->log;
    const double u = hypot(PARE_CHARGER_U, GUESSED_U * log->guessed_c / log->read_c);
    return log_ratio(again->record->put_back_c, log->read_c / current_scale(x)) / u;
}

static double before_row(const pare_again *again, const double x[])
{
    const pare_log_said *log = again->log;
    const bool read = again->record->rest_before_v > 0;
    const double true_v =
        read ? again->record->rest_before_v : pare_pack_open_v(&again->rig.pack, 1);
    const double volts_v = opened_v(again, log->before_v / voltage_scale(x), log->before_a);
    return log_ratio(volts_v, true_v) / (read ? BEFORE_U : FULL_U);
}

static double load_row(const pare_learning *learning, const pare_again *again,
                       const pare_pack *pack, const double x[])
{
    const pare_log_said *log = again->log;
    double off_v = 0, sum_s = 0;
    for (size_t i = 0; i < log->loads; i++) {
        const pare_log_load *load = &log->load[i];
        const double left = left_after(again, pack, x, load->before_c);
        const double ohm = pare_pack_ohm(pack, left, pare_pack_steady(pack, load->flown_s));
        const double volts_v =
            pare_pack_open_v(pack, left) - ohm * load->current_a / current_scale(x);
        off_v += load->lasts_s * (load->volts_v / voltage_scale(x) - volts_v);
        sum_s += load->lasts_s;
    }
    const double u_v = hypot(REST_CELL_U_V, learning->doubts.u[PARE_DOUBTED_CELL_V]);
    return off_v / sum_s / (pack->cells * u_v);
}

static double step_row(const pare_again *again, const pare_pack *pack, const double x[])
{
    const pare_log_said *log = again->log;
    const double left = left_after(again, pack, x, log->step_before_c);
    const double ohm = pare_pack_ohm(pack, left, pare_pack_steady(pack, log->step_s));
    const double read_ohm = log->step_ohm * current_scale(x) / voltage_scale(x);
    return log_ratio(read_ohm, ohm) / hypot(STEP_U, log->step_u_ohm / log->step_ohm);
}

/* Unknowns that move this flight's rows. */
static void put_seen(const pare_again *again, const double x[], double seen[PARE_OF_A_FLIGHT])
{
    memcpy(seen, x, PARE_OF_PACKS * sizeof *seen);
    if (!again->log)
        seen[PARE_OF_CURRENT_SENSOR] = seen[PARE_OF_VOLTAGE_SENSOR] = 0;
    for (int i = 0; i < PARE_OF_A_PACK; i++)
        seen[PARE_OF_PACKS + i] = again->pack == PARE_NO_PACK
                                      ? 0
                                      : x[PARE_OF_PACKS + PARE_OF_A_PACK * again->pack + (size_t)i];
}

static size_t make_rows(const pare_learning *learning, const pare_again *again, const double x[],
                        double row[PARE_SAIDS])
{
    double charge_c, rest_v;
    size_t rows = 0;
    pare_moved_rig moved;
    if (!pare_again_fly(learning, again, x, again->says[PARE_SAID_CHARGE] ? &charge_c : NULL,
                        again->says[PARE_SAID_REST] ? &rest_v : NULL))
        return 0;
    if (again->says[PARE_SAID_CHARGE])
        row[rows++] =
            log_ratio(pare_again_charge_c(again, x), charge_c) / pare_again_charge_u(again);
    if (again->says[PARE_SAID_REST])
        row[rows++] =
            (pare_again_rest_v(again, x) - rest_v) / (again->rig.pack.cells * REST_CELL_U_V);
    if (!again->log)
        return rows;
    pare_learning_move(learning, again, x, &moved);
    if (again->says[PARE_SAID_READ])
        row[rows++] = read_row(again, x);
    if (again->says[PARE_SAID_BEFORE])
        row[rows++] = before_row(again, x);
    if (again->says[PARE_SAID_LOAD])
        row[rows++] = load_row(learning, again, &moved.rig.pack, x);
    if (again->says[PARE_SAID_STEP])
        row[rows++] = step_row(again, &moved.rig.pack, x);
    return rows;
}

static bool same(const double a[PARE_OF_A_FLIGHT], const double b[PARE_OF_A_FLIGHT])
{
    bool all = true;
    for (size_t i = 0; i < PARE_OF_A_FLIGHT; i++)
        all = all && a[i] == b[i];
    return all;
}

size_t pare_again_rows(const pare_learning *learning, pare_again *again, const double x[],
                       double row[PARE_SAIDS])
{
    double seen[PARE_OF_A_FLIGHT];
    put_seen(again, x, seen);
    if (!again->seen || !same(seen, again->seen_x)) {
        again->seen_rows = make_rows(learning, again, x, again->seen_row);
        memcpy(again->seen_x, seen, sizeof seen);
        again->seen = true;
    }
    memcpy(row, again->seen_row, again->seen_rows * sizeof *row);
    return again->seen_rows;
}

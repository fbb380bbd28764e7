/* stand_table.c: whether what a thrust stand said can be (see stand_table.h).
 *
 * The bounds are those of physics, not of experience, so that an unusual motor is never refused:
 *
 * - No rotor at rest takes less power than the ideal one, T sqrt(T / (2 rho A)) (momentum theory;
 *   Leishman, Principles of Helicopter Aerodynamics, 2nd ed., sec. 2.4). A thrust typed in grams under
 *   a title in newtons is 30 times below.
 * - No motor gives more at its shaft than goes in, torque times speed against volts times amperes.
 * - No motor turns faster than free: kV times the volts. Electrical turns are 6 or 7 times above.
 *
 * Small readings are mostly the zero of an instrument: what is below 3 % of the greatest thrust is not
 * held against the first two. Volts sag within a sweep of the throttle, so a supply setting is told by
 * a gap: between neighbours of one setting there is less than 6 % [E: four cells sag by 7 % in all].
 *
 * Rows of one setting may repeat, and a row read while the rotor was still gaining speed is one of
 * them: with speed measured its thrust over speed squared is right all the same. So repeats contradict
 * only where that, or without speed the thrust, differs by more than a fifth. */
#include "craft/stand_table.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SMALL_SHARE     0.03 /* of the greatest thrust */
#define ZERO_N          0.05 /* what a scale may show at rest: 5 gf [E] */
#define ZERO_A          0.1  /* and a current meter [E] */
#define METER_SHARE     0.03 /* what two good instruments may differ by [E] */
#define POWER_SHARE     0.10 /* what the power may differ from volts times current by */
#define KV_SHARE        0.05 /* by which labels are off at least [E] */
#define SETTING_GAP     0.06
#define SAME_VOLTS      0.005
#define SAME_THROTTLE   0.0005
#define CONTRADICTING   0.20
#define CONTRADICTING_N 0.10 /* of the greatest thrust, at least */
#define RPM             (30 / 3.14159265358979323846)
#define GF              (1 / 9.80665e-3) /* 3rd CGPM, 1901 */

double pare_stand_air_share_u(bool altitude_given, bool temperature_given)
{
    return altitude_given && temperature_given ? 0.01 : 0.02;
}

/* ---- one row ---- */

/* A table under the check. */
typedef struct checking {
    size_t count;
    const pare_stand_reading *reading;
    const pare_stand_pair *pair;
    const pare_air *air;
    double most_n; /* greatest thrust */
    pare_stand_place *place;
} checking;

static bool has(const checking *c, pare_stand_column column)
{
    return !isnan(c->reading[0].value[column]);
}

static double at(const checking *c, size_t row, pare_stand_column column)
{
    return c->reading[row].value[column];
}

static void put_place(const checking *c, size_t row, pare_stand_column column)
{
    *c->place = (pare_stand_place){row, column};
}

static pare_status check_ranges(const checking *c, size_t row, pare_error *err)
{
    static const struct {
        pare_stand_column column;
        double low, high, scale;
        const char *unit, *what, *right;
    } bounds[] = {
        {PARE_STAND_THROTTLE, 0, 1, 100, " %", "throttle", "0 % to 100 %"},
        {PARE_STAND_VOLTS, 0.5, 120, 1, " V", "volts", "0.5 V to 120 V"},
        {PARE_STAND_CURRENT, -ZERO_A, 1000, 1, " A", "current", "0 A or more, and below 1000 A"},
        {PARE_STAND_POWER, -1, 1e5, 1, " W", "power", "0 W or more, and below 100 kW"},
        {PARE_STAND_SPEED, 0, 2e4, RPM, " rpm", "speed", "0 or more, and below 190000 rpm"},
        {PARE_STAND_TORQUE, -1e-3, 100, 1, " N m", "torque",
         "what the motor turns against, 0 or more: its sign is reversed"},
        {PARE_STAND_TEMPERATURE, -60, 400, 1, " degC", "temperature", "-60 degC to 400 degC"},
    };
    for (size_t i = 0; i < sizeof bounds / sizeof *bounds; i++) {
        const double value = at(c, row, bounds[i].column);
        put_place(c, row, bounds[i].column);
        if (has(c, bounds[i].column) && !(value >= bounds[i].low && value <= bounds[i].high))
            return pare_fail(err, PARE_BAD_DATA, "%s %.4g%s; right would be %s", bounds[i].what,
                             bounds[i].scale * value, bounds[i].unit, bounds[i].right);
    }
    const double thrust_n = at(c, row, PARE_STAND_THRUST);
    put_place(c, row, PARE_STAND_THRUST);
    if (thrust_n < -fmax(ZERO_N, SMALL_SHARE * c->most_n))
        return pare_fail(err, PARE_BAD_DATA,
                         "thrust %.4g gf: its sign is reversed; right would be a pull above 0",
                         GF * thrust_n);
    if (!(thrust_n < 1000))
        return pare_fail(err, PARE_BAD_DATA, "thrust %.4g gf; right would be below 100 kgf",
                         GF * thrust_n);
    return PARE_OK;
}

static double power_w(const checking *c, size_t row)
{
    return has(c, PARE_STAND_CURRENT)
               ? at(c, row, PARE_STAND_VOLTS) * at(c, row, PARE_STAND_CURRENT)
               : at(c, row, PARE_STAND_POWER);
}

static pare_status check_meters(const checking *c, size_t row, pare_error *err)
{
    if (!has(c, PARE_STAND_CURRENT) || !has(c, PARE_STAND_POWER))
        return PARE_OK;
    const double stated_w = at(c, row, PARE_STAND_POWER), product_w = power_w(c, row);
    put_place(c, row, PARE_STAND_POWER);
    if (fabs(stated_w - product_w) <=
        1 + ZERO_A * at(c, row, PARE_STAND_VOLTS) + POWER_SHARE * fmax(stated_w, product_w))
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "power %.4g W, but %.4g V times %.4g A is %.4g W; right would be the same",
                     stated_w, at(c, row, PARE_STAND_VOLTS), at(c, row, PARE_STAND_CURRENT),
                     product_w);
}

static double ideal_w(const checking *c, double thrust_n)
{
    const double disc_m2 = atan(1) * c->pair->diameter_m * c->pair->diameter_m;
    return thrust_n * sqrt(thrust_n / (2 * c->air->density_kg_m3 * disc_m2));
}

static pare_status check_power(const checking *c, size_t row, pare_error *err)
{
    const double thrust_n = at(c, row, PARE_STAND_THRUST), taken_w = power_w(c, row);
    const bool shaft = has(c, PARE_STAND_SPEED) && has(c, PARE_STAND_TORQUE);
    const double shaft_w =
        shaft ? at(c, row, PARE_STAND_SPEED) * at(c, row, PARE_STAND_TORQUE) : taken_w;
    if (thrust_n < SMALL_SHARE * c->most_n)
        return PARE_OK;
    put_place(c, row, PARE_STAND_TORQUE);
    if (shaft && shaft_w > (1 + METER_SHARE) * taken_w)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.4g W at the shaft out of %.4g W: an efficiency above 1; right would be "
                         "less: look at the units of torque and speed",
                         shaft_w, taken_w);
    if (!(c->pair->diameter_m > 0))
        return PARE_OK;
    const double least_w = ideal_w(c, thrust_n);
    put_place(c, row, PARE_STAND_THRUST);
    if (taken_w < (1 - METER_SHARE) * least_w)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.4g gf out of %.4g W, where an ideal rotor of this diameter takes %.4g "
                         "W; right would be more power: look at the units",
                         GF * thrust_n, taken_w, least_w);
    put_place(c, row, PARE_STAND_TORQUE);
    if (shaft_w < (1 - METER_SHARE) * least_w)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.4g gf out of %.4g W at the shaft, where an ideal rotor of this "
                         "diameter takes %.4g W; right would be more torque: look at its unit",
                         GF * thrust_n, shaft_w, least_w);
    return PARE_OK;
}

static pare_status check_speed(const checking *c, size_t row, pare_error *err)
{
    const double kv = c->pair->kv_rpm_per_v;
    if (!has(c, PARE_STAND_SPEED) || !(kv > 0))
        return PARE_OK;
    const double rpm = RPM * at(c, row, PARE_STAND_SPEED);
    const double free_rpm = kv * at(c, row, PARE_STAND_VOLTS);
    put_place(c, row, PARE_STAND_SPEED);
    if (rpm <= free_rpm * (1 + fmax(3 * c->pair->kv_u / kv, KV_SHARE)))
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "%.5g rpm, but the motor runs free at %.5g rpm (%.4g rpm/V times %.4g V); "
                     "right would be less: turns of the shaft, not electrical ones",
                     rpm, free_rpm, kv, at(c, row, PARE_STAND_VOLTS));
}

/* ---- the table ---- */

static pare_status check_columns(const checking *c, pare_error *err)
{
    const char *missing = !has(c, PARE_STAND_VOLTS)    ? "volts"
                          : !has(c, PARE_STAND_THRUST) ? "thrust"
                          : !has(c, PARE_STAND_CURRENT) && !has(c, PARE_STAND_POWER)
                              ? "current or power"
                              : NULL;
    put_place(c, PARE_STAND_ROWS, PARE_STAND_COLUMNS);
    if (missing)
        return pare_fail(err, PARE_BAD_DATA,
                         "a stand table without %s; right would be columns of volts, thrust, and "
                         "current or power",
                         missing);
    if (!(c->most_n > 0))
        return pare_fail(err, PARE_BAD_DATA,
                         "a stand table without thrust above 0; right would be a pull above 0");
    return PARE_OK;
}

static bool same_row(const pare_stand_reading *a, const pare_stand_reading *b)
{
    for (int i = 0; i < PARE_STAND_COLUMNS; i++)
        if (!isnan(a->value[i]) && a->value[i] != b->value[i])
            return false;
    return true;
}

static bool same_setting(const checking *c, size_t a, size_t b)
{
    const double one = at(c, a, PARE_STAND_VOLTS), two = at(c, b, PARE_STAND_VOLTS);
    return has(c, PARE_STAND_THROTTLE) && fabs(one - two) <= SAME_VOLTS * fmax(one, two) &&
           fabs(at(c, a, PARE_STAND_THROTTLE) - at(c, b, PARE_STAND_THROTTLE)) <= SAME_THROTTLE;
}

/* Whether no one rotor can have given both rows, which are of one setting. */
static bool contradict(const checking *c, size_t a, size_t b)
{
    double one = at(c, a, PARE_STAND_THRUST), two = at(c, b, PARE_STAND_THRUST);
    if (fmax(one, two) < CONTRADICTING_N * c->most_n)
        return false;
    if (has(c, PARE_STAND_SPEED)) {
        const double first = at(c, a, PARE_STAND_SPEED), second = at(c, b, PARE_STAND_SPEED);
        one *= second * second;
        two *= first * first;
    }
    return fabs(one - two) > CONTRADICTING * fmax(one, two);
}

/* Rows in the order of what tells repeats apart. */
typedef struct sorted {
    double key; /* throttle, or volts where there is none */
    size_t row;
} sorted;

static int by_key(const void *a, const void *b)
{
    const sorted *one = a, *two = b;
    if (one->key != two->key)
        return one->key < two->key ? -1 : 1;
    return one->row < two->row ? -1 : 1;
}

/* Marks rows that stand there before, and finds the first that contradicts one before it. Only
 * neighbours in throttle are compared: all pairs of 2000 rows would take longer than the sheet. */
static pare_status check_repeats(const checking *c, bool again[], pare_error *err)
{
    sorted list[PARE_STAND_ROWS];
    const pare_stand_column column =
        has(c, PARE_STAND_THROTTLE) ? PARE_STAND_THROTTLE : PARE_STAND_VOLTS;
    size_t first = c->count, against = 0;
    for (size_t i = 0; i < c->count; i++) {
        list[i] = (sorted){at(c, i, column), i};
        again[i] = false;
    }
    qsort(list, c->count, sizeof *list, by_key);
    for (size_t i = 1; i < c->count; i++)
        for (size_t back = 1; back <= i; back++) {
            const size_t k = i - back;
            if (list[i].key - list[k].key > SAME_THROTTLE)
                break;
            const size_t one = list[i].row < list[k].row ? list[i].row : list[k].row;
            const size_t two = list[i].row < list[k].row ? list[k].row : list[i].row;
            if (same_row(&c->reading[one], &c->reading[two])) {
                again[two] = true;
                break;
            }
            if (two < first && same_setting(c, one, two) && contradict(c, one, two)) {
                first = two;
                against = one;
            }
        }
    put_place(c, first, PARE_STAND_THRUST);
    if (first == c->count)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "row %zu: %.4g gf at %.4g %% and %.4g V, where row %zu has %.4g gf; right "
                     "would be one of them",
                     first + 1, GF * at(c, first, PARE_STAND_THRUST),
                     100 * at(c, first, PARE_STAND_THROTTLE), at(c, first, PARE_STAND_VOLTS),
                     against + 1, GF * at(c, against, PARE_STAND_THRUST));
}

static int compare(double a, double b)
{
    return (a > b) - (a < b);
}

static int by_volts(const void *a, const void *b)
{
    const pare_stand_row *one = a, *two = b;
    return compare(one->volts_v, two->volts_v);
}

/* Within one supply setting; all of it decides, so that the order as typed does not. */
static int by_throttle(const void *a, const void *b)
{
    const pare_stand_row *one = a, *two = b;
    const int orders[] = {
        compare(one->throttle, two->throttle),       compare(one->thrust_n, two->thrust_n),
        compare(two->volts_v, one->volts_v),         compare(one->current_a, two->current_a),
        compare(one->speed_rad_s, two->speed_rad_s), compare(one->torque_nm, two->torque_nm)};
    for (size_t i = 0; i < sizeof orders / sizeof *orders; i++)
        if (orders[i])
            return orders[i];
    return 0;
}

static void put_in_order(size_t count, pare_stand_row row[])
{
    qsort(row, count, sizeof *row, by_volts);
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count; end++)
            if (row[end].volts_v > row[end - 1].volts_v * (1 + SETTING_GAP))
                break;
        qsort(row + first, end - first, sizeof *row, by_throttle);
    }
}

static pare_stand_row row_of(const checking *c, size_t row)
{
    const double current_a = has(c, PARE_STAND_CURRENT)
                                 ? at(c, row, PARE_STAND_CURRENT)
                                 : at(c, row, PARE_STAND_POWER) / at(c, row, PARE_STAND_VOLTS);
    return (pare_stand_row){.volts_v = at(c, row, PARE_STAND_VOLTS),
                            .throttle = at(c, row, PARE_STAND_THROTTLE),
                            .thrust_n = at(c, row, PARE_STAND_THRUST),
                            .current_a = current_a,
                            .speed_rad_s = at(c, row, PARE_STAND_SPEED),
                            .torque_nm = at(c, row, PARE_STAND_TORQUE)};
}

static pare_status check_row(const checking *c, size_t row, pare_error *err)
{
    pare_status status = check_ranges(c, row, err);
    if (status == PARE_OK)
        status = check_meters(c, row, err);
    if (status == PARE_OK)
        status = check_speed(c, row, err);
    if (status == PARE_OK)
        status = check_power(c, row, err);
    return status == PARE_OK ? status : pare_within(err, "row %zu", row + 1);
}

pare_status pare_stand_check(size_t count, const pare_stand_reading reading[],
                             const pare_stand_pair *pair, const pare_air *air, pare_stand_row row[],
                             size_t *rows, pare_stand_place *place, pare_error *err)
{
    checking c = {count, reading, pair, air, 0, place};
    *rows = 0;
    *place = (pare_stand_place){PARE_STAND_ROWS, PARE_STAND_COLUMNS};
    if (count > PARE_STAND_ROWS)
        return pare_fail(err, PARE_BAD_DATA,
                         "a stand table of more than %d rows; right would be fewer: each tenth row "
                         "of a log, or one a step",
                         PARE_STAND_ROWS);
    if (count < 2)
        return pare_fail(err, PARE_BAD_DATA,
                         "a stand table of %zu row%s; right would be two or more", count,
                         count == 1 ? "" : "s");
    for (size_t i = 0; i < count; i++)
        c.most_n = fmax(c.most_n, at(&c, i, PARE_STAND_THRUST));
    pare_status status = check_columns(&c, err);
    bool again[PARE_STAND_ROWS];
    for (size_t i = 0; i < count && status == PARE_OK; i++)
        status = check_row(&c, i, err);
    if (status == PARE_OK)
        status = check_repeats(&c, again, err);
    for (size_t i = 0; i < count && status == PARE_OK; i++)
        if (!again[i])
            row[(*rows)++] = row_of(&c, i);
    if (status == PARE_OK && *rows < 2) {
        put_place(&c, PARE_STAND_ROWS, PARE_STAND_COLUMNS);
        status = pare_fail(err, PARE_BAD_DATA,
                           "a stand table of one row, again and again; right would be two or more");
    }
    if (status == PARE_OK)
        put_in_order(*rows, row);
    return status;
}

const pare_stand_table *pare_stand_of(size_t count, const pare_stand_table table[],
                                      const char *motor, const char *propeller, size_t *found)
{
    size_t first = 0;
    *found = 0;
    while (first < count && (strcmp(table[first].motor, motor) != 0 ||
                             strcmp(table[first].propeller, propeller) != 0))
        first++;
    while (first + *found < count && strcmp(table[first + *found].motor, motor) == 0 &&
           strcmp(table[first + *found].propeller, propeller) == 0)
        ++*found;
    return *found ? &table[first] : NULL;
}

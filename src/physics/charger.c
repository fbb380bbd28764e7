/* charger.c: from a charger's reading of each cell to the resistance that a pack's law starts from.
 *
 * Three chargers give three numbers for one cell and none is wrong: 1 kHz sees some six tenths of what a
 * second's pulse sees, ten seconds see a part of the slow resistance as well, and a pack from a cold
 * garage reads half as much again. So a reading is taken back through the same laws that the flight
 * will apply, and each step back adds its doubt.
 *
 * A cell that ages faster than its mates shows first as resistance. Good packs are matched within some
 * 5 %, a charger repeats within as much; a fifth over the median of the others is far outside both. */
#include "physics/charger.h"

#include <math.h>
#include <stdlib.h>

#include "physics/pack_law.h"

#define CHARGER_U     0.08
#define PULSE_S       1.0
#define DC_S          10.0
#define ROOM_DEGC     20.0
#define ROOM_U_K      5.0
#define NOTED_U_K     2.0
#define HALF          0.5
#define CHARGE_U      0.03 /* a charge that nobody noted: between storage and full */
#define SLOW_SHARE_U  0.3  /* of what the slow part adds */
#define WORST_FROM    1.2
#define SECONDS_MOST  600.0
#define CELL_OHM_MOST 100.0

static pare_status check(const pare_pack *pack, const pare_charger_reading *reading,
                         pare_error *err)
{
    if (reading->cells != (size_t)pack->cells || reading->cells > PARE_READING_CELLS)
        return pare_fail(
            err, PARE_BAD_DATA,
            "the charger read %zu cells of a pack of %d: one reading a cell, of at most %d "
            "cells, would be right",
            reading->cells, pack->cells, PARE_READING_CELLS);
    for (size_t i = 0; i < reading->cells; i++)
        if (!(reading->ohm[i] > 0 && reading->ohm[i] <= CELL_OHM_MOST))
            return pare_fail(err, PARE_BAD_DATA,
                             "cell %zu reads %g ohm: more than 0, to 100 ohm, would be right",
                             i + 1, reading->ohm[i]);
    if (!(isnan(reading->degc) || (reading->degc >= -40 && reading->degc <= 80)))
        return pare_fail(err, PARE_BAD_DATA,
                         "the cells were read at %g degC: -40 to 80 degC would be right",
                         reading->degc);
    if (!(isnan(reading->charge) || (reading->charge >= 0 && reading->charge <= 1)))
        return pare_fail(err, PARE_BAD_DATA,
                         "the cells were read at a charge of %g: 0 to 1 would be right",
                         reading->charge);
    if (!(reading->seconds >= 0 && reading->seconds <= SECONDS_MOST))
        return pare_fail(err, PARE_BAD_DATA, "a pulse of %g s: 0 to 600 s would be right",
                         reading->seconds);
    return PARE_OK;
}

/* What the kind sees over the quick resistance, and the share by which that is uncertain. */
static double seen(const pare_pack *pack, const pare_cell *cell,
                   const pare_charger_reading *reading, double *share_u)
{
    if (reading->kind == PARE_READING_AC) {
        *share_u = cell->ac_share_u / cell->ac_share;
        return cell->ac_share;
    }
    const double usual_s = reading->kind == PARE_READING_DC ? DC_S : PULSE_S;
    const double seconds = reading->seconds > 0 ? reading->seconds : usual_s;
    const double slow = cell->slow * pare_pack_steady(pack, seconds);
    *share_u = SLOW_SHARE_U * slow / (1 + slow);
    return 1 + slow;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(size_t count, double value[])
{
    qsort(value, count, sizeof *value, by_size);
    return (value[(count - 1) / 2] + value[count / 2]) / 2;
}

static void find_worst(const pare_charger_reading *reading, pare_group_reading *group)
{
    size_t worst = 0;
    for (size_t i = 1; i < reading->cells; i++)
        if (reading->ohm[i] > reading->ohm[worst])
            worst = i;
    double other[PARE_READING_CELLS];
    size_t others = 0;
    for (size_t i = 0; i < reading->cells; i++)
        if (i != worst)
            other[others++] = reading->ohm[i];
    group->worst = 0;
    group->worst_times = others > 0 ? reading->ohm[worst] / median(others, other) : 1;
    if (group->worst_times >= WORST_FROM)
        group->worst = (int)worst + 1;
}

pare_status pare_charger_group(const pare_pack *pack, const pare_charger_reading *reading,
                               pare_group_reading *group, pare_error *err)
{
    if (check(pack, reading, err) != PARE_OK)
        return PARE_BAD_DATA;
    const pare_cell *cell = pare_pack_law_of(pack).cell;
    double sum = 0, squares = 0, kind_u;
    for (size_t i = 0; i < reading->cells; i++) {
        sum += reading->ohm[i];
        squares += reading->ohm[i] * reading->ohm[i];
    }
    const double n = (double)reading->cells, mean = sum / n;
    const double scatter = sqrt(fmax(squares / n - mean * mean, 0)) / mean / sqrt(n);
    const bool noted = !isnan(reading->degc);
    const double degc = noted ? reading->degc : ROOM_DEGC;
    const double degc_u = noted ? NOTED_U_K : ROOM_U_K;
    const double warmth = pare_cell_warmth(cell, degc);
    const double warmth_u =
        fabs(pare_cell_warmth(cell, degc - degc_u) - pare_cell_warmth(cell, degc + degc_u)) /
        (2 * warmth);
    const double charge = isnan(reading->charge) ? HALF : reading->charge;
    const double rise = pare_cell_rise(cell, charge) / pare_cell_rise(cell, HALF);
    const double rise_u =
        hypot(isnan(reading->charge) ? CHARGE_U : 0, SLOW_SHARE_U * (rise - 1) / rise);
    group->ohm = mean / (seen(pack, cell, reading, &kind_u) * warmth * rise);
    group->u = group->ohm * sqrt(CHARGER_U * CHARGER_U + scatter * scatter + warmth_u * warmth_u +
                                 rise_u * rise_u + kind_u * kind_u);
    find_worst(reading, group);
    return PARE_OK;
}

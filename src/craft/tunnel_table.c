/* tunnel_table.c: see tunnel_table.h.
 *
 * Momentum theory bounds the power from below at every advance: the flow through an ideal rotor is V/2 +
 * sqrt(V2/4 + T/(2 rho A)), so CP is CT (J/2 + sqrt(J2/4 + 2 CT/pi)) or more (Leishman, Principles of
 * Helicopter Aerodynamics, 2nd ed., sec. 2.13). Near zero thrust a tunnel's errors are larger than
 * what is left, so points below a tenth of the greatest CT are not held against it. */
#include "craft/tunnel_table.h"

#include <math.h>
#include <stdlib.h>

#define PI            3.14159265358979323846
#define ADVANCE_MOST  4.0
#define TIP_MOST_M_S  400.0
#define CT_MOST       0.6
#define CP_MOST       1.0
#define SMALL_SHARE   0.1
#define BALANCE_SHARE 0.05 /* what a thrust and a torque cell may differ by [E] */

static pare_status check_range(const pare_tunnel_row *row, double diameter_m, pare_error *err)
{
    const double tip_m_s = row->speed_rad_s * diameter_m / 2;
    if (!(row->advance >= 0 && row->advance <= ADVANCE_MOST))
        return pare_fail(err, PARE_BAD_DATA, "an advance J of %.4g; right would be 0 to %.0f",
                         row->advance, ADVANCE_MOST);
    if (!(row->speed_rad_s > 0 && tip_m_s <= TIP_MOST_M_S))
        return pare_fail(err, PARE_BAD_DATA,
                         "%.5g rpm, at which the tips of %.4g mm go %.0f m/s; right would be above "
                         "0 and up to %.0f m/s",
                         row->speed_rad_s * 30 / PI, 1e3 * diameter_m, tip_m_s, TIP_MOST_M_S);
    if (!(fabs(row->ct) <= CT_MOST))
        return pare_fail(err, PARE_BAD_DATA, "a CT of %.4g; right would be -%.1f to %.1f", row->ct,
                         CT_MOST, CT_MOST);
    if (!(fabs(row->cp) <= CP_MOST))
        return pare_fail(err, PARE_BAD_DATA, "a CP of %.4g; right would be -%.0f to %.0f", row->cp,
                         CP_MOST, CP_MOST);
    if (row->advance == 0 && row->ct <= 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "a CT of %.4g at rest: its sign is reversed; right would be above 0",
                         row->ct);
    return PARE_OK;
}

static pare_status check_power(const pare_tunnel_row *row, double most_ct, pare_error *err)
{
    if (row->ct < SMALL_SHARE * most_ct)
        return PARE_OK;
    const double half = row->advance / 2;
    const double least = row->ct * (half + sqrt(half * half + 2 * row->ct / PI));
    if (row->cp >= (1 - BALANCE_SHARE) * least)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "a CP of %.4g at CT %.4g and J %.4g, where an ideal rotor takes %.4g: an "
                     "efficiency above what can be; right would be more",
                     row->cp, row->ct, row->advance, least);
}

static int compare(double a, double b)
{
    return (a > b) - (a < b);
}

static int by_speed(const void *a, const void *b)
{
    const pare_tunnel_row *one = a, *two = b;
    const int orders[] = {compare(one->speed_rad_s, two->speed_rad_s),
                          compare(one->advance, two->advance), compare(one->ct, two->ct),
                          compare(one->cp, two->cp)};
    for (size_t i = 0; i < sizeof orders / sizeof *orders; i++)
        if (orders[i])
            return orders[i];
    return 0;
}

pare_status pare_tunnel_check(size_t count, pare_tunnel_row row[], double diameter_m, size_t *rows,
                              size_t *bad, pare_error *err)
{
    double most_ct = 0;
    *rows = 0;
    *bad = count;
    if (count < 2 || count > PARE_TUNNEL_ROWS)
        return pare_fail(err, PARE_BAD_DATA, "%zu point%s of a tunnel; right would be 2 to %d",
                         count, count == 1 ? "" : "s", PARE_TUNNEL_ROWS);
    for (size_t i = 0; i < count; i++)
        most_ct = fmax(most_ct, row[i].ct);
    for (size_t i = 0; i < count; i++) {
        pare_status status = check_range(&row[i], diameter_m, err);
        if (status == PARE_OK)
            status = check_power(&row[i], most_ct, err);
        if (status != PARE_OK) {
            *bad = i;
            return status;
        }
    }
    qsort(row, count, sizeof *row, by_speed);
    for (size_t i = 0; i < count; i++)
        if (*rows == 0 || by_speed(&row[i], &row[*rows - 1]) != 0)
            row[(*rows)++] = row[i];
    return PARE_OK;
}

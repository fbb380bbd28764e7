/* share.c: the thrusts that balance a craft (see share.h).
 *
 * With deviations e from equal shares, the conditions are A e = b of four rows: sum 0, the two moments,
 * the yaw torque. The least-norm answer is e = A^T y with (A A^T) y = b: four unknowns for any count of
 * rotors. A row that follows from the others (the yaw torque of some patterns) leaves a pivot of 0, which
 * is passed over if its right side is 0 too; otherwise nothing balances.
 *
 * Source: statics; Penrose, A generalized inverse for matrices, 1955, for the least norm. */
#include "physics/share.h"

#include <math.h>
#include <stdbool.h>

enum { ROWS = 4 };
#define PIVOT_LEAST 1e-9
#define LEFT_MOST   1e-9

/* Gauss with the largest pivot left, on a symmetric matrix that may be short of rank.
 * @return false where the equations contradict each other */
static bool solve(double m[ROWS][ROWS], double b[ROWS], double y[ROWS])
{
    bool used[ROWS] = {false};
    for (int step = 0; step < ROWS; step++) {
        int at = -1;
        for (int i = 0; i < ROWS; i++)
            if (!used[i] && m[i][i] > PIVOT_LEAST && (at < 0 || m[i][i] > m[at][at]))
                at = i;
        if (at < 0)
            break;
        used[at] = true;
        for (int i = 0; i < ROWS; i++) {
            const double share = i == at ? 0 : m[i][at] / m[at][at];
            for (int k = 0; k < ROWS; k++)
                m[i][k] -= share * m[at][k];
            b[i] -= share * b[at];
        }
    }
    for (int i = 0; i < ROWS; i++) {
        if (!used[i] && fabs(b[i]) > LEFT_MOST)
            return false;
        y[i] = used[i] ? b[i] / m[i][i] : 0;
    }
    return true;
}

pare_status pare_thrust_shares(size_t count, const pare_vec3 at_m[], double x_m, double y_m,
                               double share[], pare_error *err)
{
    if (count < 3 || count > PARE_SHARES)
        return pare_fail(err, PARE_BAD_DATA, "%zu rotors: 3 to %d would be right", count,
                         PARE_SHARES);
    double reach_m = 0;
    for (size_t i = 0; i < count; i++)
        reach_m = fmax(reach_m, hypot(at_m[i].x - x_m, at_m[i].y - y_m));
    if (!(reach_m > 0) || !isfinite(reach_m))
        return pare_fail(err, PARE_BAD_DATA, "the rotors are all in one place: nothing balances");
    double row[ROWS][PARE_SHARES], m[ROWS][ROWS], b[ROWS], y[ROWS];
    for (size_t i = 0; i < count; i++) {
        row[0][i] = 1;
        row[1][i] = (at_m[i].x - x_m) / reach_m;
        row[2][i] = (at_m[i].y - y_m) / reach_m;
        row[3][i] = count % 2 != 0 ? 0 : i % 2 == 0 ? 1 : -1;
    }
    const double mean = 1 / (double)count;
    for (int k = 0; k < ROWS; k++) {
        b[k] = 0;
        for (size_t i = 0; i < count && k > 0; i++)
            b[k] -= mean * row[k][i];
        for (int l = 0; l < ROWS; l++) {
            m[k][l] = 0;
            for (size_t i = 0; i < count; i++)
                m[k][l] += row[k][i] * row[l][i];
        }
    }
    if (!solve(m, b, y))
        return pare_fail(
            err, PARE_BAD_DATA,
            "no thrusts balance: the rotors stand in a line that the centre of mass is "
            "not on");
    for (size_t i = 0; i < count; i++) {
        share[i] = mean;
        for (int k = 0; k < ROWS; k++)
            share[i] += y[k] * row[k][i];
    }
    return PARE_OK;
}

double pare_share_uneven(size_t count, const double share[])
{
    double square = 0;
    for (size_t i = 0; i < count; i++) {
        const double off = share[i] * (double)count - 1;
        if (!(off > -1))
            return (double)INFINITY;
        square += off * off;
    }
    return count > 0 ? sqrt(square / (double)count) : 0;
}

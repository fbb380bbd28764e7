/* principal.c: principal moments and axes of a symmetric tensor, by Jacobi's method.
 *
 * Each step turns in the plane of one off-diagonal entry so that it becomes zero; the sum of the
 * squares of the others never grows, and a few sweeps reach rounding. The closed form by the cubic's
 * roots is shorter but loses half the digits when two moments are nearly equal, which is what a
 * flat, square craft has.
 *
 * The axes come out with a fixed sign (the largest part of the first two is positive) and right
 * handed, so that the same craft always shows the same axes.
 *
 * Source: Golub, Van Loan, Matrix Computations, 4th ed., sec. 8.5. */
#include <math.h>

#include "physics/solid.h"

#define MOST_SWEEPS 32 /* 6 are enough for any 3 x 3; the bound is for tensors that hold a NaN */

/* Turns in the plane of axes p and q until a[p][q] is zero; v gathers the turns. */
static void turn_away(double a[3][3], double v[3][3], int p, int q)
{
    if (a[p][q] == 0)
        return;
    const double theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
    /* The smaller root keeps the turn under 45 degrees; past 1e150 its square would overflow. */
    const double t = fabs(theta) > 1e150 ? 1 / (2 * theta)
                                         : copysign(1, theta) / (fabs(theta) + hypot(theta, 1));
    const double c = 1 / hypot(t, 1), s = t * c;
    const int r = 3 - p - q;
    const double apq = a[p][q], arp = a[r][p], arq = a[r][q];
    a[p][p] -= t * apq;
    a[q][q] += t * apq;
    a[p][q] = a[q][p] = 0;
    a[r][p] = a[p][r] = c * arp - s * arq;
    a[r][q] = a[q][r] = s * arp + c * arq;
    for (int i = 0; i < 3; i++) {
        const double vip = v[i][p], viq = v[i][q];
        v[i][p] = c * vip - s * viq;
        v[i][q] = s * vip + c * viq;
    }
}

static double largest_part(const double v[3][3], int column)
{
    double largest = 0;
    for (int i = 0; i < 3; i++)
        if (fabs(v[i][column]) > fabs(largest) * (1 + 1e-9)) /* a tie goes to the earlier axis */
            largest = v[i][column];
    return largest;
}

void pare_principal(const pare_sym3 *inertia, double moments[3], pare_mat3 *axes)
{
    const pare_sym3 *s = inertia;
    double a[3][3] = {{s->xx, s->xy, s->xz}, {s->xy, s->yy, s->yz}, {s->xz, s->yz, s->zz}};
    double v[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    for (int sweep = 0; sweep < MOST_SWEEPS; sweep++) {
        if (a[0][1] == 0 && a[0][2] == 0 && a[1][2] == 0)
            break;
        turn_away(a, v, 0, 1);
        turn_away(a, v, 0, 2);
        turn_away(a, v, 1, 2);
    }
    int order[3] = {0, 1, 2};
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i + 1 < 3; i++)
            if (a[order[i]][order[i]] > a[order[i + 1]][order[i + 1]]) {
                const int swap = order[i];
                order[i] = order[i + 1];
                order[i + 1] = swap;
            }
    for (int k = 0; k < 3; k++)
        moments[k] = a[order[k]][order[k]];
    for (int k = 0; k < 2; k++) {
        const double sign = largest_part(v, order[k]) < 0 ? -1 : 1;
        for (int i = 0; i < 3; i++)
            axes->m[i][k] = sign * v[i][order[k]];
    }
    for (int i = 0; i < 3; i++) {
        const int j = (i + 1) % 3, l = (i + 2) % 3;
        axes->m[i][2] = axes->m[j][0] * axes->m[l][1] - axes->m[l][0] * axes->m[j][1];
    }
}

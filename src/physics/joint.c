/* joint.c: roots without allocation, bounded in steps.
 *
 * One equation: false position with the Illinois halving, and a bisection where four steps have not
 * cut the bracket to a quarter, so that no curve can stall it. Several: Broyden's method, which needs one evaluation a step and learns the
 * Jacobian as it goes; Newton would need three or four, and an evaluation (a rotor in inclined flow)
 * is all the cost there is. It has no guarantee, so each user keeps a bracketed way to fall back on.
 *
 * Source: Dowell and Jarratt, BIT 11 (1971), 168 (Illinois); Broyden, Math. Comp. 19 (1965), 577. */
#include "physics/joint.h"

#include <math.h>

double pare_root(pare_curve curve, void *context, double low, double low_y, double high,
                 double high_y, double share)
{
    if (low_y == 0)
        return low;
    if (high_y == 0)
        return high;
    double x = low, width = high - low;
    for (int i = 1; i <= 200; i++) {
        x = (low * high_y - high * low_y) / (high_y - low_y);
        bool stalled = !(x > low && x < high);
        if (i % 4 == 0) {
            stalled = stalled || high - low > width / 4;
            width = high - low;
        }
        if (stalled)
            x = low + (high - low) / 2;
        const double y = curve(context, x);
        if (y == 0)
            return x;
        if ((y < 0) == (low_y < 0)) {
            if (x - low <= share * fabs(x) && i > 2)
                return x;
            low = x;
            low_y = y;
            high_y /= 2;
        } else {
            if (high - x <= share * fabs(x) && i > 2)
                return x;
            high = x;
            high_y = y;
            low_y /= 2;
        }
        if (high - low <= share * fabs(x))
            return x;
    }
    return x;
}

static double worst(int count, const double left[])
{
    double most = 0;
    for (int i = 0; i < count; i++)
        most = fabs(left[i]) > most || isnan(left[i]) ? fabs(left[i]) : most;
    return most;
}

/* Sherman and Morrison: the inverse after the Jacobian has learnt that step changed left by change. */
static void learn(pare_joint *joint, const double step[], const double change[])
{
    const int n = joint->count;
    double expected[PARE_JOINT_MOST], row[PARE_JOINT_MOST], under = 0;
    for (int i = 0; i < n; i++) {
        expected[i] = row[i] = 0;
        for (int j = 0; j < n; j++) {
            expected[i] += joint->inverse[i][j] * change[j];
            row[i] += step[j] * joint->inverse[j][i];
        }
    }
    for (int i = 0; i < n; i++)
        under += step[i] * expected[i];
    if (!(fabs(under) > 1e-300))
        return;
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++)
            joint->inverse[i][j] += (step[i] - expected[i]) * row[j] / under;
}

bool pare_joint_solve(pare_joint *joint, pare_equations equations, void *context, double tolerance)
{
    const int n = joint->count;
    double left[PARE_JOINT_MOST];
    if (!equations(context, joint->x, left))
        return false;
    for (int calls = 1; calls < 30; calls++) {
        const double size = worst(n, left);
        if (size <= tolerance)
            return true;
        if (!isfinite(size))
            return false;
        double step[PARE_JOINT_MOST], was[PARE_JOINT_MOST], change[PARE_JOINT_MOST];
        for (int i = 0; i < n; i++) {
            double to = joint->x[i];
            for (int j = 0; j < n; j++)
                to -= joint->inverse[i][j] * left[j];
            if (!isfinite(to))
                return false;
            /* past a limit, go half of the way to it */
            if (to < joint->low[i])
                to = (joint->x[i] + joint->low[i]) / 2;
            if (to > joint->high[i])
                to = (joint->x[i] + joint->high[i]) / 2;
            step[i] = to - joint->x[i];
            joint->x[i] = to;
            was[i] = left[i];
        }
        if (!equations(context, joint->x, left))
            return false;
        for (int i = 0; i < n; i++)
            change[i] = left[i] - was[i];
        learn(joint, step, change);
    }
    return false;
}

static double minor(const double m[PARE_JOINT_MOST][PARE_JOINT_MOST], int r, int c)
{
    const int r1 = (r + 1) % 3, r2 = (r + 2) % 3, c1 = (c + 1) % 3, c2 = (c + 2) % 3;
    return m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1];
}

bool pare_joint_measure(pare_joint *joint, pare_equations equations, void *context)
{
    const int n = joint->count;
    double slope[PARE_JOINT_MOST][PARE_JOINT_MOST] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    double left[PARE_JOINT_MOST], moved[PARE_JOINT_MOST], x[PARE_JOINT_MOST];
    if (!equations(context, joint->x, left))
        return false;
    for (int j = 0; j < n; j++) {
        const double span = joint->high[j] - joint->low[j];
        const double step = joint->x[j] + 1e-3 * span < joint->high[j] ? 1e-3 * span : -1e-3 * span;
        for (int i = 0; i < n; i++)
            x[i] = joint->x[i];
        x[j] += step;
        if (!equations(context, x, moved))
            return false;
        for (int i = 0; i < n; i++)
            slope[i][j] = (moved[i] - left[i]) / step;
    }
    double whole = 0;
    for (int j = 0; j < 3; j++)
        whole += slope[0][j] * minor(slope, 0, j);
    if (!(fabs(whole) > 1e-12))
        return false;
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++)
            joint->inverse[i][j] = minor(slope, j, i) / whole;
    return true;
}

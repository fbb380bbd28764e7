/* joint.c: roots without allocation, bounded in steps.
 *
 * One equation: false position with the Illinois halving, and a bisection where four steps have not
 * cut the bracket to a quarter, so that no curve can stall it. Several: Newton's method. An evaluation
 * (a rotor in inclined flow) is most of the cost, its slopes come at half of that again, and Newton is
 * there in three or four; learning the slopes on the way (Broyden) took seven to eleven. It has no
 * guarantee, so each user keeps a bracketed way to fall back on.
 *
 * Source: Dowell and Jarratt, BIT 11 (1971), 168 (Illinois). */
#include "physics/joint.h"

#include <math.h>

#define CALLS_MOST  30
#define HALVED_MOST 5
#define STRIDE_MOST 0.6 /* of any unknown, a step */

double pare_root(pare_curve curve, void *context, double low, double low_y, double high,
                 double high_y, double share)
{
    if (low_y == 0)
        return low;
    if (high_y == 0)
        return high;
    double x = low, width = high - low;
    int kept =
        0; /* the end that the last step left alone: below 0 the upper one, above 0 the lower */
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
            if (kept < 0)
                high_y /= 2;
            kept = -1;
        } else {
            if (high - x <= share * fabs(x) && i > 2)
                return x;
            high = x;
            high_y = y;
            if (kept > 0)
                low_y /= 2;
            kept = 1;
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

/* Gauss with the largest pivot of each column; left becomes the step that meets the equations were
 * they straight. False: (nearly) singular. Inlined so that each count has its own unrolled copy. */
static inline bool eliminate(int n, double m[PARE_JOINT_MOST][PARE_JOINT_MOST], double left[])
{
    for (int c = 0; c < n; c++) {
        int pivot = c;
        for (int r = c + 1; r < n; r++)
            if (fabs(m[r][c]) > fabs(m[pivot][c]))
                pivot = r;
        if (!(fabs(m[pivot][c]) > 1e-9))
            return false;
        if (pivot != c) {
            for (int j = c; j < n; j++) {
                const double up = m[pivot][j];
                m[pivot][j] = m[c][j];
                m[c][j] = up;
            }
            const double up = left[pivot];
            left[pivot] = left[c];
            left[c] = up;
        }
        const double over = 1 / m[c][c];
        for (int r = c + 1; r < n; r++) {
            const double times = m[r][c] * over;
            for (int j = c + 1; j < n; j++)
                m[r][j] -= times * m[c][j];
            left[r] -= times * left[c];
        }
        for (int j = c + 1; j < n; j++)
            m[c][j] *= over;
        left[c] *= over;
    }
    for (int c = n - 1; c > 0; c--)
        for (int r = 0; r < c; r++)
            left[r] -= m[r][c] * left[c];
    return true;
}

static bool step_of(int count, double slope[PARE_JOINT_MOST][PARE_JOINT_MOST], double left[])
{
    switch (count) {
    case 2:
        return eliminate(2, slope, left);
    case 3:
        return eliminate(3, slope, left);
    default:
        return eliminate(PARE_JOINT_MOST, slope, left);
    }
}

/* The step, shortened where it is longer than slopes can be trusted for, and its end kept within the
 * limits: past one, half of the way to it. */
static void go(pare_unknowns *joint, const double step[])
{
    const double size = worst(joint->count, step);
    const double share = size > STRIDE_MOST ? STRIDE_MOST / size : 1;
    for (int i = 0; i < joint->count; i++) {
        double to = joint->x[i] - share * step[i];
        if (to < joint->low[i])
            to = (joint->x[i] + joint->low[i]) / 2;
        if (to > joint->high[i])
            to = (joint->x[i] + joint->high[i]) / 2;
        joint->x[i] = to;
    }
}

bool pare_unknowns_solve(pare_unknowns *joint, pare_equations equations, void *context,
                         double tolerance)
{
    const int n = joint->count;
    double from[PARE_JOINT_MOST] = {0}, from_size = HUGE_VAL;
    int halved = 0;
    for (int calls = 0; calls < CALLS_MOST; calls++) {
        double left[PARE_JOINT_MOST], slope[PARE_JOINT_MOST][PARE_JOINT_MOST];
        if (!equations(context, joint->x, left, slope))
            return false;
        const double size = worst(n, left);
        if (size <= tolerance)
            return true;
        if (calls > 0 && !(size < from_size) && halved < HALVED_MOST) {
            halved++;
            for (int i = 0; i < n; i++)
                joint->x[i] = (joint->x[i] + from[i]) / 2;
            continue;
        }
        if (!isfinite(size) || !step_of(n, slope, left))
            return false;
        halved = 0;
        from_size = size;
        for (int i = 0; i < n; i++)
            from[i] = joint->x[i];
        go(joint, left);
    }
    return false;
}

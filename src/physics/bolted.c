/* bolted.c: loads shared among the screws of a base (see bolted.h).
 *
 * The base is stiff and lies on its edge, the screws are like springs: each is stretched by its
 * distance from the edge, so that the farthest pulls most. Half way between two evenly spaced
 * directions the answer repeats, hence only two turns need looking at. */
#include "physics/bolted.h"

#include <math.h>

#define PI 3.14159265358979323846

double pare_bolted_pull_n(double moment_nm, int screws, double circle_m)
{
    double most = 0;
    for (int turned = 0; turned < 2; turned++) {
        double worst = 0, sum = 0;
        for (int i = 0; i < screws; i++) {
            const double angle = 2 * PI * (i + 0.5 * turned) / screws;
            const double from_edge = circle_m * (PARE_BASE_OVER_CIRCLE + cos(angle));
            sum += from_edge * from_edge;
            worst = fmax(worst, from_edge);
        }
        most = fmax(most, moment_nm * worst / sum);
    }
    return most;
}

static double square(double x)
{
    return x * x;
}

double pare_bolted_ratio(double breaks_n, double shears_n, const pare_screw_load *load)
{
    const double used = (load->pull_n > 0 ? square(load->pull_n / breaks_n) : 0) +
                        (load->shear_n > 0 ? square(load->shear_n / shears_n) : 0);
    return used > 0 ? 1 / sqrt(used) : HUGE_VAL;
}

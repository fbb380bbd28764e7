/* wake.c: download (see wake.h).
 *
 * In hover a ring of the disc gives 4 pi rho v^2 r dr of thrust, so the loading of the blades is the profile
 * of v^2, and a plate of width b under it gives back Cd b (g v)^2 rho/2 dr. Over the thrust, with the wake
 * drawn in by sqrt(g), that is Cd b g^1.5/(4 pi R) times the integral of the profile over the radius. */
#include "physics/wake.h"

#include <math.h>

#define PI 3.14159265358979323846

enum { STEPS = 10, STRIPS = 8 };

/* At every tenth of the radius; twice the integral of x times it is 1. */
static const double pressure[STEPS + 1] = {0,    0.16, 0.38, 0.69, 1.03, 1.27,
                                           1.38, 1.35, 1.17, 0.89, 0.29};

double pare_wake_pressure(double share)
{
    if (!(share >= 0 && share <= 1))
        return 0;
    const double at = share * STEPS;
    const int step = at < STEPS ? (int)at : STEPS - 1;
    return pressure[step] + (at - step) * (pressure[step + 1] - pressure[step]);
}

double pare_wake_pressure_sum(double share)
{
    const double at = fmin(fmax(share, 0), 1) * STEPS;
    const int whole = at < STEPS ? (int)at : STEPS - 1;
    double sum = 0;
    for (int i = 0; i < whole; i++)
        sum += (pressure[i] + pressure[i + 1]) / 2;
    const double left = at - whole;
    sum += left * (pressure[whole] + left * (pressure[whole + 1] - pressure[whole]) / 2);
    return sum / STEPS;
}

double pare_wake_growth(double below)
{
    return 1 + below / sqrt(1 + below * below);
}

double pare_plate_drag(double lengths)
{
    const double held = fmin(fmax(lengths, 1), 30);
    return 1.10 + 0.02 * (held + 1 / held);
}

/* The arc of a circle about the rotor's axis that lies over the middle plate. */
static double arc_m(const pare_under_disc *u, double radius_m)
{
    const double cosine =
        (radius_m * radius_m + u->reach_m * u->reach_m - u->middle_m * u->middle_m) /
        (2 * radius_m * u->reach_m);
    return cosine < 1 ? 2 * radius_m * acos(fmax(cosine, -1)) : 0;
}

double pare_download_share(const pare_under_disc *u)
{
    const double growth = pare_wake_growth(u->below_m / u->radius_m), drawn = sqrt(growth);
    const double edge_m = u->radius_m / drawn;
    const double end_m = fmin(fmax(u->reach_m - u->middle_m, 0), edge_m);
    double sum_m = 0; /* of width times drag coefficient, over the radius, weighed by the profile */
    if (end_m > u->motor_m && u->width_m > 0)
        sum_m =
            u->width_m * pare_plate_drag(2 * (end_m - u->motor_m) / u->width_m) *
            (pare_wake_pressure_sum(end_m / edge_m) - pare_wake_pressure_sum(u->motor_m / edge_m));
    for (int i = 0; i < STRIPS && edge_m > end_m && u->middle_m > 0; i++) {
        const double at_m = end_m + (edge_m - end_m) * (i + 0.5) / STRIPS;
        sum_m += pare_plate_drag(1) * arc_m(u, at_m) * pare_wake_pressure(at_m / edge_m) *
                 (1 - end_m / edge_m) / STRIPS;
    }
    return sum_m * growth * drawn / (4 * PI * u->radius_m);
}

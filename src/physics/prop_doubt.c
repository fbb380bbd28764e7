/* prop_doubt.c: how far off the propeller model is, as standard uncertainties.
 *
 * Median errors on propellers left out of the fit, which for a normal distribution are 0.6745 of its
 * standard deviation: of the median and not of the 90th percentile, because the tails are of a few
 * propellers that no builder flies. Three blades and more have been on a stand in 5 in only, where
 * they agreed within about 10 %; running they have not been measured, and are taken as two.
 *
 * Source: the published description's errors on left-out propellers of the UIUC Propeller Data Site,
 * volumes 1 to 4. */
#include "physics/prop.h"

#define MEDIAN_OVER_SIGMA 0.6745
#define CORRELATION       0.7 /* estimate: a broader blade thrusts more and costs more */
#define THRUST_U_MANY     0.10
#define POWER_U_MANY      0.15

typedef struct medians {
    double thrust, power;
} medians;

pare_prop_doubt pare_prop_model_doubt(const pare_prop *prop, bool running)
{
    static const medians of_size[2] = {{0.088, 0.123}, {0.129, 0.106}};
    static const medians of_blade[2] = {{0.055, 0.078}, {0.107, 0.121}};
    const bool measured = prop->constants == &pare_prop_true;
    const medians off = (measured ? of_blade : of_size)[running];
    if (prop->blades > 2 && !running)
        return (pare_prop_doubt){THRUST_U_MANY, POWER_U_MANY, CORRELATION};
    return (pare_prop_doubt){off.thrust / MEDIAN_OVER_SIGMA, off.power / MEDIAN_OVER_SIGMA,
                             CORRELATION};
}

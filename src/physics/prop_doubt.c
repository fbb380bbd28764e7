/* prop_doubt.c: how far off the propeller model is, as standard uncertainties.
 *
 * They stand in each set of constants, put there by the fit: from the errors on propellers (line
 * known) or whole makers' lines (line not known) left out of it, so chosen that of these errors about
 * half are within 0.6745 u and about nine tenths within 1.645 u. The tails are longer than a normal
 * distribution's: u is a compromise between both, and past nine tenths it says too little. Part of the
 * tails are small propellers, which differ more than large ones do: with two blades u goes with a power
 * of the diameter, held where the measurements end. With more, too few were measured to say. In motion a
 * propeller that hardly pulls is known worst, as a degree of twist is then all of its thrust: u goes with a
 * power of how much of its CT at rest is left. The
 * correlation of both errors is the one with which the power at a thrust (CP over CT^1.5 at rest, CP over
 * CT in motion) holds the same two shares: a craft asks for that.
 *
 * Source: see the set. */
#include "physics/prop_trend.h"

#include <math.h>

enum { SIZE = 3 }; /* of the traits: ln(D/9 in) */

#define OUTSIDE    1.5 /* [E] outside the range of the fit */
#define LEAST_LOAD 0.3 /* less was not judged */

pare_prop_doubt pare_prop_model_doubt(const pare_prop *prop, bool running, double load)
{
    pare_prop_doubt doubt = prop->constants->doubt[running][prop->blades > 2];
    double times = pare_prop_outside(prop) ? OUTSIDE : 1;
    if (prop->blades == 2)
        times *= exp(-prop->constants->doubt_with_size[running] * pare_prop_trait_held(prop, SIZE));
    if (running)
        times *= pow(fmin(fmax(load, LEAST_LOAD), 1), -prop->constants->doubt_with_load);
    doubt.thrust_u *= times;
    doubt.power_u *= times;
    return doubt;
}

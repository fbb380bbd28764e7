/* moist.c: CIPM-2007 (see moist.h). Damp air is lighter than dry, since water is lighter than nitrogen:
 * 0.4 % at 20 degC and half saturated, 2 % on a tropical day. Constants are the paper's, appendix A. */
#include "physics/moist.h"

#include <math.h>

#define GAS_J_MOL_K  8.314472
#define DRY_KG_MOL   28.96546e-3
#define WATER_KG_MOL 18.01528e-3
#define ICE_K        273.15

double pare_moist_share(double kelvin, double pressure_pa, double humidity)
{
    const double t = kelvin - ICE_K, p = pressure_pa;
    const double saturated_pa = exp(1.2378847e-5 * kelvin * kelvin - 1.9121316e-2 * kelvin +
                                    33.93711047 - 6.3431645e3 / kelvin);
    const double enhanced = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
    return humidity * enhanced * saturated_pa / p;
}

double pare_moist_kg_m3(double kelvin, double pressure_pa, double humidity)
{
    const double t = kelvin - ICE_K, p = pressure_pa;
    const double x = pare_moist_share(kelvin, pressure_pa, humidity);
    const double compressed =
        1 -
        p / kelvin *
            (1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t + (5.707e-6 - 2.051e-8 * t) * x +
             (1.9898e-4 - 2.376e-6 * t) * x * x) +
        p * p / (kelvin * kelvin) * (1.83e-11 - 0.765e-8 * x * x);
    return p * DRY_KG_MOL / (compressed * GAS_J_MOL_K * kelvin) *
           (1 - x * (1 - WATER_KG_MOL / DRY_KG_MOL));
}

/* printed.c: walls and infill (see printed.h). What a part bears a gram falls with its infill: core grams
 * carry little. So thin walls and no core beat thick cores at the same mass. */
#include "physics/printed.h"

#include <math.h>

#define FOAM_STRENGTH 0.3

pare_printed pare_printed_of(double volume_m3, double area_m2, double wall_m, double infill,
                             double density_kg_m3)
{
    const double shell_m3 = wall_m > 0 ? fmin(area_m2 * wall_m, volume_m3) : volume_m3;
    const double core_m3 = volume_m3 - shell_m3, all = shell_m3 + infill * core_m3;
    /* A full core is the material itself, which the foam's law does not reach. */
    const double core_bears = infill < 1 ? FOAM_STRENGTH * pow(infill, 1.5) : 1;
    return (pare_printed){.shell_kg = density_kg_m3 * shell_m3,
                          .infill_kg = density_kg_m3 * infill * core_m3,
                          .bears = all > 0 ? (shell_m3 + core_bears * core_m3) / all : 0,
                          .stiffens = all > 0 ? (shell_m3 + infill * infill * core_m3) / all : 0};
}

double pare_strand_bears_n_kg(double strength_pa, double density_kg_m3, double length_m)
{
    return strength_pa / (density_kg_m3 * length_m);
}

double pare_strand_stiff_n_m_kg(double modulus_pa, double density_kg_m3, double length_m)
{
    return modulus_pa / (density_kg_m3 * length_m * length_m);
}

/* wire.c: stranded copper in silicone: what a metre weighs and resists.
 *
 * The gauge fixes the copper (strands of the same total area as the solid wire), the strands fill
 * three quarters of their bundle, and silicone fills what is left inside the outside diameter. So
 * two wires of one gauge differ in mass by their insulation only, which is what a scale finds.
 *
 * Sources: ASTM B258 (diameters by gauge); copper 1.724e-8 ohm m and 0.00393 1/K at 20 degC (IEC
 * 60028, annealed copper), 8890 kg/m3; fill 0.75 and silicone 1200 kg/m3 are from memory. */
#include "physics/wire.h"

#include <math.h>
#include <stddef.h>

#define PI 3.14159265358979323846

static const double copper_20_ohm_m = 1.724e-8, copper_per_k = 0.00393, copper_kg_m3 = 8890,
                    silicone_kg_m3 = 1200, strands_fill = 0.75;

/* The usual outside diameter by gauge: common practice, no source. */
static const struct {
    double gauge, outer_m;
} usual[] = {
    {8, 6.3e-3},  {10, 5.5e-3}, {12, 4.5e-3}, {14, 3.5e-3}, {16, 3.0e-3},
    {18, 2.3e-3}, {20, 1.8e-3}, {22, 1.7e-3}, {24, 1.6e-3}, {26, 1.3e-3},
    {28, 1.2e-3}, {30, 0.8e-3}, {32, 0.7e-3},
};

double pare_wire_diameter_m(double gauge)
{
    return 0.127e-3 * pow(92, (36 - gauge) / 39);
}

double pare_wire_area_m2(double gauge)
{
    const double diameter_m = pare_wire_diameter_m(gauge);
    return PI / 4 * diameter_m * diameter_m;
}

double pare_copper_ohm_per_m(double area_m2, double copper_degc)
{
    return copper_20_ohm_m * (1 + copper_per_k * (copper_degc - 20)) / area_m2;
}

double pare_wire_ohm_per_m(double gauge, double copper_degc)
{
    return pare_copper_ohm_per_m(pare_wire_area_m2(gauge), copper_degc);
}

double pare_wire_outer_m(double gauge)
{
    const size_t last = sizeof usual / sizeof *usual - 1;
    /* Past either end the insulation keeps its share: the copper sets the scale. */
    if (gauge < usual[0].gauge)
        return usual[0].outer_m * pare_wire_diameter_m(gauge) /
               pare_wire_diameter_m(usual[0].gauge);
    for (size_t i = 0; i < last; i++)
        if (gauge <= usual[i + 1].gauge) {
            const double share = (gauge - usual[i].gauge) / (usual[i + 1].gauge - usual[i].gauge);
            return usual[i].outer_m + share * (usual[i + 1].outer_m - usual[i].outer_m);
        }
    return usual[last].outer_m * pare_wire_diameter_m(gauge) /
           pare_wire_diameter_m(usual[last].gauge);
}

double pare_wire_kg_per_m(double gauge, double outer_m)
{
    const double copper_m2 = pare_wire_area_m2(gauge), bundle_m2 = copper_m2 / strands_fill;
    const double across_m = outer_m > 0 ? outer_m : pare_wire_outer_m(gauge);
    /* Thinner outside than its own strands: then there is no insulation, not a negative one. */
    const double silicone_m2 = fmax(PI / 4 * across_m * across_m - bundle_m2, 0);
    return copper_kg_m3 * copper_m2 + silicone_kg_m3 * silicone_m2;
}

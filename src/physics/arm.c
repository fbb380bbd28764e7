/* arm.c: a cantilever with a motor on its end (see arm.h).
 *
 * Bending up and down is what thrust, crash and propeller do to an arm. A plate's section is its width
 * by its thickness upright, so stiffness goes with the cube of thickness and strength with its square:
 * a thinner arm loses stiffness first. Torsion matters for thin plates, whose shear modulus is small.
 * Layers are not modelled: the modulus is that of the plate in bending, where the outer layers decide. */
#include "physics/arm.h"

#include <math.h>

#include "physics/laminate.h"

#define CLOTH_POISSON  0.05 /* of a woven 0/90 layer; from memory */
#define QUASI_POISSON  0.30
#define STRENGTH_PA    400e6 /* the low end of carbon plate, 400 to 700 MPa */
#define CLOTH_SHEAR_PA 80e6  /* strength in shear between the fibres; from memory, 80 to 120 MPa */

#define PI 3.14159265358979323846

pare_arm pare_arm_defaults(void)
{
    return (pare_arm){.form = PARE_ARM_PLATE,
                      .flexural_pa = 57e9,
                      .shear_pa = 4e9,
                      .strength_pa = 550e6,
                      .density_kg_m3 = 1600};
}

static double quasi_shear_pa(double flexural_pa)
{
    return flexural_pa / (2 * (1 + QUASI_POISSON));
}

pare_arm_cloth pare_arm_cloth_of(pare_cloth cloth, double off_axis_rad)
{
    if (cloth == PARE_CLOTH_QUASI) {
        const double low = 35e9, middle = 42.5e9, high = 50e9;
        return (pare_arm_cloth){.low_pa = low,
                                .middle_pa = middle,
                                .high_pa = high,
                                .shear_low_pa = quasi_shear_pa(low),
                                .shear_pa = quasi_shear_pa(middle),
                                .shear_high_pa = quasi_shear_pa(high),
                                .strength_pa = STRENGTH_PA * middle / 57.5e9};
    }
    const pare_ply low = {45e9, 45e9, 3e9, CLOTH_POISSON},
                   middle = {57.5e9, 57.5e9, 4e9, CLOTH_POISSON},
                   high = {70e9, 70e9, 5e9, CLOTH_POISSON};
    const double c = cos(off_axis_rad), s = sin(off_axis_rad);
    const double along =
        (c * c * c * c + s * s * s * s - c * c * s * s) / (STRENGTH_PA * STRENGTH_PA);
    const double between = c * c * s * s / (CLOTH_SHEAR_PA * CLOTH_SHEAR_PA);
    return (pare_arm_cloth){.low_pa = pare_ply_modulus_pa(&low, off_axis_rad),
                            .middle_pa = pare_ply_modulus_pa(&middle, off_axis_rad),
                            .high_pa = pare_ply_modulus_pa(&high, off_axis_rad),
                            .shear_low_pa = pare_ply_shear_pa(&low, off_axis_rad),
                            .shear_pa = pare_ply_shear_pa(&middle, off_axis_rad),
                            .shear_high_pa = pare_ply_shear_pa(&high, off_axis_rad),
                            .strength_pa = 1 / sqrt(along + between)};
}

static pare_status within(const char *what, double value, double low, double high, const char *unit,
                          double scale, pare_error *err)
{
    if (value >= low && value <= high)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "%s %g %s: %g to %g %s would be right", what,
                     value * scale, unit, low * scale, high * scale, unit);
}

static pare_status check(const pare_arm *arm, pare_error *err)
{
    pare_status status = within("width", arm->width_m, 1e-3, 0.1, "mm", 1e3, err);
    if (status == PARE_OK)
        status = within("thickness", arm->thickness_m, 2e-4, 0.05, "mm", 1e3, err);
    if (status == PARE_OK)
        status = within("length", arm->length_m, 5e-3, 1, "mm", 1e3, err);
    if (status == PARE_OK)
        status = within("modulus", arm->flexural_pa, 1e8, 1e12, "GPa", 1e-9, err);
    if (status == PARE_OK)
        status = within("shear modulus", arm->shear_pa, 1e7, 1e12, "GPa", 1e-9, err);
    if (status == PARE_OK)
        status = within("strength", arm->strength_pa, 1e6, 1e10, "MPa", 1e-6, err);
    if (status == PARE_OK)
        status = within("density", arm->density_kg_m3, 100, 20000, "kg/m3", 1, err);
    if (status == PARE_OK)
        status = within("tip mass", arm->tip_kg, 0, 10, "g", 1e3, err);
    if (status == PARE_OK)
        status = within("tip inertia", arm->tip_inertia_kg_m2, 0, 1, "kg m2", 1, err);
    if (status == PARE_OK && arm->form == PARE_ARM_TUBE && 2 * arm->thickness_m > arm->width_m)
        return pare_fail(err, PARE_BAD_DATA,
                         "wall %g mm: half of the outside diameter %g mm is the most",
                         1e3 * arm->thickness_m, 1e3 * arm->width_m);
    return status;
}

pare_status pare_arm_work_out(const pare_arm *arm, pare_arm_figures *figures, pare_error *err)
{
    if (check(arm, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double b = arm->width_m, t = arm->thickness_m, length = arm->length_m;
    double second_m4, area_m2, edge_m, twist_m4;
    if (arm->form == PARE_ARM_PLATE) {
        second_m4 = b * t * t * t / 12;
        area_m2 = b * t;
        edge_m = t / 2;
        /* Saint-Venant's rectangle, the longer side first. */
        const double wide = fmax(b, t), thin = fmin(b, t);
        twist_m4 = wide * thin * thin * thin * (1.0 / 3 - 0.21 * thin / wide);
    } else {
        const double inside = b - 2 * t;
        second_m4 = PI / 64 * (b * b * b * b - inside * inside * inside * inside);
        area_m2 = PI / 4 * (b * b - inside * inside);
        edge_m = b / 2;
        twist_m4 = 2 * second_m4;
    }
    const double mass_kg = arm->density_kg_m3 * area_m2 * length;
    const double cube = length * length * length;
    const double moving_kg = arm->tip_kg + 33.0 / 140 * mass_kg;
    const double stress = length * edge_m / second_m4;
    *figures = (pare_arm_figures){
        .second_moment_m4 = second_m4,
        .mass_kg = mass_kg,
        .m_per_n = cube / (3 * arm->flexural_pa * second_m4),
        .turn_per_m = 1.5 / length,
        .pa_per_n = stress,
        .bears_n = arm->strength_pa / stress,
        .bending_hz = sqrt(3 * arm->flexural_pa * second_m4 / (cube * moving_kg)) / (2 * PI),
        .torsion_hz =
            arm->tip_inertia_kg_m2 > 0
                ? sqrt(arm->shear_pa * twist_m4 / (length * arm->tip_inertia_kg_m2)) / (2 * PI)
                : (double)NAN,
    };
    return PARE_OK;
}

double pare_arm_same_stress_m(double thickness_m, double mass_kg, double new_mass_kg)
{
    return thickness_m * sqrt(new_mass_kg / mass_kg);
}

/* calc_arm.c: `pare calc arm`: a motor arm of plate or tube, its stiffness stated, from its cloth, or
 * from its layers. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/calc.h"
#include "physics/arm.h"
#include "physics/laminate.h"

enum {
    ARM_LENGTH,
    ARM_WIDTH,
    ARM_THICKNESS,
    ARM_OUTER,
    ARM_INNER,
    ARM_TIP,
    ARM_TIP_RADIUS,
    ARM_FORCE,
    ARM_MODULUS,
    ARM_SHEAR,
    ARM_STRENGTH,
    ARM_DENSITY,
    ARM_RPM,
    ARM_CLOTH,
    ARM_OFF_AXIS,
    ARM_LAYERS,
    ARM_ALONG,
    ARM_ACROSS,
    ARM_BETWEEN,
    ARM_POISSON
};

/* A usual layer of carbon fibre in epoxy; from memory. */
#define LAYER_ALONG_PA   130e9
#define LAYER_ACROSS_PA  9e9
#define LAYER_BETWEEN_PA 4.5e9
#define LAYER_POISSON    0.3

static const key arm_keys[] = {
    [ARM_LENGTH] = {"length", PARE_DIM_LENGTH, 5e-3, 1, "5 mm .. 1 m", true, NAN, false},
    [ARM_WIDTH] = {"width", PARE_DIM_LENGTH, 1e-3, 0.1, "1 mm .. 100 mm", false, 0, false},
    [ARM_THICKNESS] = {"thickness", PARE_DIM_LENGTH, 2e-4, 0.05, "0.2 mm .. 50 mm", false, 0,
                       false},
    [ARM_OUTER] = {"outer", PARE_DIM_LENGTH, 1e-3, 0.1, "1 mm .. 100 mm", false, 0, false},
    [ARM_INNER] = {"inner", PARE_DIM_LENGTH, 0, 0.1, "0 mm .. 100 mm", false, 0, false},
    [ARM_TIP] = {"tip", PARE_DIM_MASS, 0, 10, "0 g .. 10 kg", true, NAN, false},
    [ARM_TIP_RADIUS] = {"tip_radius", PARE_DIM_LENGTH, 1e-3, 0.2, "1 mm .. 200 mm", false, 0,
                        false},
    [ARM_FORCE] = {"force", PARE_DIM_FORCE, 0, 1e5, "0 N .. 100 kN", false, NAN, false},
    [ARM_MODULUS] = {"modulus", PARE_DIM_PRESSURE, 1e8, 1e12, "0.1 GPa .. 1000 GPa", false, NAN,
                     false},
    [ARM_SHEAR] = {"shear_modulus", PARE_DIM_PRESSURE, 1e7, 1e12, "0.01 GPa .. 1000 GPa", false,
                   NAN, false},
    [ARM_STRENGTH] = {"strength", PARE_DIM_PRESSURE, 1e6, 1e10, "1 MPa .. 10 GPa", false, NAN,
                      false},
    [ARM_DENSITY] = {"density", PARE_DIM_DENSITY, 100, 20000, "100 kg/m3 .. 20000 kg/m3", false,
                     1600, false},
    [ARM_RPM] = {"rpm", PARE_DIM_ROTATION, 1, 20000, "10 .. 190000 rpm", false, NAN, false},
    [ARM_CLOTH] = {"cloth", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [ARM_OFF_AXIS] = {"off_axis", PARE_DIM_ANGLE, 0, 0.7853981633974484, "0 deg .. 45 deg", false,
                      0, false},
    [ARM_LAYERS] = {"layers", PARE_DIM_NUMBER, 0, 0, "", false, NAN, true},
    [ARM_ALONG] = {"fibre_modulus", PARE_DIM_PRESSURE, 1e9, 1e12, "1 GPa .. 1000 GPa", false,
                   LAYER_ALONG_PA, false},
    [ARM_ACROSS] = {"across_modulus", PARE_DIM_PRESSURE, 1e8, 1e12, "0.1 GPa .. 1000 GPa", false,
                    LAYER_ACROSS_PA, false},
    [ARM_BETWEEN] = {"layer_shear", PARE_DIM_PRESSURE, 1e8, 1e12, "0.1 GPa .. 1000 GPa", false,
                     LAYER_BETWEEN_PA, false},
    [ARM_POISSON] = {"poisson", PARE_DIM_NUMBER, 0, 1, "0 .. 1", false, LAYER_POISSON, false},
};

static pare_status arm_of(const key_values *given, pare_arm *arm, pare_error *err)
{
    const double *v = given->value;
    const bool plate = given->given[ARM_WIDTH] || given->given[ARM_THICKNESS];
    const bool tube = given->given[ARM_OUTER] || given->given[ARM_INNER];
    if (plate == tube || (plate && !(given->given[ARM_WIDTH] && given->given[ARM_THICKNESS])) ||
        (tube && !(given->given[ARM_OUTER] && given->given[ARM_INNER])))
        return pare_fail(err, PARE_BAD_DATA,
                         "a plate needs width= and thickness=, a tube outer= and inner=; one of "
                         "the two would be right");
    if (tube && !(v[ARM_INNER] < v[ARM_OUTER]))
        return pare_fail(err, PARE_BAD_DATA, "inner %g mm: less than outer %g mm would be right",
                         1e3 * v[ARM_INNER], 1e3 * v[ARM_OUTER]);
    *arm = pare_arm_defaults();
    arm->form = plate ? PARE_ARM_PLATE : PARE_ARM_TUBE;
    arm->width_m = plate ? v[ARM_WIDTH] : v[ARM_OUTER];
    arm->thickness_m = plate ? v[ARM_THICKNESS] : (v[ARM_OUTER] - v[ARM_INNER]) / 2;
    arm->length_m = v[ARM_LENGTH];
    arm->tip_kg = v[ARM_TIP];
    arm->tip_inertia_kg_m2 = v[ARM_TIP] * v[ARM_TIP_RADIUS] * v[ARM_TIP_RADIUS];
    arm->density_kg_m3 = v[ARM_DENSITY];
    if (given->given[ARM_MODULUS])
        arm->flexural_pa = v[ARM_MODULUS];
    if (given->given[ARM_SHEAR])
        arm->shear_pa = v[ARM_SHEAR];
    if (given->given[ARM_STRENGTH])
        arm->strength_pa = v[ARM_STRENGTH];
    return PARE_OK;
}

/* "0/90/90/0" as angles. */
static pare_status layers_of(const char *text, double angle_rad[PARE_PLIES], size_t *count,
                             pare_error *err)
{
    *count = 0;
    for (const char *at = text;; at++) {
        char *end = NULL;
        const double degrees = strtod(at, &end);
        if (end == at || !(fabs(degrees) <= 180) || (*end && *end != '/') || *count == PARE_PLIES)
            return pare_fail(err, PARE_BAD_DATA,
                             "layers=%.40s: right would be the angles of 1 to %d layers from the "
                             "top down, in degrees, like 0/90/90/0",
                             text, PARE_PLIES);
        angle_rad[(*count)++] = degrees * 0.017453292519943295;
        if (!*end)
            return PARE_OK;
        at = end;
    }
}

/* What the plate is made of, where its modulus is not said. */
static pare_status stiffness_of(const key_values *given, pare_arm_cloth *plate, pare_error *err)
{
    static const char *const cloths[] = {"0/90", "quasi-isotropic"};
    const double *v = given->value;
    pare_cloth cloth = PARE_CLOTH_CROSS;
    if (given->given[ARM_CLOTH]) {
        if (strcmp(given->text[ARM_CLOTH], cloths[1]) == 0)
            cloth = PARE_CLOTH_QUASI;
        else if (strcmp(given->text[ARM_CLOTH], cloths[0]) != 0)
            return pare_fail(err, PARE_BAD_DATA,
                             "cloth=%.30s: 0/90 or quasi-isotropic would be right",
                             given->text[ARM_CLOTH]);
    }
    *plate = pare_arm_cloth_of(cloth, v[ARM_OFF_AXIS]);
    if (!given->given[ARM_LAYERS])
        return PARE_OK;
    const pare_ply ply = {v[ARM_ALONG], v[ARM_ACROSS], v[ARM_BETWEEN], v[ARM_POISSON]};
    double angle_rad[PARE_PLIES];
    size_t count = 0;
    pare_laminate laminate;
    pare_status status = layers_of(given->text[ARM_LAYERS], angle_rad, &count, err);
    for (size_t i = 0; i < count; i++)
        angle_rad[i] += v[ARM_OFF_AXIS];
    if (status == PARE_OK)
        status = pare_laminate_work_out(&ply, count, angle_rad, &laminate, err);
    if (status == PARE_OK)
        plate->low_pa = plate->middle_pa = plate->high_pa = laminate.bend_pa;
    return status;
}

/* How a rotor speed stands to the band of frequencies, once a turn. */
static void say_whether_it_rings(double rotor_hz, double low_hz, double high_hz,
                                 pare_answer *answer)
{
    pare_answer_add(answer, "rotor_hz", "once a turn of the rotor", "Hz", rotor_hz);
    if (rotor_hz > 0.9 * low_hz && rotor_hz < 1.1 * high_hz)
        pare_answer_note(answer, "the rotor's speed falls in the band of the arm's frequency, "
                                 "widened by 10 %%: it may ring there");
}

static pare_status arm_answer(const key_values *given, pare_units *units, pare_answer *answer,
                              pare_error *err)
{
    (void)units;
    pare_arm arm;
    pare_arm_figures at, low, high;
    pare_arm_cloth plate = {0};
    pare_status status = arm_of(given, &arm, err);
    if (status == PARE_OK)
        status = stiffness_of(given, &plate, err);
    if (status != PARE_OK)
        return status;
    if (!given->given[ARM_MODULUS])
        arm.flexural_pa = plate.middle_pa;
    if (!given->given[ARM_SHEAR])
        arm.shear_pa = plate.shear_pa;
    if (!given->given[ARM_STRENGTH])
        arm.strength_pa = plate.strength_pa;
    status = pare_arm_work_out(&arm, &at, err);
    if (status != PARE_OK)
        return status;
    const bool band = !given->given[ARM_MODULUS] && !given->given[ARM_LAYERS];
    const double modulus_pa = arm.flexural_pa;
    low = high = at;
    if (band) {
        arm.flexural_pa = plate.low_pa;
        status = pare_arm_work_out(&arm, &low, err);
        arm.flexural_pa = plate.high_pa;
        if (status == PARE_OK)
            status = pare_arm_work_out(&arm, &high, err);
        if (status != PARE_OK)
            return status;
    }
    pare_answer_add(answer, "mass_g", "mass", "g", 1e3 * at.mass_kg);
    pare_answer_add(answer, "second_moment_mm4", "second moment of area", "mm4",
                    1e12 * at.second_moment_m4);
    pare_answer_add(answer, "bending_hz", "first bending frequency", "Hz", at.bending_hz);
    pare_answer_add(answer, "modulus_gpa", "modulus along the arm, bent", "GPa", 1e-9 * modulus_pa);
    if (band) {
        pare_answer_add(answer, "bending_low_hz", "its band from", "Hz", low.bending_hz);
        pare_answer_add(answer, "bending_high_hz", "to", "Hz", high.bending_hz);
    }
    if (given->given[ARM_TIP_RADIUS])
        pare_answer_add(answer, "torsion_hz", "first torsion frequency", "Hz", at.torsion_hz);
    pare_answer_add(answer, "bears_n", "force at the tip that breaks the root", "N", at.bears_n);
    if (given->given[ARM_FORCE]) {
        const double force_n = given->value[ARM_FORCE];
        pare_answer_add(answer, "deflection_mm", "deflection of the tip", "mm",
                        1e3 * force_n * low.m_per_n);
        pare_answer_add(answer, "stress_mpa", "stress at the root", "MPa",
                        1e-6 * force_n * at.pa_per_n);
    }
    if (given->given[ARM_RPM])
        say_whether_it_rings(given->value[ARM_RPM] / (2 * 3.14159265358979323846), low.bending_hz,
                             high.bending_hz, answer);
    if (band)
        pare_answer_note(answer,
                         "modulus estimated: such carbon plate has %.0f to %.0f GPa along the arm; "
                         "deflection is for the least",
                         1e-9 * plate.low_pa, 1e-9 * plate.high_pa);
    if (!given->given[ARM_STRENGTH])
        pare_answer_note(answer,
                         "strength estimated: %.0f MPa, the low end of such carbon plate; it may "
                         "have 1.7 times that",
                         1e-6 * arm.strength_pa);
    return PARE_OK;
}

const calc_thing calc_arm = {"arm", sizeof arm_keys / sizeof arm_keys[0], arm_keys, arm_answer};

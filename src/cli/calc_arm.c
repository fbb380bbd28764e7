/* calc_arm.c: `pare calc arm | coax`. */
#include <math.h>
#include <string.h>

#include "cli/calc.h"
#include "physics/arm.h"
#include "physics/coax.h"

enum {
    ARM_LENGTH,
    ARM_WIDTH,
    ARM_THICKNESS,
    ARM_OUTER,
    ARM_INNER,
    ARM_TIP,
    ARM_FORCE,
    ARM_MODULUS,
    ARM_SHEAR,
    ARM_STRENGTH,
    ARM_DENSITY,
    ARM_RPM
};
static const key arm_keys[] = {
    [ARM_LENGTH] = {"length", PARE_DIM_LENGTH, 5e-3, 1, "5 mm .. 1 m", true, NAN, false},
    [ARM_WIDTH] = {"width", PARE_DIM_LENGTH, 1e-3, 0.1, "1 mm .. 100 mm", false, 0, false},
    [ARM_THICKNESS] = {"thickness", PARE_DIM_LENGTH, 2e-4, 0.05, "0.2 mm .. 50 mm", false, 0,
                       false},
    [ARM_OUTER] = {"outer", PARE_DIM_LENGTH, 1e-3, 0.1, "1 mm .. 100 mm", false, 0, false},
    [ARM_INNER] = {"inner", PARE_DIM_LENGTH, 0, 0.1, "0 mm .. 100 mm", false, 0, false},
    [ARM_TIP] = {"tip", PARE_DIM_MASS, 0, 10, "0 g .. 10 kg", true, NAN, false},
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
};

/* The whole band of carbon plate, 0/90 cloth (common practice, no source). */
#define PLATE_LEAST_PA 45e9
#define PLATE_MOST_PA  70e9

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
    arm->density_kg_m3 = v[ARM_DENSITY];
    if (given->given[ARM_MODULUS])
        arm->flexural_pa = v[ARM_MODULUS];
    if (given->given[ARM_SHEAR])
        arm->shear_pa = v[ARM_SHEAR];
    if (given->given[ARM_STRENGTH])
        arm->strength_pa = v[ARM_STRENGTH];
    return PARE_OK;
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
    pare_status status = arm_of(given, &arm, err);
    if (status == PARE_OK)
        status = pare_arm_work_out(&arm, &at, err);
    if (status != PARE_OK)
        return status;
    low = high = at;
    const bool stated = given->given[ARM_MODULUS];
    if (!stated) {
        arm.flexural_pa = PLATE_LEAST_PA;
        status = pare_arm_work_out(&arm, &low, err);
        arm.flexural_pa = PLATE_MOST_PA;
        if (status == PARE_OK)
            status = pare_arm_work_out(&arm, &high, err);
        if (status != PARE_OK)
            return status;
    }
    pare_answer_add(answer, "mass_g", "mass", "g", 1e3 * at.mass_kg);
    pare_answer_add(answer, "second_moment_mm4", "second moment of area", "mm4",
                    1e12 * at.second_moment_m4);
    pare_answer_add(answer, "bending_hz", "first bending frequency", "Hz", at.bending_hz);
    if (!stated) {
        pare_answer_add(answer, "bending_low_hz", "its band from", "Hz", low.bending_hz);
        pare_answer_add(answer, "bending_high_hz", "to", "Hz", high.bending_hz);
    }
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
    if (!stated)
        pare_answer_note(answer, "modulus estimated: carbon plate of 0/90 cloth has 45 to 70 GPa "
                                 "along the arm; deflection is for the least");
    if (!given->given[ARM_STRENGTH])
        pare_answer_note(answer, "strength estimated: 550 MPa; carbon plate has 400 to 700");
    return PARE_OK;
}

const calc_thing calc_arm = {"arm", sizeof arm_keys / sizeof arm_keys[0], arm_keys, arm_answer};

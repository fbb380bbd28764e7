/* arm.h: a motor arm as a cantilever: how far it bends, what it bears, where it rings. */
#ifndef PARE_PHYSICS_ARM_H
#define PARE_PHYSICS_ARM_H

#include "base/error.h"

typedef enum pare_arm_form { PARE_ARM_PLATE, PARE_ARM_TUBE } pare_arm_form;

typedef struct pare_arm {
    pare_arm_form form;
    double width_m;     /* plate: across the arm; tube: outside diameter */
    double thickness_m; /* plate: upright; tube: wall */
    double length_m;    /* root to the motor's axis */
    double
        flexural_pa; /* bending modulus along the arm; a carbon plate 45 to 70e9 for 0/90 cloth */
    double shear_pa; /* in-plane, for torsion; 3 to 5e9 for 0/90 cloth */
    double strength_pa; /* in bending, 400 to 700e6 for carbon plate */
    double density_kg_m3;
    double tip_kg;            /* motor, propeller, screws, bumper */
    double tip_inertia_kg_m2; /* of the same about the arm's own axis; 0: no torsion figure */
} pare_arm;

/** A carbon plate's materials in the middle of their bands, 1600 kg/m3; sizes are the caller's.
 * Moduli and strengths: common practice, no source, from memory. */
pare_arm pare_arm_defaults(void);

typedef struct pare_arm_figures {
    double second_moment_m4; /* of area, for bending up and down */
    double mass_kg;
    double m_per_n;    /* deflection of the tip, a newton */
    double turn_per_m; /* tilt of the tip by its deflection, rad a metre */
    double pa_per_n;   /* stress at the root, a newton */
    double bears_n;    /* force at the tip at which the root breaks */
    double bending_hz; /* first natural frequency */
    double torsion_hz; /* NAN without a tip inertia */
} pare_arm_figures;

/** How a carbon plate's cloth lies to the arm. */
typedef enum pare_cloth {
    PARE_CLOTH_CROSS, /* fibres along and across, 0/90, turned by an angle if the arm is */
    PARE_CLOTH_QUASI  /* fibres in enough directions that the plate is alike in all */
} pare_cloth;

/** What is known of a plate whose maker states nothing: bands, and strengths at their low end. */
typedef struct pare_arm_cloth {
    double low_pa, middle_pa, high_pa; /* bent along the arm */
    double shear_low_pa, shear_pa, shear_high_pa;
    double strength_pa; /* in bending, the low end */
} pare_arm_cloth;

/** A carbon plate.
 *
 * @param off_axis_rad  between the arm and the nearest fibres, 0 to 45 degrees; a quasi-isotropic
 *                      plate does not ask
 * Accuracy: bands, common practice, no source: 45 to 70 GPa along 0/90 cloth, 35 to 50 for a
 * quasi-isotropic plate, shear 3 to 5 GPa and E/2.6. Off the fibres one layer's law (laminate.h) and, for
 * strength, Tsai and Hill's with 80 MPa of shear (Jones, ch. 2; from memory). */
pare_arm_cloth pare_arm_cloth_of(pare_cloth cloth, double off_axis_rad);

/** @return PARE_BAD_DATA for a size or material out of range, naming it
 * Accuracy: the bending frequency takes 33/140 of the arm's mass to the tip, which is 0.05 % high
 * with a tip as heavy as the arm and 1.5 % high without a tip (roots of the clamped beam with a tip
 * mass). Source: Timoshenko, Vibration Problems in Engineering (Rayleigh's method, from memory). */
pare_status pare_arm_work_out(const pare_arm *arm, pare_arm_figures *figures, pare_error *err);

/** The thickness of plate that bears a crash of the same speed at another mass with the same stress. Root
 * stress goes with the force over t^2, and the force, over the same stopping distance, with the mass:
 * t' = t sqrt(m'/m). */
double pare_arm_same_stress_m(double thickness_m, double mass_kg, double new_mass_kg);

#endif

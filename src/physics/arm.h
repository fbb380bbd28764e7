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
    double pa_per_n;   /* stress at the root, a newton */
    double bears_n;    /* force at the tip at which the root breaks */
    double bending_hz; /* first natural frequency */
    double torsion_hz; /* NAN without a tip inertia */
} pare_arm_figures;

/** @return PARE_BAD_DATA for a size or material out of range, naming it
 * Accuracy: the bending frequency takes 33/140 of the arm's mass to the tip, which is 0.05 % high
 * with a tip as heavy as the arm and 1.5 % high without a tip (roots of the clamped beam with a tip
 * mass). Source: Timoshenko, Vibration Problems in Engineering (Rayleigh's method, from memory). */
pare_status pare_arm_work_out(const pare_arm *arm, pare_arm_figures *figures, pare_error *err);

/** Share of its mass that a crash of the same speed with another mass would need in thickness: the
 * plate that bears the same stress at the lower mass. Root stress goes with the force over t^2, and
 * the force, over the same stopping distance, with the mass: t' = t sqrt(m'/m). */
double pare_arm_same_stress_m(double thickness_m, double mass_kg, double new_mass_kg);

#endif

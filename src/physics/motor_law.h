/* motor_law.h: inside the physics room: the motor's equations with everything that does not change
 * from one operating point to the next worked out once. motor.c has the design and the sources. */
#ifndef PARE_PHYSICS_MOTOR_LAW_H
#define PARE_PHYSICS_MOTOR_LAW_H

#include <stdbool.h>

#include "physics/rig.h"

#define PARE_COPPER_PER_K  0.00393 /* IEC 60028: resistance per kelvin over that at 20 degC */
#define PARE_WINDING_FLOOR 0.4     /* below this share the winding's heating runs away */

typedef struct pare_motor_law {
    double ke_v_s;   /* volts a rad/s, and N m an ampere */
    double loss_a;   /* no-load current at standstill */
    double loss_a_s; /* its rise per rad/s */
    double cold_ohm; /* winding at ambient */
    double warming;  /* ohm a watt of iron loss; 1/A^2 of copper loss */
    double at_20_ohm;
    double extra_ohm; /* what driving adds elsewhere: it stays */
    double on_ohm;    /* the ESC's switches */
    double pulse_a;   /* loss current that the ESC's pulses add as output goes to 0 */
    double k_per_w;   /* winding to air, by the share of heating */
} pare_motor_law;

pare_motor_law pare_motor_law_of(const pare_motor *motor, double on_ohm, double heat);

static inline double pare_motor_loss_a(const pare_motor_law *law, double speed_rad_s)
{
    return law->loss_a + law->loss_a_s * speed_rad_s;
}

/** Watts lost in the iron to the ESC's pulses, were the output 0; they fade as it goes to 1. */
static inline double pare_motor_pulse_w(const pare_motor_law *law, double speed_rad_s)
{
    return law->ke_v_s * speed_rad_s * law->pulse_a;
}

/** Winding temperature of a resistance as driven. */
static inline double pare_motor_degc(const pare_motor_law *law, double ohm)
{
    return law->at_20_ohm > 0
               ? 20 + ((ohm - law->extra_ohm) / law->at_20_ohm - 1) / PARE_COPPER_PER_K
               : 20;
}

/** What is left of 1 after the winding's own heating by a current, held at the floor. */
static inline double pare_motor_left(const pare_motor_law *law, double current_a)
{
    const double left = 1 - law->warming * current_a * current_a;
    return left > PARE_WINDING_FLOOR ? left : PARE_WINDING_FLOOR;
}

static inline bool pare_motor_runs_away(const pare_motor_law *law, double current_a)
{
    return law->warming * current_a * current_a >= 1 - PARE_WINDING_FLOOR;
}

/** Resistance as driven, at a speed, with the current's heating taken from pare_motor_left(). */
static inline double pare_motor_ohm(const pare_motor_law *law, double speed_rad_s, double loss_a,
                                    double left)
{
    const double iron_ohm = law->warming * law->ke_v_s * speed_rad_s * loss_a;
    return (law->cold_ohm + iron_ohm) / left + law->extra_ohm;
}

/** Current and volts at a speed and torque; the heating held at its floor where it runs away. */
static inline void pare_motor_run(const pare_motor_law *law, double speed_rad_s, double torque_nm,
                                  double *current_a, double *volts_v, double *ohm)
{
    const double loss_a = pare_motor_loss_a(law, speed_rad_s);
    *current_a = torque_nm / law->ke_v_s + loss_a;
    *ohm = pare_motor_ohm(law, speed_rad_s, loss_a, pare_motor_left(law, *current_a));
    *volts_v = law->ke_v_s * speed_rad_s + *current_a * (*ohm + law->on_ohm);
}

void pare_motor_fill(const pare_motor_law *law, double speed_rad_s, double torque_nm,
                     pare_motor_state *state);

/** PARE_BAD_DATA for a motor that cannot be, naming the field. */
pare_status pare_motor_check(const pare_motor *motor, pare_error *err);

/** PARE_BAD_DATA where the winding has no steady temperature at a current, in words. */
pare_status pare_motor_bears(const pare_motor_law *law, double current_a, pare_error *err);

#endif

/* pair.h: a motor and its propeller as measured together on a thrust stand, and the model bent to
 * what was measured. Read pare_pair_fit_runs() first. */
#ifndef PARE_PHYSICS_PAIR_H
#define PARE_PHYSICS_PAIR_H

#include "physics/prop.h"
#include "physics/rig.h"

/** One reading of a stand. NAN: not measured. */
typedef struct pare_stand_row {
    double volts_v;  /* at the ESC, under load */
    double throttle; /* 0 to 1 */
    double thrust_n;
    double current_a; /* into the ESC */
    double speed_rad_s;
    double torque_nm;
} pare_stand_row;

/** What is known of a pair without its table: the model. */
typedef struct pare_pair_model {
    const pare_prop_table *table;         /* the propeller's */
    pare_prop_doubt doubt;                /* of the propeller's model */
    pare_motor motor;                     /* as stated, or by the laws; its air's temperature */
    double kv_u, resistance_u, no_load_u; /* relative */
    pare_esc esc;
} pare_pair_model;

/** Rows read in one air. */
typedef struct pare_pair_run {
    pare_air air;
    double air_u; /* relative, of its density */
    size_t rows;
    const pare_stand_row *row; /* [rows] */
} pare_pair_run;

/** What a pair's uncertainty is in: relative, each of the value that the fit gives. */
typedef enum pare_pair_number {
    PARE_PAIR_THRUST,
    PARE_PAIR_POWER,
    PARE_PAIR_KV,
    PARE_PAIR_RESISTANCE,
    PARE_PAIR_NO_LOAD,
    PARE_PAIR_NUMBERS
} pare_pair_number;

/** Relative uncertainties that hang together, as independent sources: source s moves number i by
 * root[i][s] at one standard uncertainty. Thrust and power are those of the propeller at one speed. */
typedef struct pare_pair_doubt {
    double root[PARE_PAIR_NUMBERS][PARE_PAIR_NUMBERS]; /* lower triangle */
} pare_pair_doubt;

enum { PARE_PAIR_LAYOUT = 2 }; /* raise when a fit of the same rows comes out otherwise */

enum { PARE_PAIR_UNKNOWNS = 2 * PARE_PROP_TABLE_RE + 6 };

/** The model bent to a stand table. Plain data without pointers. */
typedef struct pare_pair_fit {
    pare_prop_table table; /* the propeller's, with its factors multiplied in */
    pare_motor motor;      /* with the numbers that the table asks for */
    pare_esc esc;          /* likewise */
    /* Natural logarithms: of the factors on thrust and power at the table's Reynolds numbers, of those
     * on kV, resistance, no-load current and switching loss; then the ESC's duty at throttle 0 and the
     * sag of its curve. */
    double unknown[PARE_PAIR_UNKNOWNS];
    double covariance[PARE_PAIR_UNKNOWNS][PARE_PAIR_UNKNOWNS];
    double air_u;                 /* of the vaguest run */
    size_t rows;                  /* that said something */
    size_t torques;               /* of them, with torque measured */
    double low_rad_s, high_rad_s; /* speeds, measured or by thrust */
    double low_v, high_v;         /* volts under load; 0, 0: never measured */
    double thrust_rms, power_rms; /* relative, what is left of the rows; 0: nothing to compare */
} pare_pair_fit;

/** Bends the model to a stand's rows.
 *
 * Thrust and power of the propeller get a factor each that may change slowly with Reynolds number;
 * kV, winding and no-load current a factor each; the ESC a curve from throttle to duty. All start
 * from the model with its own doubt as prior, so that few rows change little and none can run away;
 * away from the measured speeds the factors go back to their mean. What was measured is followed
 * directly where it was: thrust at a speed, torque at a speed, electrical power, and the throttle
 * that gave it. Without a speed it is the one that gives the thrust.
 *
 * The factors are multiplied into the propeller's table, that on power fading with the thrust in
 * flight, so advance ratio, density and Mach number act as in the model. Thrust and torque rise with speed in every fit, therefore thrust and current
 * with throttle and with volts.
 *
 * @param run  [runs]; a reading that is not finite or not more than 0 counts as not measured
 * @return PARE_OK; PARE_BAD_DATA where no row has a thrust or torque that a speed, or a current and
 *         volts, go with; the output is then untouched
 * Accuracy: at a voltage left out, see docs/decisions.md. Allocates nothing; costs about
 * 50 us a row. */
pare_status pare_pair_fit_runs(const pare_pair_model *model, size_t runs, const pare_pair_run run[],
                               pare_pair_fit *fit, pare_error *err);

/** Whether bytes that were kept can be the fit of a propeller and its motor: numbers throughout, and of
 * a size that flight can bear. */
bool pare_pair_fit_is_sound(const pare_pair_fit *fit, const pare_prop *prop);

/** How uncertain a fitted pair is at a rotor speed in some air: close to the scatter, the air of the
 * test and a copy's own spread where it was measured, growing to the model's away from it.
 * @param running  in forward flight along the axis, where the model carries what was measured at rest */
void pare_pair_doubt_at(const pare_pair_fit *fit, const pare_air *air, double speed_rad_s,
                        bool running, pare_pair_doubt *doubt);

/** How uncertain a rig's rotors are at a speed in its air, measured or by the model. With the model,
 * what is not of the propeller is 0: the motor's numbers have doubts of their own.
 * @param running  in forward flight along the axis
 * @param load     then: CT over that at rest (pare_prop_model_doubt) */
void pare_rig_rotor_doubt(const pare_rig *rig, double speed_rad_s, bool running, double load,
                          pare_pair_doubt *doubt);

/** Lets a rig fly with a fitted pair: its table, its motor's numbers and its ESC's. The rig lends the
 * fit. Mass and air of the motor stay as they are. */
void pare_rig_use_pair(const pare_pair_fit *fit, pare_rig *rig);

typedef struct pare_pair_state {
    double speed_rad_s, thrust_n, torque_nm, current_a, duty;
} pare_pair_state;

/** A fitted pair at rest on certain volts and throttle, in any air.
 * @return PARE_BAD_DATA for volts out of 0.1 .. 1000 V or a throttle out of 0 .. 1 */
pare_status pare_pair_at(const pare_pair_fit *fit, const pare_air *air, double volts_v,
                         double throttle, pare_pair_state *state, pare_error *err);

/** The same at rest for a thrust, on certain volts: duty over 1 is more than full throttle gives.
 * @return PARE_BAD_DATA where no speed gives it */
pare_status pare_pair_for_thrust(const pare_pair_fit *fit, const pare_air *air, double volts_v,
                                 double thrust_n, pare_pair_state *state, pare_error *err);

#endif

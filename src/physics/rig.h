/* rig.h: one multirotor as numbers: everything that its flight depends on and nothing else.
 *
 * The craft room fills it from parts and stations; the flight functions below take it as const.
 * All rotors are alike; how evenly they share the weight is one number. Charge (state of charge) is 0 to 1. */
#ifndef PARE_PHYSICS_RIG_H
#define PARE_PHYSICS_RIG_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"
#include "physics/air.h"
#include "physics/cell.h"
#include "physics/rotor.h"

typedef struct pare_motor {
    double kv_rpm_per_v;
    double resistance_ohm; /* winding, at 20 degC */
    double no_load_a;
    double no_load_at_v;
    double mass_kg;
    double iron_share; /* of no-load loss that rises with speed, 0 to 1 */
    double ambient_degc;
    double drive_excess; /* resistance on an ESC over the winding's own, less 1; 0: the same */
    double excess_warms; /* share of that excess that is the winding's: warms it, rises with it */
    double pulse_loss;   /* no-load losses that the ESC's pulses add as output goes to 0; 0: none */
} pare_motor;

typedef struct pare_esc {
    double on_ohm;    /* its switches, two in the path */
    double switching; /* of the motor's current at the pack's volts, as output goes to 0 */
    double idle_a;
} pare_esc;

typedef struct pare_pack {
    pare_chemistry chemistry;
    int cells;                /* in series */
    double capacity_c;        /* coulomb, the whole pack */
    double temperature_degc;  /* 25 */
    double resistance_factor; /* on the chemistry's law; 1 */
    double group_ohm;         /* stated or measured resistance of one cell group at 25 degC and
                                     half charge; 0: the law */
    double lead_ohm;          /* all leads and connectors in the pack's path, both ways */
    double mass_kg;           /* only for pare_rig_growth(); 0: not known */
    const pare_cell *cell; /* the constants of its cells; NULL: those shipped for the chemistry */
} pare_pack;

/** Where thrust and power of the rotors come from, from the vaguest up. */
typedef enum pare_source_kind {
    PARE_FROM_SIZE,   /* the model, of a blade by its size */
    PARE_FROM_LINE,   /* the model, its line known as well */
    PARE_FROM_BLADE,  /* the model, of a measured blade */
    PARE_FROM_TUNNEL, /* bent to a wind tunnel's table */
    PARE_FROM_STAND,  /* bent to a thrust stand's table, with its motor */
    PARE_SOURCES
} pare_source_kind;

typedef struct pare_rig {
    int rotors;
    double mass_kg;
    pare_rotor rotor;
    pare_source_kind rotor_source;
    /* What the rotor was bent to (tunnel.h), and what rotor and motor together (pair.h); NULL. */
    const struct pare_tunnel_fit *tunnel;
    const struct pare_pair_fit *pair;
    pare_motor motor;
    pare_esc esc;
    pare_pack pack;
    pare_air air;
    double drag_m2;     /* CdA in level flight */
    double drag_top_m2; /* CdA from above; 2 drag_m2 where not known */
    double always_w;    /* electronics */
    double blockage;    /* share of thrust lost on the arms, kb */
    double spin_kg_m2;  /* rotor and bell about the motor's axis, Ir */
    double inertia_xx_kg_m2, inertia_yy_kg_m2, inertia_zz_kg_m2;
    double sum_x_m, sum_y_m; /* sum of |x|, |y| of the rotors from the centre of mass */
    double uneven; /* standard deviation of the rotors' thrusts over their mean when it holds still;
                      INFINITY: one would have to pull down */
} pare_rig;

/** Starting values for what a builder rarely knows; see rig.c for each default's source. */
void pare_rig_defaults(pare_rig *rig);

/* ---- motor.c ---- */

typedef struct pare_motor_state {
    double current_a, resistance_ohm, volts_v, winding_degc, torque_nm, speed_rad_s;
} pare_motor_state;

/** A motor at a speed and torque (equivalent circuit with iron loss and heated winding).
 *
 * @param heat  1: steady, 0: cold winding; a burst uses 0.3
 * @return PARE_OK; PARE_BAD_DATA where the winding would run away (no steady temperature) */
pare_status pare_motor_at(const pare_motor *motor, double on_ohm, double speed_rad_s,
                          double torque_nm, double heat, pare_motor_state *state, pare_error *err);

/** A motor on a fixed voltage drawing a current, for `calc motor`; heat as above. */
pare_status pare_motor_on(const pare_motor *motor, double volts_v, double current_a, double heat,
                          pare_motor_state *state, pare_error *err);

/** The current of best efficiency on a fixed voltage, and that efficiency. */
pare_status pare_motor_best(const pare_motor *motor, double volts_v, double heat, double *current_a,
                            double *efficiency, pare_error *err);

/* ---- pack.c ---- */

double pare_pack_cell_v(pare_chemistry chemistry, double charge); /* open circuit, one cell */
double pare_pack_open_v(const pare_pack *pack, double charge);
/** Whole pack with leads. steady: 1; pare_pack_steady() at a time from rest. */
double pare_pack_ohm(const pare_pack *pack, double charge, double steady);
/** How much of the slow resistance has set in, 0 to 1, after a time from rest. */
double pare_pack_steady(const pare_pack *pack, double time_s);
double pare_pack_group_ohm(const pare_pack *pack, double charge);
/** How well the pack's law is known: what cells showed that the fit had not seen. Where the group's
 * resistance is stated, ohm_share_u is what the law adds to the statement's own doubt. */
pare_pack_doubt pare_pack_model_doubt(const pare_pack *pack);
/** Energy at open-circuit volts from full down to a charge, joule. */
double pare_pack_energy_j(const pare_pack *pack, double down_to);
double pare_chemistry_landing_v(pare_chemistry chemistry);
double pare_chemistry_cutoff_v(pare_chemistry chemistry);
double pare_chemistry_full_v(pare_chemistry chemistry);
/** The current at which a source of volts behind ohm gives a power, and its volts under that load.
 * @return PARE_BAD_DATA past V^2/4R, with the most it gives in the message */
pare_status pare_pack_current(double open_v, double ohm, double power_w, double *current_a,
                              double *volts_v, pare_error *err);
/** The most power that source can give. Infinite at 0 ohm. */
double pare_pack_most_w(double open_v, double ohm);

/* ---- operate.c: the operating point ---- */

typedef struct pare_operating {
    pare_rotor_state rotor; /* one rotor */
    pare_motor_state motor; /* one motor */
    double duty;            /* 0 to 1: the output that a pilot sees */
    double pack_v, pack_a, pack_w;
    double tilt_rad, drag_n; /* level flight */
    double efficiency;       /* shaft power of all rotors over the pack's power */
} pare_operating;

/** Thrust in multiples of weight, at rest (1: hover). No point: PARE_BAD_DATA, with the reason. */
pare_status pare_rig_thrust(const pare_rig *rig, double weights, double charge,
                            pare_operating *point, pare_error *err);
/** Level flight at a speed. */
pare_status pare_rig_level(const pare_rig *rig, double speed_m_s, double charge,
                           pare_operating *point, pare_error *err);
/** Full throttle at rest or in a flow (axial_m_s along the thrust, inplane_m_s across).
 * @param heat, steady  0.3 and 0 in a burst from rest; 1 and 1 sustained */
pare_status pare_rig_full(const pare_rig *rig, double charge, double heat, double steady,
                          double axial_m_s, double inplane_m_s, pare_operating *point,
                          pare_error *err);
/** Thrust-to-weight of a full-throttle point. */
double pare_rig_thrust_to_weight(const pare_rig *rig, const pare_operating *full);

/* ---- endure.c: minutes and range ---- */

typedef enum pare_flown_as { PARE_FLOWN_SPEED, PARE_FLOWN_THRUST, PARE_FLOWN_FULL } pare_flown_as;

typedef struct pare_flown {
    pare_flown_as as;
    double share; /* of flight time; shares sum to 1 */
    double level; /* m/s, or multiples of weight (hover: 1) */
} pare_flown;

typedef struct pare_landing {
    double cell_v; /* under load */
    double charge; /* 0.20 */
} pare_landing;

typedef struct pare_endurance {
    double time_s, charge_end, mean_a, rms_a;
    double least_cell_v;           /* a cell's under the hardest entry, as it lands */
    double motor_rms_a;            /* one motor's, over the entries at half charge */
    double slow_rad_s, fast_rad_s; /* the rotors' least and greatest speed of entries that are held;
                                      0: none is */
    double cruise_rad_s;           /* at the speed that is flown for the longest; 0: at none */
    double winding_degc; /* hottest winding of any entry, were it flown without end; over 180 is a
                            warning, and where it would run away it is held at a finite value */
    bool by_voltage;     /* landed on the cell voltage rather than the charge left */
    bool full_throttle;  /* an entry asked for more than full throttle gives, and was held there */
} pare_endurance;

/** Minutes on one pack, from full: to the charge left, to the landing volts under hover load, or to the
 * chemistry's cut-off volts under the highest load, whichever comes first.
 *
 * @param entries  [count], 1 to 16; an entry past full throttle is held there and said so
 * @return PARE_BAD_DATA where it does not hover on a full pack or lands at once, saying so
 * Accuracy: 1e-6 of the integral. */
pare_status pare_rig_endure(const pare_rig *rig, size_t count, const pare_flown entries[],
                            const pare_landing *landing, pare_endurance *result, pare_error *err);

typedef struct pare_best_range {
    double speed_m_s, range_m, time_s, charge_end;
} pare_best_range;
/** The speed of least energy a metre at half charge, and how far it goes; it lands under its own load. */
pare_status pare_rig_best_range(const pare_rig *rig, const pare_landing *landing,
                                pare_best_range *result, pare_error *err);

/* ---- manoeuvre.c ---- */

typedef struct pare_burst {
    double time_s, end_m_s, end_rad_s;
} pare_burst;
/** Straight up from hover at full throttle.
 *
 * @param step_s  0: steps that follow the rotors' time constant, about 1e-4 of fine ones, the end taken
 *                at arrival; or fixed steps, 1e-4 to 0.05 s, the end taken after the last of them
 * @return PARE_BAD_DATA where it does not climb, or has not arrived in 20 s, saying so */
pare_status pare_rig_burst(const pare_rig *rig, double height_m, double charge, double step_s,
                           pare_burst *result, pare_error *err);

typedef struct pare_quickness {
    double roll_rad_s2, pitch_rad_s2, yaw_rad_s2; /* one side full, the other idling */
    double yaw_start_rad_s2;                      /* yaw with the rotors' own spin-up */
    double lag_s;                                 /* tau of a rotor at hover */
    double rate_01_rad_s;                         /* roll rate 0.1 s after the stick */
    double step_n, step_held_n;                   /* thrust steps a rotor */
    double roll_held_rad_s2, pitch_held_rad_s2, yaw_held_rad_s2; /* hover thrust held */
} pare_quickness;
pare_status pare_rig_quickness(const pare_rig *rig, double charge, pare_quickness *result,
                               pare_error *err);
/** Roll rate so long after the stick, thrust following with the rotors' lag; air does not slow it yet.
 * @param lag_s  more than 0 */
double pare_roll_rate(double roll_rad_s2, double lag_s, double time_s);

typedef struct pare_turn {
    double load_factor, rate_rad_s, radius_m;
} pare_turn;
pare_status pare_rig_turn(const pare_rig *rig, double speed_m_s, double charge, pare_turn *result,
                          pare_error *err);
/** Fastest steady vertical climb. */
pare_status pare_rig_climb(const pare_rig *rig, double charge, double *climb_m_s, pare_error *err);
/** Horizontal acceleration at a speed, height held. */
pare_status pare_rig_dash(const pare_rig *rig, double speed_m_s, double charge,
                          double *acceleration_m_s2, pare_error *err);
pare_status pare_rig_top_speed(const pare_rig *rig, double charge, double *speed_m_s,
                               pare_error *err);

/** Rotor and bell about the motor's axis: 0.29 m R^2 of the propeller, 0.42 m rb^2 of the motor. */
double pare_rotor_spin_kg_m2(double prop_mass_kg, double prop_diameter_m, double motor_mass_kg);

/* ---- growth.c: knock-on ---- */

typedef struct pare_growth {
    double seconds_per_kg;    /* d hover time / d mass, at rest */
    double climb_m_s2_per_kg; /* d vertical full-throttle acceleration / d mass */
    double capacity_exponent; /* d ln Ah / d ln m at equal hover time */
    double growth; /* grams in the end per gram at first, motors and pack growing along */
} pare_growth;
/** growth is 0 where pack.mass_kg is not known or where there is no end to it. The pack's mass goes with
 * its capacity. */
pare_status pare_rig_growth(const pare_rig *rig, const pare_landing *landing, pare_growth *result,
                            pare_error *err);

#endif

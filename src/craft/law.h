/* law.h: the trade's scaling laws: what a part that nobody has weighed weighs, and what a motor or a
 * board that nobody has measured draws.
 *
 * Source of the laws and scatters here: common practice, no source, but for a motor's winding and
 * unloaded current, fitted to thrust stands; those marked [E] in law.c are our own estimates. A law gives a typical value and one sigma of scatter between real parts. Pure
 * functions: no allocation, threads safe. Inputs out of their kind's range (spec.h) give a number
 * without meaning, never a trap. */
#ifndef PARE_CRAFT_LAW_H
#define PARE_CRAFT_LAW_H

#include "craft/part.h"

/** A typical value and its standard uncertainty, in the unit that ends the function's name. */
typedef struct pare_typical {
    double value, u;
} pare_typical;

/** A motor with its wire, from the stator: 1103 to 2812 checked. */
pare_typical pare_law_motor_kg(double stator_diameter_m, double stator_length_m);
/** One phase to another, at 20 degC. */
pare_typical pare_law_winding_ohm(double kv_rpm_per_v, double stator_diameter_m,
                                  double stator_length_m);
/** At PARE_LAW_NO_LOAD_AT_V; for motors that run near those volts and up. */
#define PARE_LAW_NO_LOAD_AT_V 10.0
pare_typical pare_law_no_load_a(double kv_rpm_per_v, double stator_diameter_m,
                                double stator_length_m);
/** Outside of the bell and height without the shaft. [E] */
double pare_law_motor_outer_m(double stator_diameter_m);
double pare_law_motor_height_m(double stator_length_m);
/** How deep a screw may go into its base before it touches the winding. [E] */
pare_typical pare_law_screw_depth_m(double stator_diameter_m);

/** One propeller, 3 to 10 in checked. */
pare_typical pare_law_propeller_kg(double diameter_m, int blades);

/** A pack with leads and connector. Lithium-ion: the lightest whole number of 18650 or 21700 cells
 * in parallel that holds the capacity. */
pare_typical pare_law_pack_kg(pare_chemistry chemistry, int cells, double capacity_c);
/** One cell group at 25 degC and half charge. The label's rating does not enter. */
pare_typical pare_law_group_ohm(pare_chemistry chemistry, double capacity_c);

/** A four-in-one ESC; stack_m 0: not known, taken as the large pattern with more scatter. */
pare_typical pare_law_esc_four_kg(double continuous_a, double stack_m);
pare_typical pare_law_esc_one_kg(double continuous_a);
pare_typical pare_law_controller_with_esc_kg(double continuous_a);

/** A frame with its screws, from the largest propeller it takes, for a plain build.
 * @param build  0.7 spare .. 1.3 heavy; 1 otherwise */
pare_typical pare_law_frame_kg(double propeller_m, double build);
/** Motor to motor across the middle, from the largest propeller; and back. */
pare_typical pare_law_wheelbase_m(double propeller_m);
double pare_law_propeller_for_wheelbase_m(double wheelbase_m);

/** Drag area in level flight, broadside, from the mass of the whole craft, and its relative scatter. */
double pare_law_drag_m2(double craft_kg);
#define PARE_LAW_DRAG_SCATTER 0.30

/** Drawn at the part; {0, 0} for kinds that draw nothing worth counting. */
pare_typical pare_law_power_w(const pare_part *part);
/** Share of power that a regulator passes on. */
pare_typical pare_law_regulator_efficiency(void);
/** Both contacts of a pair. */
pare_typical pare_law_connector_ohm(void);

/** The typical mass of a part from its kind and specs, given or filled; its own mass_kg is not read.
 *
 * Without half a sigma for a silent maker: pare_part_complete() adds that. So it serves a sought
 * part too, of which only kind and specs are wished.
 * @return false when no law knows: other and printed parts, and a frame without size */
bool pare_law_mass(const pare_part *part, pare_typical *mass_kg);

/** The largest stated size at a key, or 0: of a motor's bolt circles, a board's stack patterns. */
double pare_fit_largest(const pare_fit *fit);

#endif

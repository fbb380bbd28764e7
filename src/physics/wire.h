/* wire.h: what a length of wire weighs and resists. */
#ifndef PARE_PHYSICS_WIRE_H
#define PARE_PHYSICS_WIRE_H

/** AWG gauge to bare diameter and copper area (ASTM B258). */
double pare_wire_diameter_m(double gauge);
double pare_wire_area_m2(double gauge);
/** One conductor, at a temperature. */
double pare_wire_ohm_per_m(double gauge, double copper_degc);
/** The same by its copper's area. */
double pare_copper_ohm_per_m(double area_m2, double copper_degc);
/** Silicone-insulated, stranded; outer_m 0 takes the usual outside diameter for the gauge, and one
 * smaller than the strands need counts as bare copper. */
double pare_wire_kg_per_m(double gauge, double outer_m);
/** The usual outside diameter of silicone wire of a gauge (8 .. 32), interpolated; beyond, in
 * proportion to the conductor. Common practice, no source; about 6 % in mass. */
double pare_wire_outer_m(double gauge);

#endif

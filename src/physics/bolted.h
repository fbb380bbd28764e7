/* bolted.h: how a load comes to the screws of a base. */
#ifndef PARE_PHYSICS_BOLTED_H
#define PARE_PHYSICS_BOLTED_H

/** The pull and the shear on one screw. */
typedef struct pare_screw_load {
    double pull_n, shear_n;
} pare_screw_load;

/** A base reaches so far beyond the circle of its screws, in radii of it; estimate. */
#define PARE_BASE_OVER_CIRCLE 1.25

/** The most that one screw is pulled when a moment tips a base over its edge: screws evenly on a
 * circle, the base turned so that one stands farthest from the edge, or so that two share that place.
 * They share the moment by their distance from the edge (a stiff base on like screws). Two screws in
 * line with the edge have only the base's own reach for a lever: there the edge carries it.
 *
 * @param screws    1 or more
 * @param circle_m  radius of their circle, above 0
 * Source: statics of a stiff bolted base; the reach is PARE_BASE_OVER_CIRCLE. */
double pare_bolted_pull_n(double moment_nm, int screws, double circle_m);

/** What a screw bears over its load, pull and shear together: 1/sqrt((pull/breaks)^2 +
 * (shear/shears)^2), the circle of interaction; HUGE_VAL without load, 0 where it bears nothing. */
double pare_bolted_ratio(double breaks_n, double shears_n, const pare_screw_load *load);

#endif

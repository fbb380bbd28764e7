/* wake.h: what stands in a hovering rotor's wake takes part of its thrust back. */
#ifndef PARE_PHYSICS_WAKE_H
#define PARE_PHYSICS_WAKE_H

/** Dynamic pressure of the flow through a disc at a share of its radius, over that of an even flow of the
 * same thrust: about 0.4 at a fifth, 1.4 at six tenths, 0.3 at the tip.
 *
 * The mean of the blade elements of eleven propellers, 2.5 to 15 in with two to four blades; they differ by
 * 5 % of it (standard deviation). Outside 0 .. 1 there is no wake. */
double pare_wake_pressure(double share);
/** Its integral from the axis. */
double pare_wake_pressure_sum(double share);

/** How much faster the wake is than at its disc, so far below it in radii (above: below 0): 1 at the disc, 2
 * far below. Source: the axis of a semi-infinite vortex tube (Leishman, Principles of Helicopter
 * Aerodynamics, 2nd ed., sec. 2.2 and 10; from memory). */
double pare_wake_growth(double below);

/** Drag coefficient of a flat plate across the flow, of so many widths in length, 1 to 30.
 * Source: Hoerner, Fluid-Dynamic Drag, ch. 3, by the usual line through his points (1.17 for a square, 1.2
 * at 5, 1.3 at 10, 1.5 at 20; from memory). */
double pare_plate_drag(double lengths);

/** A flat arm along a radius of a rotor, and the middle of the craft under the rim of its disc. */
typedef struct pare_under_disc {
    double radius_m; /* of the rotor */
    double below_m;  /* the arm's middle under the disc; less than 0: above it */
    double width_m;  /* of the arm */
    double motor_m;  /* radius of the motor, which shields the arm */
    double reach_m;  /* from the rotor's axis to the middle of the craft */
    double middle_m; /* radius of the round plate there, where the arm ends */
} pare_under_disc;

/** The share of a rotor's thrust that they take back.
 *
 * Strip by strip: plate drag in the wake's own dynamic pressure, the wake grown and drawn in as far as it is
 * there. One end of the arm is closed by the motor, so its drag coefficient is that of a plate twice as long.
 * Left out, for want of a number: what the rotor gains over a plate as over the ground.
 * [E] to 40 %: a plate behind a turning rotor is in no steady flow. */
double pare_download_share(const pare_under_disc *under);

#endif

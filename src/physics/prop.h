/* prop.h: what a propeller gives: blade elements, evaluated directly or through a table. */
#ifndef PARE_PHYSICS_PROP_H
#define PARE_PHYSICS_PROP_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"
#include "physics/air.h"

/** The shape class of a propeller's line: what is alike in blades that are sold in many sizes. */
typedef enum pare_prop_line {
    PARE_LINE_UNKNOWN,
    PARE_LINE_THIN,     /* narrow blades with a thin section, for electric motors */
    PARE_LINE_SLIM,     /* narrower still, with more camber */
    PARE_LINE_SPORT,    /* thicker, for engines as well */
    PARE_LINE_SLOW,     /* slow flying: thin and broad */
    PARE_LINE_PARK,     /* slow flying: broad, soft and moulded */
    PARE_LINE_DIRECT,   /* narrow, soft and moulded, for motors without a gear */
    PARE_LINE_FOLDING,  /* blades for a folding hub */
    PARE_LINE_CLASSIC,  /* thick, as carved of wood */
    PARE_LINE_SCIMITAR, /* swept back */
    PARE_LINE_BROAD,    /* broad to the tip: multirotors of 5 to 7 in */
    PARE_PROP_LINES
} pare_prop_line;

/** "unknown", "thin" and so on. */
const char *pare_prop_line_name(pare_prop_line line);
/** @return PARE_PROP_LINES where no line has the name */
pare_prop_line pare_prop_line_named(const char *name);

/** What is taken to vary from propeller to propeller beyond the size: see prop_trend.c. */
typedef enum pare_prop_lever {
    PARE_LEVER_TWIST, /* added to all stations, rad */
    PARE_LEVER_CHORD, /* ln of a factor on a default blade's chord */
    PARE_LEVER_SLOPE, /* ln of a factor on the lift slope, on the least drag, on the greatest lift */
    PARE_LEVER_DRAG,
    PARE_LEVER_LIFT,
    PARE_LEVER_CT_STILL, /* ln of a factor on CT at rest and in full motion, and on CP */
    PARE_LEVER_CT_MOVING,
    PARE_LEVER_CP_STILL,
    PARE_LEVER_CP_MOVING,
    PARE_LEVERS
} pare_prop_lever;

enum { PARE_PROP_TRAITS = 12, PARE_PROP_LINE_TERMS = 6 };

/** How the levers go with what is known of a propeller. */
typedef struct pare_prop_trend {
    double trait[PARE_LEVERS][PARE_PROP_TRAITS];
    double line[PARE_LEVERS][PARE_PROP_LINES]
               [PARE_PROP_LINE_TERMS]; /* offset, with pitch and size */
    double
        reynolds[PARE_LEVERS - PARE_LEVER_CT_STILL]; /* the last four, per ln(Re/1e5) at 0.75 R */
} pare_prop_trend;

/** Where the measurements lie that a set was fitted to. */
typedef struct pare_prop_hull {
    double low[PARE_PROP_TRAITS], high[PARE_PROP_TRAITS];
    double line_low[PARE_PROP_LINES][2], line_high[PARE_PROP_LINES][2]; /* of its pitch and size */
    double reynolds_low, reynolds_high;                                 /* ln(Re/1e5) at 0.75 R */
} pare_prop_hull;

/** Relative standard uncertainties of CT and CP, and the correlation of the two errors with which the power
 * at a thrust has the uncertainty that it showed. */
typedef struct pare_prop_doubt {
    double thrust_u, power_u, correlation;
} pare_prop_doubt;

/** The constants of the blade-element model. More than one set exists: the shipped ones, and those
 * that the check cases of the published description fix. */
typedef struct pare_prop_constants {
    const char *name;           /* short, for the sheet */
    const char *source;         /* of the data fitted */
    double lift_slope;          /* a0, 1/rad */
    double lift_slope_exponent; /* na: with (Re/1e5)^na, Re/1e5 held within 0.05 .. 10; all alike */
    double zero_lift_rad;       /* aL0 */
    double lift_most;           /* clmax */
    double lift_most_exponent;  /* nc, for clmin as well */
    double drag_least;          /* cd0 */
    double drag_least_exponent; /* nd: with (Re/1e5)^-nd */
    double drag_curve;          /* k2: drag rises with k2 (cl - clc)^2 */
    double drag_centre;         /* clc */
    double stall_width;         /* ws, rad: from attached to halfway stalled */
    double plate_normal;        /* CN: a stalled section is a flat plate times this */
    double rotation;            /* ks: clmax grows by ks (c/r)^2 near the hub, to twice at most */
    double hub;                 /* xhub, r/R, for the hub's loss */
    double inner;               /* x0, r/R, where the blade begins */
    double loss_factor;         /* kF, on Prandtl's losses */
    double lift_least;          /* clmin, below zero lift */
    double mach_most;           /* Mcap: compressibility is held from here on */
    double ideal_share_most;    /* no less power than an ideal disc's over this; 1 at most */
    double chord[3];            /* of the default blade, c/R at 0.75 R: v0, v1 (P/D), v2 (ln D) */
    double twist[2];            /* v4 on the pitch, v5 added, rad */
    double chord_blades;        /* v6, a blade more than two */
    double chord_shape[5];      /* S, over the chord at 0.75 R, highest power of r/R first */
    double twist_shape[4];      /* Tw, rad, likewise */
    double many_blades;         /* chord factor with three blades and more */
    double chord_max_ratio;     /* known greatest chord over the chord at 0.75 R */
    double slow_chord, slow_twist_rad; /* added with line "slow": chord at 0.75 R; twist */
    pare_prop_trend trend;
    pare_prop_hull hull;
    pare_prop_doubt doubt[2][2]; /* at rest and running; with two blades and with more */
    double doubt_with_size[2];   /* that of two blades is at 9 in; times (9 in/D) to this */
    double doubt_with_load; /* running: that at the thrust of rest; times (CT at rest/CT) to this */
    double median[2][2], ninth[2][2]; /* of the error as a share, left out of the fit: at rest and
                                         running, CT and CP; half and nine tenths are within */
} pare_prop_constants;

/** The shipped sets (prop_fitted.c, written by tools/fit): of a blade from its size, the line not
 * known and known, and of a measured blade likewise. */
extern const pare_prop_constants pare_prop_family, pare_prop_family_line;
extern const pare_prop_constants pare_prop_true, pare_prop_true_line;

/** The shipped set for what is known of a propeller. */
const pare_prop_constants *pare_prop_set(bool measured, pare_prop_line line);

enum { PARE_PROP_NODES = 16, PARE_PROP_STATIONS = 32 };

/** A propeller ready to be evaluated. Plain data: copy freely. */
typedef struct pare_prop {
    const pare_prop_constants *constants;
    double diameter_m;
    int blades;
    double radius[PARE_PROP_NODES]; /* r/R of the Gauss-Legendre nodes */
    double weight[PARE_PROP_NODES];
    double chord[PARE_PROP_NODES]; /* c/R */
    double twist[PARE_PROP_NODES]; /* rad */
    pare_prop_line line;
    double trait[PARE_PROP_TRAITS];
    double lever[PARE_LEVERS];
    double slope_factor, drag_factor, lift_factor; /* of the levers */
    double stop_advance;                           /* J where it counts as fully moving */
    double reynolds_of_tip;                        /* Re at 0.75 R over rho Omega R^2 / mu */
} pare_prop;

/** What a user can state about a propeller. */
typedef struct pare_prop_size {
    double diameter_m; /* 0.02 .. 1 */
    double pitch_m;    /* 0 .. 2 diameters */
    int blades;        /* 2 .. 8 */
    double chord_m;    /* greatest chord, 0.02 .. 0.4 diameters; 0: not known */
    pare_prop_line line;
} pare_prop_size;

/** The blade that such a propeller usually has.
 *
 * @return PARE_OK, or PARE_BAD_DATA naming what is out of range; the output is then untouched.
 * Fitted over 2 to 19 in and pitches up to 1.2 diameters; beyond that it is unchecked. */
pare_status pare_prop_from_size(const pare_prop_size *size, const pare_prop_constants *constants,
                                pare_prop *prop, pare_error *err);

/** From measured geometry.
 * @param radius [count] r/R rising, @param chord [count] c/R, @param twist_rad [count]; 2..32 */
pare_status pare_prop_from_stations(double diameter_m, int blades, pare_prop_line line,
                                    size_t count, const double radius[], const double chord[],
                                    const double twist_rad[], const pare_prop_constants *constants,
                                    pare_prop *prop, pare_error *err);

/** What of a propeller lies outside the range that its set was fitted to, in words ("its pitch"), or
 * NULL where nothing does. */
const char *pare_prop_outside(const pare_prop *prop);

/** CT and CP (rho n^2 D^4, rho n^3 D^5) at an advance ratio, straight from the blade elements.
 *
 * CT need not fall with J, and both are negative where the flow drives the propeller.
 * @param advance      J = V/(n D); below 0 (or NaN) is taken as 0, above 50 as 50
 * @param speed_rad_s  0 or less, or not finite: both are 0
 * Accuracy: see prop.c for the error against measured propellers; the solution itself is to 1e-9.
 * Threads: safe. Allocates: nothing. */
void pare_prop_coefficients(const pare_prop *prop, double advance, double speed_rad_s,
                            const pare_air *air, double *ct, double *cp);

/** The same, tabulated: built once a propeller, then shared by all its air, speeds and flows. Plain
 * data without pointers, so that a bench can keep it as bytes.
 *
 * Good for J 0 .. 1.6 and tip speeds of about 12 .. 290 m/s in any air from sea level to 5 km: there
 * it is within 0.5 % of the direct answer (see speed/rotor.c and tests/unit/rotor.c for how far).
 * Outside, Reynolds and Mach number are held at the edge and J runs on along a parabola. */
enum {
    PARE_PROP_TABLE_J = 17, /* uniform on 0 .. 1.6; as many pieces, the last one beyond */
    PARE_PROP_TABLE_RE = 4, /* Chebyshev points in about ln Re, air at rest as it were (Mach 0) */
    PARE_PROP_TABLE_SETS = PARE_PROP_TABLE_RE + 2 /* and what a high Mach number adds, at two Re */
};
typedef struct pare_prop_table {
    double diameter_m;
    double reynolds_middle, per_span; /* of rho Omega R^2 / mu: prop_table.h */
    /* Of CT and CP: the four coefficients of a cubic over each step of J, lowest power first. */
    _Alignas(16) double piece[PARE_PROP_TABLE_J][4][PARE_PROP_TABLE_SETS][2];
    _Alignas(16) double moving[PARE_PROP_TABLE_SETS]
                              [2]; /* the values at J = 0.15, for the inclined rotor */
} pare_prop_table;

void pare_prop_table_build(const pare_prop *prop, pare_prop_table *table);

/** Whether bytes that were kept under this propeller's key can be its table: the right diameter, and
 * numbers throughout. */
bool pare_prop_table_is_sound(const pare_prop_table *table, const pare_prop *prop);

/** A change of what a table holds: at each of its advance ratios and at twice the last one, at each of
 * its Reynolds numbers, of CT and CP. */
typedef struct pare_prop_change {
    double at[PARE_PROP_TABLE_J + 1][PARE_PROP_TABLE_RE][2];
} pare_prop_change;

/** The table with its values times factors. */
void pare_prop_table_scale(const pare_prop_table *model, const pare_prop_change *factors,
                           pare_prop_table *table);
/** The table with something added to its values. */
void pare_prop_table_shift(const pare_prop_table *model, const pare_prop_change *added,
                           pare_prop_table *table);

/** CT and CP from a table; arguments as for pare_prop_coefficients(). */
void pare_prop_table_coefficients(const pare_prop_table *table, double advance, double speed_rad_s,
                                  const pare_air *air, double *ct, double *cp);

/** How far off the model may be for this propeller, from propellers left out of the fit.
 *
 * Calibrated for a normal distribution at both half and nine tenths, as far as the errors are normal
 * (tools/fit prints the shares). Half as much again outside the range of the fit, [E].
 * @param running  in forward flight along the axis; else at rest
 * @param load     running: its CT over that at rest, of the model; held within 0.3 and 1, as measured */
pare_prop_doubt pare_prop_model_doubt(const pare_prop *prop, bool running, double load);

/** A number that changes when anything that a table depends on does: geometry, constants, layout.
 * For the key under which a bench keeps the table. */
unsigned long long pare_prop_table_key(const pare_prop *prop);

#endif

/* prop.h: what a propeller gives: blade elements, evaluated directly or through a table. */
#ifndef PARE_PHYSICS_PROP_H
#define PARE_PHYSICS_PROP_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"
#include "physics/air.h"

/** The constants of the blade-element model. More than one set exists: the shipped one, and the
 * one that the check cases of the published description fix. */
typedef struct pare_prop_constants {
    const char *name;       /* short, for the sheet and for the key of a stored table */
    double lift_slope;      /* a0, 1/rad, and its Reynolds exponent na; and so on: one field a
                               constant, named in words, with the symbol in the comment */
    double lift_slope_exponent;
    double zero_lift_rad;
    double lift_most, lift_most_exponent;
    double drag_least, drag_least_exponent;
    double drag_curve, drag_centre;
    double stall_width;
    double plate_normal;
    double rotation;
    double hub, inner;
    double loss_factor;
    double lift_least;
    double mach_most;
    double chord[8];        /* v0..v7 of the default blade */
    double chord_shape[5];  /* S, highest power first */
    double twist_shape[4];  /* Tw, likewise */
    double many_blades;     /* chord factor with three blades and more */
    double slow_twist_rad;  /* added to a slow propeller's true twist */
    double chord_max_ratio; /* known greatest chord over the chord at 0.75 R */
} pare_prop_constants;

/** The set for a propeller of which only diameter, pitch and blade count are known, and the one for
 * a measured blade. */
extern const pare_prop_constants pare_prop_family;
extern const pare_prop_constants pare_prop_true;

enum { PARE_PROP_NODES = 16, PARE_PROP_STATIONS = 32 };

/** A propeller ready to be evaluated. Plain data: copy freely. */
typedef struct pare_prop {
    const pare_prop_constants *constants;
    double diameter_m;
    int blades;
    double radius[PARE_PROP_NODES]; /* r/R of the Gauss-Legendre nodes */
    double weight[PARE_PROP_NODES];
    double chord[PARE_PROP_NODES];  /* c/R */
    double twist[PARE_PROP_NODES];  /* rad */
} pare_prop;

/** What a user can state about a propeller. */
typedef struct pare_prop_size {
    double diameter_m; /* 0.02 .. 1 */
    double pitch_m;    /* 0 .. 2 diameters */
    int blades;        /* 2 .. 8 */
    double chord_m;    /* greatest chord; 0: not known */
    bool slow;         /* a slow-flying kind, thin and broad */
} pare_prop_size;

pare_status pare_prop_from_size(const pare_prop_size *size, const pare_prop_constants *constants,
                                pare_prop *prop, pare_error *err);

/** From measured geometry.
 * @param radius [count] r/R rising, @param chord [count] c/R, @param twist_rad [count]; 2..32 */
pare_status pare_prop_from_stations(double diameter_m, int blades, bool slow, size_t count,
                                    const double radius[], const double chord[],
                                    const double twist_rad[], const pare_prop_constants *constants,
                                    pare_prop *prop, pare_error *err);

/** CT and CP (rho n^2 D^4, rho n^3 D^5) at an advance ratio, straight from the blade elements.
 *
 * @param advance   J = V/(n D); below 0 is taken as 0
 * @param speed_rad_s  more than 0 */
void pare_prop_coefficients(const pare_prop *prop, double advance, double speed_rad_s,
                            const pare_air *air, double *ct, double *cp);

/** The same, tabulated over J, ln Re and M^2: built once a propeller, then shared. Plain data
 * without pointers, so that a bench can keep it as bytes. */
enum { PARE_PROP_TABLE_J = 25, PARE_PROP_TABLE_RE = 5, PARE_PROP_TABLE_MACH = 2 };
typedef struct pare_prop_table {
    double diameter_m;
    double ct[PARE_PROP_TABLE_MACH][PARE_PROP_TABLE_RE][PARE_PROP_TABLE_J];
    double cp[PARE_PROP_TABLE_MACH][PARE_PROP_TABLE_RE][PARE_PROP_TABLE_J];
} pare_prop_table;

void pare_prop_table_build(const pare_prop *prop, pare_prop_table *table);

/** A number that changes when anything that a table depends on does: geometry, constants, layout.
 * For the key under which a bench keeps the table. */
unsigned long long pare_prop_table_key(const pare_prop *prop);

#endif

/* prop_table.h: looking up a propeller's table, inline because flight does it by the thousand.
 *
 * All states at one rotor speed in one air share Reynolds and Mach number, so the weights over those
 * two are made once (a slice) and each advance ratio then costs a handful of products. */
#ifndef PARE_PHYSICS_PROP_TABLE_H
#define PARE_PHYSICS_PROP_TABLE_H

#include <math.h>

#include "physics/prop.h"

#define PARE_PROP_TABLE_END      1.6 /* the last J of the regular part */
#define PARE_PROP_TABLE_PER_STEP ((PARE_PROP_TABLE_J - 1) / PARE_PROP_TABLE_END)
#define PARE_PROP_TABLE_SLOPE    0.15 /* where the inclined rotor takes its lift slope */

/* Chebyshev points of the first kind, n = 4. */
#define PARE_CHEBYSHEV_OUTER 0.92387953251128675613
#define PARE_CHEBYSHEV_INNER 0.38268343236508977173

/* The Reynolds axis. Polars go with powers of Re, which a cubic in ln Re follows; but the logarithm
 * is the longest wait in a look-up. With s = (Re - m)/(Re + m) about the middle m, ln(Re/m) is
 * 2 artanh s, and these three terms (fitted, not Taylor's) stand in for artanh s: over a span of
 * 25 to 1 a cubic in them follows Re^-0.34 to 8e-4, as one in ln Re does. */
static inline double pare_prop_table_reynolds(double s)
{
    const double s2 = s * s;
    return s + s * s2 * (0.3 + 0.4 * s2);
}

/* The Mach axis. Compressibility enters as 1/sqrt(1 - M^2) of each station, less what induction takes
 * back. Over whole propellers M^2/(1 - 0.1 M^2) of the tip is straight in that to 0.15 % up to 0.7, so
 * two Mach numbers do what three and a parabola would; and what the higher one adds depends so little
 * on Re that two points are enough. Past 0.75 the blade elements hold the effect as well. */
#define PARE_PROP_TABLE_MACH_HIGH 0.66
#define PARE_PROP_TABLE_MACH_MOST 0.78
#define PARE_PROP_TABLE_MACH_BEND 0.1

/** 0 at a standstill, 1 at PARE_PROP_TABLE_MACH_HIGH. */
static inline double pare_prop_table_mach(double tip_m_s, double sound_m_s)
{
    const double high = PARE_PROP_TABLE_MACH_HIGH * PARE_PROP_TABLE_MACH_HIGH;
    const double to_one = (1 - PARE_PROP_TABLE_MACH_BEND * high) / high;
    const double most_m_s = PARE_PROP_TABLE_MACH_MOST * sound_m_s;
    const double held_m_s = tip_m_s < most_m_s ? tip_m_s : most_m_s;
    const double held2 = held_m_s * held_m_s;
    return held2 * to_one / (sound_m_s * sound_m_s - PARE_PROP_TABLE_MACH_BEND * held2);
}

/* CT and CP side by side. Every step of a lookup does the same to both, so they travel as one
 * two-lane value (GCC's and Clang's vector type, plain arithmetic where there is no such register):
 * half the instructions, and no store that a wider load then has to wait for. */
typedef double pare_pair __attribute__((vector_size(16), may_alias));

typedef struct pare_prop_slice {
    const pare_prop_table *table;
    pare_pair weight[PARE_PROP_TABLE_SETS];
} pare_prop_slice;

static inline pare_pair pare_both(double value)
{
    return (pare_pair){value, value};
}

/* Where a state stands on the table's two outer axes. */
typedef struct pare_prop_place {
    double u;              /* Reynolds number, -1 to 1 */
    double m;              /* Mach number */
    double u_rise, m_rise; /* with ln of the rotor speed */
} pare_prop_place;

/** @param speed_rad_s  more than 0 and finite */
static inline pare_prop_place pare_prop_place_of(const pare_prop_table *table, double speed_rad_s,
                                                 const pare_air *air)
{
    const double radius_m = 0.5 * table->diameter_m, tip_m_s = speed_rad_s * radius_m;
    const double here = air->density_kg_m3 * tip_m_s * radius_m;
    const double middle = air->viscosity_pa_s * table->reynolds_middle;
    const double s = (here - middle) / (here + middle), s2 = s * s;
    const double u = pare_prop_table_reynolds(s) * table->per_span;
    const double m = pare_prop_table_mach(tip_m_s, air->sound_m_s);
    pare_prop_place place = {u, m, 0, 0};
    if (u >= 1)
        place.u = 1;
    else if (!(u > -1))
        place.u = -1;
    else
        place.u_rise = 0.5 * (1 - s2) * (1 + s2 * (0.9 + 2 * s2)) * table->per_span;
    const double mach2 = tip_m_s * tip_m_s / (air->sound_m_s * air->sound_m_s);
    if (mach2 < PARE_PROP_TABLE_MACH_MOST * PARE_PROP_TABLE_MACH_MOST)
        place.m_rise = 2 * m / (1 - PARE_PROP_TABLE_MACH_BEND * mach2);
    return place;
}

/* Lagrange on -o, -i, i, o: (u^2 - i^2)(u - o) and so on; o^2 - i^2 = 1/sqrt 2. */
#define PARE_CHEBYSHEV_PER_INNER (1.41421356237309504880 / (2 * PARE_CHEBYSHEV_OUTER))
#define PARE_CHEBYSHEV_PER_OUTER (1.41421356237309504880 / (2 * PARE_CHEBYSHEV_INNER))

static inline void pare_prop_slice_weigh(pare_prop_slice *slice, const pare_prop_table *table,
                                         double u, double m)
{
    const double o = PARE_CHEBYSHEV_OUTER, i = PARE_CHEBYSHEV_INNER;
    const double inner = (u * u - i * i) * PARE_CHEBYSHEV_PER_INNER;
    const double outer = (u * u - o * o) * PARE_CHEBYSHEV_PER_OUTER;
    slice->weight[0] = pare_both(inner * (o - u));
    slice->weight[1] = pare_both(outer * (u - i));
    slice->weight[2] = pare_both(-outer * (u + i));
    slice->weight[3] = pare_both(inner * (u + o));
    slice->weight[4] = pare_both(m * (0.5 - u * (0.5 / i)));
    slice->weight[5] = pare_both(m * (0.5 + u * (0.5 / i)));
    slice->table = table;
}

/** The weights' slopes with ln of the rotor speed, as a slice of its own: what it gives are slopes. */
static inline void pare_prop_slice_weigh_slopes(pare_prop_slice *slice,
                                                const pare_prop_table *table,
                                                const pare_prop_place *at)
{
    const double o = PARE_CHEBYSHEV_OUTER, i = PARE_CHEBYSHEV_INNER;
    const double u = at->u, m = at->m, u_rise = at->u_rise, m_rise = at->m_rise;
    const double inner = (u * u - i * i) * PARE_CHEBYSHEV_PER_INNER;
    const double outer = (u * u - o * o) * PARE_CHEBYSHEV_PER_OUTER;
    const double inner_rise = 2 * u * PARE_CHEBYSHEV_PER_INNER;
    const double outer_rise = 2 * u * PARE_CHEBYSHEV_PER_OUTER;
    slice->weight[0] = pare_both(u_rise * (inner_rise * (o - u) - inner));
    slice->weight[1] = pare_both(u_rise * (outer_rise * (u - i) + outer));
    slice->weight[2] = pare_both(-u_rise * (outer_rise * (u + i) + outer));
    slice->weight[3] = pare_both(u_rise * (inner_rise * (u + o) + inner));
    slice->weight[4] = pare_both(m_rise * (0.5 - u * (0.5 / i)) - m * u_rise * (0.5 / i));
    slice->weight[5] = pare_both(m_rise * (0.5 + u * (0.5 / i)) + m * u_rise * (0.5 / i));
    slice->table = table;
}

/** @param speed_rad_s  more than 0 and finite */
static inline void pare_prop_slice_take(pare_prop_slice *slice, const pare_prop_table *table,
                                        double speed_rad_s, const pare_air *air)
{
    const pare_prop_place at = pare_prop_place_of(table, speed_rad_s, air);
    pare_prop_slice_weigh(slice, table, at.u, at.m);
}

/* The table keeps its numbers on 16-byte boundaries for this. */
static inline pare_pair pare_pair_from(const double at[2])
{
    const void *bytes = at;
    return *(const pare_pair *)bytes;
}

/* One product of the sum below; written out there because -O2 leaves so short a loop a loop. */
static inline pare_pair pare_prop_slice_part(const pare_prop_slice *slice, const double (*at)[2],
                                             int set)
{
    return slice->weight[set] * pare_pair_from(at[set]);
}

static inline pare_pair pare_prop_slice_sum(const pare_prop_slice *slice, const double (*at)[2])
{
    return ((pare_prop_slice_part(slice, at, 0) + pare_prop_slice_part(slice, at, 1)) +
            (pare_prop_slice_part(slice, at, 2) + pare_prop_slice_part(slice, at, 3))) +
           (pare_prop_slice_part(slice, at, 4) + pare_prop_slice_part(slice, at, 5));
}

/** CT and CP at J = 0, and at the J of the lift slope. */
static inline pare_pair pare_prop_slice_still(const pare_prop_slice *slice)
{
    return pare_prop_slice_sum(slice, slice->table->piece[0][0]);
}

static inline pare_pair pare_prop_slice_moving(const pare_prop_slice *slice)
{
    return pare_prop_slice_sum(slice, slice->table->moving);
}

typedef struct pare_prop_step {
    int piece;
    double t; /* steps into it */
} pare_prop_step;

/** @param advance  finite; NaN and below 0: as 0 */
static inline pare_prop_step pare_prop_step_of(double advance)
{
    const double steps = advance > 0 ? advance * PARE_PROP_TABLE_PER_STEP : 0;
    const double last = PARE_PROP_TABLE_J - 1;
    const int piece = (int)(steps < last ? steps : last);
    return (pare_prop_step){piece, steps - piece};
}

static inline pare_pair pare_prop_cubic(const double (*piece)[PARE_PROP_TABLE_SETS][2], int set,
                                        double t)
{
    const pare_pair a0 = pare_pair_from(piece[0][set]);
    const pare_pair a1 = pare_pair_from(piece[1][set]);
    const pare_pair a2 = pare_pair_from(piece[2][set]);
    const pare_pair a3 = pare_pair_from(piece[3][set]);
    return a0 + t * (a1 + t * (a2 + t * a3));
}

/** CT and CP at an advance ratio. The cubics come before the weights: they need not wait for Reynolds
 * and Mach number, whose divisions then run beside them. */
static inline pare_pair pare_prop_slice_at(const pare_prop_slice *slice, double advance)
{
    const pare_prop_step step = pare_prop_step_of(advance);
    const double(*piece)[PARE_PROP_TABLE_SETS][2] = slice->table->piece[step.piece];
    const pare_pair *w = slice->weight;
    return ((w[0] * pare_prop_cubic(piece, 0, step.t) + w[1] * pare_prop_cubic(piece, 1, step.t)) +
            (w[2] * pare_prop_cubic(piece, 2, step.t) + w[3] * pare_prop_cubic(piece, 3, step.t))) +
           (w[4] * pare_prop_cubic(piece, 4, step.t) + w[5] * pare_prop_cubic(piece, 5, step.t));
}

/** Their derivatives with J. */
static inline pare_pair pare_prop_slice_slope(const pare_prop_slice *slice, double advance)
{
    const pare_prop_step step = pare_prop_step_of(advance);
    const double(*piece)[PARE_PROP_TABLE_SETS][2] = slice->table->piece[step.piece];
    const double t = step.t;
    return PARE_PROP_TABLE_PER_STEP * (pare_prop_slice_sum(slice, piece[1]) +
                                       t * (2.0 * pare_prop_slice_sum(slice, piece[2]) +
                                            3.0 * t * pare_prop_slice_sum(slice, piece[3])));
}

#endif

/* prop_table.h: looking up a propeller's table, inline because flight does it by the thousand.
 *
 * All states at one rotor speed in one air share Reynolds and Mach number, so the weights over those
 * two are made once (a slice) and each advance ratio then costs a handful of products. */
#ifndef PARE_PHYSICS_PROP_TABLE_H
#define PARE_PHYSICS_PROP_TABLE_H

#include <math.h>

#include "physics/prop.h"

/* Columns of pare_prop_table.at: a ghost point on either side of the J that were computed, so that
 * every interval has four points; then two for direct use. */
enum {
    PARE_PROP_COLUMN_STILL = 1,                     /* J = 0 */
    PARE_PROP_COLUMN_SLOPE = PARE_PROP_TABLE_J + 2, /* J = 0.15, interpolated */
    PARE_PROP_COLUMN_FAR = PARE_PROP_TABLE_J + 3    /* J = 3.2, computed */
};

#define PARE_PROP_TABLE_END   1.6  /* the last J of the regular part */
#define PARE_PROP_TABLE_SLOPE 0.15 /* where the inclined rotor takes its lift slope */

/* Chebyshev points of the first kind, n = 4, and the weights of Lagrange's form on them. */
#define PARE_CHEBYSHEV_OUTER 0.92387953251128675613
#define PARE_CHEBYSHEV_INNER 0.38268343236508977173

/* Compressibility enters as 1/sqrt(1 - M^2) of a station, most of it near 0.8 R. A rational map of
 * that M^2 is proportional to 1/sqrt(1 - M^2) - 1 within 1 % up to M = 0.7, so two Mach numbers and
 * a straight line between them do what three and a parabola in M^2 would. */
#define PARE_PROP_TABLE_MACH_HIGH 0.6
#define PARE_PROP_TABLE_MACH_MOST 0.85

#define PARE_PROP_TABLE_PER_HIGH                                                                   \
    ((1 - 0.75 * 0.64 * PARE_PROP_TABLE_MACH_HIGH * PARE_PROP_TABLE_MACH_HIGH) /                   \
     (0.64 * PARE_PROP_TABLE_MACH_HIGH * PARE_PROP_TABLE_MACH_HIGH))

static inline double pare_prop_table_mach(double tip_mach_squared)
{
    const double y = 0.64 * tip_mach_squared;
    return y / (1 - 0.75 * y);
}

/* CT and CP side by side. Every step of a lookup does the same to both, so they travel as one
 * two-lane value (GCC's and Clang's vector type, plain arithmetic where there is no such register):
 * half the instructions, and no store that a wider load then has to wait for. */
typedef double pare_pair __attribute__((vector_size(16)));

typedef struct pare_prop_slice {
    const pare_prop_table *table;
    pare_pair weight[PARE_PROP_TABLE_SETS];
} pare_prop_slice;

static inline pare_pair pare_both(double value)
{
    return (pare_pair){value, value};
}

/** @param speed_rad_s  more than 0 and finite */
static inline void pare_prop_slice_take(pare_prop_slice *slice, const pare_prop_table *table,
                                        double speed_rad_s, const pare_air *air)
{
    const double radius_m = 0.5 * table->diameter_m, tip_m_s = speed_rad_s * radius_m;
    const double reynolds = air->density_kg_m3 * tip_m_s * radius_m / air->viscosity_pa_s;
    double u = (log(reynolds) - table->log_re_middle) * table->per_log_re_half;
    u = u > 1 ? 1 : u > -1 ? u : -1;
    double mach = tip_m_s / air->sound_m_s;
    mach = mach < PARE_PROP_TABLE_MACH_MOST ? mach : PARE_PROP_TABLE_MACH_MOST;
    const double m = pare_prop_table_mach(mach * mach) * PARE_PROP_TABLE_PER_HIGH;
    /* Lagrange on -o, -i, i, o: (u^2 - i^2)(u - o) and so on; o^2 - i^2 = 1/sqrt 2. */
    const double o = PARE_CHEBYSHEV_OUTER, i = PARE_CHEBYSHEV_INNER, root2 = 1.41421356237309504880;
    const double inner = (u * u - i * i) * (root2 / (2 * o));
    const double outer = (u * u - o * o) * (root2 / (2 * i));
    const double weight[PARE_PROP_TABLE_RE] = {inner * (o - u), outer * (u - i), -outer * (u + i),
                                               inner * (u + o)};
    for (int r = 0; r < PARE_PROP_TABLE_RE; r++) {
        slice->weight[2 * r] = pare_both((1 - m) * weight[r]);
        slice->weight[2 * r + 1] = pare_both(m * weight[r]);
    }
    slice->table = table;
}

static inline pare_pair pare_prop_slice_column(const pare_prop_slice *slice, int column)
{
    const double(*at)[2] = slice->table->at[column];
    pare_pair even = {0, 0}, odd = {0, 0};
    for (int k = 0; k < PARE_PROP_TABLE_SETS; k += 2) {
        even += slice->weight[k] * (pare_pair){at[k][0], at[k][1]};
        odd += slice->weight[k + 1] * (pare_pair){at[k + 1][0], at[k + 1][1]};
    }
    return even + odd;
}

/** CT and CP at an advance ratio; per_advance: their derivatives. Past the end: the parabola with
 * the value and slope there and the value at twice that J, because the thrust of a driven propeller
 * grows with V^2 and so its coefficient with J^2. */
static inline pare_pair pare_prop_slice_at(const pare_prop_slice *slice, double advance,
                                           pare_pair *per_advance)
{
    const double per_step = (PARE_PROP_TABLE_J - 1) / PARE_PROP_TABLE_END;
    const double last = PARE_PROP_TABLE_J - 1;
    const double asked = advance > 0 ? advance * per_step : 0;
    double t = asked < last ? asked : last;
    int left = (int)t;
    left = left < PARE_PROP_TABLE_J - 2 ? left : PARE_PROP_TABLE_J - 2;
    t -= left;
    const pare_pair f0 = pare_prop_slice_column(slice, left);
    const pare_pair f1 = pare_prop_slice_column(slice, left + 1);
    const pare_pair f2 = pare_prop_slice_column(slice, left + 2);
    const pare_pair f3 = pare_prop_slice_column(slice, left + 3);
    /* Catmull and Rom: cubic, with the slope at a point from its two neighbours. */
    const pare_pair a1 = 0.5 * (f2 - f0), a2 = f0 - 2.5 * f1 + 2.0 * f2 - 0.5 * f3,
                    a3 = 0.5 * (f3 - f0) + 1.5 * (f1 - f2);
    const pare_pair value = f1 + t * (a1 + t * (a2 + t * a3));
    const pare_pair slope = per_step * (a1 + t * (2.0 * a2 + 3.0 * t * a3));
    if (asked <= last) {
        *per_advance = slope;
        return value;
    }
    const double past = asked / per_step - PARE_PROP_TABLE_END;
    const pare_pair far = pare_prop_slice_column(slice, PARE_PROP_COLUMN_FAR);
    const pare_pair bend = (far - value - slope * PARE_PROP_TABLE_END) *
                           (1 / (PARE_PROP_TABLE_END * PARE_PROP_TABLE_END));
    *per_advance = slope + 2 * past * bend;
    return value + past * (slope + past * bend);
}

#endif

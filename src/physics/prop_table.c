/* prop_table.c: a propeller's coefficients as a table: made once, in milliseconds.
 *
 * Blade elements take about 10 us a state and a sheet asks for hundreds, so each propeller is solved
 * at 25 advance ratios x 4 Reynolds x 2 Mach numbers and interpolated: Catmull-Rom over J, which is
 * smooth enough for the solvers' slopes; one cubic over ln Re through Chebyshev points, because a
 * straight line between five points misses the drag's power law by more than the J axis does; a
 * straight line over a variable in which compressibility is straight (prop_table.h). The span of
 * Reynolds numbers follows the diameter: tip speeds of 12 to 330 m/s in sea-level air.
 *
 * What is kept is linear in what was computed, so ghost points and the value at J = 0.15 are columns
 * too, made here and not at every lookup. Read prop_table.h for the layout and the lookup. */
#include "physics/prop_table.h"

#include <stddef.h>

#include "physics/prop_blade.h"

#define SEA_DENSITY_OVER_VISCOSITY 68459.0 /* s/m2, standard air */
#define LEAST_TIP_M_S              12.0
#define MOST_TIP_M_S               330.0
#define TABLE_TOLERANCE_RAD        1e-5
#define LAYOUT                     1 /* raise when the meaning of the table's bytes changes */

static void fill_column(const pare_prop *prop, pare_prop_table *table, int column, double advance)
{
    static const double at[PARE_PROP_TABLE_RE] = {-PARE_CHEBYSHEV_OUTER, -PARE_CHEBYSHEV_INNER,
                                                  PARE_CHEBYSHEV_INNER, PARE_CHEBYSHEV_OUTER};
    for (int set = 0; set < PARE_PROP_TABLE_SETS; set++) {
        const double reynolds = exp(table->log_re_middle + at[set / 2] / table->per_log_re_half);
        double *pair = table->at[column][set];
        pare_prop_blade(prop, advance, reynolds, set % 2 * PARE_PROP_TABLE_MACH_HIGH,
                        TABLE_TOLERANCE_RAD, &pair[0], &pair[1]);
    }
}

/* The point that a parabola through three neighbours has next. */
static void extrapolate_column(pare_prop_table *table, int column, int step)
{
    for (int set = 0; set < PARE_PROP_TABLE_SETS; set++)
        for (int i = 0; i < 2; i++)
            table->at[column][set][i] = 3 * table->at[column + step][set][i] -
                                        3 * table->at[column + 2 * step][set][i] +
                                        table->at[column + 3 * step][set][i];
}

static void interpolate_slope_column(pare_prop_table *table)
{
    for (int set = 0; set < PARE_PROP_TABLE_SETS; set++) {
        pare_prop_slice one = {.table = table};
        one.weight[set] = pare_both(1);
        pare_pair slope;
        const pare_pair value = pare_prop_slice_at(&one, PARE_PROP_TABLE_SLOPE, &slope);
        table->at[PARE_PROP_COLUMN_SLOPE][set][0] = value[0];
        table->at[PARE_PROP_COLUMN_SLOPE][set][1] = value[1];
    }
}

void pare_prop_table_build(const pare_prop *prop, pare_prop_table *table)
{
    const double scale = SEA_DENSITY_OVER_VISCOSITY * 0.5 * prop->diameter_m;
    const double low = log(scale * LEAST_TIP_M_S), high = log(scale * MOST_TIP_M_S);
    table->diameter_m = prop->diameter_m;
    table->log_re_middle = 0.5 * (low + high);
    table->per_log_re_half = 2 / (high - low);
    for (int j = 0; j < PARE_PROP_TABLE_J; j++)
        fill_column(prop, table, j + 1, j * PARE_PROP_TABLE_END / (PARE_PROP_TABLE_J - 1));
    fill_column(prop, table, PARE_PROP_COLUMN_FAR, 2 * PARE_PROP_TABLE_END);
    extrapolate_column(table, 0, 1);
    extrapolate_column(table, PARE_PROP_TABLE_J + 1, -1);
    interpolate_slope_column(table);
}

void pare_prop_table_coefficients(const pare_prop_table *table, double advance, double speed_rad_s,
                                  const pare_air *air, double *ct, double *cp)
{
    *ct = *cp = 0;
    if (!(speed_rad_s > 0) || !isfinite(speed_rad_s))
        return;
    pare_prop_slice slice;
    pare_pair slope;
    pare_prop_slice_take(&slice, table, speed_rad_s, air);
    const pare_pair value = pare_prop_slice_at(
        &slice, advance < PARE_PROP_ADVANCE_MOST ? advance : PARE_PROP_ADVANCE_MOST, &slope);
    *ct = value[0];
    *cp = value[1];
}

/* FNV-1a, 64 bits. */
static unsigned long long hash(unsigned long long sum, const void *bytes, size_t length)
{
    const unsigned char *byte = bytes;
    for (size_t i = 0; i < length; i++)
        sum = (sum ^ byte[i]) * 0x100000001b3ULL;
    return sum;
}

unsigned long long pare_prop_table_key(const pare_prop *prop)
{
    const int layout[] = {LAYOUT, PARE_PROP_TABLE_J, PARE_PROP_TABLE_RE, PARE_PROP_TABLE_MACH,
                          PARE_PROP_NODES};
    /* All fields after the name are doubles, so these bytes have no padding. */
    const size_t numbers = offsetof(pare_prop_constants, lift_slope);
    unsigned long long sum = 0xcbf29ce484222325ULL;
    sum = hash(sum, layout, sizeof layout);
    sum = hash(sum, (const char *)prop->constants + numbers, sizeof *prop->constants - numbers);
    sum = hash(sum, &prop->diameter_m, sizeof prop->diameter_m);
    sum = hash(sum, &prop->blades, sizeof prop->blades);
    sum = hash(sum, prop->chord, sizeof prop->chord);
    return hash(sum, prop->twist, sizeof prop->twist);
}

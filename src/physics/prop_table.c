/* prop_table.c: a propeller's coefficients as a table: made once, in milliseconds.
 *
 * Blade elements take about 10 us a state and a sheet asks for hundreds, so each propeller is solved
 * at 17 advance ratios, 4 Reynolds numbers and, for two of those, a second Mach number, and
 * interpolated: a cubic over each step of J
 * with slopes from the neighbours, smooth enough for the solvers' own slopes, and past the last the
 * parabola with the value and slope there and the value at twice that J, because the thrust of a
 * driven propeller grows with V^2 and so its coefficient with J^2; one cubic over about ln Re through Chebyshev points, because a
 * straight line between five points misses the drag's power law by more than the J axis does; a
 * straight line over a variable in which compressibility is straight (prop_table.h). The span of
 * Reynolds numbers follows the diameter: tip speeds of 12 to 300 m/s in sea-level air, but not down to
 * where the polars no longer change (Re 5000 of a station) and a smooth curve would miss the corner.
 *
 * What is kept is linear in what was computed, so the cubics' coefficients and the value at J = 0.15
 * are made here and not at every lookup. Read prop_table.h for the lookup. */
#include "physics/prop_table.h"

#include <stddef.h>
#include <string.h>

#include "base/hash.h"
#include "physics/prop_blade.h"

#define SEA_DENSITY_OVER_VISCOSITY 68459.0 /* s/m2, standard air */
#define LEAST_TIP_M_S              12.0
#define MOST_TIP_M_S               300.0
#define LEAST_REYNOLDS             5e4
#define TABLE_TOLERANCE_RAD        1e-5
#define LAYOUT                     2 /* raise when the meaning of the table's bytes changes */

/* One propeller at one Reynolds and Mach number, over J. */
typedef struct curve {
    double at[PARE_PROP_TABLE_J];
    double far; /* at twice the last J */
} curve;

/* Slope at a point in steps, from a parabola through three points at the ends, else from its
 * neighbours, two on each side where there are. */
static double slope_at(const double at[PARE_PROP_TABLE_J], int j)
{
    const int last = PARE_PROP_TABLE_J - 1;
    if (j == 0)
        return -1.5 * at[0] + 2 * at[1] - 0.5 * at[2];
    if (j == last)
        return 1.5 * at[last] - 2 * at[last - 1] + 0.5 * at[last - 2];
    if (j == 1 || j == last - 1)
        return 0.5 * (at[j + 1] - at[j - 1]);
    return (8 * (at[j + 1] - at[j - 1]) - (at[j + 2] - at[j - 2])) / 12;
}

static void cubics(const curve *over_j, pare_prop_table *table, int set, int which)
{
    const int last = PARE_PROP_TABLE_J - 1;
    for (int j = 0; j <= last; j++) {
        const double value = over_j->at[j], slope = slope_at(over_j->at, j);
        double square, cube = 0;
        if (j < last) {
            const double rise = over_j->at[j + 1] - value, next = slope_at(over_j->at, j + 1);
            square = 3 * rise - 2 * slope - next;
            cube = slope + next - 2 * rise;
        } else {
            square = (over_j->far - value - slope * last) / (last * last);
        }
        table->piece[j][0][set][which] = value;
        table->piece[j][1][set][which] = slope;
        table->piece[j][2][set][which] = square;
        table->piece[j][3][set][which] = cube;
    }
}

/* The Reynolds number at u (-1 .. 1) of the table's axis; the axis rises, so halving finds it. */
static double reynolds_at(const pare_prop_table *table, double u)
{
    double low = -1, high = 1;
    for (int step = 0; step < 60; step++) {
        const double s = 0.5 * (low + high);
        if (pare_prop_table_reynolds(s) * table->per_span < u)
            low = s;
        else
            high = s;
    }
    return table->reynolds_middle * (1 + low) / (1 - low);
}

static void place_reynolds(pare_prop_table *table)
{
    const double scale = SEA_DENSITY_OVER_VISCOSITY * 0.5 * table->diameter_m;
    const double low = fmax(scale * LEAST_TIP_M_S, LEAST_REYNOLDS), high = scale * MOST_TIP_M_S;
    table->reynolds_middle = sqrt(low * high);
    table->per_span = 1 / pare_prop_table_reynolds((high - table->reynolds_middle) /
                                                   (high + table->reynolds_middle));
}

static void evaluate(const pare_prop *prop, double reynolds, double mach, curve *ct, curve *cp)
{
    for (int j = 0; j < PARE_PROP_TABLE_J; j++)
        pare_prop_blade(prop, j / PARE_PROP_TABLE_PER_STEP, reynolds, mach, TABLE_TOLERANCE_RAD,
                        &ct->at[j], &cp->at[j]);
    pare_prop_blade(prop, 2 * PARE_PROP_TABLE_END, reynolds, mach, TABLE_TOLERANCE_RAD, &ct->far,
                    &cp->far);
}

static void subtract(curve *from, const curve *base)
{
    for (int j = 0; j < PARE_PROP_TABLE_J; j++)
        from->at[j] -= base->at[j];
    from->far -= base->far;
}

static void keep(pare_prop_table *table, int set, const curve *ct, const curve *cp)
{
    cubics(ct, table, set, 0);
    cubics(cp, table, set, 1);
    const pare_prop_step step = pare_prop_step_of(PARE_PROP_TABLE_SLOPE);
    const pare_pair moving = pare_prop_cubic(table->piece[step.piece], set, step.t);
    table->moving[set][0] = moving[0];
    table->moving[set][1] = moving[1];
}

void pare_prop_table_build(const pare_prop *prop, pare_prop_table *table)
{
    static const double chebyshev[PARE_PROP_TABLE_RE] = {
        -PARE_CHEBYSHEV_OUTER, -PARE_CHEBYSHEV_INNER, PARE_CHEBYSHEV_INNER, PARE_CHEBYSHEV_OUTER};
    memset(table, 0, sizeof *table); /* gaps too: it is kept as bytes */
    table->diameter_m = prop->diameter_m;
    place_reynolds(table);
    for (int r = 0; r < PARE_PROP_TABLE_RE; r++) {
        const double reynolds = reynolds_at(table, chebyshev[r]);
        curve ct, cp;
        evaluate(prop, reynolds, 0, &ct, &cp);
        keep(table, r, &ct, &cp);
        if (r == 1 || r == 2) {
            curve fast_ct, fast_cp;
            evaluate(prop, reynolds, PARE_PROP_TABLE_MACH_HIGH, &fast_ct, &fast_cp);
            subtract(&fast_ct, &ct);
            subtract(&fast_cp, &cp);
            keep(table, PARE_PROP_TABLE_RE - 1 + r, &fast_ct, &fast_cp);
        }
    }
}

/* What a set's pieces were made from. */
static curve curve_of(const pare_prop_table *table, int set, int which)
{
    const int last = PARE_PROP_TABLE_J - 1;
    curve over_j;
    for (int j = 0; j <= last; j++)
        over_j.at[j] = table->piece[j][0][set][which];
    over_j.far = over_j.at[last] + last * (table->piece[last][1][set][which] +
                                           last * table->piece[last][2][set][which]);
    return over_j;
}

/* What a high Mach number adds goes with the Reynolds number that it was worked out at: it is scaled
 * with it, and stays where something is added. */
static void change(const pare_prop_table *model, const pare_prop_change *by, bool times,
                   pare_prop_table *table)
{
    static const int point_of[PARE_PROP_TABLE_SETS] = {0, 1, 2, 3, 1, 2};
    pare_prop_table changed = *model;
    for (int set = 0; set < (times ? PARE_PROP_TABLE_SETS : PARE_PROP_TABLE_RE); set++) {
        curve both[2];
        for (int which = 0; which < 2; which++) {
            both[which] = curve_of(model, set, which);
            for (int j = 0; j <= PARE_PROP_TABLE_J; j++) {
                double *value = j < PARE_PROP_TABLE_J ? &both[which].at[j] : &both[which].far;
                const double amount = by->at[j][point_of[set]][which];
                *value = times ? *value * amount : *value + amount;
            }
        }
        keep(&changed, set, &both[0], &both[1]);
    }
    *table = changed;
}

void pare_prop_table_scale(const pare_prop_table *model, const pare_prop_change *factors,
                           pare_prop_table *table)
{
    change(model, factors, true, table);
}

void pare_prop_table_shift(const pare_prop_table *model, const pare_prop_change *added,
                           pare_prop_table *table)
{
    change(model, added, false, table);
}

static bool finite_throughout(size_t count, const double value[])
{
    for (size_t i = 0; i < count; i++)
        if (!isfinite(value[i]))
            return false;
    return true;
}

bool pare_prop_table_is_sound(const pare_prop_table *table, const pare_prop *prop)
{
    pare_prop_table placed = {.diameter_m = prop->diameter_m};
    place_reynolds(&placed);
    return table->diameter_m == placed.diameter_m &&
           table->reynolds_middle == placed.reynolds_middle && table->per_span == placed.per_span &&
           finite_throughout(sizeof table->piece / sizeof(double), &table->piece[0][0][0][0]) &&
           finite_throughout(sizeof table->moving / sizeof(double), &table->moving[0][0]);
}

void pare_prop_table_coefficients(const pare_prop_table *table, double advance, double speed_rad_s,
                                  const pare_air *air, double *ct, double *cp)
{
    if (!(speed_rad_s > 0) || !isfinite(speed_rad_s)) {
        *ct = *cp = 0;
        return;
    }
    pare_prop_slice slice;
    pare_prop_slice_take(&slice, table, speed_rad_s, air);
    const pare_pair value = pare_prop_slice_at(
        &slice, advance < PARE_PROP_ADVANCE_MOST ? advance : PARE_PROP_ADVANCE_MOST);
    *ct = value[0];
    *cp = value[1];
}

unsigned long long pare_prop_table_key(const pare_prop *prop)
{
    const int layout[] = {LAYOUT, PARE_PROP_TABLE_J, PARE_PROP_TABLE_SETS, PARE_PROP_NODES};
    /* All fields after the name are doubles, so these bytes have no padding. */
    const size_t numbers = offsetof(pare_prop_constants, lift_slope);
    unsigned long long sum = pare_hash(PARE_HASH_START, layout, sizeof layout);
    sum =
        pare_hash(sum, (const char *)prop->constants + numbers, sizeof *prop->constants - numbers);
    sum = pare_hash(sum, &prop->diameter_m, sizeof prop->diameter_m);
    sum = pare_hash(sum, &prop->blades, sizeof prop->blades);
    sum = pare_hash(sum, prop->chord, sizeof prop->chord);
    sum = pare_hash(sum, prop->twist, sizeof prop->twist);
    sum = pare_hash(sum, &prop->line, sizeof prop->line);
    return pare_hash(sum, prop->lever, sizeof prop->lever);
}

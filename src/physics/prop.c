/* prop.c: a propeller from what a user knows of it: measured stations, or diameter, pitch, blades.
 *
 * Both end in the same 16 Gauss-Legendre stations between 0.15 R and the tip, which integrate the
 * smooth load of a blade to 1e-4 where evenly spaced ones need fifty.
 *
 * The constants stand apart (prop_fitted.c, written by tools/fit): a blade that is invented from the
 * size has others than a measured one, because they soak up what the invention gets wrong, and each
 * has two sets, the line not known and known. Median errors on propellers left out of the fit, CT and
 * CP at rest, then running: from size and line 5.0, 5.6, 7.2, 6.6 %; from the size alone 7.9, 11.5,
 * 11.2, 10.2 %; from a measured blade with its line 3.7, 4.8, 6.9, 6.2 %, without 6.2, 8.7, 9.7,
 * 8.8 %.
 * Source of the data fitted: UIUC Propeller Data Site, volumes 1 to 4, and two thrust stands. */
#include "physics/prop.h"

#include <math.h>
#include <string.h>

#include "physics/prop_trend.h"

#define PI     3.14159265358979323846
#define INCH_M 0.0254

static const char *const line_names[PARE_PROP_LINES] = {"unknown", "thin",     "slim",   "sport",
                                                        "slow",    "park",     "direct", "folding",
                                                        "classic", "scimitar", "broad"};

const char *pare_prop_line_name(pare_prop_line line)
{
    return line_names[line];
}

pare_prop_line pare_prop_line_named(const char *name)
{
    int line = 0;
    while (line < PARE_PROP_LINES && strcmp(name, line_names[line]) != 0)
        line++;
    return (pare_prop_line)line;
}

const pare_prop_constants *pare_prop_set(bool measured, pare_prop_line line)
{
    if (line == PARE_LINE_UNKNOWN)
        return measured ? &pare_prop_true : &pare_prop_family;
    return measured ? &pare_prop_true_line : &pare_prop_family_line;
}

/* Positive half of the 16-point Gauss-Legendre rule on [-1, 1]; Abramowitz and Stegun, table 25.4. */
static const double gauss_at[PARE_PROP_NODES / 2] = {
    0.0950125098376374402, 0.2816035507792589132, 0.4580167776572273863, 0.6178762444026437484,
    0.7554044083550030339, 0.8656312023878317439, 0.9445750230732325761, 0.9894009349916499326};
static const double gauss_weight[PARE_PROP_NODES / 2] = {
    0.1894506104550684963, 0.1826034150449235889, 0.1691565193950025382, 0.1495959888165767321,
    0.1246289712555338720, 0.0951585116824927848, 0.0622535239386478929, 0.0271524594117540949};

static void place_nodes(pare_prop *prop)
{
    const double inner = prop->constants->inner;
    const double half = 0.5 * (1 - inner), middle = 0.5 * (1 + inner);
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        const int pair = i < 8 ? 7 - i : i - 8;
        prop->radius[i] = middle + (i < 8 ? -half : half) * gauss_at[pair];
        prop->weight[i] = half * gauss_weight[pair];
    }
}

static double polynomial(size_t count, const double highest_first[], double x)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum = sum * x + highest_first[i];
    return sum;
}

static pare_status start(double diameter_m, int blades, const pare_prop_constants *constants,
                         pare_prop *prop, pare_error *err)
{
    if (!(diameter_m >= 0.02 && diameter_m <= 1))
        return pare_fail(err, PARE_BAD_DATA,
                         "propeller diameter %g m is outside 0.02 .. 1 m (0.8 .. 39 in)",
                         diameter_m);
    if (!(blades >= 2 && blades <= 8))
        return pare_fail(err, PARE_BAD_DATA, "%d blades, where a propeller has 2 .. 8", blades);
    memset(prop, 0, sizeof *prop);
    prop->constants = constants;
    prop->diameter_m = diameter_m;
    prop->blades = blades;
    place_nodes(prop);
    return PARE_OK;
}

pare_status pare_prop_from_size(const pare_prop_size *size, const pare_prop_constants *constants,
                                pare_prop *prop, pare_error *err)
{
    pare_prop made;
    const pare_status status = start(size->diameter_m, size->blades, constants, &made, err);
    if (status != PARE_OK)
        return status;
    const double ratio = size->pitch_m / size->diameter_m;
    if (!(ratio >= 0 && ratio <= 2))
        return pare_fail(err, PARE_BAD_DATA,
                         "propeller pitch %g m is outside 0 .. 2 diameters (%g m)", size->pitch_m,
                         2 * size->diameter_m);
    const double radius_m = 0.5 * size->diameter_m;
    const double *v = constants->chord;
    double chord;
    if (size->chord_m != 0) {
        if (!(size->chord_m >= 0.04 * radius_m && size->chord_m <= 0.8 * radius_m))
            return pare_fail(
                err, PARE_BAD_DATA,
                "greatest chord %g m is outside %g .. %g m, 2 .. 40 %% of the diameter",
                size->chord_m, 0.04 * radius_m, 0.8 * radius_m);
        chord = size->chord_m / radius_m / constants->chord_max_ratio;
    } else {
        chord = v[0] + v[1] * (ratio - 0.6) + v[2] * log(size->diameter_m / INCH_M / 9) +
                (size->line == PARE_LINE_SLOW ? constants->slow_chord : 0) +
                constants->chord_blades * (size->blades - 2);
        chord = fmin(fmax(chord, 0.06), 0.35);
        if (size->blades >= 3)
            chord *= constants->many_blades;
    }
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        const double x = made.radius[i];
        made.chord[i] = chord * fmax(0.05, polynomial(5, constants->chord_shape, x));
        made.twist[i] = atan(constants->twist[0] * ratio / (PI * x)) +
                        polynomial(4, constants->twist_shape, x) + constants->twist[1] +
                        (size->line == PARE_LINE_SLOW ? constants->slow_twist_rad : 0);
    }
    pare_prop_adjust(&made, size->line, ratio, size->chord_m == 0);
    *prop = made;
    return PARE_OK;
}

static double interpolate(size_t count, const double x[], const double y[], double at)
{
    if (at <= x[0])
        return y[0];
    for (size_t i = 1; i < count; i++)
        if (at <= x[i])
            return y[i - 1] + (y[i] - y[i - 1]) * (at - x[i - 1]) / (x[i] - x[i - 1]);
    return y[count - 1];
}

/* Pitch over diameter at 0.75 R. */
static double pitch_of_stations(size_t count, const double radius[], const double twist_rad[])
{
    return 0.75 * PI * tan(interpolate(count, radius, twist_rad, 0.75));
}

static pare_status check_stations(size_t count, const double radius[], const double chord[],
                                  const double twist_rad[], pare_error *err)
{
    if (count < 2 || count > PARE_PROP_STATIONS)
        return pare_fail(err, PARE_BAD_DATA, "%zu blade stations, where 2 .. %d are read", count,
                         PARE_PROP_STATIONS);
    for (size_t i = 0; i < count; i++) {
        if (!(radius[i] >= 0 && radius[i] <= 1) || (i > 0 && !(radius[i] > radius[i - 1])))
            return pare_fail(err, PARE_BAD_DATA,
                             "blade station %zu: r/R %g, where it must rise within 0 .. 1", i + 1,
                             radius[i]);
        if (!(chord[i] > 0 && chord[i] <= 1))
            return pare_fail(err, PARE_BAD_DATA,
                             "blade station %zu: c/R %g is outside 0 (excluded) .. 1", i + 1,
                             chord[i]);
        if (!(fabs(twist_rad[i]) <= PI / 2))
            return pare_fail(err, PARE_BAD_DATA,
                             "blade station %zu: twist %g deg is outside -90 .. 90 deg", i + 1,
                             twist_rad[i] * 180 / PI);
    }
    return PARE_OK;
}

pare_status pare_prop_from_stations(double diameter_m, int blades, pare_prop_line line,
                                    size_t count, const double radius[], const double chord[],
                                    const double twist_rad[], const pare_prop_constants *constants,
                                    pare_prop *prop, pare_error *err)
{
    pare_prop made;
    pare_status status = start(diameter_m, blades, constants, &made, err);
    if (status == PARE_OK)
        status = check_stations(count, radius, chord, twist_rad, err);
    if (status != PARE_OK)
        return status;
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        made.chord[i] = interpolate(count, radius, chord, made.radius[i]);
        made.twist[i] = interpolate(count, radius, twist_rad, made.radius[i]) +
                        (line == PARE_LINE_SLOW ? constants->slow_twist_rad : 0);
    }
    pare_prop_adjust(&made, line, pitch_of_stations(count, radius, twist_rad), false);
    *prop = made;
    return PARE_OK;
}

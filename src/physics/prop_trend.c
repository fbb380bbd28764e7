/* prop_trend.c: from what is known of a propeller to what is not.
 *
 * Within one propeller the blade elements follow the wind tunnel to a few percent; from one to the
 * next they are off by what no stated size says: section, finish, the maker's idea of pitch. All that
 * is gathered in a few levers (an angle added to the twist, factors on chord, lift slope, drag and
 * greatest lift, and a last factor on each coefficient). A propeller's levers are a sum over a few
 * traits of its size and blade, and, where its line is known, over six terms of the line: a parabola
 * in pitch and size. Held as
 * angles and factors of a blade and not as factors on thrust alone, a trend seen at rest is the right
 * one at speed, where a degree of twist is half the thrust.
 *
 * The last factors differ at rest and in full motion, with a smooth step between, and go a little
 * with ln Re.
 *
 * More blades than were measured are taken to be narrower, with the solidity of as many as were.
 *
 * Guards: traits and ln Re are held at the edges of what was measured, a line's terms where that line
 * was, so no trend runs off beyond;
 * a last factor stays within FACTOR_MOST either way, and that on thrust changes from rest to motion
 * by at most TURN_MOST in ln: thrust falls by more than that over the same way, so a correction
 * cannot turn falling thrust into rising. */
#include "physics/prop_trend.h"

#include <math.h>
#include <string.h>

enum { PITCH = 1, SIZE = 3, BLADES = 5 }; /* of the traits */

#define PI          3.14159265358979323846
#define INCH_M      0.0254
#define FACTOR_MOST 0.8 /* in ln */
#define TURN_MOST   0.3
#define TWIST_MOST  0.15 /* rad */

static double clip(double value, double least, double most)
{
    return value < least ? least : value > most ? most : value;
}

static double at_radius(const pare_prop *prop, const double value[PARE_PROP_NODES], double radius)
{
    for (int i = 1; i < PARE_PROP_NODES; i++)
        if (radius <= prop->radius[i])
            return value[i - 1] + (value[i] - value[i - 1]) * (radius - prop->radius[i - 1]) /
                                      (prop->radius[i] - prop->radius[i - 1]);
    return value[PARE_PROP_NODES - 1];
}

static double pitch_at(const pare_prop *prop, double radius)
{
    return PI * radius * tan(clip(at_radius(prop, prop->twist, radius), 0.02, 1.2));
}

static void put_traits(pare_prop *prop, double pitch_ratio)
{
    const double chord = at_radius(prop, prop->chord, 0.75);
    const double pitch = pitch_at(prop, 0.75), size = log(prop->diameter_m / INCH_M / 9);
    const double trait[PARE_PROP_TRAITS] = {1,
                                            pitch_ratio - 0.6,
                                            (pitch_ratio - 0.6) * (pitch_ratio - 0.6),
                                            size,
                                            size * size,
                                            fmin(prop->blades - 2, 2),
                                            log(chord / 0.15),
                                            log(at_radius(prop, prop->chord, 0.35) / chord),
                                            log(at_radius(prop, prop->chord, 0.95) / chord),
                                            pitch_at(prop, 0.4) / pitch - 1,
                                            pitch_at(prop, 0.92) / pitch - 1,
                                            (pitch_ratio - 0.6) * size};
    memcpy(prop->trait, trait, sizeof trait);
}

double pare_prop_trait_held(const pare_prop *prop, int trait)
{
    const pare_prop_hull *hull = &prop->constants->hull;
    return clip(prop->trait[trait], hull->low[trait], hull->high[trait]);
}

void pare_prop_line_terms(const pare_prop *prop, double term[PARE_PROP_LINE_TERMS])
{
    const double *low = prop->constants->hull.line_low[prop->line];
    const double *high = prop->constants->hull.line_high[prop->line];
    const double pitch = clip(pare_prop_trait_held(prop, PITCH), low[0], high[0]);
    const double size = clip(pare_prop_trait_held(prop, SIZE), low[1], high[1]);
    const double terms[PARE_PROP_LINE_TERMS] = {
        1, pitch, size, pitch * pitch, pitch * size, size * size};
    memcpy(term, terms, sizeof terms);
}

double pare_prop_reynolds_held(const pare_prop_constants *constants, double reynolds)
{
    return clip(log(reynolds / 1e5), constants->hull.reynolds_low, constants->hull.reynolds_high);
}

static void put_factors(pare_prop *prop)
{
    const double *lever = prop->lever;
    prop->slope_factor = exp(lever[PARE_LEVER_SLOPE]);
    prop->drag_factor = exp(lever[PARE_LEVER_DRAG]);
    prop->lift_factor = exp(lever[PARE_LEVER_LIFT]);
    prop->reynolds_of_tip = 0.75 * at_radius(prop, prop->chord, 0.75);
    const double angle = at_radius(prop, prop->twist, 0.75) - prop->constants->zero_lift_rad;
    prop->stop_advance = fmax(0.2, 0.75 * PI * tan(clip(angle, 0, 1)));
}

void pare_prop_pull(pare_prop *prop, pare_prop_lever lever, double by)
{
    prop->lever[lever] += by;
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        if (lever == PARE_LEVER_TWIST)
            prop->twist[i] += by;
        if (lever == PARE_LEVER_CHORD)
            prop->chord[i] *= exp(by);
    }
    put_factors(prop);
}

void pare_prop_adjust(pare_prop *prop, pare_prop_line line, double pitch_ratio, bool any_chord)
{
    const pare_prop_trend *trend = &prop->constants->trend;
    double lever[PARE_LEVERS];
    prop->line = line;
    put_traits(prop, pitch_ratio);
    put_factors(prop);
    double term[PARE_PROP_LINE_TERMS];
    pare_prop_line_terms(prop, term);
    for (int l = 0; l < PARE_LEVERS; l++) {
        lever[l] = 0;
        for (int t = 0; t < PARE_PROP_LINE_TERMS; t++)
            lever[l] += trend->line[l][line][t] * term[t];
        for (int t = 0; t < PARE_PROP_TRAITS; t++)
            lever[l] += trend->trait[l][t] * pare_prop_trait_held(prop, t);
        lever[l] = l == PARE_LEVER_TWIST ? clip(lever[l], -TWIST_MOST, TWIST_MOST)
                                         : clip(lever[l], -FACTOR_MOST, FACTOR_MOST);
    }
    lever[PARE_LEVER_CT_MOVING] =
        clip(lever[PARE_LEVER_CT_MOVING], lever[PARE_LEVER_CT_STILL] - TURN_MOST,
             lever[PARE_LEVER_CT_STILL] + TURN_MOST);
    const double most_blades = 2 + prop->constants->hull.high[BLADES];
    if (!any_chord)
        lever[PARE_LEVER_CHORD] = 0;
    else if (most_blades > 2 && prop->blades > most_blades)
        lever[PARE_LEVER_CHORD] += log(most_blades / prop->blades);
    for (int l = 0; l < PARE_LEVERS; l++)
        pare_prop_pull(prop, (pare_prop_lever)l, lever[l]);
}

double pare_prop_moving(const pare_prop *prop, double advance)
{
    const double t = fmin(advance / prop->stop_advance, 1);
    return t * t * (3 - 2 * t);
}

void pare_prop_last_factors(const pare_prop *prop, double advance, double reynolds, double *thrust,
                            double *power)
{
    const double moving = pare_prop_moving(prop, advance), still = 1 - moving;
    const double log_re = pare_prop_reynolds_held(prop->constants, reynolds);
    const double *per = prop->constants->trend.reynolds;
    const double *factor = prop->lever + PARE_LEVER_CT_STILL;
    *thrust = exp(still * (factor[0] + per[0] * log_re) + moving * (factor[1] + per[1] * log_re));
    *power = exp(still * (factor[2] + per[2] * log_re) + moving * (factor[3] + per[3] * log_re));
}

const char *pare_prop_outside(const pare_prop *prop)
{
    static const struct {
        int trait;
        const char *words;
    } said[] = {{SIZE, "its diameter"},
                {PITCH, "its pitch"},
                {BLADES, "its number of blades"},
                {6, "its chord"}};
    const pare_prop_hull *hull = &prop->constants->hull;
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        const double trait = prop->trait[said[i].trait], room = 1e-9;
        if (trait < hull->low[said[i].trait] - room || trait > hull->high[said[i].trait] + room)
            return said[i].words;
    }
    return prop->blades > 4 ? said[2].words : NULL;
}

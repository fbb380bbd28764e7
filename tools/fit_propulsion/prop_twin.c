/* prop_twin.c: see prop_twin.h.
 *
 * A model that knows the size alone says the same of all propellers of that size. So each row is held
 * against the mean of its propeller's likes at the same J and Reynolds number, which is the best that
 * could be said without the propeller itself: that mean of k is off by its own scatter as well, so the
 * difference over sqrt(1 + 1/k) is what is left to a model that knew the true mean of all makers. No
 * fit with that knowledge does better, however good its aerodynamics are.
 *
 * Neighbours in size are carried to the row's propeller by the published constants, which know no
 * lines; rows where those see the blade near zero thrust are left out, where any carry is wild. */
#include "prop_twin.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "page.h"
#include "prop_model.h"
#include "published_props.h"

/* Reynolds numbers at rest may lie so far beyond the other's, and running ones apart, in ln. */
#define BEYOND 0.05
#define APART  0.25
#define MOVING 0.3 /* of the model's thrust at rest: what a row must have at least */

typedef bool alike(const fit_blade *one, const fit_blade *other);

static bool of_size(const fit_blade *one, const fit_blade *other, double diameter, double pitch)
{
    const pare_prop_size *a = &one->size, *b = &other->size;
    return a->blades == b->blades && a->pitch_m > 0 && b->pitch_m > 0 &&
           fabs(log(a->diameter_m / b->diameter_m)) < diameter &&
           fabs(a->pitch_m / a->diameter_m - b->pitch_m / b->diameter_m) < pitch;
}

static bool same_size(const fit_blade *one, const fit_blade *other)
{
    return of_size(one, other, 0.005, 0.005);
}

static bool near_size(const fit_blade *one, const fit_blade *other)
{
    return of_size(one, other, 0.12, 0.08);
}

static bool made_alike(const fit_blade *one, const fit_blade *other)
{
    return strcmp(one->maker, other->maker) == 0;
}

/* In the tunnel and sold, both. */
static bool sold(const fit_blade *one, const fit_blade *other)
{
    return !one->stand && !one->research && !other->stand && !other->research;
}

static bool of_line(const fit_blade *one, const fit_blade *other)
{
    return sold(one, other) && one->line == other->line && one->line != PARE_LINE_UNKNOWN;
}

static bool twins(const fit_blade *one, const fit_blade *other)
{
    return sold(one, other) && same_size(one, other) && !made_alike(one, other);
}

static bool twins_of_line(const fit_blade *one, const fit_blade *other)
{
    return twins(one, other) && of_line(one, other);
}

static bool twins_on_stand(const fit_blade *one, const fit_blade *other)
{
    return one->stand && other->stand && same_size(one, other);
}

static bool near_of_line(const fit_blade *one, const fit_blade *other)
{
    return of_line(one, other) && near_size(one, other);
}

static bool near_of_maker(const fit_blade *one, const fit_blade *other)
{
    return sold(one, other) && near_size(one, other) && made_alike(one, other) &&
           !same_size(one, other);
}

static bool copies(const fit_blade *one, const fit_blade *other)
{
    return sold(one, other) && same_size(one, other) && made_alike(one, other);
}

/* Reynolds number but for what is alike in all. */
static double scale(const fit_blade *blade, const fit_row *row)
{
    return log(row->speed_rad_s * blade->size.diameter_m * blade->size.diameter_m);
}

static double coefficient(const fit_row *row, int which)
{
    return which == 0 ? log(row->ct) : row->derived ? (double)NAN : log(row->cp);
}

/* Straight between the rows next below and above; at is where each stands. NAN: outside. */
static double between(const fit_row *below, double at_below, const fit_row *above, double at_above,
                      double at, double room, int which)
{
    if (below && above) {
        const double low = coefficient(below, which), high = coefficient(above, which);
        return at_above > at_below ? low + (high - low) * (at - at_below) / (at_above - at_below)
                                   : low;
    }
    if (below && at - at_below < room)
        return coefficient(below, which);
    if (above && at_above - at < room)
        return coefficient(above, which);
    return (double)NAN;
}

/* The run of a propeller that is nearest in Reynolds number; 0: none is near. */
static int run_near(const fit_blade *blade, double at)
{
    int run = 0;
    double best = APART;
    for (size_t r = 0; r < blade->rows; r++) {
        const double off = fabs(scale(blade, &blade->row[r]) - at);
        if (!blade->row[r].still && off < best) {
            best = off;
            run = blade->row[r].run;
        }
    }
    return run;
}

/* ln of a coefficient that another propeller has at the state of a row; NAN: not measured. */
static double of_other(const fit_blade *blade, const fit_row *row, const fit_blade *other,
                       int which)
{
    const double reynolds = scale(blade, row);
    const int run = row->still ? 0 : run_near(other, reynolds);
    if (!row->still && run == 0)
        return (double)NAN;
    const double at = row->still ? reynolds : row->advance;
    const fit_row *below = NULL, *above = NULL;
    double at_below = 0, at_above = 0;
    for (size_t r = 0; r < other->rows; r++) {
        const fit_row *o = &other->row[r];
        if (o->still != row->still || (!row->still && o->run != run))
            continue;
        const double here = row->still ? scale(other, o) : o->advance;
        if (here <= at && (!below || here > at_below)) {
            below = o;
            at_below = here;
        }
        if (here >= at && (!above || here < at_above)) {
            above = o;
            at_above = here;
        }
    }
    return between(below, at_below, above, at_above, at, row->still ? BEYOND : 0, which);
}

/* ln of the published model's coefficient at a row's state; NAN: near zero thrust.
 * @param measured  of the measured blade, else of the size */
static double modelled(const fit_blade *blade, const fit_row *row, bool measured, int which)
{
    pare_prop prop;
    pare_air air;
    double ct, cp, still, ignored;
    if (!fit_prop_of(blade, measured, false, measured ? &published_true : &published_family, &prop))
        return (double)NAN;
    pare_air_standard(0, &air, NULL);
    pare_prop_coefficients(&prop, 0, row->speed_rad_s, &air, &still, &ignored);
    pare_prop_coefficients(&prop, row->advance, row->speed_rad_s, &air, &ct, &cp);
    return ct > MOVING * still ? log(which == 0 ? ct : cp) : (double)NAN;
}

/* By how much a row's propeller is off its likes; NAN: none can be compared. */
static double off_likes(const fit_blades *blades, const fit_blade *blade, const fit_row *row,
                        alike *like, bool measured, int which)
{
    double sum = 0, k = 0;
    const double own = coefficient(row, which) - modelled(blade, row, measured, which);
    for (size_t b = 0; b < blades->count; b++) {
        const fit_blade *other = &blades->blade[b];
        if (other == blade || !like(blade, other))
            continue;
        const double ratio = blade->size.diameter_m / other->size.diameter_m;
        const fit_row there = {.advance = row->advance,
                               .speed_rad_s = row->speed_rad_s * ratio * ratio};
        const double off =
            own - (of_other(blade, row, other, which) - modelled(other, &there, measured, which));
        if (isfinite(off)) {
            sum += off;
            k++;
        }
    }
    return k > 0 ? fabs(sum / k) / sqrt(1 + 1 / k) : (double)NAN;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void print_one(FILE *out, const fit_blades *blades, const char *what, alike *like,
                      bool measured)
{
    size_t most = 0, propellers = 0;
    for (size_t b = 0; b < blades->count; b++)
        most += blades->blade[b].rows;
    double *off = malloc((most + 1) * sizeof *off);
    if (!off)
        return;
    fprintf(out, "| %s |", what);
    for (int running = 0; running < 2; running++)
        for (int which = 0; which < 2; which++) {
            size_t count = 0;
            size_t there = 0;
            for (size_t b = 0; b < blades->count; b++) {
                const fit_blade *blade = &blades->blade[b];
                const size_t before = count;
                for (size_t r = 0; r < blade->rows; r++) {
                    if (blade->row[r].still == running)
                        continue;
                    off[count] = off_likes(blades, blade, &blade->row[r], like, measured, which);
                    count += isfinite(off[count]);
                }
                there += count > before;
            }
            propellers = there > propellers ? there : propellers;
            qsort(off, count, sizeof *off, by_size);
            if (count > 0)
                fprintf(out, " %.1f / %.1f |", 100 * off[count / 2], 100 * off[count * 9 / 10]);
            else
                fprintf(out, " |");
        }
    fprintf(out, " %zu |\n", propellers);
    free(off);
}

bool fit_twins_print(const fit_blades *blades, const char *page)
{
    fit_block block;
    if (!fit_block_open(&block))
        return false;
    FILE *out = block.out;
    fprintf(out, "| alike in | CT at rest | CP at rest | CT running | CP running | propellers |\n"
                 "| --- | --- | --- | --- | --- | --- |\n");
    print_one(out, blades, "size, by other makers", twins, false);
    print_one(out, blades, "size and line, by other makers", twins_of_line, false);
    print_one(out, blades, "size, on the 5 in stand", twins_on_stand, false);
    print_one(out, blades, "line, and nearly in size", near_of_line, false);
    print_one(out, blades, "maker's line, and nearly in size", near_of_maker, false);
    print_one(out, blades, "all: copies of one propeller", copies, false);
    print_one(out, blades, "all: copies, each by its own measured blade", copies, true);
    print_one(out, blades, "maker's line and nearly in size, by the measured blades", near_of_maker,
              true);
    printf(
        "\nWhat propellers differ by that are alike in what a model knows of them: each against "
        "the mean\nof its likes, median / nine tenths in %% of what is left to a model that knows "
        "no more.\n");
    return fit_block_close(&block, page, "propellers alike");
}

/* prop.c: the fit of the propeller model to a wind tunnel and two thrust stands (see subjects.h).
 *
 * Four sets: of a blade from its size and of a measured one, with the line known and not. Each is a
 * fit of the blade-element constants about those of the published description, with the trends of a
 * few levers of a blade with its size and line (physics/prop_trend.c, prop_model.c here; prop_sets.c
 * says how far each number may go).
 *
 * Where the line is known, propellers are left out one by one: others of their line stay. Where it is
 * not, whole makers' lines are. */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "blade.h"
#include "page.h"
#include "prop_cross.h"
#include "prop_floor.h"
#include "prop_sets.h"
#include "prop_write.h"
#include "subjects.h"

/* Of a normal distribution. */
#define HALF_OVER_U  0.6745
#define NINTH_OVER_U 1.645
#define CHANCE       0.025

static const char *const states[2] = {"at rest", "running"};

static void print_errors(FILE *out, const char *known, const char *left_out,
                         const fit_errors *errors)
{
    fprintf(out, "| %s | %s |", known, left_out);
    for (int running = 0; running < 2; running++)
        for (int which = 0; which < 2; which++)
            fprintf(out, " %.1f / %.1f |",
                    100 * fit_quantile(errors, running, which, fit_tunnel, true, 0.5),
                    100 * fit_quantile(errors, running, which, fit_tunnel, true, 0.9));
    fprintf(out, " %zu |\n", fit_propellers(errors, 0, 0, fit_tunnel));
}

/* Where the line is not known whole makers' lines are left out, where it is known propellers are, so that
 * others of their line stay. */
static void print_set(FILE *out, const fit_prop_set *set, const fit_errors *published,
                      const fit_errors *propeller, const fit_errors *maker)
{
    char known[64];
    snprintf(known, sizeof known, "%s, by the published constants", set->name);
    if (!set->known) {
        print_errors(out, known, "nothing", published);
        print_errors(out, set->name, "makers' lines", maker);
    }
    print_errors(out, set->name, "propellers", propeller);
}

static bool print_classes(const fit_prop_set *set, const char *page, const fit_errors *errors)
{
    char name[64];
    fit_block block;
    if (!fit_block_open(&block))
        return false;
    fit_print_classes(block.out, errors);
    snprintf(name, sizeof name, "classes, %s", set->name);
    printf("\nFrom %s, by class: median / nine tenths of rows in %%.\n", set->name);
    return fit_block_close(&block, page, name);
}

static bool print_by_blade(const fit_errors *errors)
{
    printf("\nBy propeller: median of CT and CP over the model's, %%.\n\n");
    const fit_blade *last = NULL;
    for (size_t i = 0; i < errors->count[0][0]; i++) {
        const fit_blade *blade = errors->error[0][0][i].blade;
        if (blade == last)
            continue;
        last = blade;
        printf("%-20s %-8s", blade->name, pare_prop_line_name(blade->line));
        for (int running = 0; running < 2; running++)
            for (int which = 0; which < 2; which++)
                printf(" %6.1f", 100 * expm1(fit_median_of(errors, running, which, blade)));
        printf("\n");
    }
    return true;
}

enum { THRUST, POWER, MERIT, FIGURES };

static double claimed_u(const fit_errors *errors, int running, int figure, fit_counts *counts)
{
    return figure == MERIT ? fit_merit_u(errors, running, counts)
                           : fit_doubt_u(errors, running, figure, counts);
}

/* Where too few propellers of three and four blades were measured, those of two stand in: [E] a quarter
 * wider, but for the power at a thrust, which was no wilder with more blades where enough were
 * measured (0.8 to 1.3 times, by the set). */
static void put_doubt(fit_errors *errors, pare_prop_constants *k)
{
    static const double stands_in[FIGURES] = {1.25, 1.25, 1};
    enum { ENOUGH = 4 };
    const fit_powers powers = fit_doubt_powers(errors);
    memcpy(k->doubt_with_size, powers.size, sizeof k->doubt_with_size);
    k->doubt_with_load = powers.load;
    for (int running = 0; running < 2; running++) {
        double u[2][FIGURES];
        for (int figure = 0; figure < FIGURES; figure++) {
            const int least = figure == THRUST ? THRUST : POWER;
            const size_t more = fit_propellers(errors, running, least, fit_more);
            u[0][figure] = claimed_u(errors, running, figure, fit_two);
            u[1][figure] = more >= ENOUGH ? claimed_u(errors, running, figure, fit_more)
                                          : stands_in[figure] * u[0][figure];
        }
        for (int which = 0; which < 2; which++) {
            k->median[running][which] = fit_quantile(errors, running, which, fit_tunnel, true, 0.5);
            k->ninth[running][which] = fit_quantile(errors, running, which, fit_tunnel, true, 0.9);
        }
        for (int more = 0; more < 2; more++)
            k->doubt[running][more] = (pare_prop_doubt){
                u[more][THRUST], u[more][POWER],
                fit_correlation(running, u[more][THRUST], u[more][POWER], u[more][MERIT])};
    }
}

static double within(const fit_errors *errors, int running, int figure, fit_counts *counts,
                     double most)
{
    return figure == MERIT ? fit_merit_within(errors, running, counts, most)
                           : fit_within(errors, running, figure, counts, most);
}

/* How many % lie in either interval, and of how many propellers; nothing where there are none. */
static void put_band(char cell[], size_t room, const fit_errors *errors, int running, int figure,
                     fit_counts *counts, double u)
{
    const size_t there = fit_propellers(errors, running, figure == THRUST ? THRUST : POWER, counts);
    cell[0] = '\0';
    if (there > 0)
        snprintf(cell, room, "%.0f / %.0f (%zu)",
                 100 * within(errors, running, figure, counts, u * HALF_OVER_U),
                 100 * within(errors, running, figure, counts, u * NINTH_OVER_U), there);
}

/* What is claimed, and how it held: sets side by side. */
static const struct {
    const char *name;
    fit_counts *counts;
    int more;
} kinds[] = {{"two blades", fit_two, 0},
             {"two, to 7 in", fit_small, 0},
             {"two, over 7 in", fit_large, 0},
             {"three and four", fit_more, 1}};
enum { KINDS = sizeof kinds / sizeof kinds[0] };

typedef struct bands {
    char cell[2][KINDS][FIGURES][FIT_SETS][40];
} bands;

static void put_bands(bands *b, int set, const fit_errors *errors, const pare_prop_constants *k)
{
    for (int running = 0; running < 2; running++)
        for (int kind = 0; kind < KINDS; kind++)
            for (int figure = 0; figure < FIGURES; figure++) {
                const pare_prop_doubt *d = &k->doubt[running][kinds[kind].more];
                put_band(b->cell[running][kind][figure][set], sizeof b->cell[0][0][0][0], errors,
                         running, figure, kinds[kind].counts,
                         figure == THRUST  ? d->thrust_u
                         : figure == POWER ? d->power_u
                                           : fit_merit_of(running, d));
            }
}

static bool print_bands(const bands *b, const char *page)
{
    static const char *const what[FIGURES] = {"CT", "CP", "power at a thrust"};
    fit_block block;
    if (!fit_block_open(&block))
        return false;
    fprintf(block.out, "| errors of |");
    for (int set = 0; set < FIT_SETS; set++)
        fprintf(block.out, " %s |", fit_prop_sets[set].name);
    fprintf(block.out, "\n| --- | --- | --- | --- | --- |\n");
    for (int running = 0; running < 2; running++)
        for (int kind = 0; kind < KINDS; kind++)
            for (int figure = 0; figure < FIGURES; figure++) {
                fprintf(block.out, "| %s %s, %s |", what[figure], states[running],
                        kinds[kind].name);
                for (int set = 0; set < FIT_SETS; set++)
                    fprintf(block.out, " %s |", b->cell[running][kind][figure][set]);
                fprintf(block.out, "\n");
            }
    printf("\nHow many %% of what was left out lie in the 50 and in the 90 %% interval, propellers "
           "alike\n(their number): 45 to 55 and 85 to 95 are right.\n");
    return fit_block_close(&block, page, "calibration");
}

/* Between which shares right intervals show nineteen times in twenty, of so many propellers. */
static bool print_chance(const char *page)
{
    static const unsigned many[] = {5, 6, 11, 52, 65, 104, 120};
    static const double share[] = {0.5, 0.9};
    fit_block block;
    if (!fit_block_open(&block))
        return false;
    fprintf(block.out, "| propellers | a 50 %% interval shows | a 90 %% interval shows |\n"
                       "| --- | --- | --- |\n");
    for (size_t i = 0; i < sizeof many / sizeof many[0]; i++) {
        fprintf(block.out, "| %u |", many[i]);
        for (int s = 0; s < 2; s++) {
            unsigned low = 0, high = many[i];
            while (gsl_cdf_binomial_P(low, share[s], many[i]) < CHANCE)
                low++;
            while (gsl_cdf_binomial_Q(high - 1, share[s], many[i]) < CHANCE)
                high--;
            fprintf(block.out, " %.0f to %.0f |", 100.0 * low / many[i], 100.0 * high / many[i]);
        }
        fprintf(block.out, "\n");
    }
    return fit_block_close(&block, page, "chance");
}

/* What is printed of all sets together. */
typedef struct summary {
    fit_block errors;
    bands bands;
} summary;

static bool judge(const fit_prop_set *which, const fit_how *how, const fit_set *set,
                  const fit_to *to, summary *all)
{
    fit_errors published, propeller, maker;
    if (!fit_cross(set, FIT_NOTHING, how->base, &published) ||
        !fit_cross(set, FIT_PROPELLER, NULL, &propeller) ||
        !fit_cross(set, FIT_MAKER, NULL, &maker))
        return false;
    pare_prop_constants k;
    fit_errors *honest = which->known ? &propeller : &maker;
    fit_constants(how, set->x, &set->hull, &k);
    k.name = which->name;
    k.source = which->source;
    put_doubt(honest, &k);
    print_set(all->errors.out, which, &published, &propeller, &maker);
    put_bands(&all->bands, (int)(which - fit_prop_sets), honest, &k);
    bool fine = print_classes(which, to->page, honest) && print_by_blade(honest);
    fit_write_set(to->constants, which->variable, &k);
    if (fine && which->picture)
        fine = fit_draw(to->pictures, which->picture, which->name,
                        which->known ? "propeller" : "maker's line", honest);
    fit_errors_free(&published);
    fit_errors_free(&propeller);
    fit_errors_free(&maker);
    return fine;
}

static bool fit_one(const fit_blades *blades, const fit_prop_set *which, const fit_to *to,
                    summary *all)
{
    const fit_how how = fit_how_of(which);
    fit_set set;
    if (!fit_set_solve(blades, &how, &set))
        return false;
    const bool fine = judge(which, &how, &set, to, all);
    fit_set_free(&set);
    return fine;
}

bool fit_prop(const char *data_folder, const fit_to *to)
{
    fit_blades blades = {0, NULL};
    summary all;
    if (!fit_block_open(&all.errors))
        return false;
    fprintf(all.errors.out,
            "| known | left out | CT at rest | CP at rest | CT running | CP running | "
            "propellers |\n| --- | --- | --- | --- | --- | --- | --- |\n");
    bool fine = fit_read_tunnel(data_folder, &blades) && fit_read_stands(data_folder, &blades) &&
                fit_floor_print(&blades, to->page);
    if (fine)
        fit_write_head(to->constants);
    for (int i = 0; fine && i < FIT_SETS; i++)
        fine = fit_one(&blades, &fit_prop_sets[i], to, &all);
    printf("\nMedian / nine tenths in %% of rows on what was left out.\n");
    fine = fit_block_close(&all.errors, to->page, "propellers left out") && fine &&
           print_bands(&all.bands, to->page) && print_chance(to->page);
    fit_blades_free(&blades);
    return fine;
}

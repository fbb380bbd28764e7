/* prop.c: the fit of the propeller model to a wind tunnel and two thrust stands (see subjects.h).
 *
 * Four sets: of a blade from its size and of a measured one, with the line known and not. Each is a
 * fit of the blade-element constants about those of the published description, with the trends of a
 * few levers of a blade with its size and line (physics/prop_trend.c, prop_model.c here; prop_sets.c
 * says how far each number may go).
 *
 * Where the line is known, propellers are left out one by one: others of their line stay. Where it is
 * not, whole makers' lines are. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "blade.h"
#include "prop_cross.h"
#include "prop_floor.h"
#include "prop_sets.h"
#include "prop_write.h"
#include "subjects.h"

/* Of a normal distribution. */
#define HALF_OVER_U  0.6745
#define NINTH_OVER_U 1.645

static const char *const states[2] = {"at rest", "running"};

static void print_errors(const char *what, const fit_errors *errors, fit_counts *counts)
{
    printf("| %s |", what);
    for (int running = 0; running < 2; running++)
        for (int which = 0; which < 2; which++)
            printf(" %.1f/%.1f |", 100 * fit_quantile(errors, running, which, counts, true, 0.5),
                   100 * fit_quantile(errors, running, which, counts, true, 0.9));
    for (int running = 0; running < 2; running++)
        for (int which = 0; which < 2; which++)
            printf(" %.1f |", 100 * fit_quantile(errors, running, which, counts, false, 0.5));
    printf(" %zu |\n", fit_propellers(errors, 0, 0, counts));
}

static void print_head(const fit_prop_set *set)
{
    printf(
        "\nErrors in %% of CT and CP, left out of the fit, from %s: median/nine tenths of rows at "
        "rest,\nrunning; medians with propellers counting alike.\n\n",
        set->name);
    printf(
        "| left out, counted | CT rest | CP rest | CT run | CP run | CT rest | CP rest | CT run "
        "| CP run | propellers |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n");
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
    k->doubt_with_size = fit_doubt_with_size(errors);
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

static void print_band(const fit_errors *errors, int running, int figure, const char *blades,
                       fit_counts *counts, double u)
{
    static const char *const what[FIGURES] = {"CT", "CP", "power at a thrust"};
    const size_t there = fit_propellers(errors, running, figure == THRUST ? THRUST : POWER, counts);
    printf("| %s | %s | %s | %.1f |", states[running], blades, what[figure], 100 * u);
    for (int band = 0; band < 2; band++) {
        const double most = u * (band == 0 ? HALF_OVER_U : NINTH_OVER_U);
        if (there == 0)
            printf(" |");
        else
            printf(" %.0f |",
                   100 * (figure < MERIT ? fit_within(errors, running, figure, counts, most)
                                         : fit_merit_within(errors, running, counts, most)));
    }
    printf(" %zu |\n", there);
}

static void print_doubt(const fit_errors *errors, const pare_prop_constants *k)
{
    static const struct {
        const char *name;
        fit_counts *counts;
        int more;
    } kinds[] = {{"2, at 9 in", fit_two, 0},
                 {"2, to 7 in", fit_small, 0},
                 {"2, over 7 in", fit_large, 0},
                 {"3, 4", fit_more, 1}};
    printf(
        "\nClaimed standard uncertainty in %%, and the share of errors (propellers alike) within "
        "its "
        "half\nand nine tenths: 45 to 55 and 85 to 95 %% are right. With two blades it goes with "
        "(9 in/D)^%.1f.\n\n"
        "| state | blades | what | u | half | nine tenths | propellers |\n"
        "| --- | --- | --- | --- | --- | --- | --- |\n",
        k->doubt_with_size);
    for (int running = 0; running < 2; running++)
        for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
            for (int figure = 0; figure < FIGURES; figure++) {
                const pare_prop_doubt *d = &k->doubt[running][kinds[i].more];
                print_band(errors, running, figure, kinds[i].name, kinds[i].counts,
                           figure == THRUST  ? d->thrust_u
                           : figure == POWER ? d->power_u
                                             : fit_merit_of(running, d));
            }
}

static bool fit_one(const fit_blades *blades, const fit_prop_set *which, const char *pictures,
                    FILE *constants)
{
    const fit_how how = fit_how_of(which);
    fit_set set;
    if (!fit_set_solve(blades, &how, &set))
        return false;
    fit_errors published, propeller, maker;
    bool fine = fit_cross(&set, FIT_NOTHING, how.base, &published) &&
                fit_cross(&set, FIT_PROPELLER, NULL, &propeller) &&
                fit_cross(&set, FIT_MAKER, NULL, &maker);
    if (fine) {
        pare_prop_constants k;
        fit_errors *honest = which->known ? &propeller : &maker;
        fit_constants(&how, set.x, &set.hull, &k);
        k.name = which->name;
        k.source = which->source;
        put_doubt(honest, &k);

        print_head(which);
        print_errors("published constants (seen), all", &published, fit_tunnel);
        print_errors("published constants (seen), without research ones", &published, fit_sold);
        print_errors("by propeller, all", &propeller, fit_tunnel);
        print_errors("by propeller, without research ones", &propeller, fit_sold);
        print_errors("by maker's line, all", &maker, fit_tunnel);
        print_errors("by maker's line, without research ones", &maker, fit_sold);
        if (!which->measured)
            print_errors("by propeller, on the stands", &propeller, fit_stand);
        fit_print_classes(honest);
        print_doubt(honest, &k);
        print_by_blade(honest);
        fit_write_set(constants, which->variable, &k);
        if (which->picture)
            fine = fit_draw(pictures, which->picture, which->name,
                            which->known ? "propeller" : "maker's line", honest);
        fit_errors_free(&published);
        fit_errors_free(&propeller);
        fit_errors_free(&maker);
    }
    fit_set_free(&set);
    return fine;
}

bool fit_prop(const char *data_folder, const char *pictures, FILE *constants)
{
    fit_blades blades = {0, NULL};
    bool fine = fit_read_tunnel(data_folder, &blades) && fit_read_stands(data_folder, &blades);
    if (fine) {
        fit_floor_print(&blades);
        fit_write_head(constants);
    }
    for (int i = 0; fine && i < FIT_SETS; i++)
        fine = fit_one(&blades, &fit_prop_sets[i], pictures, constants);
    fit_blades_free(&blades);
    return fine;
}

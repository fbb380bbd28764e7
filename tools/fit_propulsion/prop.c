/* prop.c: the fit of the propeller model to a wind tunnel and two thrust stands (see subjects.h).
 *
 * Four sets: of a blade from its size and of a measured one, with the line known and not. Each is a
 * fit of the blade-element constants about those of the published description, with the trends of a
 * few levers of a blade with its size and line (physics/prop_trend.c, prop_model.c here). How far each
 * number may go from its prior was chosen by the errors on propellers left out and by the checks of
 * tests/checks: a few values each, doubled and halved; the errors are flat about them, to 0.2 %
 * (docs/decisions.md, "The middle propeller", which says how the choice itself was checked).
 *
 * Where the line is known, propellers are left out one by one: others of their line stay. Where it is
 * not, whole makers' lines are. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "blade.h"
#include "prop_cross.h"
#include "prop_floor.h"
#include "prop_write.h"
#include "published_props.h"
#include "subjects.h"

/* Of a normal distribution. */
#define HALF_OVER_U  0.6745
#define NINTH_OVER_U 1.645

/* How freely a set moves, where the sets differ. `own` and `odd` are small: a propeller's rows are then
 * believed nearly as if apart, and a propeller counts by the size of its error more than by the square,
 * so that the middle propeller is met and not the mean of a few odd ones. */
typedef struct latitude {
    double own;        /* of spread_u below: how far a propeller's rows are off together */
    double odd;        /* own levers so many of these off make a propeller count half */
    double global;     /* times global_u */
    double reynolds_u; /* of the powers of the Reynolds number on the last factors */
    double many;       /* times the trend with the blade count */
    double bend;       /* times the line's second powers */
    double research;   /* what a propeller made for a study counts */
} latitude;

static const struct set {
    const char *variable, *name, *source;
    const char *picture; /* how its pictures' names begin; NULL: it has none */
    bool measured, known;
    latitude latitude;
} sets[] = {
    {"pare_prop_family",
     "size",
     "UIUC Propeller Data Site, volumes 1 to 4; 5 in stand (Cao, Strawson 2018); 7 in stand "
     "(Spitzer 2019)",
     "prop_size",
     false,
     false,
     {0.5, 1, 1, 0.025, 1, 1, 0.5}},
    {"pare_prop_family_line",
     "size and line",
     "UIUC Propeller Data Site, volumes 1 to 4; 5 in stand (Cao, Strawson 2018); 7 in stand "
     "(Spitzer 2019)",
     "prop_line",
     false,
     true,
     {0.5, 1, 1, 0.1, 0.35, 2, 0.05}},
    {"pare_prop_true",
     "measured blade",
     "UIUC Propeller Data Site, volumes 1 and 2",
     "prop_blade",
     true,
     false,
     {0.35, 2, 1, 0.025, 1, 1, 1}},
    {"pare_prop_true_line",
     "measured blade and line",
     "UIUC Propeller Data Site, volumes 1 and 2",
     NULL,
     true,
     true,
     {0.2, 0.4, 2.5, 0.1, 1, 1, 1}},
};

/* How far each number is expected from its prior. Levers: twist in rad, the rest in ln. */
static fit_how how_of(const struct set *set)
{
    const latitude *may = &set->latitude;
    static const double global_u[FIT_GLOBALS] = {0.03, 0.03,  0.02, 0.06, 0.15,
                                                 0.09, 0.045, 0.15, 0.045};
    /* What trends are measured in. */
    const double spread_u[PARE_LEVERS] = {[PARE_LEVER_TWIST] = 0.015,
                                          [PARE_LEVER_CHORD] = set->measured ? 0 : 0.08,
                                          [PARE_LEVER_SLOPE] = set->measured ? 0.06 : 0,
                                          [PARE_LEVER_DRAG] = 0.12,
                                          [PARE_LEVER_LIFT] = 0.03,
                                          [PARE_LEVER_CT_STILL] = 0.03,
                                          [PARE_LEVER_CT_MOVING] = 0.03,
                                          [PARE_LEVER_CP_STILL] = 0.04,
                                          [PARE_LEVER_CP_MOVING] = 0.04};
    static const double middle_u[PARE_LEVERS] = {0.03, 0.1, 0.1, 0.3, 0.05, 0.02, 0.02, 0.02, 0.02};
    /* Of the traits: size and blade count; then what only a measured blade tells. */
    const double seen = set->measured ? 0.5 : 0;
    const double trait[PARE_PROP_TRAITS] = {0,    1,    1,    1,    1,    may->many,
                                            seen, seen, seen, seen, seen, 1};
    const double bend = may->bend;
    const double line[PARE_PROP_LINE_TERMS] = {2, 2, 2, 2 * bend, 2 * bend, 2 * bend};
    fit_how how = {.base = set->measured ? &published_true : &published_family,
                   .measured = set->measured,
                   .known = set->known,
                   .reynolds_u = may->reynolds_u,
                   .own_reynolds_u = may->own * 0.04,
                   .thrust_u = 0.1,
                   .power_u = 0.1,
                   .odd = may->odd,
                   .research = may->research,
                   .stand = 1.3};
    for (int g = 0; g < FIT_GLOBALS; g++)
        how.global_u[g] = may->global * global_u[g];
    for (int l = 0; l < PARE_LEVERS; l++) {
        if (spread_u[l] == 0)
            continue;
        /* The last factors are to take little, so that a blade of another chord stays a blade. */
        const double share = l < PARE_LEVER_CT_STILL ? 1 : 0.5;
        how.own_u[l] = may->own * spread_u[l];
        how.trait_u[l][0] = middle_u[l];
        for (int t = 1; t < PARE_PROP_TRAITS; t++)
            how.trait_u[l][t] = share * spread_u[l] * trait[t];
        for (int t = 0; t < PARE_PROP_LINE_TERMS; t++)
            how.line_u[l][t] = share * spread_u[l] * line[t];
    }
    return how;
}

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

static void print_head(const struct set *set)
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

/* Where too few propellers of three and four blades were measured, those of two stand in, [E] a
 * quarter wider. */
static void put_doubt(fit_errors *errors, pare_prop_constants *k)
{
    enum { ENOUGH = 4 };
    k->doubt_with_size = fit_doubt_with_size(errors);
    for (int running = 0; running < 2; running++) {
        double u[2][2];
        for (int which = 0; which < 2; which++) {
            u[0][which] = fit_doubt_u(errors, running, which, fit_two);
            u[1][which] = fit_propellers(errors, running, which, fit_more) >= ENOUGH
                              ? fit_doubt_u(errors, running, which, fit_more)
                              : 1.25 * u[0][which];
            k->median[running][which] = fit_quantile(errors, running, which, fit_tunnel, true, 0.5);
            k->ninth[running][which] = fit_quantile(errors, running, which, fit_tunnel, true, 0.9);
        }
        const double together = fit_correlation(errors, running, fit_tunnel);
        for (int more = 0; more < 2; more++)
            k->doubt[running][more] = (pare_prop_doubt){u[more][0], u[more][1], together};
    }
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
            for (int which = 0; which < 2; which++) {
                const pare_prop_doubt *d = &k->doubt[running][kinds[i].more];
                const double u = which == 0 ? d->thrust_u : d->power_u;
                fit_counts *const counts = kinds[i].counts;
                const size_t there = fit_propellers(errors, running, which, counts);
                printf("| %s | %s | %s | %.1f |", states[running], kinds[i].name,
                       which == 0 ? "CT" : "CP", 100 * u);
                if (there > 0)
                    printf(" %.0f | %.0f |",
                           100 * fit_within(errors, running, which, counts, HALF_OVER_U * u),
                           100 * fit_within(errors, running, which, counts, NINTH_OVER_U * u));
                else
                    printf(" | |");
                printf(" %zu |\n", there);
            }
    printf("\nCorrelation of the two errors: %.2f at rest, %.2f running.\n",
           k->doubt[0][0].correlation, k->doubt[1][0].correlation);
}

static bool fit_one(const fit_blades *blades, const struct set *which, const char *pictures,
                    FILE *constants)
{
    const fit_how how = how_of(which);
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
    for (size_t i = 0; fine && i < sizeof sets / sizeof sets[0]; i++)
        fine = fit_one(&blades, &sets[i], pictures, constants);
    fit_blades_free(&blades);
    return fine;
}

/* chain.c: how far off the whole chain is, and how often its intervals hold what a thrust stand measured.
 *
 * Nothing is fitted for the program here. Motors and propellers of the open 5 in stand are taken as a
 * builder knows them: the propeller by its size, with its line and without, the motor by its stated kV
 * and stator, its winding and unloaded current by the laws, the ESC as usual. From the volts at the ESC
 * the chain foretells electrical power at a thrust, thrust at full throttle and, the propeller alone,
 * thrust at a speed; the doubts that ship are carried through to an interval each, as a sheet does. A pair is foretold
 * by a drive that was fitted without its motor and by propeller constants fitted without its propeller.
 *
 * Readings of a pair at one voltage lie along one curve and share its error, so a run of a pair counts
 * as one, however many its readings. Even so the runs share 12 motors and 7 propellers: the share inside
 * an interval is known to 10 % at best.
 *
 * Source of the readings: Cao and Strawson, student bench data, 2018, MIT licence. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "chain_foretell.h"
#include "drive_model.h"
#include "page.h"
#include "prop_sets.h"
#include "prop_solve.h"
#include "subjects.h"

#define ESC_MOST_U 0.7 /* as in a sheet */
#define NORMAL_50  0.6745
#define NORMAL_90  1.6449
#define HIGH_V     9.0 /* between the stand's two voltages */

static const char *const figure_name[CHAIN_FIGURES] = {"electrical power at a thrust",
                                                       "thrust at full throttle",
                                                       "thrust at a speed, the propeller alone"};

enum { RUNS = DRIVE_SMALL_MOTORS * DRIVE_PROPELLERS * 2, READINGS = 2048 };

/* What is known of the propellers. */
enum { SIZE_AND_LINE, SIZE, WAYS };
static const int set_of[WAYS] = {FIT_SIZE_AND_LINE, FIT_SIZE};

/* The stand's propellers, each by constants that never saw it. */
typedef struct propellers {
    pare_prop_constants constants[DRIVE_PROPELLERS];
    pare_prop blade[DRIVE_PROPELLERS];
    pare_prop_table table[DRIVE_PROPELLERS];
} propellers;

/* One figure: its readings, each of a run. */
typedef struct reading {
    int run, blades;
    double off, of_u;
} reading;

typedef struct readings {
    size_t count;
    reading reading[READINGS];
} readings;

/* The doubt is what ships: what a set's own left-out propellers showed. */
static bool make_one(const fit_set *set, int p, const pare_prop_size *size, propellers *all)
{
    char name[sizeof set->blade[0]->name];
    snprintf(name, sizeof name, "stand_5_%d", p + 1);
    bool *out = calloc(set->count, sizeof *out);
    bool found = false;
    for (size_t i = 0; out && i < set->count; i++) {
        out[i] = strcmp(set->blade[i]->name, name) == 0;
        found = found || out[i];
    }
    pare_prop_constants *k = &all->constants[p];
    const bool fine = found && fit_set_without(set, out, k);
    free(out);
    const pare_prop_constants *shipped = pare_prop_set(false, size->line);
    memcpy(k->doubt, shipped->doubt, sizeof k->doubt);
    memcpy(k->doubt_with_size, shipped->doubt_with_size, sizeof k->doubt_with_size);
    k->doubt_with_load = shipped->doubt_with_load;
    if (!fine || pare_prop_from_size(size, k, &all->blade[p], NULL) != PARE_OK)
        return false;
    pare_prop_table_build(&all->blade[p], &all->table[p]);
    return true;
}

static bool make(const fit_blades *blades, int way, propellers *all)
{
    const fit_how how = fit_how_of(&fit_prop_sets[set_of[way]]);
    fit_set set;
    bool fine = fit_set_solve(blades, &how, &set);
    for (int p = 0; fine && p < DRIVE_PROPELLERS; p++) {
        pare_prop_size size = drive_propeller[p];
        if (!how.known)
            size.line = PARE_LINE_UNKNOWN;
        fine = make_one(&set, p, &size, all);
    }
    fit_set_free(&set);
    return fine;
}

static bool counts(const drive_row *row, int motor, int figure)
{
    return row->motor == motor && row->propeller >= 0 && (figure != CHAIN_FULL_THRUST || row->top);
}

/* What ships, as a sheet takes it: the laws' scatter, each for itself. */
static chain_doubts doubts_of(const pare_prop *blade)
{
    const pare_drive *drive = &pare_drive_fitted;
    return (chain_doubts){pare_prop_model_doubt(blade, false, 1),
                          {[CHAIN_KV] = drive->kv_u,
                           [CHAIN_WINDING] = drive->winding_u,
                           [CHAIN_NO_LOAD] = drive->no_load_u,
                           [CHAIN_PULSES] = drive->pulse_loss_u,
                           [CHAIN_SWITCHING] = ESC_MOST_U,
                           [CHAIN_ESC_OHM] = drive->on_u_ohm / drive->esc.on_ohm}};
}

static void judge_motor(const drive_model *model, const double x[], const propellers *all,
                        readings to[CHAIN_FIGURES])
{
    chain c = {.motor = drive_model_motor(model, x, model->without),
               .esc = {pare_drive_published.esc.on_ohm, x[AT_SWITCHING], exp(x[AT_IDLE])},
               .heat = fmax(x[AT_HEAT], 0)};
    if (pare_air_standard(0, &c.air, NULL) != PARE_OK)
        return;
    c.air.density_kg_m3 = DRIVE_AIR_KG_M3;
    for (size_t i = 0; i < model->bench->rows; i++) {
        const drive_row *row = &model->bench->row[i];
        for (int figure = 0; figure < CHAIN_FIGURES; figure++) {
            if (!counts(row, model->without, figure))
                continue;
            const int p = row->propeller;
            const chain_doubts d = doubts_of(&all->blade[p]);
            c.rotor = (pare_rotor){&all->blade[p], &all->table[p], 1, 1};
            const double off = chain_foretold(&c, row, figure) - chain_measured(row, figure);
            const double u = chain_foretold_u(&c, &d, row, figure);
            readings *its = &to[figure];
            if (isfinite(off) && isfinite(u) && its->count < READINGS)
                its->reading[its->count++] =
                    (reading){(row->motor * DRIVE_PROPELLERS + p) * 2 + (row->volts_v > HIGH_V),
                              all->blade[p].blades, off, off / u};
        }
    }
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* @param blades  0: of any count */
static void print_figure(FILE *out, const char *name, const char *known, const readings *of,
                         int blades)
{
    double *off = malloc((of->count + 1) * sizeof *off);
    double within[2] = {0};
    int in_run[RUNS] = {0}, runs = 0;
    if (!off)
        return;
    size_t count = 0;
    for (size_t i = 0; i < of->count; i++) {
        if (blades != 0 && of->reading[i].blades != blades)
            continue;
        off[count++] = fabs(of->reading[i].off);
        runs += in_run[of->reading[i].run]++ == 0;
    }
    for (size_t i = 0; i < of->count; i++) {
        if (blades != 0 && of->reading[i].blades != blades)
            continue;
        const double weight = 1.0 / in_run[of->reading[i].run] / runs;
        within[0] += fabs(of->reading[i].of_u) < NORMAL_50 ? weight : 0;
        within[1] += fabs(of->reading[i].of_u) < NORMAL_90 ? weight : 0;
    }
    qsort(off, count, sizeof *off, by_size);
    fprintf(out, "| %s | %s | %.1f / %.1f | %.0f | %.0f | %d |\n", name, known,
            100 * off[count / 2], 100 * off[9 * (count - 1) / 10], 100 * within[0], 100 * within[1],
            runs);
    free(off);
}

static bool print_ways(readings ways[WAYS][CHAIN_FIGURES], const char *page)
{
    fit_block block;
    if (!fit_block_open(&block))
        return false;
    fprintf(block.out, "| foretold | propeller by | off | in 50 %% | in 90 %% | runs |\n"
                       "| --- | --- | --- | --- | --- | --- |\n");
    for (int figure = 0; figure < CHAIN_FIGURES; figure++)
        for (int way = 0; way < WAYS; way++)
            print_figure(block.out, figure_name[figure], fit_prop_sets[set_of[way]].name,
                         &ways[way][figure], 0);
    for (int way = 0; way < WAYS; way++)
        print_figure(block.out, "the last, three blades", fit_prop_sets[set_of[way]].name,
                     &ways[way][CHAIN_THRUST], 3);
    printf("the whole chain, motor and propeller left out: median / 90th percentile of readings in "
           "%%, and\nhow many %% of the readings, runs of a pair counting alike, are in the "
           "intervals:\n");
    return fit_block_close(&block, page, "chain");
}

static bool foretell(const drive_bench *bench, const propellers ways[WAYS],
                     readings to[WAYS][CHAIN_FIGURES])
{
    bool fine = true;
    for (int m = 0; fine && m < DRIVE_SMALL_MOTORS - 1; m++) { /* the last is no such motor */
        drive_model model;
        double x[DRIVE_PARAMETERS];
        drive_model_make(bench, DRIVE_WITH_PULSES, m, &model);
        fine = drive_model_fit(&model, x, NULL);
        for (int way = 0; fine && way < WAYS; way++)
            judge_motor(&model, x, &ways[way], to[way]);
    }
    return fine;
}

bool fit_chain(const char *data_folder, const fit_to *to)
{
    drive_bench bench;
    fit_blades blades = {0, NULL};
    if (!drive_bench_read(data_folder, &bench))
        return false;
    propellers *ways = malloc(WAYS * sizeof *ways);
    readings(*all)[CHAIN_FIGURES] = calloc(WAYS, sizeof *all);
    bool fine = ways && all && fit_read_tunnel(data_folder, &blades) &&
                fit_read_stands(data_folder, &blades);
    for (int way = 0; fine && way < WAYS; way++)
        fine = make(&blades, way, &ways[way]);
    fine = fine && foretell(&bench, ways, all);
    fine = fine && print_ways(all, to->page);
    free(ways);
    free(all);
    fit_blades_free(&blades);
    drive_bench_free(&bench);
    return fine;
}

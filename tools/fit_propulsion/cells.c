/* cells.c: the packs' constants from cells measured one by one.
 *
 * Two chemistries have data. Lithium-ion: three INR18650-30Q and one NCR18650PF, fitted whole.
 * Lithium-polymer: two pouch cells, neither of them made for high rates, which give the open-circuit
 * curve and nothing else; a flight pack's resistance stays the trade's estimate. The other two are
 * made from these and say so.
 *
 * A fit is judged on cells that it did not see, and on rates that it did not see. The doubt that ships
 * is what the left-out cells showed: how far each one's resistance was off, and its volts beside that;
 * the intervals that this makes are counted against the left-out volts. */
#include <math.h>
#include <string.h>

#include "cells_data.h"
#include "cells_fit.h"
#include "cells_report.h"
#include "page.h"
#include "subjects.h"

/* Measured by seconds-long pulses at 25 degC, ohm Ah: a 21700 power cell. Its own curves are not in
 * the open. */
#define POWER_PULSE_OHM_AH 30e-3
#define POWER_PULSE_S      10

static const pare_cell ion_start = {
    .open_v = {2.70, 3.10, 3.26, 3.42, 3.51, 3.58, 3.65, 3.75, 3.86, 3.95, 4.05, 4.10, 4.18},
    .ohm_ah = 0.1,
    .rise = 0.8,
    .rise_charge = 0.07,
    .slow = 0.6,
    .slow_s = 60,
    .warm_share = 0.25,
    .activation_k = 6300,
    .heat_j_per_k_ah = 14.4,
    .cooling_s = 600,
    .landing_v = 3.00,
    .cutoff_v = 2.60};

/* Flight packs: resistance and its laws are the published estimates (no open rate curves of them were
 * found), heat by 27.5 g/Ah of 1 J/(g K), cooling by guess: a pack in its wrap. */
static const pare_cell polymer_start = {
    .open_v = {3.27, 3.48, 3.60, 3.68, 3.72, 3.75, 3.78, 3.82, 3.88, 3.96, 4.06, 4.13, 4.20},
    .ohm_ah = 7.5e-3,
    .rise = 0.8,
    .rise_charge = 0.07,
    .slow = 0.4,
    .slow_s = 15,
    .warm_share = 1,
    .activation_k = 2400,
    .heat_j_per_k_ah = 27.5,
    .cooling_s = 900,
    .landing_v = 3.50,
    .cutoff_v = 3.00,
    .doubt = {.ohm_share_u = 0.5, .capacity_share_u = 0.05}};

static const double high_volts[PARE_PACK_KNOTS] = {3.25, 3.47, 3.60, 3.70, 3.75, 3.79, 3.83,
                                                   3.89, 3.97, 4.07, 4.20, 4.27, 4.35};

static bool is_pouch(const cell_run *run)
{
    return strncmp(run->cell, "pouch", 5) == 0;
}

/* All lithium-ion runs but those of a cell and those near a rate. */
static cell_choice all_but(const cell_data *data, const char *cell, double low, double high)
{
    cell_choice choice = {.run = {false}};
    for (size_t i = 0; i < data->runs; i++) {
        const cell_run *run = &data->run[i];
        choice.run[i] = !is_pouch(run) && strcmp(run->cell, cell) != 0 &&
                        !(run->rate >= low && run->rate <= high);
    }
    for (size_t i = 0; i < data->pulses; i++)
        choice.pulse[i] = strcmp(data->pulse[i].cell, cell) != 0;
    return choice;
}

static void keep_left_out(const cell_data *data, const cell_choice *choice, const char *cell,
                          double low, double high, const pare_cell *fitted, cell_judged *judged)
{
    for (size_t i = 0; i < data->runs; i++) {
        const cell_run *run = &data->run[i];
        if (is_pouch(run) || choice->run[i])
            continue;
        if (strcmp(run->cell, cell) == 0 || (run->rate >= low && run->rate <= high))
            cell_judge(fitted, run, 1, &judged->run[i]);
    }
}

static bool by_cell(const cell_data *data, cell_judged *judged)
{
    static const char *const cell[] = {"30Q-1", "30Q-2", "30Q-3", "PF-1"};
    for (size_t f = 0; f < sizeof cell / sizeof cell[0]; f++) {
        const cell_choice choice = all_but(data, cell[f], 1, 0);
        pare_cell fitted = ion_start;
        if (!cell_fit(data, &choice, &fitted))
            return false;
        keep_left_out(data, &choice, cell[f], 1, 0, &fitted, judged);
    }
    return true;
}

static bool by_rate(const cell_data *data, cell_judged *judged)
{
    static const double band[][2] = {{0.9, 1.1}, {1.9, 2.4}, {2.9, 3.1}};
    for (size_t f = 0; f < sizeof band / sizeof band[0]; f++) {
        const cell_choice choice = all_but(data, "", band[f][0], band[f][1]);
        pare_cell fitted = ion_start;
        if (!cell_fit(data, &choice, &fitted))
            return false;
        keep_left_out(data, &choice, "", band[f][0], band[f][1], &fitted, judged);
    }
    return true;
}

/* A builder who typed the cell's own resistance: the law's shape from other cells, its size from one
 * reading, here of the run itself. What is left is the floor that no law without the cell can pass. */
static void own_resistance(const cell_data *data, const cell_judged *left_out, cell_judged *judged)
{
    for (size_t i = 0; i < data->runs; i++)
        if (left_out->run[i].points > 0)
            cell_judge_sized(&left_out->run[i], &judged->run[i]);
}

/* What 1 kHz or so sees, over the quick resistance: of the pulses, the first tenth of a second. */
static void ac_share(const cell_data *data, pare_cell *cell)
{
    double sum = 0, squares = 0;
    int n = 0;
    for (size_t i = 0; i < data->pulses; i++) {
        const cell_pulse *pulse = &data->pulse[i];
        if (pulse->seconds > 0.5 || pulse->charge < 0.15 || pulse->charge > 0.9 ||
            pulse->rate > 2.5)
            continue;
        const double share = pulse->ohm / (cell_pulse_ohm(cell, pulse));
        sum += share;
        squares += share * share;
        n++;
    }
    cell->ac_share = sum / n;
    /* from cell kind to cell kind, not known from one cell: a quarter of it */
    cell->ac_share_u =
        fmax(0.25 * cell->ac_share, sqrt(fmax(squares / n - sum / n * (sum / n), 0)));
}

static pare_cell power_cell(const pare_cell *ion)
{
    pare_cell cell = *ion;
    const cell_pulse pulse = {.ah = 1, .charge = 0.5, .degc = 25, .seconds = POWER_PULSE_S};
    cell.ohm_ah *= POWER_PULSE_OHM_AH / cell_pulse_ohm(ion, &pulse);
    cell.doubt.ohm_share_u = 0.3;
    cell.doubt.cell_v_u = 1.5 * ion->doubt.cell_v_u;
    return cell;
}

static bool fit_pouch(const cell_data *data, const char *pictures, FILE *table, pare_cell *polymer)
{
    double factor[CELL_RUNS];
    cell_choice large = {.run = {false}}, both = {.run = {false}};
    for (size_t i = 0; i < data->runs; i++) {
        both.run[i] = is_pouch(&data->run[i]);
        large.run[i] = strcmp(data->run[i].cell, "pouch-7.5") == 0;
    }
    pare_cell of_large = polymer_start;
    *polymer = polymer_start;
    if (!cell_fit_open(data, &large, &of_large, factor) ||
        !cell_fit_open(data, &both, polymer, factor))
        return false;
    cell_judged judged = {.run = {{.points = 0}}}, other = {.run = {{.points = 0}}};
    for (size_t i = 0; i < data->runs; i++)
        if (both.run[i]) {
            cell_judge(polymer, &data->run[i], factor[i], &judged.run[i]);
            cell_judge(&of_large, &data->run[i], factor[i], &other.run[i]);
        }
    printf("\nLithium-polymer: open-circuit volts of two pouch cells, each with a factor of its "
           "own on "
           "the resistance\n");
    cell_print_factors(data, factor, polymer);
    cell_print_errors("fitted together (seen)", data, &judged);
    cell_print_errors("open-circuit volts of the 7.5 Ah cell alone", data, &other);
    cell_print_row(table, "pouch cells, open-circuit volts of the large one, a resistance each",
                   data, &other);
    polymer->doubt.cell_v_u = fmax(0.03, cell_rms_v(&other));
    polymer->ac_share = 0.7; /* an estimate; so is its doubt */
    polymer->ac_share_u = 0.2;
    return cell_draw_pouch(pictures, data, &judged);
}

static bool rises(const pare_cell *cell)
{
    for (int i = 1; i < PARE_PACK_KNOTS; i++)
        if (!(cell->open_v[i] > cell->open_v[i - 1]))
            return false;
    return true;
}

static bool put_ion(const cell_data *data, const fit_to *to, pare_cell *ion, FILE *table)
{
    static cell_judged seen, cells, rates, sized;
    const cell_choice all = all_but(data, "", 1, 0);
    fit_block block;
    if (!cell_fit(data, &all, ion) || !by_cell(data, &cells) || !by_rate(data, &rates))
        return false;
    for (size_t i = 0; i < data->runs; i++)
        if (all.run[i])
            cell_judge(ion, &data->run[i], 1, &seen.run[i]);
    own_resistance(data, &cells, &sized);
    ac_share(data, ion);
    ion->doubt = cell_doubt(data, &cells);
    cell_calibrate(&cells, &ion->doubt);
    printf("Lithium-ion: three INR18650-30Q and one NCR18650PF; cell volts, charge 1 to 0.1, %%\n");
    cell_print_errors("seen", data, &seen);
    cell_print_errors("cell left out", data, &cells);
    cell_print_errors("rate left out", data, &rates);
    cell_print_errors("cell left out, its own resistance typed (the floor)", data, &sized);
    cell_print_row(table, "lithium-ion, cell left out", data, &cells);
    cell_print_row(table, "lithium-ion, rate left out", data, &rates);
    cell_print_row(table, "lithium-ion, cell left out, its own resistance typed", data, &sized);
    cell_print_capacity(data, ion);
    cell_print_pulses(data, ion);
    if (!fit_block_open(&block))
        return false;
    cell_print_intervals(block.out, &cells, &ion->doubt);
    return fit_block_close(&block, to->page, "cell intervals") &&
           cell_draw_ion(to->pictures, data, &cells);
}

bool fit_cells(const char *data_folder, const fit_to *to)
{
    static cell_data data;
    pare_cell cell[PARE_CHEMISTRIES];
    fit_block table;
    if (!cell_data_read(data_folder, &data) || !fit_block_open(&table))
        return false;
    cell[PARE_LIION] = ion_start;
    cell_print_heads(table.out);
    bool fine = put_ion(&data, to, &cell[PARE_LIION], table.out) &&
                fit_pouch(&data, to->pictures, table.out, &cell[PARE_LIPO]);
    fine = fit_block_close(&table, to->page, "cells") && fine;
    if (!fine)
        return false;
    cell[PARE_LIION_POWER] = power_cell(&cell[PARE_LIION]);
    cell[PARE_LIHV] = cell[PARE_LIPO];
    memcpy(cell[PARE_LIHV].open_v, high_volts, sizeof high_volts);
    cell[PARE_LIHV].doubt.cell_v_u = 0.05;
    for (int i = 0; i < PARE_CHEMISTRIES; i++)
        if (!rises(&cell[i])) {
            fprintf(stderr, "chemistry %d: the open-circuit volts do not rise with charge\n", i);
            return false;
        }
    return cell_write(to->constants, cell);
}

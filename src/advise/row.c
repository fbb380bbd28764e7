/* row.c: one swap as a row of the list (see row.h).
 *
 * A row is the difference of two sheets. Its uncertainty is not that of either sheet: what both
 * have in common cancels (mass_change.h). */
#include "advise/row.h"

#include <math.h>
#include <string.h>

#include "advise/judge.h"
#include "advise/mass_change.h"

#define LEAST_SAVED_KG 1e-8 /* money a gram has no meaning below this */

pare_status pare_desk_open(const pare_bench *bench, const pare_craft *craft, int loadout,
                           pare_arena *arena, pare_desk **desk, pare_error *err)
{
    pare_desk *made = pare_arena_zeros(arena, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    made->craft = craft;
    made->loadout = loadout;
    pare_status status = pare_shelf_fill(bench, arena, &made->shelf, err);
    if (status == PARE_OK)
        status = pare_craft_load(craft, loadout, &made->loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(&made->loaded, false, &made->sheet, err);
    if (status != PARE_OK)
        return status;
    pare_desk_judge(made);
    *desk = made;
    return PARE_OK;
}

pare_status pare_trial_weigh(const pare_desk *desk, pare_trial *trial, pare_error *err)
{
    trial->flown = &trial->changed;
    if (desk->loadout >= 0) {
        trial->flown = &trial->loaded;
        const pare_status status =
            pare_craft_load(&trial->changed, desk->loadout, &trial->loaded, err);
        if (status != PARE_OK)
            return status;
    }
    return pare_sheet_weigh(trial->flown, &trial->sheet, err);
}

unsigned pare_kept_jobs_lost(const pare_craft *craft, const pare_applied *applied)
{
    return applied->jobs_lost & (craft->brief.keep | 1u << PARE_FLIES);
}

static pare_band band_of(const pare_craft *craft, const pare_swap *row)
{
    const pare_applied *applied = &row->applied;
    if (applied->deep)
        return PARE_BAND_DEEP;
    const bool costs = applied->money > 0 || !applied->priced;
    const bool free = !costs && !applied->protects_esc && !applied->sought &&
                      pare_kept_jobs_lost(craft, applied) == 0;
    if (free)
        return PARE_BAND_FREE;
    return row->money_per_g <= PARE_CHEAP_PER_G ? PARE_BAND_CHEAP : PARE_BAND_DEAR;
}

pare_status pare_row_begin(const pare_desk *desk, const pare_swap_name *name, pare_trial *trial,
                           pare_swap *row, pare_error *err)
{
    pare_basket basket = {0};
    return pare_swap_edit(&desk->shelf, desk->craft, name, &trial->changed, &row->applied, &basket,
                          err);
}

static void put_changes(const pare_desk *desk, const pare_trial *trial, pare_swap *row)
{
    const pare_sheet_figure *was = desk->sheet.figure, *is = trial->sheet.figure;
    for (int f = 0; f < PARE_FIGURES; f++)
        row->change[f] = was[f].exists && is[f].exists ? is[f].value - was[f].value : (double)NAN;
}

pare_status pare_row_weigh(const pare_desk *desk, pare_trial *trial, pare_swap *row,
                           pare_error *err)
{
    const pare_status status = pare_trial_weigh(desk, trial, err);
    if (status != PARE_OK)
        return status;
    put_changes(desk, trial, row);
    row->grams_kg = -row->change[PARE_ALL_UP];
    row->money_per_g = row->applied.priced && row->grams_kg > LEAST_SAVED_KG
                           ? row->applied.money / (1e3 * row->grams_kg)
                           : (double)NAN;
    row->band = band_of(desk->craft, row);
    row->breaks = 0;
    row->loosens = 0;
    return PARE_OK;
}

void pare_row_fly(const pare_desk *desk, pare_figures wanted, pare_trial *trial, pare_swap *row)
{
    pare_sheet_fly(trial->flown, wanted, &trial->sheet);
    put_changes(desk, trial, row);
}

void pare_row_judge(const pare_desk *desk, pare_trial *trial, pare_swap *row)
{
    pare_trial_judge(desk, trial, row);
    row->grams_u_kg = pare_mass_change_u_kg(&desk->loaded, &desk->sheet.assembly, trial->flown,
                                            &trial->sheet.assembly);
}

pare_status pare_row_fill(const pare_desk *desk, const pare_swap_name *name, pare_trial *trial,
                          pare_swap *row, pare_error *err)
{
    pare_status status = pare_row_begin(desk, name, trial, row, err);
    if (status == PARE_OK)
        status = pare_row_weigh(desk, trial, row, err);
    if (status != PARE_OK)
        return status;
    pare_row_fly(desk, PARE_EVERY_FIGURE, trial, row);
    pare_row_judge(desk, trial, row);
    return PARE_OK;
}

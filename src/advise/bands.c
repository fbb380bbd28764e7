/* bands.c: sets of swaps that go together (see bands.h).
 *
 * Each band starts afresh over every swap that it allows, so that a bought part may take the place of
 * an owned one; where the greedy way then comes out worse than the band before, that band's set
 * stands. Of one joint's screws a set changes the metal or the number, not both: their strength is
 * not computed yet, and two unknowns on one joint are more than a total should rest on. */
#include "advise/bands.h"

#include <stdlib.h>
#include <string.h>

enum { MOST_TAKEN = 64 };
#define LEAST_STEP_KG 1e-7

typedef struct together {
    size_t count;
    size_t index[MOST_TAKEN];
    pare_swap_name name[MOST_TAKEN];
    pare_craft craft;
    pare_sheet sheet;
    pare_basket basket;
} together;

typedef struct entry {
    double grams_kg, money;
    const char *id;
    size_t index;
} entry;

static int most_grams_first(const void *left, const void *right)
{
    const entry *a = left, *b = right;
    if (a->grams_kg != b->grams_kg)
        return a->grams_kg > b->grams_kg ? -1 : 1;
    if (a->money != b->money)
        return a->money < b->money ? -1 : 1;
    return strcmp(a->id, b->id);
}

static bool about_screws(const pare_swap_name *name)
{
    return name->what == PARE_WHAT_JOINT_MATERIAL || name->what == PARE_WHAT_JOINT_COUNT;
}

static bool excluded(const together *set, const pare_swap_name *name, const pare_craft *after)
{
    for (size_t i = 0; i < set->count; i++) {
        const pare_swap_name *taken = &set->name[i];
        if (about_screws(taken) && about_screws(name) && strcmp(taken->of, name->of) == 0)
            return true;
        if (pare_swap_clash(taken, name, &set->craft, after, NULL) != PARE_OK)
            return true;
    }
    return false;
}

static double all_up_kg(const pare_sheet *sheet)
{
    return sheet->figure[PARE_ALL_UP].value;
}

/* Tries one more swap on top of those taken. */
static pare_status add(pare_desk *desk, const pare_swap_name *name, size_t index, together *set,
                       pare_error *err)
{
    if (excluded(set, name, &set->craft))
        return PARE_OK;
    pare_applied applied;
    pare_basket basket = set->basket;
    pare_status status =
        pare_swap_edit(desk->bench, &set->craft, name, &desk->changed, &applied, &basket, err);
    if (status == PARE_OK &&
        (applied.open_question || pare_kept_jobs_lost(desk->craft, &applied) != 0 ||
         excluded(set, name, &desk->changed)))
        return PARE_OK;
    if (status == PARE_OK)
        status = pare_desk_weigh(desk, err);
    if (status != PARE_OK)
        return status == PARE_UNAVAILABLE ? status : PARE_OK;
    if (all_up_kg(&desk->changed_sheet) > all_up_kg(&set->sheet) - LEAST_STEP_KG ||
        pare_margins_break(&desk->sheet, &desk->changed_sheet))
        return PARE_OK;
    set->index[set->count] = index;
    set->name[set->count++] = *name;
    set->craft = desk->changed;
    set->sheet = desk->changed_sheet;
    set->basket = basket;
    return PARE_OK;
}

static pare_status gather(pare_desk *desk, const pare_swap_name names[], const pare_swaps *swaps,
                          pare_band most, entry order[], together *set, pare_error *err)
{
    size_t count = 0;
    for (size_t i = 0; i < swaps->count; i++) {
        const pare_swap *row = &swaps->swap[i];
        if (row->band <= most && !row->applied.sought && row->grams_kg > LEAST_STEP_KG &&
            pare_kept_jobs_lost(desk->craft, &row->applied) == 0)
            order[count++] = (entry){row->grams_kg, row->applied.money, row->applied.id, i};
    }
    qsort(order, count, sizeof order[0], most_grams_first);
    set->count = 0;
    set->craft = *desk->craft;
    set->sheet = desk->sheet;
    set->basket = (pare_basket){0};
    pare_status status = PARE_OK;
    /* Twice: what a shorter screw or a lighter craft put right may now be taken. */
    for (size_t i = 0; status == PARE_OK && i < 2 * count && set->count < MOST_TAKEN; i++)
        status = add(desk, &names[order[i % count].index], order[i % count].index, set, err);
    return status;
}

pare_status pare_bands_fill(pare_desk *desk, pare_units *units, pare_arena *arena,
                            pare_swaps *swaps, pare_error *err)
{
    together *set = pare_arena_zeros(arena, sizeof *set);
    entry *order = pare_arena_array(arena, swaps->count + 1, sizeof *order);
    pare_swap_name *names = pare_arena_array(arena, swaps->count + 1, sizeof *names);
    swaps->free_index = pare_arena_array(arena, MOST_TAKEN, sizeof swaps->free_index[0]);
    if (!set || !order || !names || !swaps->free_index)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    for (size_t i = 0; status == PARE_OK && i < swaps->count; i++)
        status = pare_swap_name_read(units, swaps->swap[i].applied.id, &names[i], err);
    for (int band = 0; status == PARE_OK && band < PARE_BAND_SUMS; band++) {
        status = gather(desk, names, swaps, (pare_band)band, order, set, err);
        if (status != PARE_OK)
            break;
        bool priced;
        swaps->band_kg[band] = all_up_kg(&desk->sheet) - all_up_kg(&set->sheet);
        swaps->band_money[band] = pare_basket_money(desk->bench, &set->basket, &priced);
        if (band == PARE_BAND_FREE) {
            swaps->free_count = set->count;
            memcpy(swaps->free_index, set->index, set->count * sizeof set->index[0]);
            swaps->together_kg = swaps->band_kg[band];
        } else if (swaps->band_kg[band] < swaps->band_kg[band - 1]) {
            swaps->band_kg[band] = swaps->band_kg[band - 1];
            swaps->band_money[band] = swaps->band_money[band - 1];
        }
    }
    return status;
}

/* bands.c: sets of swaps that go together (see bands.h).
 *
 * Each band starts afresh over every swap that it allows, so that a bought part may take the place of
 * an owned one; where the greedy way then comes out worse than the band before, that band's set
 * stands. Of one joint's screws a set changes the metal or the number, not both: two changes of one
 * joint's strength are more than a total should rest on.
 *
 * What no longer fits or is no lighter is dropped before anything is flown, and then only the figures
 * that margins are made of are. The bands know nothing of each other until they are all there, so each
 * may have a thread of its own. */
#include "advise/bands.h"

#include <stdlib.h>
#include <string.h>

#include "advise/judge.h"
#include "advise/threads.h"
#include "base/plain_locale.h"

enum { MOST_TAKEN = 64, WORTH_A_THREAD = 256 };

typedef struct together {
    size_t count;
    size_t index[MOST_TAKEN]; /* their rows */
    const pare_swap_name *name[MOST_TAKEN];
    pare_craft craft;
    double all_up_kg;
    pare_basket basket;
    pare_trial trial;
    struct turn {
        const pare_saving *saving;
        size_t on; /* how many were taken when it was tried last, and one */
    } *order;      /* room for all */
    pare_status status;
} together;

static int most_grams_first(const void *left, const void *right)
{
    const pare_saving *a = ((const struct turn *)left)->saving;
    const pare_saving *b = ((const struct turn *)right)->saving;
    if (a->grams_kg != b->grams_kg)
        return a->grams_kg > b->grams_kg ? -1 : 1;
    if (a->money != b->money)
        return a->money < b->money ? -1 : 1;
    return strcmp(a->name->id, b->name->id);
}

static bool about_screws(const pare_swap_name *name)
{
    return name->what == PARE_WHAT_JOINT_MATERIAL || name->what == PARE_WHAT_JOINT_COUNT;
}

static bool excluded(const together *set, const pare_swap_name *name, const pare_craft *after)
{
    for (size_t i = 0; i < set->count; i++) {
        const pare_swap_name *taken = set->name[i];
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

bool pare_counts(const pare_craft *craft, const pare_swap *row)
{
    return !row->applied.sought && row->grams_kg > PARE_LEAST_SAVING_KG &&
           pare_kept_jobs_lost(craft, &row->applied) == 0;
}

/* Tries one more swap on top of those taken. */
static pare_status add(const pare_desk *desk, const pare_saving *saving, together *set)
{
    if (excluded(set, saving->name, &set->craft))
        return PARE_OK;
    pare_trial *trial = &set->trial;
    pare_applied applied;
    pare_basket basket = set->basket;
    pare_status status = pare_swap_edit(&desk->shelf, &set->craft, saving->name, &trial->changed,
                                        &applied, &basket, NULL);
    if (status == PARE_OK &&
        (applied.open_question || pare_kept_jobs_lost(desk->craft, &applied) != 0 ||
         excluded(set, saving->name, &trial->changed)))
        return PARE_OK;
    if (status == PARE_OK)
        status = pare_trial_weigh(desk, trial, NULL);
    if (status != PARE_OK)
        return status == PARE_UNAVAILABLE ? status : PARE_OK;
    if (all_up_kg(&trial->sheet) > set->all_up_kg - PARE_LEAST_SAVING_KG)
        return PARE_OK;
    if (pare_trial_breaks(desk, trial))
        return PARE_OK;
    set->index[set->count] = saving->index;
    set->name[set->count++] = saving->name;
    pare_craft_copy(&trial->changed, &set->craft);
    set->all_up_kg = all_up_kg(&trial->sheet);
    set->basket = basket;
    return PARE_OK;
}

static void gather(const pare_desk *desk, size_t count, const pare_saving savings[], pare_band most,
                   together *set)
{
    size_t ordered = 0;
    for (size_t i = 0; i < count; i++)
        if (savings[i].band <= most)
            set->order[ordered++] = (struct turn){&savings[i], 0};
    qsort(set->order, ordered, sizeof set->order[0], most_grams_first);
    pare_craft_copy(desk->craft, &set->craft);
    set->all_up_kg = all_up_kg(&desk->sheet);
    /* Twice: what a shorter screw or a lighter craft put right may now be taken. Not again on the very
     * set that it was tried on. */
    for (size_t i = 0; set->status == PARE_OK && i < 2 * ordered && set->count < MOST_TAKEN; i++) {
        struct turn *turn = &set->order[i % ordered];
        const size_t on = set->count + 1;
        if (turn->on != on)
            set->status = add(desk, turn->saving, set);
        turn->on = on;
    }
}

static void put(const pare_desk *desk, const together *set, int band, pare_swaps *swaps)
{
    bool priced;
    swaps->band_kg[band] = all_up_kg(&desk->sheet) - set->all_up_kg;
    swaps->band_money[band] = pare_basket_money(desk->shelf.bench, &set->basket, &priced);
    if (band == PARE_BAND_FREE) {
        swaps->free_count = set->count;
        memcpy(swaps->free_index, set->index, set->count * sizeof set->index[0]);
        swaps->together_kg = swaps->band_kg[band];
    } else if (swaps->band_kg[band] < swaps->band_kg[band - 1]) {
        swaps->band_kg[band] = swaps->band_kg[band - 1];
        swaps->band_money[band] = swaps->band_money[band - 1];
    }
}

pare_status pare_bands_fill(const pare_desk *desk, size_t count, const pare_saving savings[],
                            pare_arena *arena, pare_swaps *swaps, pare_error *err)
{
    together *sets = pare_arena_array(arena, PARE_BAND_SUMS, sizeof *sets);
    swaps->free_index = pare_arena_array(arena, MOST_TAKEN, sizeof swaps->free_index[0]);
    if (!sets || !swaps->free_index)
        return pare_no_memory(err);
    for (int band = 0; band < PARE_BAND_SUMS; band++) {
        sets[band].order = pare_arena_array(arena, count + 1, sizeof sets[band].order[0]);
        if (!sets[band].order)
            return pare_no_memory(err);
    }
    const int threads = pare_threads(count, WORTH_A_THREAD);
#ifdef _OPENMP
#pragma omp parallel for num_threads(threads) schedule(dynamic, 1)
#else
    (void)threads;
#endif
    for (int i = 0; i < PARE_BAND_SUMS; i++) {
        const int band = PARE_BAND_SUMS - 1 - i; /* that which takes longest first */
        const locale_t before = pare_plain_locale_enter();
        gather(desk, count, savings, (pare_band)band, &sets[band]);
        pare_plain_locale_leave(before);
    }
    for (int band = 0; band < PARE_BAND_SUMS; band++) {
        if (sets[band].status != PARE_OK)
            return pare_no_memory(err);
        put(desk, &sets[band], band, swaps);
    }
    return PARE_OK;
}

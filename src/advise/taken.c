/* taken.c: swaps that were taken, on their craft again (see taken.h).
 *
 * What a swap drags along depends on what the bench holds: of two adapters that would do, the lighter
 * comes. Applied to today's bench, a craft that was built last year would change with every part that
 * is added. So a taken swap keeps the ids of what came along, and is applied to a bench of nothing but
 * these and the part that it names: with no choice left, the choice is the one that was made. */
#include "advise/taken.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/take_inside.h"

/* A part of the bench as the bench has it, or NULL. */
static pare_part *held(const pare_bench *bench, const char *id)
{
    size_t low = 0, high = bench->parts;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        const int order = strcmp(bench->part[middle]->id, id);
        if (order == 0)
            return bench->part[middle];
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

/* Puts a part into a small bench, in its order, once. */
static void put(pare_bench *few, pare_part *part)
{
    size_t at = few->parts;
    if (!part || pare_bench_part(few, part->id))
        return;
    for (; at > 0 && strcmp(few->part[at - 1]->id, part->id) > 0; at--)
        few->part[at] = few->part[at - 1];
    few->part[at] = part;
    few->parts++;
}

pare_status pare_taken_apply(pare_units *units, const pare_bench *bench, const pare_taken *taken,
                             const pare_craft *craft, pare_craft *changed, pare_error *err)
{
    pare_part *part[1 + PARE_TAKEN_BRINGS];
    pare_bench few = {.arena = bench->arena, .money = bench->money, .part = part};
    pare_swap_name name;
    pare_applied applied;
    pare_basket basket = {0};
    if (taken->part)
        put(&few, held(bench, taken->part->id));
    for (size_t i = 0; i < taken->brings && i < PARE_TAKEN_BRINGS; i++)
        put(&few, held(bench, taken->bring[i]->id));
    pare_status status = pare_swap_name_read(units, taken->swap, &name, err);
    if (status != PARE_OK)
        return status;
    if (name.sought || (taken->part && taken->part->sought))
        return pare_fail(err, PARE_BAD_DATA, "swap '%s' rests on a part that is on no shelf",
                         name.id);
    return pare_swap_edit_alone(&few, craft, &name, changed, &applied, &basket, err);
}

/* Two craft in turn, since a swap is applied from one into another. Large: on the heap. */
typedef struct pair {
    pare_craft craft[2];
} pair;

typedef struct going_on {
    const pare_bench *bench;
    pare_units *units;
    pair *room;
    int now;
} going_on;

static pare_status put_on(going_on *go, const pare_craft *craft, bool on, size_t *failed,
                          pare_error *err)
{
    for (size_t i = 0; i < craft->takens; i++) {
        if (pare_taken_is_on(&craft->taken[i]) != on)
            continue;
        const pare_status status =
            pare_taken_apply(go->units, go->bench, &craft->taken[i], &go->room->craft[go->now],
                             &go->room->craft[1 - go->now], err);
        if (status != PARE_OK) {
            if (failed)
                *failed = i;
            return status;
        }
        go->now = 1 - go->now;
    }
    return PARE_OK;
}

static pare_status build(const pare_bench *bench, const pare_craft *craft, bool plans,
                         pare_craft *built, size_t *failed, pare_error *err)
{
    going_on go = {.bench = bench, .units = pare_units_open(), .room = malloc(sizeof *go.room)};
    pare_status status = go.units && go.room ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        go.room->craft[0] = *craft;
        status = put_on(&go, craft, true, failed, err);
    }
    if (status == PARE_OK && plans)
        status = put_on(&go, craft, false, failed, err);
    if (status == PARE_OK)
        *built = go.room->craft[go.now];
    free(go.room);
    pare_units_close(go.units);
    return status;
}

static bool any(const pare_craft *craft, bool on)
{
    for (size_t i = 0; i < craft->takens; i++)
        if (pare_taken_is_on(&craft->taken[i]) == on)
            return true;
    return false;
}

pare_status pare_taken_as_built(const pare_bench *bench, const pare_craft *craft, pare_craft *built,
                                size_t *failed, pare_error *err)
{
    if (any(craft, true))
        return build(bench, craft, false, built, failed, err);
    if (built != craft)
        *built = *craft;
    return PARE_OK;
}

pare_status pare_taken_as_planned(const pare_bench *bench, const pare_craft *craft,
                                  pare_craft *planned, size_t *failed, pare_error *err)
{
    if (craft->takens)
        return build(bench, craft, true, planned, failed, err);
    if (planned != craft)
        *planned = *craft;
    return PARE_OK;
}

pare_status pare_taken_check(const pare_bench *bench, const pare_craft *craft, size_t *failed,
                             pare_error *err)
{
    pare_units *units = pare_units_open();
    pare_craft *built = malloc(sizeof *built);
    pare_status status = units && built ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; i < craft->takens && status == PARE_OK; i++) {
        pare_swap_name name;
        status = pare_swap_name_read(units, craft->taken[i].swap, &name, err);
        if (status != PARE_OK)
            pare_within(err, "swap '%.60s'", craft->taken[i].swap);
        *failed = i;
    }
    if (status == PARE_OK)
        status = pare_taken_as_built(bench, craft, built, failed, err);
    free(built);
    pare_units_close(units);
    return status;
}

/* ---- for a sheet ---- */

/* Where facts are worked out. Large: on the heap. */
typedef struct desk {
    pare_craft craft;
    pare_sheet sheet;
} desk;

static double figure(const pare_sheet *sheet, pare_figure which)
{
    return sheet->figure[which].exists ? sheet->figure[which].value : (double)NAN;
}

static pare_status weigh_first(const pare_craft *first, int loadout, desk *d,
                               pare_taken_facts *facts, pare_error *err)
{
    pare_status status = pare_craft_load(first, loadout, &d->craft, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(&d->craft, false, &d->sheet, err);
    if (status != PARE_OK)
        return status;
    facts->first_kg = figure(&d->sheet, PARE_ALL_UP);
    facts->first_roll_rad_s2 = figure(&d->sheet, PARE_ROLL);
    facts->first_pitch_rad_s2 = figure(&d->sheet, PARE_PITCH);
    return PARE_OK;
}

/* A plan that has become impossible is worth a word, but no sheet is refused for it. */
static void weigh_planned(const pare_bench *bench, const pare_craft *first, int loadout, desk *d,
                          pare_taken_facts *facts)
{
    pare_error why = {0};
    pare_status status = pare_taken_as_planned(bench, first, &d->craft, NULL, &why);
    if (status == PARE_OK)
        status = pare_craft_load(&d->craft, loadout, &d->craft, &why);
    if (status == PARE_OK)
        status = pare_sheet_compute(&d->craft, true, &d->sheet, &why);
    facts->planned = status == PARE_OK;
    if (facts->planned) {
        facts->planned_kg = d->sheet.figure[PARE_ALL_UP].value;
        facts->planned_u_kg = d->sheet.figure[PARE_ALL_UP].u;
    } else {
        /* What is wrong; what would be right is said when it is taken or left. */
        const char *end = strstr(why.text, "; ");
        const size_t length = end ? (size_t)(end - why.text) : strlen(why.text);
        snprintf(facts->why, sizeof facts->why, "%.*s", (int)length, why.text);
    }
}

pare_status pare_taken_facts_fill(const pare_bench *bench, const pare_craft *first, int loadout,
                                  pare_taken_facts *facts, pare_error *err)
{
    *facts = (pare_taken_facts){.first_roll_rad_s2 = (double)NAN,
                                .first_pitch_rad_s2 = (double)NAN,
                                .first_kg = (double)NAN};
    for (size_t i = 0; i < first->takens; i++) {
        const pare_taken *taken = &first->taken[i];
        if (pare_taken_is_on(taken))
            facts->on++;
        else if (pare_taken_stage(taken) == PARE_STAGE_ORDERED)
            facts->ordered++;
        else
            facts->chosen++;
    }
    if (first->takens == 0)
        return PARE_OK;
    desk *d = malloc(sizeof *d);
    if (!d)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    if (facts->on)
        status = weigh_first(first, loadout, d, facts, err);
    if (status == PARE_OK && facts->chosen + facts->ordered)
        weigh_planned(bench, first, loadout, d, facts);
    free(d);
    return status;
}

/* take.c: taking swaps, and leaving them (see take.h).
 *
 * The list's order is the order in which swaps go onto the craft, so whatever goes on is moved behind
 * what is on. Two that wait for the same thing clash; one that is on does not bar the next: motors that
 * were fitted last year may be exchanged again. At the end the list is applied as it will be from now on,
 * so that no taking leaves a craft that cannot be built. */
#include "advise/take.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/row.h"
#include "advise/take_inside.h"
#include "advise/taken.h"
#include "base/text.h"

enum { WAY_BACK = PARE_SWAP_NAME + 64 };

typedef struct job {
    const pare_bench *bench;
    const pare_craft *first;
    pare_arena *arena;
    pare_units *units;
    pare_taking *taking;
    pare_craft *work; /* the craft as first described, with the new list */
    pare_craft *then; /* scratch: the craft that a swap meets */
    pare_error *err;
} job;

/* ---- the list ---- */

static pare_status read_entry(const job *j, size_t i, pare_swap_name *name)
{
    return pare_swap_name_read(j->units, j->taking->taken[i].swap, name, j->err);
}

/* The last entry that sets the same thing, or -1. */
static pare_status find(const job *j, const pare_swap_name *name, int *found, bool *same)
{
    *found = -1;
    *same = false;
    for (size_t i = 0; i < j->taking->count; i++) {
        pare_swap_name entry;
        const pare_status status = read_entry(j, i, &entry);
        if (status != PARE_OK)
            return status;
        if (strcmp(entry.left, name->left) == 0) {
            *found = (int)i;
            *same = strcmp(entry.id, name->id) == 0;
        }
    }
    return PARE_OK;
}

static size_t first_waiting(const pare_taking *taking, size_t but)
{
    size_t after = 0;
    for (size_t i = 0; i < taking->count; i++)
        if (i != but && pare_taken_is_on(&taking->taken[i]))
            after = i + 1;
    return after;
}

/* Moves an entry to where another stands, or behind all. */
static size_t move(pare_taking *taking, size_t from, size_t to)
{
    const pare_taken taken = taking->taken[from];
    const int was = taking->was[from];
    const size_t at = to > from ? to - 1 : to;
    for (size_t i = from; i + 1 < taking->count; i++) {
        taking->taken[i] = taking->taken[i + 1];
        taking->was[i] = taking->was[i + 1];
    }
    for (size_t i = taking->count - 1; i > at; i--) {
        taking->taken[i] = taking->taken[i - 1];
        taking->was[i] = taking->was[i - 1];
    }
    taking->taken[at] = taken;
    taking->was[at] = was;
    /* What was asked for before follows its entry. */
    for (size_t i = 0; i < taking->ones; i++) {
        size_t *entry = &taking->one[i].entry;
        if (*entry == from)
            *entry = at;
        else if (from < *entry && *entry <= at)
            --*entry;
        else if (at <= *entry && *entry < from)
            ++*entry;
    }
    return at;
}

static void remove_entry(pare_taking *taking, size_t index)
{
    taking->count--;
    for (size_t i = index; i < taking->count; i++) {
        taking->taken[i] = taking->taken[i + 1];
        taking->was[i] = taking->was[i + 1];
    }
}

static void into_work(const job *j)
{
    j->work->takens = j->taking->count;
    memcpy(j->work->taken, j->taking->taken, j->taking->count * sizeof j->taking->taken[0]);
}

/* A swap of the list that cannot go on in its turn. */
static pare_status goes_no_more(const job *j, size_t failed, const char *when)
{
    const pare_taken *taken = &j->work->taken[failed];
    if (j->err->status == PARE_UNAVAILABLE)
        return j->err->status;
    return pare_within(j->err, "%s, '%s', %s earlier, does not go on", when, taken->swap,
                       pare_stage_name(pare_taken_stage(taken)));
}

/* ---- one swap ---- */

/* What came onto the craft with a swap, but for the part that it names. */
static pare_status note_brought(const job *j, const pare_craft *before, const pare_craft *after,
                                pare_taken *taken)
{
    const pare_part **bring = pare_arena_array(j->arena, PARE_TAKEN_BRINGS, sizeof(void *));
    if (!bring)
        return pare_no_memory(j->err);
    taken->brings = 0;
    taken->bring = bring;
    for (size_t i = 0; i < after->items; i++) {
        const pare_item *item = &after->item[i];
        const bool was_on = i < before->items && !before->item[i].off;
        bool known = item->part == taken->part;
        if (item->off || (was_on && before->item[i].part == item->part))
            continue;
        for (size_t k = 0; k < taken->brings; k++)
            known = known || bring[k] == item->part;
        if (known)
            continue;
        if (taken->brings == PARE_TAKEN_BRINGS)
            return pare_fail(j->err, PARE_BAD_DATA, "swap '%s' brings more than %d parts along",
                             taken->swap, PARE_TAKEN_BRINGS);
        bring[taken->brings++] = item->part;
    }
    return PARE_OK;
}

/* The part that a swap names: the one that stands in its place now. */
static const pare_part *part_named(const pare_swap_name *name, const pare_craft *after)
{
    const int item = name->what == PARE_WHAT_ITEM ? pare_craft_item(after, name->of) : -1;
    return item >= 0 && strcmp(name->word, "off") != 0 ? after->item[item].part : NULL;
}

static pare_status add_promised(const job *j, const char *key, size_t count, const double value[],
                                pare_promised *promise, size_t *n)
{
    promise[*n].key = key ? key : "";
    promise[*n].count = count;
    memcpy(promise[*n].value, value, count * sizeof value[0]);
    ++*n;
    return key ? PARE_OK : pare_no_memory(j->err);
}

/* Every change that the row has, under the sheet's keys; all-up mass with its uncertainty. */
static pare_status promise(const job *j, const pare_swap *row, pare_taken *taken)
{
    pare_promised *made = pare_arena_array(j->arena, PARE_FIGURES + 1, sizeof *made);
    if (!made)
        return pare_no_memory(j->err);
    pare_status status = PARE_OK;
    size_t n = 0;
    for (int f = 0; f < PARE_FIGURES && status == PARE_OK; f++) {
        const double change = pare_figure_table[f].scale * row->change[f];
        if (f == PARE_CG_Y || f == PARE_CG_Z || !isfinite(change))
            continue;
        if (f == PARE_CG_X) {
            const double at_mm[3] = {1e3 * row->change[PARE_CG_X], 1e3 * row->change[PARE_CG_Y],
                                     1e3 * row->change[PARE_CG_Z]};
            status = add_promised(j, "cg_mm", 3, at_mm, made, &n);
            continue;
        }
        status = add_promised(j, pare_figure_table[f].key, 1, &change, made, &n);
        if (f == PARE_ALL_UP && status == PARE_OK) {
            const double u_g = 1e3 * row->grams_u_kg;
            status = add_promised(j, "all_up_g_u", 1, &u_g, made, &n);
        }
    }
    taken->promises = n;
    taken->promise = made;
    return status;
}

/* It must change something, rest on real parts, and leave alone what others wait to change. */
static pare_status check_new(const job *j, const pare_swap_name *name, const pare_desk *desk,
                             const pare_craft *changed, const pare_applied *applied)
{
    if (applied->sought)
        return pare_fail(j->err, PARE_BAD_DATA,
                         "swap '%s' rests on a part that is on no shelf: find one, put it on the "
                         "bench, and take that",
                         name->id);
    if (strcmp(applied->from, applied->to) == 0)
        return pare_fail(j->err, PARE_BAD_DATA, "swap '%s' changes nothing: it is %s already",
                         name->id, applied->to);
    for (size_t i = 0; i < j->taking->count; i++) {
        pare_swap_name waiting;
        if (pare_taken_is_on(&j->taking->taken[i]))
            continue;
        pare_status status = read_entry(j, i, &waiting);
        if (status != PARE_OK)
            return status;
        pare_error why = {0};
        status = pare_swap_clash(&waiting, name, desk->craft, changed, &why);
        if (status != PARE_OK)
            return pare_fail(j->err, status,
                             "%s; fit '%s' first, or take it off the list with --leave", why.text,
                             waiting.id);
    }
    return PARE_OK;
}

static pare_status fill_new(const job *j, const pare_swap_name *name, bool on, pare_taken *taken,
                            const pare_swap **row)
{
    pare_desk *desk = NULL;
    pare_swap *made = pare_arena_zeros(j->arena, sizeof *made);
    pare_trial *trial = pare_arena_zeros(j->arena, sizeof *trial);
    if (!made || !trial)
        return pare_no_memory(j->err);
    size_t failed = 0;
    pare_status status = on ? pare_taken_as_built(j->bench, j->work, j->then, &failed, j->err)
                            : pare_taken_as_planned(j->bench, j->work, j->then, &failed, j->err);
    if (status != PARE_OK)
        return goes_no_more(j, failed, "as things are");
    status = pare_desk_open(j->bench, j->then, j->then->loadouts ? 0 : -1, j->arena, &desk, j->err);
    if (status == PARE_OK)
        status = pare_row_fill(desk, name, trial, made, j->err);
    if (status == PARE_OK)
        status = check_new(j, name, desk, &trial->changed, &made->applied);
    if (status != PARE_OK)
        return status;
    taken->part = part_named(name, &trial->changed);
    *row = made;
    status = note_brought(j, desk->craft, &trial->changed, taken);
    return status == PARE_OK ? promise(j, made, taken) : status;
}

static pare_status take_new(const job *j, const pare_swap_name *name,
                            const char *const date[PARE_STAGES])
{
    pare_taking *taking = j->taking;
    pare_take_one *one = &taking->one[taking->ones];
    if (taking->count == PARE_TAKENS)
        return pare_fail(
            j->err, PARE_BAD_DATA,
            "%d swaps are taken on '%s', and there is no room for more; right would be "
            "to write what is on it into its items",
            PARE_TAKENS, j->first->name);
    pare_taken taken = {.swap = pare_arena_text(j->arena, name->id)};
    if (!taken.swap)
        return pare_no_memory(j->err);
    memcpy(taken.date, date, sizeof taken.date);
    pare_status status = pare_taken_check_days(&taken, j->err);
    if (status != PARE_OK)
        return pare_within(j->err, "swap '%s'", name->id);
    status = fill_new(j, name, pare_taken_is_on(&taken), &taken, &one->row);
    if (status != PARE_OK)
        return status;
    one->entry = taking->count;
    taking->taken[taking->count] = taken;
    taking->was[taking->count++] = -1;
    taking->ones++;
    if (pare_taken_is_on(&taken))
        move(taking, one->entry, first_waiting(taking, one->entry));
    return PARE_OK;
}

/* ---- moving on ---- */

/* What it brings is looked for once more, on the craft that it now meets. */
static pare_status put_on(const job *j, size_t index)
{
    pare_taking *taking = j->taking;
    pare_taken *taken = &taking->taken[index];
    pare_swap_name name;
    pare_applied applied;
    pare_basket basket = {0};
    pare_status status = read_entry(j, index, &name);
    if (status != PARE_OK)
        return status;
    pare_craft *after = malloc(sizeof *after);
    if (!after)
        return pare_no_memory(j->err);
    status = pare_taken_as_built(j->bench, j->work, j->then, NULL, j->err);
    if (status == PARE_OK)
        status = pare_swap_edit_alone(j->bench, j->then, &name, after, &applied, &basket, j->err);
    if (status == PARE_OK)
        status = note_brought(j, j->then, after, taken);
    free(after);
    if (status == PARE_OK)
        move(taking, index, first_waiting(taking, index));
    return status;
}

static pare_status no_stage(const job *j, const pare_taken *taken)
{
    const pare_stage reached = pare_taken_stage(taken);
    const char *day = taken->date[reached];
    if (reached == PARE_STAGE_FLOWN)
        return pare_fail(j->err, PARE_BAD_DATA, "swap '%s' is flown already, since %s", taken->swap,
                         day);
    return pare_fail(j->err, PARE_BAD_DATA,
                     "swap '%s' is %s already%s%s; --%s DATE moves it on, --leave takes it off "
                     "the list",
                     taken->swap, pare_stage_name(reached), day ? ", since " : "", day ? day : "",
                     pare_stage_name((pare_stage)(reached + 1)));
}

static pare_status move_on(const job *j, size_t index, const char *const date[PARE_STAGES],
                           bool only_chosen)
{
    pare_taken *taken = &j->taking->taken[index];
    const bool was_on = pare_taken_is_on(taken);
    if (only_chosen)
        return no_stage(j, taken);
    for (int s = 0; s < PARE_STAGES; s++)
        if (date[s])
            taken->date[s] = date[s];
    if (pare_taken_check_days(taken, j->err) != PARE_OK)
        return pare_within(j->err, "swap '%s'", taken->swap);
    pare_take_one *one = &j->taking->one[j->taking->ones++];
    *one = (pare_take_one){.entry = index};
    return pare_taken_is_on(taken) && !was_on ? put_on(j, index) : PARE_OK;
}

static pare_status clash(const job *j, const pare_swap_name *name, size_t index)
{
    const pare_taken *other = &j->taking->taken[index];
    return pare_fail(j->err, PARE_UNKNOWN,
                     "swap '%s' clashes with '%s', which is %s: both set '%s'; fit that first, or "
                     "take it off the list with --leave",
                     name->id, other->swap, pare_stage_name(pare_taken_stage(other)), name->left);
}

static pare_status take_one(const job *j, const pare_swap_name *name,
                            const char *const date[PARE_STAGES], bool only_chosen)
{
    int found = -1;
    bool same = false;
    pare_status status = find(j, name, &found, &same);
    if (status != PARE_OK)
        return status;
    if (found >= 0 && same)
        return move_on(j, (size_t)found, date, only_chosen);
    if (found >= 0 && !pare_taken_is_on(&j->taking->taken[found]))
        return clash(j, name, (size_t)found);
    return take_new(j, name, date);
}

/* ---- the whole ---- */

/* What is done is done: a fitted swap may spoil a plan, which the sheet then says, but never the craft.
 * @param plans  whether the rest must go on as well */
static pare_status check_list(const job *j, bool plans)
{
    size_t failed = 0;
    into_work(j);
    const pare_status status =
        plans ? pare_taken_as_planned(j->bench, j->work, j->then, &failed, j->err)
              : pare_taken_as_built(j->bench, j->work, j->then, &failed, j->err);
    return status == PARE_OK ? PARE_OK : goes_no_more(j, failed, "with that");
}

static pare_status job_open(job *j, const char *list)
{
    *j->taking = (pare_taking){.count = j->first->takens};
    memcpy(j->taking->taken, j->first->taken, j->first->takens * sizeof j->first->taken[0]);
    for (size_t i = 0; i < j->taking->count; i++)
        j->taking->was[i] = (int)i;
    j->units = pare_units_open();
    j->work = pare_arena_zeros(j->arena, sizeof *j->work);
    j->then = pare_arena_zeros(j->arena, sizeof *j->then);
    if (!j->units || !j->work || !j->then)
        return pare_no_memory(j->err);
    *j->work = *j->first;
    if (*list)
        return PARE_OK;
    return pare_fail(j->err, PARE_UNKNOWN,
                     "an empty list of swaps; right would be like bumper=off,skid=off");
}

/* Whether a name stands in the list twice, or there are more than can be taken. */
static pare_status check_asked(const job *j, size_t entry_of_one)
{
    for (size_t i = 0; i + 1 < j->taking->ones; i++)
        if (j->taking->one[i].entry == entry_of_one)
            return pare_fail(j->err, PARE_UNKNOWN, "swap '%s' stands in the list twice",
                             j->taking->taken[entry_of_one].swap);
    return PARE_OK;
}

pare_status pare_take(const pare_bench *bench, const pare_craft *craft, const char *list,
                      const char *const date[PARE_STAGES], pare_arena *arena, pare_taking *taking,
                      pare_error *err)
{
    pare_error unheard = {0};
    err = err ? err : &unheard;
    job j = {.bench = bench, .first = craft, .arena = arena, .taking = taking, .err = err};
    bool only_chosen = date[PARE_STAGE_CHOSEN] != NULL;
    for (int s = PARE_STAGE_ORDERED; s < PARE_STAGES; s++)
        only_chosen = only_chosen && !date[s];
    pare_status status = job_open(&j, list);
    while (status == PARE_OK && list) {
        pare_swap_name name;
        if (taking->ones == PARE_TAKENS)
            status = pare_fail(err, PARE_BAD_DATA, "more than %d swaps at once", PARE_TAKENS);
        if (status == PARE_OK)
            status = pare_swap_name_next(j.units, &list, &name, err);
        if (status == PARE_OK)
            status = take_one(&j, &name, date, only_chosen);
        if (status == PARE_OK)
            status = check_asked(&j, taking->one[taking->ones - 1].entry);
        into_work(&j);
    }
    if (status == PARE_OK)
        status = check_list(&j, false);
    pare_units_close(j.units);
    return status;
}

/* ---- leaving ---- */

/* What stood there before it was fitted, as a swap: "bumper=bu-thick"; "" where that has no name. */
static void way_back(const job *j, size_t index, const pare_swap_name *name, char back[WAY_BACK])
{
    pare_craft *after = malloc(sizeof *after);
    pare_applied applied;
    pare_basket basket = {0};
    back[0] = '\0';
    if (!after)
        return;
    *j->work = *j->first;
    j->work->takens = index;
    if ((name->what == PARE_WHAT_ITEM || name->what == PARE_WHAT_JOINT_MATERIAL) &&
        pare_taken_as_built(j->bench, j->work, j->then, NULL, NULL) == PARE_OK &&
        pare_swap_edit_alone(j->bench, j->then, name, after, &applied, &basket, NULL) == PARE_OK)
        snprintf(back, WAY_BACK, "%s=%s", name->left, applied.from);
    free(after);
}

static pare_status not_taken(const job *j, const pare_swap_name *name)
{
    const char *waiting[PARE_TAKENS];
    size_t count = 0;
    for (size_t i = 0; i < j->taking->count; i++)
        if (!pare_taken_is_on(&j->taking->taken[i]))
            waiting[count++] = j->taking->taken[i].swap;
    const char *near = pare_nearest(name->id, count, waiting);
    if (near)
        return pare_fail(j->err, PARE_UNKNOWN, "swap '%s' is not taken; did you mean '%s'?",
                         name->id, near);
    return pare_fail(j->err, PARE_UNKNOWN, "swap '%s' is not taken; pare take %s lists what is",
                     name->id, j->first->name);
}

static pare_status leave_one(const job *j, const pare_swap_name *name)
{
    int found = -1;
    bool same = false;
    pare_status status = find(j, name, &found, &same);
    if (status != PARE_OK)
        return status;
    if (found < 0 || !same)
        return not_taken(j, name);
    const pare_taken *taken = &j->taking->taken[found];
    if (pare_taken_is_on(taken)) {
        char back[WAY_BACK];
        way_back(j, (size_t)found, name, back);
        return pare_fail(
            j->err, PARE_BAD_DATA,
            "swap '%s' is on the craft; right would be to take another in its place%s%s",
            taken->swap, back[0] ? ", " : "", back);
    }
    j->taking->one[j->taking->ones++] = (pare_take_one){.entry = (size_t)j->taking->was[found]};
    remove_entry(j->taking, (size_t)found);
    return PARE_OK;
}

pare_status pare_take_leave(const pare_bench *bench, const pare_craft *craft, const char *list,
                            pare_arena *arena, pare_taking *taking, pare_error *err)
{
    pare_error unheard = {0};
    err = err ? err : &unheard;
    job j = {.bench = bench, .first = craft, .arena = arena, .taking = taking, .err = err};
    pare_status status = job_open(&j, list);
    while (status == PARE_OK && list) {
        pare_swap_name name;
        status = pare_swap_name_next(j.units, &list, &name, err);
        if (status == PARE_OK)
            status = leave_one(&j, &name);
    }
    if (status == PARE_OK) {
        *j.work = *craft;
        status = check_list(&j, true);
    }
    pare_units_close(j.units);
    return status;
}

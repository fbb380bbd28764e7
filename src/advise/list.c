/* list.c: every single swap of a craft, and what swaps save together (see swap.h).
 *
 * Names are gathered first. Then each is tried by itself, on threads where there are enough of them:
 * a trial reads the desk, writes its own room and its own place in the list, and knows of no other, so
 * that the list is the same on any number of threads, to the last bit. A sought part asks what was
 * found on the bench and is made in the bench's arena, so those are tried behind all others, by one
 * thread. A name that does not fit makes no row.
 *
 * Most of a row's time is flight. So the trial is given up as soon as it is known to be of no use: when
 * it does not fit, when a kept job is lost, and, where it is no lighter, when the figures that could
 * still speak for it do not. The sums alone fly no single swap at all. */
#include <stdlib.h>
#include <string.h>

#include "advise/bands.h"
#include "advise/candidates.h"
#include "advise/judge.h"
#include "advise/rank.h"
#include "advise/row.h"
#include "advise/threads.h"
#include "base/plain_locale.h"
#include "base/text.h"

/* One name and what came of it. */
typedef struct tried {
    const char *text;
    const pare_part *part; /* that it puts in, or NULL */
    pare_swap_name name;
    pare_status status;
    pare_swap *row; /* NULL: none */
    bool counts;    /* in the bands */
    pare_saving saving;
} tried;

enum {
    FIRST_ROOM = 256, /* for names */
    AT_A_TIME = 8,    /* names that a thread takes at once */
    WORTH_A_THREAD =
        256 /* names, some 20 us each: a thread that waits for a busy machine costs more
                            than fewer would save */
};

typedef struct listing {
    const pare_desk *desk;
    pare_arena *arena;
    bool sums_only; /* nothing is flown, and no rows are made */
    size_t names, room;
    tried *name;
    pare_swap *row; /* [room], that of name[i] at i; what is never written takes no memory. Not the
                       arena's, which would fill it with zeros */
    bool failed;    /* out of memory, while names were gathered */
} listing;

/* ---- names ---- */

static bool note_one(void *context, const char *text, const pare_part *part)
{
    listing *list = context;
    if (list->names == list->room) {
        const size_t room = list->room ? 2 * list->room : FIRST_ROOM;
        tried *more = realloc(list->name, room * sizeof *more);
        if (!more)
            return false;
        list->name = more;
        list->room = room;
    }
    tried *next = &list->name[list->names];
    *next = (tried){.text = pare_arena_text(list->arena, text), .part = part};
    if (!next->text)
        return false;
    list->names++;
    return true;
}

static pare_status gather_names(listing *list, pare_error *err)
{
    const pare_desk *desk = list->desk;
    if (!pare_candidates(&desk->shelf, desk->craft, &desk->loaded, note_one, list))
        return pare_no_memory(err);
    if (list->sums_only)
        return PARE_OK;
    list->row = malloc((list->names + 1) * sizeof list->row[0]);
    return list->row ? PARE_OK : pare_no_memory(err);
}

/* ---- trials ---- */

#define FIGURE(which) ((pare_figures)1 << (which))

/* What may speak for a swap that is no lighter; does_some_good() reads these. */
#define GOOD                                                                                       \
    (FIGURE(PARE_FLOWN_TIME) | FIGURE(PARE_TWR_HALF) | FIGURE(PARE_ROLL) | FIGURE(PARE_PITCH) |    \
     FIGURE(PARE_CRASH))

/* Whether a row is better than nothing for any wish. */
static bool does_some_good(const pare_swap *row)
{
    return row->grams_kg > 0 || row->change[PARE_FLOWN_TIME] > 0 ||
           row->change[PARE_TWR_HALF] > 0 || row->change[PARE_ROLL] + row->change[PARE_PITCH] > 0 ||
           row->change[PARE_CRASH] < 0;
}

/* Flies and judges a weighed row as far as needed; whether it belongs into the list. */
static bool finish(const listing *list, pare_trial *trial, pare_swap *row)
{
    pare_row_fly(list->desk, row->grams_kg > 0 ? PARE_EVERY_FIGURE : GOOD, trial, row);
    const bool good = does_some_good(row);
    if (!good && !pare_trial_may_loosen(list->desk, trial))
        return false;
    pare_row_judge(list->desk, trial, row);
    if (!good && row->loosens == 0)
        return false;
    pare_row_fly(list->desk, PARE_EVERY_FIGURE, trial, row);
    return true;
}

/* What one thread works with. */
typedef struct worker {
    pare_units *units;
    pare_trial *trial;
    pare_swap *row; /* until it is known to be listed */
} worker;

static void try_row(const listing *list, const worker *w, size_t i)
{
    tried *t = &list->name[i];
    /* Why one does not fit is not asked: making the words would take longer than finding out. */
    t->status = pare_row_begin(list->desk, &t->name, w->trial, w->row, NULL);
    if (t->status != PARE_OK || pare_kept_jobs_lost(list->desk->craft, &w->row->applied) != 0)
        return;
    t->status = pare_row_weigh(list->desk, w->trial, w->row, NULL);
    if (t->status != PARE_OK)
        return;
    t->counts = pare_counts(list->desk->craft, w->row);
    t->saving = (pare_saving){.name = &t->name,
                              .grams_kg = w->row->grams_kg,
                              .money = w->row->applied.money,
                              .band = w->row->band};
    if (list->sums_only || !finish(list, w->trial, w->row))
        return;
    t->row = &list->row[i];
    *t->row = *w->row;
}

/* Whether a part of the bench for the same item is among the rows, lighter, and fit to be flown. */
static bool bench_is_lighter(const listing *list, const pare_swap_name *name)
{
    for (size_t i = 0; i < list->names; i++) {
        const pare_swap *row = list->name[i].row;
        if (row && pare_same_name(list->name[i].name.left, name->left) &&
            strcmp(row->applied.to, "off") != 0 && row->grams_kg > 0 && row->breaks == 0 &&
            !row->applied.open_question)
            return true;
    }
    return false;
}

static void try_bench(const listing *list, const worker *w, size_t i)
{
    tried *t = &list->name[i];
    if (!w->units || !w->trial || !w->row)
        t->status = PARE_UNAVAILABLE;
    else
        t->status = pare_swap_name_read(w->units, t->text, &t->name, NULL);
    t->name.part = t->part;
    if (t->status == PARE_OK && !t->name.sought)
        try_row(list, w, i);
}

static void try_sought(const listing *list, const worker *w)
{
    for (size_t i = 0; !list->sums_only && i < list->names; i++) {
        const tried *t = &list->name[i];
        if (t->status == PARE_OK && t->name.sought && !bench_is_lighter(list, &t->name))
            try_row(list, w, i);
    }
}

static void try_all(const listing *list)
{
#ifdef _OPENMP
#pragma omp parallel num_threads(pare_threads(list->names, WORTH_A_THREAD))
#endif
    {
        const locale_t before = pare_plain_locale_enter();
        const worker w = {pare_units_open(), malloc(sizeof *w.trial), malloc(sizeof *w.row)};
#ifdef _OPENMP
#pragma omp for schedule(dynamic, AT_A_TIME)
#endif
        for (size_t i = 0; i < list->names; i++)
            try_bench(list, &w, i);
#ifdef _OPENMP
#pragma omp single
#endif
        if (w.units && w.trial && w.row)
            try_sought(list, &w);
        free(w.row);
        free(w.trial);
        pare_units_close(w.units);
        pare_plain_locale_leave(before);
    }
}

/* ---- the list, and the sums ---- */

static pare_status put_list(listing *list, pare_wish wish, pare_swaps *swaps, pare_error *err)
{
    const pare_swap **rows = pare_arena_array(list->arena, list->names + 1, sizeof rows[0]);
    size_t *from = pare_arena_array(list->arena, list->names + 1, sizeof from[0]);
    if (!rows || !from)
        return pare_no_memory(err);
    for (size_t i = 0; i < list->names; i++)
        if (list->name[i].row) {
            from[swaps->count] = i;
            rows[swaps->count++] = list->name[i].row;
        }
    const size_t *order;
    const pare_status status = pare_rank(list->arena, wish, swaps->count, rows, &order, err);
    if (status != PARE_OK)
        return status;
    swaps->swap = pare_arena_array(list->arena, swaps->count + 1, sizeof swaps->swap[0]);
    if (!swaps->swap)
        return pare_no_memory(err);
    for (size_t k = 0; k < swaps->count; k++) {
        swaps->swap[k] = *rows[order[k]];
        list->name[from[order[k]]].saving.index = k;
    }
    return PARE_OK;
}

static pare_status put_bands(const listing *list, pare_swaps *swaps, pare_error *err)
{
    size_t count = 0;
    pare_saving *savings = pare_arena_array(list->arena, list->names + 1, sizeof savings[0]);
    if (!savings)
        return pare_no_memory(err);
    for (size_t i = 0; i < list->names; i++)
        if (list->name[i].counts)
            savings[count++] = list->name[i].saving;
    return pare_bands_fill(list->desk, count, savings, list->arena, swaps, err);
}

static pare_status try_swaps(const pare_bench *bench, const pare_craft *craft, int loadout,
                             listing *list, pare_error *err)
{
    pare_desk *desk;
    pare_status status = pare_desk_open(bench, craft, loadout, list->arena, &desk, err);
    if (status != PARE_OK)
        return status;
    list->desk = desk;
    status = gather_names(list, err);
    if (status != PARE_OK)
        return status;
    try_all(list);
    for (size_t i = 0; i < list->names; i++)
        if (list->name[i].status == PARE_UNAVAILABLE)
            return pare_no_memory(err);
    return PARE_OK;
}

static void put_away(const listing *list)
{
    free(list->row);
    free(list->name);
}

pare_status pare_swaps_find(const pare_bench *bench, const pare_craft *craft, int loadout,
                            pare_wish wish, pare_arena *arena, pare_swaps *swaps, pare_error *err)
{
    *swaps = (pare_swaps){0};
    listing list = {.arena = arena};
    pare_status status = try_swaps(bench, craft, loadout, &list, err);
    if (status == PARE_OK)
        status = put_list(&list, wish, swaps, err);
    if (status == PARE_OK)
        status = put_bands(&list, swaps, err);
    put_away(&list);
    return status;
}

pare_status pare_swaps_sum(const pare_bench *bench, const pare_craft *craft, int loadout,
                           pare_arena *arena, pare_swaps *swaps, pare_error *err)
{
    *swaps = (pare_swaps){0};
    listing list = {.arena = arena, .sums_only = true};
    pare_status status = try_swaps(bench, craft, loadout, &list, err);
    if (status == PARE_OK)
        status = put_bands(&list, swaps, err);
    swaps->free_count = 0; /* they stand in no list */
    put_away(&list);
    return status;
}

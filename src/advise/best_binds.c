/* best_binds.c: what keeps the best set from being lighter by one swap more (see best.h).
 *
 * A search with good bounds refuses little: most of what is heavier is never put together. So each part that would
 * make the best set lighter is tried on it, and what refuses it decides. */
#include "advise/best_inside.h"

typedef struct asking {
    best_worker *worker;
    const best_state *best;
    best_state *with;
    pare_best *answer;
} asking;

static bool ask_name(void *context, const char *text, const pare_part *part)
{
    asking *a = context;
    const best_search *search = a->worker->search;
    pare_swap_name name;
    char by[48];
    if (pare_swap_name_read(a->worker->reader, text, &name, NULL) != PARE_OK ||
        name.what != PARE_WHAT_ITEM || (part && part->sought))
        return true;
    name.part = part;
    if (!best_state_edit(search, a->best, &name, a->with) || !best_state_weigh(search, a->with) ||
        a->with->units >= a->best->units)
        return true;
    pare_sheet_judge(a->with->trial.flown, &a->with->trial.sheet);
    if (!pare_best_meets(search->ask, search->desk->craft, &search->desk->sheet,
                         &a->with->trial.sheet, by))
        best_count(&a->answer->binds, a->answer->bind, by, 1);
    return true;
}

void best_binds_find(best_worker *worker, const best_set *best, pare_best *answer)
{
    best_state *now = worker->state, *next = worker->state + 1;
    best_state_copy(worker->search, worker->first, now);
    for (size_t i = 0; i < best->swaps; i++) {
        if (!best_state_edit(worker->search, now, &best->swap[i], next))
            return;
        best_state *spare = now;
        now = next;
        next = spare;
    }
    if (!best_state_weigh(worker->search, now))
        return;
    asking a = {worker, now, next, answer};
    (void)pare_candidates(&worker->search->desk->shelf, &now->trial.changed, now->trial.flown,
                          ask_name, &a);
}

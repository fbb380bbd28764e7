/* best.c: the lightest set of swaps, for who calls from C (see pare/best.h). */
#include <pare/best.h>

#include <math.h>

#include "advise/best.h"
#include "base/plain_locale.h"
#include "lib/inside.h"
#include "lib/named.h"

struct pare_best_set {
    pare_arena *arena; /* of the set itself, too */
    pare_best best;
    pare_best_facts facts;
    pare_best_step *step; /* [best.swaps] */
};

/* The caller's question, in the manner of a progress. */
typedef struct asking {
    pare_go_on go_on;
    void *context;
} asking;

static bool may_go_on(void *context, const char *doing, size_t done, size_t all)
{
    const asking *ask = context;
    (void)doing;
    (void)done;
    (void)all;
    return ask->go_on(ask->context) != 0;
}

static double grams(int64_t mass_100ug)
{
    return mass_100ug == INT64_MAX ? (double)NAN : pare_best_grams(mass_100ug);
}

static pare_best_step step_of(const pare_best_swap *from)
{
    const pare_applied *a = &from->applied;
    return (pare_best_step){.id = a->id,
                            .from = a->from,
                            .to = a->to,
                            .grams = pare_best_grams(from->saved_100ug),
                            .money = a->priced ? a->money : (double)NAN,
                            .work_min = a->work_min};
}

/* "bumper=off,motor=mo-b", as --try takes it. */
static pare_status join(pare_best_set *set, pare_error *err)
{
    pare_text list = {0};
    pare_text_add(&list, "");
    for (size_t i = 0; i < set->best.swaps; i++)
        pare_text_printf(&list, "%s%s", i ? "," : "", set->step[i].id);
    set->facts.swaps = list.failed ? NULL : pare_arena_text(set->arena, list.bytes);
    pare_text_free(&list);
    return set->facts.swaps ? PARE_OK : pare_no_memory(err);
}

static pare_status fill(pare_best_set *set, pare_error *err)
{
    const pare_best *best = &set->best;
    set->facts = (pare_best_facts){
        .found = best->found,
        .proven = best->proven,
        .stopped = best->stopped,
        .before_g = grams(best->was_100ug),
        .after_g = best->found ? grams(best->best_100ug) : (double)NAN,
        .bound_g = grams(best->bound_100ug),
        .money = best->found && best->priced ? best->money : (double)NAN,
        .work_min = best->found ? best->work->minutes : (double)NAN,
    };
    set->step = pare_arena_array(set->arena, best->swaps + 1, sizeof set->step[0]);
    if (!set->step)
        return pare_no_memory(err);
    for (size_t i = 0; i < best->swaps; i++)
        set->step[i] = step_of(&best->swap[i]);
    return best->found ? join(set, err) : PARE_OK;
}

static pare_status find(const pare_snapshot *snapshot, const char *name, const char *loadout,
                        const pare_progress *progress, pare_best_set *set, pare_error *err)
{
    const pare_bench bench = pare_snapshot_bench(snapshot, set->arena);
    const pare_craft *craft = NULL;
    pare_best_ask ask = {.loadout = -1, .progress = progress};
    pare_status status = pare_built_craft(&snapshot->built, name, &craft, err);
    if (status == PARE_OK)
        status = pare_loadout_named(craft, loadout, &ask.loadout, err);
    if (status == PARE_OK)
        status = pare_best_find(&bench, craft, &ask, set->arena, &set->best, err);
    return status == PARE_OK ? fill(set, err) : status;
}

pare_status pare_best_set_find(const pare_snapshot *snapshot, const char *craft,
                               const char *loadout, pare_go_on go_on, void *context,
                               pare_best_set **set, pare_error *err)
{
    const locale_t before = pare_plain_locale_enter();
    asking ask = {go_on, context};
    const pare_progress progress = {.step = may_go_on, .context = &ask};
    pare_arena *arena = pare_arena_open();
    pare_best_set *made = arena ? pare_arena_zeros(arena, sizeof *made) : NULL;
    pare_status status = made ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        made->arena = arena;
        status = find(snapshot, craft, loadout, go_on ? &progress : NULL, made, err);
    }
    *set = status == PARE_OK ? made : NULL;
    if (status != PARE_OK)
        pare_arena_close(arena);
    pare_plain_locale_leave(before);
    return status;
}

void pare_best_set_close(pare_best_set *set)
{
    if (set)
        pare_arena_close(set->arena);
}

const pare_best_facts *pare_best_set_facts(const pare_best_set *set)
{
    return &set->facts;
}

const pare_best_step *pare_best_set_step(const pare_best_set *set, size_t index)
{
    return index < set->best.swaps ? &set->step[index] : NULL;
}

const char *pare_best_set_bind(const pare_best_set *set, size_t index)
{
    return index < set->best.binds ? set->best.bind[index].name : NULL;
}

/* best_rung.c: bands of masses in which whole sets have rung, kept for others with the same tips.
 *
 * How fast rotors turn follows from the mass and from drag, and an arm's band from what swings at its tip: a group's
 * sets that have those in common ring at the same masses, whatever else is on them. So one that has rung tells of
 * all others, also of those that other choices lead to. */
#include <stdlib.h>
#include <string.h>

#include "advise/best_inside.h"
#include "craft/arm_facts.h"

enum { KEPT = 64 };

typedef struct rung {
    best_tips tips;
    best_band band;
} rung;

struct best_rungs {
    size_t count, next;
    rung of[KEPT];
};

best_rungs *best_rungs_room(void)
{
    return calloc(1, sizeof(best_rungs));
}

bool best_tips_of(const best_worker *worker, const best_state *state, best_tips *tips)
{
    pare_arm_facts arm;
    *tips = (best_tips){0};
    if (!worker->group || !pare_craft_arm_facts(state->trial.flown, &state->trial.sheet, &arm))
        return false;
    memcpy(tips->option, worker->group->option, sizeof tips->option);
    tips->low_hz = arm.low_hz;
    tips->high_hz = arm.high_hz;
    tips->tip_kg = arm.tip_kg;
    tips->drag_m2 = state->trial.sheet.rig.drag_m2;
    return true;
}

best_band best_band_join(best_band a, best_band b)
{
    if (a.until < b.from || b.until < a.from)
        return b;
    return (best_band){a.from < b.from ? a.from : b.from, a.until > b.until ? a.until : b.until};
}

static bool are_same(const best_tips *a, const best_tips *b)
{
    return memcmp(a->option, b->option, sizeof a->option) == 0 && a->low_hz == b->low_hz &&
           a->high_hz == b->high_hz && a->tip_kg == b->tip_kg && a->drag_m2 == b->drag_m2 &&
           memcmp(a->units, b->units, sizeof a->units) == 0;
}

static rung *find(best_rungs *rungs, const best_tips *tips)
{
    for (size_t i = 0; i < rungs->count; i++)
        if (are_same(&rungs->of[i].tips, tips))
            return &rungs->of[i];
    return NULL;
}

void best_rung_keep(best_rungs *rungs, const best_tips *tips, best_band band)
{
    rung *known = find(rungs, tips);
    if (known) {
        known->band = best_band_join(known->band, band);
        return;
    }
    rung *to = &rungs->of[rungs->next];
    *to = (rung){*tips, band};
    rungs->next = (rungs->next + 1) % KEPT;
    rungs->count += rungs->count < KEPT;
}

best_band best_rung_of(best_rungs *rungs, const best_tips *tips)
{
    const rung *known = find(rungs, tips);
    return known ? known->band : (best_band){0, 0};
}

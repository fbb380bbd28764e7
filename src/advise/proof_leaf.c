/* proof_leaf.c: what a line of a certificate says of a node, worked out anew (see proof.h). */
#include <stdio.h>
#include <string.h>

#include "advise/proof_inside.h"
#include "base/text.h"

const char *proof_loose(const proof_space *space, proof_room *room, const proof_state *state,
                        const char *only)
{
    const pare_craft *craft = state->trial.flown;
    proof_lightest(space, state, &room->lightest);
    for (size_t i = 0; i < craft->joints; i++) {
        if ((only && !pare_same_name(only, craft->joint[i].name)) ||
            !proof_joint_sure(space, state, i))
            continue;
        const size_t ways = proof_joint_ways(space, state, i);
        bool may = false;
        for (size_t k = 0; !may && k < ways; k++) {
            proof_way way;
            proof_joint_way(space, state, i, k, &way);
            may = !proof_screws_fail(space, room, state, &way.joint, proof_wired(space, state));
        }
        if (!may)
            return craft->joint[i].name;
    }
    return NULL;
}

/* Only what nothing brings along: with all items decided nothing comes any more. */
static bool may_come(const proof_space *space, const proof_state *state, const pare_part *part)
{
    const bool comes_alone = part->kind == PARE_FRAME || part->kind == PARE_MOTOR ||
                             part->kind == PARE_PROPELLER || part->kind == PARE_PACK;
    if (!comes_alone && !proof_items_done(state))
        return true;
    const pare_craft *craft = state->trial.flown;
    for (size_t i = 0; i < craft->items; i++) {
        const unsigned char c = space->choice_of[i];
        const bool open = c != PROOF_NONE && proof_open(state, c);
        if (!open && !craft->item[i].off && craft->item[i].part == part)
            return true;
        for (size_t k = 0; open && k < space->choice[c].options; k++)
            if (proof_allowed(space, state, c, k) && space->choice[c].option[k].part == part)
                return true;
    }
    return false;
}

const char *proof_lacks(const proof_space *space, const proof_state *state, const char *only)
{
    for (size_t m = 0; m < space->claim->musts; m++) {
        const char *id = space->claim->must[m];
        const pare_part *part = pare_bench_part(space->bench, id);
        if ((!only || pare_same_name(only, id)) && part && !may_come(space, state, part))
            return id;
    }
    return NULL;
}

int64_t proof_rest(const proof_space *space, proof_state *state, size_t from)
{
    int64_t least = PROOF_NEVER;
    for (size_t i = from; i < space->choice[state->at].options; i++) {
        if (!proof_allowed(space, state, state->at, i))
            continue;
        const int64_t bound = proof_bound_with(space, state, state->at, i);
        least = bound < least ? bound : least;
    }
    return least;
}

void proof_part(const proof_space *space, const proof_state *from, size_t choice, bool plain,
                proof_state *to)
{
    proof_copy(space, from, to);
    to->allow[choice] = plain ? PROOF_PLAIN : PROOF_OTHER;
    proof_bound(space, to);
}

bool proof_judge(const proof_space *space, proof_state *state, const char **by, double *ratio)
{
    *ratio = 0;
    *by = "parts";
    if (!proof_has_its_parts(space, state->trial.flown))
        return false;
    pare_sheet_judge(state->trial.flown, &state->trial.sheet);
    return proof_does_its_job(space, &state->trial.sheet, by, ratio);
}

bool proof_claimed(const proof_space *space, proof_room *room, char why[256])
{
    const pare_proof_claim *claim = space->claim;
    proof_state *now = proof_room_at(room, 0), *next = proof_room_at(room, 1);
    pare_error err = {0};
    const char *by;
    double ratio;
    why[0] = '\0';
    if (!claim->found)
        return true;
    if (proof_first(space, now, &err) != PARE_OK) {
        snprintf(why, 256, "the craft cannot be weighed");
        return false;
    }
    for (size_t i = 0; i < claim->swaps; i++) {
        pare_swap_name name;
        if (pare_swap_name_read(room->reader, claim->swap[i], &name, &err) != PARE_OK ||
            proof_held(space, name.left) || !proof_edit(space, room, now, &name, next)) {
            snprintf(why, 256, "swap '%.120s' of the set does not go on", claim->swap[i]);
            return false;
        }
        proof_state *other = now;
        now = next;
        next = other;
    }
    if (now->units != claim->best_100ug) {
        snprintf(why, 256, "the set weighs %.4f g, not %.4f g", 1e-4 * (double)now->units,
                 1e-4 * (double)claim->best_100ug);
        return false;
    }
    if (!proof_judge(space, now, &by, &ratio)) {
        snprintf(why, 256, "the set does not do what it must: %.60s (%.6g of what is needed)", by,
                 ratio);
        return false;
    }
    return true;
}

/* best_proof.c: `pare best CRAFT --proof FILE` (see best_proof.h).
 *
 * The certificate is written after the search, with its answer in hand. One that is stopped is kept all the
 * same: it says which leaves are open. */
#include "cli/best_proof.h"

#include <math.h>
#include <string.h>

#include "cli/timed.h"
#include "store/lines.h"

pare_status best_proof_check(const options *given, int wish, const pare_best_ask *ask,
                             pare_error *err)
{
    if ((given->given & OPTION_PROOF) == 0)
        return PARE_OK;
    if (given->given & (OPTION_FRONT | OPTION_WALK))
        return pare_fail(err, PARE_BAD_DATA,
                         "--proof is of one best set: it goes with neither --front nor --walk");
    if (wish != PARE_WISH_GRAMS || ask->every || given->given & OPTION_HOURS)
        return pare_fail(err, PARE_BAD_DATA,
                         "--proof is of the lightest set in one loadout: it goes with no other "
                         "--wish, no --hours and not with --loadout all");
    return PARE_OK;
}

static bool put_line(void *context, const char *line)
{
    return pare_lines_put(context, line);
}

pare_status best_proof_write(const options *given, const bench_in_use *use, const pare_craft *craft,
                             const pare_best_ask *ask, const pare_best *best, double left_s,
                             best_proof *proof, pare_error *err)
{
    const char *names[PARE_BEST_SWAPS];
    pare_lines_out *lines = NULL;
    if ((given->given & OPTION_PROOF) == 0 || (!best->found && !best->proven))
        return PARE_OK;
    for (size_t i = 0; i < best->swaps; i++)
        names[i] = best->swap[i].applied.id;
    pare_proof_claim claim = {.loadout = ask->loadout,
                              .holds = ask->holds,
                              .nevers = ask->nevers,
                              .musts = ask->musts,
                              .hold = ask->hold,
                              .never = ask->never,
                              .must = ask->must,
                              .found = best->found,
                              .best_100ug = best->best_100ug,
                              .swaps = best->swaps,
                              .swap = names};
    timed t = timed_start(given->progress, left_s);
    const pare_progress progress = timed_progress(&t);
    pare_status status = pare_store_certified(use->store, craft->name, &claim.bench, err);
    if (status == PARE_OK)
        status = pare_lines_begin(given->proof, &lines, err);
    if (status != PARE_OK)
        return status;
    const pare_proof_sink sink = {put_line, lines};
    status = pare_proof_write(use->bench, craft, &claim, &progress, &sink, &proof->told, err);
    if (status == PARE_OK || status == PARE_UNAVAILABLE) {
        const pare_status kept = pare_lines_keep(lines, status == PARE_OK ? err : NULL);
        status = status == PARE_OK ? kept : status;
    } else {
        pare_lines_drop(lines);
    }
    proof->written = status == PARE_OK;
    return status;
}

void best_proof_text(const options *given, const best_proof *proof, pare_text *out)
{
    if ((given->given & OPTION_PROOF) == 0)
        return;
    if (!proof->written) {
        pare_text_printf(out, "%s not written: there is nothing to certify.\n", given->proof);
        return;
    }
    if (proof->told.refusal[0])
        pare_text_printf(out, "NOT CERTIFIED: %s\n", proof->told.refusal);
    else if (proof->told.open > 0)
        pare_text_printf(out, "%s written: %zu lines, %zu leaves not verified: no proof yet.\n",
                         given->proof, proof->told.lines, proof->told.open);
    else
        pare_text_printf(out, "%s written: %zu lines, every leaf refuted; pare check-proof %s\n",
                         given->proof, proof->told.lines, given->proof);
}

void best_proof_put(const options *given, const best_proof *proof, json_t *answer)
{
    if ((given->given & OPTION_PROOF) == 0)
        return;
    json_t *told = json_object();
    json_object_set_new(told, "file", json_string(given->proof));
    json_object_set_new(told, "written", json_boolean(proof->written));
    json_object_set_new(told, "closes", json_boolean(proof->told.verified));
    json_object_set_new(told, "lines", json_integer((json_int_t)proof->told.lines));
    json_object_set_new(told, "leaves", json_integer((json_int_t)proof->told.leaves));
    json_object_set_new(told, "open", json_integer((json_int_t)proof->told.open));
    if (proof->told.refusal[0])
        json_object_set_new(told, "refusal", json_string(proof->told.refusal));
    json_object_set_new(answer, "proof", told);
}

pare_status best_proof_status(const best_proof *proof)
{
    return proof->told.refusal[0] ? PARE_NO : PARE_OK;
}

/* best.c: `pare best`: the lightest set of swaps that the brief allows, proven.
 *
 * It may be told to stop, by Ctrl-C or after a time; then the best so far is the answer, with how far off
 * it may be. So a stop is no failure here, unlike in what changes a bench. */
#include "show/best.h"

#include <math.h>

#include "cli/best_front.h"
#include "cli/best_limits.h"
#include "cli/best_proof.h"
#include "cli/best_walk.h"
#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/timed.h"
#include "cli/use.h"

#define LONGEST_S 1e6

static pare_status read_time(const options *given, double *seconds, pare_error *err)
{
    *seconds = INFINITY;
    if ((given->given & OPTION_TIME) == 0)
        return PARE_OK;
    if (!timed_read(given->time, LONGEST_S, seconds))
        return pare_fail(err, PARE_BAD_DATA, "--time '%s': a number of seconds is due, 0 to %g",
                         given->time, LONGEST_S);
    return PARE_OK;
}

/* Other wishes are for the list of swaps. */
static pare_status read_wish(const options *given, pare_error *err)
{
    if ((given->given & OPTION_WISH) == 0 || pare_same_name(given->wish, "grams"))
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "no wish '%s' for a best set; there is grams",
                     given->wish);
}

static void show(const options *given, const pare_best_view *view, const best_proof *proof,
                 pare_text *out)
{
    const pare_screen screen = terminal_screen();
    if (given->given & OPTION_JSON) {
        json_t *object = pare_best_object(view);
        best_proof_put(given, proof, object);
        pare_json_write(object, out);
    } else {
        pare_best_text(view, &screen, out);
        best_proof_text(given, proof, out);
    }
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_best best = {0};
    best_limits limits = {0};
    best_proof proof = {0};
    const pare_craft *craft = NULL;
    pare_best_ask ask = {.loadout = -1,
                         .holds = given->holds,
                         .nevers = given->nevers,
                         .musts = given->musts,
                         .hold = given->hold,
                         .never = given->never,
                         .must = given->must};
    double most_s = INFINITY, seconds = 0;
    timed t = {.under = NULL};
    const pare_progress progress = timed_progress(&t);
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("best", given, 1, 1, "one craft", err);
    if (status == PARE_OK)
        status = read_wish(given, err);
    if (status == PARE_OK)
        status = read_time(given, &most_s, err);
    if (status == PARE_OK && given->given & OPTION_FRONT)
        status = best_front_check(given, err);
    else if (status == PARE_OK && given->given & OPTION_OUTPUT)
        status = pare_fail(err, PARE_BAD_DATA, "-o goes with --front: a picture of a front");
    if (status == PARE_OK)
        status = best_walk_check(given, err);
    if (status == PARE_OK)
        status = best_proof_check(given, err);
    if (status == PARE_OK)
        status = bench_use(given, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, given->operand[0], &craft, err);
    if (status == PARE_OK)
        status = craft_loadout(craft, given->loadout, &ask.loadout, err);
    if (status == PARE_OK) {
        ask.progress = &progress;
        t = timed_start(given->progress, most_s);
        long_work_catch();
    }
    if (status == PARE_OK && given->given & OPTION_FRONT) {
        status = best_front(given, use.bench, craft, &ask, arena, out, err);
    } else if (status == PARE_OK && given->given & OPTION_WALK) {
        status = best_walk(given, use.bench, craft, &ask, arena, out, err);
    } else if (status == PARE_OK) {
        status = pare_best_find(use.bench, craft, &ask, arena, &best, err);
        seconds = timed_s(&t);
        if (status == PARE_OK)
            status = best_limits_ask(given, use.bench, craft, &ask, &best, most_s - seconds,
                                     &limits, err);
        if (status == PARE_OK)
            status = best_proof_write(given, &use, craft, &ask, &best, most_s - timed_s(&t), &proof,
                                      err);
        long_work_release(PARE_OK); /* heard, and answered with the best so far */
        pare_progress_over(given->progress);
    }
    if (status == PARE_OK && (given->given & (OPTION_FRONT | OPTION_WALK)) == 0) {
        const pare_best_view view = {.loadout =
                                         ask.loadout >= 0 ? craft->loadout[ask.loadout].name : NULL,
                                     .money = use.bench->money,
                                     .all = given->given & OPTION_ALL,
                                     .seconds = seconds,
                                     .best = &best,
                                     .loosens = limits.loosens,
                                     .loosened = limits.loosened,
                                     .reliefs = limits.relieved ? &limits.reliefs : NULL};
        show(given, &view, &proof, out);
        status = best.found || best.stopped ? best_proof_status(&proof) : PARE_NO;
    }
    pare_arena_close(arena);
    bench_leave(&use);
    return status;
}

const command command_best = {
    .name = "best",
    .line = "the lightest set of swaps that the brief allows, proven",
    .usage = "pare best CRAFT [--loadout LOADOUT] [--wish WISH] [--hold CHOICE...]\n"
             "          [--never PART...] [--must PART...] [--time SECONDS] [--all] [--json]\n"
             "          [--binds] [--proof FILE]\n"
             "          [--front WISHES [-o FILE] | --walk [--budget MONEY]]",
    .details = "Every limit of the brief holds on that set; a rating that holds now holds then,\n"
               "and one that is broken now is no worse; no job that the brief keeps is lost.\n"
               "Sought parts and swaps that leave a question open are in no set. A front is all\n"
               "sets that nothing beats in two wishes: one search each, --time for all of them.\n"
               "A walk says in which order to buy the set: each step flies and is safe, most\n"
               "grams for the money first; --budget says how far the money of now goes.\n"
               "--binds searches once more for each limit that decides, ten units or one\n"
               "looser, ten seconds each or what --time leaves. Where no set meets the brief,\n"
               "what it would have to give way by is said, within a minute or --time.\n",
    .caution = CAUTION_WORK,
    .example = "  pare best thimble\n"
               "  pare best thimble --binds\n"
               "  pare best bodkin --hold frame --never pr-40-25-2\n"
               "  pare best thimble --front grams-money --time 5 -o front.svg\n"
               "  pare best thimble --walk --budget 50\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_ALL | OPTION_LOADOUT | OPTION_WISH |
               OPTION_HOLD | OPTION_NEVER | OPTION_MUST | OPTION_TIME | OPTION_FRONT |
               OPTION_BINDS | OPTION_OUTPUT | OPTION_WALK | OPTION_BUDGET | OPTION_PROOF,
    .meaning = {{OPTION_ALL, "the work step by step, and how the proof went"},
                {OPTION_WISH, "what is to be best: grams (usual)"},
                {OPTION_OUTPUT, "the front as a picture: x.pdf, x.svg or x.png"}},
    .run = run,
};

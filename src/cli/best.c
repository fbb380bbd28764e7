/* best.c: `pare best`: the lightest set of swaps that the brief allows, proven.
 *
 * It may be told to stop, by Ctrl-C or after a time; then the best so far is the answer, with how far off
 * it may be. So a stop is no failure here, unlike in what changes a bench. */
#include "show/best.h"

#include <math.h>
#include <string.h>

#include "cli/best_front.h"
#include "cli/best_knock_on.h"
#include "cli/best_limits.h"
#include "cli/best_proof.h"
#include "cli/best_sold.h"
#include "cli/best_sure.h"
#include "cli/best_walk.h"
#include "cli/best_ways.h"
#include "cli/best_wish.h"
#include "cli/command.h"
#include "cli/long_work.h"
#include "cli/timed.h"
#include "cli/use.h"

#define LONGEST_S 1e6
#define SOUGHT_S  10.0
#define A_WISH_S  60.0 /* for what does not always come to an end */

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

/* "all", unless a loadout is named so: every limit in each of them, grams of the heaviest. */
static pare_status best_loadout(const options *given, const pare_craft *craft, pare_best_ask *ask,
                                pare_error *err)
{
    ask->every = given->loadout && strcmp(given->loadout, "all") == 0 &&
                 pare_craft_loadout(craft, "all") < 0;
    if (!ask->every)
        return pare_loadout_named(craft, given->loadout, &ask->loadout, err);
    if (given->given & OPTION_WALK)
        return pare_fail(err, PARE_BAD_DATA, "--walk goes with one loadout, not with all");
    return pare_best_heaviest(craft, &ask->loadout, err);
}

/* What parts that nobody sells would save beyond the best set, for some seconds. */
static pare_status find_sought(const options *given, const pare_bench *bench,
                               const pare_craft *craft, const pare_best_ask *ask,
                               const pare_best *best, double left_s, pare_arena *arena,
                               pare_best *sought, pare_error *err)
{
    timed t = timed_start(given->progress, fmin(left_s, SOUGHT_S));
    const pare_progress progress = timed_progress(&t);
    pare_best_ask asked = *ask;
    asked.progress = &progress;
    asked.sought = true;
    asked.below_100ug = best->best_100ug;
    return pare_best_find(bench, craft, &asked, arena, sought, err);
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
    pare_best_wished wished = {0};
    pare_best_ways ways = {0};
    pare_best_sureness sureness = {0};
    pare_resale resale = {0};
    pare_best sought = {0};
    size_t wanted = 0;
    double most_s = INFINITY, seconds = 0, work_min = INFINITY;
    int wish = PARE_WISH_GRAMS;
    timed t = {.under = NULL};
    const pare_progress progress = timed_progress(&t);
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("best", given, 1, 1, "one craft", err);
    if (status == PARE_OK)
        status = best_wish_read(given, &wish, &work_min, err);
    if (status == PARE_OK)
        status = best_ways_read(given, &wanted, err);
    if (status == PARE_OK)
        status = best_sure_read(given, wish, &ask.sure, err);
    if (status == PARE_OK)
        status = read_time(given, &most_s, err);
    if (status == PARE_OK && given->given & OPTION_FRONT)
        status = best_front_check(given, err);
    else if (status == PARE_OK && given->given & OPTION_OUTPUT)
        status = pare_fail(err, PARE_BAD_DATA, "-o goes with --front: a picture of a front");
    if (status == PARE_OK)
        status = best_walk_check(given, err);
    if (status == PARE_OK)
        status = best_knock_on_check(given, err);
    if (status == PARE_OK)
        status = bench_use(given, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, given->operand[0], &craft, err);
    if (status == PARE_OK)
        status = best_sold_read(given, use.bench, &resale, err);
    if (status == PARE_OK)
        status = best_loadout(given, craft, &ask, err);
    if (status == PARE_OK)
        status = best_proof_check(given, wish, &ask, err);
    if (status == PARE_OK) {
        ask.progress = &progress;
        ask.resale = given->solds > 0 ? &resale : NULL;
        ask.most_work_min = isfinite(work_min) ? &work_min : NULL;
        t = timed_start(given->progress, isinf(most_s) && (wish != PARE_WISH_GRAMS || ask.every)
                                             ? A_WISH_S
                                             : most_s);
        long_work_catch();
    }
    if (status == PARE_OK && given->given & OPTION_FRONT) {
        status = best_front(given, use.bench, craft, &ask, arena, out, err);
    } else if (status == PARE_OK && given->given & OPTION_KNOCK_ON) {
        status = best_knock_on(given, use.bench, craft, &ask, arena, out, err);
    } else if (status == PARE_OK && given->given & OPTION_WALK) {
        status = best_walk(given, use.bench, craft, &ask, arena, out, err);
    } else if (status == PARE_OK) {
        status = pare_best_wish_find(use.bench, craft, &ask, wish, arena, &best, &wished, err);
        seconds = timed_s(&t);
        if (status == PARE_OK && wanted && best.found)
            status = pare_best_ways_find(use.bench, craft, &ask, wish, &best, &wished, wanted,
                                         arena, &ways, err);
        if (status == PARE_OK)
            status = best_sure_ask(use.bench, craft, &ask, wish, &best, arena, &sureness, err);
        if (status == PARE_OK && best.found && given->given & OPTION_ALL &&
            pare_best_wish_by_grams(wish))
            status = find_sought(given, use.bench, craft, &ask, &best, most_s - seconds, arena,
                                 &sought, err);
        if (status == PARE_OK)
            status = best_limits_ask(given, use.bench, craft, &ask, &best, most_s - seconds,
                                     &limits, err);
        if (status == PARE_OK)
            status = best_proof_write(given, &use, craft, &ask, &best, most_s - timed_s(&t), &proof,
                                      err);
        long_work_release(PARE_OK); /* heard, and answered with the best so far */
        pare_progress_over(given->progress);
    }
    if (status == PARE_OK && (given->given & (OPTION_FRONT | OPTION_WALK | OPTION_KNOCK_ON)) == 0) {
        const pare_best_view view = {.loadout =
                                         ask.loadout >= 0 ? craft->loadout[ask.loadout].name : NULL,
                                     .every = ask.every,
                                     .money = use.bench->money,
                                     .all = given->given & OPTION_ALL,
                                     .seconds = seconds,
                                     .best = &best,
                                     .wished = &wished,
                                     .most_work_min = ask.most_work_min,
                                     .sure = ask.sure > 0 ? &sureness : NULL,
                                     .sought = sought.before ? &sought : NULL,
                                     .ways = ways.count ? &ways : NULL,
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
    .usage = "pare best CRAFT [--loadout LOADOUT] [--wish WISH] [--hours HOURS]\n"
             "          [--hold CHOICE...] [--never PART...] [--must PART...] [--time SECONDS]\n"
             "          [--all] [--json] [--binds] [--ways NUMBER] [--sure SHARE]\n"
             "          [--sold SHARE|PART=MONEY...]\n"
             "          [--front WISHES [-o FILE] | --walk [--budget MONEY]\n"
             "           | --knock-on GRAMS | --proof FILE]",
    .details = "A wish says what the set is best in: grams; minutes as flown; thrust to weight,\n"
               "half charged; quickness, the slower of roll and pitch; crash energy; money, the\n"
               "least that meets the brief and its limit on all-up mass; evening, most grams\n"
               "within three hours of work, or --hours. Of equal sets the lightest. Such a wish\n"
               "is searched for a minute, or --time, and what is proven by then is said.\n"
               "--ways says the next best sets that differ in a part, and how far prices, masses\n"
               "and limits may move before another set wins.\n"
               "--sure 0.95 asks that the brief's limits on figures hold together with that\n"
               "chance, all doubts counted, and says what it costs in grams; ratings are as\n"
               "without it.\n"
               "Money is of one order, as it is sold, less what --sold says comes back for what\n"
               "comes off: a share of its price, or so much for one of a part.\n"
               "--loadout all keeps every limit in each loadout; grams and choices are those of\n"
               "the heaviest, and what only others carry stays; a minute, or --time.\n"
               "Every limit of the brief holds on that set; a rating that holds now holds then,\n"
               "and one that is broken now is no worse; no job that the brief keeps is lost.\n"
               "Sought parts and swaps that leave a question open are in no set. A front is all\n"
               "sets that nothing beats in two wishes: one search each, --time for all of them.\n"
               "A walk says in which order to buy the set: each step flies and is safe, most\n"
               "grams for the money first; --budget says how far the money of now goes.\n"
               "--knock-on says what motors, propellers, pack, ESCs and lead become when so many\n"
               "grams are saved elsewhere, from which gram on, beside what scaling laws say.\n"
               "--binds searches once more for each limit that decides, ten units or one\n"
               "looser, ten seconds each or what --time leaves. Where no set meets the brief,\n"
               "what it would have to give way by is said, within a minute or --time.\n",
    .caution = CAUTION_WORK,
    .example = "  pare best thimble\n"
               "  pare best thimble --binds\n"
               "  pare best thimble --wish minutes --time 3\n"
               "  pare best thimble --ways 3\n"
               "  pare best thimble --sure 0.95\n"
               "  pare best thimble --loadout all --time 3\n"
               "  pare best thimble --wish evening --hours 0.25\n"
               "  pare best bodkin --hold frame --never pr-40-25-2\n"
               "  pare best thimble --knock-on 30g\n"
               "  pare best thimble --front grams-money --time 5 -o front.svg\n"
               "  pare best thimble --wish money --sold 50% --time 3\n"
               "  pare best thimble --walk --budget 50\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_ALL | OPTION_LOADOUT | OPTION_WISH |
               OPTION_HOLD | OPTION_NEVER | OPTION_MUST | OPTION_TIME | OPTION_FRONT |
               OPTION_BINDS | OPTION_OUTPUT | OPTION_WALK | OPTION_BUDGET | OPTION_HOURS |
               OPTION_WAYS | OPTION_PROOF | OPTION_SURE | OPTION_KNOCK_ON | OPTION_SOLD,
    .meaning = {{OPTION_ALL,
                 "the work step by step, how the proof went, and what sought parts would save"},
                {OPTION_WISH, "grams (usual), minutes, thrust, quickness, money, crash, evening"},
                {OPTION_OUTPUT, "the front as a picture: x.pdf, x.svg or x.png"}},
    .run = run,
};

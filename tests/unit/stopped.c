/* rooms: store advise craft physics base */
/* Long questions that are stopped: at every one of the moments at which they ask whether to go on, or at sixteen of
 * them. Whatever they have by then is right: what is called proven is what the whole question proves, nothing better is
 * claimed than there is, an order has every step once. */
#include <math.h>

#include "proof_kept.h"

#include "advise/best_front.h"
#include "advise/best_ways.h"
#include "advise/best_wish.h"
#include "advise/knock_on.h"
#include "advise/relief.h"
#include "advise/tasks.h"
#include "advise/walk.h"

enum { STOPS_MOST = 16 };

typedef struct counter {
    size_t asked, most; /* goes on so often */
} counter;

static bool count_on(void *context, const char *doing, size_t done, size_t all)
{
    counter *c = context;
    (void)done;
    (void)all;
    if (doing && !doing[0]) /* over */
        return true;
    return c->asked++ < c->most;
}

/* What a question came to. */
typedef struct came {
    pare_status status;
    bool stopped, proven, found;
    double best; /* less is better */
} came;

typedef struct asking {
    fixture *f;
    pare_craft *craft;
    pare_best_ask ask;
    pare_best best; /* the whole answer */
    pare_arena *arena;
    certificate whole;
} asking;

static pare_best_ask ask_with(const asking *a, const pare_progress *progress)
{
    pare_best_ask ask = a->ask;
    ask.progress = progress;
    return ask;
}

static came of_best(const asking *a, const pare_progress *progress)
{
    pare_best best;
    pare_error err = {0};
    const pare_best_ask ask = ask_with(a, progress);
    came c = {.status = pare_best_find(a->f->bench, a->craft, &ask, a->arena, &best, &err)};
    c.stopped = best.stopped;
    c.found = best.found;
    c.proven = best.proven;
    c.best = (double)best.best_100ug;
    assert_true(!best.found || best.bound_100ug <= best.best_100ug);
    return c;
}

static came of_walk(const asking *a, const pare_progress *progress)
{
    pare_walk walk;
    pare_error err = {0};
    bool seen[PARE_BEST_SWAPS] = {false};
    size_t swaps = 0;
    int64_t saved = 0;
    const pare_best_ask ask = ask_with(a, progress);
    came c = {.status = pare_walk_find(a->f->bench, a->craft, &ask, &a->best, NULL, &walk, &err)};
    for (size_t i = 0; i < walk.steps; i++) {
        saved += walk.step[i].saved_100ug;
        for (size_t k = 0; k < walk.step[i].swaps; k++, swaps++) {
            assert_false(seen[walk.step[i].swap[k]]);
            seen[walk.step[i].swap[k]] = true;
        }
    }
    assert_int_equal(swaps, a->best.swaps);
    assert_true(saved == a->best.was_100ug - a->best.best_100ug);
    c.stopped = walk.stopped;
    c.proven = walk.exact && !walk.stopped;
    c.found = true;
    c.best = -(double)walk.steps;
    return c;
}

static came of_wish(const asking *a, const pare_progress *progress)
{
    pare_best best;
    pare_best_wished wished;
    pare_error err = {0};
    const pare_best_ask ask = ask_with(a, progress);
    came c = {.status = pare_best_wish_find(a->f->bench, a->craft, &ask, PARE_WISH_THRUST, a->arena,
                                            &best, &wished, &err)};
    c.stopped = best.stopped;
    c.found = best.found && wished.exists;
    c.proven = wished.proven;
    c.best = c.found ? -wished.value : 0;
    assert_true(!c.found || wished.bound >= wished.value * (1 - 1e-9));
    return c;
}

static came of_ways(const asking *a, const pare_progress *progress)
{
    pare_best_ways ways;
    pare_error err = {0};
    const pare_best_wished wished = {.wish = PARE_WISH_GRAMS, .figure = PARE_ALL_UP};
    const pare_best_ask ask = ask_with(a, progress);
    came c = {.status = pare_best_ways_find(a->f->bench, a->craft, &ask, PARE_WISH_GRAMS, &a->best,
                                            &wished, 4, a->arena, &ways, &err)};
    c.proven = ways.proven;
    c.stopped = !ways.proven;
    c.found = ways.count > 0;
    c.best = -(double)ways.count;
    for (size_t i = 1; i < ways.count; i++)
        assert_true(ways.way[i].best_100ug >= ways.way[i - 1].best_100ug);
    return c;
}

static came of_a_front(const asking *a, const pare_progress *progress, const char *wishes)
{
    pare_best_front front;
    pare_front_wish pair[2];
    pare_error err = {0};
    assert_int_equal(pare_front_pair(wishes, pair, &err), PARE_OK);
    const pare_best_ask ask = ask_with(a, progress);
    came c = {.status =
                  pare_best_front_find(a->f->bench, a->craft, &ask, pair, a->arena, &front, &err)};
    c.stopped = front.stopped;
    c.proven = front.whole;
    c.found = front.count > 0;
    c.best = -(double)front.count;
    assert_false(front.whole && front.stopped);
    return c;
}

static came of_front(const asking *a, const pare_progress *progress)
{
    return of_a_front(a, progress, "grams-money");
}

static came of_minutes_front(const asking *a, const pare_progress *progress)
{
    return of_a_front(a, progress, "minutes-grams");
}

static came of_knock_on(const asking *a, const pare_progress *progress)
{
    pare_knock_on told;
    pare_error err = {0};
    const pare_best_ask ask = ask_with(a, progress);
    came c = {.status =
                  pare_knock_on_find(a->f->bench, a->craft, &ask, 0.015, a->arena, &told, &err)};
    c.proven = told.found && told.proven;
    c.stopped = !told.proven;
    c.found = told.found;
    c.best = told.found && told.proven ? -(double)told.follows_100ug : 0;
    assert_true(!told.found || told.knocks > 0);
    return c;
}

static came of_relief(const asking *a, const pare_progress *progress)
{
    pare_reliefs told;
    pare_error err = {0};
    pare_best_ask ask = ask_with(a, progress);
    pare_craft *tight = calloc(1, sizeof *tight);
    assert_non_null(tight);
    pare_craft_copy(a->craft, tight);
    tight->brief.limits = 0;
    tight->brief.limit[tight->brief.limits++] = (pare_limit){.key = "all_up", .value = 0.30};
    tight->brief.limit[tight->brief.limits++] =
        (pare_limit){.key = "flown", .at_least = true, .value = 420};
    came c = {.status = pare_best_relieve(a->f->bench, tight, &ask, &told, &err)};
    c.stopped = told.stopped;
    c.found = c.status == PARE_OK && told.count > 0 && told.alone[0].helps && told.alone[0].exact;
    c.proven = c.status == PARE_OK && !told.stopped;
    c.best = c.found ? told.alone[0].to : 0;
    free(tight);
    return c;
}

static came of_task(const asking *a, const pare_progress *progress)
{
    pare_task_answer answer = {0};
    pare_error err = {0};
    const pare_task_ask ask = {.bench = a->f->bench,
                               .craft = a->craft,
                               .loadout = -1,
                               .brief = &a->craft->brief,
                               .best = true,
                               .wish = PARE_WISH_GRAMS,
                               .holds = a->ask.holds,
                               .hold = a->ask.hold,
                               .progress = progress};
    came c = {.status = pare_task_answer_it(&ask, a->arena, &answer, &err)};
    c.stopped = c.status == PARE_STOPPED;
    c.found = c.status == PARE_OK && answer.says == PARE_TASK_YES;
    c.proven = c.found && answer.proven;
    c.best = c.found ? answer.mass_g : 0;
    return c;
}

static came of_writing(const asking *a, const pare_progress *progress)
{
    const char *names[PARE_BEST_SWAPS];
    certificate written = {0};
    const pare_proof_sink sink = {put_line, &written};
    const pare_proof_claim claim = claim_of(&a->ask, &a->best, names);
    pare_proof_told told;
    pare_error err = {0};
    came c = {.status =
                  pare_proof_write(a->f->bench, a->craft, &claim, progress, &sink, &told, &err)};
    c.stopped = told.open > 0;
    c.proven = told.verified;
    c.found = true;
    c.best = (double)told.best_100ug;
    /* What was stopped is a certificate with open leaves: sound, and not verified. */
    const pare_proof_told checked = check(a->f->bench, &written);
    assert_true(checked.sound);
    assert_int_equal(checked.verified, told.verified);
    assert_int_equal(checked.open, told.open);
    forget(&written);
    return c;
}

static came of_checking(const asking *a, const pare_progress *progress)
{
    certificate copied;
    copy(&a->whole, &copied);
    const pare_proof_source source = {get_line, &copied, "file"};
    pare_proof_told told;
    pare_error err = {0};
    came c = {.status =
                  pare_proof_check(a->f->bench, &source, mark_of, NULL, progress, &told, &err)};
    c.stopped = c.status == PARE_STOPPED;
    c.proven = told.verified;
    c.found = true;
    c.best = 0;
    assert_true(c.status == PARE_OK || !told.verified);
    forget(&copied);
    return c;
}

static const struct {
    const char *name;
    came (*ask)(const asking *a, const pare_progress *progress);
} questions[] = {
    {"best", of_best},         {"walk", of_walk},        {"wish", of_wish},
    {"ways", of_ways},         {"front", of_front},      {"minutes' front", of_minutes_front},
    {"knock-on", of_knock_on}, {"relief", of_relief},    {"task", of_task},
    {"writing", of_writing},   {"checking", of_checking}};

static void begin(void **state, asking *a, char held[][PARE_SWAP_NAME], const char *hold[])
{
    const char *names[PARE_BEST_SWAPS];
    pare_error err = {0};
    static const char *const open[] = {"bumper",  "motor",       "pack",
                                       "esc",     "joint.stack", "run.lead",
                                       "antenna", "propeller",   "capacitor"};
    *a = (asking){.f = *state, .arena = pare_arena_open()};
    assert_non_null(a->arena);
    a->craft = a->f->bench->craft[0];
    a->craft->brief.limits = 0;
    for (size_t i = 0; i < a->craft->items + a->craft->joints + a->craft->runs; i++) {
        const size_t j = i - a->craft->items, r = j - a->craft->joints;
        bool is_open = false;
        snprintf(held[a->ask.holds], PARE_SWAP_NAME, "%s%s",
                 i < a->craft->items    ? ""
                 : j < a->craft->joints ? "joint."
                                        : "run.",
                 i < a->craft->items    ? a->craft->item[i].name
                 : j < a->craft->joints ? a->craft->joint[j].name
                                        : a->craft->run[r].name);
        for (size_t k = 0; k < sizeof open / sizeof open[0]; k++)
            is_open = is_open || strcmp(held[a->ask.holds], open[k]) == 0;
        if (!is_open) {
            hold[a->ask.holds] = held[a->ask.holds];
            a->ask.holds++;
        }
    }
    a->ask.hold = hold;
    a->ask.loadout = -1;
    a->ask.alone = true;
    if (pare_best_find(a->f->bench, a->craft, &a->ask, a->arena, &a->best, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_true(a->best.found && a->best.proven && a->best.swaps > 1);
    const pare_proof_claim claim = claim_of(&a->ask, &a->best, names);
    assert_true(write(a->f->bench, a->craft, &claim, &a->whole).verified);
}

static void what_was_stopped_is_right_as_far_as_it_came(void **state)
{
    asking *a = calloc(1, sizeof *a);
    char(*held)[PARE_SWAP_NAME] = calloc(PARE_ITEMS + PARE_JOINTS + PARE_RUNS, sizeof *held);
    const char *hold[PARE_ITEMS + PARE_JOINTS + PARE_RUNS];
    assert_true(a && held);
    begin(state, a, held, hold);
    for (size_t q = 0; q < sizeof questions / sizeof questions[0]; q++) {
        counter count = {.most = SIZE_MAX};
        const pare_progress progress = {.step = count_on, .context = &count};
        const came whole = questions[q].ask(a, &progress);
        const size_t times = count.asked;
        if (whole.status != PARE_OK || !whole.proven || whole.stopped)
            fail_msg("%s: %d, proven %d, stopped %d", questions[q].name, (int)whole.status,
                     whole.proven, whole.stopped);
        size_t stopped = 0;
        const size_t by = times / STOPS_MOST + 1;
        for (size_t most = 0; most < times; most += by) {
            count = (counter){.most = most};
            const came c = questions[q].ask(a, &progress);
            if (c.status != PARE_OK && c.status != PARE_STOPPED)
                fail_msg("%s, stopped at %zu of %zu: %d", questions[q].name, most, times,
                         (int)c.status);
            if (c.proven && fabs(c.best - whole.best) > 1e-9 * fabs(whole.best))
                fail_msg("%s, stopped at %zu of %zu: %.9g is called proven, not %.9g",
                         questions[q].name, most, times, c.best, whole.best);
            if (c.found && c.best < whole.best - 1e-9 * fabs(whole.best))
                fail_msg("%s, stopped at %zu of %zu: %.9g is better than the best, %.9g",
                         questions[q].name, most, times, c.best, whole.best);
            stopped += c.stopped || c.status == PARE_STOPPED;
        }
        print_message("%s asks %zu times, stopped %zu\n", questions[q].name, times, stopped);
        assert_true(times > 0 && stopped > 0);
    }
    forget(&a->whole);
    pare_arena_close(a->arena);
    free(held);
    free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_was_stopped_is_right_as_far_as_it_came, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

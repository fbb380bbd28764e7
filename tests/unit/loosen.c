/* rooms: store advise craft physics base */
/* What limits cost and what must give way, each held against plain searches: of the craft with another brief, of
 * what lies just short of what was told. */
#include <math.h>

#include "swap_fixture.h"

#include "advise/loosen.h"
#include "advise/relief.h"

typedef struct question {
    pare_arena *arena;
    pare_craft craft;
    pare_best_ask ask;
    pare_best best;
} question;

/* Few choices: a test asks dozens of questions. */
static void hold_all_but_propulsion(question *q)
{
    static const pare_kind open[] = {PARE_MOTOR, PARE_PROPELLER, PARE_PACK};
    const char **hold = pare_arena_array(q->arena, q->craft.items + q->craft.joints + q->craft.runs,
                                         sizeof hold[0]);
    assert_non_null(hold);
    for (size_t i = 0; i < q->craft.items; i++) {
        bool held = true;
        for (size_t k = 0; k < sizeof open / sizeof open[0]; k++)
            held = held && q->craft.item[i].part->kind != open[k];
        if (held)
            hold[q->ask.holds++] = q->craft.item[i].name;
    }
    for (size_t i = 0; i < q->craft.joints; i++)
        hold[q->ask.holds++] = pare_arena_printf(q->arena, "joint.%s", q->craft.joint[i].name);
    for (size_t i = 1; i < q->craft.runs; i++) /* the first is the lead */
        hold[q->ask.holds++] = pare_arena_printf(q->arena, "run.%s", q->craft.run[i].name);
    q->ask.hold = hold;
    q->ask.loadout = -1;
}

static question *ask_with(fixture *f, size_t limits, const pare_limit limit[])
{
    question *q = calloc(1, sizeof *q);
    assert_non_null(q);
    q->arena = pare_arena_open();
    pare_craft_copy(f->craft, &q->craft);
    hold_all_but_propulsion(q);
    q->craft.brief.limits = limits;
    for (size_t i = 0; i < limits; i++)
        q->craft.brief.limit[i] = limit[i];
    if (pare_best_find(f->bench, &q->craft, &q->ask, q->arena, &q->best, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
    assert_true(q->best.proven);
    return q;
}

static void close_question(question *q)
{
    pare_arena_close(q->arena);
    free(q);
}

/* The figures of the lightest sets, to draw limits from. */
static double figure_of(const question *q, pare_figure figure)
{
    assert_true(q->best.found && q->best.sheet_after->figure[figure].exists);
    return q->best.sheet_after->figure[figure].value;
}

static int64_t lightest_with(fixture *f, size_t limits, const pare_limit limit[])
{
    question *q = ask_with(f, limits, limit);
    const int64_t found = q->best.found ? q->best.best_100ug : -1;
    close_question(q);
    return found;
}

static void a_limit_loosened_is_another_brief(void **state)
{
    fixture *f = *state;
    question *free_of = ask_with(f, 0, NULL);
    const double money = figure_of(free_of, PARE_MONEY);
    size_t won = 0;
    static const double less[] = {0.5, 5, 50};
    for (size_t i = 0; i < sizeof less / sizeof less[0]; i++) {
        const pare_limit dear = {.key = "money", .at_least = false, .value = money - less[i]};
        question *q = ask_with(f, 1, &dear);
        if (q->best.found) {
            pare_loosened loosened;
            if (pare_best_loosen(f->bench, &q->craft, &q->ask, &q->best, "limit.money", &loosened,
                                 &f->err) != PARE_OK)
                fail_msg("%s", f->err.text);
            assert_true(loosened.proven);
            pare_limit one = dear, ten = dear;
            one.value += 1;
            ten.value += 10;
            const int64_t by_one = q->best.best_100ug - lightest_with(f, 1, &one);
            const int64_t by_ten = q->best.best_100ug - lightest_with(f, 1, &ten);
            assert_int_equal(loosened.won_100ug, by_one > 0 ? by_one : by_ten);
            assert_near(loosened.by, by_one > 0 ? 1 : 10, 1e-9);
            won += loosened.won_100ug > 0;
        }
        close_question(q);
    }
    assert_true(won > 0);
    close_question(free_of);
}

/* A rating that is eased holds to its share on the set that comes of it, and all others hold whole. */
static void a_rating_eased_holds_to_its_share(void **state)
{
    fixture *f = *state;
    question *q = ask_with(f, 0, NULL);
    size_t tried_ratings = 0;
    for (size_t i = 0; i < q->best.binds; i++) {
        const char *name = q->best.bind[i].name;
        if (!pare_best_gives_way(name) || strncmp(name, "limit.", 6) == 0)
            continue;
        const pare_best_eased eased = {name, 0.5};
        pare_best_ask ask = q->ask;
        pare_best again;
        char refuses[48];
        ask.ease = &eased;
        ask.eases = 1;
        ask.below_100ug = q->best.best_100ug;
        if (pare_best_find(f->bench, &q->craft, &ask, q->arena, &again, &f->err) != PARE_OK)
            fail_msg("%s", f->err.text);
        assert_true(again.proven);
        tried_ratings++;
        if (!again.found)
            continue;
        assert_true(again.best_100ug < q->best.best_100ug);
        assert_true(
            pare_best_meets(&ask, &q->craft, again.sheet_before, again.sheet_after, refuses));
        assert_false(
            pare_best_meets(NULL, &q->craft, again.sheet_before, again.sheet_after, refuses));
        assert_string_equal(refuses, name);
    }
    assert_true(tried_ratings > 0);
    close_question(q);
}

static void below_its_own_mass_there_is_nothing(void **state)
{
    fixture *f = *state;
    question *q = ask_with(f, 0, NULL);
    pare_best again;
    q->ask.below_100ug = q->best.best_100ug;
    assert_int_equal(pare_best_find(f->bench, &q->craft, &q->ask, q->arena, &again, &f->err),
                     PARE_OK);
    assert_true(again.proven && !again.found);
    q->ask.below_100ug++;
    assert_int_equal(pare_best_find(f->bench, &q->craft, &q->ask, q->arena, &again, &f->err),
                     PARE_OK);
    assert_true(again.proven && again.found);
    assert_int_equal(again.best_100ug, q->best.best_100ug);
    close_question(q);
}

static const pare_reliefs *relieved(fixture *f, question *q, pare_reliefs *reliefs)
{
    assert_true(q->best.proven && !q->best.found);
    if (pare_best_relieve(f->bench, &q->craft, &q->ask, reliefs, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
    assert_false(reliefs->stopped);
    return reliefs;
}

static void one_limit_gives_way_by_the_least(void **state)
{
    fixture *f = *state;
    question *free_of = ask_with(f, 0, NULL);
    const double minutes = figure_of(free_of, PARE_FLOWN_TIME);
    pare_limit asked[] = {
        {"all_up", false, (double)free_of->best.best_100ug * 1.02e-7, 0, 0},
        {"flown", true, minutes * 4, 0, 0},
    };
    question *q = ask_with(f, 2, asked);
    pare_reliefs reliefs;
    relieved(f, q, &reliefs);
    const pare_relief *flown = &reliefs.alone[1];
    assert_true(flown->helps && flown->exact);
    asked[1].value = flown->to;
    assert_true(lightest_with(f, 2, asked) == flown->best_100ug);
    asked[1].value = flown->to + 0.1 * 6 * 1.01; /* a tenth of the unit, as its header says */
    assert_true(lightest_with(f, 2, asked) < 0);
    close_question(q);
    close_question(free_of);
}

static void a_mass_gives_way_to_the_lightest(void **state)
{
    fixture *f = *state;
    question *free_of = ask_with(f, 0, NULL);
    const pare_limit asked = {"all_up", false, (double)free_of->best.best_100ug * 0.9e-7, 0, 0};
    question *q = ask_with(f, 1, &asked);
    pare_reliefs reliefs;
    relieved(f, q, &reliefs);
    assert_true(reliefs.alone[0].helps && reliefs.alone[0].exact);
    assert_int_equal(reliefs.alone[0].best_100ug, free_of->best.best_100ug);
    close_question(q);
    close_question(free_of);
}

static void two_limits_give_way_together(void **state)
{
    fixture *f = *state;
    question *free_of = ask_with(f, 0, NULL);
    pare_limit asked[] = {
        {"all_up", false, (double)free_of->best.best_100ug * 0.9e-7, 0, 0},
        {"flown", true, figure_of(free_of, PARE_FLOWN_TIME) * 4, 0, 0},
    };
    question *q = ask_with(f, 2, asked);
    pare_reliefs reliefs;
    relieved(f, q, &reliefs);
    assert_false(reliefs.alone[0].helps || reliefs.alone[1].helps);
    assert_true(reliefs.pair);
    const double share = reliefs.share;
    const double all_up = asked[0].value, minutes = asked[1].value;
    asked[0].value = reliefs.both[0].to * (1 + 1e-9);
    asked[1].value = reliefs.both[1].to * (1 - 1e-9);
    assert_true(lightest_with(f, 2, asked) == reliefs.both[0].best_100ug);
    asked[0].value = all_up * (1 + share - 0.011);
    asked[1].value = minutes * (1 - share + 0.011);
    assert_true(lightest_with(f, 2, asked) < 0);
    close_question(q);
    close_question(free_of);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_limit_loosened_is_another_brief),
        cmocka_unit_test(a_rating_eased_holds_to_its_share),
        cmocka_unit_test(below_its_own_mass_there_is_nothing),
        cmocka_unit_test(one_limit_gives_way_by_the_least),
        cmocka_unit_test(a_mass_gives_way_to_the_lightest),
        cmocka_unit_test(two_limits_give_way_together),
    };
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}

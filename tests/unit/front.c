/* rooms: advise craft physics base */
/* Fronts: what nothing beats, against a look at every pair; the walk from point to point against the front
 * of all choices at once; knees where a closed form says that they are. */
#include <math.h>

#include "advise/front.h"
#include "pick_all.h"

enum { MANY = 60 };

static const pare_front_wish all_three[] = {PARE_FRONT_GRAMS, PARE_FRONT_MONEY, PARE_FRONT_MINUTES};

static bool no_worse(const pare_front_point *a, const pare_front_point *b, size_t wishes,
                     const pare_front_wish wish[])
{
    for (size_t w = 0; w < wishes; w++) {
        const bool worse = wish[w] == PARE_FRONT_GRAMS   ? a->mass_100ug > b->mass_100ug
                           : wish[w] == PARE_FRONT_MONEY ? a->money_cents > b->money_cents
                                                         : a->flown_ms < b->flown_ms;
        if (worse)
            return false;
    }
    return true;
}

/* Beaten: another is no worse in all wishes, and either better in one or earlier. */
static bool beaten(const pare_front_point point[], size_t count, size_t which, size_t wishes,
                   const pare_front_wish wish[])
{
    for (size_t i = 0; i < count; i++)
        if (i != which && no_worse(&point[i], &point[which], wishes, wish) &&
            (!no_worse(&point[which], &point[i], wishes, wish) || i < which))
            return true;
    return false;
}

static void try_keep(unsigned n, size_t wishes, const pare_front_wish wish[])
{
    pare_front_point point[MANY], kept[MANY];
    unsigned seed = n;
    size_t count = dice(&seed, MANY + 1), due = 0;
    const unsigned sides = 2 + dice(&seed, 30);
    for (size_t i = 0; i < count; i++) {
        point[i] = (pare_front_point){.mass_100ug = dice(&seed, sides),
                                      .money_cents = (int64_t)dice(&seed, sides) - 5,
                                      .flown_ms = dice(&seed, sides),
                                      .set = i};
        kept[i] = point[i];
    }
    size_t kept_count = count;
    pare_error err = {0};
    assert_int_equal(pare_front_keep(wishes, wish, kept, &kept_count, &err), PARE_OK);
    bool is_kept[MANY] = {false};
    for (size_t i = 0; i < kept_count; i++) {
        is_kept[kept[i].set] = true;
        if (i)
            assert_true(pare_front_cost(&kept[i - 1], wish[0]) <=
                        pare_front_cost(&kept[i], wish[0]));
    }
    for (size_t i = 0; i < count; i++) {
        const bool good = !beaten(point, count, i, wishes, wish);
        due += good;
        assert_int_equal(is_kept[i], good);
    }
    assert_int_equal(kept_count, due);
}

static void a_front_keeps_what_nothing_beats(void **state)
{
    (void)state;
    static const pare_front_wish pairs[][2] = {{PARE_FRONT_GRAMS, PARE_FRONT_MONEY},
                                               {PARE_FRONT_GRAMS, PARE_FRONT_MINUTES},
                                               {PARE_FRONT_MINUTES, PARE_FRONT_MONEY}};
    for (unsigned n = 0; n < 2000; n++) {
        try_keep(n, 2, pairs[n % 3]);
        try_keep(n, 3, all_three);
    }
}

/* ---- the walk ---- */

typedef struct asked {
    pare_pick *pick;
    size_t times;
} asked;

static pare_status lightest(void *context, int64_t most, pare_front_point *point, bool *found,
                            pare_error *err)
{
    asked *a = context;
    size_t choice[DRAWN_CLASSES];
    pare_pick_amounts sum;
    a->times++;
    a->pick->most.money_cents = most;
    const pare_status status = pare_pick_lightest(a->pick, choice, &sum, err);
    *found = status == PARE_OK;
    if (*found)
        *point = (pare_front_point){
            .mass_100ug = sum.mass_100ug, .money_cents = sum.money_cents, .set = a->times};
    return status == PARE_NO ? PARE_OK : status;
}

static const pare_front_wish grams_money[2] = {PARE_FRONT_GRAMS, PARE_FRONT_MONEY};

static void walking_finds_the_front_of_all_choices(void **state)
{
    (void)state;
    drawn d;
    for (unsigned n = 0; n < 1000; n++) {
        unsigned seed = n;
        draw_question(&seed, 0, 3 + dice(&seed, 40), &d);
        pare_arena *arena = pare_arena_open();
        pare_pick_front front;
        pare_error err = {0};
        assert_int_equal(pare_pick_front_make(&d.pick, arena, &front, &err), PARE_OK);
        asked a = {.pick = &d.pick};
        pare_front_point *point = NULL;
        size_t count = 0;
        bool whole = false;
        assert_int_equal(pare_front_walk(grams_money, lightest, &a, 1, 1000, arena, &point, &count,
                                         &whole, &err),
                         PARE_OK);
        assert_true(whole);
        assert_int_equal(count, front.count);
        assert_int_equal(a.times, front.count + 1);
        for (size_t i = 0; i < count; i++) {
            assert_int_equal(point[i].mass_100ug, front.sum[i].mass_100ug);
            assert_int_equal(point[i].money_cents, front.sum[i].money_cents);
        }
        pare_arena_close(arena);
    }
}

static void a_walk_says_that_it_was_cut_short(void **state)
{
    (void)state;
    const pare_pick_amounts option[] = {{1, 90, {0}}, {2, 80, {0}}, {3, 50, {0}}, {4, 0, {0}}};
    const pare_pick_class class = {4, option};
    pare_pick pick = {.classes = 1, .class = &class, .most = pare_pick_no_limit()};
    asked a = {.pick = &pick};
    pare_arena *arena = pare_arena_open();
    pare_front_point *point = NULL;
    size_t count = 0;
    bool whole = true;
    pare_error err = {0};
    assert_int_equal(
        pare_front_walk(grams_money, lightest, &a, 1, 2, arena, &point, &count, &whole, &err),
        PARE_OK);
    assert_int_equal(count, 2);
    assert_false(whole);
    /* A grain of 30 passes over what costs less than 30 fewer than the one before it. */
    assert_int_equal(
        pare_front_walk(grams_money, lightest, &a, 30, 9, arena, &point, &count, &whole, &err),
        PARE_OK);
    assert_int_equal(count, 3);
    assert_true(whole);
    assert_int_equal(point[1].money_cents, 50);
    pare_arena_close(arena);
}

static pare_status no_tables(void *context, int64_t most, pare_front_point *point, bool *found,
                             pare_error *err)
{
    (void)context;
    (void)most;
    (void)point;
    (void)found;
    return pare_fail(err, PARE_BAD_DATA, "no tables");
}

static void what_the_solver_says_ends_the_walk(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    pare_front_point *point = NULL;
    size_t count = 1;
    bool whole = true;
    pare_error err = {0};
    assert_int_equal(
        pare_front_walk(grams_money, no_tables, NULL, 1, 9, arena, &point, &count, &whole, &err),
        PARE_BAD_DATA);
    assert_string_equal(err.text, "no tables");
    assert_int_equal(count, 0);
    assert_false(whole);
    pare_arena_close(arena);
}

/* ---- knees ---- */

static size_t knees_of(const pare_front_wish pair[2], pare_front_point point[], size_t count,
                       size_t most, size_t knee[])
{
    size_t knees = 0;
    pare_front_knees(pair, point, count, most);
    for (size_t i = 0; i < count; i++)
        if (point[i].knee)
            knee[knees++] = i;
    return knees;
}

/* A quarter of a circle from (0, 1) to (1, 0) about (1, 1) bulges most half way along, at 45 degrees. */
static void the_knee_of_a_quarter_circle_is_at_45_degrees(void **state)
{
    (void)state;
    enum { N = 91 };
    pare_front_point point[N];
    for (int i = 0; i < N; i++) {
        const double angle = (90 - i) * 3.14159265358979 / 180;
        /* The two scales differ a thousandfold: a knee does not ask for units. */
        point[i] = (pare_front_point){.mass_100ug = (int64_t)(1e9 * (1 - sin(angle)) + 0.5),
                                      .money_cents = (int64_t)(1e6 * (1 - cos(angle)) + 0.5)};
    }
    /* From the least mass to the most: angle falls from 90 degrees, where money is the most. */
    for (int i = 0; i < N; i++)
        assert_true(i == 0 || point[i].mass_100ug > point[i - 1].mass_100ug);
    size_t knee[N];
    for (int i = 0; i < N; i++) /* cos grows as the angle falls, so money falls */
        assert_true(i == 0 || point[i].money_cents < point[i - 1].money_cents);
    assert_int_equal(knees_of(grams_money, point, N, 1, knee), 1);
    assert_int_equal(knee[0], 45);
}

static void a_straight_front_has_no_knee(void **state)
{
    (void)state;
    pare_front_point point[21];
    size_t knee[21];
    for (int i = 0; i <= 20; i++)
        point[i] = (pare_front_point){.mass_100ug = 100 * i, .money_cents = 7 * (20 - i)};
    assert_int_equal(knees_of(grams_money, point, 21, 3, knee), 0);
    /* Nor one that bends away, where every point between is worse than a mix of the ends. */
    for (int i = 0; i <= 20; i++)
        point[i] = (pare_front_point){.mass_100ug = i * i, .money_cents = 400 - i};
    point[20].money_cents = 0;
    assert_int_equal(knees_of(grams_money, point, 21, 3, knee), 0);
    assert_int_equal(knees_of(grams_money, point, 2, 3, knee), 0);
    assert_int_equal(knees_of(grams_money, point, 0, 3, knee), 0);
}

static void each_bend_of_a_front_is_a_knee(void **state)
{
    (void)state;
    /* Three straight stretches: corners at 3 and 6 are the knees, the sharper one alone where one is
     * asked for. */
    pare_front_point point[10];
    static const int64_t money[10] = {1000, 800, 600, 400, 340, 280, 220, 210, 200, 190};
    size_t knee[10];
    for (int i = 0; i < 10; i++)
        point[i] = (pare_front_point){.mass_100ug = 10 * i, .money_cents = money[i]};
    assert_int_equal(knees_of(grams_money, point, 10, 1, knee), 1);
    assert_int_equal(knee[0], 3);
    assert_int_equal(knees_of(grams_money, point, 10, 5, knee), 2);
    assert_int_equal(knee[0], 3);
    assert_int_equal(knee[1], 6);
    /* The same with minutes for money turned round. */
    static const pare_front_wish grams_minutes[2] = {PARE_FRONT_GRAMS, PARE_FRONT_MINUTES};
    for (int i = 0; i < 10; i++)
        point[i].flown_ms = -money[i];
    assert_int_equal(knees_of(grams_minutes, point, 10, 5, knee), 2);
    assert_int_equal(knee[0], 3);
}

static void a_pair_of_wishes_is_named(void **state)
{
    (void)state;
    pare_front_wish pair[2];
    pare_error err = {0};
    assert_int_equal(pare_front_pair("minutes-money", pair, &err), PARE_OK);
    assert_int_equal(pair[0], PARE_FRONT_MINUTES);
    assert_int_equal(pair[1], PARE_FRONT_MONEY);
    static const char *const wrong[] = {"",
                                        "grams",
                                        "grams-",
                                        "-money",
                                        "grams-grams",
                                        "grams-moneys",
                                        "gram-money",
                                        "grams-money-minutes"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        assert_int_equal(pare_front_pair(wrong[i], pair, &err), PARE_UNKNOWN);
        assert_non_null(strstr(err.text, "two of grams, money and minutes, like grams-money"));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_front_keeps_what_nothing_beats),
        cmocka_unit_test(walking_finds_the_front_of_all_choices),
        cmocka_unit_test(a_walk_says_that_it_was_cut_short),
        cmocka_unit_test(what_the_solver_says_ends_the_walk),
        cmocka_unit_test(the_knee_of_a_quarter_circle_is_at_45_degrees),
        cmocka_unit_test(a_straight_front_has_no_knee),
        cmocka_unit_test(each_bend_of_a_front_is_a_knee),
        cmocka_unit_test(a_pair_of_wishes_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

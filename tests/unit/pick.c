/* rooms: advise craft physics base */
/* One of each class: fronts, the lightest and the cheapest against every choice tried one by one, on
 * thousands of small questions; what cannot be asked is said. */
#include "advise/pick.h"
#include "pick_all.h"

enum { QUESTIONS = 4000 };

static one_choice all[DRAWN_CHOICES], front_all[DRAWN_CHOICES];

static bool beats(const pare_pick_amounts *a, const pare_pick_amounts *b)
{
    bool no_worse = a->mass_100ug <= b->mass_100ug && a->money_cents <= b->money_cents;
    for (size_t l = 0; l < PARE_PICK_LOADS; l++)
        no_worse = no_worse && a->load[l] <= b->load[l];
    return no_worse;
}

/* Of all, in order: those that none before them beats or equals. */
static size_t tried_front(size_t count)
{
    size_t kept = 0;
    qsort(all, count, sizeof all[0], front_order);
    for (size_t i = 0; i < count; i++) {
        bool beaten = false;
        for (size_t j = 0; !beaten && j < kept; j++)
            beaten = beats(&front_all[j].sum, &all[i].sum);
        if (!beaten)
            front_all[kept++] = all[i];
    }
    return kept;
}

static void try_front(const drawn *d)
{
    const size_t points = tried_front(all_choices(d, all));
    pare_arena *arena = pare_arena_open();
    pare_pick_front front;
    pare_error err = {0};
    assert_int_equal(pare_pick_front_make(&d->pick, arena, &front, &err), PARE_OK);
    assert_int_equal(front.count, points);
    for (size_t i = 0; i < points; i++) {
        size_t choice[DRAWN_CLASSES];
        pare_pick_front_choice(&front, i, choice);
        same_sum(&front.sum[i], &front_all[i].sum);
        same_choice(d->pick.classes, choice, front_all[i].choice);
    }
    pare_arena_close(arena);
}

static void the_front_is_what_no_other_choice_beats(void **state)
{
    (void)state;
    drawn d;
    for (unsigned n = 0; n < QUESTIONS; n++) {
        unsigned seed = n;
        const unsigned sides = 3 + dice(&seed, 40);
        draw_question(&seed, n % (PARE_PICK_LOADS + 1), sides, &d);
        if (n % 3)
            draw_limits(&seed, sides, &d);
        try_front(&d);
    }
}

typedef pare_status least(const pare_pick *pick, size_t choice[], pare_pick_amounts *sum,
                          pare_error *err);

static size_t try_least(const drawn *d, least *asks, int (*order)(const void *, const void *))
{
    const size_t count = all_choices(d, all);
    qsort(all, count, sizeof all[0], order);
    size_t choice[DRAWN_CLASSES];
    pare_pick_amounts sum;
    pare_error err = {0};
    const pare_status status = asks(&d->pick, choice, &sum, &err);
    assert_int_equal(status, count ? PARE_OK : PARE_NO);
    if (count) {
        same_sum(&sum, &all[0].sum);
        same_choice(d->pick.classes, choice, all[0].choice);
        sum = pare_pick_sum(&d->pick, choice);
        same_sum(&sum, &all[0].sum);
    } else {
        assert_string_equal(err.text, "no choice is within the limits");
    }
    return count;
}

static void the_least_is_the_first_of_all_choices(void **state)
{
    (void)state;
    drawn d;
    unsigned none = 0;
    for (unsigned n = 0; n < QUESTIONS; n++) {
        unsigned seed = n;
        const unsigned sides = 3 + dice(&seed, 40);
        draw_question(&seed, n % (PARE_PICK_LOADS + 1), sides, &d);
        draw_limits(&seed, sides, &d);
        none += try_least(&d, pare_pick_lightest, front_order) == 0;
        try_least(&d, pare_pick_cheapest, cheap_order);
    }
    assert_true(none > QUESTIONS / 4 && none < 3 * QUESTIONS / 4); /* both sides were tried */
}

/* Rounds of small amounts have wide gaps between relaxation and answer; these have narrow ones, where
 * the bound decides, and correlated amounts, where nearly nothing is beaten. */
static void the_least_is_right_where_the_bound_decides(void **state)
{
    (void)state;
    drawn d;
    for (unsigned n = 0; n < QUESTIONS; n++) {
        unsigned seed = n;
        draw_question(&seed, 0, 100000, &d);
        for (size_t c = 0; c < d.pick.classes; c++)
            for (size_t i = 0; i < d.class[c].count; i++)
                d.option[c][i].money_cents =
                    -d.option[c][i].mass_100ug + (n % 2 ? (int64_t)dice(&seed, 1000) : 0);
        d.pick.most.money_cents = (int64_t)dice(&seed, 300000) - 150000;
        try_least(&d, pare_pick_lightest, front_order);
    }
}

static void a_front_answers_for_every_amount_of_money(void **state)
{
    (void)state;
    drawn d;
    pare_error err = {0};
    for (unsigned n = 0; n < 300; n++) {
        unsigned seed = n;
        draw_question(&seed, 0, 20, &d);
        pare_arena *arena = pare_arena_open();
        pare_pick_front front;
        assert_int_equal(pare_pick_front_make(&d.pick, arena, &front, &err), PARE_OK);
        for (int64_t money = -30; money < 100; money++) {
            d.pick.most.money_cents = money;
            size_t choice[DRAWN_CLASSES];
            pare_pick_amounts sum;
            const pare_status status = pare_pick_lightest(&d.pick, choice, &sum, &err);
            const size_t point = pare_pick_front_lightest(&front, money);
            assert_int_equal(status == PARE_OK, point < front.count);
            if (status == PARE_OK)
                same_sum(&front.sum[point], &sum);
        }
        pare_arena_close(arena);
    }
}

static void options_of_a_class_that_nothing_beats(void **state)
{
    (void)state;
    /* 1 is beaten by 0, 3 equals 0, 4 is the cheapest. */
    const pare_pick_amounts option[] = {
        {10, 5, {0}}, {12, 5, {0}}, {8, 9, {0}}, {10, 5, {0}}, {30, 1, {0}}};
    const pare_pick_class class = {5, option};
    size_t kept[5], count = 0;
    pare_error err = {0};
    assert_int_equal(pare_pick_undominated(&class, 0, kept, &count, &err), PARE_OK);
    assert_int_equal(count, 3);
    assert_int_equal(kept[0], 2);
    assert_int_equal(kept[1], 0);
    assert_int_equal(kept[2], 4);
    const pare_pick_class none = {0, NULL};
    assert_int_equal(pare_pick_undominated(&none, 0, kept, &count, &err), PARE_OK);
    assert_int_equal(count, 0);
}

static void a_load_that_counts_saves_a_beaten_option(void **state)
{
    (void)state;
    const pare_pick_amounts option[] = {{10, 5, {7}}, {12, 5, {6}}};
    const pare_pick_class class = {2, option};
    size_t kept[2], count = 0;
    pare_error err = {0};
    assert_int_equal(pare_pick_undominated(&class, 1, kept, &count, &err), PARE_OK);
    assert_int_equal(count, 2);
}

static void refused(const pare_pick *pick, pare_status wanted, const char *text)
{
    pare_arena *arena = pare_arena_open();
    pare_pick_front front;
    pare_error err = {0};
    assert_int_equal(pare_pick_front_make(pick, arena, &front, &err), wanted);
    assert_string_equal(err.text, text);
    assert_int_equal(front.count, 0);
    pare_arena_close(arena);
}

static void what_cannot_be_asked_is_said(void **state)
{
    (void)state;
    pare_pick_amounts option[2] = {{1, 1, {0}}, {2, 0, {0}}};
    pare_pick_class class[2] = {{2, option}, {0, NULL}};
    pare_pick pick = {.classes = 2, .class = class, .most = pare_pick_no_limit()};
    refused(&pick, PARE_NO, "class 1 has no option");
    pick.classes = 1;
    pick.loads = 5;
    refused(&pick, PARE_BAD_DATA, "5 loads asked, 4 is the most");
    pick.loads = 1;
    option[1].load[0] = INT64_MIN;
    refused(&pick, PARE_BAD_DATA,
            "option 1 of class 0: load -9223372036854775808 is beyond 1073741824");
    pick.loads = 0;
    option[0].mass_100ug = (INT64_C(1) << 30) + 1;
    refused(&pick, PARE_BAD_DATA, "option 0 of class 0: mass 1073741825 is beyond 1073741824");
    option[0] = (pare_pick_amounts){1, INT64_MAX, {0}};
    refused(&pick, PARE_BAD_DATA,
            "option 0 of class 0: money 9223372036854775807 is beyond 1073741824");
    option[0] = (pare_pick_amounts){1, 1, {0}};
    class[0].count = (size_t)UINT32_MAX + 1;
    refused(&pick, PARE_BAD_DATA, "class 0 has 4294967296 options; 4294967295 is the most");
    pick.classes = SIZE_MAX;
    refused(&pick, PARE_BAD_DATA, "18446744073709551615 classes asked, 1048576 is the most");
}

static void a_front_beyond_its_room_is_refused(void **state)
{
    (void)state;
    /* Powers of two, mass against money: all 2^n choices are on the front, and 2^(n + 1) - 1 points are
     * held on the way, the empty one not counted: 2 + 4 + ... */
    enum { N = 12 };
    pare_pick_amounts option[N][2];
    pare_pick_class class[N];
    for (int i = 0; i < N; i++) {
        option[i][0] = (pare_pick_amounts){0, 1 << i, {0}};
        option[i][1] = (pare_pick_amounts){1 << i, 0, {0}};
        class[i] = (pare_pick_class){2, option[i]};
    }
    pare_pick pick = {
        .classes = N, .class = class, .most = pare_pick_no_limit(), .room = (2 << N) - 2};
    pare_arena *arena = pare_arena_open();
    pare_pick_front front;
    pare_error err = {0};
    assert_int_equal(pare_pick_front_make(&pick, arena, &front, &err), PARE_OK);
    assert_int_equal(front.count, 1 << N);
    pare_arena_close(arena);
    pick.room--;
    refused(
        &pick, PARE_UNAVAILABLE,
        "more than 8189 points would have to be held to choose one of each of 12 classes: fewer "
        "options, tighter limits or more room would help");
}

static bool stop_at_once(void *context, const char *doing, size_t done, size_t total)
{
    (void)doing;
    (void)done;
    (void)total;
    ++*(int *)context;
    return false;
}

static void told_to_stop_it_stops(void **state)
{
    (void)state;
    int asked = 0;
    const pare_progress progress = {.step = stop_at_once, .context = &asked};
    const pare_pick_amounts option[2] = {{1, 1, {0}}, {2, 0, {0}}};
    const pare_pick_class class[2] = {{2, option}, {2, option}};
    const pare_pick pick = {
        .classes = 2, .class = class, .most = pare_pick_no_limit(), .progress = &progress};
    pare_arena *arena = pare_arena_open();
    pare_pick_front front;
    pare_error err = {0};
    assert_int_equal(pare_pick_front_make(&pick, arena, &front, &err), PARE_STOPPED);
    assert_int_equal(asked, 1);
    pare_arena_close(arena);
}

/* The largest amounts, as many as there may be of them in a small test: sums and products stay exact. */
static void the_largest_amounts_add_up_exactly(void **state)
{
    (void)state;
    enum { N = 3000 };
    static pare_pick_amounts option[N][3];
    static pare_pick_class class[N];
    for (int i = 0; i < N; i++) {
        option[i][0] = (pare_pick_amounts){PARE_PICK_AMOUNT, -PARE_PICK_AMOUNT, {0}};
        option[i][1] = (pare_pick_amounts){-PARE_PICK_AMOUNT, PARE_PICK_AMOUNT, {0}};
        option[i][2] = (pare_pick_amounts){1, 0, {0}};
        class[i] = (pare_pick_class){3, option[i]};
    }
    pare_pick pick = {.classes = N, .class = class, .most = pare_pick_no_limit()};
    pick.most.money_cents = 0;
    static size_t choice[N];
    pare_pick_amounts sum;
    pare_error err = {0};
    /* Half one way, half the other: 0 and 0; any of the third weighs 1 and leaves one unpaired. */
    assert_int_equal(pare_pick_lightest(&pick, choice, &sum, &err), PARE_OK);
    assert_int_equal(sum.mass_100ug, 0);
    assert_int_equal(sum.money_cents, 0);
    pick.most.money_cents = INT64_MAX;
    assert_int_equal(pare_pick_lightest(&pick, choice, &sum, &err), PARE_OK);
    assert_true(sum.mass_100ug == -(int64_t)N * PARE_PICK_AMOUNT);
    pick.most.money_cents = INT64_MIN;
    assert_int_equal(pare_pick_lightest(&pick, choice, &sum, &err), PARE_NO);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_front_is_what_no_other_choice_beats),
        cmocka_unit_test(the_least_is_the_first_of_all_choices),
        cmocka_unit_test(the_least_is_right_where_the_bound_decides),
        cmocka_unit_test(a_front_answers_for_every_amount_of_money),
        cmocka_unit_test(options_of_a_class_that_nothing_beats),
        cmocka_unit_test(a_load_that_counts_saves_a_beaten_option),
        cmocka_unit_test(what_cannot_be_asked_is_said),
        cmocka_unit_test(a_front_beyond_its_room_is_refused),
        cmocka_unit_test(told_to_stop_it_stops),
        cmocka_unit_test(the_largest_amounts_add_up_exactly),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* rooms: advise craft physics base */
/* Choices one at a time, the lightest first, and the best that truly differ: against every choice made and
 * sorted, on thousands of small questions. */
#include "advise/pick_stream.h"
#include "advise/pick_differ.h"
#include "pick_all.h"

enum { QUESTIONS = 3000 };

static one_choice all[DRAWN_CHOICES];

static void try_stream(const drawn *d, int64_t least)
{
    const size_t count = all_choices(d, all);
    qsort(all, count, sizeof all[0], stream_order);
    pare_pick_stream *stream = NULL;
    pare_error err = {0};
    assert_int_equal(pare_pick_stream_open(&d->pick, least, &stream, &err), PARE_OK);
    size_t choice[DRAWN_CLASSES];
    pare_pick_amounts sum;
    bool more = true;
    for (size_t i = 0; i < count; i++) {
        if (all[i].sum.mass_100ug < least)
            continue;
        assert_true(pare_pick_stream_bound(stream) <= all[i].sum.mass_100ug);
        assert_int_equal(pare_pick_stream_next(stream, choice, &sum, &more, &err), PARE_OK);
        assert_true(more);
        same_sum(&sum, &all[i].sum);
        same_choice(d->pick.classes, choice, all[i].choice);
        assert_true(pare_pick_stream_bound(stream) >= sum.mass_100ug);
    }
    for (int again = 0; again < 2; again++) {
        assert_int_equal(pare_pick_stream_next(stream, choice, &sum, &more, &err), PARE_OK);
        assert_false(more);
        assert_true(pare_pick_stream_bound(stream) == INT64_MAX);
    }
    pare_pick_stream_close(stream);
}

static void a_stream_gives_each_choice_once_in_order(void **state)
{
    (void)state;
    drawn d;
    for (unsigned n = 0; n < QUESTIONS; n++) {
        unsigned seed = n;
        const unsigned sides = 3 + dice(&seed, 30);
        draw_question(&seed, n % (PARE_PICK_LOADS + 1), sides, &d);
        if (n % 2)
            draw_limits(&seed, sides, &d);
        try_stream(&d, n % 3 ? INT64_MIN : (int64_t)dice(&seed, 2 * sides));
    }
}

/* Far more choices than could be made: the first hundred thousand of 10^20 come in order, and the first
 * is the lightest of each class. */
static void a_long_stream_keeps_its_order(void **state)
{
    (void)state;
    enum { N = 20, OPTIONS = 10, STEPS = 100000 };
    static pare_pick_amounts option[N][OPTIONS];
    pare_pick_class class[N];
    unsigned seed = 1;
    for (size_t c = 0; c < N; c++) {
        for (size_t i = 0; i < OPTIONS; i++)
            option[c][i] = (pare_pick_amounts){1 + dice(&seed, 100000), dice(&seed, 10000), {0}};
        class[c] = (pare_pick_class){OPTIONS, option[c]};
    }
    const pare_pick pick = {.classes = N, .class = class, .most = pare_pick_no_limit()};
    pare_pick_stream *stream = NULL;
    pare_error err = {0};
    assert_int_equal(pare_pick_stream_open(&pick, INT64_MIN, &stream, &err), PARE_OK);
    int64_t lightest = 0, before = INT64_MIN;
    for (size_t c = 0; c < N; c++) {
        int64_t least = INT64_MAX;
        for (size_t i = 0; i < OPTIONS; i++)
            least = option[c][i].mass_100ug < least ? option[c][i].mass_100ug : least;
        lightest += least;
    }
    for (size_t i = 0; i < STEPS; i++) {
        size_t choice[N];
        pare_pick_amounts sum;
        bool more = false;
        const int64_t bound = pare_pick_stream_bound(stream);
        assert_int_equal(pare_pick_stream_next(stream, choice, &sum, &more, &err), PARE_OK);
        assert_true(more);
        assert_true(sum.mass_100ug >= before && sum.mass_100ug == bound);
        const pare_pick_amounts added = pare_pick_sum(&pick, choice);
        same_sum(&sum, &added);
        before = sum.mass_100ug;
        if (i == 0)
            assert_int_equal(sum.mass_100ug, lightest);
    }
    pare_pick_stream_close(stream);
}

static void a_stream_beyond_its_room_is_refused(void **state)
{
    (void)state;
    pare_pick_amounts option[4] = {{1, 0, {0}}, {2, 0, {0}}, {3, 0, {0}}, {4, 0, {0}}};
    const pare_pick_class class[3] = {{4, option}, {4, option}, {4, option}};
    const pare_pick pick = {.classes = 3, .class = class, .most = pare_pick_no_limit(), .room = 20};
    pare_pick_stream *stream = NULL;
    pare_error err = {0};
    assert_int_equal(pare_pick_stream_open(&pick, INT64_MIN, &stream, &err), PARE_OK);
    pare_status status = PARE_OK;
    size_t choice[3], given = 0;
    for (bool more = true; status == PARE_OK && more; given += status == PARE_OK) {
        pare_pick_amounts sum;
        status = pare_pick_stream_next(stream, choice, &sum, &more, &err);
    }
    assert_int_equal(status, PARE_UNAVAILABLE);
    assert_non_null(strstr(err.text, "there is no room for more"));
    assert_true(given >= 20 / 3 && given < 20);
    pare_pick_stream_close(stream);
}

static void a_class_without_options_has_no_stream(void **state)
{
    (void)state;
    const pare_pick_class class = {0, NULL};
    const pare_pick pick = {.classes = 1, .class = &class, .most = pare_pick_no_limit()};
    pare_pick_stream *stream = NULL;
    pare_error err = {0};
    assert_int_equal(pare_pick_stream_open(&pick, INT64_MIN, &stream, &err), PARE_NO);
    assert_null(stream);
    pare_pick_stream_close(stream);
}

/* ---- the best that differ ---- */

/* A rule that is no sum, and that nobody is asked about twice. */
typedef struct rule {
    unsigned of;
    size_t asked;
    one_choice last;
} rule;

static bool passes(unsigned of, size_t classes, const size_t choice[])
{
    unsigned mixed = 17;
    for (size_t c = 0; c < classes; c++)
        mixed = mixed * 31 + (unsigned)choice[c];
    return mixed % of == 0;
}

typedef struct asked {
    rule rule;
    const drawn *of;
} asked;

static pare_status judge(void *context, const size_t choice[], const pare_pick_amounts *sum,
                         pare_error *err)
{
    (void)err;
    asked *a = context;
    one_choice now = {.sum = *sum};
    for (size_t c = 0; c < a->of->pick.classes; c++)
        now.choice[c] = choice[c];
    if (a->rule.asked++)
        assert_true(stream_order(&a->rule.last, &now) < 0);
    a->rule.last = now;
    return passes(a->rule.of, a->of->pick.classes, choice) ? PARE_OK : PARE_NO;
}

static bool differ(const drawn *d, const bool counts[], const size_t a[], const size_t b[])
{
    for (size_t c = 0; c < d->pick.classes; c++)
        if (counts[c] && a[c] != b[c])
            return true;
    return false;
}

static void try_differ(unsigned n)
{
    enum { WANTED = 6 };
    drawn d;
    unsigned seed = n;
    const unsigned sides = 3 + dice(&seed, 30);
    draw_question(&seed, n % 3, sides, &d);
    if (n % 2)
        draw_limits(&seed, sides, &d);
    bool counts[DRAWN_CLASSES];
    for (size_t c = 0; c < DRAWN_CLASSES; c++)
        counts[c] = dice(&seed, 3) > 0;
    asked a = {.rule = {.of = 1 + dice(&seed, 6)}, .of = &d};
    const bool judged = n % 5 != 0;

    const size_t count = all_choices(&d, all);
    qsort(all, count, sizeof all[0], stream_order);
    const one_choice *wanted[WANTED];
    size_t due = 0;
    for (size_t i = 0; due < WANTED && i < count; i++) {
        bool good = !judged || passes(a.rule.of, d.pick.classes, all[i].choice);
        for (size_t j = 0; good && j < due; j++)
            good = differ(&d, counts, all[i].choice, wanted[j]->choice);
        if (good)
            wanted[due++] = &all[i];
    }

    pare_arena *arena = pare_arena_open();
    pare_pick_found found[WANTED];
    size_t found_count = 0;
    pare_error err = {0};
    assert_int_equal(pare_pick_differ(&d.pick, counts, WANTED, judged ? judge : NULL, &a, arena,
                                      found, &found_count, &err),
                     PARE_OK);
    assert_int_equal(found_count, due);
    for (size_t i = 0; i < due; i++) {
        same_sum(&found[i].sum, &wanted[i]->sum);
        same_choice(d.pick.classes, found[i].choice, wanted[i]->choice);
    }
    pare_arena_close(arena);
}

static void the_best_that_differ_are_the_first_that_do(void **state)
{
    (void)state;
    for (unsigned n = 0; n < QUESTIONS; n++)
        try_differ(n);
}

static pare_status fails(void *context, const size_t choice[], const pare_pick_amounts *sum,
                         pare_error *err)
{
    (void)context;
    (void)choice;
    (void)sum;
    return pare_fail(err, PARE_BAD_DATA, "no table");
}

static void a_judge_that_fails_ends_the_search(void **state)
{
    (void)state;
    const pare_pick_amounts option[2] = {{1, 0, {0}}, {2, 0, {0}}};
    const pare_pick_class class = {2, option};
    const pare_pick pick = {.classes = 1, .class = &class, .most = pare_pick_no_limit()};
    const bool counts = true;
    pare_arena *arena = pare_arena_open();
    pare_pick_found found;
    size_t count = 0;
    pare_error err = {0};
    assert_int_equal(pare_pick_differ(&pick, &counts, 1, fails, NULL, arena, &found, &count, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text, "no table");
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_stream_gives_each_choice_once_in_order),
        cmocka_unit_test(a_long_stream_keeps_its_order),
        cmocka_unit_test(a_stream_beyond_its_room_is_refused),
        cmocka_unit_test(a_class_without_options_has_no_stream),
        cmocka_unit_test(the_best_that_differ_are_the_first_that_do),
        cmocka_unit_test(a_judge_that_fails_ends_the_search),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

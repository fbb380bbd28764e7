/* rooms: store craft physics base */
/* A bench as it was: its export at the end of a day is, to the byte, the one that was made on that day, for
 * whatever was changed later; and what is dated later is not there. Days are put into the history by hand,
 * since nobody can wait for them. Own rules. */

#include "store/past.h"
#include "near.h"
#include "store_bench.h"

enum { DAYS = 7 };

static const char *const days[DAYS] = {"2026-10-01", "2026-10-02", "2026-10-05", "2026-10-05",
                                       "2026-10-20", "2026-11-01", "2026-11-02"};

static void import_demo(pare_store *store)
{
    const pare_import what = {.path = PARE_SOURCE_DIR "/demo/bench.yaml",
                              .change = {.what = "import"}};
    pare_import_summary summary;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    if (pare_store_import_yaml(store, &what, arena, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_arena_close(arena);
}

/* The last change happened on this day. On a server nobody but its owner can say so. */
static void put_day(const store_fixture *f, const char *day)
{
    char sql[300];
    snprintf(sql, sizeof sql,
             "%sUPDATE change SET time = '%sT23:30:00Z' WHERE number = (SELECT max(number) FROM "
             "change);%s",
             on_server() ? "ALTER TABLE change DISABLE TRIGGER signed;" : "", day,
             on_server() ? "ALTER TABLE change ENABLE TRIGGER signed" : "");
    store_meddle(f, sql);
}

static void alter(pare_store *store, pare_thing thing, const char *name, const char *word)
{
    pare_error err = {0};
    const pare_change change = {.what = "altered"};
    if (pare_store_alter(store, thing, name, 1, &word, &change, NULL, NULL, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static void change_on(pare_store *store, int day)
{
    const pare_limit_change limit = {"all_up", "<= 700 g"};
    const pare_change change = {.what = "changed"};
    pare_error err = {0};
    switch (day) {
    case 0:
        import_demo(store);
        break;
    case 1:
        alter(store, PARE_A_PART, "fr-ridge-5", "mass=119.9g");
        break;
    case 2:
        assert_int_equal(pare_store_set_limits(store, "hedgerow", 1, &limit, &change, &err),
                         PARE_OK);
        break;
    case 3:
        alter(store, PARE_A_CRAFT, "hedgerow", "joints.motor_base.count=8");
        break;
    case 4:
        if (pare_store_copy(store, PARE_A_CRAFT, "hedgerow", "second", &change, &err) != PARE_OK)
            fail_msg("%s", err.text);
        break;
    case 5:
        if (pare_store_remove_craft(store, "drover", true, &change, &err) != PARE_OK)
            fail_msg("%s", err.text);
        break;
    default:
        alter(store, PARE_A_CRAFT, "hedgerow", "motor=mo-2207-1750");
        break;
    }
}

static void open_past(pare_store *store, const char *craft, const char *day, pare_store **past,
                      pare_past_begins *begins)
{
    pare_error err = {0};
    if (pare_store_past(store, craft, day, past, begins, &err) != PARE_OK)
        fail_msg("%s: %s", day, err.text);
}

static void a_past_bench_is_the_one_of_that_day(void **state)
{
    const store_fixture *f = *state;
    char *then[DAYS];
    for (int day = 0; day < DAYS; day++) {
        change_on(f->store, day);
        put_day(f, days[day]);
        then[day] = store_text(f->store);
    }
    for (int day = 0; day < DAYS; day++) {
        pare_store *past = NULL;
        pare_past_begins begins;
        if (day + 1 < DAYS && strcmp(days[day], days[day + 1]) == 0)
            continue; /* the day was not over */
        open_past(f->store, "hedgerow", days[day], &past, &begins);
        store_expect_text(past, then[day], 0, (size_t)day);
        assert_false(begins.later);
        assert_string_equal(begins.day, days[0]);
        pare_store_close(past);
    }
    /* Between two of them, and what was undone meanwhile. */
    pare_store *past = NULL;
    pare_past_begins begins;
    open_past(f->store, "hedgerow", "2026-10-19", &past, &begins);
    store_expect_text(past, then[3], 1, 3);
    pare_store_close(past);
    pare_error err = {0};
    assert_int_equal(store_turn(f->store, true, &err), PARE_OK);
    open_past(f->store, "hedgerow", "2026-11-29", &past, &begins);
    store_expect_text(past, then[5], 1, 5);
    pare_store_close(past);
    store_expect_text(f->store, then[5], 2, 5); /* the bench is as it was */
    for (int day = 0; day < DAYS; day++)
        free(then[day]);
}

static void what_differs_between_two_days_is_listed_once(void **state)
{
    const store_fixture *f = *state;
    static const struct {
        const char *key, *was, *is;
    } wanted[] = {
        {"brief.limits.all_up", "\"<= 620 g\"", "\"<= 700 g\""},
        {"joints.motor_base.count", "16", "8"},
        {"part.fr-ridge-5.mass", "{value: 118.6 g, u: 0.3 g, known: weighed}", "119.9g"},
    };
    for (int day = 0; day < 4; day++) {
        change_on(f->store, day);
        put_day(f, days[day]);
    }
    pare_store *past = NULL;
    pare_past_begins begins;
    pare_error err = {0};
    const pare_entry_change *entry = NULL;
    size_t count = 0;
    pare_arena *arena = pare_arena_open();
    open_past(f->store, "hedgerow", days[0], &past, &begins);
    if (pare_store_craft_between(past, f->store, "hedgerow", arena, &count, &entry, &err) !=
        PARE_OK)
        fail_msg("%s", err.text);
    assert_int_equal(count, sizeof wanted / sizeof wanted[0]);
    for (size_t i = 0; i < count; i++) {
        assert_string_equal(entry[i].key, wanted[i].key);
        assert_string_equal(entry[i].was, wanted[i].was);
        assert_string_equal(entry[i].is, wanted[i].is);
    }
    pare_store_close(past);
    pare_arena_close(arena);
}

/* What is dated later is not known then, though it was written down at once. */
static void what_is_dated_later_is_not_there(void **state)
{
    const store_fixture *f = *state;
    pare_store *past = NULL;
    pare_past_begins begins;
    import_demo(f->store);
    put_day(f, days[0]);
    open_past(f->store, "hedgerow", "2026-05-02", &past, &begins);
    assert_true(begins.later);
    assert_string_equal(begins.day, days[0]);
    char *text = store_text(past);
    assert_non_null(strstr(text, "date: 2026-05-02"));
    assert_null(strstr(text, "date: 2026-05-03, loadout"));
    assert_null(strstr(text, "date: 2026-09-12"));
    free(text);
    pare_store_close(past);
}

static void a_day_before_the_craft_is_refused(void **state)
{
    const store_fixture *f = *state;
    pare_store *past = NULL;
    pare_past_begins begins;
    pare_error err = {0};
    import_demo(f->store);
    put_day(f, days[0]);
    assert_int_equal(pare_store_past(f->store, "hedgerow", "2026-04-10", &past, &begins, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "craft 'hedgerow' was not there yet on 2026-04-10; its first reading, "
                        "flight or swap is of 2026-04-11, and it came onto this bench on "
                        "2026-10-01; right would be a day since then");
    assert_null(past);
    assert_int_equal(pare_store_past(f->store, "bodkin", "2026-09-30", &past, &begins, &err),
                     PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "; it came onto this bench on 2026-10-01"));
    assert_int_equal(pare_store_past(f->store, "hedge", "2026-10-30", &past, &begins, &err),
                     PARE_UNKNOWN);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_past_bench_is_the_one_of_that_day, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(what_differs_between_two_days_is_listed_once, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(what_is_dated_later_is_not_there, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_day_before_the_craft_is_refused, store_setup,
                                        store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* rooms: store craft physics base */
/* Changes and back: an export is the same bytes after every undo and redo, whatever was changed; and a
 * bench of the first version is taken over. Own rules. */
#include <sqlite3.h>

#include "dice.h"
#include "near.h"
#include "store_bench.h"

enum { STEPS = 48, RUNS = 12, SERVER_RUNS = 2 };

static pare_status import(pare_store *store, const char *text, bool dry, const char *carried,
                          pare_error *err)
{
    const pare_import_file file = {"block.stl", carried, carried ? strlen(carried) : 0};
    const pare_import what = {.bytes = text,
                              .length = strlen(text),
                              .name = "b.yaml",
                              .files = carried != NULL,
                              .file = &file,
                              .dry_run = dry,
                              .change = {.what = "import"}};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    const pare_status status = pare_store_import_yaml(store, &what, arena, &summary, err);
    pare_arena_close(arena);
    return status;
}

/* A tetrahedron of one corner's height, as ASCII STL. */
static const char *block(char text[1200], unsigned height)
{
    static const int corner[4][3] = {{0, 0, 0}, {30, 0, 0}, {0, 30, 0}, {0, 0, 1}};
    static const int face[4][3] = {{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {0, 3, 2}};
    int n = snprintf(text, 1200, "solid b\n");
    for (int f = 0; f < 4; f++) {
        n += snprintf(text + n, (size_t)(1200 - n), "facet normal 0 0 0\nouter loop\n");
        for (int v = 0; v < 3; v++) {
            const int *c = corner[face[f][v]];
            n += snprintf(text + n, (size_t)(1200 - n), "vertex %d %d %u\n", c[0], c[1],
                          c[2] ? 5 + height : 0);
        }
        n += snprintf(text + n, (size_t)(1200 - n), "endloop\nendfacet\n");
    }
    snprintf(text + n, (size_t)(1200 - n), "endsolid b\n");
    return text;
}

static char *bytes_of(const char *path)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = calloc(1, 65536);
    assert_non_null(text);
    assert_true(fread(text, 1, 65535, file) > 0);
    fclose(file);
    return text;
}

/* One swap more on the list of a craft, or one that is on it moved on, or all of them off. */
static void take(pare_store *store, const pare_change *said, unsigned *state, pare_error *err)
{
    static const char *const swaps[] = {"side=off", "motor=mo-1", "run.lead.gauge=16"};
    pare_bench *bench = NULL;
    pare_taken taken[PARE_TAKENS];
    int was[PARE_TAKENS];
    if (pare_store_read_craft(store, "field-5", &bench, err) != PARE_OK)
        return;
    const pare_craft *craft = bench->craft[0];
    pare_taken_list list = {craft->takens, craft->takens, taken, was};
    for (size_t i = 0; i < craft->takens; i++) {
        taken[i] = craft->taken[i];
        was[i] = (int)i;
    }
    const unsigned what = dice(state, 4);
    if (what == 0) {
        list.count = 0;
    } else if (what == 1 && list.count) {
        taken[dice(state, (unsigned)list.count)].date[PARE_STAGE_FITTED] = "2026-05-01";
    } else if (list.count < PARE_TAKENS) {
        taken[list.count] =
            (pare_taken){.swap = swaps[dice(state, 3)], .date = {"2026-04-01", NULL}};
        was[list.count++] = -1;
    }
    pare_store_set_taken(store, "field-5", &list, said, err);
    pare_bench_close(bench);
}

/* One change of a random kind; some are refused, and then nothing may have changed. Of two throws in one call C
 * does not say which is first, and clang throws them the other way round than gcc: so each has its own line. */
static void change(pare_store *store, const char *field, unsigned *state)
{
    char text[1600], stl[1200];
    unsigned first, second, third;
    pare_error err = {0};
    const unsigned which = dice(state, 30);
    const pare_change said = {.what = "random", .why = dice(state, 2) ? "because" : NULL};
    pare_limit_change limit = {"all_up", text};
    switch (dice(state, 11)) {
    case 0: /* parts, some of them there already */
        first = dice(state, 3);
        second = dice(state, 9);
        snprintf(text, sizeof text,
                 "pare: 1\nparts:\n- {id: part-%u, kind: other, mass: %u g}\n"
                 "- {id: part-%u, kind: pad, mass: 3 g, owned: %u}\n",
                 which, 1 + second, which + 1, 1 + first);
        import(store, text, false, NULL, &err);
        break;
    case 1: /* a whole bench with craft and records over what there is */
        import(store, field, false, NULL, &err);
        break;
    case 2:
        snprintf(text, sizeof text, "part-%u", which);
        pare_store_remove_part(store, text, &said, &err);
        break;
    case 3: /* in use, most of the time */
        pare_store_remove_part(store, "mo-1", &said, &err);
        break;
    case 4:
        first = dice(state, 2);
        second = dice(state, 2);
        pare_store_remove_craft(store, second ? "field-5" : "other", first, &said, &err);
        break;
    case 5:
        if (dice(state, 2)) {
            take(store, &said, state, &err);
            break;
        }
        snprintf(text, sizeof text, "<= %u g", 500 + 10 * dice(state, 9));
        pare_store_set_limits(store, dice(state, 4) ? "field-5" : "nobody", 1, &limit, &said, &err);
        break;
    case 6: /* a mesh whose bytes change under its name */
        import(store,
               "pare: 1\nparts:\n- {id: printed, kind: printed, body: {mesh: block.stl, unit: mm, "
               "wall: 1 mm, infill: 20 %, density: 1.2 g/cm3}}\n",
               false, block(stl, dice(state, 5)), &err);
        break;
    case 7:
        pare_store_remove_part(store, "printed", &said, &err);
        break;
    case 8: /* refused: the second entry cannot be */
        import(store,
               "pare: 1\nparts:\n- {id: good, kind: pad, mass: 1 g}\n- {id: bad, kind: pad, mass: "
               "-1 g}\n",
               false, NULL, &err);
        break;
    case 9: /* only to see */
        snprintf(text, sizeof text, "pare: 1\nparts:\n- {id: seen-%u, kind: pad, mass: 1 g}\n",
                 which);
        import(store, text, true, NULL, &err);
        break;
    default: /* records, money and a scale */
        first = dice(state, 3);
        second = dice(state, 2);
        third = dice(state, 9);
        snprintf(text, sizeof text,
                 "pare: 1\nscales: [{id: scale-%u, resolution: 0.1 g, repeatability: 0.%u g}]\n"
                 "%sweigh_ins: [{craft: field-5, date: 2026-04-12, scale: scale-%u, of: all, "
                 "reads: %u g}]\n",
                 which % 4, 1 + third, second ? "" : "# ", which % 4, 600 + first);
        import(store, text, false, NULL, &err);
        break;
    }
}

/* Whole by its own judgement (a server judges at each change), and readable as a bench. */
static void expect_whole(const store_fixture *f)
{
    assert_int_equal(store_ask(f, "SELECT count(*) FROM change_open"), 0);
    assert_int_equal(store_ask(f, "SELECT count(*) FROM part WHERE facts IS NULL"), 0);
    if (!on_server()) {
        assert_int_equal(store_ask(f, "SELECT count(*) FROM pragma_foreign_key_check"), 0);
        assert_int_equal(
            store_ask(f,
                      "SELECT count(*) FROM pragma_integrity_check WHERE integrity_check <> 'ok'"),
            0);
    }
    pare_bench *bench = NULL;
    pare_error err = {0};
    if (pare_store_read(f->store, &bench, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_bench_close(bench);
}

static void undo_of_any_change_restores_the_export_byte_for_byte(void **state)
{
    store_fixture *f = *state;
    char *field = bytes_of(PARE_SOURCE_DIR "/tests/data/field-5.yaml");
    size_t kept_changes = 0;
    const unsigned runs = on_server() ? SERVER_RUNS : RUNS;
    for (unsigned run = 0; run < runs; run++) {
        unsigned seed = run;
        char *was[STEPS + 2];
        size_t steps = 0;
        pare_error err = {0};
        was[0] = store_text(f->store);
        for (int i = 0; i < STEPS; i++) {
            const long long before = store_newest(f->store);
            change(f->store, field, &seed);
            if (store_newest(f->store) == before)
                store_expect_text(f->store, was[steps], run,
                                  steps); /* nothing written: nothing done */
            else
                was[++steps] = store_text(f->store);
            /* Now and then back and forth, where a new change forgets what was undone. */
            const unsigned back = dice(&seed, 8) ? 0 : dice(&seed, (unsigned)steps + 1);
            for (unsigned k = 0; k < back; k++) {
                assert_int_equal(store_turn(f->store, true, &err), PARE_OK);
                free(was[steps]);
                steps--;
                store_expect_text(f->store, was[steps], run, steps);
            }
        }
        /* One that cannot be refused, so that nothing undone is left to be done again. */
        assert_int_equal(
            store_take(f->store, "pare: 1\nparts: [{id: last, kind: pad, mass: 1 g}]\n", &err),
            PARE_OK);
        was[++steps] = store_text(f->store);
        kept_changes += steps;
        expect_whole(f);
        for (size_t i = steps; i > 0; i--) {
            assert_int_equal(store_turn(f->store, true, &err), PARE_OK);
            store_expect_text(f->store, was[i - 1], run, i - 1);
        }
        expect_whole(f);
        for (size_t i = 1; i <= steps; i++) {
            assert_int_equal(store_turn(f->store, false, &err), PARE_OK);
            store_expect_text(f->store, was[i], run, i);
        }
        assert_int_equal(store_turn(f->store, false, &err), PARE_BAD_DATA);
        for (size_t i = steps; i > 0; i--)
            assert_int_equal(store_turn(f->store, true, &err), PARE_OK);
        store_expect_text(f->store, was[0], run, 0);
        assert_int_equal(store_turn(f->store, true, &err), PARE_BAD_DATA);
        expect_whole(f);
        for (size_t i = 0; i <= steps; i++)
            free(was[i]);
    }
    free(field);
    assert_true(kept_changes > 5 * runs); /* the dice gave something to undo */
}

static void a_part_in_use_does_not_vanish_and_the_message_says_where(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    char *field = bytes_of(PARE_SOURCE_DIR "/tests/data/field-5.yaml");
    assert_int_equal(import(store, field, false, NULL, &err), PARE_OK);
    free(field);
    char *before = store_text(store);
    assert_int_equal(pare_store_remove_part(store, "mo-1", &(pare_change){0}, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "mo-1 is in use by craft field-5; "));
    assert_int_equal(pare_store_remove_part(store, "mo-11", &(pare_change){0}, &err), PARE_UNKNOWN);
    assert_string_equal(err.text, "no part 'mo-11'; did you mean mo-1?");
    store_expect_text(store, before, 0, 0);
    free(before);
}

static void a_change_says_when_what_and_why(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    pare_change_row *rows = NULL;
    size_t count = 0;
    pare_arena *arena = pare_arena_open();
    assert_int_equal(store_take(store, "pare: 1\nparts: [{id: a, kind: pad, mass: 1 g}]\n", &err),
                     PARE_OK);
    const pare_change said = {.what = "parts remove a", .why = "lost"};
    assert_int_equal(pare_store_remove_part(store, "a", &said, &err), PARE_OK);
    assert_int_equal(pare_store_history(store, 0, arena, &count, &rows, &err), PARE_OK);
    assert_int_equal(count, 2);
    assert_string_equal(rows[0].what, "parts remove a");
    assert_string_equal(rows[0].why, "lost");
    assert_null(rows[1].why);
    assert_int_equal(rows[0].parts, 1);
    assert_int_equal(rows[0].craft + rows[0].records + rows[0].files, 0);
    assert_int_equal(strlen(rows[0].time), strlen("2026-03-01T18:20:05Z"));
    assert_int_equal(rows[0].time[10], 'T');
    pare_arena_close(arena);
}

static void a_bench_of_version_1_is_taken_over_whole(void **state)
{
    ONLY_FILE();
    store_fixture *f = *state;
    pare_error err = {0};
    char *tables = bytes_of(PARE_SOURCE_DIR "/tests/data/bench-1.sql"), path[128];
    snprintf(path, sizeof path, "%s/one.sqlite", f->folder);
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, tables, NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(
        sqlite3_exec(
            db,
            "PRAGMA application_id = 1346458181; PRAGMA user_version = 1;"
            "INSERT INTO setting VALUES ('money', 'EUR');"
            "INSERT INTO part VALUES ('pa', 'pad', 0.003, '{id: pa, kind: pad, mass: 3 g}');"
            "INSERT INTO scale VALUES ('s', '{id: s, resolution: 0.1 g}');",
            NULL, NULL, NULL),
        SQLITE_OK);
    sqlite3_close(db);
    free(tables);
    pare_store *store = NULL;
    if (pare_store_open(path, PARE_STORE_READ, &store, &err) != PARE_OK)
        fail_msg("%s", err.text);
    char *text = store_text(store);
    assert_string_equal(text, "pare: 1\nmoney: EUR\nparts:\n- {id: pa, kind: pad, mass: 3 g}\n"
                              "scales:\n- {id: s, resolution: 0.1 g}\n");
    free(text);
    pare_store_close(store);
    assert_int_equal(pare_store_open(path, PARE_STORE_WRITE, &store, &err), PARE_OK);
    assert_int_equal(pare_store_remove_part(store, "pa", &(pare_change){0}, &err), PARE_OK);
    assert_int_equal(store_turn(store, true, &err), PARE_OK);
    pare_store_close(store);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(undo_of_any_change_restores_the_export_byte_for_byte,
                                        store_setup, store_teardown),
        cmocka_unit_test_setup_teardown(a_part_in_use_does_not_vanish_and_the_message_says_where,
                                        store_setup, store_teardown),
        cmocka_unit_test_setup_teardown(a_change_says_when_what_and_why, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(a_bench_of_version_1_is_taken_over_whole, store_setup,
                                        store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* rooms: store craft physics base */
/* Without memory: the nth allocation of the library fails, for every n, and each time the answer is one
 * line, nothing leaks, and the bench is as it was.
 *
 * The linker puts the functions below in the place of malloc and its like for our own rooms; what
 * SQLite, libyaml and the others allocate is theirs to test. */
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "store/by_key.h"
#include "store/csv_import.h"
#include "store/drawing.h"
#include "store/list_out.h"
#include "store_bench.h"

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *old, size_t size);

static long until_failure = -1; /* below 0: none fails */

static bool fails(void)
{
    return until_failure >= 0 && until_failure-- == 0;
}

void *__wrap_malloc(size_t size)
{
    return fails() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size)
{
    return fails() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *old, size_t size)
{
    return fails() ? NULL : __real_realloc(old, size);
}

typedef pare_status (*work)(pare_store *store, pare_arena *arena, pare_error *err);

/* @param changes  it alters the bench where it succeeds, and must not where it fails */
static void each_allocation_fails_once(pare_store *store, work does, bool changes)
{
    enum { MOST = 20000 };
    char *before = store_text(store);
    long n = 0;
    for (bool done = false; !done; n++) {
        assert_true(n < MOST);
        pare_error err = {0};
        pare_arena *arena = pare_arena_open();
        until_failure = n;
        const pare_status status = does(store, arena, &err);
        done = until_failure >= 0;
        until_failure = -1;
        pare_arena_close(arena);
        if (done && status != PARE_OK)
            fail_msg("%s", err.text);
        if (status != PARE_OK) {
            assert_int_equal(status, PARE_UNAVAILABLE);
            assert_non_null(strstr(err.text, "memory"));
        }
        if (status != PARE_OK || !changes) {
            char *after = store_text(store);
            assert_string_equal(after, before);
            free(after);
        }
    }
    assert_true(n > 3);
    free(before);
}

static pare_status import_text(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_import_summary summary;
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml",
                                .dry_run = true};
    return pare_store_import_yaml(store, &import, arena, &summary, err);
}

static pare_status import_list(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char list[] = "id,kind,mass (g),kv,stator,cells,capacity (mAh),note\n"
                               "m1,motor,31.5,1900,22 x 7 mm,,,a good one\n"
                               "p1,pack,178,,,6,1050,\n"
                               "m2,motor,,1750,23 x 6 mm,,,\n";
    pare_list_summary summary;
    const pare_list_import import = {
        .name = "list.csv", .bytes = list, .length = sizeof list - 1, .dry_run = true};
    return pare_store_import_list(store, &import, arena, &summary, err);
}

/* Some are there and change, one is there and stays, one cannot be, and a column is kept as a note. */
static pare_status merge_list(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char list[] = "id;kind;mass (g);colour;price\n"
                               "vt-w;video_transmitter;4,5;red;19,90\n"
                               "pg-w;pigtail;2,6;;\n"
                               "an-w;antenna;heavy;blue;\n"
                               "new;other;3;;1\n";
    pare_list_summary summary;
    const pare_list_import import = {.name = "list.csv",
                                     .bytes = list,
                                     .length = sizeof list - 1,
                                     .notes = true,
                                     .keep_good = true,
                                     .dry_run = true};
    return pare_store_import_list(store, &import, arena, &summary, err);
}

static pare_status write_json(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_text text = {0};
    const pare_status status = pare_store_export_json(store, &text, err);
    pare_text_free(&text);
    return status;
}

static pare_status write_lists(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const pare_list_kind lists[] = {PARE_LIST_PARTS, PARE_LIST_WEIGH_INS, PARE_LIST_FLIGHTS,
                                           PARE_LIST_STAND};
    pare_status status = PARE_OK;
    for (size_t i = 0; i < sizeof lists / sizeof *lists && status == PARE_OK; i++) {
        pare_text text = {0};
        size_t rows = 0, lefts = 0;
        const char *const *left = NULL;
        status = pare_store_export_csv(store, lists[i], &text, arena, &rows, &lefts, &left, err);
        pare_text_free(&text);
    }
    return status;
}

static pare_status alter_part(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const words[] = {"mass=5 g", "spec.power=7 W"};
    const pare_change change = {.what = "alter"};
    pare_edit_summary summary;
    return pare_store_alter(store, PARE_A_PART, "vt-w", 2, words, &change, arena, &summary,
                            err);
}

static pare_status import_model(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_drawing_taken taken;
    const pare_drawing_import import = {.path = PARE_SOURCE_DIR "/demo/bu-thin.stl",
                                        .kind = "bumper",
                                        .unit = "mm",
                                        .dry_run = true};
    return pare_store_import_drawing(store, &import, arena, &taken, err);
}

static pare_status read_all(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_bench *bench = NULL;
    const pare_status status = pare_store_read(store, &bench, err);
    pare_bench_close(bench);
    return status;
}

static pare_status write_out(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    pare_text text = {0};
    const pare_status status = pare_store_export_yaml(store, &text, err);
    pare_text_free(&text);
    return status;
}

static pare_status there_and_back(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_change_row row;
    const pare_status status = pare_store_undo(store, arena, &row, err);
    if (status != PARE_OK)
        return status;
    const long left = until_failure;
    until_failure = -1; /* the way back is measured by itself */
    const pare_status again = pare_store_redo(store, arena, &row, err);
    until_failure = left;
    return again;
}

static pare_status set_limit(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    const pare_limit_change limit = {"all_up", "<= 555 g"};
    const pare_change change = {.what = "limit"};
    return pare_store_set_limits(store, "weir-5", 1, &limit, &change, err);
}

static void fill(void **state)
{
    pare_import_summary summary;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    const pare_import import = {.path = PARE_SOURCE_DIR "/tests/data/every-key.yaml"};
    if (pare_store_import_yaml(store_of(state), &import, arena, &summary, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_arena_close(arena);
}

static void an_import_of_a_text_fails_whole(void **state)
{
    each_allocation_fails_once(store_of(state), import_text, false);
    fill(state);
    each_allocation_fails_once(store_of(state), import_text, false);
}

static void an_import_of_a_list_fails_whole(void **state)
{
    each_allocation_fails_once(store_of(state), import_list, false);
}

static void a_list_into_parts_that_are_there_fails_whole(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), merge_list, false);
}

static void other_forms_out_say_so(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), write_json, false);
    each_allocation_fails_once(store_of(state), write_lists, false);
}

static void a_part_that_could_not_be_altered_is_as_it_was(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), alter_part, true);
}

static void an_import_of_a_model_fails_whole(void **state)
{
    each_allocation_fails_once(store_of(state), import_model, false);
}

static void reading_and_writing_out_say_so(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), read_all, false);
    each_allocation_fails_once(store_of(state), write_out, false);
}

static void undo_that_fails_has_undone_nothing(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), there_and_back, false);
}

static void a_limit_that_fails_is_not_set(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), set_limit, true);
}

#define WITH_BENCH(test) cmocka_unit_test_setup_teardown(test, store_setup, store_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_BENCH(an_import_of_a_text_fails_whole),
        WITH_BENCH(an_import_of_a_list_fails_whole),
        WITH_BENCH(a_list_into_parts_that_are_there_fails_whole),
        WITH_BENCH(other_forms_out_say_so),
        WITH_BENCH(a_part_that_could_not_be_altered_is_as_it_was),
        WITH_BENCH(an_import_of_a_model_fails_whole),
        WITH_BENCH(reading_and_writing_out_say_so),
        WITH_BENCH(undo_that_fails_has_undone_nothing),
        WITH_BENCH(a_limit_that_fails_is_not_set),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

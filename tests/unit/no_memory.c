/* rooms: store craft physics base */
/* Without memory: the nth allocation of the library fails, for every n, and each time the answer is one
 * line, nothing leaks, and the bench is as it was.
 *
 * The linker puts the functions below in the place of malloc and its like for our own rooms; what
 * SQLite, libyaml and the others allocate is theirs to test. */
#include <stdlib.h>
#include <string.h>

#include "allocation_fails.h"
#include "near.h"
#include "store/by_key.h"
#include "store/csv_import.h"
#include "store/drawing.h"
#include "store/list_out.h"
#include "store_bench.h"

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
    assert_true(n > 1);
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

/* Records are told by their columns; the craft and parts are those of the bench. */
static pare_status import_records(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const lists[] = {
        "craft,date,scale,of,reads\nweir-5,2024-05-01,small,all,540 g\n"
        "weir-5,2024-05-01,small,motor 4,130 g\n",
        "craft;date;pack;lasted (min);put back (mAh)\nweir-5;2024-05-02;;4,5;900\n",
        "motor,propeller,throttle (%),volts (V),current (A),thrust (gf)\n"
        "mo-w,pr-w,50,15.9,8.4,420\nmo-w,pr-w,100,15.2,27,890\n"};
    pare_status status = PARE_OK;
    for (size_t i = 0; i < sizeof lists / sizeof *lists && status == PARE_OK; i++) {
        pare_list_summary summary;
        const pare_list_import import = {.name = "list.csv",
                                         .bytes = lists[i],
                                         .length = strlen(lists[i]),
                                         .keep_good = true,
                                         .dry_run = true};
        status = pare_store_import_list(store, &import, arena, &summary, err);
    }
    return status;
}

static pare_status alter_craft(pare_store *store, pare_arena *arena, pare_error *err)
{
    static const char *const words[] = {"brief.crash_speed=12 m/s", "runs.lead.gauge=16"};
    const pare_change change = {.what = "alter"};
    pare_edit_summary summary;
    return pare_store_alter(store, PARE_A_CRAFT, "weir-5", 2, words, &change, arena, &summary, err);
}

static pare_status copy_craft(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    const pare_change change = {.what = "copy"};
    return pare_store_copy(store, PARE_A_CRAFT, "weir-5", "weir-6", &change, err);
}

static pare_status remove_craft(pare_store *store, pare_arena *arena, pare_error *err)
{
    (void)arena;
    const pare_change change = {.what = "remove"};
    return pare_store_remove_craft(store, "weir-5", true, &change, err);
}

static pare_status list_history(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_change_row *rows = NULL;
    size_t count = 0;
    return pare_store_history(store, 0, arena, &count, &rows, err);
}

static pare_status import_plate(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_drawing_taken taken;
    const pare_drawing_import import = {.path = "/tmp/pare-no-memory-plate.svg",
                                        .outline = true,
                                        .kind = "other",
                                        .thick = "2 mm",
                                        .dry_run = true};
    return pare_store_import_drawing(store, &import, arena, &taken, err);
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
    return pare_store_alter(store, PARE_A_PART, "vt-w", 2, words, &change, arena, &summary, err);
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

static void records_in_a_list_fail_whole(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), import_records, false);
}

static void a_craft_that_could_not_be_changed_is_as_it_was(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), alter_craft, true);
    each_allocation_fails_once(store_of(state), copy_craft, true);
    each_allocation_fails_once(store_of(state), list_history, false);
    each_allocation_fails_once(store_of(state), remove_craft, true);
}

static void an_import_of_a_plate_fails_whole(void **state)
{
    FILE *file = fopen("/tmp/pare-no-memory-plate.svg", "w");
    assert_non_null(file);
    fputs("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"40mm\" height=\"30mm\" "
          "viewBox=\"0 0 40 30\"><path d=\"M0 0 H40 V30 H0 Z\"/>"
          "<circle cx=\"20\" cy=\"15\" r=\"5\"/></svg>\n",
          file);
    fclose(file);
    each_allocation_fails_once(store_of(state), import_plate, false);
    unlink("/tmp/pare-no-memory-plate.svg");
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
        WITH_BENCH(records_in_a_list_fail_whole),
        WITH_BENCH(a_craft_that_could_not_be_changed_is_as_it_was),
        WITH_BENCH(an_import_of_a_plate_fails_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

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
#include "store_fails.h"

/* @param changes  it alters the bench where it succeeds, and must not where it fails */
static void each_allocation_fails_once(pare_store *store, store_work does, bool changes)
{
    enum { MOST = 20000 };
    char *before = store_text(store);
    long n = 0;
    for (bool done = false; !done; n++) {
        assert_true(n < MOST);
        pare_error err;
        const pare_status status = fails_at(n, store, does, &done, &err);
        expect_answer(status, &err, done);
        /* What was wanted for a cache alone may fail unsaid: the change then stands. */
        if (status == PARE_OK && changes && !done && store_turn(store, true, &err) != PARE_OK)
            fail_msg("%s", err.text);
        if (status != PARE_OK || !changes || !done)
            expect_bench(store, before);
    }
    assert_true(n > 1);
    free(before);
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

static void what_was_measured_comes_and_goes_whole(void **state)
{
    fill(state);
    each_allocation_fails_once(store_of(state), import_tunnel, true);
    each_allocation_fails_once(store_of(state), read_stands, false);
    each_allocation_fails_once(store_of(state), take_stand_off, true);
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

static void whatever_else_the_store_does_fails_whole(void **state)
{
    static const struct {
        store_work does;
        bool changes;
    } works[] = {{take_items_off, true}, {add_craft, true},     {alter_price, true},
                 {merge_prices, false},  {import_print, false}, {keep_study, true},
                 {read_kept, false},     {read_study, false}};
    for (size_t i = 0; i < sizeof works / sizeof *works; i++) {
        fill(state);
        each_allocation_fails_once(store_of(state), works[i].does, works[i].changes);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(whatever_else_the_store_does_fails_whole, store_setup,
                                        store_teardown),
        WITH_BENCH(an_import_of_a_text_fails_whole),
        WITH_BENCH(an_import_of_a_list_fails_whole),
        WITH_BENCH(a_list_into_parts_that_are_there_fails_whole),
        WITH_BENCH(other_forms_out_say_so),
        WITH_BENCH(a_part_that_could_not_be_altered_is_as_it_was),
        WITH_BENCH(what_was_measured_comes_and_goes_whole),
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

/* rooms: lib store advise craft physics base */
/* Without memory, the library: the nth allocation fails, for every n, while a text is read and its craft
 * is asked for a sheet, its swaps and its best set; each time the answer is that there is no memory. */
#include "allocation_fails.h"

#include <pare/pare.h>

#include <stdio.h>

static char *text;
static pare_snapshot *bench;

static int read_text(void **state)
{
    enum { MOST = 1 << 18 };
    (void)state;
    FILE *file = fopen(PARE_SOURCE_DIR "/tests/data/field-5.yaml", "rb");
    text = calloc(1, MOST);
    if (!file || !text || fread(text, 1, MOST - 1, file) == 0)
        return -1;
    fclose(file);
    return pare_snapshot_of_text(text, strlen(text), NULL, NULL, &bench, NULL) == PARE_OK ? 0 : -1;
}

static int forget_text(void **state)
{
    (void)state;
    pare_snapshot_close(bench);
    free(text);
    return 0;
}

typedef pare_status (*work)(pare_error *err);

/* @param step  every so many: a whole text takes tens of thousands of allocations */
static void an_allocation_fails(work does, long step)
{
    enum { MOST = 2000000 };
    long n = 0;
    for (bool done = false; !done; n += step) {
        assert_true(n < MOST);
        pare_error err = {PARE_OK, ""};
        until_failure = n;
        const pare_status status = does(&err);
        done = until_failure >= 0;
        until_failure = -1;
        expect_answer(status, &err, done);
    }
    assert_true(n > step);
}

static pare_status read_it(pare_error *err)
{
    pare_snapshot *again;
    const pare_status status = pare_snapshot_of_text(text, strlen(text), NULL, NULL, &again, err);
    assert_true((again != NULL) == (status == PARE_OK));
    pare_snapshot_close(again);
    return status;
}

static pare_status ask_sheet(pare_error *err)
{
    pare_craft_sheet *sheet;
    const pare_status status =
        pare_craft_sheet_compute(bench, pare_snapshot_craft(bench, 0), NULL,
                                 "joint.motor_base.material=titanium", &sheet, err);
    assert_true((sheet != NULL) == (status == PARE_OK));
    pare_craft_sheet_close(sheet);
    return status;
}

static pare_status ask_swaps(pare_error *err)
{
    pare_swap_list *list;
    const pare_status status =
        pare_swap_list_find(bench, pare_snapshot_craft(bench, 0), NULL, NULL, &list, err);
    assert_true((list != NULL) == (status == PARE_OK));
    pare_swap_list_close(list);
    return status;
}

static pare_status ask_best(pare_error *err)
{
    pare_best_set *set;
    const pare_status status =
        pare_best_set_find(bench, pare_snapshot_craft(bench, 0), NULL, NULL, NULL, &set, err);
    assert_true((set != NULL) == (status == PARE_OK));
    pare_best_set_close(set);
    return status;
}

static void a_snapshot_of_a_text(void **state)
{
    (void)state;
    an_allocation_fails(read_it, 7);
}

static void a_sheet(void **state)
{
    (void)state;
    an_allocation_fails(ask_sheet, 1);
}

static void swaps(void **state)
{
    (void)state;
    an_allocation_fails(ask_swaps, 1);
}

static void a_best_set(void **state)
{
    (void)state;
    an_allocation_fails(ask_best, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_snapshot_of_a_text),
        cmocka_unit_test(a_sheet),
        cmocka_unit_test(swaps),
        cmocka_unit_test(a_best_set),
    };
    return cmocka_run_group_tests(tests, read_text, forget_text);
}

/* rooms: advise store craft physics base */
/* What a list of swaps leaves out, on the demo's bench: each name that it tries is tried here as a whole
 * row, with nothing given up early, and one that is not listed must be good for nothing. */
#include <stdlib.h>
#include <string.h>

#include "advise/candidates.h"
#include "advise/row.h"
#include "bench_of.h"
#include "near.h"
#include "store/bench.h"

typedef struct fixture {
    pare_bench *bench;
    pare_arena *arena;
    pare_units *units;
    pare_error err;
    pare_craft craft;
    const pare_desk *desk;
    pare_swaps swaps;
    pare_trial trial;
    pare_swap row;
    int left_out;
} fixture;

static int setup(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    f->bench = bench_of("../../demo/bench.yaml");
    f->arena = pare_arena_open();
    f->units = pare_units_open();
    *state = f;
    return 0;
}

static int teardown(void **state)
{
    fixture *f = *state;
    pare_units_close(f->units);
    pare_arena_close(f->arena);
    pare_bench_close(f->bench);
    free(f);
    return 0;
}

static bool is_listed(const fixture *f, const char *id)
{
    for (size_t i = 0; i < f->swaps.count; i++)
        if (strcmp(f->swaps.swap[i].applied.id, id) == 0)
            return true;
    return false;
}

static bool try_whole(void *context, const char *text, const pare_part *part)
{
    fixture *f = context;
    const pare_swap *row = &f->row;
    pare_swap_name name;
    assert_int_equal(pare_swap_name_read(f->units, text, &name, &f->err), PARE_OK);
    name.part = part;
    if (name.sought || is_listed(f, name.id) ||
        pare_row_fill(f->desk, &name, &f->trial, &f->row, NULL) != PARE_OK ||
        pare_kept_jobs_lost(&f->craft, &row->applied) != 0)
        return true;
    if (row->loosens > 0 || row->grams_kg > 0)
        fail_msg("%s is left out and loosens %s", name.id, row->loosened[0]);
    assert_false(row->change[PARE_FLOWN_TIME] > 0);
    assert_false(row->change[PARE_TWR_HALF] > 0);
    assert_false(row->change[PARE_ROLL] + row->change[PARE_PITCH] > 0);
    f->left_out++;
    return true;
}

static void try_all(fixture *f)
{
    pare_desk *desk;
    assert_int_equal(
        pare_swaps_find(f->bench, &f->craft, -1, PARE_WISH_GRAMS, f->arena, &f->swaps, &f->err),
        PARE_OK);
    assert_int_equal(pare_desk_open(f->bench, &f->craft, -1, f->arena, &desk, &f->err), PARE_OK);
    f->desk = desk;
    assert_true(pare_candidates(&desk->shelf, &f->craft, &desk->loaded, try_whole, f));
}

/* A limit of the brief in place of its own, on each craft. */
static int left_out_with(fixture *f, const pare_limit *limit)
{
    f->left_out = 0;
    for (size_t c = 0; c < f->bench->crafts; c++) {
        pare_craft_copy(f->bench->craft[c], &f->craft);
        f->craft.brief.limits = 1;
        f->craft.brief.limit[0] = *limit;
        try_all(f);
    }
    return f->left_out;
}

static void what_is_left_out_does_no_good(void **state)
{
    fixture *f = *state;
    const pare_limit met = {.key = "all_up", .value = 10};
    assert_in_range(left_out_with(f, &met), 5, 1000);
}

static void nor_does_it_where_a_limit_is_broken(void **state)
{
    fixture *f = *state;
    const pare_limit broken = {.key = "hover", .at_least = true, .value = 36000};
    assert_in_range(left_out_with(f, &broken), 5, 1000);
}

/* As good as the worst rating, whichever that is after the swap. */
static void nor_where_the_limit_on_margins_is_broken_or_the_worst(void **state)
{
    fixture *f = *state;
    const pare_limit broken = {.key = "margin", .at_least = true, .value = 50};
    assert_in_range(left_out_with(f, &broken), 5, 1000);
    const pare_limit worst = {.key = "margin", .at_least = true, .value = 1.0001};
    assert_in_range(left_out_with(f, &worst), 5, 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_left_out_does_no_good),
        cmocka_unit_test(nor_does_it_where_a_limit_is_broken),
        cmocka_unit_test(nor_where_the_limit_on_margins_is_broken_or_the_worst),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}

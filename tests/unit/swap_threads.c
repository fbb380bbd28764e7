/* rooms: store advise craft physics base */
/* swap_threads.c: the list of swaps on several threads, on a bench large enough for them. One thread is
 * the truth, to the last bit. */
#include "swap_fixture.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifdef _OPENMP
#include <omp.h>
#endif

enum { TIMES = 60 };

static void use_threads(int threads)
{
#ifdef _OPENMP
    omp_set_num_threads(threads);
#else
    (void)threads;
#endif
}

static int by_id(const void *a, const void *b)
{
    return strcmp((*(pare_part *const *)a)->id, (*(pare_part *const *)b)->id);
}

/* The fixture's bench with every part many times, each copy a little lighter or heavier. */
static pare_bench grown(const fixture *f)
{
    pare_bench large = *f->bench;
    large.parts = TIMES * f->bench->parts;
    large.part = pare_arena_array(f->arena, large.parts, sizeof large.part[0]);
    assert_non_null(large.part);
    for (size_t i = 0; i < large.parts; i++) {
        const pare_part *of = f->bench->part[i / TIMES];
        pare_part *copy = pare_arena_zeros(f->arena, sizeof *copy);
        assert_non_null(copy);
        *copy = *of;
        large.part[i] = i % TIMES ? copy : f->bench->part[i / TIMES];
        if (i % TIMES == 0)
            continue;
        copy->id = pare_arena_printf(f->arena, "%s-%zu", of->id, i % TIMES);
        copy->mass_kg.value *= 0.8 + 0.005 * (double)(i % TIMES);
        assert_non_null(copy->id);
    }
    qsort(large.part, large.parts, sizeof large.part[0], by_id);
    return large;
}

static void same_list(const pare_swaps *a, const pare_swaps *b)
{
    assert_int_equal(a->count, b->count);
    assert_memory_equal(a->band_kg, b->band_kg, sizeof a->band_kg);
    assert_memory_equal(a->band_money, b->band_money, sizeof a->band_money);
    assert_int_equal(a->free_count, b->free_count);
    assert_memory_equal(a->free_index, b->free_index, a->free_count * sizeof a->free_index[0]);
    for (size_t i = 0; i < a->count; i++) {
        const pare_swap *x = &a->swap[i], *y = &b->swap[i];
        assert_string_equal(x->applied.id, y->applied.id);
        assert_memory_equal(x->change, y->change, sizeof x->change);
        assert_memory_equal(&x->grams_u_kg, &y->grams_u_kg, sizeof x->grams_u_kg);
        assert_int_equal(x->applied.notes, y->applied.notes);
        assert_int_equal(x->breaks, y->breaks);
        assert_int_equal(x->loosens, y->loosens);
    }
}

static void the_number_of_threads_changes_no_bit(void **state)
{
    fixture *f = *state;
    const pare_bench large = grown(f);
    pare_swaps one, many;
    use_threads(1);
    assert_int_equal(
        pare_swaps_find(&large, f->craft, -1, PARE_WISH_GRAMS, f->arena, &one, &f->err), PARE_OK);
    assert_true(one.count > 600);
    for (int threads = 2; threads <= 5; threads += 3) {
        use_threads(threads);
        assert_int_equal(
            pare_swaps_find(&large, f->craft, -1, PARE_WISH_GRAMS, f->arena, &many, &f->err),
            PARE_OK);
        same_list(&one, &many);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_number_of_threads_changes_no_bit)};
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}

/* pick_options.c: the options that nothing in their own class beats (see pick_inside.h).
 *
 * Whatever a beaten option is combined with, the one that beats it does as well or better, so it is on no
 * front; of equal ones the first in the order of options stands for all. */
#include "advise/pick_inside.h"

#include <stdlib.h>

/* Far beyond any sum, near enough to zero for sums with it. */
#define UNLIMITED (INT64_C(1) << 60)

/* The options of one class into their order, the beaten ones left out. */
static pare_status add_class(const pare_pick_class *class, pare_pick_wish wish,
                             pare_pick_item *item, pare_pick_sieve *sieve, size_t number,
                             pare_pick_options *options, pare_error *err)
{
    for (size_t i = 0; i < class->count; i++) {
        pare_pick_row(&class->option[i], wish, options->dims, item[i].row);
        item[i].place = (uint32_t)i;
    }
    qsort(item, class->count, sizeof item[0], pare_pick_item_order);
    pare_pick_sieve_clear(sieve);
    const size_t dims = options->dims;
    const int64_t *before = &options->least_before[number * dims];
    int64_t *after = &options->least_before[(number + 1) * dims];
    int64_t least[PARE_PICK_DIMS] = {0};
    size_t end = options->first[number];
    for (size_t i = 0; i < class->count; i++) {
        if (pare_pick_sieve_beaten(sieve, item[i].row))
            continue;
        const pare_status status = pare_pick_sieve_keep(sieve, item[i].row, err);
        if (status != PARE_OK)
            return status;
        for (size_t d = 0; d < dims; d++) {
            options->row[end * dims + d] = item[i].row[d];
            if (i == 0 || item[i].row[d] < least[d])
                least[d] = item[i].row[d];
        }
        options->place[end++] = item[i].place;
    }
    for (size_t d = 0; d < dims; d++)
        after[d] = before[d] + least[d];
    options->first[number + 1] = end;
    return PARE_OK;
}

pare_status pare_pick_options_make(const pare_pick *pick, pare_pick_wish wish, pare_arena *arena,
                                   pare_pick_options *options, pare_error *err)
{
    size_t all = 0, widest = 0;
    for (size_t i = 0; i < pick->classes; i++) {
        all += pick->class[i].count;
        widest = pick->class[i].count > widest ? pick->class[i].count : widest;
    }
    const size_t dims = 2 + pick->loads;
    *options = (pare_pick_options){
        .classes = pick->classes,
        .dims = dims,
        .first = pare_arena_array(arena, pick->classes + 1, sizeof options->first[0]),
        .row = pare_arena_array(arena, all, dims * sizeof options->row[0]),
        .place = pare_arena_array(arena, all, sizeof options->place[0]),
        .least_before =
            pare_arena_array(arena, pick->classes + 1, dims * sizeof options->least_before[0])};
    if (!options->first || !options->row || !options->place || !options->least_before)
        return pare_no_memory(err);
    pare_pick_row(&pick->most, wish, dims, options->most);
    for (size_t d = 0; d < dims; d++) {
        int64_t *most = &options->most[d];
        *most = *most > UNLIMITED ? UNLIMITED : *most < -UNLIMITED ? -UNLIMITED : *most;
    }
    pare_pick_sieve sieve = {0};
    pare_pick_item *item = malloc((widest + 1) * sizeof *item);
    pare_status status = item ? pare_pick_sieve_open(&sieve, dims, err) : pare_no_memory(err);
    for (size_t i = 0; status == PARE_OK && i < pick->classes; i++)
        status = add_class(&pick->class[i], wish, item, &sieve, i, options, err);
    pare_pick_sieve_close(&sieve);
    free(item);
    return status;
}

/* pick_front.c: the front of all choices, and the lightest or cheapest within limits (see pick.h). */
#include "advise/pick_inside.h"

pare_status pare_pick_front_make(const pare_pick *pick, pare_arena *arena, pare_pick_front *front,
                                 pare_error *err)
{
    *front = (pare_pick_front){.classes = pick->classes};
    pare_pick_options options;
    const pare_pick_step **step = NULL;
    int64_t *row = NULL;
    size_t count = 0;
    pare_status status = pare_pick_check(pick, err);
    if (status == PARE_OK)
        status = pare_pick_options_make(pick, PARE_PICK_MASS, arena, &options, err);
    if (status == PARE_OK)
        status = pare_pick_merge(pick, &options, NULL, arena, &step, &row, &count, err);
    if (status != PARE_OK)
        return status;
    pare_pick_amounts *sum = pare_arena_array(arena, count, sizeof *sum);
    if (!sum)
        return pare_no_memory(err);
    for (size_t i = 0; i < count; i++)
        sum[i] = pare_pick_unrow(&row[i * options.dims], PARE_PICK_MASS, options.dims);
    *front = (pare_pick_front){.count = count, .classes = pick->classes, .sum = sum, .step = step};
    return PARE_OK;
}

void pare_pick_front_choice(const pare_pick_front *front, size_t point, size_t choice[])
{
    for (size_t class = 0; class < front->classes; class ++) {
        const pare_pick_step *step = &front->step[class][point];
        choice[class] = step->place;
        point = step->next;
    }
}

size_t pare_pick_front_lightest(const pare_pick_front *front, int64_t money_cents)
{
    size_t low = 0, high = front->count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (front->sum[middle].money_cents <= money_cents)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

/* The first point of a bounded merge: the least of the wish, the least of the rest among those. */
static pare_status best(const pare_pick *pick, pare_pick_wish wish, size_t choice[],
                        pare_pick_amounts *sum, pare_error *err)
{
    pare_pick_options options;
    pare_pick_bound bound;
    pare_pick_front front = {.classes = pick->classes};
    const pare_pick_step **step = NULL;
    int64_t *row = NULL;
    pare_status status = pare_pick_check(pick, err);
    if (status != PARE_OK)
        return status;
    pare_arena *arena = pare_arena_open();
    status = arena ? pare_pick_options_make(pick, wish, arena, &options, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_pick_bound_make(&options, arena, &bound, err);
    if (status == PARE_OK) {
        pare_pick_bound_reduce(&bound, &options);
        status = pare_pick_merge(pick, &options, &bound, arena, &step, &row, &front.count, err);
    }
    if (status == PARE_OK && front.count == 0)
        status = pare_fail(err, PARE_NO, "no choice is within the limits");
    if (status == PARE_OK) {
        front.step = step;
        pare_pick_front_choice(&front, 0, choice);
        if (sum)
            *sum = pare_pick_unrow(row, wish, options.dims);
    }
    pare_arena_close(arena);
    return status;
}

pare_status pare_pick_lightest(const pare_pick *pick, size_t choice[], pare_pick_amounts *sum,
                               pare_error *err)
{
    return best(pick, PARE_PICK_MASS, choice, sum, err);
}

pare_status pare_pick_cheapest(const pare_pick *pick, size_t choice[], pare_pick_amounts *sum,
                               pare_error *err)
{
    return best(pick, PARE_PICK_MONEY, choice, sum, err);
}

/* pick.c: what every question to the choice engine needs: is it well put, and what does a choice amount
 * to (see pick.h). */
#include "advise/pick_inside.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* Sums then stay below 2^50, and places fit 32 bits. */
enum { MOST_CLASSES = 1 << 20 };
#define MOST_OPTIONS ((size_t)UINT32_MAX)

pare_pick_amounts pare_pick_no_limit(void)
{
    pare_pick_amounts most = {.mass_100ug = INT64_MAX, .money_cents = INT64_MAX};
    for (size_t i = 0; i < PARE_PICK_LOADS; i++)
        most.load[i] = INT64_MAX;
    return most;
}

void pare_pick_row(const pare_pick_amounts *amounts, pare_pick_wish wish, size_t dims,
                   int64_t row[PARE_PICK_DIMS])
{
    row[wish == PARE_PICK_MASS ? 0 : 1] = amounts->mass_100ug;
    row[wish == PARE_PICK_MASS ? 1 : 0] = amounts->money_cents;
    for (size_t i = 0; i < PARE_PICK_LOADS; i++)
        row[2 + i] = 2 + i < dims ? amounts->load[i] : 0;
}

pare_pick_amounts pare_pick_unrow(const int64_t row[], pare_pick_wish wish, size_t dims)
{
    pare_pick_amounts amounts = {.mass_100ug = row[wish == PARE_PICK_MASS ? 0 : 1],
                                 .money_cents = row[wish == PARE_PICK_MASS ? 1 : 0]};
    for (size_t i = 2; i < dims; i++)
        amounts.load[i - 2] = row[i];
    return amounts;
}

int pare_pick_item_order(const void *a, const void *b)
{
    const pare_pick_item *x = a, *y = b;
    for (size_t i = 0; i < PARE_PICK_DIMS; i++)
        if (x->row[i] != y->row[i])
            return x->row[i] < y->row[i] ? -1 : 1;
    return (x->place > y->place) - (x->place < y->place);
}

static pare_status check_amount(int64_t amount, const char *what, size_t class, size_t option,
                                pare_error *err)
{
    if (amount >= -PARE_PICK_AMOUNT && amount <= PARE_PICK_AMOUNT)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "option %zu of class %zu: %s %lld is beyond %d", option,
                     class, what, (long long)amount, PARE_PICK_AMOUNT);
}

static pare_status check_class(const pare_pick_class *class, size_t loads, size_t number,
                               pare_error *err)
{
    pare_status status = PARE_OK;
    if (class->count == 0)
        return pare_fail(err, PARE_NO, "class %zu has no option", number);
    if (class->count > MOST_OPTIONS)
        return pare_fail(err, PARE_BAD_DATA, "class %zu has %zu options; %zu is the most", number,
                         class->count, MOST_OPTIONS);
    for (size_t i = 0; status == PARE_OK && i < class->count; i++) {
        const pare_pick_amounts *option = &class->option[i];
        status = check_amount(option->mass_100ug, "mass", number, i, err);
        if (status == PARE_OK)
            status = check_amount(option->money_cents, "money", number, i, err);
        for (size_t j = 0; status == PARE_OK && j < loads; j++)
            status = check_amount(option->load[j], "load", number, i, err);
    }
    return status;
}

static pare_status check_loads(size_t loads, pare_error *err)
{
    if (loads > PARE_PICK_LOADS)
        return pare_fail(err, PARE_BAD_DATA, "%zu loads asked, %d is the most", loads,
                         PARE_PICK_LOADS);
    return PARE_OK;
}

pare_status pare_pick_check(const pare_pick *pick, pare_error *err)
{
    pare_status status = check_loads(pick->loads, err);
    if (pick->classes > MOST_CLASSES)
        return pare_fail(err, PARE_BAD_DATA, "%zu classes asked, %d is the most", pick->classes,
                         MOST_CLASSES);
    size_t options = 0;
    for (size_t i = 0; status == PARE_OK && i < pick->classes; i++) {
        status = check_class(&pick->class[i], pick->loads, i, err);
        if (status == PARE_OK && pick->class[i].count > MOST_OPTIONS - options)
            return pare_fail(err, PARE_BAD_DATA, "more than %zu options", MOST_OPTIONS);
        options += pick->class[i].count;
    }
    return status;
}

pare_pick_amounts pare_pick_sum(const pare_pick *pick, const size_t choice[])
{
    pare_pick_amounts sum = {0};
    for (size_t i = 0; i < pick->classes; i++) {
        const pare_pick_amounts *option = &pick->class[i].option[choice[i]];
        sum.mass_100ug += option->mass_100ug;
        sum.money_cents += option->money_cents;
        for (size_t j = 0; j < pick->loads; j++)
            sum.load[j] += option->load[j];
    }
    return sum;
}

pare_status pare_pick_undominated(const pare_pick_class *class, size_t loads, size_t kept[],
                                  size_t *count, pare_error *err)
{
    pare_status status = check_loads(loads, err);
    if (status == PARE_OK && class->count)
        status = check_class(class, loads, 0, err);
    if (status != PARE_OK)
        return status;
    pare_arena *arena = pare_arena_open();
    const pare_pick alone = {.classes = class->count ? 1 : 0,
                             .class = class,
                             .loads = loads,
                             .most = pare_pick_no_limit()};
    pare_pick_options options;
    status = arena ? pare_pick_options_make(&alone, PARE_PICK_MASS, arena, &options, err)
                   : pare_no_memory(err);
    if (status == PARE_OK) {
        *count = options.first[alone.classes];
        for (size_t i = 0; i < *count; i++)
            kept[i] = options.place[i];
    }
    pare_arena_close(arena);
    return status;
}

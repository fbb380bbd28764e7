/* shopping.c: what to buy (see shopping.h): parts, screws and wire that the craft after has and the
 * craft before has not. What to cut is cutting.c's.
 *
 * A part that moves from one item to another is no purchase. What was ordered is worked out by the same
 * rules on the craft with only that on it, and what is left to buy is the difference: so half a bag that
 * comes serves what is chosen later. */
#include "advise/shopping.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/difference.h"
#include "advise/money.h"
#include "advise/shopping_inside.h"
#include "advise/swap.h"
#include "advise/taken.h"

/* ---- what a craft has and another has not ---- */

static int count_of(const pare_craft *craft, const pare_part *part)
{
    int count = 0;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->part == part && !item->off && !item->included_in)
            count += item->count;
    }
    return count;
}

static int part_needed(const pare_craft *before, const pare_craft *after, const pare_part *part)
{
    const int more = count_of(after, part) - count_of(before, part);
    return more > 0 ? more : 0;
}

static bool same_screws(const pare_shop_screws *screws, const pare_joint *joint)
{
    return screws->standard == joint->standard && screws->material == joint->material &&
           screws->nominal_m == joint->thread.nominal_m && screws->length_m == joint->length_m;
}

static int screws_needed(const pare_craft *before, const pare_craft *after,
                         const pare_shop_screws *screws)
{
    int count = 0;
    for (size_t i = 0; i < after->joints; i++) {
        const pare_joint *is = &after->joint[i];
        pare_joint was;
        const pare_screws_change change = pare_screws_differ(before, after, is, &was);
        if (!same_screws(screws, is))
            continue;
        if (change == PARE_SCREWS_NEW)
            count += is->count;
        else if (change == PARE_SCREWS_MORE)
            count += is->count - was.count;
    }
    return count;
}

static double wire_needed_m(const pare_craft *before, const pare_craft *after, double gauge)
{
    double length_m = 0;
    for (size_t i = 0; i < after->runs; i++) {
        const pare_run *is = &after->run[i];
        if (is->gauge != gauge || pare_wires_differ(before, after, is, NULL) != PARE_WIRES_NEW)
            continue;
        for (size_t k = 0; k < is->ways; k++)
            length_m += is->way_m[k] * is->times;
    }
    return length_m;
}

/* ---- parts ---- */

static bool has_price(const pare_part *part)
{
    return part->price.given && !part->sought;
}

static const char *seller_of(const pare_shop_part *row)
{
    return has_price(row->part) ? row->part->price.seller : NULL;
}

static int by_seller(const void *a, const void *b)
{
    const pare_shop_part *one = a, *two = b;
    const char *first = seller_of(one), *second = seller_of(two);
    if (!first != !second)
        return first ? -1 : 1;
    const int order = first ? strcmp(first, second) : 0;
    return order ? order : strcmp(one->part->id, two->part->id);
}

static int at_least_0(int count)
{
    return count > 0 ? count : 0;
}

static void add_part(const pare_bench *bench, const pare_craft *before, const pare_craft *ordered,
                     const pare_craft *after, const pare_part *part, pare_shopping *s)
{
    for (size_t i = 0; i < s->parts; i++)
        if (s->part[i].part == part)
            return;
    const int needed = part_needed(before, after, part);
    if (needed == 0)
        return;
    const int spares = pare_spares(bench, part);
    const int coming = ordered ? at_least_0(part_needed(before, ordered, part) - spares) : 0;
    pare_shop_part *row = &s->part[s->parts++];
    *row = (pare_shop_part){.part = part, .needed = needed};
    row->spare = spares < needed ? spares : needed;
    row->coming = coming < needed - row->spare ? coming : needed - row->spare;
    row->sets =
        at_least_0(pare_sets(&part->price, needed - row->spare) - pare_sets(&part->price, coming));
    row->money = row->sets == 0    ? 0
                 : has_price(part) ? row->sets * pare_set_money(&part->price)
                                   : (double)NAN;
}

static bool same_seller(const char *a, const char *b)
{
    return a && b && strcmp(a, b) == 0;
}

/* A seller ships once, for what the dearest asks; where none is said each part comes by itself. */
static void add_seller(pare_shopping *s, size_t i)
{
    const pare_shop_part *row = &s->part[i];
    const char *name = seller_of(row);
    pare_shop_seller *last = s->sellers ? &s->seller[s->sellers - 1] : NULL;
    const double shipping = row->sets && has_price(row->part) ? row->part->price.shipping : 0;
    if (!last || (name ? !same_seller(last->name, name) : last->name != NULL)) {
        last = &s->seller[s->sellers++];
        *last = (pare_shop_seller){.name = name, .first = i};
    }
    last->parts++;
    last->goods += isfinite(row->money) ? row->money : 0;
    last->shipping = name ? fmax(last->shipping, shipping) : last->shipping + shipping;
}

static void find_parts(const pare_bench *bench, const pare_craft *before, const pare_craft *ordered,
                       const pare_craft *after, pare_shopping *s)
{
    for (size_t i = 0; i < after->items; i++)
        if (!after->item[i].off && !after->item[i].included_in)
            add_part(bench, before, ordered, after, after->item[i].part, s);
    qsort(s->part, s->parts, sizeof s->part[0], by_seller);
    for (size_t i = 0; i < s->parts; i++) {
        add_seller(s, i);
        s->priced = s->priced && isfinite(s->part[i].money);
    }
    for (size_t i = 0; i < s->sellers; i++)
        s->money += s->seller[i].goods + s->seller[i].shipping;
}

/* ---- screws and wire ---- */

static int by_thread(const void *a, const void *b)
{
    const pare_shop_screws *one = a, *two = b;
    if (one->nominal_m != two->nominal_m)
        return one->nominal_m < two->nominal_m ? -1 : 1;
    if (one->length_m != two->length_m)
        return one->length_m < two->length_m ? -1 : 1;
    if (one->material != two->material)
        return (int)one->material - (int)two->material;
    return (int)one->standard - (int)two->standard;
}

static void find_screws(const pare_craft *before, const pare_craft *ordered,
                        const pare_craft *after, pare_shopping *s)
{
    for (size_t i = 0; i < after->joints; i++) {
        const pare_joint *joint = &after->joint[i];
        size_t known = 0;
        while (known < s->screws && !same_screws(&s->screw[known], joint))
            known++;
        pare_shop_screws row = {.standard = joint->standard,
                                .material = joint->material,
                                .nominal_m = joint->thread.nominal_m,
                                .length_m = joint->length_m};
        row.needed = known < s->screws ? 0 : screws_needed(before, after, &row);
        if (row.needed == 0)
            continue;
        row.coming = ordered ? screws_needed(before, ordered, &row) : 0;
        row.bags = at_least_0(pare_bags(row.needed) - pare_bags(row.coming));
        row.coming = row.coming < row.needed ? row.coming : row.needed;
        row.money = row.bags * pare_bag_money(row.material);
        s->money += row.money;
        s->screw[s->screws++] = row;
    }
    qsort(s->screw, s->screws, sizeof s->screw[0], by_thread);
}

static int by_gauge(const void *a, const void *b)
{
    const pare_shop_wire *one = a, *two = b;
    return one->gauge < two->gauge ? -1 : one->gauge > two->gauge;
}

static void find_wires(const pare_craft *before, const pare_craft *ordered, const pare_craft *after,
                       pare_shopping *s)
{
    for (size_t i = 0; i < after->runs; i++) {
        const double gauge = after->run[i].gauge;
        size_t known = 0;
        while (known < s->wires && s->wire[known].gauge != gauge)
            known++;
        const double needed_m = known < s->wires ? 0 : wire_needed_m(before, after, gauge);
        if (!(needed_m > 0))
            continue;
        pare_shop_wire *row = &s->wire[s->wires++];
        *row = (pare_shop_wire){.gauge = gauge, .needed_m = needed_m};
        const double coming_m = ordered ? wire_needed_m(before, ordered, gauge) : 0;
        row->metres = at_least_0((int)(ceil(needed_m) - ceil(coming_m)));
        row->coming_m = fmin(coming_m, needed_m);
        row->money = row->metres * pare_wire_money_per_m(gauge);
        s->money += row->money;
    }
    qsort(s->wire, s->wires, sizeof s->wire[0], by_gauge);
}

/* ---- all of it ---- */

void pare_shopping_of(const pare_bench *bench, const pare_craft *before, const pare_craft *ordered,
                      const pare_craft *after, pare_shopping *shopping)
{
    *shopping = (pare_shopping){.priced = true};
    find_parts(bench, before, ordered, after, shopping);
    find_screws(before, ordered, after, shopping);
    find_wires(before, ordered, after, shopping);
    pare_cutting_of(before, after, shopping);
}

/* The craft as first described with only what has reached a stage. */
static void at_stage(const pare_craft *first, pare_stage least, pare_craft *some)
{
    *some = *first;
    some->takens = 0;
    for (size_t i = 0; i < first->takens; i++)
        if (pare_taken_stage(&first->taken[i]) >= least)
            some->taken[some->takens++] = first->taken[i];
}

pare_status pare_shopping_toward(const pare_bench *bench, const pare_craft *first,
                                 const pare_craft *after, pare_shopping *shopping, pare_error *err)
{
    pare_craft *built = malloc(2 * sizeof *built), *ordered = built ? built + 1 : NULL;
    if (!built)
        return pare_no_memory(err);
    at_stage(first, PARE_STAGE_ORDERED, ordered);
    pare_status status = pare_taken_as_built(bench, first, built, NULL, err);
    if (status == PARE_OK)
        status = pare_taken_as_planned(bench, ordered, ordered, NULL, err);
    if (status == PARE_OK)
        pare_shopping_of(bench, built, ordered, after, shopping);
    free(built);
    return status;
}

pare_status pare_shopping_planned(const pare_bench *bench, const pare_craft *first,
                                  const char *tried, pare_shopping *shopping, pare_error *err)
{
    pare_craft *after = malloc(sizeof *after);
    if (!after)
        return pare_no_memory(err);
    pare_status status = pare_taken_as_planned(bench, first, after, NULL, err);
    if (status == PARE_OK && tried)
        status = pare_swap_apply_list(bench, after, tried, after, err);
    if (status == PARE_OK)
        status = pare_shopping_toward(bench, first, after, shopping, err);
    free(after);
    return status;
}

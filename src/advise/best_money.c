/* best_money.c: what a set costs, and what every set that comes of a state costs at the least (see best.h).
 *
 * A set is one order: what the craft with all of it has and the craft as it is has not, as it is sold
 * (shopping.h), less what is got for what comes off for good. That is not the sum of what its swaps cost: screws of
 * another metal and another length are bought once.
 *
 * On the way to a set only what is decided and can no longer be taken away is surely bought; screws and
 * wires may still change, and what is open or may come off may yet be sold. */
#include <math.h>

#include "advise/best_inside.h"
#include "advise/difference.h"

int64_t best_set_cents(const best_search *search, const best_state *whole, pare_shopping *room)
{
    const pare_craft *before = search->desk->craft, *after = &whole->trial.changed;
    pare_shopping_of(search->bench, before, NULL, after, room);
    return room->priced
               ? llround(100 * room->money) - pare_resale_cents(search->ask->resale, before, after)
               : INT64_MAX;
}

/* Whether an item of the craft as it will be is sure to stay what it is. */
static bool is_settled(const best_search *search, const best_state *state, size_t item)
{
    const unsigned char slot = item < PARE_ITEMS ? search->slot_of[item] : BEST_NONE;
    return (slot == BEST_NONE || !best_open(state, slot)) &&
           !best_is_dragged(search, state, state->trial.changed.item[item].part);
}

static int count_settled(const best_search *search, const best_state *state, const pare_part *part)
{
    const pare_craft *craft = &state->trial.changed;
    int count = 0;
    for (size_t i = 0; i < craft->items; i++)
        if (craft->item[i].part == part && !craft->item[i].off && !craft->item[i].included_in &&
            is_settled(search, state, i))
            count += craft->item[i].count;
    return count;
}

static bool is_in(const pare_basket *basket, const pare_part *part)
{
    for (size_t i = 0; i < basket->parts; i++)
        if (basket->part[i].part == part)
            return true;
    return false;
}

void best_surely_bought(const best_search *search, const best_state *state, pare_basket *basket)
{
    const pare_craft *craft = &state->trial.changed;
    *basket = (pare_basket){0};
    for (size_t i = 0; i < craft->items; i++) {
        const pare_part *part = craft->item[i].part;
        if (craft->item[i].off || craft->item[i].included_in || is_in(basket, part))
            continue;
        const int more =
            count_settled(search, state, part) - pare_craft_pieces(search->desk->craft, part);
        if (more > 0)
            pare_basket_part(basket, part, more);
    }
    basket->full = false; /* what has no room is for nothing: still the least */
}

int64_t best_most_back_cents(const best_search *search, const best_state *state)
{
    const pare_resale *resale = search->ask->resale;
    const pare_craft *before = search->desk->craft, *now = &state->trial.changed;
    int64_t cents = 0;
    for (size_t i = 0; resale && i < before->items; i++) {
        const pare_item *was = &before->item[i], *is = &now->item[i];
        const bool stays = !is->off && is->part == was->part && is->count >= was->count &&
                           is_settled(search, state, i);
        if (!was->off && !was->included_in && !stays)
            cents += was->count * pare_resale_each_cents(resale, was->part);
    }
    return cents;
}

int64_t best_basket_cents(const best_search *search, const pare_basket *basket)
{
    bool priced;
    const double money = pare_basket_money(search->bench, basket, &priced);
    return priced ? (int64_t)(100 * money + 0.5) : INT64_MAX;
}

int64_t best_cents_least(const best_search *search, const best_state *state)
{
    pare_basket basket;
    best_surely_bought(search, state, &basket);
    const int64_t cents = best_basket_cents(search, &basket);
    return cents == INT64_MAX ? cents : cents - best_most_back_cents(search, state);
}

bool best_is_too_dear(const best_search *search, const best_state *state)
{
    const int64_t *most = search->ask->most_cents;
    const double *most_min = search->ask->most_work_min;
    return (most && best_cents_least(search, state) > *most) ||
           (most_min && best_is_over(pare_work_sum_least_min(&state->work), *most_min));
}

void best_screws_bought(const best_search *search, const pare_craft *craft, const pare_joint *joint,
                        pare_basket *basket)
{
    pare_joint was;
    const pare_screws_change change = pare_screws_differ(search->desk->craft, craft, joint, &was);
    if (change == PARE_SCREWS_NEW)
        pare_basket_screws(basket, joint, joint->count);
    else if (change == PARE_SCREWS_MORE)
        pare_basket_screws(basket, joint, joint->count - was.count);
}

void best_wire_bought(const best_search *search, const pare_craft *craft, const pare_run *run,
                      pare_basket *basket)
{
    double length_m = 0;
    if (pare_wires_differ(search->desk->craft, craft, run, NULL) != PARE_WIRES_NEW)
        return;
    for (size_t i = 0; i < run->ways; i++)
        length_m += run->way_m[i] * run->times;
    pare_basket_wire(basket, run->gauge, length_m);
}

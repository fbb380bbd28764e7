/* money.c: what must be bought, and for how much (see money.h).
 *
 * Propellers come in sets, screws in bags of ten, wire by the metre; a seller ships once. Screws and
 * wire are no parts on a bench, so theirs are default prices: [E], common practice, no source, in a
 * currency of about a euro. Shipping is not asked for on these: they ride along with something or
 * come from the corner shop. */
#include "advise/money.h"

#include <math.h>
#include <string.h>

static const double bag_money[PARE_SCREW_MATERIALS] = {
    [PARE_STEEL] = 2.0,          [PARE_STAINLESS] = 2.5, [PARE_TITANIUM] = 9.0,
    [PARE_ALUMINIUM_7075] = 6.0, [PARE_ALUMINIUM] = 4.0, [PARE_BRASS] = 3.0,
    [PARE_NYLON] = 2.0,
};

double pare_bag_money(pare_screw_material material)
{
    return bag_money[material];
}

int pare_bags(int screws)
{
    return (screws + PARE_SCREWS_IN_A_BAG - 1) / PARE_SCREWS_IN_A_BAG;
}

double pare_wire_money_per_m(double gauge)
{
    static const struct {
        double up_to, money;
    } rows[] = {{12, 3.0}, {14, 2.2}, {16, 1.6}, {18, 1.2}, {20, 0.9}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (gauge <= rows[i].up_to)
            return rows[i].money;
    return 0.7;
}

void pare_basket_part(pare_basket *basket, const pare_part *part, int count)
{
    for (size_t i = 0; i < basket->parts; i++)
        if (basket->part[i].part == part) {
            basket->part[i].count += count;
            return;
        }
    if (basket->parts == PARE_BASKET_PARTS) {
        basket->full = true;
        return;
    }
    basket->part[basket->parts].part = part;
    basket->part[basket->parts++].count = count;
}

void pare_basket_screws(pare_basket *basket, const pare_joint *joint, int count)
{
    for (size_t i = 0; i < basket->screws; i++)
        if (basket->screw[i].standard == joint->standard &&
            basket->screw[i].material == joint->material &&
            basket->screw[i].nominal_m == joint->thread.nominal_m &&
            basket->screw[i].length_m == joint->length_m) {
            basket->screw[i].count += count;
            return;
        }
    if (basket->screws == PARE_BASKET_SCREWS) {
        basket->full = true;
        return;
    }
    basket->screw[basket->screws].standard = joint->standard;
    basket->screw[basket->screws].material = joint->material;
    basket->screw[basket->screws].nominal_m = joint->thread.nominal_m;
    basket->screw[basket->screws].length_m = joint->length_m;
    basket->screw[basket->screws++].count = count;
}

void pare_basket_wire(pare_basket *basket, double gauge, double length_m)
{
    for (size_t i = 0; i < basket->wires; i++)
        if (basket->wire[i].gauge == gauge) {
            basket->wire[i].length_m += length_m;
            return;
        }
    if (basket->wires == PARE_BASKET_WIRES) {
        basket->full = true;
        return;
    }
    basket->wire[basket->wires].gauge = gauge;
    basket->wire[basket->wires++].length_m = length_m;
}

int pare_sets(const pare_price *price, int count)
{
    const int in_a_set = price->sold_in > 1 ? price->sold_in : 1;
    return (count + in_a_set - 1) / in_a_set;
}

double pare_set_money(const pare_price *price)
{
    return (price->sold_in > 1 ? price->sold_in : 1) * price->each;
}

int pare_spares(const pare_bench *bench, const pare_part *part)
{
    int spares = part->sought ? 0 : part->owned;
    for (size_t c = 0; part->kind != PARE_PACK && spares > 0 && c < bench->crafts; c++)
        for (size_t i = 0; i < bench->craft[c]->items; i++)
            if (bench->craft[c]->item[i].part == part && !bench->craft[c]->item[i].off)
                spares -= bench->craft[c]->item[i].count;
    return spares > 0 ? spares : 0;
}

/* How many of each part in the basket are to be bought. */
static void count_to_buy(const pare_bench *bench, const pare_basket *basket,
                         int to_buy[PARE_BASKET_PARTS])
{
    for (size_t i = 0; i < basket->parts; i++) {
        const int left = basket->part[i].count - pare_spares(bench, basket->part[i].part);
        to_buy[i] = left > 0 ? left : 0;
    }
}

/* Shipping of one part's seller, counted at the seller's dearest part and there alone. */
static double shipping(const pare_basket *basket, const int to_buy[PARE_BASKET_PARTS], size_t i)
{
    const pare_price *price = &basket->part[i].part->price;
    for (size_t k = 0; price->seller && k < basket->parts; k++) {
        const pare_price *other = &basket->part[k].part->price;
        if (k == i || to_buy[k] == 0 || !other->given || !other->seller ||
            strcmp(other->seller, price->seller) != 0)
            continue;
        if (other->shipping > price->shipping || (other->shipping == price->shipping && k < i))
            return 0;
    }
    return price->shipping;
}

double pare_basket_money(const pare_bench *bench, const pare_basket *basket, bool *priced)
{
    int to_buy[PARE_BASKET_PARTS];
    count_to_buy(bench, basket, to_buy);
    double money = 0;
    *priced = !basket->full;
    for (size_t i = 0; i < basket->parts; i++) {
        const int count = to_buy[i];
        const pare_price *price = &basket->part[i].part->price;
        if (count == 0)
            continue;
        if (!price->given || basket->part[i].part->sought) {
            *priced = false;
            continue;
        }
        money += pare_sets(price, count) * pare_set_money(price) + shipping(basket, to_buy, i);
    }
    for (size_t i = 0; i < basket->screws; i++)
        money += pare_bags(basket->screw[i].count) * pare_bag_money(basket->screw[i].material);
    for (size_t i = 0; i < basket->wires; i++)
        money += ceil(basket->wire[i].length_m) * pare_wire_money_per_m(basket->wire[i].gauge);
    return money;
}

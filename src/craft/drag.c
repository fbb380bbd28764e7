/* drag.c: whose drag is whose (see drag.h).
 *
 * Nobody measures all parts, so a sum of them would leave most of the drag out; the law, and a craft's own
 * figure, are of a whole craft. So the whole is taken once and stated parts are what can go from it or
 * come to it: an action camera that is left at home takes its drag along, and no screw changes any. */
#include "craft/drag.h"

#include <math.h>

#include "craft/law.h"

#define CRAFT_U  0.15 /* [E] of a figure that somebody found by flying */
#define LAW_U    0.30
#define LEAST_M2 1e-5

double pare_item_drag_m2(const pare_item *item)
{
    const pare_value *area = &item->part->spec[PARE_SPEC_DRAG_AREA];
    return !item->off && area->given ? item->count * area->value : 0;
}

static double stated_m2(const pare_craft *craft)
{
    double sum_m2 = 0;
    for (size_t i = 0; i < craft->items; i++)
        sum_m2 += pare_item_drag_m2(&craft->item[i]);
    return sum_m2;
}

void pare_drag_settle(pare_craft *craft, double mass_kg)
{
    if (craft->drag_settled)
        return;
    craft->drag_settled = true;
    const int frame = pare_craft_doing(craft, PARE_FRAME);
    const double stated = stated_m2(craft);
    craft->drag_of_parts = !craft->drag_given && frame >= 0 &&
                           craft->item[frame].part->spec[PARE_SPEC_DRAG_AREA].given;
    if (craft->drag_of_parts)
        craft->drag_m2 = stated;
    else if (!craft->drag_given)
        craft->drag_m2 = fmax(pare_law_drag_m2(mass_kg), stated);
    for (size_t i = 0; i < craft->items; i++) {
        pare_item *item = &craft->item[i];
        item->drag_known = item->off || item->part->spec[PARE_SPEC_DRAG_AREA].given;
        item->drag_then_m2 = pare_item_drag_m2(item);
        item->drag_settled = true;
    }
}

/* What an item changes of the whole since it was taken. */
static double change_m2(const pare_item *item)
{
    const double now_m2 = pare_item_drag_m2(item);
    if (!item->drag_settled)
        return now_m2;
    const bool known_now = item->off || item->part->spec[PARE_SPEC_DRAG_AREA].given;
    return item->drag_known && known_now ? now_m2 - item->drag_then_m2 : 0;
}

double pare_craft_drag_m2(const pare_craft *craft)
{
    double whole_m2 = craft->drag_m2;
    for (size_t i = 0; i < craft->items; i++)
        whole_m2 += change_m2(&craft->item[i]);
    return fmax(whole_m2, LEAST_M2);
}

pare_drag_from pare_craft_drag_from(const pare_craft *craft)
{
    if (craft->drag_given)
        return PARE_DRAG_OF_CRAFT;
    return craft->drag_of_parts ? PARE_DRAG_OF_PARTS : PARE_DRAG_BY_LAW;
}

double pare_craft_drag_u_m2(const pare_craft *craft)
{
    if (craft->drag_given)
        return CRAFT_U * pare_craft_drag_m2(craft);
    if (!craft->drag_of_parts)
        return LAW_U * pare_craft_drag_m2(craft);
    double square = 0;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        const pare_value *area = &item->part->spec[PARE_SPEC_DRAG_AREA];
        const double u = item->off || !area->given ? 0 : item->count * area->u;
        square += u * u;
    }
    return sqrt(square);
}

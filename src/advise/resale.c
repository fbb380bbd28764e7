/* resale.c: money back (see resale.h). */
#include "advise/resale.h"

#include <math.h>

int64_t pare_resale_each_cents(const pare_resale *resale, const pare_part *part)
{
    for (size_t i = 0; i < resale->parts; i++)
        if (resale->of[i].part == part)
            return resale->of[i].cents;
    return part->price.given && !part->sought ? llround(100 * resale->share * part->price.each) : 0;
}

int64_t pare_resale_cents(const pare_resale *resale, const pare_craft *before,
                          const pare_craft *after)
{
    int64_t cents = 0;
    for (size_t i = 0; resale && i < before->items; i++) {
        const pare_item *item = &before->item[i];
        size_t first = 0;
        while (before->item[first].part != item->part || before->item[first].off ||
               before->item[first].included_in)
            if (++first >= i)
                break;
        if (item->off || item->included_in || first < i)
            continue;
        const int less =
            pare_craft_pieces(before, item->part) - pare_craft_pieces(after, item->part);
        cents += less > 0 ? less * pare_resale_each_cents(resale, item->part) : 0;
    }
    return cents;
}

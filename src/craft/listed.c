/* listed.c: a part as a list shows it (see listed.h). */
#include "craft/listed.h"

#include <math.h>

pare_listed pare_listed_of(const pare_part *part)
{
    pare_listed listed = {.id = part->id,
                          .maker = part->maker,
                          .kind = part->kind,
                          .sought = part->sought,
                          .mass_kg = part->mass_kg,
                          .price = part->price.given ? part->price.each : (double)NAN,
                          .owned = part->owned};
    listed.judged = pare_surprise_of(part, &listed.surprise);
    return listed;
}

/* learn_ohm.c: how a pack's resistance has gone by its times at the charger (see learn.h).
 *
 * A line through the logarithms of what chargers read, by days. A charger's own error is in all its
 * readings of a pack alike and moves no slope, so that it is kept apart: of a reading's uncertainty this
 * share is common to all. Growth starts from what healthy packs do, so that two readings a day apart
 * foretell nothing. */
#include <math.h>
#include <string.h>

#include "advise/learn_inside.h"
#include "base/day.h"
#include "craft/charged.h"

#define GROWTH   0.02 /* in 30 days, of the logarithm; common practice, no source */
#define GROWTH_U 0.05
#define COMMON                                                                                     \
    0.8 /* of a reading's u: its charger, and how a cell is turned to 25 degC by its law */

static bool counts(const pare_charged *one, int which)
{
    return one->which == which && one->date && one->reading.cells > 0 && one->group.ohm > 0;
}

/* The last day on which it was read; before all days where it never was. */
static double last_day(const pare_part *part, int which)
{
    double day = -INFINITY;
    for (size_t i = 0; i < part->chargings; i++)
        if (counts(&part->charged[i], which))
            day = fmax(day, (double)pare_day_number(part->charged[i].date));
    return day;
}

void pare_learning_ohm(const pare_part *part, int which, pare_learned_pack *pack)
{
    const double until = last_day(part, which);
    /* Normal equations of level and slope, the slope with its prior. */
    double aa = 0, ab = 0, bb = 1 / (GROWTH_U * GROWTH_U), ay = 0, by = GROWTH * bb;
    double common_u = 0;
    pack->charged = 0;
    pack->ohm = pack->ohm_u = pack->growth = pack->growth_u = NAN;
    for (size_t i = 0; i < part->chargings; i++) {
        const pare_charged *one = &part->charged[i];
        if (!counts(one, which))
            continue;
        const double months = ((double)pare_day_number(one->date) - until) / PARE_DAYS_OF_FADE;
        const double all_u = one->group.u / one->group.ohm;
        const double own_u = all_u * sqrt(1 - COMMON * COMMON), weight = 1 / (own_u * own_u);
        aa += weight;
        ab += weight * months;
        bb += weight * months * months;
        ay += weight * log(one->group.ohm);
        by += weight * months * log(one->group.ohm);
        common_u = fmax(common_u, COMMON * all_u);
        pack->charged++;
    }
    if (pack->charged == 0)
        return;
    const double det = aa * bb - ab * ab;
    pack->ohm = exp((bb * ay - ab * by) / det);
    pack->ohm_u = pack->ohm * hypot(sqrt(bb / det), common_u);
    pack->growth = (aa * by - ab * ay) / det;
    pack->growth_u = sqrt(aa / det);
}

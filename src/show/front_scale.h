/* front_scale.h: where a front lies on a chart, whatever it is drawn with. Inside the room only. */
#ifndef PARE_SHOW_FRONT_SCALE_H
#define PARE_SHOW_FRONT_SCALE_H

#include "show/front_chart.h"

/** Which wish goes up, which goes across, and from where to where, in the units that are shown: grams,
 * money, minutes. Minutes go across, since more of them is better and the shade should lie below; else
 * the first wish goes up. */
typedef struct pare_front_scale {
    pare_front_wish up, across;
    double low[2], high[2]; /* of across, of up */
    double step[2];         /* between numbers on them */
} pare_front_scale;

/** @param numbers  at most so many on each; across, up
 * @return false: there is nothing to draw */
bool pare_front_scale_of(const pare_front_chart *chart, const int numbers[2],
                         pare_front_scale *scale);

/** A wish of a point in the unit that is shown. */
double pare_front_shown(const pare_front_point *point, pare_front_wish wish);
/** "all-up, g", "EUR", "minutes"; `money` as in the chart. */
const char *pare_front_unit(const pare_front_chart *chart, pare_front_wish wish, char text[48]);
/** "612.3 g", "45.00 EUR", "5.2 min". */
const char *pare_front_amount(const pare_front_chart *chart, const pare_front_point *point,
                              pare_front_wish wish, char text[64]);

/** The best of the wish that goes up with this much of the other; NAN: no set has that. */
double pare_front_reach(const pare_front_chart *chart, const pare_front_scale *scale,
                        double across);

#endif

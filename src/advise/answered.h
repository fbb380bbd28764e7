/* answered.h: what scale and flights have said since of the promises of a taken swap.
 *
 * A promise is of a difference, so two readings answer it: of the whole craft in one loadout, the last
 * before the swap was fitted and the first since; and flights of one manner, loadout and pack, from the
 * swap fitted before to the one after. What was fitted between two readings is answered together. */
#ifndef PARE_ADVISE_ANSWERED_H
#define PARE_ADVISE_ANSWERED_H

#include "craft/craft.h"
#include "craft/flight_record.h"
#include "craft/weigh_in.h"

typedef struct pare_answer {
    bool there;           /* both sides were measured, and something was promised; else all is 0 */
    size_t swaps;         /* that it answers together */
    size_t before, since; /* readings or flights */
    double promised, promised_u, measured, measured_u;
    double
        real; /* the chance that it changed the way that was promised, by what was measured alone */
} pare_answer;

typedef struct pare_answers {
    pare_answer mass;    /* kg */
    pare_answer minutes; /* s, flown as the brief says */
    pare_answer hover;   /* A */
    pare_answer output;  /* in hover, 0 to 1 */
} pare_answers;

/** @param first     as first described
 *  @param taken     which of its taken swaps; one that is not on has no answers
 *  @param flights   by date
 *  @param flown_s   the sheet's minutes as built; NAN: unknown, and so are the measured ones */
void pare_answers_of(const pare_craft *first, size_t taken, const pare_weighings *weighings,
                     size_t flights, const pare_flight_record flight[], double flown_s,
                     pare_answers *answers);

#endif

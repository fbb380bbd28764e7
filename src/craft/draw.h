/* draw.h: a craft with everything about it drawn at random.
 *
 * As the supplement to the guide says (JCGM 101:2008): every input from its own distribution, masses and
 * stations normal, everything that cannot be less than nothing log-normal, and what shares an error shares
 * what is drawn of it. */
#ifndef PARE_CRAFT_DRAW_H
#define PARE_CRAFT_DRAW_H

#include "craft/doubt.h"

/** Where deviates come from: each call the next one, mean 0, standard deviation 1. */
typedef struct pare_deviates {
    double (*next)(void *context);
    void *context;
} pare_deviates;

/** What is drawn of all but masses and stations: what weighs most in a flight. */
typedef struct pare_drawn {
    double pair[PARE_PAIR_NUMBERS], taught[PARE_TAUGHT_SOURCES], number[PARE_DOUBTED];
} pare_drawn;

/** Deviates of what is doubted, and of nothing else. */
void pare_draw_errors(const pare_doubts *doubts, const pare_deviates *from, pare_drawn *drawn);

/** The craft's body with masses and stations drawn, and the motor's and propeller's own mass.
 * @param rig  of the sheet */
void pare_draw_body(const pare_craft *craft, const pare_sheet *sheet, const pare_deviates *from,
                    pare_rig *rig);

/** Everything but rotors and motors. */
void pare_draw_numbers(const pare_doubts *doubts, const pare_drawn *drawn, pare_moved_rig *rig);

/** Flies a drawn rig: propellers at rest, as flown, and running, each group of figures with the errors
 * that it is about. @param[out] figure  those of flight */
void pare_draw_flight(const pare_craft *craft, const pare_rig *rig, const pare_doubts *doubts,
                      const pare_drawn *drawn, pare_sheet_figure figure[PARE_FIGURES]);

#endif

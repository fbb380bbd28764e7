/* draw_craft.h: a craft with everything about it drawn at random, for tests of uncertainties.
 *
 * As the supplement to the guide says (JCGM 101:2008): every input from its own distribution, masses and
 * stations normal, everything that cannot be less than nothing log-normal. */
#ifndef PARE_TESTS_DRAW_CRAFT_H
#define PARE_TESTS_DRAW_CRAFT_H

#include <stdint.h>

#include "craft/doubt.h"

/** The craft's body with masses and stations drawn, and the motor's and propeller's own mass. */
void draw_body(const pare_craft *craft, const pare_sheet *sheet, uint64_t *dice, pare_rig *rig);

/** Everything but rotors and motors. */
void draw_numbers(const double u[PARE_DOUBTED], uint64_t *dice, pare_moved_rig *rig);

/** Flies a drawn rig: propellers at rest, as flown, and running, each group of figures with the errors
 * that it is about. @param[out] figure  those of flight */
void draw_flight(const pare_craft *craft, const pare_rig *rig, const pare_doubts *doubts,
                 uint64_t *dice, pare_sheet_figure figure[PARE_FIGURES]);

#endif

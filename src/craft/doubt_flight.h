/* doubt_flight.h: how far each figure of flight moves with each number that it rests on. */
#ifndef PARE_CRAFT_DOUBT_FLIGHT_H
#define PARE_CRAFT_DOUBT_FLIGHT_H

#include "craft/craft.h"
#include "craft/sheet.h"
#include "physics/pair.h"

/** The numbers of a rig that somebody may doubt. Each moves through its logarithm but for
 * four, which are as uncertain as they are large or larger. */
typedef enum pare_doubted {
    PARE_DOUBTED_MASS,
    PARE_DOUBTED_THRUST, /* CT at any state */
    PARE_DOUBTED_POWER,  /* CP */
    PARE_DOUBTED_KV,
    PARE_DOUBTED_RESISTANCE,
    PARE_DOUBTED_NO_LOAD,
    PARE_DOUBTED_COOLING, /* the motor's mass, as far as it cools the winding */
    PARE_DOUBTED_PACK_OHM,
    PARE_DOUBTED_CELL_V, /* V: a cell's open-circuit volts between full and empty */
    PARE_DOUBTED_DRAG,
    PARE_DOUBTED_ALWAYS,    /* by a share of what electronics and waiting ESCs draw together */
    PARE_DOUBTED_SWITCHING, /* by a share: the ESC's loss at part throttle */
    PARE_DOUBTED_SPIN,
    PARE_DOUBTED_IXX, /* from here on they follow by a rule */
    PARE_DOUBTED_IYY,
    PARE_DOUBTED_IZZ,
    PARE_DOUBTED_SUM_X,
    PARE_DOUBTED_SUM_Y,
    PARE_DOUBTED_CAPACITY,
    PARE_DOUBTED_LEAD,
    PARE_DOUBTED_BLOCKAGE,
    PARE_DOUBTED_ESC_OHM,
    PARE_DOUBTED_ESC_IDLE, /* by a share */
    PARE_DOUBTED_PULSE,    /* the motor's loss by the ESC's pulses */
    PARE_DOUBTED
} pare_doubted;
enum { PARE_DOUBTED_FLOWN = PARE_DOUBTED_IXX }; /* those before are flown */

/** What figures do when a number changes; 0 where they do not depend on it. */
typedef struct pare_slopes {
    double slope[PARE_DOUBTED][PARE_FIGURES]; /* by change */
    /* What the doubt about a number does to a figure by not acting straight, with the sign of the bend: an
     * uncertainty that adds to that by the slope, by squares. */
    double bend[PARE_DOUBTED][PARE_FIGURES];
} pare_slopes;

/** Whether a figure is log-normal, and what it is counted from.
 *
 * Heat is a product of powers of numbers of which some are known to a half: it moves straight in its
 * logarithm only. Its slopes are those of the logarithm times its rise. Any other figure moves straight
 * enough, or by its bends. */
bool pare_log_normal(const pare_sheet *sheet, int figure, double *begins);

/** Which number each of a pair's errors is about. */
extern const pare_doubted pare_doubted_of_pair[PARE_PAIR_NUMBERS];

/** A rig whose numbers are moved, with its own cells where these are. Not to be copied then. */
typedef struct pare_moved_rig {
    pare_rig rig;
    pare_cell cell;
} pare_moved_rig;

void pare_doubted_move(pare_moved_rig *moved, pare_doubted which, double change);

/** All slopes at a sheet's rig.
 *
 * @param sheet  flown, in all groups or some: no others are flown here
 * @param u      [PARE_DOUBTED] how far each number may be off; what is not doubted is not flown and has
 *               slopes of 0, but for the mass
 * Costs about a flight for each number that is. Allocates nothing. */
void pare_doubted_slopes(const pare_brief *brief, const pare_sheet *sheet,
                         const double u[PARE_DOUBTED], pare_slopes *slopes);

#endif

/* balance.h: what each motor of a craft carries in hover, and what an off-centre mass costs. */
#ifndef PARE_CRAFT_BALANCE_H
#define PARE_CRAFT_BALANCE_H

#include "craft/sheet.h"
#include "physics/each.h"

typedef struct pare_balance {
    bool exists; /* false: why says the reason */
    size_t motors;
    pare_vec3 at_m[PARE_ARMS];
    pare_each motor[PARE_ARMS]; /* from front left, clockwise from above, at half charge */
    double front, rear, left,
        right;              /* shares of those before the middle of the pattern and so on */
    double front_u, left_u; /* from where the centre of mass is; 0 without uncertainties */
    double more;            /* hover power over that of a craft with equal shares, less 1 */
    double most;            /* on a fresh pack, the thrust-to-weight up to which the balance holds:
                                   the motor with the largest share is at full output. A little low,
                                   since the others are taken to load the pack as fully; 0: no figure */
    bool shifts;            /* the craft has a pack to shift */
    double shift_x_m, shift_y_m; /* of the pack, for equal shares */
    char why[PARE_WHY];
} pare_balance;

/** Beside the sheet and not in it: the flight figures have what unequal shares cost, and no limit asks
 * for one motor's.
 *
 * @param sheet  flown; with its uncertainties where the balance is to have them
 * Allocates nothing. */
void pare_craft_balance(const pare_craft *craft, const pare_sheet *sheet, pare_balance *balance);

#endif

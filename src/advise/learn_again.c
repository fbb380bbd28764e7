/* learn_again.c: one flight flown again with other numbers (see learn_inside.h).
 *
 * A flight's charge is its mean current times its minutes. The mean current is that of the flown
 * profile, from the charge before down to the charge that was left; pilots do not fly as they write, so
 * it is uncertain by a share that depends on what was written. What the charger put back is known far
 * better, and with the volts at rest before and after it says what the pack holds, whatever the style. */
#include <math.h>

#include "advise/learn_inside.h"
#include "craft/flight.h"

#define REST_CELL_U_V 0.02 /* a voltmeter's, and how long it rested */
#define LEAST_LEFT    0.02

void pare_learning_move(const pare_learning *learning, const pare_again *again, const double x[],
                        pare_moved_rig *moved)
{
    const pare_doubts *doubts = &learning->doubts;
    moved->rig = again->rig;
    for (int number = 0; number < PARE_PAIR_NUMBERS; number++) {
        const double *root = doubts->drive[0][0].root[number];
        const double change =
            root[PARE_PAIR_THRUST] * x[PARE_OF_THRUST] + root[PARE_PAIR_POWER] * x[PARE_OF_POWER];
        pare_doubted_move(moved, pare_doubted_of_pair[number], change);
    }
    pare_doubted_move(moved, PARE_DOUBTED_DRAG, doubts->u[PARE_DOUBTED_DRAG] * x[PARE_OF_DRAG]);
    pare_doubted_move(moved, PARE_DOUBTED_ALWAYS,
                      doubts->u[PARE_DOUBTED_ALWAYS] * x[PARE_OF_ALWAYS]);
    if (again->pack == PARE_NO_PACK)
        return;
    const size_t pack = PARE_OF_PACKS + PARE_OF_A_PACK * again->pack;
    const pare_pack_prior *prior = &learning->prior[again->pack];
    pare_doubted_move(moved, PARE_DOUBTED_CAPACITY,
                      prior->capacity_u * x[pack] + prior->fade_u * x[pack + 1] * again->since);
}

bool pare_again_fly(const pare_learning *learning, const pare_again *again, const double x[],
                    double *charge_c, double *rest_v)
{
    pare_moved_rig moved;
    pare_endurance endured;
    pare_learning_move(learning, again, x, &moved);
    if (charge_c) {
        if (pare_rig_endure(&moved.rig, again->entries, again->flown, &again->down_to, &endured,
                            NULL) != PARE_OK)
            return false;
        *charge_c = endured.mean_a * again->record->lasted_s;
    }
    if (rest_v) {
        const double taken_c = again->record->put_back_c;
        const double left = again->charge_before - taken_c / moved.rig.pack.capacity_c;
        *rest_v = pare_pack_open_v(&moved.rig.pack, fmin(fmax(left, LEAST_LEFT), 1));
    }
    return true;
}

double pare_again_charge_u(const pare_again *again)
{
    return hypot(again->style_u, PARE_CHARGER_U);
}

size_t pare_again_rows(const pare_learning *learning, const pare_again *again, const double x[],
                       double row[2])
{
    double charge_c, rest_v;
    size_t rows = 0;
    if (!pare_again_fly(learning, again, x, again->says_charge ? &charge_c : NULL,
                        again->says_rest ? &rest_v : NULL))
        return 0;
    if (again->says_charge)
        row[rows++] = log(again->record->put_back_c / charge_c) / pare_again_charge_u(again);
    if (again->says_rest)
        row[rows++] =
            (again->record->rest_after_v - rest_v) / (again->rig.pack.cells * REST_CELL_U_V);
    return rows;
}

/* tabled.h: a best set's question as one of each class, with its physics worked out beforehand.
 *
 * Open are motor, propeller, pack and ESC of a craft, and those of its items that only weigh and cost
 * something: strap, pad, finder, bumper and the like. One class has a group of the four in each option, with
 * the least and the most that a craft of this group may weigh in all and still do its job; the others have an
 * item each. So a general solver needs to know nothing of flight, which is a favour to it: the tables take far
 * longer than the search that they are held against. */
#ifndef PARE_SPEED_TABLED_H
#define PARE_SPEED_TABLED_H

#include "advise/best.h"
#include "advise/pick.h"

enum { TABLED_LEFT = 128, TABLED_CLASSES = 16 };

typedef struct tabled {
    pare_best_ask ask; /* the same question: what is held */
    const char *hold[TABLED_LEFT];
    size_t combinations; /* of the four, as far as names go */
    size_t fit;          /* of those that go on a craft */
    pare_pick
        pick; /* grams and money more than the craft as it is; class 0: groups that can do the job.
                            load 0: how much it weighs more than it may; load 1: how much less than it must */
    pare_pick_class class[TABLED_CLASSES];
    double took_s; /* the tables, on one thread */
} tabled;

/** @param craft  of a bench whose things cost a sum without shipping or bags, as tabled_plain_bench() leaves them
 *  @param arena  holds the tables */
pare_status tabled_make(const pare_bench *bench, const pare_craft *craft, int loadout,
                        pare_arena *arena, tabled *out, pare_error *err);

/** Takes shipping and bags out of all prices, which do not add up over parts, and gives all motors a base that
 * is as deep, so that the screws, which are held, go into each. */
void tabled_plain_bench(const pare_bench *bench);

#endif

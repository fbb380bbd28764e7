/* stand_in.h: what work a part does, and which parts do the same. Only this room uses it. */
#ifndef PARE_ADVISE_STAND_IN_H
#define PARE_ADVISE_STAND_IN_H

#include "craft/craft.h"

/** The kinds of work that a part does, bit (1u << kind), each sort of work under one kind: any ESC
 * counts as PARE_ESC_FOUR, what holds as PARE_HOLDER, what joins an antenna as PARE_PIGTAIL. */
unsigned pare_work_of(const pare_part *part);
/** The work that a kind is there for, under the kind that stands for its sort. */
pare_kind pare_main_kind(pare_kind kind);
/** The same of an item's part, as one such bit. */
unsigned pare_main_work(const pare_part *part);

/** Work that two things of one sort do equally well. What a strap, a standoff or a nameless part does is
 * its own. */
bool pare_work_is_shared(unsigned work);

/** Whether one part may stand in for another at all: the same main work, and what it is made for
 * (an antenna's band, a standoff's length, what a holder holds) where both say so. */
bool pare_stands_in(const pare_part *part, const pare_part *now);

#endif

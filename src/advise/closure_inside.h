/* closure_inside.h: what the files of the closure share. Inside the room only. */
#ifndef PARE_ADVISE_CLOSURE_INSIDE_H
#define PARE_ADVISE_CLOSURE_INSIDE_H

#include "advise/closure.h"

/** Room for the craft that is looked at; NULL without memory. */
struct pare_state *pare_closure_state(pare_arena *arena);

/** Whether an item stands for solder: whoever lists that has thought of what else is melted or tied on. */
bool pare_item_is_solder(const pare_item *item);

/** A craft as it is, in a loadout (-1: none), assembled; lent until the next look at any.
 * @return as pare_closure_pile() */
pare_status pare_closure_look(pare_closure *closure, const char *craft, int loadout,
                              const pare_craft **loaded, const pare_assembly **assembly,
                              pare_error *err);

/** The place of an unknown, made where it is not there and the closure is not settled.
 * @return the number of unknowns: not there, or no memory */
size_t pare_closure_part(pare_closure *closure, const pare_part *part);
size_t pare_closure_line(pare_closure *closure, const char *craft, const char *name, double each_kg,
                         double share_u);
#endif

/* weighed.h: what weigh-ins made of masses, put onto a bench for its sheets. */
#ifndef PARE_ADVISE_WEIGHED_H
#define PARE_ADVISE_WEIGHED_H

#include "advise/closure.h"
#include "craft/weighed.h"

/** Whether any scale said anything of what the closure knows. */
bool pare_closure_has_readings(const pare_closure *closure);

/** What the closure knows of a craft's masses, that parts cannot say by themselves.
 * @param craft  as built, by parts of any bench: they are known by their ids
 * @param arena  holds it */
pare_status pare_weighed_make(pare_closure *closure, const pare_craft *craft, pare_arena *arena,
                              const pare_weighed **weighed, pare_error *err);

/** Puts what a scale says of screws and wire onto a craft that has them, as built or as first described. */
void pare_weighed_put_lines(const pare_weighed *weighed, pare_craft *craft);

/** Puts masses by the scale into the place of what was written: each part's that some reading tells of,
 * and, of the others, what a maker states by the maker's bias, on craft or on the shelf alike, so that
 * two parts of the same mass stay so. */
void pare_weighed_put_parts(const pare_closure *closure, const pare_bench *bench);

#endif

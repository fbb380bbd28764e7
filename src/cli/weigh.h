/* weigh.h: what `pare weigh` is made of. */
#ifndef PARE_CLI_WEIGH_H
#define PARE_CLI_WEIGH_H

#include "advise/promise.h"
#include "base/units.h"
#include "cli/use.h"

/** Reads a word, "motor+motor_base=153.7g", as a weigh-in of a craft.
 *
 * Names are items, joints and runs; without a count all of them are meant, "10*motor_base" is ten; "whole"
 * is the whole craft. Craft, date, scale and loadout of the weigh-in are the caller's.
 * @param craft  as built
 * @param arena  holds what it points to
 * @return PARE_OK; PARE_UNKNOWN: nothing of that name on it, with the nearest; PARE_BAD_DATA: a reading
 *         that is none (overload, negative, not a mass), a count that is none, a name twice */
pare_status weigh_word(const char *word, const pare_craft *craft, pare_units *units,
                       pare_arena *arena, pare_weigh_in *weigh_in, pare_error *err);

/** A weighing going on. */
typedef struct weighing {
    const options *given;
    bench_in_use *use;
    pare_arena *arena;
    const pare_craft *craft; /* as built */
    int loadout;
    const char *date;
    pare_scale scale; /* that promises are for; id "": any */
    pare_weighings weighings;
} weighing;

/** What the bench has of them now. */
pare_status weighing_read(weighing *w, pare_error *err);

/** All readings up to now, adjusted. @param ask  a reading that will be asked about; NULL: none */
pare_status weighing_close(const weighing *w, const pare_weigh_in *ask, pare_closure **closure,
                           pare_error *err);

/** Reads words, promises each reading from what was known before it, and keeps them: all, or none.
 * @param words  [count] */
pare_status weighing_keep(weighing *w, size_t count, const char *const words[], pare_error *err);

/** Asks on the terminal for one reading after another, until an empty line, and keeps each at once. */
pare_status weigh_ask(weighing *w, pare_error *err);

/** Whether a craft has what a word names, "motor+motor_base" or "whole". @return as weigh_word() */
pare_status weigh_check_name(const weighing *w, const char *what, pare_error *err);

/** Reads each operand behind the craft, a name without a reading, from the scale that --live names. What
 * was weighed before one failed stays kept. */
pare_status weigh_live(weighing *w, pare_error *err);

/** Says on the terminal what was kept last, and whether its promise held. */
void weigh_say_kept(const weighing *w);

#endif

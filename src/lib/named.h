/* named.h: what a caller names: a loadout, a wish; and what to say where there is no such thing. */
#ifndef PARE_LIB_NAMED_H
#define PARE_LIB_NAMED_H

#include "advise/swap.h"

/** "no WHAT 'x'; did you mean y?", or a list of what there is where nothing is near and it is short.
 * @param see  said in place of a list that is long or empty: "pare parts lists them"
 * @return PARE_UNKNOWN */
pare_status pare_unknown_name(const char *what, const char *name, size_t count,
                              const char *const names[], const char *see, pare_error *err);

/** A loadout of a craft.
 * @param name  NULL: the first
 * @param[out] index  -1: none was named and the craft has none */
pare_status pare_loadout_named(const pare_craft *craft, const char *name, int *index,
                               pare_error *err);

/** A wish by which swaps are ordered. @param name  NULL: grams */
pare_status pare_wish_asked(const char *name, pare_wish *wish, pare_error *err);

#endif

/* by_scale.h: a bench that was read, by what scales said. For built.c only. */
#ifndef PARE_LIB_BY_SCALE_H
#define PARE_LIB_BY_SCALE_H

#include "lib/built.h"

/** Puts the masses that all weigh-ins of the bench give in the place of those that are written, and what
 * is on a weighed craft and not written down onto it.
 * @param craft  the only one that was read; NULL: all were */
pare_status pare_by_scale(pare_store *store, const char *craft, const pare_built *built,
                          pare_error *err);

#endif

/* late.h: changes that are computed from what was read, and somebody else who changes it meanwhile. */
#ifndef PARE_CLI_LATE_H
#define PARE_CLI_LATE_H

#include "cli/use.h"

/** A change to the first operand, a craft, that was computed from what `use` has read: as change_of(), and
 * refused where somebody else has changed the craft or its parts since.
 * @param[out] late  set to true then: the whole may be done again */
pare_change change_computed(const char *command, const options *given, const bench_in_use *use,
                            bool *late, pare_arena *arena);

/** Reads, computes and changes: all of it again each time that it comes too late, in a queue with others who
 * did, a few times at most.
 *
 * @param once  one attempt; sets *late where its change was refused for that, and has then changed nothing
 * @return as the last attempt; PARE_UNAVAILABLE where that was late, too */
pare_status change_in_time(const options *given,
                           pare_status (*once)(void *with, bool *late, pare_error *err), void *with,
                           pare_error *err);

#endif

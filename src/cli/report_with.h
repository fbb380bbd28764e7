/* report_with.h: what a report has beside the sheet: swaps, what to buy and cut, the best set. */
#ifndef PARE_CLI_REPORT_WITH_H
#define PARE_CLI_REPORT_WITH_H

#include "cli/use.h"
#include "show/report_tables.h"

/** Gathers it, on request and as far as the file has room for it.
 *
 * @param craft    as it is, in no loadout; of the bench, all of which was read
 * @param tried    the craft with what is tried; the same where nothing is
 * @param trial    the swaps that are tried, as one list; NULL: none
 * @param loadout  -1 or an index
 * @param swaps    also every single swap
 * @param arena    holds it
 * @return PARE_OK, also where a plan does not go on or no best set was found: that is said in it */
pare_status report_with_gather(const options *given, const bench_in_use *use,
                               const pare_craft *craft, const pare_craft *tried, const char *trial,
                               int loadout, bool swaps, pare_arena *arena, pare_report_with *with,
                               pare_error *err);

/** Whether the options for it go together: PARE_BAD_DATA. */
pare_status report_with_check(const options *given, pare_error *err);

#endif

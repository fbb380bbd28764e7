/* hover.h: hovers whose output is foretold, typed or imported. */
#ifndef PARE_CLI_HOVER_H
#define PARE_CLI_HOVER_H

#include "cli/use.h"
#include "store/foretell.h"

/** Foretells what an import brings, from the bench as it was before it. */
typedef struct hover_teller {
    pare_foreteller teller; /* for the import */
    const options *given;
    bench_in_use use; /* opened by the first hover that comes */
    bool open;
} hover_teller;

void hover_teller_begin(const options *given, hover_teller *teller);
void hover_teller_end(hover_teller *teller);

/** Keeps the output that --hover says, with what was promised of it.
 * @param craft    as built
 * @param loadout  of it; -1: none
 * @param[out] late   as change_computed() has it
 * @param[out] hover  as it is kept; lent by the options and the date */
pare_status hover_keep(const options *given, const bench_in_use *use, const pare_craft *craft,
                       int loadout, const char *date, bool *late, pare_flight_record *hover,
                       pare_error *err);

#endif

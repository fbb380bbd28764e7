/* row.h: one swap tried and compared with the craft as it is. Only this room uses it. */
#ifndef PARE_ADVISE_ROW_H
#define PARE_ADVISE_ROW_H

#include "advise/edit.h"

/** Where swaps are tried: the craft as it is, its sheet, and room for one changed craft. */
typedef struct pare_desk {
    const pare_bench *bench;
    const pare_craft *craft; /* settled, in no loadout */
    int loadout;
    pare_craft loaded; /* as flown in the loadout */
    pare_sheet sheet;
    pare_craft changed, changed_loaded;
    pare_sheet changed_sheet;
} pare_desk;

/** Lays out the desk. @param arena  holds it */
pare_status pare_desk_open(const pare_bench *bench, const pare_craft *craft, int loadout,
                           pare_arena *arena, pare_desk **desk, pare_error *err);

/** Loads the desk's changed craft and computes its sheet. */
pare_status pare_desk_weigh(pare_desk *desk, pare_error *err);

/** The whole row of one swap: applied, settled, loaded, computed, compared.
 * @return as pare_swap_apply(); the row is good only when PARE_OK. Allocates nothing, but for a
 *         sought part */
pare_status pare_row_fill(pare_desk *desk, const pare_swap_name *name, pare_swap *row,
                          pare_error *err);

/** Whether any margin that held on `before` does not on `after`. */
bool pare_margins_break(const pare_sheet *before, const pare_sheet *after);

/** Jobs that the brief keeps, of those lost: bit (1u << job). */
unsigned pare_kept_jobs_lost(const pare_craft *craft, const pare_applied *applied);

#endif

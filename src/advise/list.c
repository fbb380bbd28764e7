/* list.c: every single swap of a craft (see swap.h).
 *
 * Names are gathered first, so that the room for rows is known and nothing is allocated while they
 * are tried. A name that does not fit makes no row. A sought part is tried last of its item's, and
 * only where nothing on the bench was lighter. */
#include <string.h>

#include "advise/bands.h"
#include "advise/candidates.h"
#include "advise/rank.h"
#include "advise/row.h"

typedef struct listing {
    pare_desk *desk;
    pare_units *units;
    pare_swap *row;
    size_t count, room;
    pare_status status; /* of what stopped the listing */
    pare_error *err;
} listing;

static bool count_one(void *context, const char *name)
{
    (void)name;
    ++*(size_t *)context;
    return true;
}

/* Whether a part of the bench for the same item is among the rows, lighter, and fit to be flown. */
static bool bench_is_lighter(const listing *list, const pare_swap_name *name)
{
    const size_t length = strlen(name->left);
    for (size_t i = list->count; i-- > 0;) {
        const pare_swap *row = &list->row[i];
        if (strncmp(row->applied.id, name->left, length) == 0 && row->applied.id[length] == '=' &&
            strcmp(row->applied.to, "off") != 0 && row->grams_kg > 0 && row->breaks == 0 &&
            !row->applied.open_question)
            return true;
    }
    return false;
}

/* Whether a row is better than nothing for any wish, or loosens what binds. */
static bool does_some_good(const pare_swap *row)
{
    return row->grams_kg > 0 || row->loosens > 0 || row->change[PARE_FLOWN_TIME] > 0 ||
           row->change[PARE_TWR_HALF] > 0 || row->change[PARE_ROLL] + row->change[PARE_PITCH] > 0 ||
           row->change[PARE_CRASH] < 0;
}

static bool try_one(void *context, const char *text)
{
    listing *list = context;
    pare_swap_name name;
    if (list->count == list->room || pare_swap_name_read(list->units, text, &name, NULL) != PARE_OK)
        return true;
    if (name.sought && bench_is_lighter(list, &name))
        return true;
    pare_swap *row = &list->row[list->count];
    const pare_status status = pare_row_fill(list->desk, &name, row, list->err);
    if (status == PARE_UNAVAILABLE) {
        list->status = status;
        return false;
    }
    if (status == PARE_OK && does_some_good(row) &&
        pare_kept_jobs_lost(list->desk->craft, &row->applied) == 0)
        list->count++;
    return true;
}

pare_status pare_swaps_find(const pare_bench *bench, const pare_craft *craft, int loadout,
                            pare_wish wish, pare_arena *arena, pare_swaps *swaps, pare_error *err)
{
    memset(swaps, 0, sizeof *swaps);
    listing list = {.err = err};
    pare_status status = pare_desk_open(bench, craft, loadout, arena, &list.desk, err);
    if (status != PARE_OK)
        return status;
    pare_candidates(bench, craft, &list.desk->loaded, count_one, &list.room);
    list.row = pare_arena_array(arena, list.room + 1, sizeof *list.row);
    list.units = pare_units_open();
    if (!list.row || !list.units) {
        status = pare_no_memory(err);
        goto done;
    }
    pare_candidates(bench, craft, &list.desk->loaded, try_one, &list);
    status = list.status;
    if (status == PARE_OK)
        status = pare_rank(arena, wish, list.count, list.row, &swaps->swap, err);
    if (status != PARE_OK)
        goto done;
    swaps->count = list.count;
    status = pare_bands_fill(list.desk, list.units, arena, swaps, err);
done:
    pare_units_close(list.units);
    return status;
}

/* names.c: the names of all swaps worth trying, untried (see swap.h). For whoever is typing one: a list
 * with all that they do costs a flight each. */
#include <stdlib.h>

#include "advise/candidates.h"
#include "advise/swap.h"

typedef struct gathering {
    pare_arena *arena;
    size_t count, room;
    const char **name;
} gathering;

static bool count_one(void *context, const char *name, const pare_part *part)
{
    (void)name;
    (void)part;
    ++((gathering *)context)->room;
    return true;
}

static bool keep_one(void *context, const char *name, const pare_part *part)
{
    (void)part;
    gathering *to = context;
    if (to->count == to->room)
        return false;
    to->name[to->count] = pare_arena_text(to->arena, name);
    if (!to->name[to->count])
        return false;
    to->count++;
    return to->count < to->room;
}

pare_status pare_swap_names(const pare_bench *bench, const pare_craft *craft, int loadout,
                            pare_arena *arena, size_t *count, const char *const **names,
                            pare_error *err)
{
    gathering to = {.arena = arena};
    pare_shelf shelf;
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_status status = loaded ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_craft_load(craft, loadout, loaded, err);
    if (status == PARE_OK)
        status = pare_shelf_fill(bench, arena, &shelf, err);
    if (status == PARE_OK) {
        pare_candidates(&shelf, craft, loaded, count_one, &to);
        to.name = pare_arena_array(arena, to.room + 1, sizeof *to.name);
        status = to.name ? PARE_OK : pare_no_memory(err);
    }
    if (status == PARE_OK) {
        pare_candidates(&shelf, craft, loaded, keep_one, &to);
        status = to.count == to.room ? PARE_OK : pare_no_memory(err);
    }
    free(loaded);
    *count = to.count;
    *names = to.name;
    return status;
}

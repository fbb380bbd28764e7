/* swaps.c: every single change to a craft, for who calls from C (see pare/swaps.h). */
#include <pare/swaps.h>

#include <math.h>
#include <string.h>

#include "advise/swap.h"
#include "base/plain_locale.h"
#include "lib/inside.h"
#include "lib/named.h"

struct pare_swap_list {
    pare_arena *arena; /* of the list itself, too */
    pare_swaps swaps;
    pare_swap_row *row; /* [swaps.count] */
};

/* Names that stand in a row's own room, `size` bytes each, as a list that ends with a NULL. */
static const char *const *names_of(pare_arena *arena, size_t count, size_t size, const char *first)
{
    const char **names = pare_arena_array(arena, count + 1, sizeof *names);
    for (size_t i = 0; names && i < count; i++)
        names[i] = first + i * size;
    return names;
}

static pare_status row_of(pare_arena *arena, const pare_swap *from, pare_swap_row *row,
                          pare_error *err)
{
    const pare_applied *a = &from->applied;
    *row = (pare_swap_row){
        .id = a->id,
        .from = a->from,
        .to = a->to,
        .band = pare_band_name(from->band),
        .sought = a->sought,
        .grams = 1e3 * from->grams_kg,
        .grams_u = 1e3 * from->grams_u_kg,
        .money = a->priced ? a->money : (double)NAN,
        .money_per_g = from->money_per_g,
        .work_min = a->work_min,
        .brings = names_of(arena, a->brings, sizeof a->bring[0], a->bring[0]),
        .drops = names_of(arena, a->drops, sizeof a->drop[0], a->drop[0]),
        .breaks = names_of(arena, from->breaks, sizeof from->broken[0], from->broken[0]),
        .loosens = names_of(arena, from->loosens, sizeof from->loosened[0], from->loosened[0]),
        .notes = names_of(arena, a->notes, sizeof a->note[0], a->note[0]),
    };
    return row->brings && row->drops && row->breaks && row->loosens && row->notes
               ? PARE_OK
               : pare_no_memory(err);
}

static pare_status find(const pare_snapshot *snapshot, const char *name, const char *loadout,
                        const char *wish, pare_swap_list *list, pare_error *err)
{
    const pare_bench bench = pare_snapshot_bench(snapshot, list->arena);
    const pare_craft *craft = NULL;
    pare_wish by = PARE_WISH_GRAMS;
    int index = -1;
    pare_status status = pare_wish_asked(wish, &by, err);
    if (status == PARE_OK)
        status = pare_built_craft(&snapshot->built, name, &craft, err);
    if (status == PARE_OK)
        status = pare_loadout_named(craft, loadout, &index, err);
    if (status == PARE_OK)
        status = pare_swaps_find(&bench, craft, index, by, list->arena, &list->swaps, err);
    if (status != PARE_OK)
        return status;
    list->row = pare_arena_array(list->arena, list->swaps.count + 1, sizeof list->row[0]);
    if (!list->row)
        return pare_no_memory(err);
    for (size_t i = 0; i < list->swaps.count && status == PARE_OK; i++)
        status = row_of(list->arena, &list->swaps.swap[i], &list->row[i], err);
    return status;
}

pare_status pare_swap_list_find(const pare_snapshot *snapshot, const char *craft,
                                const char *loadout, const char *wish, pare_swap_list **list,
                                pare_error *err)
{
    const locale_t before = pare_plain_locale_enter();
    pare_arena *arena = pare_arena_open();
    pare_swap_list *made = arena ? pare_arena_zeros(arena, sizeof *made) : NULL;
    pare_status status = made ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK) {
        made->arena = arena;
        status = find(snapshot, craft, loadout, wish, made, err);
    }
    *list = status == PARE_OK ? made : NULL;
    if (status != PARE_OK)
        pare_arena_close(arena);
    pare_plain_locale_leave(before);
    return status;
}

void pare_swap_list_close(pare_swap_list *list)
{
    if (list)
        pare_arena_close(list->arena);
}

const pare_swap_row *pare_swap_list_row(const pare_swap_list *list, size_t index)
{
    return index < list->swaps.count ? &list->row[index] : NULL;
}

double pare_swap_list_change(const pare_swap_list *list, size_t index, const char *key)
{
    for (int i = 0; i < PARE_FIGURES && index < list->swaps.count; i++)
        if (strcmp(pare_figure_table[i].key, key) == 0)
            return pare_figure_table[i].scale * list->swaps.swap[index].change[i];
    return (double)NAN;
}

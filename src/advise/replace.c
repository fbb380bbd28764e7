/* replace.c: what can stand in an item's place (see replace.h).
 *
 * The same names are tried, and applied by the same function, as in the list of swaps: what fits is
 * said in one place. Only weighing is done here, so that a search over a large bench flies nothing. */
#include "advise/replace.h"

#include <stdlib.h>
#include <string.h>

#include "advise/candidates.h"
#include "advise/edit.h"

typedef struct replacing {
    pare_shelf shelf;
    const pare_craft *craft;
    int loadout;
    const char *item;
    double now_kg;
    pare_arena *arena;
    pare_units *units;
    size_t count, room;
    pare_replacement *list;
    pare_craft flown, changed, loaded; /* too large for the stack */
    pare_assembly assembly;
    pare_status status;
    pare_error *err;
} replacing;

static bool fail(replacing *r, pare_status status)
{
    r->status = status;
    return false;
}

/* Grams as flown; what does not fit, or cannot be settled or assembled, weighs nothing. */
static bool weigh(replacing *r, const pare_swap_name *name, pare_replacement *made)
{
    pare_basket basket = {0};
    if (pare_swap_edit(&r->shelf, r->craft, name, &r->changed, &made->applied, &basket, NULL) !=
            PARE_OK ||
        pare_craft_load(&r->changed, r->loadout, &r->loaded, NULL) != PARE_OK ||
        pare_assemble(&r->loaded, &r->assembly, NULL) != PARE_OK)
        return false;
    made->saved_kg = r->now_kg - r->assembly.all.mass_kg;
    return true;
}

static bool try_one(void *context, const char *text, const pare_part *part)
{
    replacing *r = context;
    pare_swap_name name;
    const size_t length = strlen(r->item);
    if (!part || strncmp(text, r->item, length) != 0 || text[length] != '=' ||
        pare_swap_name_read(r->units, text, &name, NULL) != PARE_OK || name.sought)
        return true;
    pare_replacement made = {.part = part};
    if (!weigh(r, &name, &made))
        return true;
    if (r->count == r->room) {
        const size_t room = r->room ? 2 * r->room : 32;
        pare_replacement *larger = pare_arena_array(r->arena, room, sizeof *larger);
        if (!larger)
            return fail(r, pare_no_memory(r->err));
        if (r->count)
            memcpy(larger, r->list, r->count * sizeof *larger);
        r->list = larger;
        r->room = room;
    }
    r->list[r->count++] = made;
    return true;
}

static int most_saved_first(const void *a, const void *b)
{
    const pare_replacement *x = a, *y = b;
    if (x->saved_kg != y->saved_kg)
        return x->saved_kg > y->saved_kg ? -1 : 1;
    return strcmp(x->part->id, y->part->id);
}

static pare_status check_item(const pare_craft *craft, const pare_craft *loaded, int loadout,
                              const char *name, pare_error *err)
{
    size_t index;
    const pare_status status = pare_edit_find_item(craft, name, &index, err);
    if (status != PARE_OK)
        return status;
    const pare_item *item = &craft->item[index];
    if (item->included_in)
        return pare_fail(err, PARE_BAD_DATA, "item '%s' comes with '%s'; right would be that one",
                         name, item->included_in);
    if (item->off)
        return pare_fail(err, PARE_BAD_DATA, "item '%s' is off: there is nothing to replace", name);
    if (loaded->item[index].off || loaded->item[index].part != item->part)
        return pare_fail(err, PARE_BAD_DATA,
                         "item '%s' is not flown in loadout '%s' as it stands in the craft; right "
                         "would be --loadout with another",
                         name, loadout >= 0 ? craft->loadout[loadout].name : "");
    return PARE_OK;
}

static pare_status find(replacing *r, pare_error *err)
{
    pare_status status = pare_craft_load(r->craft, r->loadout, &r->flown, err);
    if (status == PARE_OK)
        status = check_item(r->craft, &r->flown, r->loadout, r->item, err);
    if (status == PARE_OK)
        status = pare_assemble(&r->flown, &r->assembly, err);
    if (status != PARE_OK)
        return status;
    r->now_kg = r->assembly.all.mass_kg;
    pare_candidates(&r->shelf, r->craft, &r->flown, try_one, r);
    if (r->status == PARE_OK && r->count > 1)
        qsort(r->list, r->count, sizeof r->list[0], most_saved_first);
    return r->status;
}

pare_status pare_replacements_find(const pare_bench *bench, const pare_craft *craft, int loadout,
                                   const char *item, pare_arena *arena, size_t *count,
                                   pare_replacement **list, pare_error *err)
{
    replacing *r = pare_arena_zeros(arena, sizeof *r);
    if (!r)
        return pare_no_memory(err);
    r->craft = craft;
    r->loadout = loadout;
    r->item = item;
    r->arena = arena;
    r->err = err;
    r->units = pare_units_open();
    pare_status status = r->units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_shelf_fill(bench, arena, &r->shelf, err);
    if (status == PARE_OK)
        status = find(r, err);
    pare_units_close(r->units);
    *count = r->count;
    *list = r->list;
    return status;
}

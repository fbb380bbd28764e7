/* craft.c: finding things in a craft and a bench by name, and flying a craft in a loadout.
 *
 * Craft are small, so their lists are searched in order; a bench may be large, so its lists are
 * sorted and searched by halves. */
#include "craft/craft.h"

#include <assert.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

/* What stands before the lists goes whole, and of each list what is used. An item never has more
 * stations than it has room for: who fills it sees to that. */
void pare_craft_copy(const pare_craft *from, pare_craft *to)
{
    static_assert(sizeof *from == offsetof(pare_craft, item) + sizeof from->item +
                                      sizeof from->joint + sizeof from->run + sizeof from->loadout +
                                      sizeof from->takens + sizeof from->taken,
                  "a member that stands among the lists or behind them must be copied below");
    static_assert(sizeof from->item[0] == offsetof(pare_item, at_m) + sizeof from->item[0].at_m,
                  "a member behind an item's stations must be copied below");
    memcpy(to, from, offsetof(pare_craft, item));
    for (size_t i = 0; i < from->items; i++)
        memcpy(&to->item[i], &from->item[i],
               offsetof(pare_item, at_m) + from->item[i].stations * sizeof from->item[i].at_m[0]);
    memcpy(to->joint, from->joint, from->joints * sizeof from->joint[0]);
    memcpy(to->run, from->run, from->runs * sizeof from->run[0]);
    memcpy(to->loadout, from->loadout, from->loadouts * sizeof from->loadout[0]);
    to->takens = from->takens;
    memcpy(to->taken, from->taken, from->takens * sizeof from->taken[0]);
}

const pare_limit *pare_brief_limit(const pare_brief *brief, const char *stem)
{
    for (size_t i = 0; i < brief->limits; i++)
        if (strcmp(brief->limit[i].key, stem) == 0)
            return &brief->limit[i];
    return NULL;
}

int pare_craft_item(const pare_craft *craft, const char *name)
{
    for (size_t i = 0; i < craft->items; i++)
        if (pare_same_name(craft->item[i].name, name))
            return (int)i;
    return -1;
}

int pare_craft_joint(const pare_craft *craft, const char *name)
{
    for (size_t i = 0; i < craft->joints; i++)
        if (pare_same_name(craft->joint[i].name, name))
            return (int)i;
    return -1;
}

int pare_craft_run(const pare_craft *craft, const char *name)
{
    for (size_t i = 0; i < craft->runs; i++)
        if (pare_same_name(craft->run[i].name, name))
            return (int)i;
    return -1;
}

int pare_craft_loadout(const pare_craft *craft, const char *name)
{
    for (size_t i = 0; i < craft->loadouts; i++)
        if (pare_same_name(craft->loadout[i].name, name))
            return (int)i;
    return -1;
}

int pare_craft_doing(const pare_craft *craft, pare_kind kind)
{
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && pare_part_does(craft->item[i].part, kind))
            return (int)i;
    return -1;
}

int pare_craft_esc(const pare_craft *craft)
{
    const int four = pare_craft_doing(craft, PARE_ESC_FOUR);
    return four >= 0 ? four : pare_craft_doing(craft, PARE_ESC_ONE);
}

const pare_stand_table *pare_craft_stands(const pare_craft *craft, size_t *found)
{
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    const int propeller = pare_craft_doing(craft, PARE_PROPELLER);
    *found = 0;
    if (motor < 0 || propeller < 0)
        return NULL;
    return pare_stand_of(craft->stands, craft->stand, craft->item[motor].part->id,
                         craft->item[propeller].part->id, found);
}

static int part_by_id(const void *key, const void *member)
{
    return strcmp(key, (*(const pare_part *const *)member)->id);
}

const pare_part *pare_bench_part(const pare_bench *bench, const char *id)
{
    if (bench->parts == 0)
        return NULL;
    pare_part *const *found =
        bsearch(id, bench->part, bench->parts, sizeof bench->part[0], part_by_id);
    return found ? *found : NULL;
}

static int craft_by_name(const void *key, const void *member)
{
    return strcmp(key, (*(const pare_craft *const *)member)->name);
}

const pare_craft *pare_bench_craft(const pare_bench *bench, const char *name)
{
    if (bench->crafts == 0)
        return NULL;
    pare_craft *const *found =
        bsearch(name, bench->craft, bench->crafts, sizeof bench->craft[0], craft_by_name);
    return found ? *found : NULL;
}

pare_status pare_craft_load(const pare_craft *craft, int index, pare_craft *loaded, pare_error *err)
{
    if (loaded != craft)
        pare_craft_copy(craft, loaded);
    if (index < 0)
        return PARE_OK;
    if ((size_t)index >= craft->loadouts)
        return pare_fail(err, PARE_UNKNOWN, "craft '%s' has %zu loadouts, not %d", craft->name,
                         craft->loadouts, index + 1);
    const pare_loadout *loadout = &craft->loadout[index];
    for (size_t i = 0; i < loadout->without; i++) {
        const int item = pare_craft_item(craft, loadout->off[i]);
        if (item >= 0)
            loaded->item[item].off = true;
    }
    for (size_t i = 0; i < loadout->uses; i++) {
        const int item = pare_craft_item(craft, loadout->use[i].item);
        if (item < 0)
            return pare_fail(err, PARE_BAD_DATA,
                             "loadout '%s' uses part '%s' for item '%s', which the craft has not",
                             loadout->name, loadout->use[i].part->id, loadout->use[i].item);
        loaded->item[item].part = loadout->use[i].part;
    }
    return pare_craft_settle(loaded, err);
}

int pare_craft_pieces(const pare_craft *craft, const pare_part *part)
{
    int count = 0;
    for (size_t i = 0; i < craft->items; i++)
        if (craft->item[i].part == part && !craft->item[i].off && !craft->item[i].included_in)
            count += craft->item[i].count;
    return count;
}

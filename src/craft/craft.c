/* craft.c: finding things in a craft and a bench by name, and flying a craft in a loadout.
 *
 * Craft are small, so their lists are searched in order; a bench may be large, so its lists are
 * sorted and searched by halves. */
#include "craft/craft.h"

#include <stdlib.h>
#include <string.h>

int pare_craft_item(const pare_craft *craft, const char *name)
{
    for (size_t i = 0; i < craft->items; i++)
        if (strcmp(craft->item[i].name, name) == 0)
            return (int)i;
    return -1;
}

int pare_craft_joint(const pare_craft *craft, const char *name)
{
    for (size_t i = 0; i < craft->joints; i++)
        if (strcmp(craft->joint[i].name, name) == 0)
            return (int)i;
    return -1;
}

int pare_craft_run(const pare_craft *craft, const char *name)
{
    for (size_t i = 0; i < craft->runs; i++)
        if (strcmp(craft->run[i].name, name) == 0)
            return (int)i;
    return -1;
}

int pare_craft_loadout(const pare_craft *craft, const char *name)
{
    for (size_t i = 0; i < craft->loadouts; i++)
        if (strcmp(craft->loadout[i].name, name) == 0)
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
        *loaded = *craft;
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

/* tree_edit.c: see tree_edit.h. */
#include "store/tree_edit.h"

#include <string.h>

pare_node *pare_node_made(pare_arena *arena, pare_node_form form, const char *key, const char *text)
{
    pare_node *node = pare_arena_zeros(arena, sizeof *node);
    if (node)
        *node = (pare_node){.form = form, .key = key, .text = text};
    return node;
}

pare_node *pare_node_without(pare_arena *arena, const pare_node *map, const char *key)
{
    pare_node *copy = pare_node_made(arena, map->form, map->key, NULL);
    pare_node **last = copy ? &copy->first : NULL;
    for (const pare_node *one = map->first; one && copy; one = one->next) {
        if (key && one->key && strcmp(one->key, key) == 0)
            continue;
        pare_node *entry = pare_arena_zeros(arena, sizeof *entry);
        if (!entry)
            return NULL;
        *entry = *one;
        entry->next = NULL;
        *last = entry;
        last = &entry->next;
        copy->count++;
    }
    return copy;
}

void pare_node_set(pare_node *map, pare_node *entry)
{
    pare_node **at = &map->first;
    while (*at && strcmp((*at)->key, entry->key) != 0)
        at = &(*at)->next;
    entry->next = *at ? (*at)->next : NULL;
    map->count += !*at;
    *at = entry;
}

void pare_node_append(pare_node *list, pare_node *entry)
{
    pare_node **at = &list->first;
    while (*at)
        at = &(*at)->next;
    entry->next = NULL;
    *at = entry;
    list->count++;
}

bool pare_node_put_text(pare_arena *arena, pare_node *map, const char *key, const char *text)
{
    pare_node *entry = text ? pare_node_made(arena, PARE_NODE_SCALAR, key, text) : NULL;
    if (entry)
        pare_node_set(map, entry);
    return entry != NULL;
}

bool pare_node_append_number(pare_arena *arena, pare_node *list, int digits, double value)
{
    /* Adding 0 makes -0 a 0. */
    const char *text = pare_arena_printf(arena, "%.*g", digits, value + 0);
    pare_node *entry = text ? pare_node_made(arena, PARE_NODE_SCALAR, NULL, text) : NULL;
    if (entry)
        pare_node_append(list, entry);
    return entry != NULL;
}

pare_node *pare_node_branch(pare_arena *arena, pare_node *map, const char *key)
{
    const pare_node *there = pare_node_get(map, key);
    if (there && there->form != PARE_NODE_MAP)
        return NULL;
    pare_node *copy = there ? pare_node_without(arena, there, NULL)
                            : pare_node_made(arena, PARE_NODE_MAP, key, NULL);
    if (copy)
        pare_node_set(map, copy);
    return copy;
}

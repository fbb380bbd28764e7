/* tree_diff.c: see tree_diff.h. Trees were read within their limits, so that recursion is shallow. */
#include "store/tree_diff.h"

#include <string.h>

#include "base/grow.h"

typedef struct differ {
    pare_arena *arena;
    size_t count, size;
    pare_entry_change *list;
    bool no_memory;
} differ;

bool pare_node_same(const pare_node *one, const pare_node *two)
{
    if (one->form != two->form || one->count != two->count)
        return false;
    if (one->form == PARE_NODE_SCALAR)
        return strcmp(one->text, two->text) == 0;
    const pare_node *other = two->first;
    for (const pare_node *entry = one->first; entry; entry = entry->next, other = other->next)
        if ((entry->key && strcmp(entry->key, other->key) != 0) || !pare_node_same(entry, other))
            return false;
    return true;
}

static const char *line_of(differ *d, const pare_node *node)
{
    if (!node)
        return NULL;
    pare_text text = {0};
    pare_tree_write_line(node, &text);
    const char *copy = text.failed ? NULL : pare_arena_copy(d->arena, text.bytes, text.length);
    pare_text_free(&text);
    d->no_memory = d->no_memory || !copy;
    return copy;
}

static void add(differ *d, const char *key, const pare_node *was, const pare_node *is)
{
    d->list = pare_grown(d->arena, d->list, d->count, &d->size, sizeof *d->list);
    if (!d->list) {
        d->no_memory = true;
        return;
    }
    d->list[d->count++] =
        (pare_entry_change){.key = key, .was = line_of(d, was), .is = line_of(d, is)};
}

static void compare(differ *d, const char *above, const pare_node *was, const pare_node *is)
{
    for (int side = 0; side < 2 && !d->no_memory; side++)
        for (const pare_node *one = side ? is->first : was->first; one && !d->no_memory;
             one = one->next) {
            const pare_node *old = side ? pare_node_get(was, one->key) : one;
            const pare_node *now = side ? one : pare_node_get(is, one->key);
            if (side && old)
                continue; /* seen from the other side */
            const char *key =
                pare_arena_printf(d->arena, "%s%s%s", above, *above ? "." : "", one->key);
            if (!key)
                d->no_memory = true;
            else if (old && now && old->form == PARE_NODE_MAP && now->form == PARE_NODE_MAP)
                compare(d, key, old, now);
            else if (!old || !now || !pare_node_same(old, now))
                add(d, key, old, now);
        }
}

pare_status pare_tree_diff(pare_arena *arena, const pare_node *was, const pare_node *is,
                           size_t *count, const pare_entry_change **list, pare_error *err)
{
    differ d = {.arena = arena};
    compare(&d, "", was, is);
    *count = d.count;
    *list = d.list;
    return d.no_memory ? pare_no_memory(err) : PARE_OK;
}

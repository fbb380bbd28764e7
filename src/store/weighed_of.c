/* weighed_of.c: see weighed_of.h.
 *
 * A name that the craft does not have is a slip of the keyboard, or a thing that it had when it was weighed
 * and has lost since. Readings are never overwritten, so the bench is full of the second kind, and an export
 * must come in again; the first kind must not come in, since no answer would use it. Only the bench that
 * saw the craft change can tell them apart, so it is the export that says which they are: "gone.camera".
 *
 * Swaps that were taken bring things whose names are known only once they are worked out, which is not this
 * room's: on a craft with such, a name that is like none of its own passes, and `pare weigh` says whether it
 * is used. */
#include "store/weighed_of.h"

#include <string.h>

#include "base/text.h"
#include "store/edit.h"
#include "store/tree_edit.h"

static const char GONE[] = "gone.";

enum { KNOWN = 256 /* items, joints and runs of a craft are fewer */ };

static const struct {
    const char *list, *prefix;
} NAMES[] = {{"items", ""}, {"joints", "joint."}, {"runs", "run."}};

static bool is_gone(const char *name)
{
    return strncmp(name, GONE, sizeof GONE - 1) == 0;
}

/* The things of a weigh-in; NULL: all. */
static const pare_node *things_of(const pare_node *weigh_in)
{
    const pare_node *of = pare_node_get(weigh_in, "of");
    return of && of->form == PARE_NODE_MAP ? of : NULL;
}

/* What may lie on the scale by a craft's text. */
typedef struct known {
    size_t count;
    const char *name[KNOWN];
    bool brings; /* swaps were taken, which may bring more */
} known;

/* @return false without memory */
static bool know(const pare_node *craft, pare_arena *arena, known *k)
{
    bool made = true;
    *k = (known){.brings = pare_node_get(craft, "taken") != NULL};
    for (size_t i = 0; i < PARE_COUNT(NAMES); i++) {
        const pare_node *list = pare_node_get(craft, NAMES[i].list);
        for (const pare_node *one = list ? list->first : NULL; one && made && k->count < KNOWN;
             one = one->next) {
            k->name[k->count] =
                pare_arena_printf(arena, "%s%s", NAMES[i].prefix, one->key ? one->key : "");
            made = k->name[k->count++] != NULL;
        }
    }
    return made;
}

/* @param[out] near  the nearest; NULL: none */
static bool is_there(const known *k, const char *name, const char **near)
{
    *near = NULL;
    for (size_t i = 0; i < k->count; i++)
        if (strcmp(k->name[i], name) == 0)
            return true;
    *near = pare_nearest(name, k->count, k->name);
    return !*near && k->brings;
}

/* A name stands where its key does. */
static pare_node key_of(const pare_node *thing)
{
    return (pare_node){.line = thing->key_line, .column = thing->key_column};
}

static pare_status no_such(const pare_reading *reading, const pare_node *thing, const char *craft,
                           const char *near, pare_error *err)
{
    const pare_node at = key_of(thing);
    if (near)
        return pare_refuse(reading, &at, PARE_UNKNOWN, err, "nothing '%.48s' on %.48s; is it '%s'?",
                           thing->key, craft, near);
    return pare_refuse(reading, &at, PARE_UNKNOWN, err,
                       "nothing '%.48s' on %.48s; right would be what it has, or gone.%.48s "
                       "where it had that then",
                       thing->key, craft, thing->key);
}

pare_status pare_weighed_of_check(pare_store *store, const pare_reading *reading,
                                  const pare_node *node, pare_error *err)
{
    const char *craft = pare_node_get(node, "craft")->text, *near = NULL;
    const pare_node *root = NULL, *things = things_of(node);
    known k;
    if (!things)
        return PARE_OK;
    pare_status status = pare_craft_tree(store, craft, reading->arena, &root, err);
    if (status != PARE_OK)
        return status;
    if (!know(root, reading->arena, &k))
        return pare_no_memory(err);
    for (const pare_node *one = things->first; one && status == PARE_OK; one = one->next)
        if (!is_gone(one->key) && !is_there(&k, one->key, &near))
            status = no_such(reading, one, craft, near, err);
    return status;
}

/* A weigh-in again, with its things under other names. @param thing  [count] in their order */
static const pare_node *renamed(pare_arena *arena, const pare_node *node, const char *const name[])
{
    pare_node *made = pare_node_without(arena, node, NULL);
    pare_node *of = made ? pare_node_branch(arena, made, "of") : NULL;
    for (pare_node *one = of ? of->first : NULL; one; one = one->next)
        one->key = *name++;
    return of ? made : NULL;
}

pare_status pare_weighed_of_kept(const pare_reading *reading, const pare_node *node,
                                 const pare_node **kept, pare_error *err)
{
    const pare_node *things = things_of(node);
    *kept = node;
    if (!things)
        return PARE_OK;
    const char **name = pare_arena_array(reading->arena, things->count, sizeof *name);
    if (!name)
        return pare_no_memory(err);
    bool any = false;
    size_t i = 0;
    for (const pare_node *one = things->first; one; one = one->next, i++) {
        name[i] = is_gone(one->key) ? one->key + sizeof GONE - 1 : one->key;
        if (name[i] == one->key)
            continue;
        const pare_node at = key_of(one);
        any = true;
        if (pare_node_get(things, name[i]))
            return pare_refuse(reading, &at, PARE_BAD_DATA, err,
                               "%.48s and %.48s; right would be one of them", one->key, name[i]);
    }
    if (any)
        *kept = renamed(reading->arena, node, name);
    return *kept ? PARE_OK : pare_no_memory(err);
}

static pare_status text_of(const pare_node *node, pare_arena *arena, const char **doc,
                           pare_error *err)
{
    pare_text text = {0};
    pare_tree_write(node, 0, &text);
    *doc = text.failed ? NULL : pare_arena_copy(arena, text.bytes, text.length);
    pare_text_free(&text);
    return *doc ? PARE_OK : pare_no_memory(err);
}

/* The texts of a weigh-in and of its craft; NULL where either is damaged, which is not for an export to mend. */
static pare_status both(pare_store *store, const char *doc, pare_arena *arena,
                        const pare_node **weigh_in, const pare_node **craft, pare_error *err)
{
    pare_error damaged = {0};
    *weigh_in = *craft = NULL;
    pare_status status =
        pare_tree_parse_map(doc, strlen(doc), store->path, arena, weigh_in, &damaged);
    const pare_node *name = status == PARE_OK ? pare_node_get(*weigh_in, "craft") : NULL;
    if (name && name->text)
        status = pare_craft_tree(store, name->text, arena, craft, &damaged);
    return status == PARE_UNAVAILABLE ? pare_fail(err, status, "%s", damaged.text) : PARE_OK;
}

pare_status pare_weighed_of_out(pare_store *store, const char *doc, pare_arena *arena,
                                const char **out, pare_error *err)
{
    const pare_node *root = NULL, *craft = NULL;
    const char *near = NULL;
    known k;
    *out = doc;
    const pare_status status = doc ? both(store, doc, arena, &root, &craft, err) : PARE_OK;
    const pare_node *things = craft ? things_of(root) : NULL;
    if (!things)
        return status;
    const char **names = pare_arena_array(arena, things->count, sizeof *names);
    if (!names || !know(craft, arena, &k))
        return pare_no_memory(err);
    bool any = false;
    size_t i = 0;
    for (const pare_node *one = things->first; one; one = one->next, i++) {
        const bool there = is_there(&k, one->key, &near);
        any = any || !there;
        names[i] = there ? one->key : pare_arena_printf(arena, "%s%s", GONE, one->key);
        if (!names[i])
            return pare_no_memory(err);
    }
    if (!any)
        return PARE_OK;
    const pare_node *marked = renamed(arena, root, names);
    return marked ? text_of(marked, arena, out, err) : pare_no_memory(err);
}

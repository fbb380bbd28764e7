/* by_key_craft.c: keys of a craft, what is usual for its items, and a craft put in place (see
 * by_key.h). */
#include <stdio.h>
#include <string.h>

#include "store/by_key_inside.h"
#include "store/edit.h"
#include "store/read_craft.h"
#include "store/read_part.h"
#include "store/tree_edit.h"

/* ---- keys ---- */

static bool is_key(const char *key)
{
    for (size_t i = 0; i < PARE_CRAFT_KEYS; i++)
        if (strcmp(key, pare_craft_keys[i]) == 0)
            return true;
    return false;
}

/* Whether an entry of a list of names is there, or one of the words makes it. */
static bool is_made(const pare_editing *e, const pare_node *root, const char *list,
                    const char *name)
{
    const pare_node *there = pare_node_get(root, list);
    if (there && pare_node_get(there, name))
        return true;
    for (size_t i = 0; i < e->paths; i++) {
        const pare_path *path = &e->path[i];
        const bool whole =
            path->segments == 2 ||
            (path->segments == 3 &&
             (strcmp(path->segment[2], "part") == 0 || strcmp(path->segment[2], "thread") == 0 ||
              strcmp(path->segment[2], "gauge") == 0 ||
              strcmp(path->segment[2], "included_in") == 0 ||
              strcmp(path->segment[2], "use") == 0 || strcmp(path->segment[2], "without") == 0));
        if (whole && path->value && strcmp(path->segment[0], list) == 0 &&
            strcmp(path->segment[1], name) == 0)
            return true;
    }
    return false;
}

/* items, joints, runs, loadouts: a name that is not there is a slip of the finger, unless what makes a
 * new one is said. */
static pare_status check_name(const pare_editing *e, const pare_node *root, const pare_path *path,
                              pare_error *err)
{
    static const struct {
        const char *list, *one, *otherwise;
    } lists[] = {{"items", "item", "a new one starts with items.NAME=PART"},
                 {"joints", "joint", "a new one needs thread, length and count"},
                 {"runs", "run", "a new one needs gauge and ways"},
                 {"loadouts", "loadout", "a new one is like loadouts.NAME='{without: [gps]}'"}};
    for (size_t i = 0; i < PARE_COUNT(lists); i++) {
        const bool here = strcmp(path->segment[0], lists[i].list) == 0;
        if (!here || path->segments < 2 || (path->segments == 2 && path->value) ||
            is_made(e, root, lists[i].list, path->segment[1]))
            continue;
        const char *names[PARE_ITEMS];
        size_t count = 0;
        const pare_node *there = pare_node_get(root, lists[i].list);
        for (const pare_node *one = there ? there->first : NULL; one && count < PARE_ITEMS;
             one = one->next)
            names[count++] = one->key;
        return pare_by_key_unknown(path, lists[i].one, path->segment[1], count, names,
                                   lists[i].otherwise, err);
    }
    return PARE_OK;
}

/* A key that no craft has is an item's name: of one that is there, or of a new craft's. */
static pare_status take_item(const pare_editing *e, const pare_node *root, pare_path *path,
                             pare_error *err)
{
    const char *names[PARE_ITEMS + PARE_CRAFT_KEYS];
    size_t count = 0;
    const pare_node *items = pare_node_get(root, "items");
    const bool there = items && pare_node_get(items, path->segment[0]);
    if (!there && !e->adding) {
        for (const pare_node *one = items ? items->first : NULL; one && count < PARE_ITEMS;
             one = one->next)
            names[count++] = one->key;
        for (size_t i = 0; i < PARE_CRAFT_KEYS; i++)
            names[count++] = pare_craft_keys[i];
        return pare_by_key_unknown(path, "item or key", path->segment[0], count, names,
                                   "a new item is items.NAME=PART", err);
    }
    return pare_path_under(path, "items")
               ? PARE_OK
               : pare_fail(err, PARE_BAD_DATA, "%.60s: nothing is so deep", path->word);
}

/* A single value for an item is its part; with a new one comes what is usual. */
static void take_part(pare_editing *e, const pare_node *root, pare_path *path)
{
    const pare_node *items = pare_node_get(root, "items");
    const bool single = path->segments == 2 && strcmp(path->segment[0], "items") == 0 &&
                        path->value && path->value->form == PARE_NODE_SCALAR;
    if (!single)
        return;
    if (e->fresh < PARE_ITEMS && !(items && pare_node_get(items, path->segment[1])))
        e->fresh_item[e->fresh++] = path->segment[1];
    path->segment[path->segments++] = "part";
}

pare_status pare_by_key_craft_paths(pare_editing *e, const pare_node *root, pare_error *err)
{
    pare_status status = PARE_OK;
    if (e->adding && e->paths == 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "craft '%.48s' needs parts; right would be like frame=PART motor=PART "
                         "propeller=PART esc=PART pack=PART",
                         e->name);
    for (size_t i = 0; i < e->paths && status == PARE_OK; i++) {
        pare_path *path = &e->path[i];
        if (!is_key(path->segment[0]))
            status = take_item(e, root, path, err);
        if (status == PARE_OK)
            take_part(e, root, path);
    }
    for (size_t i = 0; i < e->paths && status == PARE_OK; i++)
        status = check_name(e, root, &e->path[i], err);
    return status;
}

/* ---- an item that goes ---- */

/* A loadout that did without it, or used another part for it, says no more of it. */
static pare_status out_of_loadout(pare_editing *e, pare_node *loadouts, const pare_node *loadout,
                                  const char *item, pare_error *err)
{
    const pare_node *without = pare_node_get(loadout, "without"),
                    *use = pare_node_get(loadout, "use");
    pare_node *changed = pare_node_branch(e->arena, loadouts, loadout->key);
    if (!changed)
        return pare_no_memory(err);
    if (without && without->form == PARE_NODE_LIST) {
        pare_node *left = pare_node_made(e->arena, PARE_NODE_LIST, "without", NULL);
        for (const pare_node *one = without->first; one && left; one = one->next)
            if (!one->text || strcmp(one->text, item) != 0) {
                pare_node *entry = pare_arena_zeros(e->arena, sizeof *entry);
                if (!entry)
                    return pare_no_memory(err);
                *entry = *one;
                pare_node_append(left, entry);
            }
        if (!left)
            return pare_no_memory(err);
        pare_node_set(changed, left);
    }
    if (use && pare_node_get(use, item)) {
        pare_node *left = pare_node_without(e->arena, use, item);
        if (!left)
            return pare_no_memory(err);
        pare_node_set(changed, left);
    }
    return PARE_OK;
}

/* Where the rest of the craft still names it: "runs.lead.carries". */
static const char *named_in(const pare_editing *e, const pare_node *root, const char *item)
{
    static const char *const lists[] = {"items", "joints", "runs"};
    static const char *const keys[] = {"holds", "carries", "included_in", "feeds"};
    for (size_t i = 0; i < PARE_COUNT(lists); i++) {
        const pare_node *list = pare_node_get(root, lists[i]);
        for (const pare_node *one = list ? list->first : NULL; one; one = one->next)
            for (size_t k = 0; k < PARE_COUNT(keys); k++) {
                const pare_node *names = pare_node_get(one, keys[k]);
                bool there = names && names->text && strcmp(names->text, item) == 0;
                for (const pare_node *n = names ? names->first : NULL; n && !there; n = n->next)
                    there = n->text && strcmp(n->text, item) == 0;
                if (there)
                    return pare_arena_printf(e->arena, "%s.%.48s.%s", lists[i], one->key, keys[k]);
            }
    }
    return NULL;
}

pare_status pare_by_key_gone(pare_editing *e, pare_node *root, pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t i = 0; i < e->paths && status == PARE_OK; i++) {
        const pare_path *path = &e->path[i];
        if (path->value || path->segments != 2 || strcmp(path->segment[0], "items") != 0)
            continue;
        const char *item = path->segment[1], *where = named_in(e, root, item);
        if (where)
            return pare_fail(err, PARE_BAD_DATA,
                             "%.60s: %s still names it; right would be %s=... along with it, or "
                             "%.*s=off",
                             path->word, where, where, (int)(strrchr(where, '.') - where), where);
        if (!pare_node_get(root, "loadouts"))
            continue;
        pare_node *loadouts = pare_node_branch(e->arena, root, "loadouts");
        const pare_node *all = loadouts ? pare_node_without(e->arena, loadouts, NULL) : NULL;
        if (!all)
            return pare_no_memory(err);
        for (const pare_node *one = all->first; one && status == PARE_OK; one = one->next)
            status = out_of_loadout(e, loadouts, one, item, err);
    }
    return status;
}

/* ---- what is usual ---- */

/* A part of the bench, read; NULL where there is none of this id. */
static pare_status part_of(const pare_editing *e, const char *id, pare_part **part, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    const char *doc = NULL;
    const pare_node *root = NULL;
    *part = NULL;
    pare_status status =
        pare_sql_prepare(e->store, &statement, err, "SELECT doc FROM part WHERE id = ?", "t", id);
    if (status == PARE_OK)
        status = pare_sql_step(e->store, statement, &row, err);
    if (status == PARE_OK && row) {
        doc = pare_sql_text(statement, 0, e->arena);
        status = doc ? pare_tree_parse_map(doc, strlen(doc), id, e->arena, &root, err)
                     : pare_no_memory(err);
    }
    pare_sql_finish(statement);
    if (status != PARE_OK || !row)
        return status;
    pare_files files = {.store = e->store, .arena = e->arena};
    pare_reading reading = e->reading;
    reading.name = id;
    reading.notes = NULL;
    reading.find_context = &files;
    return pare_read_part(&reading, root, part, err);
}

static const char *part_id(const pare_node *item)
{
    const pare_node *part = pare_node_get(item, "part");
    return part ? part->text : NULL;
}

/* How many arms the craft's frame has; 4 where nothing tells. */
static pare_status count_arms(const pare_editing *e, const pare_node *root, size_t *arms,
                              pare_error *err)
{
    const pare_node *items = pare_node_get(root, "items");
    pare_status status = PARE_OK;
    *arms = 4;
    for (const pare_node *one = items ? items->first : NULL; one && status == PARE_OK;
         one = one->next) {
        pare_part *part = NULL;
        if (part_id(one))
            status = part_of(e, part_id(one), &part, err);
        for (size_t i = 0; part && part->kind == PARE_FRAME && i < part->pieces; i++)
            if (part->piece[i].form == PARE_FORM_ARMS)
                *arms = part->piece[i].places;
    }
    return status;
}

/* What goes on each arm, and where. NULL: not on the arms. */
static const char *place_on_arms(pare_kind kind)
{
    switch (kind) {
    case PARE_MOTOR:
    case PARE_PROPELLER:
    case PARE_PROPELLER_NUT:
    case PARE_BUMPER:
        return "100 %";
    case PARE_ESC_ONE:
        return "50 %";
    default:
        return NULL;
    }
}

static pare_node *at_arms(pare_arena *arena, const char *share)
{
    if (strcmp(share, "100 %") == 0)
        return pare_node_made(arena, PARE_NODE_SCALAR, "at", "arms");
    pare_node *at = pare_node_made(arena, PARE_NODE_MAP, "at", NULL);
    pare_node *arms = at ? pare_node_made(arena, PARE_NODE_SCALAR, "arms", share) : NULL;
    if (!arms)
        return NULL;
    pare_node_set(at, arms);
    return at;
}

static pare_status make_usual(const pare_editing *e, pare_node *root, const char *name,
                              pare_error *err)
{
    const pare_node *there = pare_node_get(pare_node_get(root, "items"), name);
    pare_part *part = NULL;
    size_t arms = 0;
    pare_status status = there && there->form == PARE_NODE_MAP && part_id(there)
                             ? part_of(e, part_id(there), &part, err)
                             : PARE_OK;
    const char *share = part ? place_on_arms(part->kind) : NULL;
    if (status != PARE_OK || !share)
        return status;
    status = count_arms(e, root, &arms, err);
    if (status != PARE_OK)
        return status;
    pare_node *items = pare_node_branch(e->arena, root, "items");
    pare_node *item = items ? pare_node_branch(e->arena, items, name) : NULL;
    char *text = pare_arena_printf(e->arena, "%zu", arms);
    pare_node *count = text ? pare_node_made(e->arena, PARE_NODE_SCALAR, "count", text) : NULL;
    pare_node *at = at_arms(e->arena, share);
    if (!item || !count || !at)
        return pare_no_memory(err);
    if (!pare_node_get(item, "count"))
        pare_node_set(item, count);
    if (!pare_node_get(item, "at"))
        pare_node_set(item, at);
    return PARE_OK;
}

pare_status pare_by_key_usual(pare_editing *e, pare_node *root, pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t i = 0; i < e->fresh && status == PARE_OK; i++)
        status = make_usual(e, root, e->fresh_item[i], err);
    return status;
}

pare_status pare_by_key_put_craft(pare_editing *e, const pare_node *root, const char *doc,
                                  pare_error *err)
{
    return pare_craft_put(e->store, &e->reading, e->name, root, doc, err);
}

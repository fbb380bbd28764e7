/* limit.c: the limits of a brief, changed in the craft's own text (see bench.h).
 *
 * The text is the truth, so it is what is changed: the branch craft, brief, limits is made anew with
 * the entries set, replaced or left out, all else is the nodes as they were read, and the result is
 * written in the one canonical way and read again as a sheet would read it before it is kept. */
#include <string.h>

#include "store/load.h"
#include "store/tree.h"

enum { CRAFT_BLOCK = 2 /* as import.c writes a craft */ };

static pare_node *made(pare_arena *arena, pare_node_form form, const char *key, const char *text)
{
    pare_node *node = pare_arena_zeros(arena, sizeof *node);
    if (node)
        *node = (pare_node){.form = form, .key = key, .text = text};
    return node;
}

/* A map again, without one key; the entries are copies that keep what hangs below them. */
static pare_node *without(pare_arena *arena, const pare_node *map, const char *key)
{
    pare_node *copy = made(arena, PARE_NODE_MAP, map->key, NULL),
              **last = copy ? &copy->first : NULL;
    for (const pare_node *one = map->first; one && copy; one = one->next) {
        if (key && strcmp(one->key, key) == 0)
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

/* Puts an entry where one of its key stands, or at the end. */
static void set(pare_node *map, pare_node *entry)
{
    pare_node **at = &map->first;
    while (*at && strcmp((*at)->key, entry->key) != 0)
        at = &(*at)->next;
    entry->next = *at ? (*at)->next : NULL;
    map->count += !*at;
    *at = entry;
}

/* The map under a key, copied so that it may be changed and put back; a new one where there is none. */
static pare_node *branch(pare_arena *arena, pare_node *map, const char *key)
{
    const pare_node *there = pare_node_get(map, key);
    pare_node *copy = there ? without(arena, there, NULL) : made(arena, PARE_NODE_MAP, key, NULL);
    if (copy)
        set(map, copy);
    return copy;
}

static pare_status change_tree(pare_arena *arena, const pare_node *root, size_t count,
                               const pare_limit_change change[], pare_node **changed,
                               pare_error *err)
{
    pare_node *craft = without(arena, root, NULL);
    pare_node *brief = craft ? branch(arena, craft, "brief") : NULL;
    pare_node *limits = brief ? branch(arena, brief, "limits") : NULL;
    for (size_t i = 0; i < count && limits; i++) {
        pare_node *entry = NULL;
        if (!change[i].text) {
            limits = without(arena, limits, change[i].key);
        } else {
            entry = made(arena, PARE_NODE_SCALAR, change[i].key, change[i].text);
            if (!entry)
                return pare_no_memory(err);
            set(limits, entry);
        }
        if (limits)
            set(brief, limits);
    }
    if (!limits)
        return pare_no_memory(err);
    if (limits->count == 0)
        brief = without(arena, brief, "limits");
    if (brief)
        set(craft, brief);
    if (brief && brief->count == 0)
        craft = without(arena, craft, "brief");
    *changed = craft;
    return brief && craft ? PARE_OK : pare_no_memory(err);
}

static pare_status stored(pare_store *store, const char *craft, pare_arena *arena, const char **doc,
                          pare_error *err)
{
    sqlite3_stmt *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err,
                                          "SELECT doc FROM craft WHERE name = ?", "t", craft);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (status == PARE_OK && !row)
        status = pare_fail(err, PARE_UNKNOWN, "no craft '%.48s' on the bench", craft);
    if (status == PARE_OK) {
        *doc = pare_sql_text(statement, 0, arena);
        status = *doc ? PARE_OK : pare_no_memory(err);
    }
    sqlite3_finalize(statement);
    return status;
}

static pare_status still_reads(pare_store *store, const char *craft, pare_error *err)
{
    pare_bench *bench = pare_load_empty();
    if (!bench)
        return pare_no_memory(err);
    pare_status status = pare_load_parts(store, craft, bench, err);
    if (status == PARE_OK)
        status = pare_load_craft(store, craft, bench, err);
    pare_bench_close(bench);
    return status;
}

static pare_status change_stored(pare_store *store, const char *craft, size_t count,
                                 const pare_limit_change change[], pare_arena *arena,
                                 pare_error *err)
{
    const char *doc = NULL;
    const pare_node *root = NULL;
    pare_node *changed = NULL;
    pare_text text = {0};
    pare_status status = stored(store, craft, arena, &doc, err);
    if (status == PARE_OK)
        status = pare_tree_parse(doc, strlen(doc), craft, arena, &root, err);
    if (status == PARE_OK)
        status = change_tree(arena, root, count, change, &changed, err);
    if (status == PARE_OK) {
        pare_tree_write(changed, CRAFT_BLOCK, &text);
        status = text.failed
                     ? pare_no_memory(err)
                     : pare_sql_change(store, err, "UPDATE craft SET doc = ? WHERE name = ?", "tt",
                                       text.bytes, craft);
    }
    if (status == PARE_OK)
        status = still_reads(store, craft, err);
    pare_text_free(&text);
    return status;
}

pare_status pare_store_set_limits(pare_store *store, const char *craft, size_t count,
                                  const pare_limit_change change[], pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_sql_begin(store, err);
    if (status == PARE_OK) {
        status = change_stored(store, craft, count, change, arena, err);
        if (status == PARE_OK)
            status = pare_sql_commit(store, err);
        if (status != PARE_OK)
            pare_sql_rollback(store);
    }
    pare_arena_close(arena);
    return status;
}

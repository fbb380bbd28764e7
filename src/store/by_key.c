/* by_key.c: parts and craft changed by keys or as a text (see by_key.h).
 *
 * The text is the truth, so the text is what is changed: words become entries of its tree, the tree is
 * read as a sheet would read it, and its canonical writing takes the place of the old one. What a
 * reader finds wrong in an entry from a word is said of that word (path.h). */
#include "store/by_key.h"

#include <string.h>

#include "store/by_key_inside.h"
#include "store/change.h"
#include "store/edit.h"
#include "store/read_craft.h"
#include "store/read_part.h"
#include "store/tree_diff.h"
#include "store/tree_edit.h"

static const struct {
    const char *what, *key, *like, *taken;
    const char *const *order;
    size_t keys;
    int block; /* levels that are a line an entry, as stored */
} THINGS[] = {
    [PARE_A_PART] = {"part", "id", "mass=31.2g", "SELECT 1 FROM part WHERE id = ?", pare_part_keys,
                     PARE_PART_KEYS, 0},
    [PARE_A_CRAFT] = {"craft", "name", "items.motor.count=4", "SELECT 1 FROM craft WHERE name = ?",
                      pare_craft_keys, PARE_CRAFT_KEYS, PARE_CRAFT_BLOCK},
};

pare_status pare_by_key_unknown(const pare_path *path, const char *what, const char *key,
                                size_t count, const char *const names[], const char *otherwise,
                                pare_error *err)
{
    const char *near = pare_nearest(key, count, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "%.60s: no %s '%.48s'; did you mean %s?", path->word,
                         what, key, near);
    return pare_fail(err, PARE_UNKNOWN, "%.60s: no %s '%.48s'; %s", path->word, what, key,
                     otherwise);
}

/* ---- trees and texts ---- */

static const char *text_of(pare_arena *arena, const pare_node *root, int block)
{
    pare_text text = {0};
    pare_tree_write(root, block, &text);
    const char *copy = text.failed ? NULL : pare_arena_copy(arena, text.bytes, text.length);
    pare_text_free(&text);
    return copy;
}

/* What is there, as it is kept. */
static pare_status fetch(pare_store *store, pare_thing thing, const char *name, pare_arena *arena,
                         const char **doc, const pare_node **root, pare_error *err)
{
    pare_text text = {0};
    pare_status status = thing == PARE_A_PART ? pare_store_part_text(store, name, &text, err)
                                              : pare_store_craft_text(store, name, &text, err);
    if (status == PARE_OK) {
        *doc = pare_arena_copy(arena, pare_text_all(&text), text.length);
        status = *doc ? pare_tree_parse_map(*doc, text.length, name, arena, root, err)
                      : pare_no_memory(err);
    }
    pare_text_free(&text);
    return status;
}

static pare_status check_free(const pare_store *store, pare_thing thing, const char *name,
                              pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err, THINGS[thing].taken, "t", name);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    pare_sql_finish(statement);
    if (status == PARE_OK && row)
        status = pare_fail(err, PARE_BAD_DATA,
                           "%s '%.48s' is on the bench already; right would be another name",
                           THINGS[thing].what, name);
    return status;
}

/* Its name in place of what stands there, at the beginning. */
static pare_status put_name(pare_arena *arena, pare_thing thing, pare_node *root, const char *name,
                            pare_error *err)
{
    pare_node *entry = pare_node_made(arena, PARE_NODE_SCALAR, THINGS[thing].key, name);
    if (!entry)
        return pare_no_memory(err);
    pare_node_set(root, entry);
    return PARE_OK;
}

/* ---- what changed ---- */

/* Stand tables are no entries of the part's text, and are said beside them. */
static pare_status add_gone(const pare_editing *e, pare_arena *arena, pare_edit_summary *summary,
                            pare_error *err)
{
    if (!e->gone)
        return PARE_OK;
    pare_entry_change *all = pare_arena_array(arena, summary->count + e->gone, sizeof *all);
    if (!all)
        return pare_no_memory(err);
    if (summary->count)
        memcpy(all, summary->entry, summary->count * sizeof *all);
    for (size_t i = 0; i < e->gone; i++) {
        pare_entry_change *one = &all[summary->count + i];
        one->key = pare_arena_text(arena, e->gone_stand[i].key);
        one->was = pare_arena_text(arena, e->gone_stand[i].was);
        if (!one->key || !one->was)
            return pare_no_memory(err);
    }
    summary->entry = all;
    summary->count += e->gone;
    summary->changed = true;
    return PARE_OK;
}

static pare_status sum_up(const pare_editing *e, const pare_node *was, const pare_node *is,
                          pare_arena *arena, pare_edit_summary *summary, pare_error *err)
{
    if (!summary)
        return PARE_OK;
    const pare_node nothing = {.form = PARE_NODE_MAP};
    *summary = (pare_edit_summary){.changed = !was || !pare_node_same(was, is)};
    if (e->reading.notes) {
        summary->warnings = e->reading.notes->count;
        summary->warning = e->reading.notes->text;
    }
    const pare_status status =
        pare_tree_diff(arena, was ? was : &nothing, is, &summary->count, &summary->entry, err);
    return status == PARE_OK ? add_gone(e, arena, summary, err) : status;
}

static pare_status put(pare_editing *e, pare_thing thing, const pare_node *root, pare_error *err)
{
    const char *doc = text_of(e->arena, root, THINGS[thing].block);
    if (!doc)
        return pare_no_memory(err);
    return thing == PARE_A_PART ? pare_by_key_put_part(e, root, doc, err)
                                : pare_by_key_put_craft(e, root, doc, err);
}

/* ---- one edit, from its beginning to its end ---- */

typedef struct edit {
    pare_thing thing;
    size_t count;
    const char *const *word; /* [count] */
    const char *copy;        /* a second one of this name; NULL: none */
    const char *before;      /* with a text that was edited; NULL: none was */
    const char *bytes;       /* [length] */
    size_t length;
} edit;

/* A name or id among the words would be a second way of saying it, and a wrong one. */
static pare_status check_words(const pare_editing *e, pare_thing thing, pare_error *err)
{
    for (size_t i = 0; i < e->paths; i++)
        if (e->path[i].segments == 1 && strcmp(e->path[i].segment[0], THINGS[thing].key) == 0)
            return pare_fail(err, PARE_BAD_DATA,
                             "%.60s: the %s stays; right would be a copy under another, and the "
                             "first removed",
                             e->path[i].word, THINGS[thing].key);
    return PARE_OK;
}

static pare_status by_words(pare_editing *e, const edit *wanted, pare_node *root, pare_error *err)
{
    const pare_thing thing = wanted->thing;
    pare_status status = check_words(e, thing, err);
    if (status == PARE_OK)
        status = thing == PARE_A_PART ? pare_by_key_part_paths(e, root, err)
                                      : pare_by_key_craft_paths(e, root, err);
    if (status == PARE_OK)
        status = pare_paths_order(e->paths, e->path, err);
    for (size_t i = 0; i < e->paths && status == PARE_OK; i++)
        status = pare_path_put(e->arena, root, &e->path[i], THINGS[thing].keys, THINGS[thing].order,
                               err);
    if (status == PARE_OK && thing == PARE_A_CRAFT)
        status = pare_by_key_usual(e, root, err);
    if (status == PARE_OK && thing == PARE_A_CRAFT)
        status = pare_by_key_gone(e, root, err);
    return status;
}

/* What was taken but is not on the craft yet stays with the one that it was chosen for; what is owned
 * of a part, and what a charger said of it, are the pieces of that part. */
static pare_status leave_behind(pare_editing *e, pare_thing thing, pare_node **root,
                                pare_error *err)
{
    if (thing == PARE_A_PART) {
        *root = pare_node_without(e->arena, *root, "owned");
        if (*root)
            *root = pare_node_without(e->arena, *root, "charger");
        return *root ? PARE_OK : pare_no_memory(err);
    }
    const pare_node *taken = pare_node_get(*root, "taken");
    if (!taken || taken->form != PARE_NODE_LIST)
        return PARE_OK;
    pare_node *kept = pare_node_made(e->arena, PARE_NODE_LIST, "taken", NULL);
    for (const pare_node *one = taken->first; one && kept; one = one->next) {
        if (!pare_node_get(one, "fitted"))
            continue;
        pare_node *entry = pare_arena_zeros(e->arena, sizeof *entry);
        if (!entry)
            return pare_no_memory(err);
        *entry = *one;
        pare_node_append(kept, entry);
    }
    if (kept && kept->count)
        pare_node_set(*root, kept);
    else if (kept)
        *root = pare_node_without(e->arena, *root, "taken");
    return kept && *root ? PARE_OK : pare_no_memory(err);
}

static pare_status by_copy(pare_editing *e, const edit *wanted, pare_node **root, pare_error *err)
{
    pare_status status = check_free(e->store, wanted->thing, wanted->copy, err);
    if (status == PARE_OK)
        status = leave_behind(e, wanted->thing, root, err);
    if (status == PARE_OK)
        status = put_name(e->arena, wanted->thing, *root, wanted->copy, err);
    e->name = wanted->copy;
    e->reading.name = wanted->copy;
    return status;
}

static pare_status by_text(pare_editing *e, const edit *wanted, const char *now,
                           const pare_node **root, pare_error *err)
{
    if (strcmp(now, wanted->before) != 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%.48s was changed by somebody else meanwhile; right would be to start "
                         "from what it is now",
                         e->name);
    pare_status status =
        pare_tree_parse(wanted->bytes, wanted->length, e->reading.name, e->arena, root, err);
    const char *key = THINGS[wanted->thing].key;
    const pare_node *name = status == PARE_OK ? pare_node_get(*root, key) : NULL;
    if (name && name->text && strcmp(name->text, e->name) != 0)
        status = pare_refuse(&e->reading, name, PARE_BAD_DATA, err,
                             "the text now says %s '%.48s'; right would be '%.48s': a copy has "
                             "another one",
                             key, name->text, e->name);
    return status;
}

/* Within the change. */
static pare_status make(pare_editing *e, const edit *wanted, pare_arena *arena,
                        pare_edit_summary *summary, pare_error *err)
{
    const char *now = NULL;
    const pare_node *was = NULL, *is = NULL;
    pare_status status;
    if (e->adding)
        status = check_free(e->store, wanted->thing, e->name, err);
    else
        status = fetch(e->store, wanted->thing, e->name, e->arena, &now, &was, err);
    if (status != PARE_OK)
        return status;
    if (wanted->before) {
        status = by_text(e, wanted, now, &is, err);
    } else {
        pare_node *root = was ? pare_node_without(e->arena, was, NULL)
                              : pare_node_made(e->arena, PARE_NODE_MAP, NULL, NULL);
        if (!root)
            return pare_no_memory(err);
        if (e->adding)
            status = put_name(e->arena, wanted->thing, root, e->name, err);
        if (status == PARE_OK)
            status = wanted->copy ? by_copy(e, wanted, &root, err) : by_words(e, wanted, root, err);
        is = root;
    }
    if (status == PARE_OK)
        status = put(e, wanted->thing, is, err);
    return status == PARE_OK ? sum_up(e, was, is, arena, summary, err) : status;
}

static pare_status read_words(pare_editing *e, const edit *wanted, pare_error *err)
{
    e->paths = wanted->count;
    e->path = pare_arena_array(e->arena, wanted->count + 1, sizeof *e->path);
    if (!e->path)
        return pare_no_memory(err);
    return pare_paths_read(e->arena, wanted->count, wanted->word, THINGS[wanted->thing].like,
                           e->path, err);
}

static pare_status run(pare_store *store, const char *name, bool adding, const char *said_name,
                       const edit *wanted, const pare_change *change, pare_arena *arena,
                       pare_edit_summary *summary, pare_error *err)
{
    pare_notes notes = {.arena = arena};
    pare_editing e = {.store = store, .name = name, .adding = adding, .arena = pare_arena_open()};
    pare_units *units = pare_units_open();
    pare_status status = e.arena && units ? PARE_OK : pare_no_memory(err);
    e.files = (pare_files){.store = store, .arena = e.arena, .folder = ".", .may_keep = true};
    e.reading = (pare_reading){.name = said_name ? said_name : name,
                               .arena = e.arena,
                               .units = units,
                               .notes = arena ? &notes : NULL,
                               .find_file = pare_files_find,
                               .find_context = &e.files,
                               .check_craft = store->check,
                               .typed = said_name ? NULL : wanted->word};
    if (status == PARE_OK)
        status = read_words(&e, wanted, err);
    if (status == PARE_OK)
        status = pare_change_begin(store, change, false, err);
    if (status == PARE_OK)
        status = pare_change_end(store, make(&e, wanted, arena, summary, err), true, err);
    pare_units_close(units);
    pare_arena_close(e.arena);
    return status;
}

/* ---- what the header offers ---- */

/* So that the words of an edit without any are a list all the same. */
static const char *const NO_WORDS[] = {""};

pare_status pare_store_add(pare_store *store, pare_thing thing, const char *name, size_t count,
                           const char *const word[], const pare_change *change, pare_arena *arena,
                           pare_edit_summary *summary, pare_error *err)
{
    const edit wanted = {.thing = thing, .count = count, .word = count ? word : NO_WORDS};
    return run(store, name, true, NULL, &wanted, change, arena, summary, err);
}

pare_status pare_store_alter(pare_store *store, pare_thing thing, const char *name, size_t count,
                             const char *const word[], const pare_change *change, pare_arena *arena,
                             pare_edit_summary *summary, pare_error *err)
{
    const edit wanted = {.thing = thing, .count = count, .word = count ? word : NO_WORDS};
    return run(store, name, false, NULL, &wanted, change, arena, summary, err);
}

pare_status pare_store_copy(pare_store *store, pare_thing thing, const char *name, const char *copy,
                            const pare_change *change, pare_error *err)
{
    const edit wanted = {.thing = thing, .copy = copy, .word = NO_WORDS};
    return run(store, name, false, NULL, &wanted, change, NULL, NULL, err);
}

pare_status pare_store_replace(pare_store *store, pare_thing thing, const char *name,
                               const char *before, const char *bytes, size_t length,
                               const char *said_name, const pare_change *change, pare_arena *arena,
                               pare_edit_summary *summary, pare_error *err)
{
    const edit wanted = {.thing = thing, .before = before, .bytes = bytes, .length = length};
    return run(store, name, false, said_name, &wanted, change, arena, summary, err);
}

pare_status pare_store_text_to_edit(pare_store *store, pare_thing thing, const char *name,
                                    pare_text *text, pare_error *err)
{
    const char *doc = NULL;
    const pare_node *root = NULL;
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    const pare_status status = fetch(store, thing, name, arena, &doc, &root, err);
    if (status == PARE_OK) {
        pare_tree_write(root, thing == PARE_A_PART ? 1 : THINGS[thing].block, text);
        pare_text_add(text, "\n");
    }
    pare_arena_close(arena);
    return status == PARE_OK && text->failed ? pare_no_memory(err) : status;
}

/* csv_keep.c: parts of a list into the bench (see csv_keep.h).
 *
 * Most parts of a large list are new, so a row is inserted first, and only a conflict is looked at. A
 * row above the last one that was there before came with this list; for the others a bit says whether
 * this list has had them. So memory grows with the bench (a bit a part), never with the list. The
 * lines of the first few thousand ids are remembered, for the message about the second of two. */
#include "store/csv_keep.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "store/facts.h"
#include "store/sql_driver.h"
#include "store/tree_diff.h"
#include "store/tree_edit.h"

enum { LINES = 8192, LINES_MOST = LINES / 2 };

struct pare_keeper {
    pare_store *store;
    pare_statement *insert, *find, *update;
    long long last;     /* row that was there before */
    unsigned char *had; /* a bit a row up to it */
    long long row;      /* at hand, of a text that differs */
    const char *doc;    /* its text, lent by `find` */
    size_t lines;
    struct {
        uint64_t hash;
        int line; /* 0: free */
    } seen[LINES];
};

static pare_status last_row(pare_keeper *k, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status =
        pare_sql_prepare(k->store, &statement, err, "SELECT coalesce(max(row), 0) FROM part", "");
    if (status == PARE_OK)
        status = pare_sql_step(k->store, statement, &row, err);
    k->last = row ? pare_sql_int(statement, 0) : 0;
    pare_sql_finish(statement);
    return status;
}

pare_status pare_keeper_open(pare_store *store, pare_keeper **keeper, pare_error *err)
{
    pare_keeper *k = calloc(1, sizeof *k);
    *keeper = k;
    if (!k)
        return pare_no_memory(err);
    k->store = store;
    pare_status status = store->driver->make_room ? store->driver->make_room(store, err) : PARE_OK;
    if (status == PARE_OK)
        status = last_row(k, err);
    if (status == PARE_OK) {
        k->had = calloc((size_t)k->last / 8 + 1, 1);
        status = k->had ? PARE_OK : pare_no_memory(err);
    }
    if (status == PARE_OK)
        status = pare_sql_prepare(store, &k->insert, err,
                                  "INSERT INTO part(id, kind, maker, mass_kg, facts, doc) "
                                  "VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING",
                                  "");
    if (status == PARE_OK)
        status = pare_sql_prepare(store, &k->find, err,
                                  "SELECT row, doc, kind FROM part WHERE id = ?", "");
    if (status == PARE_OK)
        status = pare_sql_prepare(store, &k->update, err,
                                  "UPDATE part SET id = ?, kind = ?, maker = ?, mass_kg = ?, "
                                  "facts = ?, doc = ? WHERE row = ?",
                                  "");
    return status;
}

void pare_keeper_close(pare_keeper *k)
{
    if (!k)
        return;
    pare_sql_finish(k->insert);
    pare_sql_finish(k->find);
    pare_sql_finish(k->update);
    free(k->had);
    free(k);
}

/* ---- lines ---- */

/* FNV-1a, 64 bits. */
static uint64_t hash_of(const char *id)
{
    uint64_t hash = 0xcbf29ce484222325u;
    for (; *id; id++)
        hash = (hash ^ (unsigned char)*id) * 0x100000001b3u;
    return hash;
}

static size_t slot_of(const pare_keeper *k, uint64_t hash)
{
    size_t slot = hash % LINES;
    while (k->seen[slot].line && k->seen[slot].hash != hash)
        slot = (slot + 1) % LINES;
    return slot;
}

static void remember_line(pare_keeper *k, const char *id, int line)
{
    if (k->lines == LINES_MOST)
        return;
    const uint64_t hash = hash_of(id);
    const size_t slot = slot_of(k, hash);
    if (k->seen[slot].line)
        return;
    k->seen[slot].hash = hash;
    k->seen[slot].line = line;
    k->lines++;
}

int pare_keeper_first_line(const pare_keeper *k, const char *id)
{
    return k->seen[slot_of(k, hash_of(id))].line;
}

/* ---- rows ---- */

/* What the bench has under an id. */
static pare_status look(pare_keeper *k, const char *id, const char *doc, size_t length, int line,
                        pare_kept *kept, pare_error *err)
{
    bool row = false;
    pare_status status = pare_sql_bind(k->find, err, "t", id);
    if (status == PARE_OK)
        status = pare_sql_step(k->store, k->find, &row, err);
    if (status != PARE_OK || !row)
        return status;
    k->row = pare_sql_int(k->find, 0);
    const char *there = pare_sql_chars(k->find, 1);
    k->doc = there ? there : ""; /* which is none of a part's, as whoever reads it says */
    const bool here = k->row > k->last || k->had[k->row / 8] & 1u << k->row % 8;
    if (here) {
        *kept = PARE_KEPT_TWICE;
        return PARE_OK;
    }
    const bool same = pare_sql_length(k->find, 1) == length && memcmp(k->doc, doc, length) == 0;
    *kept = same ? PARE_KEPT_SAME : PARE_KEPT_DIFFERS;
    remember_line(k, id, line);
    if (same)
        k->had[k->row / 8] |= (unsigned char)(1u << k->row % 8);
    return PARE_OK;
}

pare_status pare_keeper_add(pare_keeper *k, const pare_part *part, const char *doc, size_t length,
                            int line, pare_kept *kept, pare_error *err)
{
    unsigned char facts[PARE_FACTS_MOST];
    const size_t facts_length = pare_facts_pack(part, facts);
    bool row = false;
    pare_status status =
        pare_sql_bind(k->insert, err, "tttdbs", part->id, pare_kind_name(part->kind), part->maker,
                      part->mass_kg.value, facts, facts_length, doc, length);
    if (status == PARE_OK)
        status = pare_sql_step(k->store, k->insert, &row, err);
    const bool added = status == PARE_OK && pare_sql_changed(k->store) > 0;
    pare_sql_rewind(k->insert);
    if (status != PARE_OK)
        return status;
    if (!added)
        return look(k, part->id, doc, length, line, kept, err);
    remember_line(k, part->id, line);
    *kept = PARE_KEPT_ADDED;
    return PARE_OK;
}

pare_status pare_keeper_find(pare_keeper *k, const char *id, int line, const char **kind,
                             pare_error *err)
{
    pare_kept kept = PARE_KEPT_ADDED;
    const pare_status status = look(k, id, "", 0, line, &kept, err);
    *kind = NULL;
    if (status == PARE_OK && kept == PARE_KEPT_DIFFERS)
        *kind = pare_sql_chars(k->find, 2);
    return status;
}

pare_status pare_keeper_replace(pare_keeper *k, const pare_part *part, const char *doc,
                                size_t length, pare_kept *kept, pare_error *err)
{
    unsigned char facts[PARE_FACTS_MOST];
    const size_t facts_length = pare_facts_pack(part, facts);
    k->had[k->row / 8] |= (unsigned char)(1u << k->row % 8);
    *kept = PARE_KEPT_SAME;
    if (strlen(k->doc) == length && memcmp(k->doc, doc, length) == 0)
        return PARE_OK;
    pare_sql_rewind(k->find);
    k->doc = NULL;
    bool row = false;
    pare_status status =
        pare_sql_bind(k->update, err, "tttdbsi", part->id, pare_kind_name(part->kind), part->maker,
                      part->mass_kg.value, facts, facts_length, doc, length, k->row);
    if (status == PARE_OK)
        status = pare_sql_step(k->store, k->update, &row, err);
    pare_sql_rewind(k->update);
    *kept = PARE_KEPT_REPLACED;
    return status;
}

/* ---- merging ---- */

static const char *text_at(const pare_node *map, const char *key)
{
    const pare_node *node = pare_node_get(map, key);
    return node && node->text ? node->text : "";
}

static pare_node *copy_of(pare_arena *arena, const pare_node *node)
{
    pare_node *copy = pare_arena_zeros(arena, sizeof *copy);
    if (copy) {
        *copy = *node;
        copy->next = NULL;
    }
    return copy;
}

/* Puts the entries of one map into another; maps of specs, interfaces and prices entry by entry. */
static bool put_into(pare_arena *arena, pare_node *map, const pare_node *from, bool top)
{
    for (const pare_node *one = from->first; one; one = one->next) {
        const pare_node *there = pare_node_get(map, one->key);
        const bool inner = top && strcmp(one->key, "mass") != 0 && one->form == PARE_NODE_MAP &&
                           there && there->form == PARE_NODE_MAP;
        if (inner) {
            pare_node *branch = pare_node_branch(arena, map, one->key);
            if (!branch || !put_into(arena, branch, one, false))
                return false;
            continue;
        }
        /* A price alone changes what each costs, not who sells it. */
        if (top && strcmp(one->key, "price") == 0 && one->form == PARE_NODE_SCALAR && there &&
            there->form == PARE_NODE_MAP) {
            pare_node *branch = pare_node_branch(arena, map, "price");
            pare_node *each = copy_of(arena, one);
            if (!branch || !each)
                return false;
            each->key = "each";
            pare_node_set(branch, each);
            continue;
        }
        pare_node *copy = copy_of(arena, one);
        if (!copy)
            return false;
        pare_node_set(map, copy);
    }
    return true;
}

pare_status pare_keeper_merge(const pare_keeper *k, const pare_reading *reading,
                              const pare_node *node, const pare_node **merged,
                              const pare_node **before, pare_error *err)
{
    const char *doc = pare_arena_text(reading->arena, k->doc);
    if (!doc)
        return pare_no_memory(err);
    const pare_status status =
        pare_tree_parse_map(doc, strlen(doc), reading->name, reading->arena, before, err);
    if (status != PARE_OK)
        return status;
    *merged = node;
    if (strcmp(text_at(*before, "kind"), text_at(node, "kind")) != 0)
        return PARE_OK;
    pare_node *both = pare_node_without(reading->arena, *before, NULL);
    if (!both || !put_into(reading->arena, both, node, true))
        return pare_no_memory(err);
    /* Places in messages are those of the row. */
    both->line = node->line;
    both->column = node->column;
    *merged = both;
    return PARE_OK;
}

/* ---- differences ---- */

static void say(const char *path, const char *key, const pare_node *before, const pare_node *after,
                pare_text *out)
{
    if (out->length)
        pare_text_add(out, "; ");
    pare_text_printf(out, "%s%s%s ", path, *path ? "." : "", key);
    if (after)
        pare_tree_write(after, 0, out);
    else
        pare_text_add(out, "none");
    pare_text_add(out, ", was ");
    if (before)
        pare_tree_write(before, 0, out);
    else
        pare_text_add(out, "none");
}

static void compare(const char *path, const pare_node *before, const pare_node *after,
                    pare_text *out)
{
    for (const pare_node *one = after->first; one; one = one->next) {
        const pare_node *was = pare_node_get(before, one->key);
        const bool maps = was && was->form == PARE_NODE_MAP && one->form == PARE_NODE_MAP &&
                          !*path && strcmp(one->key, "mass") != 0;
        if (maps)
            compare(one->key, was, one, out);
        else if (!was || !pare_node_same(was, one))
            say(path, one->key, was, one, out);
    }
    for (const pare_node *one = before->first; one; one = one->next)
        if (!pare_node_get(after, one->key))
            say(path, one->key, one, NULL, out);
}

void pare_keeper_differences(const pare_node *before, const pare_node *after, pare_text *out)
{
    compare("", before, after, out);
}

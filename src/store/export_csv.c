/* export_csv.c: one list of the bench as CSV (see list_out.h).
 *
 * The columns are the targets of the importer's own table (csv_words.h), in its order, so that the two
 * cannot differ; those in which nothing would stand are left out. Two passes over the rows: which
 * columns, and the rows themselves. A unit goes over its column only where a number and a unit are all
 * that a cell holds, so that nothing typed is reckoned over and rounded.
 *
 * A part's body, what it includes and the like have no place in a flat list. They are counted by key,
 * and the caller says so: YAML and JSON hold all. */
#include <stdlib.h>
#include <string.h>

#include "store/csv_out.h"
#include "store/csv_words.h"
#include "store/facts.h"
#include "store/list_out.h"
#include "store/load.h"
#include "store/reading.h"
#include "store/tree_edit.h"
#include "store/weighed_of.h"

enum { LEFT_KEYS = 32 };

typedef struct column {
    const pare_csv_target *target;
    bool used;
    char unit[24]; /* over the column; "": none */
} column;

typedef struct writer {
    pare_list_kind list;
    size_t columns, rows;
    column column[PARE_CSV_TARGETS];
    size_t keys; /* of what has no place */
    struct {
        char key[64];
        size_t count;
    } left[LEFT_KEYS];
    pare_text cell; /* at hand */
    pare_text *out; /* NULL in the first pass */
    pare_arena *arena;
} writer;

static const char *const SQL[PARE_LIST_KINDS] = {
    [PARE_LIST_PARTS] = "SELECT doc, mass_kg, facts FROM part ORDER BY id",
    [PARE_LIST_WEIGH_INS] = "SELECT doc FROM weigh_in ORDER BY craft, date, row",
    [PARE_LIST_FLIGHTS] = "SELECT doc FROM flight ORDER BY craft, date, row",
    [PARE_LIST_STAND] = "SELECT doc FROM stand_table ORDER BY motor, propeller, row",
};

static void leave(writer *w, const char *key)
{
    size_t i = 0;
    while (i < w->keys && strcmp(w->left[i].key, key) != 0)
        i++;
    if (i == LEFT_KEYS || w->out)
        return; /* counted in the first pass */
    if (i == w->keys)
        strncat(w->left[w->keys++].key, key, sizeof w->left->key - 1);
    w->left[i].count++;
}

/* ---- cells ---- */

/* A number and a unit are all of it: where the unit begins; NULL otherwise. */
static const char *unit_of(const char *text)
{
    char *end = NULL;
    const size_t number = strspn(text, "+-.0123456789eE");
    strtod(text, &end);
    if (number == 0 || end != text + number || text[number] != ' ')
        return NULL;
    const char *unit = text + number + 1;
    return *unit && !strpbrk(unit, " ()") && strlen(unit) < sizeof((column *)0)->unit ? unit : NULL;
}

/* What lay on a scale: all, or "motor 4, joint.motor_base 16". */
static void things(const pare_node *of, pare_text *cell)
{
    if (of->text)
        pare_text_add(cell, of->text);
    for (const pare_node *one = of->form == PARE_NODE_MAP ? of->first : NULL; one; one = one->next)
        pare_text_printf(cell, "%s%s %s", one != of->first ? ", " : "", one->key,
                         one->text ? one->text : "");
}

/* A scalar as it stands; a number with more said of it as its value; sizes to choose from side by
 * side. @return false: it has no place in a cell */
static bool cell_of(const pare_csv_target *target, const pare_node *node, pare_text *cell)
{
    if (target->form == PARE_CSV_THINGS) {
        things(node, cell);
        return true;
    }
    if (node->form == PARE_NODE_SCALAR) {
        pare_text_add(cell, node->text);
        return true;
    }
    const pare_node *value = pare_node_get(node, "value");
    if (value && value->text) {
        pare_text_add(cell, value->text);
        return true;
    }
    if (node->form != PARE_NODE_LIST || target->form != PARE_CSV_FIT)
        return false;
    for (const pare_node *one = node->first; one; one = one->next) {
        if (!one->text || !unit_of(one->text))
            return false;
        pare_text_printf(cell, "%s%s", one != node->first ? " x " : "", one->text);
    }
    return true;
}

/* Where a target's value stands in a row's tree, or NULL. */
static const pare_node *node_of(const pare_csv_target *target, const pare_node *root)
{
    const pare_node *mass = pare_node_get(root, "mass"), *price = pare_node_get(root, "price");
    if (strcmp(target->name, "mass_u") == 0)
        return mass ? pare_node_get(mass, "u") : NULL;
    if (strcmp(target->name, "known") == 0)
        return mass ? pare_node_get(mass, "known") : NULL;
    if (target->form == PARE_CSV_NAME || target->form == PARE_CSV_SIZE ||
        target->form == PARE_CSV_MOUNT)
        return NULL; /* an import's words for what has a column of its own here */
    if (target->map && strcmp(target->map, "price") == 0 && strcmp(target->name, "price") == 0)
        return price && price->form == PARE_NODE_MAP ? pare_node_get(price, "each") : price;
    const pare_node *map = target->map ? pare_node_get(root, target->map) : root;
    const char *key = strcmp(target->name, "air_temperature") == 0 ? "temperature" : target->name;
    return map ? pare_node_get(map, key) : NULL;
}

static void clear(pare_text *cell)
{
    cell->length = 0;
    if (cell->bytes)
        cell->bytes[0] = '\0';
}

/* ---- one row ---- */

static void see_cell(writer *w, column *c, const pare_node *node)
{
    clear(&w->cell);
    if (!cell_of(c->target, node, &w->cell) || !w->cell.bytes) {
        leave(w, c->target->name);
        return;
    }
    const char *unit = c->target->form == PARE_CSV_QUANTITY || c->target->form == PARE_CSV_MASS_U
                           ? unit_of(w->cell.bytes)
                           : NULL;
    if (!c->used && unit)
        strcpy(c->unit, unit); /* shorter: unit_of() has seen to that */
    c->used = true;
}

static void put_cell(writer *w, const column *c, const pare_node *node)
{
    clear(&w->cell);
    if (!node || !cell_of(c->target, node, &w->cell) || !w->cell.bytes)
        return; /* counted in the first pass */
    const char *unit = *c->unit ? unit_of(w->cell.bytes) : NULL;
    if (unit && strcmp(unit, c->unit) == 0) {
        w->cell.length = (size_t)(unit - 1 - w->cell.bytes);
        w->cell.bytes[w->cell.length] = '\0';
    }
    pare_csv_add_field(w->cell.bytes, w->out);
}

/* Keys of a row, and of its maps, that no column says. */
static void see_left(writer *w, const pare_node *map, const char *above)
{
    for (const pare_node *one = map->first; one; one = one->next) {
        const bool below = one->form == PARE_NODE_MAP &&
                           (strcmp(one->key, "spec") == 0 || strcmp(one->key, "fits") == 0 ||
                            strcmp(one->key, "price") == 0 || strcmp(one->key, "air") == 0);
        if (below && !above) {
            see_left(w, one, one->key);
            continue;
        }
        const char *name = above && strcmp(above, "price") == 0 && strcmp(one->key, "each") == 0
                               ? "price"
                               : one->key;
        if (!pare_csv_target_named(w->list, name))
            leave(w, name);
        /* Of a spec only its number has a place. */
        else if (above && one->form == PARE_NODE_MAP)
            leave(w, "uncertainties of specs");
    }
}

static void take_row(writer *w, const pare_node *root)
{
    if (!w->out) {
        see_left(w, root, NULL);
        for (size_t i = 0; i < w->columns; i++) {
            const pare_node *node = node_of(w->column[i].target, root);
            if (node)
                see_cell(w, &w->column[i], node);
        }
        return;
    }
    bool first = true;
    for (size_t i = 0; i < w->columns; i++) {
        if (!w->column[i].used)
            continue;
        if (!first)
            pare_text_add(w->out, ",");
        put_cell(w, &w->column[i], node_of(w->column[i].target, root));
        first = false;
    }
    pare_text_add(w->out, "\r\n");
    w->rows++;
}

/* An open mesh is weighed by its hull, which is an estimate. */
static bool has_mesh(const pare_node *root)
{
    const pare_node *body = pare_node_get(root, "body");
    bool has = body && pare_node_get(body, "mesh");
    for (const pare_node *one = body ? body->first : NULL; one && !has; one = one->next)
        has = pare_node_get(one, "mesh") != NULL;
    return has;
}

/* A printed part is weighed by its body, which has no place in a list: the mass that was computed goes
 * in its stead, marked so. What a law filled in is not written: an import fills it in again. */
static const pare_node *with_mass(const pare_node *root, pare_statement *statement,
                                  pare_arena *arena)
{
    pare_facts facts;
    if (pare_node_get(root, "mass") ||
        !pare_facts_unpack(pare_sql_bytes(statement, 2), pare_sql_length(statement, 2), &facts) ||
        (facts.mass_known != PARE_COMPUTED && !has_mesh(root)))
        return root;
    pare_node *with = pare_node_without(arena, root, NULL);
    pare_node *mass = pare_node_made(arena, PARE_NODE_MAP, "mass", NULL);
    const struct {
        const char *key;
        const char *text;
    } rows[] = {
        {"value", pare_arena_printf(arena, "%.4g g", 1e3 * pare_sql_real(statement, 1))},
        {"u", pare_arena_printf(arena, "%.2g g", 1e3 * facts.value[PARE_FACT_MASS_U])},
        {"known", pare_known_name(facts.mass_known)},
    };
    for (size_t i = 0; i < PARE_COUNT(rows) && mass; i++) {
        pare_node *one = rows[i].text
                             ? pare_node_made(arena, PARE_NODE_SCALAR, rows[i].key, rows[i].text)
                             : NULL;
        if (!one)
            return NULL;
        pare_node_set(mass, one);
    }
    if (!with || !mass)
        return NULL;
    pare_node_set(with, mass);
    return with;
}

/* ---- stand tables: a row each of their rows ---- */

static bool is_of_rows(const column *c)
{
    return c->target->map && strcmp(c->target->map, "columns") == 0;
}

static pare_status see_stand(writer *w, const pare_node *root, pare_error *err)
{
    for (size_t i = 0; i < w->columns; i++) {
        column *c = &w->column[i];
        const pare_node *node = node_of(c->target, root);
        if (!node || !node->text)
            continue;
        if (!is_of_rows(c)) {
            see_cell(w, c, node);
            continue;
        }
        if (strlen(node->text) >= sizeof c->unit || (c->used && strcmp(c->unit, node->text) != 0))
            return pare_fail(err, PARE_BAD_DATA,
                             "stand tables have %s in %.20s and in %.20s, of which a list can only "
                             "say one; right would be YAML or JSON",
                             c->target->name, c->unit, node->text);
        strcpy(c->unit, node->text);
        c->used = true;
    }
    return PARE_OK;
}

static void put_stand(writer *w, const pare_node *root)
{
    const pare_node *columns = pare_node_get(root, "columns"), *rows = pare_node_get(root, "rows");
    for (const pare_node *row = rows ? rows->first : NULL; row; row = row->next) {
        bool first = true;
        for (size_t i = 0; i < w->columns; i++) {
            const column *c = &w->column[i];
            if (!c->used)
                continue;
            if (!first)
                pare_text_add(w->out, ",");
            first = false;
            if (!is_of_rows(c)) {
                put_cell(w, c, node_of(c->target, root));
                continue;
            }
            const bool named = columns && columns->form == PARE_NODE_MAP;
            const pare_node *name = named ? columns->first : NULL, *value = row->first;
            while (name && value && strcmp(name->key, c->target->name) != 0) {
                name = name->next;
                value = value->next;
            }
            if (name && value && value->text)
                pare_csv_add_field(value->text, w->out);
        }
        pare_text_add(w->out, "\r\n");
        w->rows++;
    }
}

/* ---- the list ---- */

static pare_status each_row(pare_store *store, writer *w, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    size_t done = 0;
    pare_status status = pare_sql_prepare(store, &statement, err, SQL[w->list], "");
    while (status == PARE_OK) {
        const pare_node *root = NULL;
        status = pare_sql_step(store, statement, &row, err);
        if (!row)
            break;
        const char *doc = pare_sql_chars(statement, 0);
        pare_arena *arena = pare_arena_open();
        if (status == PARE_OK && arena && w->list == PARE_LIST_WEIGH_INS)
            status = pare_weighed_of_out(store, doc, arena, &doc, err);
        if (status == PARE_OK)
            status = arena ? pare_tree_parse_map(doc ? doc : "", doc ? strlen(doc) : 0, store->path,
                                                 arena, &root, err)
                           : pare_no_memory(err);
        if (status == PARE_OK && w->list == PARE_LIST_PARTS &&
            !(root = with_mass(root, statement, arena)))
            status = pare_no_memory(err);
        if (status == PARE_OK && w->list == PARE_LIST_STAND && w->out)
            put_stand(w, root);
        else if (status == PARE_OK && w->list == PARE_LIST_STAND)
            status = see_stand(w, root, err);
        else if (status == PARE_OK)
            take_row(w, root);
        pare_arena_close(arena);
        if (status == PARE_OK)
            status = pare_store_step(store, w->out ? "rows" : "looking at rows:", ++done, 0, err);
    }
    pare_sql_finish(statement);
    return status;
}

static void put_head(const writer *w)
{
    bool first = true;
    for (size_t i = 0; i < w->columns; i++) {
        const column *c = &w->column[i];
        if (!c->used)
            continue;
        pare_text_printf(w->out, "%s%s", first ? "" : ",", c->target->name);
        if (*c->unit)
            pare_text_printf(w->out, " (%s)", c->unit);
        first = false;
    }
    pare_text_add(w->out, "\r\n");
}

static pare_status say_left(const writer *w, size_t *lefts, const char *const **left,
                            pare_error *err)
{
    const char **lines = pare_arena_array(w->arena, w->keys + 1, sizeof *lines);
    if (!lines)
        return pare_no_memory(err);
    for (size_t i = 0; i < w->keys; i++) {
        lines[i] = pare_arena_printf(w->arena, "%s of %zu", w->left[i].key, w->left[i].count);
        if (!lines[i])
            return pare_no_memory(err);
    }
    *lefts = w->keys;
    *left = lines;
    return PARE_OK;
}

static pare_status write_list(pare_store *store, writer *w, pare_text *out, pare_error *err)
{
    const char *names[PARE_CSV_TARGETS];
    w->columns = pare_csv_target_names(w->list, names);
    for (size_t i = 0; i < w->columns; i++)
        w->column[i].target = pare_csv_target_named(w->list, names[i]);
    /* An empty list has a head too, so that it says what it is. */
    for (size_t i = 0; i < w->columns && i < 2; i++)
        w->column[i].used = w->column[i].target->form != PARE_CSV_NAME;
    pare_status status = pare_sql_begin_reading(store, err);
    if (status != PARE_OK)
        return status;
    status = each_row(store, w, err);
    w->out = out;
    put_head(w);
    if (status == PARE_OK)
        status = each_row(store, w, err);
    pare_sql_rollback(store);
    return status == PARE_OK && (out->failed || w->cell.failed) ? pare_no_memory(err) : status;
}

pare_status pare_store_export_csv(pare_store *store, pare_list_kind list, pare_text *out,
                                  pare_arena *arena, size_t *rows, size_t *lefts,
                                  const char *const **left, pare_error *err)
{
    writer *w = calloc(1, sizeof *w);
    if (!w)
        return pare_no_memory(err);
    w->list = list;
    w->arena = arena;
    pare_status status = write_list(store, w, out, err);
    if (status == PARE_OK)
        status = say_left(w, lefts, left, err);
    *rows = w->rows;
    pare_text_free(&w->cell);
    free(w);
    return status;
}

/* export_json.c: the bench as JSON (see list_out.h).
 *
 * Written here and not by jansson: a number keeps the digits that were typed ("3.20"), which a double
 * has lost, and a bench of 100,000 parts is not built up in memory first. A row's text is short; only
 * the tree of one at a time is read. */
#include <string.h>

#include "store/list_out.h"
#include "store/load.h"
#include "store/tree.h"
#include "store/weighed_of.h"

static void put_string(const char *text, pare_text *out)
{
    pare_text_add(out, "\"");
    for (const char *c = text; *c; c++) {
        if (*c == '"' || *c == '\\')
            pare_text_put(out, "\\", 1);
        pare_text_put(out, c, 1); /* a tree's scalars have no control characters */
    }
    pare_text_add(out, "\"");
}

static const char *digits(const char *at)
{
    return at + strspn(at, "0123456789");
}

/* Whether a text is a number by JSON's own grammar (RFC 8259, section 6), or true or false. */
static bool is_literal(const char *text)
{
    if (strcmp(text, "true") == 0 || strcmp(text, "false") == 0)
        return true;
    const char *at = text + (*text == '-'), *end = digits(at);
    if (end == at || (*at == '0' && end > at + 1))
        return false;
    if (*end == '.') {
        at = end + 1;
        end = digits(at);
        if (end == at)
            return false;
    }
    if (*end == 'e' || *end == 'E') {
        at = end + 1;
        at += *at == '+' || *at == '-';
        end = digits(at);
        if (end == at)
            return false;
    }
    return !*end;
}

static void put_node(const pare_node *node, pare_text *out)
{
    if (node->form == PARE_NODE_SCALAR) {
        if (is_literal(node->text))
            pare_text_add(out, node->text);
        else
            put_string(node->text, out);
        return;
    }
    const bool map = node->form == PARE_NODE_MAP;
    pare_text_add(out, map ? "{" : "[");
    for (const pare_node *one = node->first; one; one = one->next) {
        if (one != node->first)
            pare_text_add(out, ", ");
        if (map) {
            put_string(one->key, out);
            pare_text_add(out, ": ");
        }
        put_node(one, out);
    }
    pare_text_add(out, map ? "}" : "]");
}

static pare_status put_row(pare_store *store, const char *key, pare_statement *statement,
                           pare_text *out, pare_error *err)
{
    const char *doc = pare_sql_chars(statement, 0);
    pare_arena *arena = pare_arena_open();
    const pare_node *root = NULL;
    if (!arena)
        return pare_no_memory(err);
    pare_status status = PARE_OK;
    if (strcmp(key, "weigh_ins") == 0)
        status = pare_weighed_of_out(store, doc, arena, &doc, err);
    if (status == PARE_OK)
        status = pare_tree_parse_map(doc ? doc : "", doc ? strlen(doc) : 0, store->path, arena,
                                     &root, err);
    if (status == PARE_OK)
        put_node(root, out);
    pare_arena_close(arena);
    return status;
}

static pare_status put_list(pare_store *store, const char *key, const char *sql, pare_text *out,
                            pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    size_t n = 0;
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (!row)
            break;
        if (n++ == 0)
            pare_text_printf(out, ",\n\"%s\": [\n", key);
        else
            pare_text_add(out, ",\n");
        status = put_row(store, key, statement, out, err);
        if (status == PARE_OK)
            status = pare_store_step(store, key, n, 0, err);
    }
    pare_sql_finish(statement);
    if (n)
        pare_text_add(out, "\n]");
    return status;
}

pare_status pare_store_export_json(pare_store *store, pare_text *out, pare_error *err)
{
    const char *money = "";
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_sql_begin_reading(store, err);
    if (status == PARE_OK)
        status = pare_load_setting(store, "money", arena, &money, err);
    pare_text_add(out, "{\"pare\": 1");
    if (status == PARE_OK && *money) {
        pare_text_add(out, ",\n\"money\": ");
        put_string(money, out);
    }
    for (size_t i = 0; i < PARE_EXPORT_LISTS && status == PARE_OK; i++)
        status = put_list(store, pare_export_lists[i].key, pare_export_lists[i].sql, out, err);
    pare_text_add(out, "\n}\n");
    pare_sql_rollback(store);
    pare_arena_close(arena);
    return status == PARE_OK && out->failed ? pare_no_memory(err) : status;
}

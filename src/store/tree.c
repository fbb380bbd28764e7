/* tree.c: a document read by libyaml into a tree (see tree.h).
 *
 * libyaml gives events; a stack of at most PARE_TREE_DEPTH open maps and lists puts them together,
 * so nothing recurses over the input. Bytes are checked before libyaml sees them, because its own
 * complaints about bytes have no line. Entries of a list that is handed over are made in an arena of
 * their own, and hang nowhere. Aliases are refused rather than resolved: ten lines of them
 * can stand for a thousand million values. */
#include "store/tree.h"

#include <assert.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include <yaml.h>

#include "store/utf8.h"

enum { FEW = 16 }; /* keys that are compared pair by pair */

typedef struct open_node {
    pare_node_form form;
    pare_node *node, *last;
    const char *key; /* of a map: read, its value awaited */
    int key_line, key_column;
} open_node;

typedef struct builder {
    const char *name;
    pare_arena *arena;
    const pare_tree_each *each; /* NULL: none */
    bool handing_over;          /* within its list */
    size_t values;              /* in the tree and the entry at hand */
    size_t values_before;       /* that entry */
    int depth;
    open_node open[PARE_TREE_DEPTH];
    pare_node *root;
} builder;

/* How many printable ASCII characters stand here: most of any bench, and none of them needs a look. */
static size_t plain(const unsigned char *c, size_t left)
{
    size_t count = 0;
    while (count < left && c[count] >= 0x20 && c[count] < 0x7f)
        count++;
    return count;
}

int pare_tree_is_line(const char *text)
{
    const unsigned char *c = (const unsigned char *)text;
    for (size_t left = strlen(text); left;) {
        unsigned code = 0;
        const size_t same = plain(c, left);
        c += same;
        left -= same;
        if (left == 0)
            break;
        const size_t length = pare_utf8_character(c, left, &code);
        if (length == 0 || pare_utf8_is_control(code))
            return 0;
        c += length;
        left -= length;
    }
    return 1;
}

static pare_status check_bytes(const char *bytes, size_t length, const char *name, pare_error *err)
{
    const unsigned char *c = (const unsigned char *)bytes;
    int line = 1, column = 1;
    for (size_t left = length; left;) {
        unsigned code = 0;
        const size_t same = plain(c, left);
        c += same;
        left -= same;
        column += (int)same;
        if (left == 0)
            break;
        const size_t size = pare_utf8_character(c, left, &code);
        if (size == 0)
            return pare_fail(err, PARE_BAD_DATA,
                             "%s:%d:%d: byte 0x%02x is not UTF-8; a bench is text in UTF-8", name,
                             line, column, (unsigned)*c);
        if (code != '\n' && code != '\r' && code != '\t' && pare_utf8_is_control(code) &&
            !(code == 0xfeff && left == length))
            return pare_fail(
                err, PARE_BAD_DATA,
                "%s:%d:%d: control character U+%04X; a bench is text without such characters", name,
                line, column, code);
        column++;
        if (code == '\n') {
            line++;
            column = 1;
        }
        c += size;
        left -= size;
    }
    return PARE_OK;
}

#define AT(mark) (int)(mark).line + 1, (int)(mark).column + 1

static pare_status refuse(const builder *b, yaml_mark_t mark, pare_error *err, const char *what)
{
    return pare_fail(err, PARE_BAD_DATA, "%s:%d:%d: %s", b->name, AT(mark), what);
}

static pare_status scanner_failed(const builder *b, const yaml_parser_t *parser, pare_error *err)
{
    if (parser->error == YAML_MEMORY_ERROR)
        return pare_no_memory(err);
    const char *problem = parser->problem ? parser->problem : "it cannot be read";
    if (parser->context && parser->context_mark.line != parser->problem_mark.line)
        return pare_fail(err, PARE_BAD_DATA, "%s:%d:%d: not YAML: %s (%s that starts in line %d)",
                         b->name, AT(parser->problem_mark), problem, parser->context,
                         (int)parser->context_mark.line + 1);
    return pare_fail(err, PARE_BAD_DATA, "%s:%d:%d: not YAML: %s", b->name,
                     AT(parser->problem_mark), problem);
}

static int by_key(const void *a, const void *b)
{
    const pare_node *const *one = a, *const *two = b;
    const int order = strcmp((*one)->key, (*two)->key);
    if (order)
        return order;
    if ((*one)->key_line != (*two)->key_line)
        return (*one)->key_line - (*two)->key_line;
    return (*one)->key_column - (*two)->key_column;
}

static bool keys_differ(const pare_node *map)
{
    for (const pare_node *one = map->first; one; one = one->next)
        for (const pare_node *other = one->next; other; other = other->next)
            if (strcmp(one->key, other->key) == 0)
                return false;
    return true;
}

/* A large map is sorted rather than compared pair by pair: a hostile one may have very many keys. */
static pare_status check_keys_differ(const builder *b, const pare_node *map, pare_error *err)
{
    if (map->count <= FEW && keys_differ(map))
        return PARE_OK;
    const pare_node **sorted = calloc(map->count, sizeof *sorted);
    if (!sorted)
        return pare_no_memory(err);
    size_t n = 0;
    for (const pare_node *child = map->first; child; child = child->next)
        sorted[n++] = child;
    qsort(sorted, n, sizeof *sorted, by_key);
    pare_status status = PARE_OK;
    for (size_t i = 1; i < n && status == PARE_OK; i++)
        if (strcmp(sorted[i - 1]->key, sorted[i]->key) == 0)
            status = pare_fail(err, PARE_BAD_DATA,
                               "%s:%d:%d: '%s' stands here a second time; once is enough (line %d)",
                               b->name, sorted[i]->key_line, sorted[i]->key_column, sorted[i]->key,
                               sorted[i - 1]->key_line);
    free(sorted);
    return status;
}

/* ---- building ---- */

/* Where what is read now is made. */
static pare_arena *arena_of(const builder *b)
{
    return b->handing_over ? b->each->arena : b->arena;
}

/* Whether the next node is an entry of the list that is handed over. */
static bool is_entry(const builder *b)
{
    return b->handing_over && b->depth == 2;
}

/* Whether a list that opens now is the one. */
static bool is_handed_over(const builder *b, pare_node_form form)
{
    return b->each && form == PARE_NODE_LIST && b->depth == 1 && b->open[0].key &&
           strcmp(b->open[0].key, b->each->key) == 0;
}

static void hang(open_node *in, pare_node *node)
{
    if (in->last)
        in->last->next = node;
    else
        in->node->first = node;
    in->last = node;
    in->node->count++;
}

/* Puts a new node where the document has come to. */
static pare_status place(builder *b, pare_node_form form, yaml_mark_t mark, pare_node **placed,
                         pare_error *err)
{
    if (is_entry(b))
        b->values_before = b->values;
    if (b->values++ == PARE_TREE_VALUES)
        return refuse(b, mark, err, "more than 1000000 values; no bench is that large");
    pare_node *node = pare_arena_zeros(arena_of(b), sizeof *node);
    if (!node)
        return pare_no_memory(err);
    node->form = form;
    node->line = (int)mark.line + 1;
    node->column = (int)mark.column + 1;
    *placed = node;
    if (b->depth == 0) {
        b->root = node;
        return PARE_OK;
    }
    open_node *in = &b->open[b->depth - 1];
    assert(in->node); /* open_up() has set it */
    node->key = in->key;
    node->key_line = in->key_line;
    node->key_column = in->key_column;
    in->key = NULL;
    if (!is_entry(b))
        hang(in, node);
    return PARE_OK;
}

/* The same tree in another arena; it is at most PARE_TREE_DEPTH deep. */
static pare_node *copy_of(const pare_node *node, pare_arena *arena)
{
    pare_node *copy = pare_arena_zeros(arena, sizeof *copy);
    if (!copy)
        return NULL;
    *copy = *node;
    copy->next = copy->first = NULL;
    copy->key = node->key ? pare_arena_text(arena, node->key) : NULL;
    copy->text = node->text ? pare_arena_text(arena, node->text) : NULL;
    if ((node->key && !copy->key) || (node->text && !copy->text))
        return NULL;
    pare_node **last = &copy->first;
    for (const pare_node *child = node->first; child; child = child->next) {
        *last = copy_of(child, arena);
        if (!*last)
            return NULL;
        last = &(*last)->next;
    }
    return copy;
}

/* An entry is complete. */
static pare_status hand_over(builder *b, const pare_node *entry, pare_error *err)
{
    bool keep = false;
    const pare_status status = b->each->take(b->each->context, b->root, entry, &keep, err);
    pare_node *copy = status == PARE_OK && keep ? copy_of(entry, b->arena) : NULL;
    if (status == PARE_OK && keep && !copy)
        return pare_no_memory(err);
    if (copy)
        hang(&b->open[1], copy);
    else
        b->values = b->values_before;
    pare_arena_clear(b->each->arena);
    return status;
}

/* A map or list has come to its end. */
static pare_status close_node(builder *b, pare_error *err)
{
    const pare_node *node = b->open[--b->depth].node;
    if (is_entry(b))
        return hand_over(b, node, err);
    if (b->depth == 1)
        b->handing_over = false;
    return PARE_OK;
}

static pare_status open_up(builder *b, pare_node_form form, const yaml_event_t *event,
                           pare_error *err)
{
    const yaml_char_t *anchor = form == PARE_NODE_MAP ? event->data.mapping_start.anchor
                                                      : event->data.sequence_start.anchor;
    const yaml_char_t *tag =
        form == PARE_NODE_MAP ? event->data.mapping_start.tag : event->data.sequence_start.tag;
    if (anchor)
        return refuse(b, event->start_mark, err, "an anchor (&); write the values out instead");
    if (tag)
        return refuse(b, event->start_mark, err, "a tag (!); leave it out");
    if (b->depth == PARE_TREE_DEPTH)
        return refuse(b, event->start_mark, err,
                      "nested more than 32 deep; a bench needs far less");
    if (b->depth && b->open[b->depth - 1].form == PARE_NODE_MAP && !b->open[b->depth - 1].key)
        return refuse(b, event->start_mark, err, "a map or list as a key; a key is one word");
    pare_node *node = NULL;
    const bool each = is_handed_over(b, form);
    const pare_status status = place(b, form, event->start_mark, &node, err);
    if (status == PARE_OK)
        b->open[b->depth++] = (open_node){.form = form, .node = node};
    b->handing_over = b->handing_over || each;
    return status;
}

static pare_status add_scalar(builder *b, const yaml_event_t *event, pare_error *err)
{
    const char *value = (const char *)event->data.scalar.value;
    const size_t length = event->data.scalar.length;
    if (event->data.scalar.anchor)
        return refuse(b, event->start_mark, err, "an anchor (&); write the value out instead");
    if (event->data.scalar.tag)
        return refuse(b, event->start_mark, err, "a tag (!); leave it out");
    if (strlen(value) != length || !pare_tree_is_line(value))
        return refuse(b, event->start_mark, err,
                      "a line break or control character in a value; one line of text is right");
    char *text = pare_arena_copy(arena_of(b), value, length);
    if (!text)
        return pare_no_memory(err);
    open_node *in = b->depth ? &b->open[b->depth - 1] : NULL;
    if (in && in->form == PARE_NODE_MAP && !in->key) {
        if (length == 0 || length > PARE_TREE_KEY)
            return refuse(b, event->start_mark, err, "a key of 1 to 128 bytes is right here");
        in->key = text;
        in->key_line = (int)event->start_mark.line + 1;
        in->key_column = (int)event->start_mark.column + 1;
        return PARE_OK;
    }
    pare_node *node = NULL;
    const pare_status status = place(b, PARE_NODE_SCALAR, event->start_mark, &node, err);
    if (status != PARE_OK)
        return status;
    node->text = text;
    return is_entry(b) ? hand_over(b, node, err) : PARE_OK;
}

static pare_status take_event(builder *b, const yaml_event_t *event, pare_error *err)
{
    const pare_node *map;
    pare_status status;
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        if (b->root)
            return refuse(b, event->start_mark, err, "a second document; one a file is right");
        return PARE_OK;
    case YAML_ALIAS_EVENT:
        return refuse(b, event->start_mark, err, "an alias (*); write the value out instead");
    case YAML_SCALAR_EVENT:
        return add_scalar(b, event, err);
    case YAML_SEQUENCE_START_EVENT:
        return open_up(b, PARE_NODE_LIST, event, err);
    case YAML_MAPPING_START_EVENT:
        return open_up(b, PARE_NODE_MAP, event, err);
    case YAML_SEQUENCE_END_EVENT:
        return close_node(b, err);
    case YAML_MAPPING_END_EVENT:
        map = b->open[b->depth - 1].node;
        assert(map); /* libyaml ends only what it has begun */
        status = check_keys_differ(b, map, err);
        return status == PARE_OK ? close_node(b, err) : status;
    default:
        return PARE_OK;
    }
}

static pare_status build(builder *b, yaml_parser_t *parser, pare_error *err)
{
    for (;;) {
        yaml_event_t event;
        if (!yaml_parser_parse(parser, &event))
            return scanner_failed(b, parser, err);
        const yaml_event_type_t type = event.type;
        const pare_status status = take_event(b, &event, err);
        yaml_event_delete(&event);
        if (status != PARE_OK || type == YAML_STREAM_END_EVENT)
            return status;
    }
}

pare_status pare_tree_parse(const char *bytes, size_t length, const char *name, pare_arena *arena,
                            const pare_node **root, pare_error *err)
{
    return pare_tree_parse_each(bytes, length, name, arena, NULL, root, err);
}

pare_status pare_tree_parse_map(const char *bytes, size_t length, const char *name,
                                pare_arena *arena, const pare_node **root, pare_error *err)
{
    const pare_status status = pare_tree_parse(bytes, length, name, arena, root, err);
    if (status != PARE_OK || (*root)->form == PARE_NODE_MAP)
        return status;
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: an entry that is no map of keys; right would be {key: value}", name);
}

pare_status pare_tree_parse_each(const char *bytes, size_t length, const char *name,
                                 pare_arena *arena, const pare_tree_each *each,
                                 const pare_node **root, pare_error *err)
{
    if (length > PARE_TREE_BYTES)
        return pare_fail(err, PARE_BAD_DATA, "%s: %zu bytes; 64 MiB is the most that is read", name,
                         length);
    pare_status status = check_bytes(bytes, length, name, err);
    if (status != PARE_OK)
        return status;
    yaml_parser_t parser;
    if (!yaml_parser_initialize(&parser))
        return pare_no_memory(err);
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)bytes, length);
    builder b = {.name = name, .arena = arena, .each = each};
    status = build(&b, &parser, err);
    yaml_parser_delete(&parser);
    if (status == PARE_OK && !b.root)
        status =
            pare_fail(err, PARE_BAD_DATA, "%s:1:1: nothing here; a map of keys is right", name);
    if (status == PARE_OK)
        *root = b.root;
    return status;
}

const pare_node *pare_node_get(const pare_node *map, const char *key)
{
    if (map->form != PARE_NODE_MAP)
        return NULL;
    for (const pare_node *child = map->first; child; child = child->next)
        if (strcmp(child->key, key) == 0)
            return child;
    return NULL;
}

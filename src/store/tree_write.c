/* tree_write.c: a tree as YAML that a person likes to read and diff (see tree.h).
 *
 * One rule for scalars everywhere, the strict one of flow style, so that a value is written the
 * same wherever it stands. One rule for maps and lists: on one line when that fits. Both depend on
 * the tree alone, hence what is written reads and writes back to the same bytes. */
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#include "store/tree.h"

enum { WIDTH = 98 /* two less than a page: a list may push it in by two */ };

/* The first character of a plain scalar. A minus may start one before a digit or a point, as in negative
 * quantities. */
static bool starts_plain(const char *text)
{
    if (text[0] == '-')
        return text[1] && strchr(".0123456789", text[1]);
    return text[0] && !strchr(" ?:,[]{}#&*!|<>'\"%@`=~", text[0]) && strncmp(text, "...", 3) != 0;
}

/* Whether a character of a plain scalar may be followed by this one; NUL is its end. */
static bool goes_on_plain(char c, char next)
{
    switch (c) {
    case ',':
    case '[':
    case ']':
    case '{':
    case '}':
    case '"':
        return false;
    case ':': /* in flow style the reader takes ":?" for the begin of a key */
        return next && next != ' ' && next != '?';
    case ' ':
        return next && next != '#';
    default:
        return true;
    }
}

/* @param[out] length  of the text; not where it is false */
static bool is_plain(const char *text, size_t *length)
{
    if (!starts_plain(text))
        return false;
    const char *c = text;
    for (; *c; c++)
        if (!goes_on_plain(c[0], c[1]))
            return false;
    *length = (size_t)(c - text);
    return true;
}

static void put_scalar(const char *text, pare_text *out)
{
    size_t length = 0;
    if (is_plain(text, &length)) {
        pare_text_put(out, text, length);
        return;
    }
    pare_text_put(out, "\"", 1);
    for (const char *c = text; *c; c++) {
        if (*c == '"' || *c == '\\')
            pare_text_put(out, "\\", 1);
        pare_text_put(out, c, 1);
    }
    pare_text_put(out, "\"", 1);
}

static void put_blanks(int count, pare_text *out)
{
    for (int i = 0; i < count; i++)
        pare_text_put(out, " ", 1);
}

/* Characters rather than bytes from `from` on: the width on a screen, near enough. */
static size_t characters(const pare_text *out, size_t from)
{
    size_t count = 0;
    for (size_t i = from; i < out->length; i++)
        count += ((unsigned char)out->bytes[i] & 0xc0) != 0x80;
    return count;
}

/* Whether what was written from `from` on is no wider. Bytes are looked at only where they decide. */
static bool fits(const pare_text *out, size_t from, size_t most)
{
    return out->length - from <= most || characters(out, from) <= most;
}

/* On one line; gives up, with false, once the line from `from` on is wider than `most`. */
static bool put_flow(const pare_node *node, size_t from, size_t most, pare_text *out)
{
    if (node->form == PARE_NODE_SCALAR) {
        put_scalar(node->text, out);
        return fits(out, from, most);
    }
    pare_text_put(out, node->form == PARE_NODE_MAP ? "{" : "[", 1);
    for (const pare_node *child = node->first; child; child = child->next) {
        if (child != node->first)
            pare_text_put(out, ", ", 2);
        if (child->key) {
            put_scalar(child->key, out);
            pare_text_put(out, ": ", 2);
        }
        if (!put_flow(child, from, most, out))
            return false;
    }
    pare_text_put(out, node->form == PARE_NODE_MAP ? "}" : "]", 1);
    return fits(out, from, most);
}

/* Takes back what was written since. */
static void cut(pare_text *out, size_t length)
{
    out->length = length;
    if (out->bytes)
        out->bytes[length] = '\0';
}

static void put_block(const pare_node *node, int indent, int block, pare_text *out);

/* The value of an entry whose "key:" or "-" has just been written, `used` columns so far. */
static void put_entry(const pare_node *node, int indent, int block, size_t used, pare_text *out)
{
    const size_t start = out->length;
    const bool empty = node->form == PARE_NODE_SCALAR || node->count == 0;
    if (empty || block <= 0) {
        pare_text_put(out, " ", 1);
        const bool fit = used < WIDTH && put_flow(node, start, WIDTH - used, out) && !out->failed;
        if (fit || empty || out->failed)
            return;
        cut(out, start);
    }
    const bool in_list = !node->key;
    if (in_list) {
        pare_text_put(out, " ", 1);
        put_block(node, indent + 2, block - 1, out);
        return;
    }
    /* A list's entries stand under their key, a map's are pushed in. */
    const int inner = node->form == PARE_NODE_LIST ? indent : indent + 2;
    pare_text_put(out, "\n", 1);
    put_blanks(inner, out);
    put_block(node, inner, block - 1, out);
}

static void put_block(const pare_node *node, int indent, int block, pare_text *out)
{
    for (const pare_node *child = node->first; child; child = child->next) {
        if (child != node->first) {
            pare_text_put(out, "\n", 1);
            put_blanks(indent, out);
        }
        const size_t start = out->length;
        if (child->key) {
            put_scalar(child->key, out);
            pare_text_put(out, ":", 1);
        } else {
            pare_text_put(out, "-", 1);
        }
        put_entry(child, indent, block, (size_t)indent + characters(out, start), out);
    }
}

void pare_tree_write(const pare_node *node, int block, pare_text *out)
{
    const size_t start = out->length;
    if (node->form == PARE_NODE_SCALAR || node->count == 0 || block <= 0) {
        if (put_flow(node, start, WIDTH, out) || node->form == PARE_NODE_SCALAR || node->count == 0)
            return;
        cut(out, start);
    }
    put_block(node, 0, block - 1, out);
}

void pare_tree_write_line(const pare_node *node, pare_text *out)
{
    put_flow(node, out->length, SIZE_MAX, out);
}

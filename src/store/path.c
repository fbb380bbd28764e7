/* path.c: see path.h. */
#include "store/path.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "store/tree_edit.h"

enum { VALUE_MOST = 64 << 10, SHOWN = 60 };

static pare_status refuse(const pare_path *path, pare_status status, const char *text,
                          pare_error *err)
{
    const bool cut = strlen(path->word) > SHOWN;
    return pare_fail(err, status, "%.*s%s: %s", SHOWN, path->word, cut ? "..." : "", text);
}

/* ---- words ---- */

static pare_status read_key(pare_arena *arena, pare_path *path, size_t length, pare_error *err)
{
    if (length >= PARE_TREE_KEY)
        return refuse(path, PARE_BAD_DATA, "a key this long is none", err);
    char *key = pare_arena_copy(arena, path->word, length);
    if (!key)
        return pare_no_memory(err);
    if (!pare_tree_is_line(key))
        return refuse(path, PARE_BAD_DATA, "a key is letters, digits, '-', '_' and '.'", err);
    for (char *at = key; at;) {
        char *dot = strchr(at, '.');
        if (dot)
            *dot = '\0';
        if (!*at)
            return refuse(path, PARE_BAD_DATA, "an empty key; right would be like mass, or mass.u",
                          err);
        if (path->segments == PARE_PATH_MOST)
            return refuse(path, PARE_BAD_DATA, "a key of more than 8 steps; nothing is so deep",
                          err);
        path->segment[path->segments++] = at;
        at = dot ? dot + 1 : NULL;
    }
    return PARE_OK;
}

/* Places a value's nodes at the word. Its depth is limited by the reader of trees. */
static const pare_node *placed(pare_arena *arena, const pare_node *node, int line)
{
    pare_node *copy = pare_node_without(arena, node, NULL);
    if (!copy)
        return NULL;
    copy->text = node->text;
    copy->line = copy->key_line = line;
    for (pare_node *one = copy->first; one; one = one->next) {
        const pare_node *inner = placed(arena, one, line);
        if (!inner)
            return NULL;
        one->first = inner->first;
        one->line = one->key_line = line;
    }
    return copy;
}

static pare_status read_flow(pare_arena *arena, pare_path *path, pare_error *err)
{
    char name[PARE_TREE_KEY];
    const pare_node *root = NULL;
    pare_path_text(path, name);
    const pare_status status =
        pare_tree_parse(path->text, strlen(path->text), name, arena, &root, err);
    if (status != PARE_OK)
        return status;
    path->value = placed(arena, root, path->line);
    return path->value ? PARE_OK : pare_no_memory(err);
}

static pare_status read_plain(pare_arena *arena, pare_path *path, const char *text, pare_error *err)
{
    size_t length = strlen(text);
    length = pare_text_trimmed(text, length);
    char *copy = pare_arena_copy(arena, text, length);
    pare_node *node = copy ? pare_node_made(arena, PARE_NODE_SCALAR, NULL, copy) : NULL;
    if (!node)
        return pare_no_memory(err);
    if (!pare_tree_is_line(copy))
        return refuse(path, PARE_BAD_DATA,
                      "a line break, control character or broken UTF-8 in a value; one line of "
                      "text is right",
                      err);
    node->line = node->key_line = path->line;
    path->value = node;
    return PARE_OK;
}

static pare_status read_word(pare_arena *arena, const char *like, pare_path *path, pare_error *err)
{
    const char *equals = strchr(path->word, '=');
    if (!equals || equals == path->word)
        return pare_fail(err, PARE_BAD_DATA, "'%.60s' is not KEY=VALUE, like %s", path->word, like);
    pare_status status = read_key(arena, path, (size_t)(equals - path->word), err);
    if (status != PARE_OK)
        return status;
    const char *text = equals + 1 + strspn(equals + 1, " ");
    if (!*text)
        return refuse(path, PARE_BAD_DATA, "no value; off would take the entry away", err);
    if (strlen(text) > VALUE_MOST)
        return refuse(path, PARE_BAD_DATA, "a value of more than 64 KiB; no entry is so long", err);
    if (strcmp(text, "off") == 0)
        return PARE_OK;
    path->text = text;
    return strchr("{[\"'", *text) ? read_flow(arena, path, err)
                                  : read_plain(arena, path, text, err);
}

pare_status pare_paths_read(pare_arena *arena, size_t count, const char *const word[],
                            const char *like, pare_path path[], pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t i = 0; i < count && status == PARE_OK; i++) {
        path[i] = (pare_path){.line = -(int)i - 1, .word = word[i]};
        status = read_word(arena, like, &path[i], err);
    }
    return status;
}

void pare_path_text(const pare_path *path, char text[PARE_TREE_KEY])
{
    size_t used = 0;
    text[0] = '\0';
    for (size_t i = 0; i < path->segments && used < PARE_TREE_KEY - 1; i++)
        used += (size_t)snprintf(text + used, PARE_TREE_KEY - used, "%s%s", i ? "." : "",
                                 path->segment[i]);
}

bool pare_path_under(pare_path *path, const char *segment)
{
    if (path->segments == PARE_PATH_MOST)
        return false;
    memmove(path->segment + 1, path->segment, path->segments * sizeof *path->segment);
    path->segment[0] = segment;
    path->segments++;
    return true;
}

pare_status pare_paths_order(size_t count, pare_path path[], pare_error *err)
{
    for (size_t i = 1; i < count; i++)
        for (size_t k = i; k > 0 && path[k].segments < path[k - 1].segments; k--) {
            const pare_path moved = path[k];
            path[k] = path[k - 1];
            path[k - 1] = moved;
        }
    for (size_t i = 1; i < count; i++)
        for (size_t k = 0; k < i; k++) {
            char one[PARE_TREE_KEY], two[PARE_TREE_KEY];
            pare_path_text(&path[i], one);
            pare_path_text(&path[k], two);
            if (strcmp(one, two) == 0)
                return pare_fail(err, PARE_BAD_DATA, "%s is given twice", one);
        }
    return PARE_OK;
}

/* ---- into a tree ---- */

/* The key under which a single value stands once something is said beside it, or NULL. */
static const char *key_of_single(const char *beside)
{
    static const char *const value[] = {"value", "u", "known"}, *const price[] = {"each", "sold_in",
                                                                                  "shipping",
                                                                                  "seller", "date"};
    for (size_t i = 0; i < sizeof value / sizeof *value; i++)
        if (strcmp(beside, value[i]) == 0)
            return "value";
    for (size_t i = 0; i < sizeof price / sizeof *price; i++)
        if (strcmp(beside, price[i]) == 0)
            return "each";
    return NULL;
}

static void put_in_order(pare_node *map, pare_node *entry, size_t keys, const char *const order[])
{
    size_t rank = 0;
    while (rank < keys && strcmp(order[rank], entry->key) != 0)
        rank++;
    pare_node **at = &map->first;
    if (pare_node_get(map, entry->key) || rank == keys) {
        pare_node_set(map, entry);
        return;
    }
    for (; *at; at = &(*at)->next) {
        size_t other = 0;
        while (other < keys && strcmp(order[other], (*at)->key) != 0)
            other++;
        if (other > rank)
            break;
    }
    entry->next = *at;
    *at = entry;
    map->count++;
}

/* The map under a key, to be changed; made where there is none or a single value. */
static pare_status step_into(pare_arena *arena, pare_node *map, const pare_path *path, size_t at,
                             size_t keys, const char *const order[], pare_node **into,
                             pare_error *err)
{
    const char *key = path->segment[at];
    const pare_node *there = pare_node_get(map, key);
    if (there && there->form == PARE_NODE_LIST)
        return refuse(path, PARE_BAD_DATA,
                      "a list stands there; right would be all of it, like KEY='[...]', or the "
                      "text in an editor",
                      err);
    const char *single =
        there && there->form == PARE_NODE_SCALAR ? key_of_single(path->segment[at + 1]) : NULL;
    if (there && there->form == PARE_NODE_SCALAR && !single)
        return refuse(path, PARE_BAD_DATA, "a single value stands there, with no keys below it",
                      err);
    if (there && !single) {
        *into = pare_node_branch(arena, map, key);
        return *into ? PARE_OK : pare_no_memory(err);
    }
    pare_node *made = pare_node_made(arena, PARE_NODE_MAP, key, NULL);
    pare_node *value = single ? pare_node_made(arena, PARE_NODE_SCALAR, single, there->text) : NULL;
    if (!made || (single && !value))
        return pare_no_memory(err);
    made->line = made->key_line = path->line;
    if (value)
        pare_node_set(made, value);
    put_in_order(map, made, keys, order);
    *into = made;
    return PARE_OK;
}

static pare_status nothing_there(const pare_path *path, const pare_node *map, size_t at,
                                 pare_error *err)
{
    const char *names[64];
    size_t count = 0;
    char text[200];
    for (const pare_node *one = map ? map->first : NULL; one && count < 64; one = one->next)
        if (one->key)
            names[count++] = one->key;
    const char *near = pare_nearest(path->segment[at], count, names);
    if (near)
        snprintf(text, sizeof text, "nothing there to take away; did you mean %s?", near);
    else
        snprintf(text, sizeof text, "nothing there to take away");
    return refuse(path, PARE_UNKNOWN, text, err);
}

static pare_status take_away(pare_arena *arena, pare_node *root, const pare_path *path,
                             pare_error *err)
{
    pare_node *level[PARE_PATH_MOST + 1] = {root};
    size_t depth = 0;
    for (; depth + 1 < path->segments; depth++) {
        const pare_node *there = pare_node_get(level[depth], path->segment[depth]);
        if (!there || there->form != PARE_NODE_MAP)
            return nothing_there(path, level[depth], depth, err);
        level[depth + 1] = pare_node_branch(arena, level[depth], path->segment[depth]);
        if (!level[depth + 1])
            return pare_no_memory(err);
    }
    if (!pare_node_get(level[depth], path->segment[depth]))
        return nothing_there(path, level[depth], depth, err);
    for (;; depth--) {
        pare_node **at = &level[depth]->first;
        while (strcmp((*at)->key, path->segment[depth]) != 0)
            at = &(*at)->next;
        *at = (*at)->next;
        if (--level[depth]->count > 0 || depth == 0)
            return PARE_OK;
    }
}

pare_status pare_path_put(pare_arena *arena, pare_node *root, const pare_path *path, size_t keys,
                          const char *const order[], pare_error *err)
{
    if (!path->value)
        return take_away(arena, root, path, err);
    pare_node *map = root;
    pare_status status = PARE_OK;
    size_t at = 0;
    for (; at + 1 < path->segments && status == PARE_OK; at++)
        status = step_into(arena, map, path, at, at ? 0 : keys, order, &map, err);
    if (status != PARE_OK)
        return status;
    pare_node *entry = pare_arena_zeros(arena, sizeof *entry);
    if (!entry)
        return pare_no_memory(err);
    *entry = *path->value;
    entry->key = path->segment[at];
    entry->next = NULL;
    put_in_order(map, entry, at ? 0 : keys, order);
    return PARE_OK;
}

const pare_node *pare_path_find(const pare_node *root, const pare_path *path, size_t segments)
{
    for (size_t i = 0; i < segments && root; i++)
        root = pare_node_get(root, path->segment[i]);
    return root;
}
